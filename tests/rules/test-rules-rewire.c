/* SPDX-License-Identifier: MIT */
/* A rig that was wired anew has no mistake in its wiring, whatever it was before. */
#include <file/rw-file.h>
#include <net/rw-rewire.h>
#include <rig/rw-history.h>

#include <string.h>

#include "random-rig.h"
#include "rig-builder.h"
#include "rules-fixtures.h"

#define N_RIGS 300

/* The rules about what is plugged into what; those about IDs and settings speak of things that a rewiring leaves alone. */
static const char *const wiring[] = { "loop", "mixed-modes", "planes-joined", "port-shared", "cut-off", "dead-port",
                                      "no-second-path", "vlan-mismatch", NULL };

static gboolean
is_hosts (const RwRig *rig, const RwEnd *end)
{
  const RwPart *part = rw_rig_part_of (rig, rw_rig_device (rig, end->device));
  RwSide side = rw_part_port (part, (guint) rw_part_find_port (part, end->port))->side;

  return side == RW_SIDE_PRIMARY || side == RW_SIDE_SECONDARY;
}

/* A fault of cables alone that were there before and join nothing that plays or listens: none of the rewiring's doing. */
static gboolean
is_old (const RwFinding *finding, const RwRig *before, const RwRig *after)
{
  for (guint i = 0; finding->cables[i] != NULL; i++)
    {
      const RwCable *cable = rw_rig_cable (before, finding->cables[i]);
      if (cable == NULL || is_hosts (after, &cable->from) || is_hosts (after, &cable->to))
        return FALSE;
    }
  return finding->cables[0] != NULL;
}

static void
assert_well_wired (const RwRig *before, const RwRig *after)
{
  g_autoptr (RwFindings) findings = analyse (after);

  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get (findings, i);
      if (g_strv_contains (wiring, finding->rule->code) && !is_old (finding, before, after))
        g_error ("%s: %s", finding->rule->code, finding->message);
    }
}

static RwPart *
switch_part (guint n_ports)
{
  g_autofree char *text = g_strdup_printf ("switch X ports=%u", n_ports);
  g_autoptr (RwRig) rig = rw_test_rig (text);
  RwPart *part = rw_item_dup (rw_rig_part_of (rig, rw_rig_device (rig, "X")));

  g_free (((RwItem *) part)->key);
  ((RwItem *) part)->key = g_strdup ("new-switch");
  return rw_item_seal (part);
}

static RwChange *
rewire (const RwRig *rig, const RwNet *net, guint n_ports, RwRewireCost *cost, GError **error)
{
  g_autoptr (RwPart) part = switch_part (MAX (n_ports, 1));
  RwRewireSwitches switches = { { part, part }, { { 0, 0 }, { 0, 500 } }, 100 };

  return n_ports > 0 ? rw_rewire_redundant (rig, net, &switches, cost, error) : rw_rewire_chain (rig, net, cost, error);
}

static guint
count (const RwChange *change, RwItemType type, gboolean comes)
{
  guint n = 0;

  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *entry = rw_change_entry (change, i);
      n += entry->type == type && (comes ? entry->before : entry->after) == NULL;
    }
  return n;
}

static guint
n_cables_at (const RwRig *rig, const char *device)
{
  guint n = 0;

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    {
      const RwCable *cable = (const RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[i];
      n += strcmp (cable->from.device, device) == 0 || strcmp (cable->to.device, device) == 0;
    }
  return n;
}

/* Those who are said to lose their last cable are those who do. */
static void
assert_bare (const RwRig *before, const RwRig *after, const RwChange *change)
{
  g_autoptr (GPtrArray) bare = rw_rewire_bare (before, change);

  for (guint i = 0; i < rw_rig_n (before, RW_ITEM_DEVICE); i++)
    {
      RwItem *device = rw_rig_items (before, RW_ITEM_DEVICE)[i];
      const char *id = rw_item_key (device);

      g_assert_cmpint (g_ptr_array_find (bare, device, NULL), ==, n_cables_at (before, id) > 0 && n_cables_at (after, id) == 0);
    }
}

/* @n_ports: of the new switches; 0 = a chain. FALSE: refused with a reason. */
static gboolean
check_rewire (RwRig *rig, guint n_ports)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autoptr (RwRig) before = rw_rig_copy (rig);
  g_autoptr (GString) bytes = rw_file_write_bytes (rig);
  g_autoptr (GString) undone = NULL;
  g_autoptr (GError) error = NULL;
  RwRewireCost cost;
  g_autoptr (RwChange) change = rewire (rig, net, n_ports, &cost, &error);

  if (change == NULL)
    {
      g_assert_cmpstr (error->message, !=, "");
      return FALSE;
    }
  rw_history_do (history, change, &error);
  g_assert_no_error (error);
  assert_well_wired (before, rig);
  assert_bare (before, rig, change);
  g_assert_cmpuint (cost.n_unmeasured, <=, count (change, RW_ITEM_CABLE, TRUE));
  g_assert_true (rw_history_undo (history) || rw_change_n (change) == 0);
  undone = rw_file_write_bytes (rig);
  g_assert_cmpstr (undone->str, ==, bytes->str);
  return TRUE;
}

/* 0 = a chain. 3 = a row of the smallest switches that can stand in a row. */
static void
test_random (gconstpointer data)
{
  guint n_done = 0;

  for (guint seed = 0; seed < N_RIGS; seed++)
    {
      RandomRig want = random_rig_any (seed, 12);
      g_autoptr (RwRig) rig = random_rig_new (&want);

      n_done += check_rewire (rig, GPOINTER_TO_UINT (data));
    }
  g_assert_cmpuint (n_done, >, N_RIGS / 4);
}

#define DESK_AND_RACKS \
  "console A ctrl=1 at=[0,0]; rack B id=1 at=[100,0]; rack C id=2 at=[200,0]; switch S at=[100,90]\n"

/* Lengths add up along the way that frames take now: to B 10 + 20, on from B 20 + 5. */
static void
test_chain_cost (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (DESK_AND_RACKS "A.p-S.p1 length_m=10; B.p-S.p2 length_m=20; S.p3-C.p length_m=5");
  g_autoptr (RwNet) net = rw_net_new (rig);
  RwRewireCost cost;
  g_autoptr (RwChange) change = rw_rewire_chain (rig, net, &cost, NULL);

  g_assert_cmpuint (count (change, RW_ITEM_CABLE, FALSE), ==, 3);
  g_assert_cmpuint (count (change, RW_ITEM_CABLE, TRUE), ==, 2);
  g_assert_cmpfloat (cost.metres, ==, 55);
  g_assert_cmpuint (cost.n_unmeasured, ==, 0);
  g_assert_cmpuint (cost.n_switch_ports, ==, 0);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CABLE), ==, 2);
  g_assert_cmpstr (((RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[0])->from.device, ==, "A");
  g_assert_cmpstr (((RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[1])->to.device, ==, "C");
}

/* What is right already stays, with its label and length. */
static void
test_chain_keeps (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (DESK_AND_RACKS "B.p-A.s label='N1' length_m=30; B.s-A.p; A.a-B.a");
  g_autoptr (RwNet) net = rw_net_new (rig);
  RwRewireCost cost;
  g_autoptr (RwChange) change = rw_rewire_chain (rig, net, &cost, NULL);

  g_assert_cmpuint (count (change, RW_ITEM_CABLE, FALSE), ==, 1);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  g_assert_cmpstr (rw_rig_cable (rig, "c1")->label, ==, "N1");
  g_assert_null (rw_rig_cable (rig, "c2"));
  g_assert_nonnull (rw_rig_cable (rig, "c3"));
}

static void
test_chain_refuses (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A; computer B name='Notes'; computer C; computer D");
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (GError) error = NULL;
  RwRewireCost cost;

  g_assert_null (rw_rewire_chain (rig, net, &cost, &error));
  g_assert_nonnull (strstr (error->message, "Notes, C, D"));
}

static void
test_redundant_cost (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (DESK_AND_RACKS "A.s-B.p length_m=40; B.s-C.p");
  g_autoptr (RwNet) net = rw_net_new (rig);
  RwRewireCost cost;
  g_autoptr (RwChange) change = rewire (rig, net, 8, &cost, NULL);

  g_assert_cmpuint (count (change, RW_ITEM_CABLE, FALSE), ==, 2);
  g_assert_cmpuint (count (change, RW_ITEM_CABLE, TRUE), ==, 6);
  g_assert_cmpuint (count (change, RW_ITEM_DEVICE, TRUE), ==, 2);
  g_assert_cmpuint (cost.n_switch_ports, ==, 6);
  g_assert_cmpfloat (cost.metres, ==, 80); /* B's two; C's way has a length that nobody knows, A stands beside */
  g_assert_cmpuint (cost.n_unmeasured, ==, 4);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  g_assert_nonnull (rw_rig_part (rig, "new-switch"));
}

/* Three in a row of three ports each have room for 3 · 3 − 4 devices. */
static void
test_redundant_row (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A ctrl=1; rack B; rack C; rack D; rack E");
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwPart) three = switch_part (3), two = switch_part (2);
  g_autoptr (GError) error = NULL;
  RwRewireCost cost;

  g_assert_cmpuint (rw_rewire_n_switches (net, three, 0), ==, 3);
  g_assert_cmpuint (rw_rewire_n_switches (net, two, 1), ==, 0);
  g_assert_true (check_rewire (rig, 3));
  g_assert_null (rewire (rig, net, 2, &cost, &error));
  g_assert_nonnull (error);
}

/* A network for control, with trunks that carry it beside the audio, is none of the rewiring's business: what is cabled
 * to it stays so, at both ends. Trunks of the audio alone go, as does a cable that carries nothing. */
static void
test_others_stay (gconstpointer data)
{
  g_autoptr (RwRig) rig = rw_test_rig (
    "console A ctrl=1 mode=redundant; rack B id=1 mode=redundant; speaker T\n"
    "switch S p1=10 p2=20 p3=[10,20] p4=20 p5=10; switch U p1=10 p2=20 p3=[10,20] p5=10; switch V; switch W\n"
    "A.p-S.p1; B.p-U.p1; A.s-V.p1; B.s-W.p1; A.a-S.p2 id=desk; T.a-U.p2 id=tablet; S.p3-U.p3 id=trunk; S.p5-U.p5 id=second\n"
    "V.p2-W.p2 id=plane; A.a-S.p4 id=twice");
  g_autoptr (RwNet) net = rw_net_new (rig);
  RwRewireCost cost;
  g_autoptr (RwChange) change = rewire (rig, net, GPOINTER_TO_UINT (data), &cost, NULL);

  g_assert_true (rw_rig_apply (rig, change, NULL));
  g_assert_nonnull (rw_rig_cable (rig, "desk"));
  g_assert_nonnull (rw_rig_cable (rig, "tablet"));
  g_assert_nonnull (rw_rig_cable (rig, "trunk"));
  g_assert_null (rw_rig_cable (rig, "second"));
  g_assert_null (rw_rig_cable (rig, "plane"));
  g_assert_null (rw_rig_cable (rig, "twice"));
}

/* What hears an audio network by a port apart from it, hears its plane afterwards. */
static void
test_guests_move_along (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A ctrl=1 mode=redundant; speaker T; speaker U; switch S; switch V\n"
                                       "A.p-S.p1; A.s-V.p1; T.a-S.p2; V.p2-U.a");
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (GPtrArray) bare = NULL;
  RwRewireCost cost;
  g_autoptr (RwChange) change = rewire (rig, net, 8, &cost, NULL);
  const char *const ends[] = { "A", "T", "U", "T", "A", "T", "U", "U" };
  static const char *const joined[] = { "switch-primary-1", "switch-primary-1", "switch-primary-1", "switch-primary-1",
                                        "switch-secondary-1", "switch-secondary-1", "switch-secondary-1", "switch-secondary-1" };

  bare = rw_rewire_bare (rig, change);
  g_assert_cmpuint (bare->len, ==, 2); /* the two old switches */
  g_assert_true (rw_rig_apply (rig, change, NULL));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CABLE), ==, G_N_ELEMENTS (ends));
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      const RwCable *cable = (const RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[i];
      g_assert_cmpstr (cable->from.device, ==, ends[i]);
      g_assert_cmpstr (cable->to.device, ==, joined[i]);
    }
}

/* A network of what has one port only is an audio network too. */
static void
test_single_is_audio (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("computer A; computer B; switch S; switch V; A.primary-S.p1; S.p2-V.p2; V.p1-B.primary");
  g_autoptr (RwNet) net = rw_net_new (rig);
  RwRewireCost cost;
  g_autoptr (RwChange) change = rewire (rig, net, 8, &cost, NULL);

  g_assert_cmpuint (count (change, RW_ITEM_CABLE, FALSE), ==, 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/rewire/random/chain", GUINT_TO_POINTER (0), test_random);
  g_test_add_data_func ("/rewire/random/redundant", GUINT_TO_POINTER (24), test_random);
  g_test_add_data_func ("/rewire/random/redundant-row", GUINT_TO_POINTER (3), test_random);
  g_test_add_func ("/rewire/chain/cost", test_chain_cost);
  g_test_add_func ("/rewire/chain/keeps", test_chain_keeps);
  g_test_add_func ("/rewire/chain/refuses", test_chain_refuses);
  g_test_add_func ("/rewire/redundant/cost", test_redundant_cost);
  g_test_add_func ("/rewire/redundant/row", test_redundant_row);
  g_test_add_data_func ("/rewire/others-stay/redundant", GUINT_TO_POINTER (8), test_others_stay);
  g_test_add_data_func ("/rewire/others-stay/chain", GUINT_TO_POINTER (0), test_others_stay);
  g_test_add_func ("/rewire/guests-move-along", test_guests_move_along);
  g_test_add_func ("/rewire/single-is-audio", test_single_is_audio);
  return g_test_run ();
}
