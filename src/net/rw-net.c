/* SPDX-License-Identifier: MIT */
#include "rw-net-private.h"

#include <string.h>

/* Each part's ports are looked up by name once for every cable end: too often for a walk of the list. */
static void
add_port_names (RwNet *net, guint index)
{
  const RwPart *part = g_ptr_array_index (net->priv->parts, index);
  RwIdMap *names = &net->priv->port_names[index];

  rw_id_map_init (names, rw_part_n_ports (part));
  for (guint i = 0; i < rw_part_n_ports (part); i++)
    rw_id_map_put (names, rw_part_port (part, i)->name, GUINT_TO_POINTER (i + 1));
}

/* Index among the ports of @device of the one called @port, or -1. */
int
rw_net_port_index (const RwNet *net, guint device, const char *port)
{
  return GPOINTER_TO_INT (rw_id_map_find (&net->priv->port_names[net->priv->device_part[device]], port)) - 1;
}

/* The data of @indices, which lives as long as @net. */
const guint *
rw_net_keep_indices (RwNet *net, GArray *indices)
{
  gpointer data = g_array_free (indices, FALSE);

  if (data != NULL)
    g_ptr_array_add (net->priv->indices, data);
  return data;
}

static void
add_ports (RwNet *net)
{
  guint port = 0;

  for (guint d = 0; d < net->n_devices; d++)
    net->n_ports += rw_part_n_ports (net->devices[d].part);
  net->ports = g_new0 (RwNetPort, net->n_ports);
  for (guint d = 0; d < net->n_devices; d++)
    {
      RwNetDevice *device = &net->devices[d];

      device->first_port = port;
      device->n_ports = rw_part_n_ports (device->part);
      for (guint i = 0; i < device->n_ports; i++, port++)
        net->ports[port] = (RwNetPort) { d, rw_part_port (device->part, i), RW_NONE, 0 };
    }
}

static void
add_parts (RwNet *net, const RwRig *rig, RwIdMap *part_ids)
{
  RwItem *const *parts = rw_rig_items (rig, RW_ITEM_PART);
  guint n = rw_rig_n (rig, RW_ITEM_PART);

  rw_id_map_init (part_ids, n);
  net->priv->port_names = g_new (RwIdMap, n);
  for (guint i = 0; i < n; i++)
    {
      g_ptr_array_add (net->priv->parts, rw_item_ref (parts[i]));
      rw_id_map_put (part_ids, parts[i]->key, GUINT_TO_POINTER (i));
      add_port_names (net, i);
    }
}

/* What a device does not say for itself, the system says for all. */
static void
settle (RwNetDevice *net_device, const RwSystem *system)
{
  const RwDevice *device = net_device->device;
  const struct { int *held, own, common; gboolean has; } settings[] = {
    { &net_device->sample_rate_hz, device->sample_rate_hz, system->sample_rate_hz,
      rw_item_has (device, RW_DEVICE_SAMPLE_RATE_HZ) },
    { &net_device->word_bits, device->word_bits, system->word_bits, rw_item_has (device, RW_DEVICE_WORD_BITS) },
    { &net_device->receive_latency_us, device->receive_latency_us, system->receive_latency_us,
      rw_item_has (device, RW_DEVICE_RECEIVE_LATENCY_US) },
    { &net_device->clock_domain, device->clock.domain, system->clock_domain,
      rw_record_has (&device->clock, RW_CLOCK_DOMAIN) },
  };

  for (guint i = 0; i < G_N_ELEMENTS (settings); i++)
    *settings[i].held = settings[i].has ? settings[i].own : settings[i].common;
  net_device->querier = device->querier;
}

static void
add_devices (RwNet *net, const RwRig *rig)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_DEVICE);
  g_auto (RwIdMap) part_ids;

  add_parts (net, rig, &part_ids);
  net->n_devices = rw_rig_n (rig, RW_ITEM_DEVICE);
  net->devices = g_new0 (RwNetDevice, net->n_devices);
  net->priv->device_part = g_new (guint, net->n_devices);
  rw_id_map_init (&net->priv->device_ids, net->n_devices);
  for (guint d = 0; d < net->n_devices; d++)
    {
      RwNetDevice *device = &net->devices[d];
      const RwDevice *ahead = (const RwDevice *) rw_items_ahead (items, net->n_devices, d);

      if (ahead != NULL)
        {
          __builtin_prefetch (ahead->item.key);
          __builtin_prefetch (ahead->part);
        }
      device->device = rw_item_ref (items[d]);
      net->priv->device_part[d] = GPOINTER_TO_UINT (rw_id_map_find (&part_ids, device->device->part));
      device->part = g_ptr_array_index (net->priv->parts, net->priv->device_part[d]);
      device->mode = rw_device_mode (device->device, device->part);
      device->forwards = rw_part_forwards (device->part);
      device->system = RW_NONE;
      settle (device, rw_rig_system (rig));
      rw_id_map_put (&net->priv->device_ids, items[d]->key, GUINT_TO_POINTER (d + 1));
    }
  add_ports (net);
}

static gboolean
is_called (const RwNet *net, guint device, const char *id)
{
  return device < net->n_devices && strcmp (rw_item_key (net->devices[device].device), id) == 0;
}

/* As rw_net_find_device(), for a walk in file order. */
guint
rw_net_guess_device (const RwNet *net, const char *id, RwNetGuess *guess)
{
  guint next = guess->devices[0] + 1;

  for (guint i = 0; i < 2; i++)
    if (strcmp (guess->ids[i], id) == 0)
      return guess->devices[i];
  *guess = (RwNetGuess){ { id, guess->ids[0] },
                         { is_called (net, next, id) ? next : rw_net_find_device (net, id), guess->devices[0] } };
  return guess->devices[0];
}

static guint
port_of_end (const RwNet *net, const RwEnd *end, RwNetGuess *guess)
{
  guint device = rw_net_guess_device (net, end->device, guess);
  int index = device == RW_NONE ? -1 : rw_net_port_index (net, device, end->port);

  /* A rig takes no cable whose ends are not there. */
  g_assert (index >= 0);
  return net->devices[device].first_port + (guint) index;
}

static void
count_cable (RwNet *net, const RwNetCable *cable)
{
  guint a = net->ports[cable->port[0]].device, b = net->ports[cable->port[1]].device;

  if (!cable->audio)
    return;
  net->devices[a].n_audio_cables++;
  if (b != a)
    net->devices[b].n_audio_cables++;
}

static void
measure_cable (RwNet *net, RwNetCable *net_cable)
{
  const RwCable *cable = net_cable->cable;
  int from_mbps = net->ports[net_cable->port[0]].port->speed_mbps, to_mbps = net->ports[net_cable->port[1]].port->speed_mbps;

  net_cable->run = (RwRun){ .medium = (RwMedium) cable->medium, .grade = rw_cable_grade (cable),
                            .conductor = (RwConductor) cable->conductor, .mbps = (guint) MIN (from_mbps, to_mbps),
                            .length_m = cable->length_m };
}

/* A cable from a port to itself can be drawn, but never carries. */
static void
plug_cable (RwNet *net, guint c)
{
  RwNetCable *cable = &net->cables[c];
  gboolean first = cable->port[0] != cable->port[1];

  cable->audio = TRUE;
  for (guint end = 0; end < 2; end++)
    {
      RwNetPort *port = &net->ports[cable->port[end]];

      if (port->n_cables++ == 0)
        port->cable = c;
      first = first && port->cable == c;
      cable->audio = cable->audio && port->port->side != RW_SIDE_AUX;
    }
  cable->carries = cable->audio && first;
}

/* The other device stands for the cable once they are gathered under the one that comes first in the file. */
static void
mark_twins (RwNet *net, const guint *cables, guint n, guint *counts)
{
  for (guint step = 0; step < 3; step++)
    for (guint i = 0; i < n; i++)
      {
        RwNetCable *cable = &net->cables[cables[i]];
        guint other = MAX (net->ports[cable->port[0]].device, net->ports[cable->port[1]].device);

        if (step == 0)
          counts[other]++;
        else if (step == 1)
          cable->twin = counts[other] > 1;
        else
          counts[other] = 0;
      }
}

static guint
first_device (const RwNet *net, guint cable)
{
  const guint *ports = net->cables[cable].port;

  return MIN (net->ports[ports[0]].device, net->ports[ports[1]].device);
}

/* Of the cables that may be twins, having no label, leaves it to those that are. */
static void
find_twins (RwNet *net)
{
  g_autofree guint *start = g_new0 (guint, net->n_devices + 1), *counts = g_new0 (guint, net->n_devices + 1);
  g_autofree guint *cables = g_new (guint, net->n_cables);

  for (guint c = 0; c < net->n_cables; c++)
    if (net->cables[c].twin)
      start[first_device (net, c) + 1]++;
  for (guint d = 0; d < net->n_devices; d++)
    start[d + 1] += start[d];
  for (guint c = 0; c < net->n_cables; c++)
    if (net->cables[c].twin)
      cables[start[first_device (net, c)]++] = c;
  for (guint d = 0, from = 0; d < net->n_devices; from = start[d++])
    mark_twins (net, cables + from, start[d] - from, counts);
}

static void
fetch_cable (const RwCable *cable)
{
  const char *texts[] = { cable->item.key, cable->from.device, cable->from.port, cable->to.device, cable->to.port,
                          cable->label };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    __builtin_prefetch (texts[i]);
}

static void
add_cables (RwNet *net, const RwRig *rig)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_CABLE);
  RwNetGuess from = RW_NET_NO_GUESS, to = RW_NET_NO_GUESS;

  net->n_cables = rw_rig_n (rig, RW_ITEM_CABLE);
  net->cables = g_new0 (RwNetCable, net->n_cables);
  rw_id_map_init (&net->priv->cable_ids, net->n_cables);
  for (guint c = 0; c < net->n_cables; c++)
    {
      const RwCable *item = rw_item_ref (items[c]);
      const RwCable *ahead = (const RwCable *) rw_items_ahead (items, net->n_cables, c);

      if (ahead != NULL)
        fetch_cable (ahead);
      net->cables[c].cable = item;
      net->cables[c].port[0] = port_of_end (net, &item->from, &from);
      net->cables[c].port[1] = port_of_end (net, &item->to, &to);
      rw_id_map_put (&net->priv->cable_ids, items[c]->key, GUINT_TO_POINTER (c + 1));
      measure_cable (net, &net->cables[c]);
      plug_cable (net, c);
      count_cable (net, &net->cables[c]);
      net->cables[c].twin = !rw_cable_has_label (item);
    }
  find_twins (net);
}

/**
 * rw_net_new: what layer 2 makes of @rig. Near-linear in the number of devices and cables, except
 * that each closing cable costs a bounded search for its shortest way round.
 * Returns: (transfer full)
 */
RwNet *
rw_net_new (const RwRig *rig)
{
  RwNet *net = g_new0 (RwNet, 1);

  net->priv = g_new0 (struct _RwNetPrivate, 1);
  g_atomic_ref_count_init (&net->priv->refs);
  net->priv->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_item_unref);
  net->priv->indices = g_ptr_array_new_with_free_func (g_free);
  add_devices (net, rig);
  add_cables (net, rig);
  net->priv->rows = rw_rows_new (rig, net);
  rw_net_add_nodes (net);
  rw_net_add_links (net);
  rw_net_add_networks (net);
  net->priv->tree = rw_tree_new (net);
  rw_net_add_loops (net);
  net->priv->forecast = rw_forecast_new (rig, net);
  return net;
}

RwNet *
rw_net_ref (RwNet *net)
{
  g_return_val_if_fail (net != NULL, NULL);
  g_atomic_ref_count_inc (&net->priv->refs);
  return net;
}

static void
free_private (struct _RwNetPrivate *priv)
{
  rw_id_map_clear (&priv->device_ids);
  rw_id_map_clear (&priv->cable_ids);
  for (guint i = 0; i < priv->parts->len; i++)
    rw_id_map_clear (&priv->port_names[i]);
  g_free (priv->port_names);
  g_free (priv->device_part);
  rw_rows_free (priv->rows);
  g_free (priv->port_members);
  g_free (priv->members);
  g_free (priv->node_place);
  g_free (priv->link_place);
  rw_forecast_free (priv->forecast);
  rw_tree_free (priv->tree);
  g_ptr_array_unref (priv->parts);
  g_ptr_array_unref (priv->indices);
  g_free (priv);
}

void
rw_net_unref (RwNet *net)
{
  if (net == NULL || !g_atomic_ref_count_dec (&net->priv->refs))
    return;
  free_private (net->priv);
  for (guint d = 0; d < net->n_devices; d++)
    rw_item_unref ((RwDevice *) net->devices[d].device);
  for (guint c = 0; c < net->n_cables; c++)
    rw_item_unref ((RwCable *) net->cables[c].cable);
  g_free (net->devices);
  g_free (net->ports);
  g_free (net->cables);
  g_free (net->nodes);
  g_free (net->links);
  g_free (net->networks);
  g_free (net->systems);
  g_free (net->loops);
  g_free (net->adjacency_start);
  g_free (net->adjacency);
  g_free (net);
}

/* Stored as index + 1, so that nothing found gives RW_NONE. */
static guint
find_id (const RwIdMap *ids, const char *id)
{
  return GPOINTER_TO_UINT (rw_id_map_find (ids, id)) - 1;
}

guint
rw_net_find_device (const RwNet *net, const char *id)
{
  return find_id (&net->priv->device_ids, id);
}

guint
rw_net_find_cable (const RwNet *net, const char *id)
{
  return find_id (&net->priv->cable_ids, id);
}

guint
rw_net_find_port (const RwNet *net, const char *device, const char *port)
{
  guint d = rw_net_find_device (net, device);
  int index = d == RW_NONE ? -1 : rw_net_port_index (net, d, port);

  return index < 0 ? RW_NONE : net->devices[d].first_port + index;
}

/**
 * rw_net_port_node: the node that a frame meets which comes in at @port with @tag (or RW_UNTAGGED).
 * Returns: a node, or RW_NONE where such a frame is dropped
 */
guint
rw_net_port_node (const RwNet *net, guint port, int tag)
{
  guint n;
  const RwNetMember *members = rw_net_port_members (net, port, &n);

  for (guint low = 0, high = n; low < high;)
    {
      guint middle = low + (high - low) / 2;

      if (members[middle].tag == tag)
        return members[middle].node;
      if (members[middle].tag < tag)
        low = middle + 1;
      else
        high = middle;
    }
  return RW_NONE;
}

/**
 * rw_net_other_node: the far end of @link, seen from @node, which must be one of its ends.
 */
guint
rw_net_other_node (const RwNet *net, guint link, guint node)
{
  const guint *ends = net->links[link].node;

  return ends[0] == node ? ends[1] : ends[0];
}

/**
 * rw_net_shares_network: whether the hosts of two devices hear each other in one network at least.
 * Switches and converters have no host.
 */
gboolean
rw_net_shares_network (const RwNet *net, guint device_a, guint device_b)
{
  const RwNetDevice *a = &net->devices[device_a], *b = &net->devices[device_b];

  /* A device has two nodes with its host at most, and they come first. */
  for (guint i = a->first_node; i < a->first_node + a->n_nodes && net->nodes[i].host; i++)
    for (guint k = b->first_node; k < b->first_node + b->n_nodes && net->nodes[k].host; k++)
      if (net->nodes[i].network == net->nodes[k].network)
        return TRUE;
  return FALSE;
}

/**
 * rw_net_tree: the spanning tree over the physical switch boxes; lives as long as @net.
 */
const RwTree *
rw_net_tree (const RwNet *net)
{
  return net->priv->tree;
}
