/* SPDX-License-Identifier: MIT */
#include "rw-net-private.h"
#include "rw-union.h"

/* Numbers the sets by their first members: fills @numbers and returns how many there are. */
static guint
number_sets (guint *parents, guint n, guint *numbers)
{
  guint n_sets = 0;

  for (guint i = 0; i < n; i++)
    {
      guint head = rw_union_find (parents, i);

      numbers[i] = head == i ? n_sets++ : numbers[head];
    }
  return n_sets;
}

/* Numbers the sets of nodes that links join, by their first nodes. Returns: how many there are. */
guint
rw_net_find_components (const RwNet *net, guint *numbers)
{
  g_autofree guint *sets = rw_union_new (net->n_nodes);

  for (guint l = 0; l < net->n_links; l++)
    rw_union_join (sets, net->links[l].node[0], net->links[l].node[1]);
  return number_sets (sets, net->n_nodes, numbers);
}

static void
find_networks (RwNet *net)
{
  g_autofree guint *numbers = g_new (guint, net->n_nodes);

  net->n_networks = rw_net_find_components (net, numbers);
  for (guint i = 0; i < net->n_nodes; i++)
    net->nodes[i].network = numbers[i];
  net->networks = g_new0 (RwNetwork, net->n_networks);
}

/* Deals indices out to slices: those whose lengths are already counted get room in one array. */
static guint *
room (RwNet *net, guint n)
{
  GArray *indices = g_array_sized_new (FALSE, FALSE, sizeof (guint), MAX (n, 1));

  g_array_set_size (indices, n);
  return (guint *) rw_net_keep_indices (net, indices);
}

static void
slice_add (RwSlice *slice, guint index)
{
  ((guint *) slice->v)[slice->n++] = index;
}

static void
give_nodes (RwNet *net)
{
  const guint *next = room (net, net->n_nodes);

  net->priv->node_place = g_new (guint, net->n_nodes);
  for (guint i = 0; i < net->n_nodes; i++)
    net->networks[net->nodes[i].network].nodes.n++;
  for (guint k = 0; k < net->n_networks; k++)
    {
      rw_slice_place (&net->networks[k].nodes, &next);
      net->networks[k].nodes.n = 0;
    }
  for (guint i = 0; i < net->n_nodes; i++)
    {
      RwSlice *nodes = &net->networks[net->nodes[i].network].nodes;

      net->priv->node_place[i] = nodes->n;
      slice_add (nodes, i);
    }
}

static RwNetwork *
network_of_link (RwNet *net, guint link)
{
  return &net->networks[net->nodes[net->links[link].node[0]].network];
}

static void
give_links (RwNet *net)
{
  const guint *next = room (net, net->n_links);

  net->priv->link_place = g_new (guint, net->n_links);
  for (guint l = 0; l < net->n_links; l++)
    network_of_link (net, l)->links.n++;
  for (guint k = 0; k < net->n_networks; k++)
    {
      rw_slice_place (&net->networks[k].links, &next);
      net->networks[k].links.n = 0;
    }
  for (guint l = 0; l < net->n_links; l++)
    {
      RwSlice *links = &network_of_link (net, l)->links;

      net->priv->link_place[l] = links->n;
      slice_add (links, l);
    }
}

/* Nodes stand by device and links by cable, so repeats stand side by side. */
static void
give_devices_and_cables (RwNet *net)
{
  guint *devices = room (net, net->n_nodes), *cables = room (net, net->n_links);

  for (guint k = 0; k < net->n_networks; k++)
    {
      RwNetwork *network = &net->networks[k];

      network->devices.v = devices;
      for (guint i = 0; i < network->nodes.n; i++)
        {
          guint device = net->nodes[network->nodes.v[i]].device;

          if (network->devices.n == 0 || devices[network->devices.n - 1] != device)
            slice_add (&network->devices, device);
        }
      devices += network->devices.n;
      network->cables.v = cables;
      for (guint i = 0; i < network->links.n; i++)
        {
          guint cable = net->links[network->links.v[i]].cable;

          if (network->cables.n == 0 || cables[network->cables.n - 1] != cable)
            slice_add (&network->cables, cable);
        }
      cables += network->cables.n;
    }
}

static int
compare_guints (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return (x > y) - (x < y);
}

static void
add_vlans (const RwNet *net, RwNetwork *network, GArray *vlans)
{
  guint first = vlans->len, kept = first;
  guint *tags;

  for (guint i = 0; i < network->nodes.n; i++)
    {
      guint tag = net->nodes[network->nodes.v[i]].tag;

      /* Nearly all nodes of a network are of one VLAN. */
      if (tag != RW_UNTAGGED && (vlans->len == first || g_array_index (vlans, guint, vlans->len - 1) != tag))
        g_array_append_val (vlans, tag);
    }
  if (vlans->len == first)
    return;
  tags = &g_array_index (vlans, guint, 0);
  qsort (tags + first, vlans->len - first, sizeof (guint), compare_guints);
  for (guint i = first; i < vlans->len; i++)
    if (i == first || tags[i] != tags[kept - 1])
      tags[kept++] = tags[i];
  g_array_set_size (vlans, kept);
  network->vlans.n = kept - first;
}

static void
give_vlans (RwNet *net)
{
  GArray *vlans = g_array_new (FALSE, FALSE, sizeof (guint));
  const guint *next;

  for (guint k = 0; k < net->n_networks; k++)
    add_vlans (net, &net->networks[k], vlans);
  next = rw_net_keep_indices (net, vlans);
  for (guint k = 0; k < net->n_networks; k++)
    rw_slice_place (&net->networks[k].vlans, &next);
}

static void
find_planes (RwNet *net)
{
  for (guint i = 0; i < net->n_nodes; i++)
    {
      const RwNetNode *node = &net->nodes[i];
      const RwNetDevice *device = &net->devices[node->device];

      if (device->forwards || device->mode == RW_MODE_SINGLE)
        continue;
      net->networks[node->network].planes |= device->mode == RW_MODE_CHAIN          ? RW_PLANE_CHAIN
                                             : node->side == RW_SIDE_PRIMARY ? RW_PLANE_PRIMARY
                                                                             : RW_PLANE_SECONDARY;
    }
}

static void
find_systems (RwNet *net)
{
  g_autofree guint *sets = rw_union_new (net->n_networks);
  g_autofree guint *numbers = g_new (guint, net->n_networks);

  for (guint d = 0; d < net->n_devices; d++)
    {
      const RwNetDevice *device = &net->devices[d];

      if (!device->forwards && device->mode == RW_MODE_REDUNDANT && device->n_nodes == 2)
        rw_union_join (sets, net->nodes[device->first_node].network,
                       net->nodes[device->first_node + 1].network);
    }
  net->n_systems = number_sets (sets, net->n_networks, numbers);
  net->systems = g_new0 (RwNetSystem, net->n_systems);
  for (guint k = 0; k < net->n_networks; k++)
    net->networks[k].system = numbers[k];
}

static void
give_system_networks (RwNet *net)
{
  const guint *next = room (net, net->n_networks);

  for (guint k = 0; k < net->n_networks; k++)
    net->systems[net->networks[k].system].networks.n++;
  for (guint s = 0; s < net->n_systems; s++)
    {
      rw_slice_place (&net->systems[s].networks, &next);
      net->systems[s].networks.n = 0;
    }
  for (guint k = 0; k < net->n_networks; k++)
    slice_add (&net->systems[net->networks[k].system].networks, k);
}

static guint
system_of_node (const RwNet *net, guint node)
{
  return net->networks[net->nodes[node].network].system;
}

/* A chain device's host hears only its first node; a switch or converter may serve several systems. */
static void
set_device_system (RwNet *net, RwNetDevice *device)
{
  if (device->n_nodes == 0)
    return;
  device->system = system_of_node (net, device->first_node);
  for (guint i = 1; device->forwards && i < device->n_nodes; i++)
    if (system_of_node (net, device->first_node + i) != device->system)
      {
        device->system = RW_NONE;
        return;
      }
}

/* Calls @add for each system of each device, once; devices in file order. */
static void
each_system_device (RwNet *net, void (*add) (RwSlice *devices, guint device))
{
  g_autofree guint *last = g_new (guint, net->n_systems);

  for (guint s = 0; s < net->n_systems; s++)
    last[s] = RW_NONE;
  for (guint i = 0; i < net->n_nodes; i++)
    {
      guint s = system_of_node (net, i), device = net->nodes[i].device;

      if (last[s] != device)
        add (&net->systems[s].devices, device);
      last[s] = device;
    }
}

static void
slice_count (RwSlice *slice, guint index)
{
  slice->n++;
}

static void
give_system_devices (RwNet *net)
{
  const guint *next = room (net, net->n_nodes);

  each_system_device (net, slice_count);
  for (guint s = 0; s < net->n_systems; s++)
    {
      rw_slice_place (&net->systems[s].devices, &next);
      net->systems[s].devices.n = 0;
    }
  each_system_device (net, slice_add);
}

void
rw_net_add_networks (RwNet *net)
{
  find_networks (net);
  give_nodes (net);
  give_links (net);
  give_devices_and_cables (net);
  give_vlans (net);
  find_planes (net);
  find_systems (net);
  give_system_networks (net);
  give_system_devices (net);
  for (guint d = 0; d < net->n_devices; d++)
    set_device_system (net, &net->devices[d]);
}
