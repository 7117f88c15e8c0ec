/* SPDX-License-Identifier: MIT */
#include "rw-net-private.h"
#include "rw-union.h"

/*
 * One tree over the physical boxes, whatever their VLANs. Bridges are the switches whose part runs
 * spanning tree. What lies between them is a segment: a cable, or all that is wired together of
 * switches without spanning tree, chain devices and converters. That those pass the protocol's frames
 * on is an assumption: common for boxes that do not run it themselves, though IEEE 802.1D-2004
 * 7.12.6 would have a bridge keep them.
 */

/* One port of a bridge on a segment. */
typedef struct
{
  guint port, bridge, segment;
} Attachment;

typedef struct
{
  const RwNet *net;
  const gboolean *dead; /* (nullable): by cable: nothing passes it */
  RwTree *tree;
  guint *rank;           /* by device: its bridge identifier's place among all */
  guint *by_rank;        /* bridges */
  guint n_bridges;
  guint n_segments;
  GArray *attachments;   /* of Attachment, by port */
  guint *segment_start;  /* compressed: attachments of a segment */
  guint *of_segment;
  guint *of_port;        /* attachment of a port, or RW_NONE */
  guint *designated;     /* by segment: attachment */
  GArray *heap;          /* of Waiting, smallest cost first */
} Build;

typedef struct
{
  guint64 cost;
  guint bridge;
} Waiting;

/* Bridge identifier, IEEE 802.1D-2004 9.2.5; bridges without address come last in their priority. */
typedef struct
{
  int priority;
  guint64 address;
  guint device;
} BridgeId;

static gboolean
is_bridge (const RwNetDevice *device)
{
  return device->part->kind == RW_PART_SWITCH && device->part->spanning_tree;
}

/* Twelve hex digits, however they are parted; anything else counts as no address. */
static guint64
parse_address (const char *text)
{
  guint64 address = 0;
  guint digits = 0;

  for (; text != NULL && *text != '\0'; text++)
    {
      int digit = g_ascii_xdigit_value (*text);

      if (digit >= 0)
        {
          address = address << 4 | digit;
          digits++;
        }
      else if (strchr (":-. ", *text) == NULL)
        return G_MAXUINT64;
    }
  return digits == 12 ? address : G_MAXUINT64;
}

static int
compare_bridge_ids (gconstpointer a, gconstpointer b)
{
  const BridgeId *x = a, *y = b;

  if (x->priority != y->priority)
    return x->priority < y->priority ? -1 : 1;
  if (x->address != y->address)
    return x->address < y->address ? -1 : 1;
  return (x->device > y->device) - (x->device < y->device);
}

static void
rank_bridges (Build *build)
{
  const RwNet *net = build->net;
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (BridgeId));

  for (guint d = 0; d < net->n_devices; d++)
    if (is_bridge (&net->devices[d]))
      {
        const RwDevice *device = net->devices[d].device;
        BridgeId id = { device->bridge_priority, parse_address (device->mac), d };

        g_array_append_val (ids, id);
      }
  g_array_sort (ids, compare_bridge_ids);
  build->n_bridges = ids->len;
  build->by_rank = g_new (guint, ids->len);
  build->rank = g_new0 (guint, net->n_devices);
  for (guint i = 0; i < ids->len; i++)
    {
      build->by_rank[i] = g_array_index (ids, BridgeId, i).device;
      build->rank[build->by_rank[i]] = i;
    }
}

/* Whether @port is one of those between which its device passes the protocol's frames on. */
static gboolean
is_passed_through (const RwNet *net, guint port)
{
  const RwNetDevice *device = &net->devices[net->ports[port].device];

  return (device->forwards || device->mode == RW_MODE_CHAIN) && !is_bridge (device);
}

static gboolean
carries (const Build *build, guint cable)
{
  return build->net->cables[cable].carries && (build->dead == NULL || !build->dead[cable]);
}

/* Heads of the sets of cables (numbered after the devices) and boxes that make one segment. */
static guint *
join_segments (const Build *build)
{
  const RwNet *net = build->net;
  guint *sets = rw_union_new (net->n_devices + net->n_cables);

  for (guint c = 0; c < net->n_cables; c++)
    for (guint end = 0; carries (build, c) && end < 2; end++)
      if (is_passed_through (net, net->cables[c].port[end]))
        rw_union_join (sets, net->n_devices + c, net->ports[net->cables[c].port[end]].device);
  return sets;
}

static void
attach_ports (Build *build)
{
  const RwNet *net = build->net;
  g_autofree guint *sets = join_segments (build);
  g_autofree guint *numbers = g_new0 (guint, net->n_devices + net->n_cables);

  for (guint port = 0; port < net->n_ports; port++)
    {
      Attachment attachment = { port, net->ports[port].device, 0 };
      guint cable = net->ports[port].cable, head;

      build->of_port[port] = RW_NONE;
      if (cable == RW_NONE || !carries (build, cable) || !is_bridge (&net->devices[attachment.bridge]))
        continue;
      head = rw_union_find (sets, net->n_devices + cable);
      /* Stored as number + 1: 0 is a segment not yet met. */
      if (numbers[head] == 0)
        numbers[head] = ++build->n_segments;
      attachment.segment = numbers[head] - 1;
      build->of_port[port] = build->attachments->len;
      g_array_append_val (build->attachments, attachment);
    }
}

static const Attachment *
attachment_at (const Build *build, guint index)
{
  return &g_array_index (build->attachments, Attachment, index);
}

static void
sort_by_segment (Build *build)
{
  guint *start = build->segment_start = g_new0 (guint, build->n_segments + 2);

  build->of_segment = g_new (guint, build->attachments->len);
  for (guint i = 0; i < build->attachments->len; i++)
    start[attachment_at (build, i)->segment + 2]++;
  for (guint s = 2; s <= build->n_segments + 1; s++)
    start[s] += start[s - 1];
  for (guint i = 0; i < build->attachments->len; i++)
    build->of_segment[start[attachment_at (build, i)->segment + 1]++] = i;
}

/**
 * rw_tree_port_cost: path cost of a port, 20 000 000 / @speed_mbps (Mb/s), from 1 to 200 000 000.
 * Source: IEEE 802.1D-2004 Table 17-3.
 */
guint
rw_tree_port_cost (int speed_mbps)
{
  g_return_val_if_fail (speed_mbps > 0, 200000000);
  return CLAMP (20000000 / speed_mbps, 1, 200000000);
}

/* By the speed that both ends of its cable can go. */
static guint
port_cost (const RwNet *net, guint port)
{
  return rw_tree_port_cost ((int) net->cables[net->ports[port].cable].run.mbps);
}

static gboolean
goes_before (const Waiting *a, const Waiting *b)
{
  return a->cost < b->cost || (a->cost == b->cost && a->bridge < b->bridge);
}

static void
push (GArray *heap, Waiting waiting)
{
  guint i = heap->len;

  g_array_append_val (heap, waiting);
  for (; i > 0; i = (i - 1) / 2)
    {
      Waiting *above = &g_array_index (heap, Waiting, (i - 1) / 2);

      if (!goes_before (&waiting, above))
        break;
      g_array_index (heap, Waiting, i) = *above;
    }
  g_array_index (heap, Waiting, i) = waiting;
}

static Waiting
pop (GArray *heap)
{
  Waiting top = g_array_index (heap, Waiting, 0);
  Waiting last = g_array_index (heap, Waiting, heap->len - 1);
  guint i = 0;

  g_array_set_size (heap, heap->len - 1);
  for (guint child = 1; child < heap->len; child = 2 * i + 1)
    {
      Waiting *below = &g_array_index (heap, Waiting, child);

      if (child + 1 < heap->len && goes_before (below + 1, below))
        below++;
      if (!goes_before (below, &last))
        break;
      child = below - &g_array_index (heap, Waiting, 0);
      g_array_index (heap, Waiting, i) = *below;
      i = child;
    }
  if (heap->len > 0)
    g_array_index (heap, Waiting, i) = last;
  return top;
}

/* The first bridge to settle on a segment gives it its cost; the others on it may be reached so. */
static void
settle_segment (Build *build, guint segment, guint root, guint64 cost)
{
  RwTree *tree = build->tree;

  for (guint i = build->segment_start[segment]; i < build->segment_start[segment + 1]; i++)
    {
      const Attachment *attachment = attachment_at (build, build->of_segment[i]);
      RwTreeBridge *bridge = &tree->bridges[attachment->bridge];
      Waiting waiting = { cost + port_cost (build->net, attachment->port), attachment->bridge };

      if (bridge->root != RW_NONE && waiting.cost >= bridge->cost)
        continue;
      bridge->root = root;
      bridge->cost = waiting.cost;
      push (build->heap, waiting);
    }
}

/* Dijkstra 1959, from the root over bridges and segments. */
static void
reach_from (Build *build, guint root, gboolean *settled)
{
  RwTree *tree = build->tree;

  tree->bridges[root].root = root;
  push (build->heap, (Waiting) { 0, root });
  while (build->heap->len > 0)
    {
      Waiting next = pop (build->heap);
      const RwNetDevice *device = &build->net->devices[next.bridge];

      if (next.cost > tree->bridges[next.bridge].cost)
        continue;
      for (guint port = device->first_port; port < device->first_port + device->n_ports; port++)
        if (build->of_port[port] != RW_NONE)
          {
            guint segment = attachment_at (build, build->of_port[port])->segment;

            if (!settled[segment])
              settle_segment (build, segment, root, next.cost);
            settled[segment] = TRUE;
          }
    }
}

/* Lower wins: cost to the root, bridge, port (IEEE 802.1D-2004 17.6); port priorities are all alike. */
static gboolean
is_better_designated (const Build *build, const Attachment *a, const Attachment *b)
{
  guint64 x = build->tree->bridges[a->bridge].cost, y = build->tree->bridges[b->bridge].cost;

  if (x != y)
    return x < y;
  if (a->bridge != b->bridge)
    return build->rank[a->bridge] < build->rank[b->bridge];
  return a->port < b->port;
}

static void
choose_designated (Build *build)
{
  for (guint s = 0; s < build->n_segments; s++)
    {
      guint best = build->of_segment[build->segment_start[s]];

      for (guint i = build->segment_start[s] + 1; i < build->segment_start[s + 1]; i++)
        if (is_better_designated (build, attachment_at (build, build->of_segment[i]),
                                  attachment_at (build, best)))
          best = build->of_segment[i];
      build->designated[s] = best;
    }
}

/* Who speaks for the root on the segment at @port. */
static const Attachment *
designated_at (const Build *build, guint port)
{
  guint segment = attachment_at (build, build->of_port[port])->segment;

  return attachment_at (build, build->designated[segment]);
}

/* Likewise 17.6: cost over this port, then who is designated there, then this port's number. */
static gboolean
is_better_root_port (const Build *build, guint a, guint b)
{
  const RwTreeBridge *bridges = build->tree->bridges;
  const Attachment *x = designated_at (build, a), *y = designated_at (build, b);
  guint64 cost_x = bridges[x->bridge].cost + port_cost (build->net, a);
  guint64 cost_y = bridges[y->bridge].cost + port_cost (build->net, b);

  if (cost_x != cost_y)
    return cost_x < cost_y;
  if (x->bridge != y->bridge)
    return build->rank[x->bridge] < build->rank[y->bridge];
  return x->port != y->port ? x->port < y->port : a < b;
}

static void
choose_root_port (Build *build, guint d)
{
  const RwNetDevice *device = &build->net->devices[d];
  RwTreeBridge *bridge = &build->tree->bridges[d];

  if (bridge->root == d)
    return;
  for (guint port = device->first_port; port < device->first_port + device->n_ports; port++)
    if (build->of_port[port] != RW_NONE
        && (bridge->root_port == RW_NONE || is_better_root_port (build, port, bridge->root_port)))
      bridge->root_port = port;
}

static void
give_roles (Build *build)
{
  RwTree *tree = build->tree;

  for (guint i = 0; i < build->attachments->len; i++)
    {
      const Attachment *attachment = attachment_at (build, i);

      tree->roles[attachment->port] = tree->bridges[attachment->bridge].root_port == attachment->port
                                        ? RW_TREE_ROLE_ROOT
                                      : build->designated[attachment->segment] == i
                                        ? RW_TREE_ROLE_DESIGNATED
                                        : RW_TREE_ROLE_BLOCKED;
    }
}

/* The bridge next towards the root. */
static guint
bridge_above (const Build *build, guint d)
{
  guint port = build->tree->bridges[d].root_port;

  return designated_at (build, port)->bridge;
}

/* Each way up costs less than the one below it, so that by rising cost the one above is known. */
static int
compare_costs (gconstpointer a, gconstpointer b, gpointer tree)
{
  const RwTreeBridge *bridges = ((RwTree *) tree)->bridges;
  guint64 x = bridges[*(const guint *) a].cost, y = bridges[*(const guint *) b].cost;

  return (x > y) - (x < y);
}

static void
measure_depths (Build *build)
{
  RwTreeBridge *bridges = build->tree->bridges;
  guint *by_cost = build->by_rank;

  g_qsort_with_data (by_cost, build->n_bridges, sizeof (guint), compare_costs, build->tree);
  for (guint i = 0; i < build->n_bridges; i++)
    if (bridges[by_cost[i]].root_port != RW_NONE)
      {
        bridges[by_cost[i]].above = bridge_above (build, by_cost[i]);
        bridges[by_cost[i]].depth = bridges[bridges[by_cost[i]].above].depth + 1;
      }
}

static RwTree *
new_empty (const RwNet *net)
{
  RwTree *tree = g_new0 (RwTree, 1);

  tree->n_devices = net->n_devices;
  tree->n_ports = net->n_ports;
  tree->bridges = g_new (RwTreeBridge, net->n_devices);
  tree->roles = g_new0 (RwTreeRole, net->n_ports);
  for (guint d = 0; d < net->n_devices; d++)
    tree->bridges[d] = (RwTreeBridge) { RW_NONE, RW_NONE, 0, 0, RW_NONE };
  return tree;
}

static void
compute (Build *build)
{
  g_autofree gboolean *settled = NULL;

  rank_bridges (build);
  attach_ports (build);
  sort_by_segment (build);
  settled = g_new0 (gboolean, build->n_segments);
  build->designated = g_new (guint, build->n_segments);
  for (guint i = 0; i < build->n_bridges; i++)
    if (build->tree->bridges[build->by_rank[i]].root == RW_NONE)
      reach_from (build, build->by_rank[i], settled);
  choose_designated (build);
  for (guint i = 0; i < build->n_bridges; i++)
    choose_root_port (build, build->by_rank[i]);
  give_roles (build);
  measure_depths (build);
}

/**
 * rw_tree_new_without:
 * @dead: (nullable): by cable: nothing passes it
 *
 * Returns: (transfer full): what rw_tree_new() gives of the net without these cables
 */
RwTree *
rw_tree_new_without (const RwNet *net, const gboolean *dead)
{
  Build build = { .net = net, .dead = dead, .tree = new_empty (net) };

  build.attachments = g_array_new (FALSE, FALSE, sizeof (Attachment));
  build.heap = g_array_new (FALSE, FALSE, sizeof (Waiting));
  build.of_port = g_new (guint, net->n_ports);
  compute (&build);
  g_array_unref (build.attachments);
  g_array_unref (build.heap);
  g_free (build.rank);
  g_free (build.by_rank);
  g_free (build.segment_start);
  g_free (build.of_segment);
  g_free (build.of_port);
  g_free (build.designated);
  return build.tree;
}

/**
 * rw_tree_new: the spanning trees that the switches of @net settle on (IEEE 802.1D-2004 clause 17),
 * of which only the devices, ports and cables are read.
 * Bridge identifiers: the device's bridge_priority, then its mac, then its place in the file. Port
 * identifiers: the port's place in its part.
 * Returns: (transfer full): free with rw_tree_free()
 */
RwTree *
rw_tree_new (const RwNet *net)
{
  return rw_tree_new_without (net, NULL);
}

void
rw_tree_free (RwTree *tree)
{
  if (tree == NULL)
    return;
  g_free (tree->bridges);
  g_free (tree->roles);
  g_free (tree);
}
