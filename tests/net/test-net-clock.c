/* SPDX-License-Identifier: MIT */
/* The election of the clock leader, by hand; real clocks have their own test. */
#include <net/rw-clock.h>

#include "net-assert.h"

static RwClocks *
elect (const char *text, RwRig **rig, RwNet **net)
{
  *rig = rw_test_rig (text);
  *net = rw_net_new (*rig);
  return rw_clocks_new (*net);
}

static void
set_clock (RwRig *rig, const char *id, const char *clock)
{
  g_autoptr (GError) error = NULL;
  RwItem *device = rw_rig_find (rig, id);
  g_autoptr (RwItem) changed = rw_item_with (device, RW_DEVICE_CLOCK, g_variant_new_parsed (clock), &error);
  g_autoptr (RwChange) change = rw_change_new ("");

  g_assert_no_error (error);
  rw_change_add (change, RW_ITEM_DEVICE, id, device, rw_rig_place (rig, id), changed, rw_rig_place (rig, id));
  g_assert_true (rw_rig_apply (rig, change, NULL));
}

typedef struct { const char *a, *b, *c, *leader; RwClockDecision decided; } Case;

/* One attribute at a time decides, and each comes before those after it: IEEE 1588-2008 figure 27. */
static const Case cases[] = {
  { "{'priority1': <127>, 'class': <248>}", "{'class': <6>}", "@a{sv} {}", "A", RW_CLOCK_BY_PRIORITY1 },
  { "{'class': <7>, 'accuracy': <32>}", "{'class': <6>}", "@a{sv} {}", "B", RW_CLOCK_BY_CLASS },
  { "{'accuracy': <33>, 'variance': <1>}", "@a{sv} {}", "{'accuracy': <32>}", "C", RW_CLOCK_BY_ACCURACY },
  { "{'variance': <2>, 'priority2': <1>}", "{'variance': <1>}", "@a{sv} {}", "B", RW_CLOCK_BY_VARIANCE },
  { "{'identity': <'0000000000000001'>}", "@a{sv} {}", "{'priority2': <127>}", "C", RW_CLOCK_BY_PRIORITY2 },
  { "@a{sv} {}", "{'identity': <'00000000000000ff'>}", "{'identity': <'00000000000000FE'>}", "C", RW_CLOCK_BY_IDENTITY },
  { "@a{sv} {}", "@a{sv} {}", "@a{sv} {}", "A", RW_CLOCK_BY_IDENTITY },
  { "{'class': <255>, 'priority1': <0>}", "{'class': <255>}", "@a{sv} {}", "C", RW_CLOCK_BY_NOTHING },
};

static void
test_attributes (gconstpointer data)
{
  const Case *c = data;
  g_autoptr (RwRig) rig = rw_test_rig ("console A; rack B; rack C; A.s-B.p; B.s-C.p");
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwClocks) clocks = NULL;

  set_clock (rig, "A", c->a);
  set_clock (rig, "B", c->b);
  set_clock (rig, "C", c->c);
  net = rw_net_new (rig);
  clocks = rw_clocks_new (net);
  g_assert_cmpuint (clocks->n_groups, ==, 1);
  g_assert_cmpuint (clocks->groups[0].voters.n, ==, 3);
  g_assert_cmpuint (clocks->groups[0].order.v[0], ==, net_device (net, c->leader));
  g_assert_cmpuint (clocks->groups[0].decided, ==, c->decided);
  for (guint i = 0; i < 3; i++)
    g_assert_cmpuint (clocks->leader[i], ==, net_device (net, c->leader));
}

/* Both planes of A lead into one switch: it votes there once. */
static void
test_joined_planes_vote_once (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A; rack B; switch S; A.p-S.p1; A.s-S.p2; B.p-S.p3");
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwClocks) clocks = NULL;
  g_autoptr (GError) error = NULL;
  RwItem *device = rw_rig_find (rig, "A");
  g_autoptr (RwItem) redundant = rw_item_with (device, RW_DEVICE_MODE, g_variant_new_string ("redundant"), &error);
  g_autoptr (RwChange) change = rw_change_new ("");

  rw_change_add (change, RW_ITEM_DEVICE, "A", device, rw_rig_place (rig, "A"), redundant, rw_rig_place (rig, "A"));
  g_assert_true (rw_rig_apply (rig, change, NULL));
  set_clock (rig, "A", "{'priority1': <1>}");
  net = rw_net_new (rig);
  clocks = rw_clocks_new (net);
  g_assert_cmpuint (clocks->groups[0].voters.n, ==, 2);
  g_assert_cmpuint (clocks->groups[0].decided, ==, RW_CLOCK_BY_PRIORITY1);
}

static void
test_who_follows_next (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A; rack B; rack C; A.s-B.p; B.s-C.p");
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwClocks) clocks = NULL;

  set_clock (rig, "C", "{'priority1': <1>}");
  set_clock (rig, "B", "{'priority1': <2>}");
  net = rw_net_new (rig);
  clocks = rw_clocks_new (net);
  g_assert_cmpuint (clocks->groups[0].order.n, ==, 3);
  g_assert_cmpuint (clocks->groups[0].order.v[0], ==, net_device (net, "C"));
  g_assert_cmpuint (clocks->groups[0].order.v[1], ==, net_device (net, "B"));
  g_assert_cmpuint (clocks->groups[0].order.v[2], ==, net_device (net, "A"));
}

/* A clock of which each attribute is one of a few, the highest byte of each among them. */
static char *
random_clock (GRand *rand)
{
  static const int bytes[] = { 0, 1, 127, 128, 254 }, variances[] = { 0, 255, 256, 65535 };
  static const char *const identities[] = { "", "", ", 'identity': <'00000000000000ff'>", ", 'identity': <'00000000000000FE'>" };
  int b[4];

  for (guint i = 0; i < G_N_ELEMENTS (b); i++)
    b[i] = bytes[g_rand_int_range (rand, 0, G_N_ELEMENTS (bytes)) * (g_rand_boolean (rand) ? 1 : 0)];
  return g_strdup_printf ("{'priority1': <%d>, 'class': <%d>, 'accuracy': <%d>, 'variance': <%d>, 'priority2': <%d>%s}",
                          b[0], b[1], b[2], variances[g_rand_int_range (rand, 0, G_N_ELEMENTS (variances))], b[3],
                          identities[g_rand_int_range (rand, 0, G_N_ELEMENTS (identities))]);
}

/* However many there are: each is before the next by the standard's own comparison, or comes first in the file. */
static void
test_order_of_many (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1588);
  g_autoptr (GString) text = g_string_new ("rack D0");
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwClocks) clocks = NULL;
  RwSlice order;

  for (guint i = 1; i < 300; i++)
    g_string_append_printf (text, "; rack D%u; D%u.s-D%u.p", i, i - 1, i);
  rig = rw_test_rig (text->str);
  for (guint i = 0; i < 300; i++)
    {
      g_autofree char *id = g_strdup_printf ("D%u", i), *clock = random_clock (rand);

      set_clock (rig, id, clock);
    }
  net = rw_net_new (rig);
  clocks = rw_clocks_new (net);
  order = clocks->groups[0].order;
  g_assert_cmpuint (order.n, ==, 300);
  for (guint i = 1; i < order.n; i++)
    {
      int sign;

      rw_clock_compare (&net->devices[order.v[i - 1]].device->clock, &net->devices[order.v[i]].device->clock, &sign);
      g_assert_true (sign < 0 || (sign == 0 && order.v[i - 1] < order.v[i]));
    }
}

static void
test_nobody_leads (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A; rack B; A.s-B.p");
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwClocks) clocks = NULL;

  set_clock (rig, "A", "{'class': <255>}");
  set_clock (rig, "B", "{'class': <255>}");
  net = rw_net_new (rig);
  clocks = rw_clocks_new (net);
  g_assert_cmpuint (clocks->groups[0].order.n, ==, 0);
  g_assert_cmpuint (clocks->leader[0], ==, RW_NONE);
  g_assert_cmpuint (rw_clocks_network_leader (clocks, clocks->groups[0].network, 0), ==, RW_NONE);
}

static void
test_domains_do_not_meet (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A; rack B; rack C; A.s-B.p; B.s-C.p");
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwClocks) clocks = NULL;

  set_clock (rig, "B", "{'domain': <5>, 'priority1': <1>}");
  net = rw_net_new (rig);
  clocks = rw_clocks_new (net);
  g_assert_cmpuint (clocks->n_groups, ==, 2);
  g_assert_cmpuint (clocks->leader[net_device (net, "C")], ==, net_device (net, "A"));
  g_assert_cmpuint (clocks->leader[net_device (net, "B")], ==, net_device (net, "B"));
  g_assert_cmpuint (rw_clocks_network_leader (clocks, 0, 0), ==, net_device (net, "A"));
  g_assert_cmpuint (rw_clocks_network_leader (clocks, 0, 5), ==, net_device (net, "B"));
}

/* Both planes have a better clock than the other's; the redundant rack listens on the primary. */
static void
test_redundant_follows_its_primary (void)
{
  RwRig *rig;
  RwNet *net;
  RwClocks *clocks = elect ("rack R mode=redundant; computer X; computer Y; switch S; switch T;"
                            "R.p-S.p1; R.s-T.p1; X.p-S.p2; Y.p-T.p2", &rig, &net);

  rw_clocks_free (clocks);
  rw_net_unref (net);
  set_clock (rig, "X", "{'priority1': <20>}");
  set_clock (rig, "Y", "{'priority1': <10>}");
  net = rw_net_new (rig);
  clocks = rw_clocks_new (net);
  g_assert_cmpuint (clocks->leader[net_device (net, "R")], ==, net_device (net, "X"));
  rw_clocks_free (clocks);
  rw_net_unref (net);
  g_object_unref (rig);
}

static void
test_redundant_without_primary_follows_the_other (void)
{
  RwRig *rig;
  RwNet *net;
  RwClocks *clocks = elect ("rack R mode=redundant; computer Y; switch T; Y.p-T.p2; R.s-T.p1", &rig, &net);

  /* equal clocks, no identities: R stands first in the file and leads the secondary's network */
  g_assert_cmpuint (clocks->leader[net_device (net, "Y")], ==, net_device (net, "R"));
  g_assert_cmpuint (clocks->groups[clocks->group[net_device (net, "R")]].network, ==,
                    clocks->groups[clocks->group[net_device (net, "Y")]].network);
  rw_clocks_free (clocks);
  rw_net_unref (net);
  g_object_unref (rig);
}

static void
test_switches_do_not_vote (void)
{
  RwRig *rig;
  RwNet *net;
  RwClocks *clocks = elect ("switch S; computer A; S.p1-A.p", &rig, &net);

  g_assert_cmpuint (clocks->leader[net_device (net, "S")], ==, RW_NONE);
  g_assert_cmpuint (clocks->leader[net_device (net, "A")], ==, net_device (net, "A"));
  rw_clocks_free (clocks);
  rw_net_unref (net);
  g_object_unref (rig);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/net/clock/decided-by-%s%s", rw_clock_decision_label (cases[i].decided),
                                               i == 6 ? "-file-order" : "");
      g_test_add_data_func (g_strdelimit (path, " ", '-'), &cases[i], test_attributes);
    }
  g_test_add_func ("/net/clock/joined-planes-vote-once", test_joined_planes_vote_once);
  g_test_add_func ("/net/clock/who-follows-next", test_who_follows_next);
  g_test_add_func ("/net/clock/order-of-many", test_order_of_many);
  g_test_add_func ("/net/clock/nobody-leads", test_nobody_leads);
  g_test_add_func ("/net/clock/domains", test_domains_do_not_meet);
  g_test_add_func ("/net/clock/redundant-primary", test_redundant_follows_its_primary);
  g_test_add_func ("/net/clock/redundant-secondary-only", test_redundant_without_primary_follows_the_other);
  g_test_add_func ("/net/clock/switches-do-not-vote", test_switches_do_not_vote);
  return g_test_run ();
}
