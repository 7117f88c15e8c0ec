/* SPDX-License-Identifier: MIT */
#include "rw-arrival.h"

#include <math.h>

typedef struct
{
  const RwNet *net;
  const RwPaths *paths;
  const RwLca *lca;
  const RwDelays *delays;
} Ways;

/* The longest of the ways between the two, over whichever plane; 0 where there is none. */
static double
longest_way (const Ways *ways, guint from, guint to, double packet_time_ns)
{
  const RwNet *net = ways->net;
  const RwNetDevice *talker = &net->devices[from];
  double longest = 0;

  for (guint i = talker->first_node; i < talker->first_node + talker->n_nodes && net->nodes[i].host; i++)
    {
      guint node = rw_net_host_node (net, to, net->nodes[i].network);

      if (node != RW_NONE && ways->paths->part[node] == ways->paths->part[i])
        longest = MAX (longest, rw_delay_loaded_ns (ways->paths, ways->lca, ways->delays, i, node, packet_time_ns));
    }
  return longest;
}

/**
 * rw_arrivals_new:
 * @net: a net
 * @paths: its ways
 * @lca: over their forest
 * @streams: what is sent
 * @delays: under the load of all of it
 *
 * Returns: (transfer full): what takes longest, by device
 */
RwArrival *
rw_arrivals_new (const RwNet *net, const RwPaths *paths, const RwLca *lca, const RwStreams *streams,
                 const RwDelays *delays)
{
  const Ways ways = { net, paths, lca, delays };
  RwArrival *arrivals = g_new (RwArrival, net->n_devices + 1);

  for (guint i = 0; i < net->n_devices; i++)
    arrivals[i] = (RwArrival){ RW_NONE, 0, 0 };
  for (guint i = 0; i < streams->n_streams; i++)
    {
      const RwStream *stream = &streams->streams[i];

      for (guint k = 0; k < stream->listeners.n; k++)
        {
          guint listener = stream->listeners.v[k];
          double delay_ns = longest_way (&ways, stream->talker, listener, stream->frame.packet_time_ns);

          if (delay_ns > arrivals[listener].delay_ns)
            arrivals[listener] = (RwArrival){ stream->talker, delay_ns, stream->frame.packet_time_ns };
        }
    }
  return arrivals;
}

/* In whole microseconds. */
static int
packets_us (double packets, double packet_time_ns)
{
  return (int) ceil (packets * packet_time_ns / 1e3 - 1e-6);
}

/**
 * rw_arrival_safe_us:
 * @arrival: of a device
 *
 * Returns: the smallest receive latency in µs that is a whole multiple of the packet time and of which what takes longest
 *   leaves a tenth; 0 where nothing arrives
 */
int
rw_arrival_safe_us (const RwArrival *arrival)
{
  double packets;

  if (arrival->talker == RW_NONE)
    return 0;
  packets = ceil (arrival->delay_ns / arrival->packet_time_ns);
  while (packets_us (packets, arrival->packet_time_ns) * 900.0 < arrival->delay_ns)
    packets++;
  return packets_us (packets, arrival->packet_time_ns);
}
