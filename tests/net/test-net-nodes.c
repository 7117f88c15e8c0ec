/* SPDX-License-Identifier: MIT */
/* Each sentence of how layer 2 is seen, on small rigs drawn by hand. */
#include "net-assert.h"

/* Network that a frame with @tag is in which comes in there, or RW_NONE. */
static guint
network_at (const RwNet *net, const char *id, const char *port, int tag)
{
  guint node = rw_net_port_node (net, net_port (net, id, port), tag);

  return node == RW_NONE ? RW_NONE : net->nodes[node].network;
}

static void
test_access_ports (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; computer B; computer C; switch S p1=10 p2=10 p3=20;"
                                  "A.p-S.p1; B.p-S.p2; C.p-S.p3");

  g_assert_true (net_hear (net, "A", "B"));
  g_assert_false (net_hear (net, "A", "C"));
  /* VLANs 10, 20 and 1 of the ports that are not set. */
  g_assert_cmpuint (net->devices[net_device (net, "S")].n_nodes, ==, 3);
  g_assert_cmpint (net->nodes[net->devices[net_device (net, "S")].first_node].tag, ==, 1);
  g_assert_cmpuint (network_at (net, "S", "p3", 20), ==, RW_NONE);
  g_assert_cmpuint (network_at (net, "S", "p3", RW_UNTAGGED), ==,
                    network_at (net, "C", "primary", RW_UNTAGGED));
}

static void
test_default_vlan (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; computer B; computer C; switch S p3=1 p4=2; A.p-S.p1;"
                                  "B.p-S.p3; C.p-S.p4");

  g_assert_true (net_hear (net, "A", "B"));
  g_assert_false (net_hear (net, "A", "C"));
}

static void
test_trunk (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; computer B; computer C; computer D;"
                                  "switch S p1=10 p2=20 p8=[20,10]; switch T p1=10 p2=20 p8=[10,20,30];"
                                  "A.p-S.p1; B.p-S.p2; C.p-T.p1; D.p-T.p2; S.p8-T.p8");
  const RwNetCable *trunk = &net->cables[4];

  g_assert_true (net_hear (net, "A", "C"));
  g_assert_true (net_hear (net, "B", "D"));
  g_assert_false (net_hear (net, "A", "B"));
  g_assert_false (net_hear (net, "A", "D"));
  g_assert_cmpuint (trunk->n_links, ==, 2);
  g_assert_cmpint (net->links[trunk->first_link].tag, ==, 10);
  g_assert_cmpint (net->links[trunk->first_link + 1].tag, ==, 20);
  g_assert_cmpuint (net->n_loops, ==, 0);
}

static void
test_trunk_of_one (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; computer B; switch S p1=10 p8=[10]; switch T p1=10 p8=10;"
                                  "A.p-S.p1; B.p-T.p1; S.p8-T.p8");

  /* Tagged on one side, untagged on the other. */
  g_assert_false (net_hear (net, "A", "B"));
  g_assert_cmpuint (net->cables[2].n_links, ==, 0);
  g_assert_true (net->cables[2].carries);
}

static void
test_access_to_access (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; computer B; switch S p1=10 p8=10; switch T p1=20 p8=20;"
                                  "A.p-S.p1; B.p-T.p1; S.p8-T.p8");
  const RwNetwork *network = &net->networks[network_at (net, "A", "primary", RW_UNTAGGED)];

  g_assert_true (net_hear (net, "A", "B"));
  g_assert_cmpuint (network->vlans.n, ==, 2);
  g_assert_cmpuint (network->vlans.v[0], ==, 10);
  g_assert_cmpuint (network->vlans.v[1], ==, 20);
}

static void
test_end_device_to_trunk (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; computer B; switch S p1=10 p8=[10]; A.p-S.p1; B.p-S.p8");

  g_assert_false (net_hear (net, "A", "B"));
}

static void
test_chain (void)
{
  g_autoptr (RwNet) net = net_of ("console A; rack B; rack C; A.s-B.p; B.s-C.p");

  g_assert_true (net_hear (net, "A", "C"));
  g_assert_cmpuint (net->n_networks, ==, 1);
  g_assert_cmpuint (net->n_nodes, ==, 3);
  g_assert_cmpint (net->networks[0].planes, ==, RW_PLANE_CHAIN);
  net_assert_devices (net, net->networks[0].devices, "A B C");
  net_assert_cables (net, net->networks[0].cables, "c1 c2");
  g_assert_false (net->networks[0].storm);
}

static void
test_chain_passes_tags (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; computer B; rack R; switch S p1=10 p8=[10];"
                                  "switch T p1=10 p8=[10];"
                                  "A.p-S.p1; B.p-T.p1; S.p8-R.p; R.s-T.p8");
  const RwNetDevice *rack = &net->devices[net_device (net, "R")];

  g_assert_true (net_hear (net, "A", "B"));
  /* Its own host hears untagged frames only. */
  g_assert_false (net_hear (net, "A", "R"));
  g_assert_cmpuint (rack->n_nodes, ==, 2);
  g_assert_true (net->nodes[rack->first_node].host);
  g_assert_false (net->nodes[rack->first_node + 1].host);
}

static void
test_tags_reach_through_converters (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; computer B; switch S p1=10 p8=[10]; switch T p1=10 p8=[10];"
                                  "converter V; converter W; A.p-S.p1; B.p-T.p1; S.p8-V.p1; V.p2-W.p2;"
                                  "W.p1-T.p8");

  g_assert_true (net_hear (net, "A", "B"));
  /* Nothing untagged reaches them. */
  g_assert_cmpuint (net->devices[net_device (net, "V")].n_nodes, ==, 1);
  g_assert_cmpint (net->nodes[net->devices[net_device (net, "V")].first_node].tag, ==, 10);
}

static void
test_lone_converter (void)
{
  g_autoptr (RwNet) net = net_of ("converter V");

  g_assert_cmpuint (net->devices[0].n_nodes, ==, 1);
  g_assert_cmpint (net->nodes[0].tag, ==, RW_UNTAGGED);
  g_assert_false (net->nodes[0].host);
}

static void
test_redundant (void)
{
  g_autoptr (RwNet) net = net_of ("console A mode=redundant; rack B mode=redundant; switch S; switch T;"
                                  "A.p-S.p1; B.p-S.p2; A.s-T.p1; B.s-T.p2");
  guint primary = network_at (net, "A", "primary", RW_UNTAGGED);
  guint secondary = network_at (net, "A", "secondary", RW_UNTAGGED);

  g_assert_true (net_hear (net, "A", "B"));
  g_assert_cmpuint (primary, !=, secondary);
  g_assert_cmpint (net->networks[primary].planes, ==, RW_PLANE_PRIMARY);
  g_assert_cmpint (net->networks[secondary].planes, ==, RW_PLANE_SECONDARY);
  g_assert_cmpuint (net->n_systems, ==, 1);
  net_assert_devices (net, net->systems[0].devices, "A B S T");
  g_assert_cmpuint (net->n_loops, ==, 0);
}

static void
test_interface_does_not_forward (void)
{
  g_autoptr (RwNet) net = net_of ("rack A mode=redundant; rack B mode=redundant;"
                                  "rack C mode=redundant; A.s-B.p; B.s-C.p");

  g_assert_true (net_hear (net, "A", "B"));
  g_assert_false (net_hear (net, "A", "C"));
}

static void
test_single (void)
{
  g_autoptr (RwNet) net = net_of ("rack A mode=single; rack B; rack C; A.p-B.p; A.s-C.p");

  g_assert_true (net_hear (net, "A", "B"));
  g_assert_false (net_hear (net, "A", "C"));
  g_assert_cmpuint (network_at (net, "A", "secondary", RW_UNTAGGED), ==, RW_NONE);
  g_assert_cmpuint (net->cables[1].n_links, ==, 0);
  g_assert_cmpint (net->networks[network_at (net, "A", "primary", RW_UNTAGGED)].planes, ==, RW_PLANE_CHAIN);
}

static void
test_part_without_secondary_is_single (void)
{
  g_autoptr (RwNet) net = net_of ("computer A mode=redundant");

  g_assert_cmpint (net->devices[0].mode, ==, RW_MODE_SINGLE);
  g_assert_cmpuint (net->n_nodes, ==, 1);
  g_assert_cmpint (net->networks[0].planes, ==, 0);
}

static void
test_aux (void)
{
  g_autoptr (RwNet) net = net_of ("rack A; rack B; switch S; A.a-B.a; A.a-S.p1; B.p-S.p2");

  g_assert_false (net->cables[0].audio);
  g_assert_false (net->cables[1].audio);
  g_assert_true (net->cables[2].audio);
  g_assert_false (net_hear (net, "A", "B"));
  g_assert_cmpuint (net->devices[0].n_audio_cables, ==, 0);
  g_assert_cmpuint (net->devices[1].n_audio_cables, ==, 1);
  g_assert_cmpuint (network_at (net, "A", "aux", RW_UNTAGGED), ==, RW_NONE);
}

static void
test_first_cable_in_a_port_carries (void)
{
  g_autoptr (RwNet) net = net_of ("rack A; rack B; rack C; rack D; A.s-B.p; A.s-C.p; C.p-D.p");

  g_assert_true (net->cables[0].carries);
  /* Second in A's port, so C's first cable is it and the third is second there. */
  g_assert_false (net->cables[1].carries);
  g_assert_false (net->cables[2].carries);
  g_assert_true (net_hear (net, "A", "B"));
  g_assert_false (net_hear (net, "A", "C"));
  g_assert_false (net_hear (net, "C", "D"));
  g_assert_cmpuint (net->ports[rw_net_find_port (net, "A", "secondary")].n_cables, ==, 2);
  g_assert_cmpuint (net->devices[0].n_audio_cables, ==, 2);
}

static void
test_port_to_itself (void)
{
  g_autoptr (RwNet) net = net_of ("switch S; S.p1-S.p1");

  g_assert_false (net->cables[0].carries);
  g_assert_cmpuint (net->n_loops, ==, 0);
  g_assert_cmpuint (net->ports[0].n_cables, ==, 2);
}

static void
test_systems (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=10 p2=20; computer A; computer B; A.p-S.p1; B.p-S.p2");

  /* Two VLANs of one box are no system by that alone. */
  g_assert_cmpuint (net->devices[net_device (net, "A")].system, !=,
                    net->devices[net_device (net, "B")].system);
  g_assert_cmpuint (net->devices[net_device (net, "S")].system, ==, RW_NONE);
}

static void
test_redundant_device_ties_vlans (void)
{
  g_autoptr (RwNet) net = net_of ("switch S ports=3 p1=10 p2=20 p3=20; rack A mode=redundant; computer B;"
                                  "A.p-S.p1; A.s-S.p2; B.p-S.p3");

  g_assert_cmpuint (net->n_systems, ==, 1);
  g_assert_cmpuint (net->devices[net_device (net, "S")].system, ==, 0);
  net_assert_devices (net, net->systems[0].devices, "S A B");
  g_assert_cmpuint (net->systems[0].networks.n, ==, 2);
}

static void
test_unknown_names (void)
{
  g_autoptr (RwNet) net = net_of ("rack A");

  g_assert_cmpuint (rw_net_find_device (net, "B"), ==, RW_NONE);
  g_assert_cmpuint (rw_net_find_cable (net, "A"), ==, RW_NONE);
  g_assert_cmpuint (rw_net_find_port (net, "A", "p1"), ==, RW_NONE);
  g_assert_cmpuint (rw_net_find_port (net, "B", "primary"), ==, RW_NONE);
}

static void
test_empty (void)
{
  g_autoptr (RwNet) net = net_of ("");

  g_assert_cmpuint (net->n_nodes + net->n_networks + net->n_systems + net->n_loops, ==, 0);
}

/* The items stay readable when the rig is gone. */
static void
test_outlives_the_rig (void)
{
  g_autoptr (RwNet) net = net_of ("rack A name='Stage left'; rack B; A.s-B.p");
  g_autoptr (RwNet) again = rw_net_ref (net);

  g_assert_cmpstr (rw_device_title (again->devices[0].device), ==, "Stage left");
  g_assert_cmpstr (net->cables[0].cable->to.port, ==, "primary");
  g_assert_cmpint (net->devices[1].part->preamps, ==, 16);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/nodes/access-ports", test_access_ports);
  g_test_add_func ("/net/nodes/default-vlan", test_default_vlan);
  g_test_add_func ("/net/nodes/trunk", test_trunk);
  g_test_add_func ("/net/nodes/trunk-of-one", test_trunk_of_one);
  g_test_add_func ("/net/nodes/access-to-access", test_access_to_access);
  g_test_add_func ("/net/nodes/end-device-to-trunk", test_end_device_to_trunk);
  g_test_add_func ("/net/nodes/chain", test_chain);
  g_test_add_func ("/net/nodes/chain-passes-tags", test_chain_passes_tags);
  g_test_add_func ("/net/nodes/tags-reach-through-converters", test_tags_reach_through_converters);
  g_test_add_func ("/net/nodes/lone-converter", test_lone_converter);
  g_test_add_func ("/net/nodes/redundant", test_redundant);
  g_test_add_func ("/net/nodes/interface-does-not-forward", test_interface_does_not_forward);
  g_test_add_func ("/net/nodes/single", test_single);
  g_test_add_func ("/net/nodes/part-without-secondary-is-single", test_part_without_secondary_is_single);
  g_test_add_func ("/net/nodes/aux", test_aux);
  g_test_add_func ("/net/nodes/first-cable-in-a-port-carries", test_first_cable_in_a_port_carries);
  g_test_add_func ("/net/nodes/port-to-itself", test_port_to_itself);
  g_test_add_func ("/net/nodes/systems", test_systems);
  g_test_add_func ("/net/nodes/redundant-device-ties-vlans", test_redundant_device_ties_vlans);
  g_test_add_func ("/net/nodes/unknown-names", test_unknown_names);
  g_test_add_func ("/net/nodes/empty", test_empty);
  g_test_add_func ("/net/nodes/outlives-the-rig", test_outlives_the_rig);
  return g_test_run ();
}
