/* SPDX-License-Identifier: MIT */
#include "rw-route-private.h"

#include <math.h>

#define EPS 1e-6

/* Length of the piece of line @s within the open rectangle @r; < 0 if it does not enter. */
static double
length_within (const RwRouteSegment *s, RwRect r)
{
  double across = s->upright ? r.x : r.y, wide = s->upright ? r.w : r.h;
  double lo = s->upright ? r.y : r.x, hi = lo + (s->upright ? r.h : r.w);

  if (s->at <= across + EPS || s->at >= across + wide - EPS)
    return -1.0;
  lo = MAX (lo, s->lo);
  hi = MIN (hi, s->hi);
  return hi - lo > EPS ? hi - lo : -1.0;
}

static RwRect
rect_of (const RwRouteSegment *s)
{
  return s->upright ? (RwRect) { s->at, s->lo, 0.0, s->hi - s->lo } : (RwRect) { s->lo, s->at, s->hi - s->lo, 0.0 };
}

static double
cost_of_boxes (RwRouter *router, const RwRouteSegment *s, guint *trouble)
{
  guint n;
  const guint *ids = rw_scene_index_query (router->boxes, rect_of (s), &n);
  double cost = 0.0;

  for (guint i = 0; i < n; i++)
    {
      const Block *block = &g_array_index (router->blocks, Block, ids[i]);
      double through = length_within (s, block->hard), by = length_within (s, block->near);

      if (through >= 0.0)
        {
          cost += COST_HARD + COST_HARD_MM * through;
          *trouble |= TROUBLE_HARD;
        }
      if (by >= 0.0)
        {
          cost += COST_NEAR + COST_NEAR_MM * by;
          *trouble |= TROUBLE_NEAR;
        }
    }
  return cost;
}

/* What it costs that @s meets @o, a piece of another cable. */
static double
cost_of_meeting (const RwRouteSegment *s, const RwRouteSegment *o, guint *trouble)
{
  double shared;

  if (o->upright != s->upright)
    return s->at > o->lo + EPS && s->at < o->hi - EPS && o->at > s->lo + EPS && o->at < s->hi - EPS ? COST_CROSS : 0.0;
  shared = MIN (o->hi, s->hi) - MAX (o->lo, s->lo);
  if (shared <= 0.1 || fabs (s->at - o->at) > RW_ROUTE_LANE - 0.1)
    return 0.0;
  *trouble |= TROUBLE_OVERLAP;
  return COST_OVERLAP + COST_OVERLAP_MM * shared;
}

static double
cost_of_lines (RwRouter *router, const RwRouteSegment *s, guint *trouble)
{
  guint n;
  const guint *ids = rw_scene_index_query (router->lines, rw_rect_grown (rect_of (s), RW_ROUTE_LANE - 0.1), &n);
  double cost = 0.0;

  for (guint i = 0; i < n; i++)
    {
      const RwRouteSegment *o = &g_array_index (router->segments, RwRouteSegment, ids[i]);

      if (o->cable != s->cable)
        cost += cost_of_meeting (s, o, trouble);
    }
  return cost;
}

/* The piece from @a to @b; at a port the stub, which has to be there, is left out. */
static gboolean
piece (RwPoint a, RwPoint b, double trim_a, double trim_b, RwRouteSegment *s)
{
  gboolean upright = fabs (a.x - b.x) < EPS;
  double from = upright ? a.y : a.x, to = upright ? b.y : b.x;

  s->upright = upright;
  s->at = upright ? a.x : a.y;
  s->lo = from < to ? from + trim_a : to + trim_b;
  s->hi = from < to ? to - trim_b : from - trim_a;
  return s->hi > s->lo - EPS;
}

/* Positive for a bend to one hand at @p[1], negative for the other. */
static double
hand (const RwPoint *p)
{
  return (p[1].x - p[0].x) * (p[2].y - p[1].y) - (p[1].y - p[0].y) * (p[2].x - p[1].x);
}

/**
 * rw_route_bare_cost: what the way of @n points @p costs on an empty sheet: length, bends, and a little for the width
 * of each turn back, so that a short cable turns close to its port and longer ones find room round it.
 */
double
rw_route_bare_cost (const RwPoint *p, guint n)
{
  double cost = n > 2 ? COST_BEND * (n - 2) : 0.0;

  for (guint i = 0; i + 1 < n; i++)
    {
      double length = fabs (p[i].x - p[i + 1].x) + fabs (p[i].y - p[i + 1].y);

      cost += length;
      if (i > 0 && i + 2 < n && hand (p + i - 1) * hand (p + i) > 0.0)
        cost += COST_TURN_MM * length;
    }
  return cost;
}

/**
 * rw_route_cost: what the way of @n points @p costs @cable among the boxes and the ways taken so far, in mm. Stops
 * and gives at least @limit once it is as dear as that; with a spent router sees nothing. @trouble tells what is wrong with it, crossings apart.
 */
double
rw_route_cost (RwRouter *router, guint cable, const RwPoint *p, guint n, double limit, guint *trouble)
{
  double cost = rw_route_bare_cost (p, n);

  *trouble = 0;
  /* Boxes first: there are fewer of them, and one in the way is dearest. */
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i + 1 < n && cost < limit && !rw_router_is_spent (router); i++)
      {
        RwRouteSegment s = { .cable = cable };

        if (piece (p[i], p[i + 1], i == 0 ? RW_ROUTE_STUB : 0.0, i + 2 == n ? RW_ROUTE_STUB : 0.0, &s))
          cost += pass == 0 ? cost_of_boxes (router, &s, trouble) : cost_of_lines (router, &s, trouble);
      }
  return cost;
}

/* rw_route_cost_between: what it costs that two ways cross or run too near, mm. */
double
rw_route_cost_between (const RwPoint *p, guint n, const RwPoint *q, guint m)
{
  double cost = 0.0;
  guint trouble = 0;

  for (guint i = 0; i + 1 < n; i++)
    for (guint k = 0; k + 1 < m; k++)
      {
        RwRouteSegment s = { 0 }, o = { 0 };

        if (piece (p[i], p[i + 1], 0.0, 0.0, &s) && piece (q[k], q[k + 1], 0.0, 0.0, &o))
          cost += cost_of_meeting (&s, &o, &trouble);
      }
  return cost;
}

/* Drops points that are double or lie on the straight between their neighbours. */
void
rw_route_tidy (Way *way)
{
  guint n = 0;

  for (guint i = 0; i < way->n; i++)
    {
      RwPoint p = way->p[i];

      while (n >= 2
             && ((fabs (way->p[n - 2].x - way->p[n - 1].x) < EPS && fabs (way->p[n - 1].x - p.x) < EPS
                  && (way->p[n - 1].y - way->p[n - 2].y) * (p.y - way->p[n - 1].y) >= 0.0)
                 || (fabs (way->p[n - 2].y - way->p[n - 1].y) < EPS && fabs (way->p[n - 1].y - p.y) < EPS
                     && (way->p[n - 1].x - way->p[n - 2].x) * (p.x - way->p[n - 1].x) >= 0.0)))
        n--;
      if (n == 0 || fabs (way->p[n - 1].x - p.x) > EPS || fabs (way->p[n - 1].y - p.y) > EPS || (i + 1 == way->n && n < 2))
        way->p[n++] = p;
    }
  way->n = n;
}
