/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-load.h"

G_BEGIN_DECLS

/**
 * RwArrival: what takes longest to reach a device.
 * @talker: who sends it, the first of those that take equally long; RW_NONE = nothing reaches it over the network
 * @delay_ns: the planning delay over the longer of its ways: not a proven bound, since bunched packets can take longer
 */
typedef struct
{
  guint talker;
  double delay_ns;
  double packet_time_ns;
} RwArrival;

RwArrival *rw_arrivals_new (const RwNet *net, const RwPaths *paths, const RwLca *lca, const RwStreams *streams,
                            const RwDelays *delays);
int rw_arrival_safe_us (const RwArrival *arrival);

G_END_DECLS
