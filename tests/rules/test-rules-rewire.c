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

static void
assert_well_wired (const RwRig *rig)
{
  g_autoptr (RwFindings) findings = analyse (rig);

  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get (findings, i);
      if (g_strv_contains (wiring, finding->rule->code))
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

static void
assert_cost (const RwRig *before, const RwRig *after, const RwRewireCost *cost)
{
  g_assert_cmpuint (rw_rig_n (after, RW_ITEM_CABLE), ==, rw_rig_n (before, RW_ITEM_CABLE) - cost->n_removed + cost->n_new);
  g_assert_cmpuint (rw_rig_n (after, RW_ITEM_DEVICE), ==, rw_rig_n (before, RW_ITEM_DEVICE) + cost->n_switches);
  g_assert_cmpuint (cost->n_unmeasured, <=, cost->n_new);
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
  assert_well_wired (rig);
  assert_cost (before, rig, &cost);
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

  g_assert_cmpuint (cost.n_removed, ==, 3);
  g_assert_cmpuint (cost.n_new, ==, 2);
  g_assert_cmpfloat (cost.metres, ==, 55);
  g_assert_cmpuint (cost.n_unmeasured, ==, 0);
  g_assert_cmpuint (cost.n_switch_ports, ==, 0);
  g_assert_cmpuint (cost.n_idle, ==, 1);
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

  g_assert_cmpuint (cost.n_kept, ==, 1);
  g_assert_cmpuint (cost.n_removed, ==, 1);
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

  g_assert_cmpuint (cost.n_removed, ==, 2);
  g_assert_cmpuint (cost.n_new, ==, 6);
  g_assert_cmpuint (cost.n_switches, ==, 2);
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
  return g_test_run ();
}
