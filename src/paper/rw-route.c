/* SPDX-License-Identifier: MIT */
#include "rw-route-private.h"

#include <math.h>
#include <string.h>

#define NONE G_MAXUINT
#define CELL 50.0

RwRouter *
rw_router_new (guint n_cables)
{
  RwRouter *router = g_new0 (RwRouter, 1);

  router->boxes = rw_scene_index_new (CELL, &router->looks);
  router->lines = rw_scene_index_new (30.0, &router->looks);
  router->blocks = g_array_new (FALSE, TRUE, sizeof (Block));
  router->segments = g_array_new (FALSE, TRUE, sizeof (RwRouteSegment));
  router->free_segment = NONE;
  router->first_segment = g_array_sized_new (FALSE, FALSE, sizeof (guint), n_cables);
  for (guint i = 0; i < n_cables; i++)
    {
      guint none = NONE;

      g_array_append_val (router->first_segment, none);
    }
  router->search = rw_search_new ();
  return router;
}

void
rw_router_free (RwRouter *router)
{
  if (router == NULL)
    return;
  rw_scene_index_free (router->boxes);
  rw_scene_index_free (router->lines);
  g_array_unref (router->blocks);
  g_array_unref (router->segments);
  g_array_unref (router->first_segment);
  rw_search_free (router->search);
  g_free (router);
}

void
rw_router_set_budget (RwRouter *router, guint steps, guint64 looks)
{
  router->budget = steps;
  router->looks = (RwLooks) { 0, looks };
}

/* Whether all looks are taken, as where hundreds of things lie in one heap: nothing is worth a further one. */
gboolean
rw_router_is_spent (const RwRouter *router)
{
  return router->looks.n >= router->looks.limit;
}

/* For what else asks where things lie. */
RwLooks *
rw_router_looks (RwRouter *router)
{
  return &router->looks;
}

void
rw_router_forget_box (RwRouter *router, guint device)
{
  rw_scene_index_remove (router->boxes, device);
}

/* Puts @device's box, or puts it elsewhere. */
void
rw_router_set_box (RwRouter *router, guint device, RwRect box, RwRect bounds)
{
  Block block = { rw_rect_grown (bounds, CLEAR_HARD), rw_rect_grown (box, CLEAR_NEAR) };
  RwRect all = rw_rects_united (block.hard, block.near);

  rw_router_forget_box (router, device);
  if (device >= router->blocks->len)
    g_array_set_size (router->blocks, device + 1);
  g_array_index (router->blocks, Block, device) = block;
  router->extent = router->extent.w > 0.0 ? rw_rects_united (router->extent, all) : all;
  rw_scene_index_insert (router->boxes, device, all);
}

static guint
new_segment (RwRouter *router)
{
  guint number = router->free_segment;

  if (number != NONE)
    router->free_segment = g_array_index (router->segments, RwRouteSegment, number).next;
  else
    {
      number = router->segments->len;
      g_array_set_size (router->segments, number + 1);
    }
  return number;
}

/* Gives the way of @cable free again. */
void
rw_router_forget (RwRouter *router, guint cable)
{
  guint *first = &g_array_index (router->first_segment, guint, cable);

  while (*first != NONE)
    {
      guint number = *first;
      RwRouteSegment *s = &g_array_index (router->segments, RwRouteSegment, number);

      rw_scene_index_remove (router->lines, number);
      *first = s->next;
      s->next = router->free_segment;
      router->free_segment = number;
    }
}

/* Makes the way of @cable known to those that are routed after it. */
void
rw_router_take (RwRouter *router, guint cable, const RwPoint *points, guint n_points)
{
  rw_router_forget (router, cable);
  for (guint i = 0; i + 1 < n_points; i++)
    {
      RwPoint a = points[i], b = points[i + 1];
      gboolean upright = fabs (a.x - b.x) < 1e-6;
      guint number = new_segment (router);
      RwRouteSegment *s = &g_array_index (router->segments, RwRouteSegment, number);
      guint *first = &g_array_index (router->first_segment, guint, cable);

      s->cable = cable;
      s->number = i;
      s->upright = upright;
      s->at = upright ? a.x : a.y;
      s->lo = upright ? MIN (a.y, b.y) : MIN (a.x, b.x);
      s->hi = upright ? MAX (a.y, b.y) : MAX (a.x, b.x);
      s->next = *first;
      *first = number;
      rw_scene_index_insert (router->lines, number,
                             upright ? (RwRect) { s->at, s->lo, 0.0, s->hi - s->lo } : (RwRect) { s->lo, s->at, s->hi - s->lo, 0.0 });
    }
}

/* Box and tabs of @device, as last put. */
RwRect
rw_router_bounds (const RwRouter *router, guint device)
{
  return rw_rect_grown (g_array_index (router->blocks, Block, device).hard, -CLEAR_HARD);
}

/* Devices whose box may meet @area; in no order, valid until the router is asked again. */
const guint *
rw_router_boxes_in (RwRouter *router, RwRect area, guint *n)
{
  return rw_scene_index_query (router->boxes, area, n);
}

/* Pieces of cables that meet @area; likewise. */
const guint *
rw_router_segments_in (RwRouter *router, RwRect area, guint *n)
{
  return rw_scene_index_query (router->lines, area, n);
}

const RwRouteSegment *
rw_router_segment (const RwRouter *router, guint segment)
{
  return &g_array_index (router->segments, RwRouteSegment, segment);
}

/**
 * rw_route_stub: how far a cable at the port whose tip is @tip runs straight before it may turn, mm: half as far
 * where another box stands right in front.
 */
double
rw_route_stub (RwRouter *router, RwPoint tip, RwEdge edge)
{
  RwPoint end = rw_point_along (tip, edge, RW_ROUTE_STUB);
  guint n;
  const guint *ids = rw_scene_index_query (router->boxes, (RwRect) { end.x, end.y, 0.0, 0.0 }, &n);

  for (guint i = 0; i < n; i++)
    if (rw_rects_overlap (rw_rect_grown ((RwRect) { end.x, end.y, 0.0, 0.0 }, 0.01), rw_rect_grown (g_array_index (router->blocks, Block, ids[i]).hard, -0.02)))
      return RW_ROUTE_STUB / 2.0;
  return RW_ROUTE_STUB;
}

/* Keeps @way in @best if it is cheaper than what is there. */
void
rw_route_choose (RwRouteChoice *best, const Way *way, double cost, guint trouble)
{
  if (cost >= best->cost - 1e-6)
    return;
  best->cost = cost;
  best->trouble = trouble;
  best->way.n = way->n;
  memcpy (best->way.p, way->p, sizeof *way->p * way->n);
}

static void
search_wider (RwRouter *router, guint cable, const RwRouteJob *job, RwRouteChoice *best)
{
  static const double growths[] = { 35.0, 150.0, 1e9 };
  RwRect core = rw_rects_united (rw_rects_united (job->from_box, job->to_box), (RwRect) { job->from.x, job->from.y, 0.0, 0.0 });
  SearchJob search = { rw_point_along (job->from, job->from_edge, rw_route_stub (router, job->from, job->from_edge)),
                       rw_point_along (job->to, job->to_edge, rw_route_stub (router, job->to, job->to_edge)), job->from_edge, job->to_edge, FALSE, cable };

  for (guint i = 0; i < G_N_ELEMENTS (growths); i++)
    {
      RwRect all = rw_rect_grown (router->extent, 20.0);
      RwRect window = growths[i] > 1e6 ? all : rw_rect_grown (core, growths[i]);
      guint trouble;
      double cost;
      Way way;

      if (!rw_search_run (router, &search, window, &way))
        return;
      memmove (way.p + 1, way.p, sizeof *way.p * way.n);
      way.p[0] = job->from;
      way.p[way.n + 1] = job->to;
      way.n += 2;
      rw_route_tidy (&way);
      rw_route_part_lanes (router, cable, &way);
      cost = rw_route_cost (router, cable, way.p, way.n, best->cost, &trouble);
      rw_route_choose (best, &way, cost, trouble);
      if (!(best->trouble & TROUBLE_HARD))
        return;
    }
}

/**
 * rw_router_find: a right-angled way for @cable, as @job says, past all boxes and apart from the cables routed so
 * far, in few bends. Does not take it: rw_router_take(). Where no way round a box exists, or none was found within the
 * budget, it leads across. Free with g_free().
 */
RwPoint *
rw_router_find (RwRouter *router, guint cable, const RwRouteJob *job, guint *n_points)
{
  RwRouteChoice best;

  best.way.n = 0;
  best.cost = G_MAXDOUBLE;
  best.trouble = TROUBLE_HARD;
  if (job->n_bends > 0)
    rw_route_lead_through (router, cable, job, &best.way);
  else
    {
      rw_route_try_simple (router, cable, job, &best);
      if (best.trouble != 0)
        search_wider (router, cable, job, &best);
    }
  *n_points = best.way.n;
  return g_memdup2 (best.way.p, sizeof *best.way.p * best.way.n);
}

/* Whether the way of @cable crosses or touches anything, so that another might be better. */
gboolean
rw_router_is_disturbed (RwRouter *router, guint cable, const RwPoint *points, guint n_points)
{
  double bare = rw_route_bare_cost (points, n_points);
  guint trouble;

  return rw_route_cost (router, cable, points, n_points, bare + 0.1, &trouble) > bare + 0.05;
}

static int
compare_crossings (gconstpointer a, gconstpointer b)
{
  const RwRouteCrossing *x = a, *y = b;

  if (x->a != y->a)
    return x->a < y->a ? -1 : 1;
  return x->b < y->b ? -1 : x->b > y->b;
}

/* The cables that a piece of @cable crosses. */
static void
add_crossings (RwRouter *router, const RwRouteSegment *s, GArray *found)
{
  guint n;
  const guint *ids = rw_scene_index_query (router->lines, s->upright ? (RwRect) { s->at, s->lo, 0.0, s->hi - s->lo } : (RwRect) { s->lo, s->at, s->hi - s->lo, 0.0 }, &n);

  for (guint i = 0; i < n; i++)
    {
      const RwRouteSegment *o = &g_array_index (router->segments, RwRouteSegment, ids[i]);
      RwRouteCrossing crossing = { MIN (s->cable, o->cable), MAX (s->cable, o->cable) };

      if (o->cable != s->cable && o->upright != s->upright)
        g_array_append_val (found, crossing);
    }
}

/* Pairs of cables that cross, one at least among @cables; each once, in order. Free with g_array_unref(). */
GArray *
rw_router_crossings (RwRouter *router, const guint *cables, guint n)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (RwRouteCrossing));
  guint kept = 0;

  for (guint i = 0; i < n && !rw_router_is_spent (router); i++)
    for (guint s = g_array_index (router->first_segment, guint, cables[i]); s != NONE; s = g_array_index (router->segments, RwRouteSegment, s).next)
      add_crossings (router, &g_array_index (router->segments, RwRouteSegment, s), found);
  g_array_sort (found, compare_crossings);
  for (guint i = 0; i < found->len; i++)
    if (kept == 0 || compare_crossings (&g_array_index (found, RwRouteCrossing, i), &g_array_index (found, RwRouteCrossing, kept - 1)) != 0)
      g_array_index (found, RwRouteCrossing, kept++) = g_array_index (found, RwRouteCrossing, i);
  g_array_set_size (found, kept);
  return found;
}

/**
 * rw_router_untangle: lets two cables that cross change lanes, if the drawing gains by it; points move, their number
 * stays. The router knows the ways as they are afterwards. TRUE if something changed.
 */
gboolean
rw_router_untangle (RwRouter *router, guint cable_a, RwPoint *a, guint n_a, guint cable_b, RwPoint *b, guint n_b)
{
  Way way_a, way_b;
  gboolean changed;

  if (n_a > MAX_POINTS || n_b > MAX_POINTS || n_a < 4 || n_b < 4)
    return FALSE;
  rw_router_forget (router, cable_a);
  rw_router_forget (router, cable_b);
  way_a.n = n_a;
  way_b.n = n_b;
  memcpy (way_a.p, a, sizeof *a * n_a);
  memcpy (way_b.p, b, sizeof *b * n_b);
  changed = rw_route_untangle (router, cable_a, &way_a, cable_b, &way_b);
  memcpy (a, way_a.p, sizeof *a * n_a);
  memcpy (b, way_b.p, sizeof *b * n_b);
  rw_router_take (router, cable_a, a, n_a);
  rw_router_take (router, cable_b, b, n_b);
  return changed;
}
