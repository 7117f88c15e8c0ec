/* SPDX-License-Identifier: MIT */
#include "rw-forecast.h"

#include "rw-net-private.h"

RwForecast *
rw_forecast_new (const RwRig *rig, const RwNet *net)
{
  RwForecast *forecast = g_new0 (RwForecast, 1);

  forecast->paths = rw_paths_new (net);
  forecast->lca = rw_lca_new (forecast->paths->n_nodes, forecast->paths->parent, forecast->paths->depth, forecast->paths->order);
  forecast->clocks = rw_clocks_new (net);
  forecast->streams = rw_streams_new (rig, net);
  forecast->loads = rw_loads_new (net, forecast->paths, forecast->lca, forecast->streams);
  forecast->delays = rw_delays_new (net, forecast->paths, forecast->loads);
  forecast->arrivals = rw_arrivals_new (net, forecast->paths, forecast->lca, forecast->streams, forecast->delays);
  forecast->link_ceiling_percent = rw_rig_system (rig)->link_ceiling_percent;
  return forecast;
}

void
rw_forecast_free (RwForecast *forecast)
{
  g_free (forecast->arrivals);
  rw_delays_free (forecast->delays);
  rw_loads_free (forecast->loads);
  rw_streams_free (forecast->streams);
  rw_clocks_free (forecast->clocks);
  rw_lca_free (forecast->lca);
  rw_paths_free (forecast->paths);
  g_free (forecast);
}

/**
 * rw_net_forecast:
 *
 * Returns: (transfer none): what the network will do; lives as long as @net
 */
const RwForecast *
rw_net_forecast (const RwNet *net)
{
  return net->priv->forecast;
}
