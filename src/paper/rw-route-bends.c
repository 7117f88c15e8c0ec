/* SPDX-License-Identifier: MIT */
#include "rw-route-private.h"

#include <math.h>
#include <string.h>

static RwRect
spanned (RwPoint a, RwPoint b)
{
  return (RwRect) { MIN (a.x, b.x), MIN (a.y, b.y), fabs (a.x - b.x), fabs (a.y - b.y) };
}

/* The direction in which @way arrives at its last point. */
static RwEdge
heading (const Way *way, RwEdge otherwise)
{
  RwPoint to = way->p[way->n - 1];

  for (guint i = way->n - 1; i > 0; i--)
    {
      RwPoint p = way->p[i - 1];

      if (fabs (to.x - p.x) > 1e-6)
        return to.x > p.x ? RW_EDGE_RIGHT : RW_EDGE_LEFT;
      if (fabs (to.y - p.y) > 1e-6)
        return to.y > p.y ? RW_EDGE_BOTTOM : RW_EDGE_TOP;
    }
  return otherwise;
}

/* Appends the leg that a search finds; FALSE if none. Leaves room for corners at every bend that may follow. */
static gboolean
search_leg (RwRouter *router, const SearchJob *job, Way *way)
{
  Way leg;

  if (!rw_search_run (router, job, rw_rect_grown (spanned (job->from, job->to), 60.0), &leg)
      || way->n + leg.n + 2 * MAX_BENDS + 16 > MAX_POINTS)
    return FALSE;
  memcpy (way->p + way->n, leg.p + 1, sizeof *leg.p * (leg.n - 1));
  way->n += leg.n - 1;
  return TRUE;
}

/* The better of the two corners of a leg with one bend at most, 0 or 1; -1 if both go back or across a box. */
static int
choose_corner (RwRouter *router, guint cable, RwPoint from, RwEdge edge, RwPoint to)
{
  RwPoint d = rw_edge_outward (edge), corner[2] = { { to.x, from.y }, { from.x, to.y } };
  double best = G_MAXDOUBLE;
  int chosen = -1;

  for (int i = 0; i < 2; i++)
    {
      RwPoint first = fabs (corner[i].x - from.x) + fabs (corner[i].y - from.y) > 1e-6 ? corner[i] : to;
      double ahead = (first.x - from.x) * d.x + (first.y - from.y) * d.y;
      double aside = fabs ((first.x - from.x) * d.y) + fabs ((first.y - from.y) * d.x);
      guint trouble;
      double cost = rw_route_cost (router, cable, (RwPoint[]) { from, corner[i], to }, 3, G_MAXDOUBLE, &trouble) + (aside > 1e-6 ? COST_BEND : 0.0);

      if (ahead > -1e-6 && !(trouble & TROUBLE_HARD) && cost < best)
        {
          best = cost;
          chosen = i;
        }
    }
  return chosen;
}

static void
lead_to (RwRouter *router, guint cable, Way *way, RwEdge edge, RwPoint to)
{
  RwPoint from = way->p[way->n - 1];
  SearchJob job = { from, to, edge, RW_EDGE_LEFT, TRUE, cable };
  int corner = choose_corner (router, cable, from, edge, to);

  if (corner < 0 && search_leg (router, &job, way))
    return;
  way->p[way->n++] = corner <= 0 ? (RwPoint) { to.x, from.y } : (RwPoint) { from.x, to.y };
  way->p[way->n++] = to;
}

/* From bend to bend as the person wants it; in at the far end square to its edge. */
void
rw_route_lead_through (RwRouter *router, guint cable, const RwRouteJob *job, Way *way)
{
  SearchJob end = { .to = rw_point_along (job->to, job->to_edge, rw_route_stub (router, job->to, job->to_edge)), .to_edge = job->to_edge, .cable = cable };

  way->n = 0;
  way->p[way->n++] = job->from;
  way->p[way->n++] = rw_point_along (job->from, job->from_edge, rw_route_stub (router, job->from, job->from_edge));
  for (guint i = 0; i < MIN (job->n_bends, MAX_BENDS); i++)
    lead_to (router, cable, way, heading (way, job->from_edge), job->bends[i]);
  end.from = way->p[way->n - 1];
  end.from_edge = heading (way, job->from_edge);
  if (!search_leg (router, &end, way))
    lead_to (router, cable, way, end.from_edge, end.to);
  way->p[way->n++] = job->to;
  rw_route_tidy (way);
}
