/* SPDX-License-Identifier: MIT */
/* Cut cables and devices, and shortest ways, on rigs drawn by hand. */
#include "net-assert.h"

static guint
largest_network (const RwNet *net)
{
  guint best = 0;

  for (guint k = 1; k < net->n_networks; k++)
    if (net->networks[k].nodes.n > net->networks[best].nodes.n)
      best = k;
  return best;
}

static void
assert_cuts (const RwNet *net, const char *cables, const char *devices)
{
  RwCuts cuts;

  rw_net_cuts (net, largest_network (net), &cuts);
  net_assert_cables (net, ((RwSlice) { (guint *) cuts.cables->data, cuts.cables->len }), cables);
  net_assert_devices (net, ((RwSlice) { (guint *) cuts.devices->data, cuts.devices->len }), devices);
  rw_cuts_clear (&cuts);
}

static void
test_chain (void)
{
  g_autoptr (RwNet) net = net_of ("rack A; rack B; rack C; rack D; A.s-B.p; B.s-C.p; C.s-D.p");

  assert_cuts (net, "c1 c2 c3", "B C");
}

static void
test_ring (void)
{
  g_autoptr (RwNet) net = net_of ("rack A; rack B; rack C; A.s-B.p; B.s-C.p; C.s-A.p");

  assert_cuts (net, "", "");
}

static void
test_parallel_cables (void)
{
  g_autoptr (RwNet) net = net_of ("switch A; switch B; switch C; A.p1-B.p1; A.p2-B.p2; B.p3-C.p1");

  assert_cuts (net, "c3", "B");
}

static void
test_own_loop (void)
{
  g_autoptr (RwNet) net = net_of ("switch A; computer B; A.p1-A.p2; A.p3-B.p");

  assert_cuts (net, "c2", "");
}

static void
test_lone_device (void)
{
  g_autoptr (RwNet) net = net_of ("rack A");

  assert_cuts (net, "", "");
}

/* Either of the trunk's links could fail alone; the cable takes both. */
static void
test_trunk_falls_with_all_its_links (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=[10,20] p3=10 p4=20; switch T p1=[10,20] p3=10 p4=20;"
                                  "S.p3-S.p4; T.p3-T.p4; S.p1-T.p1");

  assert_cuts (net, "c3", "");
}

/* T's two nodes are each on a ring; the box takes both. */
static void
test_device_falls_with_all_its_nodes (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=10 p2=20 p3=10 p4=20; switch T p1=10 p2=20 p5=10 p6=20;"
                                  "switch U p5=10 p6=20 p3=10 p4=20; S.p3-S.p4; U.p3-U.p4;"
                                  "S.p1-T.p1; S.p2-T.p2; T.p5-U.p5; T.p6-U.p6");

  assert_cuts (net, "", "T");
}

/* A chain longer than a stack of function calls would bear. */
static void
test_long_chain (void)
{
  g_autoptr (GString) text = g_string_new ("");
  g_autoptr (RwNet) net = NULL;
  RwCuts cuts;
  const guint n = 20000;

  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "rack D%u;", i);
  for (guint i = 0; i + 1 < n; i++)
    g_string_append_printf (text, "D%u.s-D%u.p;", i, i + 1);
  net = net_of (text->str);
  rw_net_cuts (net, 0, &cuts);
  g_assert_cmpuint (cuts.cables->len, ==, n - 1);
  g_assert_cmpuint (cuts.devices->len, ==, n - 2);
  rw_cuts_clear (&cuts);
}

static gboolean
is_node_of (const RwNet *net, guint node, gpointer device)
{
  return net->nodes[node].device == GPOINTER_TO_UINT (device);
}

static void
assert_way (const RwNet *net, const char *from, const char *to, const char *cables)
{
  guint node = net->devices[net_device (net, from)].first_node;
  gpointer goal = GUINT_TO_POINTER (net_device (net, to));
  g_autoptr (GArray) way = rw_net_shortest_way (net, node, is_node_of, goal);

  for (guint i = 0; i < way->len; i++)
    g_array_index (way, guint, i) = net->links[g_array_index (way, guint, i)].cable;
  net_assert_cables (net, ((RwSlice) { (guint *) way->data, way->len }), cables);
}

static void
test_shortest_way (void)
{
  g_autoptr (RwNet) net = net_of ("switch A; switch B; switch C; switch D; rack E; rack F mode=redundant;"
                                  "A.p1-B.p1; B.p2-C.p1; C.p2-D.p1; A.p2-D.p2; D.p3-E.p; C.p3-F.p");

  assert_way (net, "A", "C", "c1 c2");
  assert_way (net, "A", "E", "c4 c5");
  assert_way (net, "F", "E", "c6 c3 c5");
  assert_way (net, "A", "A", "");
}

static void
test_no_way (void)
{
  g_autoptr (RwNet) net = net_of ("switch A; switch B; switch C; A.p1-B.p1");

  assert_way (net, "A", "C", "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/cut/chain", test_chain);
  g_test_add_func ("/net/cut/ring", test_ring);
  g_test_add_func ("/net/cut/parallel-cables", test_parallel_cables);
  g_test_add_func ("/net/cut/own-loop", test_own_loop);
  g_test_add_func ("/net/cut/lone-device", test_lone_device);
  g_test_add_func ("/net/cut/trunk", test_trunk_falls_with_all_its_links);
  g_test_add_func ("/net/cut/several-nodes", test_device_falls_with_all_its_nodes);
  g_test_add_func ("/net/cut/long-chain", test_long_chain);
  g_test_add_func ("/net/way/shortest", test_shortest_way);
  g_test_add_func ("/net/way/none", test_no_way);
  return g_test_run ();
}
