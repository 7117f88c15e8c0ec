/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-route.h"

G_BEGIN_DECLS

/* What a way costs, in mm of cable that would be as bad: the taste of the drawing. */
#define COST_BEND 12.0
#define COST_TURN_MM 0.02   /* for each mm between two bends to the same hand */
#define COST_HARD 800.0     /* through a box or its tabs, and 20 for each mm */
#define COST_HARD_MM 20.0
#define COST_NEAR 3.0       /* close to a box, and 2 for each mm */
#define COST_NEAR_MM 2.0
#define COST_OVERLAP 40.0   /* nearer to another cable than a lane, and 1 for each mm */
#define COST_OVERLAP_MM 1.0
#define COST_CROSS 5.0      /* across another cable */

/* No line within this of a box and its tabs (hard), nor, if it can be helped, within this of a box (near). */
#define CLEAR_HARD 1.0
#define CLEAR_NEAR 5.0

/* Of a way; a cable is led through its first so many bends. */
#define MAX_POINTS 512
#define MAX_BENDS 64

typedef struct { RwPoint p[MAX_POINTS]; guint n; } Way;

/* The best way so far. */
typedef struct { Way way; double cost; guint trouble; } RwRouteChoice;

typedef struct { RwRect hard, near; } Block;

typedef struct _Search Search;

struct _RwRouter
{
  RwSceneIndex *boxes;     /* by device: the greater of hard and near */
  GArray *blocks;          /* of Block, by device */
  RwRect extent;           /* of all boxes that were ever set */
  RwSceneIndex *lines;     /* by segment */
  GArray *segments;        /* of RwRouteSegment */
  guint free_segment;
  GArray *first_segment;   /* by cable */
  guint budget;            /* of steps of search */
  RwLooks looks;           /* of all that asks where things lie, labels too */
  Search *search;
};

/* rw-route-cost.c */
double rw_route_bare_cost (const RwPoint *p, guint n);
enum { TROUBLE_HARD = 1 << 0, TROUBLE_NEAR = 1 << 1, TROUBLE_OVERLAP = 1 << 2 };
double rw_route_cost (RwRouter *router, guint cable, const RwPoint *p, guint n, double limit, guint *trouble);
double rw_route_cost_between (const RwPoint *p, guint n, const RwPoint *q, guint m);
void rw_route_tidy (Way *way);

/* rw-route.c */
double rw_route_stub (RwRouter *router, RwPoint tip, RwEdge edge);
void rw_route_choose (RwRouteChoice *best, const Way *way, double cost, guint trouble);

/* rw-route-simple.c */
void rw_route_try_simple (RwRouter *router, guint cable, const RwRouteJob *job, RwRouteChoice *best);

/* rw-route-bends.c */
void rw_route_lead_through (RwRouter *router, guint cable, const RwRouteJob *job, Way *way);

/* rw-route-search.c: from @from, going along @from_edge, to @to, arriving against @to_edge (or anyhow, if @any). */
typedef struct { RwPoint from, to; RwEdge from_edge, to_edge; gboolean any; guint cable; } SearchJob;
Search *rw_search_new (void);
void rw_search_free (Search *search);
gboolean rw_search_run (RwRouter *router, const SearchJob *job, RwRect window, Way *way);

/* rw-route-lane.c */
void rw_route_part_lanes (RwRouter *router, guint cable, Way *way);
gboolean rw_route_untangle (RwRouter *router, guint cable_a, Way *a, guint cable_b, Way *b);

G_END_DECLS
