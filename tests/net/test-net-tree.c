/* SPDX-License-Identifier: MIT */
/* Spanning trees worked by hand after IEEE 802.1D-2004 clause 17; stp.py holds batches against real bridges. */
#include "net-assert.h"

#include <net/rw-tree.h>

static RwTreeRole
role (const RwNet *net, const char *device, const char *port)
{
  return rw_net_tree (net)->roles[net_port (net, device, port)];
}

static const RwTreeBridge *
bridge (const RwNet *net, const char *device)
{
  return &rw_net_tree (net)->bridges[net_device (net, device)];
}

/* IEEE 802.1D-2004 Table 17-3. */
static void
test_costs (void)
{
  g_assert_cmpuint (rw_tree_port_cost (10), ==, 2000000);
  g_assert_cmpuint (rw_tree_port_cost (100), ==, 200000);
  g_assert_cmpuint (rw_tree_port_cost (1000), ==, 20000);
  g_assert_cmpuint (rw_tree_port_cost (10000), ==, 2000);
  g_assert_cmpuint (rw_tree_port_cost (100000), ==, 200);
}

static void
test_ring_of_three (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; switch B stp; switch C stp; A.p1-B.p1; B.p2-C.p1;"
                                  "C.p2-A.p2");

  g_assert_cmpuint (bridge (net, "C")->root, ==, net_device (net, "A"));
  g_assert_cmpuint (bridge (net, "A")->root_port, ==, RW_NONE);
  g_assert_cmpuint (bridge (net, "B")->root_port, ==, net_port (net, "B", "p1"));
  g_assert_cmpuint (bridge (net, "B")->cost, ==, 20000);
  g_assert_cmpint (role (net, "A", "p1"), ==, RW_TREE_ROLE_DESIGNATED);
  g_assert_cmpint (role (net, "B", "p1"), ==, RW_TREE_ROLE_ROOT);
  /* B is the better bridge of the two equally far ones. */
  g_assert_cmpint (role (net, "B", "p2"), ==, RW_TREE_ROLE_DESIGNATED);
  g_assert_cmpint (role (net, "C", "p1"), ==, RW_TREE_ROLE_BLOCKED);
  g_assert_cmpint (role (net, "C", "p3"), ==, RW_TREE_ROLE_NONE);
}

/* Priority, then address, then place in the file; a bridge without address comes after those with one. */
static void
test_bridge_identifiers (void)
{
  g_autoptr (RwNet) priority = net_of ("switch A stp; switch B stp bridge_priority=4096; A.p1-B.p1");
  g_autoptr (RwNet) address = net_of ("switch A stp; switch B stp mac=02:00:00:00:00:09;"
                                      "switch C stp mac=02-00-00-00-00-08; A.p1-B.p1; B.p2-C.p1");
  g_autoptr (RwNet) nonsense = net_of ("switch A stp; switch B stp mac='ask Ines'; A.p1-B.p1");

  g_assert_cmpuint (bridge (priority, "A")->root, ==, net_device (priority, "B"));
  g_assert_cmpuint (bridge (address, "A")->root, ==, net_device (address, "C"));
  g_assert_cmpuint (bridge (address, "A")->depth, ==, 2);
  g_assert_cmpuint (bridge (nonsense, "B")->root, ==, net_device (nonsense, "A"));
}

/* Five gigabit hops, 100 000, beat one of 100 Mb/s, 200 000. */
static void
test_five_fast_hops_beat_a_slow_one (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp ports=2; switch B stp; switch C stp; switch D stp;"
                                  "switch E stp;"
                                  "switch F stp; switch X stp speed=100; A.p1-B.p1; B.p2-C.p1;"
                                  "C.p2-D.p1; D.p2-E.p1;"
                                  "E.p2-F.p1; X.p1-A.p2; X.p2-F.p2");

  g_assert_cmpuint (bridge (net, "F")->cost, ==, 100000);
  g_assert_cmpuint (bridge (net, "F")->depth, ==, 5);
  /* A gigabit port joined to one of 100 Mb/s costs what the slower costs. */
  g_assert_cmpuint (bridge (net, "X")->cost, ==, 200000);
  g_assert_cmpint (role (net, "X", "p2"), ==, RW_TREE_ROLE_BLOCKED);
}

static void
test_parallel_links (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; switch B stp; A.p5-B.p1; A.p2-B.p4");

  /* The designated port's number decides before the own one's. */
  g_assert_cmpint (role (net, "B", "p4"), ==, RW_TREE_ROLE_ROOT);
  g_assert_cmpint (role (net, "B", "p1"), ==, RW_TREE_ROLE_BLOCKED);
}

static void
test_cable_to_itself_blocks_one_end (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; A.p4-A.p2");

  g_assert_cmpint (role (net, "A", "p2"), ==, RW_TREE_ROLE_DESIGNATED);
  g_assert_cmpint (role (net, "A", "p4"), ==, RW_TREE_ROLE_BLOCKED);
}

/* One tree over the boxes: two separate VLANs, each over its own cable, and one is parted. */
static void
test_vlans_do_not_matter (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp p1=10 p2=20; switch B stp p1=10 p2=20; A.p1-B.p1;"
                                  "A.p2-B.p2");

  g_assert_cmpuint (net->n_loops, ==, 0);
  g_assert_cmpint (role (net, "B", "p2"), ==, RW_TREE_ROLE_BLOCKED);
}

/* What does not run spanning tree passes its frames on: a shared segment. */
static void
test_shared_segment (void)
{
  g_autoptr (RwNet) net = net_of ("switch H; switch A stp; switch B stp; switch C stp; A.p1-H.p1;"
                                  "B.p1-H.p2; C.p1-H.p3;"
                                  "B.p2-C.p2");

  g_assert_cmpint (role (net, "A", "p1"), ==, RW_TREE_ROLE_DESIGNATED);
  g_assert_cmpint (role (net, "B", "p1"), ==, RW_TREE_ROLE_ROOT);
  g_assert_cmpint (role (net, "C", "p1"), ==, RW_TREE_ROLE_ROOT);
  g_assert_cmpint (role (net, "B", "p2"), ==, RW_TREE_ROLE_DESIGNATED);
  g_assert_cmpint (role (net, "C", "p2"), ==, RW_TREE_ROLE_BLOCKED);
  g_assert_cmpuint (bridge (net, "H")->root, ==, RW_NONE);
  g_assert_cmpint (role (net, "H", "p1"), ==, RW_TREE_ROLE_NONE);
}

static void
test_chain_device_is_a_segment (void)
{
  g_autoptr (RwNet) net = net_of ("rack R; switch A stp; switch B stp; A.p1-R.p; R.s-B.p1; A.p2-B.p2");

  g_assert_cmpint (role (net, "B", "p1"), ==, RW_TREE_ROLE_ROOT);
  g_assert_cmpint (role (net, "B", "p2"), ==, RW_TREE_ROLE_BLOCKED);
}

static void
test_separate_trees (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; switch B stp; switch C stp; switch D stp; A.p1-B.p1;"
                                  "C.p1-D.p1");

  g_assert_cmpuint (bridge (net, "B")->root, ==, net_device (net, "A"));
  g_assert_cmpuint (bridge (net, "D")->root, ==, net_device (net, "C"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/tree/costs", test_costs);
  g_test_add_func ("/net/tree/ring-of-three", test_ring_of_three);
  g_test_add_func ("/net/tree/bridge-identifiers", test_bridge_identifiers);
  g_test_add_func ("/net/tree/five-fast-hops", test_five_fast_hops_beat_a_slow_one);
  g_test_add_func ("/net/tree/parallel-links", test_parallel_links);
  g_test_add_func ("/net/tree/cable-to-itself", test_cable_to_itself_blocks_one_end);
  g_test_add_func ("/net/tree/vlans-do-not-matter", test_vlans_do_not_matter);
  g_test_add_func ("/net/tree/shared-segment", test_shared_segment);
  g_test_add_func ("/net/tree/chain-device", test_chain_device_is_a_segment);
  g_test_add_func ("/net/tree/separate", test_separate_trees);
  return g_test_run ();
}
