/* SPDX-License-Identifier: MIT */
#include "rw-load.h"

/*
 * A sum of streams, in terms that a tag on the wire adds to: on a tagged link every frame is 4 bytes longer.
 */
typedef struct
{
  double mbps, frames_per_us; /* on the wire, untagged */
  double bits, frames;        /* of one frame each, preamble and gap included, untagged */
} Sum;

typedef struct
{
  const RwNet *net;
  const RwPaths *paths;
  const RwLca *lca;
  /* What starts (or, negative, ends) at a node and rises towards the root, what falls towards it: summed over a
   * subtree, that is what its link to its parent carries. */
  Sum *rising, *falling;
  Sum *flooded;      /* by part: streams that reach every link of it away from their talker */
  Sum *flooded_from; /* by node: the same, at their talkers */
  Sum *held;         /* by link that the tree holds open: what is flooded into it, to be dropped at its far end */
  gboolean *prunes;  /* by network: there is a querier, so snooping works */
  gboolean *floods;  /* by part: no node of it prunes */
  GArray *wanted;    /* of preorder numbers: who must get a pruned stream; used again and again */
} Router;

static Sum
sum_of (const RwStream *stream)
{
  return (Sum){ stream->mbps, 1e3 / stream->frame.packet_time_ns, rw_frame_slot_bits (stream->frame.frame_bytes), 1 };
}

static void
add (Sum *to, Sum sum, double factor)
{
  to->mbps += factor * sum.mbps;
  to->frames_per_us += factor * sum.frames_per_us;
  to->bits += factor * sum.bits;
  to->frames += factor * sum.frames;
}

static gboolean
is_querier (const RwNet *net, guint node)
{
  return net->nodes[node].kind == RW_NODE_BRIDGE && net->devices[net->nodes[node].device].querier;
}

/**
 * rw_network_prunes:
 *
 * Returns: %TRUE where a querier is in the network, without which switches that snoop know no listeners and
 *   flood (RFC 4541 2.1.2)
 */
gboolean
rw_network_prunes (const RwNet *net, guint network)
{
  RwSlice nodes = net->networks[network].nodes;

  for (guint i = 0; i < nodes.n; i++)
    if (is_querier (net, nodes.v[i]))
      return TRUE;
  return FALSE;
}

/* Whether the node sends a multicast frame only where somebody beyond wants it. */
static gboolean
node_prunes (const Router *router, guint node)
{
  const RwNetNode *n = &router->net->nodes[node];

  return n->kind == RW_NODE_BRIDGE && router->net->devices[n->device].part->kind == RW_PART_SWITCH
         && router->net->devices[n->device].part->snooping && router->prunes[n->network];
}

static void
route_unicast (Router *router, guint from, guint to, Sum sum)
{
  guint top = rw_lca_find (router->lca, from, to);

  add (&router->rising[from], sum, 1);
  add (&router->rising[top], sum, -1);
  add (&router->falling[to], sum, 1);
  add (&router->falling[top], sum, -1);
}

static void
route_flood (Router *router, guint from, Sum sum)
{
  add (&router->flooded_from[from], sum, 1);
  add (&router->flooded[router->paths->part[from]], sum, 1);
}

/* Number of wanted nodes whose preorder number is under @number. */
static guint
wanted_under (const Router *router, guint number)
{
  guint low = 0, high = router->wanted->len;

  while (low < high)
    {
      guint middle = (low + high) / 2;
      if (g_array_index (router->wanted, guint, middle) < number)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static guint
wanted_in_subtree (const Router *router, guint node)
{
  guint first = router->lca->nodes[node].pre;

  return wanted_under (router, first + router->lca->nodes[node].size) - wanted_under (router, first);
}

/* Whether anybody beyond the link from @node to @other wants the stream. */
static gboolean
wanted_beyond (const Router *router, guint node, guint other)
{
  if (router->paths->parent[other] == node)
    return wanted_in_subtree (router, other) > 0;
  return wanted_in_subtree (router, node) < router->wanted->len;
}

/* One link, in one direction: it rises or falls by exactly one step. */
static void
pass_link (Router *router, guint from, guint to, Sum sum)
{
  gboolean rises = router->paths->parent[from] == to;

  add (rises ? &router->rising[from] : &router->falling[to], sum, 1);
  add (rises ? &router->rising[to] : &router->falling[from], sum, -1);
}

static gboolean
is_blocked (const RwNet *net, guint link, guint end)
{
  return rw_net_tree (net)->roles[net->cables[net->links[link].cable].port[end]] == RW_TREE_ROLE_BLOCKED;
}

/*
 * The end of a link at which frames are flooded into it although the tree holds it open: the port that faces a
 * blocked one still sends (IEEE 802.1D-2004 17.7, from memory; so does the Linux bridge). RW_NONE = there is none.
 */
static guint
open_end (const Router *router, guint link)
{
  gboolean blocked[2] = { is_blocked (router->net, link, 0), is_blocked (router->net, link, 1) };

  return blocked[0] == blocked[1] ? RW_NONE : blocked[0] ? 1 : 0;
}

static void
flood_held (Router *router, guint link, guint node, Sum sum)
{
  guint end = open_end (router, link);

  if (end != RW_NONE && router->net->links[link].node[end] == node)
    add (&router->held[link], sum, 1);
}

typedef struct { guint node, came_from; } Step;

/* Follows the frame from node to node: each that prunes passes it on only where it is wanted. */
static void
route_pruned (Router *router, guint from, Sum sum)
{
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (Step));
  const RwNet *net = router->net;
  Step first = { from, RW_NONE };

  g_array_append_val (stack, first);
  while (stack->len > 0)
    {
      Step step = g_array_index (stack, Step, stack->len - 1);
      gboolean prunes = node_prunes (router, step.node);

      g_array_set_size (stack, stack->len - 1);
      for (guint i = net->adjacency_start[step.node]; i < net->adjacency_start[step.node + 1]; i++)
        {
          guint other = rw_net_other_node (net, net->adjacency[i], step.node);
          Step next = { other, step.node };
          gboolean active = router->paths->active[net->adjacency[i]];
          if (!active && !prunes)
            flood_held (router, net->adjacency[i], step.node, sum);
          if (!active || other == step.came_from || (prunes && !wanted_beyond (router, step.node, other)))
            continue;
          pass_link (router, step.node, other, sum);
          if (net->nodes[other].kind == RW_NODE_BRIDGE)
            g_array_append_val (stack, next);
        }
    }
}

static int
compare_numbers (gconstpointer a, gconstpointer b)
{
  guint i = *(const guint *) a, j = *(const guint *) b;

  return (i > j) - (i < j);
}

static void
collect_wanted (Router *router, const RwStream *stream, guint from)
{
  guint network = router->net->nodes[from].network;
  RwSlice nodes = router->net->networks[network].nodes;

  g_array_set_size (router->wanted, 0);
  for (guint i = 0; i < stream->listeners.n; i++)
    {
      guint to = rw_net_host_node (router->net, stream->listeners.v[i], network);
      if (to != RW_NONE && router->paths->part[to] == router->paths->part[from])
        g_array_append_val (router->wanted, router->lca->nodes[to].pre);
    }
  for (guint i = 0; i < nodes.n; i++) /* reports go to the querier, and the stream follows (RFC 4541 2.1.2) */
    if (is_querier (router->net, nodes.v[i]) && router->paths->part[nodes.v[i]] == router->paths->part[from])
      g_array_append_val (router->wanted, router->lca->nodes[nodes.v[i]].pre);
  g_array_sort (router->wanted, compare_numbers);
}

static gboolean
anybody_hears (const Router *router, const RwStream *stream, guint from)
{
  for (guint i = 0; i < stream->listeners.n; i++)
    {
      guint to = rw_net_host_node (router->net, stream->listeners.v[i], router->net->nodes[from].network);
      if (to != RW_NONE)
        return TRUE;
    }
  return FALSE;
}

static void
route_multicast (Router *router, const RwStream *stream, guint from)
{
  Sum sum = sum_of (stream);

  if (!anybody_hears (router, stream, from))
    return;
  if (router->floods[router->paths->part[from]])
    {
      route_flood (router, from, sum);
      return;
    }
  collect_wanted (router, stream, from);
  route_pruned (router, from, sum);
}

/* A stream goes out by each of its talker's networks in which somebody listens: on both planes alike. */
static void
route_stream (Router *router, const RwStream *stream)
{
  const RwNetDevice *talker = &router->net->devices[stream->talker];

  for (guint from = talker->first_node; from < talker->first_node + talker->n_nodes; from++)
    {
      guint to;
      if (!router->net->nodes[from].host)
        continue;
      if (stream->multicast)
        {
          route_multicast (router, stream, from);
          continue;
        }
      to = rw_net_host_node (router->net, stream->listeners.v[0], router->net->nodes[from].network);
      if (to != RW_NONE && router->paths->part[to] == router->paths->part[from])
        route_unicast (router, from, to, sum_of (stream));
    }
}

static void
put_on_cable (const RwNet *net, RwLoads *loads, guint link, guint direction, const Sum *sum)
{
  RwLoad *load = &loads->loads[2 * net->links[link].cable + direction];
  double tag_bits = net->links[link].tag != RW_UNTAGGED ? RW_VLAN_TAG_BYTES * 8 : 0;

  load->mbps += sum->mbps + tag_bits * sum->frames_per_us;
  load->burst_ns += (sum->bits + tag_bits * sum->frames) * 1e3 / net->cables[net->links[link].cable].run.mbps;
  load->n_streams += (guint) (sum->frames + 0.5);
}

/* From the leaves up: what starts and ends in a subtree is what its link to its parent carries. */
static void
sum_up (Router *router, RwLoads *loads)
{
  const RwPaths *paths = router->paths;

  for (guint i = paths->n_nodes; i-- > 0;)
    {
      guint node = paths->order[i], parent = paths->parent[node];
      guint link = paths->parent_link[node], upwards;
      Sum rising = router->rising[node], falling = router->falling[node];

      if (parent == RW_NONE)
        continue;
      add (&router->rising[parent], rising, 1);
      add (&router->falling[parent], falling, 1);
      add (&router->flooded_from[parent], router->flooded_from[node], 1);
      add (&rising, router->flooded_from[node], 1);
      add (&falling, router->flooded[paths->part[node]], 1);
      add (&falling, router->flooded_from[node], -1);
      upwards = router->net->links[link].node[0] == node ? 0 : 1;
      put_on_cable (router->net, loads, link, upwards, &rising);
      put_on_cable (router->net, loads, link, 1 - upwards, &falling);
    }
}

/* What floods a whole part goes into every link that is held open beside it; the rest was followed there. */
static void
sum_up_held (Router *router, RwLoads *loads)
{
  for (guint link = 0; link < router->net->n_links; link++)
    {
      guint end = router->paths->active[link] ? RW_NONE : open_end (router, link);

      if (end == RW_NONE)
        continue;
      add (&router->held[link], router->flooded[router->paths->part[router->net->links[link].node[end]]], 1);
      put_on_cable (router->net, loads, link, end, &router->held[link]);
    }
}

static void
know_pruning (Router *router)
{
  const RwNet *net = router->net;

  router->prunes = g_new0 (gboolean, net->n_networks);
  router->floods = g_new (gboolean, router->paths->n_parts);
  for (guint i = 0; i < net->n_networks; i++)
    router->prunes[i] = rw_network_prunes (net, i);
  for (guint i = 0; i < router->paths->n_parts; i++)
    router->floods[i] = TRUE;
  for (guint i = 0; i < net->n_nodes; i++)
    if (node_prunes (router, i))
      router->floods[router->paths->part[i]] = FALSE;
}

/**
 * rw_loads_new:
 * @net: a net
 * @paths: its ways
 * @lca: over their forest
 * @streams: of its patch
 *
 * Routes every stream over the ways and sums what each direction of each cable carries. Unicast and flooded
 * streams are summed together over the tree; a stream that switches prune is followed node by node. What is
 * flooded also fills the links that the tree holds open, in one direction.
 *
 * Returns: (transfer full): the loads
 */
RwLoads *
rw_loads_new (const RwNet *net, const RwPaths *paths, const RwLca *lca, const RwStreams *streams)
{
  RwLoads *loads = g_new0 (RwLoads, 1);
  Router router = { .net = net, .paths = paths, .lca = lca };

  loads->n_cables = net->n_cables;
  loads->loads = g_new0 (RwLoad, 2 * (gsize) net->n_cables);
  router.rising = g_new0 (Sum, net->n_nodes);
  router.falling = g_new0 (Sum, net->n_nodes);
  router.flooded_from = g_new0 (Sum, net->n_nodes);
  router.flooded = g_new0 (Sum, paths->n_parts);
  router.held = g_new0 (Sum, net->n_links);
  router.wanted = g_array_new (FALSE, FALSE, sizeof (guint));
  know_pruning (&router);
  for (guint i = 0; i < streams->n_streams; i++)
    route_stream (&router, &streams->streams[i]);
  sum_up (&router, loads);
  sum_up_held (&router, loads);
  g_free (router.rising);
  g_free (router.falling);
  g_free (router.flooded);
  g_free (router.flooded_from);
  g_free (router.held);
  g_free (router.prunes);
  g_free (router.floods);
  g_array_unref (router.wanted);
  return loads;
}

void
rw_loads_free (RwLoads *loads)
{
  g_free (loads->loads);
  g_free (loads);
}

/**
 * rw_load_percent:
 *
 * Returns: load of one direction of a cable in percent of its speed
 */
double
rw_load_percent (const RwNet *net, const RwLoads *loads, guint cable, guint direction)
{
  return loads->loads[2 * cable + direction].mbps * 100 / net->cables[cable].run.mbps;
}
