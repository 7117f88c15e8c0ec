/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-arrival.h"
#include "rw-clock.h"

G_BEGIN_DECLS

/* What the network will do once it is plugged in: everything that rests on its layer 2 and the patch. */
typedef struct
{
  RwPaths *paths;
  RwLca *lca; /* over the forest of @paths */
  RwClocks *clocks;
  RwStreams *streams;
  RwLoads *loads;
  RwDelays *delays;
  RwArrival *arrivals; /* by device */
  int link_ceiling_percent; /* how full a link may become, as the rig says */
} RwForecast;

RwForecast *rw_forecast_new (const RwRig *rig, const RwNet *net);
void rw_forecast_free (RwForecast *forecast);
const RwForecast *rw_net_forecast (const RwNet *net);

G_END_DECLS
