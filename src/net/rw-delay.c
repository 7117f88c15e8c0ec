/* SPDX-License-Identifier: MIT */
#include "rw-load.h"

/* Planning values: the delay limit of copper (TIA-568, from memory) and n = 1.468 of glass, in ns for a metre. */
#define COPPER_NS_PER_M 5.4
#define FIBRE_NS_PER_M 4.9

/* A length that is not known yet counts as none. */
static double
cable_ns (const RwNet *net, guint link)
{
  const RwRun *run = &net->cables[net->links[link].cable].run;

  return run->length_m * (run->medium == RW_MEDIUM_COPPER ? COPPER_NS_PER_M : FIBRE_NS_PER_M);
}

static double
bridge_ns (const RwNet *net, guint node)
{
  return net->nodes[node].kind == RW_NODE_BRIDGE ? net->devices[net->nodes[node].device].part->fabric_ns : 0;
}

/* Behind one full-size frame that is already on the port; the gap after it counts with the frame that follows. */
static double
egress_ns (const RwNet *net, guint link)
{
  return rw_frame_bits (RW_MAX_FRAME_BYTES) * 1e3 / net->cables[net->links[link].cable].run.mbps + cable_ns (net, link);
}

static guint
direction_from (const RwNet *net, guint link, guint node)
{
  return net->links[link].node[0] == node ? 0 : 1;
}

/**
 * rw_delays_new:
 * @net: a net
 * @paths: its ways
 * @loads: what the streams put on them
 *
 * Sums from each part's root, so that the delay of any way is a few additions.
 *
 * Returns: (transfer full): the sums
 */
RwDelays *
rw_delays_new (const RwNet *net, const RwPaths *paths, const RwLoads *loads)
{
  RwDelays *delays = g_new0 (RwDelays, 1);

  delays->up = g_new0 (double, paths->n_nodes);
  delays->down = g_new0 (double, paths->n_nodes);
  delays->bridge = g_new0 (double, paths->n_nodes);
  for (guint i = 0; i < paths->n_nodes; i++)
    {
      guint node = paths->order[i], parent = paths->parent[node], link = paths->parent_link[node];
      const RwLoad *load;

      delays->bridge[node] = bridge_ns (net, node);
      if (parent == RW_NONE)
        continue;
      load = &loads->loads[2 * net->links[link].cable];
      delays->bridge[node] += delays->bridge[parent];
      delays->up[node] = delays->up[parent] + egress_ns (net, link) + load[direction_from (net, link, node)].burst_ns;
      delays->down[node] = delays->down[parent] + egress_ns (net, link) + load[direction_from (net, link, parent)].burst_ns;
    }
  return delays;
}

void
rw_delays_free (RwDelays *delays)
{
  g_free (delays->up);
  g_free (delays->down);
  g_free (delays->bridge);
  g_free (delays);
}

/**
 * rw_delay_loaded_ns:
 * @paths: the ways
 * @lca: over their forest
 * @delays: the sums
 * @from: node of the talker
 * @to: node of the listener, in the same part
 * @packet_time_ns: of the stream
 *
 * The planning delay of a stream that is among the loads: one packet time at the talker; for each port that the
 * frame leaves by, the talker's own included: its own serialisation, one full-size frame already on the port,
 * every other media frame that shares that egress once; for each bridge passed its forwarding delay; the cables.
 * Its own serialisation is part of the loads' burst, so it needs no term of its own.
 *
 * Returns: nanoseconds
 */
double
rw_delay_loaded_ns (const RwPaths *paths, const RwLca *lca, const RwDelays *delays, guint from, guint to,
                    double packet_time_ns)
{
  guint top = rw_lca_find (lca, from, to);
  double above = paths->parent[top] != RW_NONE ? delays->bridge[paths->parent[top]] : 0;

  return packet_time_ns + delays->up[from] - delays->up[top] + delays->down[to] - delays->down[top]
         + delays->bridge[from] + delays->bridge[to] - delays->bridge[top] - above;
}

/**
 * rw_delay_serial_ns:
 * @net: the net
 * @links: (element-type guint): a way
 * @frame: what is sent
 *
 * Returns: nanoseconds that the frame's own bits, with the gap before them, take on all links of the way, one after
 *   the other
 */
double
rw_delay_serial_ns (const RwNet *net, const GArray *links, RwFrame frame)
{
  double sum = 0;

  for (guint i = 0; i < links->len; i++)
    {
      guint link = g_array_index (links, guint, i);
      guint tag = net->links[link].tag != RW_UNTAGGED ? RW_VLAN_TAG_BYTES : 0;
      sum += rw_frame_slot_bits (frame.frame_bytes + tag) * 1e3 / net->cables[net->links[link].cable].run.mbps;
    }
  return sum;
}

/**
 * rw_delay_alone_ns:
 * @net: the net
 * @from: node of the talker
 * @links: (element-type guint): the way, as rw_paths_find() gives it
 * @frame: what is sent
 *
 * The planning delay on a network without other media; see rw_delay_loaded_ns().
 *
 * Returns: nanoseconds
 */
double
rw_delay_alone_ns (const RwNet *net, guint from, const GArray *links, RwFrame frame)
{
  double sum = frame.packet_time_ns + bridge_ns (net, from) + rw_delay_serial_ns (net, links, frame);
  guint node = from;

  for (guint i = 0; i < links->len; i++)
    {
      guint link = g_array_index (links, guint, i);

      node = rw_net_other_node (net, link, node);
      sum += egress_ns (net, link) + bridge_ns (net, node);
    }
  return sum;
}
