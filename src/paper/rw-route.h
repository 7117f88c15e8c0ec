/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-scene-index.h"

G_BEGIN_DECLS

/* Least distance of lines that run side by side, and the least straight piece at a port, mm. */
#define RW_ROUTE_LANE 2.5
#define RW_ROUTE_STUB 2.5

/**
 * RwRouter: finds right-angled ways for cables between boxes and keeps them apart. It knows every box and every
 * way that was taken; cables are routed one after the other, so the same order gives the same drawing.
 */
typedef struct _RwRouter RwRouter;

/* From the tip @from that looks out of @from_edge to the tip @to; all in sheet mm. */
typedef struct
{
  RwPoint from, to;
  RwEdge from_edge, to_edge;
  RwRect from_box, to_box;
  const RwPoint *bends; /* to be led through, in this order */
  guint n_bends;
} RwRouteJob;

/* A straight piece of a cable's way. */
typedef struct
{
  guint cable;
  guint number;    /* which piece of it */
  gboolean upright;
  double at;       /* x of an upright piece, y of a level one */
  double lo, hi;   /* along it, lo <= hi */
  guint next;      /* of the same cable */
} RwRouteSegment;

/* Two cables that cross, a < b. */
typedef struct { guint a, b; } RwRouteCrossing;

RwRouter *rw_router_new (guint n_cables);
void rw_router_free (RwRouter *router);
/* How many steps of search, and looks at what lies where, all routes together may take until the next call; beyond, ways
 * are simple ones, which may cross anything. */
void rw_router_set_budget (RwRouter *router, guint steps, guint64 looks);
gboolean rw_router_is_spent (const RwRouter *router);
RwLooks *rw_router_looks (RwRouter *router);
void rw_router_set_box (RwRouter *router, guint device, RwRect box, RwRect bounds);
void rw_router_forget_box (RwRouter *router, guint device);
void rw_router_take (RwRouter *router, guint cable, const RwPoint *points, guint n_points);
void rw_router_forget (RwRouter *router, guint cable);
RwPoint *rw_router_find (RwRouter *router, guint cable, const RwRouteJob *job, guint *n_points);
gboolean rw_router_is_disturbed (RwRouter *router, guint cable, const RwPoint *points, guint n_points);
GArray *rw_router_crossings (RwRouter *router, const guint *cables, guint n);
gboolean rw_router_untangle (RwRouter *router, guint cable_a, RwPoint *a, guint n_a, guint cable_b, RwPoint *b, guint n_b);
RwRect rw_router_bounds (const RwRouter *router, guint device);
const guint *rw_router_boxes_in (RwRouter *router, RwRect area, guint *n);
const guint *rw_router_segments_in (RwRouter *router, RwRect area, guint *n);
const RwRouteSegment *rw_router_segment (const RwRouter *router, guint segment);
RwPoint *rw_route_loose (RwPoint from, RwEdge edge, RwPoint to, guint *n_points);

static inline RwPoint
rw_edge_outward (RwEdge edge)
{
  return (RwPoint) { edge == RW_EDGE_LEFT ? -1.0 : edge == RW_EDGE_RIGHT ? 1.0 : 0.0,
                     edge == RW_EDGE_TOP ? -1.0 : edge == RW_EDGE_BOTTOM ? 1.0 : 0.0 };
}

static inline RwPoint
rw_point_along (RwPoint p, RwEdge edge, double by)
{
  RwPoint d = rw_edge_outward (edge);

  return (RwPoint) { p.x + d.x * by, p.y + d.y * by };
}

G_END_DECLS
