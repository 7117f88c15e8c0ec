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
      double least = k == 0 || k + 2 == way->n ? MIN (RW_ROUTE_STUB, fabs (before)) : 0.1;

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

static double
coordinate (const Way *way, guint i)
{
  return fabs (way->p[i].x - way->p[i + 1].x) < 1e-6 ? way->p[i].x : way->p[i].y;
}

/* Whether piece @i of @a and piece @k of @b run the same way, side by side and not too far apart, so that they could change places. */
static gboolean
are_neighbours (const Way *a, guint i, const Way *b, guint k)
{
  gboolean upright = fabs (a->p[i].x - a->p[i + 1].x) < 1e-6;
  double apart = fabs (coordinate (a, i) - coordinate (b, k));
  RwPoint p = a->p[i], q = a->p[i + 1], r = b->p[k], t = b->p[k + 1];

  if (upright != (fabs (r.x - t.x) < 1e-6) || apart < 0.1 || apart > N_LANES * RW_ROUTE_LANE)
    return FALSE;
  return upright ? MIN (MAX (p.y, q.y), MAX (r.y, t.y)) >= MAX (MIN (p.y, q.y), MIN (r.y, t.y))
    : MIN (MAX (p.x, q.x), MAX (r.x, t.x)) >= MAX (MIN (p.x, q.x), MIN (r.x, t.x));
}

static void
copy_way (Way *to, const Way *from)
{
  to->n = from->n;
  memcpy (to->p, from->p, sizeof *from->p * from->n);
}

/**
 * rw_route_untangle: lets pieces of two ways that cross change their lanes, where that is cheaper for both together.
 * The router must know neither of the two. TRUE if something changed.
 */
gboolean
rw_route_untangle (RwRouter *router, guint cable_a, Way *a, guint cable_b, Way *b)
{
  guint trouble;
  double best = rw_route_cost (router, cable_a, a->p, a->n, G_MAXDOUBLE, &trouble) + rw_route_cost (router, cable_b, b->p, b->n, G_MAXDOUBLE, &trouble)
    + rw_route_cost_between (a->p, a->n, b->p, b->n);
  Way new_a, new_b, best_a, best_b;
  gboolean changed = FALSE;

  for (guint i = 1; i + 2 < a->n; i++)
    for (guint k = 1; k + 2 < b->n; k++)
      {
        double by = coordinate (b, k) - coordinate (a, i), cost;

        if (!are_neighbours (a, i, b, k) || !shift_piece (a, i, by, &new_a) || !shift_piece (b, k, -by, &new_b))
          continue;
        cost = rw_route_cost_between (new_a.p, new_a.n, new_b.p, new_b.n);
        if (cost < best)
          cost += rw_route_cost (router, cable_a, new_a.p, new_a.n, best - cost, &trouble);
        if (cost < best)
          cost += rw_route_cost (router, cable_b, new_b.p, new_b.n, best - cost, &trouble);
        if (cost >= best - 1e-6)
          continue;
        best = cost;
        changed = TRUE;
        copy_way (&best_a, &new_a);
        copy_way (&best_b, &new_b);
      }
  if (changed)
    {
      copy_way (a, &best_a);
      copy_way (b, &best_b);
    }
  return changed;
}
