/* SPDX-License-Identifier: MIT */
#include "rw-hops.h"

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
  const RwPaths *paths = rw_net_forecast (net)->paths;
  const RwNetDevice *a = &net->devices[from], *b = &net->devices[to];
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));
  guint least = RW_NONE;

  g_array_set_size (cables, 0);
  for (guint i = a->first_node; i < a->first_node + a->n_nodes; i++)
    for (guint k = b->first_node; k < b->first_node + b->n_nodes; k++)
      {
        guint hops;

        if (!is_of_device (a, &net->nodes[i]) || !is_of_device (b, &net->nodes[k])
            || !rw_paths_find (net, paths, i, k, links))
          continue;
        hops = rw_paths_hops (net, i, links);
        if (hops >= least)
          continue;
        least = hops;
        note_cables (net, links, cables);
      }
  return least;
}
