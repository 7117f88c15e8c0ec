/* SPDX-License-Identifier: MIT */
/* The ways of frames and their planning delay. */
#include <net/rw-load.h>
#include <stdlib.h>

#include "net-assert.h"

typedef struct
{
  RwPaths *paths;
  GArray *links;
  guint from, to;
} Way;

static void
way_open (Way *way, const RwNet *net, const char *from, const char *to)
{
  guint a = net_device (net, from), b = net_device (net, to);

  way->paths = rw_paths_new (net);
  way->links = g_array_new (FALSE, FALSE, sizeof (guint));
  way->from = net->devices[a].first_node;
  way->to = net->devices[b].first_node;
  g_assert_true (rw_paths_find (net, way->paths, way->from, way->to, way->links));
}

static void
way_close (Way *way)
{
  rw_paths_free (way->paths);
  g_array_unref (way->links);
}

static void
assert_way (const RwNet *net, const Way *way, const char *cables, guint hops)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < way->links->len; i++)
    g_string_append_printf (text, "%s ", rw_item_key (net->cables[net->links[g_array_index (way->links, guint, i)].cable].cable));
  g_assert_cmpstr (text->str, ==, cables);
  g_assert_cmpuint (rw_paths_hops (net, way->from, way->links), ==, hops);
}

static void
test_chain (void)
{
  g_autoptr (RwNet) net = net_of ("console A; rack B; rack C; A.s-B.p; B.s-C.p");
  Way way;

  way_open (&way, net, "A", "C");
  assert_way (net, &way, "c1 c2 ", 3); /* the internal bridges of A, B and C */
  way_close (&way);
  way_open (&way, net, "C", "B");
  assert_way (net, &way, "c2 ", 2);
  way_close (&way);
  way_open (&way, net, "B", "B");
  assert_way (net, &way, "", 1);
  way_close (&way);
}

static void
test_star (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; switch S; switch T; computer B; A.p-S.p1; S.p2-T.p1;"
                                  "B.p-T.p2");
  Way way;

  way_open (&way, net, "A", "B");
  assert_way (net, &way, "c1 c2 c3 ", 2);
  way_close (&way);
}

/* An unheld ring: the cable that closes it, the last one drawn, is left out. */
static void
test_storm_uses_what_closed_no_loop (void)
{
  g_autoptr (RwNet) net = net_of ("console A; rack B; rack C; A.s-B.p; B.s-C.p; C.s-A.p");
  Way way;

  g_assert_cmpuint (net->n_loops, ==, 1);
  way_open (&way, net, "A", "C");
  assert_way (net, &way, "c1 c2 ", 3);
  way_close (&way);
}

/* A held ring of four, root A: the tree blocks the link of C that is not its root port; the cable drawn last plays on. */
static void
test_tree_is_followed (void)
{
  g_autoptr (RwNet) net = net_of ("switch A stp bridge_priority=4096; switch B stp; switch C stp;"
                                  "switch D stp;"
                                  "A.p1-B.p1; B.p2-C.p1; C.p2-D.p1; D.p2-A.p2");
  Way way;

  g_assert_true (net->loops[0].held);
  way_open (&way, net, "A", "D");
  assert_way (net, &way, "c4 ", 2);
  way_close (&way);
  way_open (&way, net, "D", "C"); /* C reaches the root by B, whose bridge id is lower: D–C is blocked */
  assert_way (net, &way, "c4 c1 c2 ", 4);
  way_close (&way);
}

static void
test_distances (void)
{
  g_autoptr (RwNet) net = net_of ("console A; rack B; rack C; computer X; A.s-B.p; B.s-C.p");
  g_autoptr (RwPaths) paths = rw_paths_new (net);
  g_autoptr (GArray) d = rw_paths_distances (net, paths, net->devices[net_device (net, "A")].first_node);
  const guint expected[] = { 1, 2, 3, RW_NONE };
  const char *const ids[] = { "A", "B", "C", "X" };

  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    g_assert_cmpuint (g_array_index (d, guint, net->devices[net_device (net, ids[i])].first_node), ==, expected[i]);
}

/*
 * Frame sizes. AES67 packet times and IPv4/UDP/RTP headers (RFC 791, 768, 3550): payload + 58 bytes from
 * destination address to check sequence; the sizes on the wire are 20 more (IEEE 802.3 clause 4, from memory).
 */
static void
test_frames (void)
{
  static const struct { int hz, bits, us; guint channels, on_wire; } cases[] = {
    { 48000, 16, 125, 1, 90 },  { 48000, 24, 125, 8, 222 },  { 48000, 24, 250, 8, 366 }, { 48000, 24, 1000, 8, 1230 },
    { 48000, 32, 1000, 4, 846 }, { 96000, 24, 125, 8, 366 }, { 96000, 16, 1000, 4, 846 }, { 44100, 24, 1000, 8, 1230 },
    { 48000, 24, 333, 8, 462 }, { 88200, 24, 125, 1, 114 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpuint (rw_frame_of (cases[i].hz, cases[i].bits, cases[i].us, cases[i].channels).frame_bytes + 20, ==,
                      cases[i].on_wire);
  g_assert_cmpfloat_with_epsilon (rw_frame_of (48000, 24, 125, 8).packet_time_ns, 125000, 0.001);
  g_assert_cmpfloat_with_epsilon (rw_frame_of (44100, 24, 1000, 8).packet_time_ns, 1088435.374, 0.001);
}

/*
 * Store and forward behind one full-size frame: 8 channels of 24 bits at 48 kHz and 1 ms are 1210 bytes:
 * (1210 + 8) · 8 = 9.744 µs, 1538 · 8 = 12.304 µs at 1 Gb/s, so 22.048 µs for each egress; copper 5.4 ns/m.
 */
static void
test_delay (void)
{
  g_autoptr (RwNet) net = net_of ("computer A; switch S; computer B; A.p-S.p1 length_m=50;"
                                  "S.p2-B.p length_m=50");
  RwFrame frame = rw_frame_of (48000, 24, 1000, 8);
  Way way;

  way_open (&way, net, "A", "B");
  g_assert_cmpfloat_with_epsilon (rw_delay_alone_ns (net, way.from, way.links, frame), 1e6 + 2 * 22048 + 2000 + 2 * 270, 0.01);
  way_close (&way);
}

/* The slower port sets the pace: the same frame takes ten times as long at 100 Mb/s (122.08 µs for 1518 bytes). */
static void
test_slow_link (void)
{
  g_autoptr (RwNet) net = net_of ("computer A speed=100; computer B; A.p-B.p");
  RwFrame frame = { .packet_time_ns = 0, .frame_bytes = 1518 };
  Way way;

  way_open (&way, net, "A", "B");
  g_assert_cmpuint (net->cables[0].run.mbps, ==, 100);
  g_assert_cmpfloat_with_epsilon (rw_delay_alone_ns (net, way.from, way.links, frame), 122080 + 123040, 0.01);
  way_close (&way);
}

/* A chain device that talks or listens counts its own internal bridge. */
static void
test_internal_bridges_count (void)
{
  g_autoptr (RwNet) net = net_of ("console A; rack B; A.s-B.p");
  RwFrame frame = { .packet_time_ns = 0, .frame_bytes = 1210 };
  Way way;

  way_open (&way, net, "A", "B");
  g_assert_cmpfloat_with_epsilon (rw_delay_alone_ns (net, way.from, way.links, frame), 22048 + 2 * 2000, 0.01);
  way_close (&way);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/path/chain", test_chain);
  g_test_add_func ("/net/path/star", test_star);
  g_test_add_func ("/net/path/storm", test_storm_uses_what_closed_no_loop);
  g_test_add_func ("/net/path/tree", test_tree_is_followed);
  g_test_add_func ("/net/path/distances", test_distances);
  g_test_add_func ("/net/delay/frames", test_frames);
  g_test_add_func ("/net/delay/star", test_delay);
  g_test_add_func ("/net/delay/slow-link", test_slow_link);
  g_test_add_func ("/net/delay/internal-bridges", test_internal_bridges_count);
  return g_test_run ();
}
