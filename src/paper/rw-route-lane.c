/* SPDX-License-Identifier: MIT */
#include "rw-route-private.h"

#include <math.h>
#include <string.h>

#define N_LANES 12

/* Shifts piece @i of @way, between two bends, sideways by @by. FALSE if its neighbours would turn round or a stub get too short. */
static gboolean
shift_piece (const Way *way, guint i, double by, Way *shifted)
{
  gboolean upright = fabs (way->p[i].x - way->p[i + 1].x) < 1e-6;

  shifted->n = way->n;
  memcpy (shifted->p, way->p, sizeof *way->p * way->n);
  for (guint k = i; k <= i + 1; k++)
    if (upright)
      shifted->p[k].x += by;
    else
      shifted->p[k].y += by;
  for (guint k = i - 1; k <= i + 1; k += 2)
    {
      RwPoint a = way->p[k], b = way->p[k + 1], c = shifted->p[k], d = shifted->p[k + 1];
      double before = upright ? b.x - a.x : b.y - a.y, after = upright ? d.x - c.x : d.y - c.y;
      double least = k == 0 || k + 2 == way->n ? RW_ROUTE_STUB : 0.1;

      if (before * after <= 0.0 || fabs (after) < least - 1e-6)
        return FALSE;
    }
  return TRUE;
}

/**
 * rw_route_part_lanes: moves the pieces of @way between its bends into lanes of their own, where they run too near to
 * other cables or where another lane is cheaper for another reason.
 */
void
rw_route_part_lanes (RwRouter *router, guint cable, Way *way)
{
  guint trouble;
  double best = rw_route_cost (router, cable, way->p, way->n, G_MAXDOUBLE, &trouble);

  for (guint i = 1; i + 2 < way->n; i++)
    {
      Way chosen, shifted;
      gboolean moved = FALSE;

      for (guint k = 1; k <= N_LANES; k++)
        {
          double by = RW_ROUTE_LANE * (k % 2 == 1 ? (double) ((k + 1) / 2) : -(double) (k / 2)), cost;

          if (!shift_piece (way, i, by, &shifted))
            continue;
          cost = rw_route_cost (router, cable, shifted.p, shifted.n, best, &trouble);
          if (cost < best - 1e-6)
            {
              best = cost;
              moved = TRUE;
              chosen.n = shifted.n;
              memcpy (chosen.p, shifted.p, sizeof *shifted.p * shifted.n);
            }
        }
      if (moved)
        {
          way->n = chosen.n;
          memcpy (way->p, chosen.p, sizeof *chosen.p * chosen.n);
        }
    }
}
