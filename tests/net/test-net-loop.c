/* SPDX-License-Identifier: MIT */
/* Loops by closing cable, their ways round, and which of them a spanning tree opens. */
#include "net-assert.h"

static void
test_ring_of_three (void)
{
  g_autoptr (RwNet) net = net_of ("console A; rack B; rack C; A.s-B.p; B.s-C.p; C.s-A.p");

  g_assert_cmpuint (net->n_loops, ==, 1);
  g_assert_cmpuint (net->networks[0].n_loops, ==, 1);
  g_assert_true (net->networks[0].storm);
  g_assert_cmpuint (net->loops[0].cable, ==, 2);
  /* From the closing cable's from, C, to its to, A. */
  net_assert_devices (net, net->loops[0].devices, "C B A");
  net_assert_cables (net, net->loops[0].way, "c2 c1");
  g_assert_false (net->loops[0].held);
  g_assert_cmpuint (net->loops[0].open_cable, ==, RW_NONE);
}

static void
test_no_loop (void)
{
  g_autoptr (RwNet) net = net_of ("console A; rack B; rack C; A.s-B.p; B.s-C.p");

  g_assert_cmpuint (net->n_loops, ==, 0);
}

/* The ring of one redundant device is none: its two interfaces do not forward. */
static void
test_redundant_device_opens_a_ring (void)
{
  g_autoptr (RwNet) net = net_of ("console A; rack B; rack C mode=redundant; A.s-B.p; B.s-C.p; C.s-A.p");

  g_assert_cmpuint (net->n_loops, ==, 0);
  g_assert_cmpint (net->networks[0].planes, ==, RW_PLANE_CHAIN | RW_PLANE_PRIMARY | RW_PLANE_SECONDARY);
}

static void
test_two_ports_of_one_switch (void)
{
  g_autoptr (RwNet) net = net_of ("switch S; S.p1-S.p2");

  g_assert_cmpuint (net->n_loops, ==, 1);
  g_assert_cmpuint (net->loops[0].way.n, ==, 0);
  net_assert_devices (net, net->loops[0].devices, "S");
  g_assert_true (net->networks[0].storm);
}

static void
test_chain_device_into_itself (void)
{
  g_autoptr (RwNet) net = net_of ("rack A; A.p-A.s");

  g_assert_cmpuint (net->n_loops, ==, 1);
  net_assert_devices (net, net->loops[0].devices, "A");
}

static void
test_two_vlans_of_one_switch_are_joined_without_a_loop (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=10 p2=20 p3=10 p4=20; S.p1-S.p2");

  g_assert_cmpuint (net->n_loops, ==, 0);
}

static void
test_two_vlans_of_one_switch_joined_twice (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=10 p2=20 p3=10 p4=20; S.p1-S.p2; S.p3-S.p4");

  g_assert_cmpuint (net->n_loops, ==, 1);
  net_assert_cables (net, net->loops[0].way, "c1");
  net_assert_devices (net, net->loops[0].devices, "S");
}

static void
test_trunk_ring_loops_in_each_vlan (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=[10,20] p2=[10,20]; switch T p1=[10,20] p2=[10,20];"
                                  "S.p1-T.p1; S.p2-T.p2");

  g_assert_cmpuint (net->n_loops, ==, 2);
  g_assert_cmpuint (net->loops[0].network, !=, net->loops[1].network);
  g_assert_cmpuint (net->loops[0].cable, ==, 1);
  g_assert_cmpuint (net->loops[1].cable, ==, 1);
}

/* A cable on which both tags close loops of one network is told once, but counts twice. */
static void
test_one_finding_a_network_and_cable (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=[10,20] p2=[10,20] p3=10 p4=20;"
                                  "switch T p1=[10,20] p2=[10,20];"
                                  "S.p3-S.p4; S.p1-T.p1; S.p2-T.p2");

  g_assert_cmpuint (net->networks[0].n_loops + net->networks[1].n_loops, ==, 2);
  g_assert_cmpuint (net->n_loops, ==, 1);
  net_assert_cables (net, net->loops[0].way, "c2");
}

/* The last trunk's second tag comes back only over its own first: the way names the cable once. */
static void
test_trunk_that_meets_itself (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=[10,20] p3=10 p4=20; switch T p1=[10,20] p3=10 p4=20;"
                                  "S.p3-S.p4; T.p3-T.p4; S.p1-T.p1");

  g_assert_cmpuint (net->n_loops, ==, 1);
  g_assert_cmpuint (net->loops[0].cable, ==, 2);
  net_assert_cables (net, net->loops[0].way, "c1 c2");
  net_assert_devices (net, net->loops[0].devices, "S T");
}

/* VLANs 20 and 30 come back only over the trunk itself, 10 over a cable drawn before it: that one is told. */
static void
test_way_over_other_cables_goes_first (void)
{
  g_autoptr (RwNet) net = net_of ("switch S p1=[10,20,30] p2=10 p3=20 p4=30 p5=10 p6=20;"
                                  "switch T p1=[10,20,30] p2=10 p3=20 p4=30;"
                                  "S.p2-T.p2; S.p3-S.p4; T.p3-T.p4; S.p1-T.p1; S.p5-S.p6");

  g_assert_cmpuint (net->n_loops, ==, 1);
  net_assert_cables (net, net->loops[0].way, "c1");
}

/* Of two equally short ways the one whose first cable was drawn first, seen from the closing cable's from. */
static void
test_tie_goes_by_file_order (void)
{
  const char *parts = "switch A; switch B; switch C; switch D;";
  g_autofree char *left = g_strconcat (parts, "A.p1-B.p1; B.p2-D.p1; A.p2-C.p1; C.p2-D.p2; A.p3-D.p3", NULL);
  g_autofree char *right = g_strconcat (parts, "A.p2-C.p1; C.p2-D.p2; A.p1-B.p1; B.p2-D.p1; A.p3-D.p3", NULL);
  g_autofree char *back = g_strconcat (parts, "A.p1-B.p1; C.p2-D.p2; A.p2-C.p1; B.p2-D.p1; D.p3-A.p3", NULL);
  g_autoptr (RwNet) net = net_of (left);
  g_autoptr (RwNet) other = net_of (right);
  g_autoptr (RwNet) reverse = net_of (back);

  g_assert_cmpuint (net->n_loops, ==, 2);
  net_assert_cables (net, net->loops[1].way, "c1 c2");
  net_assert_devices (net, net->loops[1].devices, "A B D");
  net_assert_devices (other, other->loops[1].devices, "A C D");
  net_assert_devices (reverse, reverse->loops[1].devices, "D C A");
}

/* A shorter way that is drawn later does not count. */
static void
test_way_uses_what_was_drawn_before (void)
{
  g_autoptr (RwNet) net = net_of ("switch A; switch B; switch C; A.p1-B.p1; B.p2-C.p1; A.p2-C.p2;"
                                  "A.p3-C.p3");

  g_assert_cmpuint (net->n_loops, ==, 2);
  net_assert_cables (net, net->loops[0].way, "c1 c2");
  net_assert_cables (net, net->loops[1].way, "c3");
}

static void
test_held_by_spanning_tree (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; switch B stp; switch C stp; A.p1-B.p1; B.p2-C.p1;"
                                  "C.p2-A.p2");

  g_assert_cmpuint (net->n_loops, ==, 1);
  g_assert_true (net->loops[0].held);
  g_assert_false (net->networks[0].storm);
  /* A is root, so the link between the other two is blocked. */
  g_assert_cmpuint (net->loops[0].open_cable, ==, net_cable (net, "c2"));
}

static void
test_not_held_by_half_a_ring (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; switch B; switch C stp; A.p1-B.p1; B.p2-C.p1; C.p2-A.p2");

  g_assert_cmpuint (net->n_loops, ==, 1);
  g_assert_false (net->loops[0].held);
  g_assert_true (net->networks[0].storm);
}

static void
test_not_held_over_a_chain_device (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; switch B stp; rack R; A.p1-B.p1; A.p2-R.p; R.s-B.p2");

  g_assert_cmpuint (net->n_loops, ==, 1);
  g_assert_false (net->loops[0].held);
}

static void
test_converter_counts_as_cable (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; switch B stp; converter V; A.p1-B.p1; A.p2-V.p1;"
                                  "V.p2-B.p2");

  g_assert_true (net->loops[0].held);
  g_assert_cmpuint (net->loops[0].open_cable, ==, net_cable (net, "c3"));
}

static void
test_converter_of_three_ports_does_not (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; switch B stp; converter V ports=3; A.p1-B.p1;"
                                  "A.p2-V.p1; V.p2-B.p2");

  g_assert_false (net->loops[0].held);
}

static void
test_ring_of_converters (void)
{
  g_autoptr (RwNet) net = net_of ("converter V; converter W; V.p1-W.p1; V.p2-W.p2");

  /* Nobody there to open it. */
  g_assert_cmpuint (net->n_loops, ==, 1);
  g_assert_false (net->loops[0].held);
}

static void
test_cable_from_a_switch_to_itself_is_held (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp; A.p1-A.p2");

  g_assert_true (net->loops[0].held);
  g_assert_cmpuint (net->loops[0].open_cable, ==, 0);
}

static void
test_order_of_loops (void)
{
  g_autoptr (RwNet) net = net_of ("switch A; switch B; switch C; switch D;"
                                  "C.p1-D.p1; A.p1-B.p1; C.p2-D.p2; A.p2-B.p2; C.p3-D.p3; A.p3-B.p3");
  guint wanted[] = { 3, 5, 2, 4 };

  g_assert_cmpuint (net->n_loops, ==, G_N_ELEMENTS (wanted));
  for (guint i = 0; i < net->n_loops; i++)
    g_assert_cmpuint (net->loops[i].cable, ==, wanted[i]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/loop/ring-of-three", test_ring_of_three);
  g_test_add_func ("/net/loop/none", test_no_loop);
  g_test_add_func ("/net/loop/redundant-device-opens-a-ring", test_redundant_device_opens_a_ring);
  g_test_add_func ("/net/loop/two-ports-of-one-switch", test_two_ports_of_one_switch);
  g_test_add_func ("/net/loop/chain-device-into-itself", test_chain_device_into_itself);
  g_test_add_func ("/net/loop/two-vlans-joined-once", test_two_vlans_of_one_switch_are_joined_without_a_loop);
  g_test_add_func ("/net/loop/two-vlans-joined-twice", test_two_vlans_of_one_switch_joined_twice);
  g_test_add_func ("/net/loop/trunk-ring", test_trunk_ring_loops_in_each_vlan);
  g_test_add_func ("/net/loop/one-a-network-and-cable", test_one_finding_a_network_and_cable);
  g_test_add_func ("/net/loop/trunk-that-meets-itself", test_trunk_that_meets_itself);
  g_test_add_func ("/net/loop/other-cables-first", test_way_over_other_cables_goes_first);
  g_test_add_func ("/net/loop/tie", test_tie_goes_by_file_order);
  g_test_add_func ("/net/loop/drawn-before", test_way_uses_what_was_drawn_before);
  g_test_add_func ("/net/loop/held", test_held_by_spanning_tree);
  g_test_add_func ("/net/loop/half-a-ring", test_not_held_by_half_a_ring);
  g_test_add_func ("/net/loop/over-a-chain-device", test_not_held_over_a_chain_device);
  g_test_add_func ("/net/loop/converter-is-cable", test_converter_counts_as_cable);
  g_test_add_func ("/net/loop/converter-of-three-ports", test_converter_of_three_ports_does_not);
  g_test_add_func ("/net/loop/ring-of-converters", test_ring_of_converters);
  g_test_add_func ("/net/loop/switch-to-itself", test_cable_from_a_switch_to_itself_is_held);
  g_test_add_func ("/net/loop/order", test_order_of_loops);
  return g_test_run ();
}
