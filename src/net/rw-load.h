/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-lca.h"
#include "rw-stream.h"

G_BEGIN_DECLS

/* What all streams together put on one direction of one cable. */
typedef struct
{
  double mbps;      /* on the wire, gaps, preambles and tags included */
  double burst_ns;  /* one frame of each stream, one after the other with their gaps: a whole queue */
  guint n_streams;
} RwLoad;

typedef struct
{
  guint n_cables;
  RwLoad *loads; /* [2 × cable + direction]: direction 0 = from → to */
} RwLoads;

RwLoads *rw_loads_new (const RwNet *net, const RwPaths *paths, const RwLca *lca, const RwStreams *streams);
void rw_loads_free (RwLoads *loads);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLoads, rw_loads_free)
double rw_load_percent (const RwNet *net, const RwLoads *loads, guint cable, guint direction);
gboolean rw_network_prunes (const RwNet *net, guint network);

/* rw-delay.c: planning delays (not proven bounds: bunched packets can take longer). */
typedef struct
{
  double *up;     /* by node: ns of all egresses and cables on the way from it to the root of its part */
  double *down;   /* by node: likewise from the root to it */
  double *bridge; /* by node: ns of the bridges from the root to it, both included */
} RwDelays;

RwDelays *rw_delays_new (const RwNet *net, const RwPaths *paths, const RwLoads *loads);
void rw_delays_free (RwDelays *delays);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwDelays, rw_delays_free)
double rw_delay_loaded_ns (const RwPaths *paths, const RwLca *lca, const RwDelays *delays, guint from, guint to,
                           double packet_time_ns);
double rw_delay_serial_ns (const RwNet *net, const GArray *links, RwFrame frame);
double rw_delay_alone_ns (const RwNet *net, guint from, const GArray *links, RwFrame frame);

G_END_DECLS
