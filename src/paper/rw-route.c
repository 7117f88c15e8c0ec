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

  router->boxes = rw_scene_index_new (CELL);
  router->lines = rw_scene_index_new (30.0);
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
rw_router_set_budget (RwRouter *router, guint steps)
{
  router->budget = steps;
}

static RwRect
united (RwRect a, RwRect b)
{
  double l = MIN (a.x, b.x), t = MIN (a.y, b.y);

  return (RwRect) { l, t, MAX (a.x + a.w, b.x + b.w) - l, MAX (a.y + a.h, b.y + b.h) - t };
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
  RwRect all = united (block.hard, block.near);

  rw_router_forget_box (router, device);
  if (device >= router->blocks->len)
    g_array_set_size (router->blocks, device + 1);
  g_array_index (router->blocks, Block, device) = block;
  router->extent = router->extent.w > 0.0 ? united (router->extent, all) : all;
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

/* The best simple way so far. The ways are thought in a frame in which the cable leaves along +u. */
typedef struct
{
  RwRouter *router;
  guint cable;
  RwEdge edge;       /* along which u points on the sheet */
  RwPoint a, b;      /* in the frame */
  int bu, bv;        /* the direction out of @b's edge, in the frame */
  double u_max;      /* of both boxes, in the frame */
  double v_min, v_max;
  Way best;
  double cost;
  guint trouble;
} Trial;

/* Turns between sheet and frame; its own inverse for left and right, and for top and bottom. */
static RwPoint
to_frame (RwEdge edge, RwPoint p)
{
  switch (edge)
    {
    case RW_EDGE_LEFT:
      return (RwPoint) { -p.x, p.y };
    case RW_EDGE_TOP:
      return (RwPoint) { -p.y, -p.x };
    case RW_EDGE_BOTTOM:
      return (RwPoint) { p.y, p.x };
    case RW_EDGE_RIGHT:
      return p;
    }
  g_return_val_if_reached (p);
}

static void
try_way (Trial *t, const RwPoint *p, guint n)
{
  double cost;
  guint trouble;
  Way way;

  way.n = n;
  for (guint i = 0; i < n; i++)
    way.p[i] = to_frame (t->edge, p[i]);
  rw_route_tidy (&way);
  cost = rw_route_cost (t->router, t->cable, way.p, way.n, t->cost, &trouble);
  if (cost >= t->cost - 1e-6)
    return;
  t->cost = cost;
  t->trouble = trouble;
  t->best.n = way.n;
  memcpy (t->best.p, way.p, sizeof *way.p * way.n);
}

static double
to_lane (double x)
{
  return round (x / RW_ROUTE_LANE) * RW_ROUTE_LANE;
}

/* k-th lane of 0, +1, −1, +2, … */
static double
lane (guint k)
{
  return RW_ROUTE_LANE * (k % 2 == 1 ? (double) ((k + 1) / 2) : -(double) (k / 2));
}

#define N_LANES 16

static void
try_z (Trial *t)
{
  double lo = t->a.x + RW_ROUTE_STUB, hi = t->b.x - RW_ROUTE_STUB;
  double mid = CLAMP (to_lane ((lo + hi) / 2.0), lo, hi);

  if (fabs (t->a.y - t->b.y) < 1e-6 && t->b.x >= t->a.x - 1e-6)
    try_way (t, (RwPoint[]) { t->a, t->b }, 2);
  if (hi < lo - 1e-6)
    return;
  for (guint k = 0; k < N_LANES + 2; k++)
    {
      double m = k == N_LANES ? lo : k > N_LANES ? hi : mid + lane (k);

      if (m >= lo - 1e-6 && m <= hi + 1e-6)
        try_way (t, (RwPoint[]) { t->a, { m, t->a.y }, { m, t->b.y }, t->b }, 4);
    }
}

static void
try_c (Trial *t)
{
  double m = MAX (t->a.x, t->b.x) + RW_ROUTE_STUB;

  for (guint k = 0; k < N_LANES / 2; k++, m += RW_ROUTE_LANE)
    try_way (t, (RwPoint[]) { t->a, { m, t->a.y }, { m, t->b.y }, t->b }, 4);
}

/* Out, along between or round the boxes, and in. */
static void
try_s (Trial *t)
{
  double base[3] = { to_lane ((t->a.y + t->b.y) / 2.0), t->v_min - CLEAR_NEAR, t->v_max + CLEAR_NEAR };
  double way[3] = { 0.0, -RW_ROUTE_LANE, RW_ROUTE_LANE };

  for (guint i = 0; i < G_N_ELEMENTS (base); i++)
    for (guint k = 0; k < N_LANES / 2; k++)
      {
        double n = base[i] + (way[i] == 0.0 ? lane (k) : k * way[i]);
        double u = t->a.x + RW_ROUTE_STUB + (k % 4) * RW_ROUTE_LANE;
        double w = t->b.x + t->bu * (RW_ROUTE_STUB + (k % 4) * RW_ROUTE_LANE);

        try_way (t, (RwPoint[]) { t->a, { u, t->a.y }, { u, n }, { w, n }, { w, t->b.y }, t->b }, 6);
      }
}

static void
try_l (Trial *t)
{
  double near_u = t->a.x + RW_ROUTE_STUB, near_v = t->b.y + t->bv * RW_ROUTE_STUB;
  double mid_u = MAX (near_u, to_lane ((t->a.x + t->b.x) / 2.0));
  double far_u = MAX (near_u, t->u_max + CLEAR_NEAR);
  double far_v = t->bv < 0 ? MIN (near_v, t->v_min - CLEAR_NEAR) : MAX (near_v, t->v_max + CLEAR_NEAR);
  double mid_v = to_lane ((t->a.y + t->b.y) / 2.0);

  if (t->b.x >= near_u - 1e-6 && t->bv * (t->a.y - near_v) >= -1e-6)
    try_way (t, (RwPoint[]) { t->a, { t->b.x, t->a.y }, t->b }, 3);
  if (t->bv * (mid_v - near_v) < 0.0)
    mid_v = near_v;
  for (guint k = 0; k < N_LANES / 2; k++)
    {
      double us[] = { near_u + k * RW_ROUTE_LANE, MAX (near_u, mid_u + lane (k)), far_u + k * RW_ROUTE_LANE };
      double out = t->bv * RW_ROUTE_LANE;
      double vs[] = { near_v + k * out, mid_v + (k / 2) * out, far_v + k * out };

      for (guint i = 0; i < G_N_ELEMENTS (us); i++)
        for (guint j = 0; j < G_N_ELEMENTS (vs); j++)
          try_way (t, (RwPoint[]) { t->a, { us[i], t->a.y }, { us[i], vs[j] }, { t->b.x, vs[j] }, t->b }, 5);
    }
}

static void
trial_init (Trial *t, RwRouter *router, guint cable, const RwRouteJob *job)
{
  RwRect all = united (job->from_box, job->to_box);
  RwPoint p = to_frame (job->from_edge, (RwPoint) { all.x, all.y });
  RwPoint q = to_frame (job->from_edge, (RwPoint) { all.x + all.w, all.y + all.h });
  RwPoint d = to_frame (job->from_edge, rw_edge_outward (job->to_edge));

  t->router = router;
  t->cable = cable;
  t->edge = job->from_edge;
  t->a = to_frame (job->from_edge, job->from);
  t->b = to_frame (job->from_edge, job->to);
  t->bu = (int) d.x;
  t->bv = (int) d.y;
  t->u_max = MAX (p.x, q.x);
  t->v_min = MIN (p.y, q.y);
  t->v_max = MAX (p.y, q.y);
  t->best.n = 0;
  t->cost = G_MAXDOUBLE;
  t->trouble = TROUBLE_HARD;
}

static void
try_simple (Trial *t)
{
  if (t->bu < 0)
    try_z (t);
  else if (t->bu > 0)
    try_c (t);
  else
    try_l (t);
  if (t->bu != 0)
    try_s (t);
}

static void
search_wider (Trial *t, const RwRouteJob *job)
{
  static const double growths[] = { 35.0, 150.0, 1e9 };
  RwRect core = united (united (job->from_box, job->to_box), (RwRect) { job->from.x, job->from.y, 0.0, 0.0 });
  SearchJob search = { rw_point_along (job->from, job->from_edge, RW_ROUTE_STUB),
                       rw_point_along (job->to, job->to_edge, RW_ROUTE_STUB), job->from_edge, job->to_edge, FALSE, t->cable };

  for (guint i = 0; i < G_N_ELEMENTS (growths); i++)
    {
      RwRect all = rw_rect_grown (t->router->extent, 20.0);
      RwRect window = growths[i] > 1e6 ? all : rw_rect_grown (core, growths[i]);
      guint trouble;
      double cost;
      Way way;

      if (!rw_search_run (t->router, &search, window, &way))
        return;
      memmove (way.p + 1, way.p, sizeof *way.p * way.n);
      way.p[0] = job->from;
      way.p[way.n + 1] = job->to;
      way.n += 2;
      rw_route_tidy (&way);
      rw_route_part_lanes (t->router, t->cable, &way);
      cost = rw_route_cost (t->router, t->cable, way.p, way.n, t->cost, &trouble);
      if (cost < t->cost - 1e-6)
        {
          t->best = way;
          t->cost = cost;
          t->trouble = trouble;
        }
      if (!(t->trouble & TROUBLE_HARD))
        return;
    }
}

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
static void
lead_through (RwRouter *router, guint cable, const RwRouteJob *job, Way *way)
{
  SearchJob end = { .to = rw_point_along (job->to, job->to_edge, RW_ROUTE_STUB), .to_edge = job->to_edge, .cable = cable };

  way->n = 0;
  way->p[way->n++] = job->from;
  way->p[way->n++] = rw_point_along (job->from, job->from_edge, RW_ROUTE_STUB);
  for (guint i = 0; i < MIN (job->n_bends, MAX_BENDS); i++)
    lead_to (router, cable, way, heading (way, job->from_edge), job->bends[i]);
  end.from = way->p[way->n - 1];
  end.from_edge = heading (way, job->from_edge);
  if (!search_leg (router, &end, way))
    lead_to (router, cable, way, end.from_edge, end.to);
  way->p[way->n++] = job->to;
  rw_route_tidy (way);
}

/**
 * rw_router_find: a right-angled way for @cable, as @job says, past all boxes and apart from the cables routed so
 * far, in few bends. Does not take it: rw_router_take(). Where no way round a box exists, or none was found within the
 * budget, it leads across. Free with g_free().
 */
RwPoint *
rw_router_find (RwRouter *router, guint cable, const RwRouteJob *job, guint *n_points)
{
  g_autofree Trial *t = g_new (Trial, 1);

  trial_init (t, router, cable, job);
  if (job->n_bends > 0)
    lead_through (router, cable, job, &t->best);
  else
    {
      try_simple (t);
      if (t->trouble != 0)
        search_wider (t, job);
    }
  *n_points = t->best.n;
  return g_memdup2 (t->best.p, sizeof *t->best.p * t->best.n);
}

/* Whether the way of @cable crosses or touches anything, so that another might be better. */
gboolean
rw_router_is_disturbed (RwRouter *router, guint cable, const RwPoint *points, guint n_points)
{
  double bare = COST_BEND * (MAX (n_points, 2) - 2);
  guint trouble;

  for (guint i = 0; i + 1 < n_points; i++)
    bare += fabs (points[i].x - points[i + 1].x) + fabs (points[i].y - points[i + 1].y);
  return rw_route_cost (router, cable, points, n_points, bare + 0.1, &trouble) > bare + 0.05;
}

/* rw_route_loose: the way of a cable in the air, without a look at what lies there; from @from, square to @edge. */
RwPoint *
rw_route_loose (RwPoint from, RwEdge edge, RwPoint to, guint *n_points)
{
  RwPoint a = to_frame (edge, from), b = to_frame (edge, to);
  gboolean ahead = b.x - a.x >= 2.0 * RW_ROUTE_STUB;
  double m = ahead ? (a.x + b.x) / 2.0 : a.x + RW_ROUTE_STUB;
  Way way = { { a, { m, a.y }, { m, b.y }, b }, 4 };

  if (ahead && fabs (b.y - a.y) > b.x - a.x)
    way = (Way) { { a, { b.x, a.y }, b }, 3 };
  for (guint i = 0; i < way.n; i++)
    way.p[i] = to_frame (edge, way.p[i]);
  rw_route_tidy (&way);
  *n_points = way.n;
  return g_memdup2 (way.p, sizeof *way.p * way.n);
}
