/* SPDX-License-Identifier: MIT */
#include "rw-hops.h"

#include "rw-rows.h"

/**
 * rw_net_first_controller:
 *
 * Returns: the controller with the lowest controller ID, else the first in the file; RW_NONE where there is none
 */
guint
rw_net_first_controller (const RwNet *net)
{
  guint best = RW_NONE;
  int best_id = 0;

  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwDevice *device = net->devices[i].device;
      int id = rw_item_has (device, RW_DEVICE_CONTROLLER_ID) ? device->controller_id : G_MAXINT;

      if (net->devices[i].part->kind != RW_PART_CONTROLLER || (best != RW_NONE && id >= best_id))
        continue;
      best = i;
      best_id = id;
    }
  return best;
}

/**
 * rw_net_lead_device:
 *
 * Returns: the clock leader that most devices follow, the first of them in the file; where nobody leads, the first
 *   controller or RW_NONE
 */
guint
rw_net_lead_device (const RwNet *net)
{
  const RwClocks *clocks = rw_net_forecast (net)->clocks;
  g_autofree guint *followers = g_new0 (guint, net->n_devices + 1);
  guint best = RW_NONE;

  for (guint i = 0; i < net->n_devices; i++)
    if (clocks->leader[i] != RW_NONE)
      followers[clocks->leader[i]]++;
  for (guint i = 0; i < net->n_devices; i++)
    if (followers[i] > (best != RW_NONE ? followers[best] : 0))
      best = i;
  return best != RW_NONE ? best : rw_net_first_controller (net);
}

/* A device's own interfaces and bridge; of a switch every VLAN. */
static gboolean
is_of_device (const RwNetDevice *device, const RwNetNode *node)
{
  return device->forwards || node->host;
}

/**
 * rw_net_hops_from:
 * @net: a net
 * @device: where the counting starts
 *
 * Returns: (transfer full): by node: how many bridges a frame passes from the device to there, both ends' own internal
 *   bridges included; RW_NONE where none gets. Free with g_free()
 */
guint *
rw_net_hops_from (const RwNet *net, guint device)
{
  const RwPaths *paths = rw_net_forecast (net)->paths;
  const RwNetDevice *d = &net->devices[device];
  guint *hops = g_new (guint, net->n_nodes + 1);

  for (guint i = 0; i < net->n_nodes; i++)
    hops[i] = RW_NONE;
  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (is_of_device (d, &net->nodes[i]))
      {
        g_autoptr (GArray) distances = rw_paths_distances (net, paths, i);

        for (guint k = 0; k < net->n_nodes; k++)
          hops[k] = MIN (hops[k], g_array_index (distances, guint, k));
      }
  return hops;
}

/**
 * rw_net_device_hops:
 * @net: a net
 * @hops: as rw_net_hops_from() gives it
 * @device: a device
 * @side: which of a redundant device's two interfaces; others have but one distance
 *
 * Returns: the hops to the device; RW_NONE where no frame gets there
 */
guint
rw_net_device_hops (const RwNet *net, const guint *hops, guint device, RwSide side)
{
  const RwNetDevice *d = &net->devices[device];
  guint least = RW_NONE;

  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (is_of_device (d, &net->nodes[i])
        && (d->forwards || d->mode != RW_MODE_REDUNDANT || net->nodes[i].side == side))
      least = MIN (least, hops[i]);
  return least;
}

static void
note_cables (const RwNet *net, const GArray *links, GArray *cables)
{
  g_array_set_size (cables, 0);
  for (guint i = 0; i < links->len; i++)
    g_array_append_val (cables, net->links[g_array_index (links, guint, i)].cable);
}

/* The way over the fewest bridges; @links, @from_node, @to_node: (out). */
static guint
find_way (const RwNet *net, guint from, guint to, GArray *links, guint *from_node, guint *to_node)
{
  const RwPaths *paths = rw_net_forecast (net)->paths;
  const RwNetDevice *a = &net->devices[from], *b = &net->devices[to];
  g_autoptr (GArray) tried = g_array_new (FALSE, FALSE, sizeof (guint));
  guint least = RW_NONE;

  for (guint i = a->first_node; i < a->first_node + a->n_nodes; i++)
    for (guint k = b->first_node; k < b->first_node + b->n_nodes; k++)
      {
        guint hops;

        if (!is_of_device (a, &net->nodes[i]) || !is_of_device (b, &net->nodes[k])
            || !rw_paths_find (net, paths, i, k, tried))
          continue;
        hops = rw_paths_hops (net, i, tried);
        if (hops >= least)
          continue;
        least = hops;
        *from_node = i;
        *to_node = k;
        g_array_set_size (links, 0);
        g_array_append_vals (links, tried->data, tried->len);
      }
  return least;
}

/**
 * rw_net_device_way:
 * @net: a net
 * @from: a device
 * @to: another
 * @cables: (element-type guint): set to the cables that a frame passes, in that order, over the fewest bridges
 *
 * Returns: how many bridges it passes, the ends' own included; RW_NONE where none gets there
 */
guint
rw_net_device_way (const RwNet *net, guint from, guint to, GArray *cables)
{
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));
  guint from_node, to_node, hops = find_way (net, from, to, links, &from_node, &to_node);

  note_cables (net, links, cables);
  return hops;
}

/* The frame of what one device sends to another; of anything it could send where it sends nothing. */
static RwFrame
frame_between (const RwRig *rig, const RwNet *net, guint from, guint to, gboolean *is_patched)
{
  const RwStreams *streams = rw_net_forecast (net)->streams;
  const RwNetDevice *talker = &net->devices[from];
  RwFrame frame = rw_frame_of (talker->sample_rate_hz, talker->word_bits, rw_rig_system (rig)->packet_time_us,
                               RW_STREAM_CHANNELS);

  *is_patched = FALSE;
  for (guint i = 0; i < streams->n_streams && !*is_patched; i++)
    for (guint j = 0; j < streams->streams[i].listeners.n && streams->streams[i].talker == from; j++)
      if (streams->streams[i].listeners.v[j] == to)
        {
          *is_patched = TRUE;
          frame = streams->streams[i].frame;
        }
  return frame;
}

/**
 * rw_net_delay_ns:
 * @rig: the rig
 * @net: its net
 * @from_node: a node
 * @to_node: another that its frames reach
 *
 * Returns: the planning delay of what the one's device sends to the other's, or of anything that it could send, with
 *   all that is patched on the way; ns
 */
double
rw_net_delay_ns (const RwRig *rig, const RwNet *net, guint from_node, guint to_node)
{
  const RwForecast *f = rw_net_forecast (net);
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));
  gboolean is_patched;
  RwFrame frame = frame_between (rig, net, net->nodes[from_node].device, net->nodes[to_node].device, &is_patched);
  double delay = rw_delay_loaded_ns (f->paths, f->lca, f->delays, from_node, to_node, frame.packet_time_ns);

  if (is_patched)
    return delay;
  /* a stream that is not among the loads brings its own serialisation along */
  rw_paths_find (net, f->paths, from_node, to_node, links);
  return delay + rw_delay_serial_ns (net, links, frame);
}

/**
 * rw_net_device_delay_ns:
 *
 * Returns: rw_net_delay_ns() over the way of rw_net_device_way(); below 0 where no frame gets there
 */
double
rw_net_device_delay_ns (const RwRig *rig, const RwNet *net, guint from, guint to)
{
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));
  guint from_node, to_node;

  return find_way (net, from, to, links, &from_node, &to_node) != RW_NONE ? rw_net_delay_ns (rig, net, from_node, to_node) : -1;
}

static gboolean
is_controller (const RwNet *net, guint device)
{
  return net->devices[device].part->kind == RW_PART_CONTROLLER;
}

/* By device: patch rows between it and @device. */
static guint *
count_rows (const RwNet *net, guint device)
{
  const RwRows *rows = rw_net_rows (net);
  guint *counts = g_new0 (guint, net->n_devices + 1);

  for (guint i = 0; i < rows->n; i++)
    {
      if (rows->from[i] == device && rows->to[i] < net->n_devices)
        counts[rows->to[i]]++;
      if (rows->to[i] == device && rows->from[i] < net->n_devices)
        counts[rows->from[i]]++;
    }
  return counts;
}

/**
 * rw_net_controller_of:
 *
 * Returns: the controller that most patch rows lead to or from; among equals the one over the fewest bridges, then the first
 *   in the file. RW_NONE for a controller, and where none is reached
 */
guint
rw_net_controller_of (const RwNet *net, guint device)
{
  g_autofree guint *rows = NULL, *hops = NULL;
  guint best = RW_NONE, least = RW_NONE;

  if (is_controller (net, device))
    return RW_NONE;
  rows = count_rows (net, device);
  hops = rw_net_hops_from (net, device);
  for (guint i = 0; i < net->n_devices; i++)
    {
      guint away;

      if (!is_controller (net, i))
        continue;
      away = MIN (rw_net_device_hops (net, hops, i, RW_SIDE_PRIMARY), rw_net_device_hops (net, hops, i, RW_SIDE_SECONDARY));
      if (away == RW_NONE || (best != RW_NONE && (rows[i] < rows[best] || (rows[i] == rows[best] && away >= least))))
        continue;
      best = i;
      least = away;
    }
  return best;
}
