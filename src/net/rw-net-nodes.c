/* SPDX-License-Identifier: MIT */
#include "rw-net-private.h"
#include "rw-union.h"

/* What a switch's port belongs to where the file does not say. */
#define DEFAULT_VLAN 1

/*
 * Nodes are numbered by device, but those of chain devices and converters depend on what their
 * neighbours send. So: first the tags that each other port puts on its cable, then the tags that
 * reach the devices which pass them on, then the nodes.
 */

typedef struct
{
  RwNet *net;
  RwNetMember *members; /* until its node is made, @node of a switch's is the VLAN */
  guint n_members, members_room;
  RwNetNode *nodes;
  guint n_nodes, nodes_room;
  guint *clouds;      /* union of devices that pass tags on and are cabled together */
  GArray *cloud_tags; /* guint64: cloud << 32 | tag, ascending, each once */
} Builder;

static int
compare_ints (gconstpointer a, gconstpointer b)
{
  int x = *(const int *) a, y = *(const int *) b;

  return (x > y) - (x < y);
}

static int
compare_uint64s (gconstpointer a, gconstpointer b)
{
  guint64 x = *(const guint64 *) a, y = *(const guint64 *) b;

  return (x > y) - (x < y);
}

/* Leaves each of a sorted array's values once. */
static void
unique_ints (GArray *sorted)
{
  guint kept = 0;

  for (guint i = 0; i < sorted->len; i++)
    if (i == 0 || g_array_index (sorted, int, i) != g_array_index (sorted, int, kept - 1))
      g_array_index (sorted, int, kept++) = g_array_index (sorted, int, i);
  g_array_set_size (sorted, kept);
}

/* There are about as many as ports, and calls to append them one by one would cost more than all the rest. */
static void
append_member (Builder *builder, RwNetMember member)
{
  if (builder->n_members == builder->members_room)
    {
      builder->members_room = 2 * builder->members_room + builder->net->n_ports + 1;
      builder->members = g_renew (RwNetMember, builder->members, builder->members_room);
    }
  builder->members[builder->n_members++] = member;
}

static void
begin_port (Builder *builder, guint port)
{
  builder->net->priv->port_members[port].first = builder->n_members;
}

static void
add_member (Builder *builder, guint port, int tag, guint node)
{
  append_member (builder, (RwNetMember){ tag, node });
  builder->net->priv->port_members[port].n++;
}

/* A trunk lists each VLAN under its own tag; an access port its one VLAN as untagged. */
static void
wire_switch_port (Builder *builder, guint port, const RwPortVlans *vlans)
{
  begin_port (builder, port);
  if (vlans == NULL)
    add_member (builder, port, RW_UNTAGGED, DEFAULT_VLAN);
  else if (!vlans->tagged)
    add_member (builder, port, RW_UNTAGGED, vlans->vlans[0]);
  else
    {
      g_autofree int *sorted = g_memdup2 (vlans->vlans, vlans->n * sizeof (int));

      qsort (sorted, vlans->n, sizeof (int), compare_ints);
      for (guint i = 0; i < vlans->n; i++)
        add_member (builder, port, sorted[i], sorted[i]);
    }
}

static void
wire_switch (Builder *builder, const RwNetDevice *device)
{
  RwNet *net = builder->net;
  const RwVlans *vlans = &device->device->port_vlans;
  g_autofree const RwPortVlans **of_port = g_new0 (const RwPortVlans *, device->n_ports);

  for (guint i = 0; i < vlans->n; i++)
    {
      int index = rw_net_port_index (net, (guint) (device - net->devices), vlans->ports[i].port);

      if (index >= 0)
        of_port[index] = &vlans->ports[i];
    }
  for (guint i = 0; i < device->n_ports; i++)
    if (net->ports[device->first_port + i].port->side != RW_SIDE_AUX)
      wire_switch_port (builder, device->first_port + i, of_port[i]);
}

/* Whether @port of a device that does not forward is one of its interfaces. */
static gboolean
is_interface (const RwNetDevice *device, const RwNetPort *port)
{
  return port->port->side == RW_SIDE_PRIMARY
         || (port->port->side == RW_SIDE_SECONDARY && device->mode == RW_MODE_REDUNDANT);
}

static void
wire_device (Builder *builder, const RwNetDevice *device)
{
  if (device->part->kind == RW_PART_SWITCH)
    {
      wire_switch (builder, device);
      return;
    }
  if (rw_net_device_passes (device))
    return;
  for (guint port = device->first_port; port < device->first_port + device->n_ports; port++)
    if (is_interface (device, &builder->net->ports[port]))
      {
        begin_port (builder, port);
        add_member (builder, port, RW_UNTAGGED, RW_NONE);
      }
}

/* Whether @port belongs to the bridge inside a chain device or converter. */
static gboolean
port_passes (const RwNet *net, guint port)
{
  const RwNetDevice *device = &net->devices[net->ports[port].device];

  return rw_net_device_passes (device) && net->ports[port].port->side != RW_SIDE_AUX;
}

static void
join_clouds (Builder *builder)
{
  const RwNet *net = builder->net;

  builder->clouds = rw_union_new (net->n_devices);
  for (guint c = 0; c < net->n_cables; c++)
    {
      const guint *port = net->cables[c].port;

      if (net->cables[c].carries && port_passes (net, port[0]) && port_passes (net, port[1]))
        rw_union_join (builder->clouds, net->ports[port[0]].device, net->ports[port[1]].device);
    }
}

static void
add_cloud_tag (Builder *builder, guint device, int tag)
{
  guint64 key = (guint64) rw_union_find (builder->clouds, device) << 32 | (guint) tag;

  g_array_append_val (builder->cloud_tags, key);
}

/* What the cable brings to a cloud from outside. */
static void
add_tags_of_cable (Builder *builder, const RwNetCable *cable)
{
  const RwNet *net = builder->net;

  for (guint end = 0; end < 2; end++)
    {
      guint inside = cable->port[end], n;
      const RwNetMembers *outside = &net->priv->port_members[cable->port[1 - end]];

      if (!cable->carries || !port_passes (net, inside))
        continue;
      n = outside->n;
      for (guint i = 0; i < n; i++)
        add_cloud_tag (builder, net->ports[inside].device,
                       builder->members[outside->first + i].tag);
    }
}

static void
sort_cloud_tags (GArray *tags)
{
  guint kept = 0;

  g_array_sort (tags, compare_uint64s);
  for (guint i = 0; i < tags->len; i++)
    if (i == 0 || g_array_index (tags, guint64, i) != g_array_index (tags, guint64, kept - 1))
      g_array_index (tags, guint64, kept++) = g_array_index (tags, guint64, i);
  g_array_set_size (tags, kept);
}

/*
 * Devices that pass tags on unchanged and are cabled together form a cloud: what reaches one reaches
 * all. Chain devices' own hosts send untagged frames.
 */
static void
flood_tags (Builder *builder)
{
  const RwNet *net = builder->net;
  g_autofree gboolean *reached = g_new0 (gboolean, net->n_devices);

  join_clouds (builder);
  builder->cloud_tags = g_array_new (FALSE, FALSE, sizeof (guint64));
  for (guint c = 0; c < net->n_cables; c++)
    add_tags_of_cable (builder, &net->cables[c]);
  for (guint d = 0; d < net->n_devices; d++)
    if (rw_net_device_passes (&net->devices[d]) && !net->devices[d].forwards)
      add_cloud_tag (builder, d, RW_UNTAGGED);
  for (guint i = 0; i < builder->cloud_tags->len; i++)
    reached[g_array_index (builder->cloud_tags, guint64, i) >> 32] = TRUE;
  /* Converters that nothing reaches yet would pass untagged frames on as soon as something does. */
  for (guint d = 0; d < net->n_devices; d++)
    if (rw_net_device_passes (&net->devices[d]) && !reached[rw_union_find (builder->clouds, d)])
      add_cloud_tag (builder, d, RW_UNTAGGED);
  sort_cloud_tags (builder->cloud_tags);
}

static void
add_node (Builder *builder, guint device, RwNodeKind kind, int tag, RwSide side, gboolean host)
{
  if (builder->n_nodes == builder->nodes_room)
    {
      builder->nodes_room = 2 * builder->nodes_room + 2 * builder->net->n_devices + 1;
      builder->nodes = g_renew (RwNetNode, builder->nodes, builder->nodes_room);
    }
  builder->nodes[builder->n_nodes++] = (RwNetNode){ device, kind, tag, side, host, RW_NONE };
}

static guint
node_of_vlan (Builder *builder, const RwNetDevice *device, guint vlan)
{
  guint low = device->first_node, high = builder->n_nodes;

  while (low + 1 < high)
    {
      guint middle = low + (high - low) / 2;

      if ((guint) builder->nodes[middle].tag <= vlan)
        low = middle;
      else
        high = middle;
    }
  return low;
}

static void
add_switch_nodes (Builder *builder, guint d)
{
  const RwNetDevice *device = &builder->net->devices[d];
  const RwNetMembers *runs = builder->net->priv->port_members + device->first_port;
  g_autoptr (GArray) vlans = g_array_new (FALSE, FALSE, sizeof (int));

  for (guint p = 0; p < device->n_ports; p++)
    for (guint i = 0; i < runs[p].n; i++)
      {
        int vlan = builder->members[runs[p].first + i].node;

        /* Most ports of a switch are in the VLAN of the port before them. */
        if (vlans->len == 0 || g_array_index (vlans, int, vlans->len - 1) != vlan)
          g_array_append_val (vlans, vlan);
      }
  g_array_sort (vlans, compare_ints);
  unique_ints (vlans);
  for (guint i = 0; i < vlans->len; i++)
    add_node (builder, d, RW_NODE_BRIDGE, g_array_index (vlans, int, i), RW_SIDE_NETWORK, FALSE);
  for (guint p = 0; p < device->n_ports; p++)
    for (guint i = 0; i < runs[p].n; i++)
      {
        RwNetMember *member = &builder->members[runs[p].first + i];

        member->node = node_of_vlan (builder, device, member->node);
      }
}

/* Index of the first of @cloud's tags. */
static guint
find_cloud (const GArray *tags, guint cloud)
{
  guint low = 0, high = tags->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (g_array_index (tags, guint64, middle) >> 32 < cloud)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static void
add_passing_nodes (Builder *builder, guint d)
{
  RwNet *net = builder->net;
  const RwNetDevice *device = &net->devices[d];
  guint cloud = rw_union_find (builder->clouds, d);
  RwNetMembers run = { builder->n_members, 0 };

  for (guint i = find_cloud (builder->cloud_tags, cloud); i < builder->cloud_tags->len; i++)
    {
      guint64 key = g_array_index (builder->cloud_tags, guint64, i);
      RwNetMember member = { (int) (key & G_MAXUINT32), builder->n_nodes };

      if (key >> 32 != cloud)
        break;
      add_node (builder, d, RW_NODE_BRIDGE, member.tag, RW_SIDE_NETWORK,
                !device->forwards && member.tag == RW_UNTAGGED);
      append_member (builder, member);
      run.n++;
    }
  for (guint port = device->first_port; port < device->first_port + device->n_ports; port++)
    if (port_passes (net, port))
      net->priv->port_members[port] = run;
}

static void
add_interfaces (Builder *builder, guint d)
{
  const RwNet *net = builder->net;
  const RwNetDevice *device = &net->devices[d];

  for (RwSide side = RW_SIDE_PRIMARY; side <= RW_SIDE_SECONDARY; side++)
    for (guint port = device->first_port; port < device->first_port + device->n_ports; port++)
      {
        const RwNetMembers *run = &net->priv->port_members[port];

        if (net->ports[port].port->side != (int) side || run->n == 0)
          continue;
        builder->members[run->first].node = builder->n_nodes;
        add_node (builder, d, RW_NODE_INTERFACE, RW_UNTAGGED, side, TRUE);
      }
}

static void
add_device_nodes (Builder *builder, guint d)
{
  RwNetDevice *device = &builder->net->devices[d];

  device->first_node = builder->n_nodes;
  if (device->part->kind == RW_PART_SWITCH)
    add_switch_nodes (builder, d);
  else if (rw_net_device_passes (device))
    add_passing_nodes (builder, d);
  else
    add_interfaces (builder, d);
  device->n_nodes = builder->n_nodes - device->first_node;
}

void
rw_net_add_nodes (RwNet *net)
{
  Builder builder = { .net = net };

  net->priv->port_members = g_new0 (RwNetMembers, net->n_ports);
  for (guint d = 0; d < net->n_devices; d++)
    wire_device (&builder, &net->devices[d]);
  flood_tags (&builder);
  for (guint d = 0; d < net->n_devices; d++)
    add_device_nodes (&builder, d);
  net->n_nodes = builder.n_nodes;
  net->nodes = g_renew (RwNetNode, builder.nodes, builder.n_nodes);
  net->priv->members = g_renew (RwNetMember, builder.members, builder.n_members);
  g_array_unref (builder.cloud_tags);
  g_free (builder.clouds);
}

/* A tag that both ends know joins two nodes. */
static void
add_links_of_cable (RwNet *net, guint c, guint *room)
{
  RwNetCable *cable = &net->cables[c];
  guint n[2], i[2] = { 0, 0 };
  const RwNetMember *a = rw_net_port_members (net, cable->port[0], &n[0]);
  const RwNetMember *b = rw_net_port_members (net, cable->port[1], &n[1]);

  while (cable->carries && i[0] < n[0] && i[1] < n[1])
    {
      int tags[2] = { a[i[0]].tag, b[i[1]].tag };

      if (tags[0] == tags[1])
        {
          if (net->n_links == *room)
            {
              *room = 2 * *room + net->n_cables;
              net->links = g_renew (RwNetLink, net->links, *room);
            }
          net->links[net->n_links++] = (RwNetLink){ c, { a[i[0]].node, b[i[1]].node }, tags[0] };
        }
      i[0] += tags[0] <= tags[1];
      i[1] += tags[1] <= tags[0];
    }
}

/* A link from a node to itself stands in its adjacency once. */
static void
add_adjacency (RwNet *net)
{
  guint *start = g_new0 (guint, net->n_nodes + 2);

  /* Counted two places on, so that filling moves each start to where it belongs. */
  for (guint l = 0; l < net->n_links; l++)
    for (guint end = 0; end < 2; end++)
      if (end == 0 || net->links[l].node[0] != net->links[l].node[1])
        start[net->links[l].node[end] + 2]++;
  for (guint i = 2; i <= net->n_nodes + 1; i++)
    start[i] += start[i - 1];
  net->adjacency = g_new (guint, start[net->n_nodes + 1]);
  for (guint l = 0; l < net->n_links; l++)
    for (guint end = 0; end < 2; end++)
      if (end == 0 || net->links[l].node[0] != net->links[l].node[1])
        net->adjacency[start[net->links[l].node[end] + 1]++] = l;
  net->adjacency_start = start;
}

void
rw_net_add_links (RwNet *net)
{
  guint room = 0;

  for (guint c = 0; c < net->n_cables; c++)
    {
      net->cables[c].first_link = net->n_links;
      add_links_of_cable (net, c, &room);
      net->cables[c].n_links = net->n_links - net->cables[c].first_link;
    }
  add_adjacency (net);
}
