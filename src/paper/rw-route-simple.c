/* SPDX-License-Identifier: MIT */
#include "rw-route-private.h"

#include <math.h>

/* The ways are thought in a frame in which the cable leaves along +u. */
typedef struct
{
  RwRouter *router;
  guint cable;
  RwEdge edge;       /* along which u points on the sheet */
  RwPoint a, b;      /* in the frame */
  int bu, bv;        /* the direction out of @b's edge, in the frame */
  double u_max;      /* of both boxes, in the frame */
  double v_min, v_max;
  double stub_a, stub_b;
  RwRouteChoice *best;
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
  cost = rw_route_cost (t->router, t->cable, way.p, way.n, t->best->cost, &trouble);
  rw_route_choose (t->best, &way, cost, trouble);
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
  double lo = t->a.x + t->stub_a, hi = t->b.x - t->stub_b;
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
  double m = MAX (t->a.x + t->stub_a, t->b.x + t->stub_b);

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
        double u = t->a.x + t->stub_a + (k % 4) * RW_ROUTE_LANE;
        double w = t->b.x + t->bu * (t->stub_b + (k % 4) * RW_ROUTE_LANE);

        try_way (t, (RwPoint[]) { t->a, { u, t->a.y }, { u, n }, { w, n }, { w, t->b.y }, t->b }, 6);
      }
}

static void
try_l (Trial *t)
{
  double near_u = t->a.x + t->stub_a, near_v = t->b.y + t->bv * t->stub_b;
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
trial_init (Trial *t, RwRouter *router, guint cable, const RwRouteJob *job, RwRouteChoice *best)
{
  RwRect all = rw_rects_united (job->from_box, job->to_box);
  RwPoint p = to_frame (job->from_edge, (RwPoint) { all.x, all.y });
  RwPoint q = to_frame (job->from_edge, (RwPoint) { all.x + all.w, all.y + all.h });
  RwPoint d = to_frame (job->from_edge, rw_edge_outward (job->to_edge));

  t->best = best;
  t->stub_a = rw_route_stub (router, job->from, job->from_edge);
  t->stub_b = rw_route_stub (router, job->to, job->to_edge);
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
}

/* Tries the ways with few bends, and leaves the best of them in @best. */
void
rw_route_try_simple (RwRouter *router, guint cable, const RwRouteJob *job, RwRouteChoice *best)
{
  Trial t;

  trial_init (&t, router, cable, job, best);
  if (t.bu < 0)
    try_z (&t);
  else if (t.bu > 0)
    try_c (&t);
  else
    try_l (&t);
  if (t.bu != 0)
    try_s (&t);
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
