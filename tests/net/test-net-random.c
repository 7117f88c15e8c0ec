/* SPDX-License-Identifier: MIT */
/* Thousands of rigs of chance against judges that know nothing of how the net is worked out. */
#include "flooder.h"
#include "net-assert.h"
#include "random-net.h"

#include <igraph.h>
#include <net/rw-tree.h>

#define MANY 4000
#define FEW 12

static const RandomNet plain = { .max_devices = 24, .cables_per_device = 0.8, .switches = 0.35,
                                 .redundant = 0.2, .untidy = TRUE };
static const RandomNet tangled = { .max_devices = 16, .cables_per_device = 1.3, .n_vlans = 4, .switches = 0.6,
                                   .stp = 0.7, .redundant = 0.4, .untidy = TRUE };
static const RandomNet knotted = { .max_devices = 7, .cables_per_device = 1.8, .n_vlans = 2, .switches = 0.9,
                                   .stp = 0.7 };
static const RandomNet large = { .max_devices = 700, .cables_per_device = 1.0, .switches = 0.8 };
static const RandomNet large_knotted = { .max_devices = 200, .cables_per_device = 1.1, .n_vlans = 2,
                                         .switches = 0.9 };
static const RandomNet trees = { .max_devices = 14, .cables_per_device = 1.4, .n_vlans = 4, .switches = 0.97,
                                 .stp = 1, .untidy = FALSE };

typedef struct
{
  const RandomNet *shape;
  guint n_rigs;
  void (*check) (const RwRig *rig, const RwNet *net);
} RandomTest;

/* A failure is seen again with --seed=, which the head of the output gives. */
static void
run_random (gconstpointer data)
{
  const RandomTest *test = data;
  g_autoptr (GRand) rand = g_rand_new_with_seed (g_test_rand_int ());

  for (guint i = 0; i < test->n_rigs; i++)
    {
      g_autofree char *text = random_net_text (rand, test->shape);
      g_autoptr (RwRig) rig = rw_test_rig (text);
      g_autoptr (RwNet) net = rw_net_new (rig);

      test->check (rig, net);
    }
}

/* Hosts share a network exactly where the one hears what the other sends. */
static void
check_hosts (const RwRig *rig, const RwNet *net)
{
  g_autoptr (Flooder) flooder = flooder_new (rig);

  for (guint a = 0; a < net->n_devices; a++)
    {
      g_autofree gboolean *heard = flooder_send (flooder, a);

      for (guint b = 0; b < net->n_devices; b++)
        if (b != a)
          g_assert_cmpint (rw_net_shares_network (net, a, b), ==, heard[b]);
    }
}

/* Without VLANs the graph is the devices, redundant ones twice, and the cables that carry. */
typedef struct
{
  igraph_t graph;
  igraph_vector_int_t edges;
  GArray *cables;     /* by edge */
  guint n_bridge_edges, n_bridges;
} Plain;

static gboolean
is_twice (const RwNetDevice *device)
{
  return !device->forwards && device->mode == RW_MODE_REDUNDANT;
}

/* Vertex at a port, or -1: primaries and bridges at the device's number, secondaries after all devices. */
static int
vertex_at (const RwNet *net, guint port)
{
  guint d = net->ports[port].device;
  const RwNetDevice *device = &net->devices[d];
  int side = net->ports[port].port->side;

  if (side == RW_SIDE_AUX || (side == RW_SIDE_SECONDARY && device->mode == RW_MODE_SINGLE))
    return -1;
  return side == RW_SIDE_SECONDARY && is_twice (device) ? (int) (net->n_devices + d) : (int) d;
}

static gboolean
is_bridge (const RwNetDevice *device)
{
  return device->forwards || device->mode == RW_MODE_CHAIN;
}

static void
plain_init (Plain *graph, const RwNet *net)
{
  g_autofree gboolean *taken = g_new0 (gboolean, net->n_ports + 1);

  igraph_vector_int_init (&graph->edges, 0);
  graph->cables = g_array_new (FALSE, FALSE, sizeof (guint));
  graph->n_bridge_edges = graph->n_bridges = 0;
  for (guint c = 0; c < net->n_cables; c++)
    {
      const guint *port = net->cables[c].port;
      int a = vertex_at (net, port[0]), b = vertex_at (net, port[1]);

      if (port[0] != port[1] && !taken[port[0]] && !taken[port[1]] && a >= 0 && b >= 0)
        {
          igraph_vector_int_push_back (&graph->edges, a);
          igraph_vector_int_push_back (&graph->edges, b);
          g_array_append_val (graph->cables, c);
          graph->n_bridge_edges += is_bridge (&net->devices[net->ports[port[0]].device])
                                   && is_bridge (&net->devices[net->ports[port[1]].device]);
        }
      taken[port[0]] = taken[port[1]] = TRUE;
    }
  igraph_create (&graph->graph, &graph->edges, 2 * net->n_devices, IGRAPH_UNDIRECTED);
}

static void
plain_clear (Plain *graph)
{
  igraph_destroy (&graph->graph);
  igraph_vector_int_destroy (&graph->edges);
  g_array_unref (graph->cables);
}

/* All nets' cut cables and devices as flags. */
static void
find_cuts (const RwNet *net, gboolean *cables, gboolean *devices)
{
  for (guint k = 0; k < net->n_networks; k++)
    {
      RwCuts cuts;

      rw_net_cuts (net, k, &cuts);
      for (guint i = 0; i < cuts.cables->len; i++)
        cables[g_array_index (cuts.cables, guint, i)] = TRUE;
      for (guint i = 0; i < cuts.devices->len; i++)
        devices[g_array_index (cuts.devices, guint, i)] = TRUE;
      rw_cuts_clear (&cuts);
    }
}

static void
check_cuts_against_igraph (const RwNet *net, const Plain *graph)
{
  g_autofree gboolean *cables = g_new0 (gboolean, net->n_cables + 1);
  g_autofree gboolean *devices = g_new0 (gboolean, net->n_devices);
  g_autofree gboolean *cut_cables = g_new0 (gboolean, net->n_cables + 1);
  g_autofree gboolean *cut_devices = g_new0 (gboolean, net->n_devices);
  igraph_vector_int_t found;

  igraph_vector_int_init (&found, 0);
  igraph_bridges (&graph->graph, &found);
  for (igraph_integer_t i = 0; i < igraph_vector_int_size (&found); i++)
    cables[g_array_index (graph->cables, guint, VECTOR (found)[i])] = TRUE;
  igraph_articulation_points (&graph->graph, &found);
  for (igraph_integer_t i = 0; i < igraph_vector_int_size (&found); i++)
    devices[VECTOR (found)[i] % net->n_devices] = TRUE;
  igraph_vector_int_destroy (&found);
  find_cuts (net, cut_cables, cut_devices);
  for (guint c = 0; c < net->n_cables; c++)
    g_assert_cmpint (cut_cables[c], ==, cables[c]);
  /* A redundant device takes two vertices with it: the plain reference below judges those. */
  for (guint d = 0; d < net->n_devices; d++)
    if (!is_twice (&net->devices[d]))
      g_assert_cmpint (cut_devices[d], ==, devices[d]);
}

/* E − V + C over what forwards, C by igraph; networks are its components. */
static void
check_plain (const RwRig *rig, const RwNet *net)
{
  Plain graph;
  igraph_vector_int_t member, sizes;
  igraph_integer_t n;
  guint no_nodes = 0, loops = 0, bridges = 0;
  g_autofree gboolean *has_bridge = NULL;
  guint bridge_components = 0;

  plain_init (&graph, net);
  igraph_vector_int_init (&member, 0);
  igraph_vector_int_init (&sizes, 0);
  igraph_connected_components (&graph.graph, &member, &sizes, &n, IGRAPH_WEAK);
  has_bridge = g_new0 (gboolean, n);
  for (guint d = 0; d < net->n_devices; d++)
    {
      no_nodes += !is_twice (&net->devices[d]);
      if (!is_bridge (&net->devices[d]))
        continue;
      bridges++;
      has_bridge[VECTOR (member)[d]] = TRUE;
    }
  for (igraph_integer_t i = 0; i < n; i++)
    bridge_components += has_bridge[i];
  for (guint k = 0; k < net->n_networks; k++)
    loops += net->networks[k].n_loops;
  g_assert_cmpuint (net->n_networks, ==, n - no_nodes);
  g_assert_cmpuint (loops, ==, graph.n_bridge_edges - bridges + bridge_components);
  g_assert_cmpuint (net->n_loops, ==, loops);
  check_cuts_against_igraph (net, &graph);
  igraph_vector_int_destroy (&member);
  igraph_vector_int_destroy (&sizes);
  plain_clear (&graph);
}

/* Joins all of a network but one cable and one device; counts what is left in how many pieces. */
static guint
count_pieces (const RwNet *net, const RwNetwork *network, guint cable, guint device)
{
  g_autofree guint *piece = g_new (guint, net->n_nodes);
  guint n = 0;
  gboolean changed = TRUE;

  for (guint i = 0; i < net->n_nodes; i++)
    piece[i] = i;
  while (changed)
    {
      changed = FALSE;
      for (guint i = 0; i < network->links.n; i++)
        {
          const RwNetLink *link = &net->links[network->links.v[i]];
          guint a = link->node[0], b = link->node[1];

          if (link->cable == cable || net->nodes[a].device == device || net->nodes[b].device == device
              || piece[a] == piece[b])
            continue;
          piece[a] = piece[b] = MIN (piece[a], piece[b]);
          changed = TRUE;
        }
    }
  for (guint i = 0; i < network->nodes.n; i++)
    {
      guint node = network->nodes.v[i];

      n += piece[node] == node && net->nodes[node].device != device;
    }
  return n;
}

static gboolean
holds (const GArray *array, guint value)
{
  for (guint i = 0; i < array->len; i++)
    if (g_array_index (array, guint, i) == value)
      return TRUE;
  return FALSE;
}

/* One at a time: take it away and count the pieces. */
static void
check_cuts (const RwRig *rig, const RwNet *net)
{
  for (guint k = 0; k < net->n_networks; k++)
    {
      const RwNetwork *network = &net->networks[k];
      RwCuts cuts;

      rw_net_cuts (net, k, &cuts);
      g_assert_cmpuint (count_pieces (net, network, RW_NONE, RW_NONE), ==, 1);
      for (guint i = 0; i < network->cables.n; i++)
        g_assert_cmpint (holds (cuts.cables, network->cables.v[i]), ==,
                         count_pieces (net, network, network->cables.v[i], RW_NONE) > 1);
      for (guint i = 0; i < network->devices.n; i++)
        g_assert_cmpint (holds (cuts.devices, network->devices.v[i]), ==,
                         count_pieces (net, network, RW_NONE, network->devices.v[i]) > 1);
      rw_cuts_clear (&cuts);
    }
}

/* Plain breadth first, over links between bridges before @limit; NULL where there is no way. */
static GArray *
plain_way (const RwNet *net, const RwNetLink *closing, guint limit)
{
  g_autofree guint *came_by = g_new (guint, net->n_nodes);
  g_autoptr (GArray) queue = g_array_new (FALSE, FALSE, sizeof (guint));
  GArray *way = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < net->n_nodes; i++)
    came_by[i] = RW_NONE;
  g_array_append_val (queue, closing->node[0]);
  for (guint i = 0; i < queue->len; i++)
    for (guint l = 0; l < limit; l++)
      for (guint end = 0; end < 2; end++)
        {
          guint node = g_array_index (queue, guint, i), next = net->links[l].node[1 - end];

          if (net->links[l].node[end] != node || came_by[next] != RW_NONE || next == closing->node[0]
              || net->nodes[node].kind != RW_NODE_BRIDGE || net->nodes[next].kind != RW_NODE_BRIDGE)
            continue;
          came_by[next] = l;
          g_array_append_val (queue, next);
        }
  for (guint node = closing->node[1]; node != closing->node[0];)
    {
      if (came_by[node] == RW_NONE)
        {
          g_array_unref (way);
          return NULL;
        }
      g_array_prepend_val (way, came_by[node]);
      node = rw_net_other_node (net, came_by[node], node);
    }
  return way;
}

static void
add_new (GArray *array, guint value)
{
  if (!holds (array, value))
    g_array_append_val (array, value);
}

/* The best way by which @cable closes a loop of @network; NULL: it closes none. */
static GArray *
best_plain_way (const RwNet *net, guint network, guint cable, gboolean own, guint *closing)
{
  GArray *best = NULL;
  const RwNetCable *c = &net->cables[cable];

  for (guint l = c->first_link; l < c->first_link + c->n_links; l++)
    {
      GArray *way;
      const guint *node = net->links[l].node;

      if (net->nodes[node[0]].network != network || net->nodes[node[0]].kind != RW_NODE_BRIDGE
          || net->nodes[node[1]].kind != RW_NODE_BRIDGE)
        continue;
      way = plain_way (net, &net->links[l], own ? l : c->first_link);
      if (way != NULL && (best == NULL || way->len < best->len))
        {
          g_clear_pointer (&best, g_array_unref);
          best = way;
          *closing = l;
        }
      else if (way != NULL)
        g_array_unref (way);
    }
  return best;
}

static void
check_loop (const RwNet *net, const RwLoop *loop, const GArray *way, guint closing)
{
  g_autoptr (GArray) cables = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) devices = g_array_new (FALSE, FALSE, sizeof (guint));
  guint node = net->links[closing].node[0];

  add_new (devices, net->nodes[node].device);
  add_new (cables, loop->cable);
  for (guint i = 0; i < way->len; i++)
    {
      guint l = g_array_index (way, guint, i);

      node = rw_net_other_node (net, l, node);
      add_new (cables, net->links[l].cable);
      add_new (devices, net->nodes[node].device);
    }
  g_assert_cmpmem (loop->devices.v, loop->devices.n * sizeof (guint), devices->data,
                   devices->len * sizeof (guint));
  g_assert_cmpmem (loop->way.v, loop->way.n * sizeof (guint), (guint *) cables->data + 1,
                   (cables->len - 1) * sizeof (guint));
}

/* Each loop and its way by a search that tries all that was drawn before; no other loop is told. */
static void
check_loops (const RwRig *rig, const RwNet *net)
{
  guint at = 0;

  for (guint k = 0; k < net->n_networks; k++)
    for (guint i = 0; i < net->networks[k].cables.n; i++)
      {
        guint cable = net->networks[k].cables.v[i], closing = RW_NONE;
        g_autoptr (GArray) way = best_plain_way (net, k, cable, FALSE, &closing);

        if (way == NULL)
          way = best_plain_way (net, k, cable, TRUE, &closing);
        if (way == NULL)
          continue;
        g_assert_cmpuint (at, <, net->n_loops);
        g_assert_cmpuint (net->loops[at].network, ==, k);
        g_assert_cmpuint (net->loops[at].cable, ==, cable);
        check_loop (net, &net->loops[at++], way, closing);
      }
  g_assert_cmpuint (at, ==, net->n_loops);
}

static gboolean
is_blocked (const RwNet *net, guint cable)
{
  const RwTreeRole *roles = rw_net_tree (net)->roles;

  return roles[net->cables[cable].port[0]] == RW_TREE_ROLE_BLOCKED
         || roles[net->cables[cable].port[1]] == RW_TREE_ROLE_BLOCKED;
}

/* Without what the tree blocks, a network that is said to be calm holds no cycle: E = V − C there. */
static void
check_calm (const RwRig *rig, const RwNet *net)
{
  for (guint k = 0; k < net->n_networks; k++)
    {
      const RwNetwork *network = &net->networks[k];
      g_autofree guint *piece = g_new (guint, net->n_nodes);

      if (network->storm)
        continue;
      for (guint i = 0; i < net->n_nodes; i++)
        piece[i] = i;
      for (guint i = 0; i < network->links.n; i++)
        {
          const RwNetLink *link = &net->links[network->links.v[i]];
          guint a = piece[link->node[0]], b = piece[link->node[1]];

          if (is_blocked (net, link->cable))
            continue;
          g_assert_cmpuint (a, !=, b);
          for (guint n = 0; n < net->n_nodes; n++)
            if (piece[n] == a)
              piece[n] = b;
        }
    }
  for (guint i = 0; i < net->n_loops; i++)
    if (net->loops[i].held)
      g_assert_true (is_blocked (net, net->loops[i].open_cable));
}

/* Where all switches run spanning tree and nothing else forwards, every loop is held. */
static void
check_all_held (const RwRig *rig, const RwNet *net)
{
  for (guint d = 0; d < net->n_devices; d++)
    if (is_bridge (&net->devices[d]) && net->devices[d].part->kind != RW_PART_SWITCH)
      return;
  for (guint i = 0; i < net->n_loops; i++)
    g_assert_true (net->loops[i].held);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    RandomTest test;
  } tests[] = {
    { "/net/random/hosts-hear-each-other", { &tangled, MANY, check_hosts } },
    { "/net/random/igraph", { &plain, MANY, check_plain } },
    { "/net/random/igraph-large", { &large, FEW, check_plain } },
    { "/net/random/cuts", { &tangled, MANY, check_cuts } },
    { "/net/random/cuts-plain", { &plain, MANY, check_cuts } },
    { "/net/random/cuts-knotted", { &knotted, MANY, check_cuts } },
    { "/net/random/ways", { &tangled, MANY, check_loops } },
    { "/net/random/ways-knotted", { &knotted, MANY, check_loops } },
    { "/net/random/ways-large", { &large, FEW, check_loops } },
    { "/net/random/ways-large-knotted", { &large_knotted, FEW, check_loops } },
    { "/net/random/calm", { &tangled, MANY, check_calm } },
    { "/net/random/calm-trees", { &trees, MANY, check_calm } },
    { "/net/random/all-held", { &trees, MANY, check_all_held } },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add_data_func (tests[i].path, &tests[i].test, run_random);
  return g_test_run ();
}
