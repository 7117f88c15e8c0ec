/* SPDX-License-Identifier: MIT */
/* Findings as data, the words of messages, and when a fix is not offered. */
#include <file/rw-file.h>
#include <rig/rw-edit.h>
#include <rules/rw-rule-words.h>

#include "rig-builder.h"
#include "rules-fixtures.h"

static char *
fixture (const char *code, const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "rules", code, name, NULL);
}

static RwRig *
read_fixture (const char *code, const char *name)
{
  g_autofree char *path = fixture (code, name);

  return fixture_read (path);
}

static void
assert_joined (guint n, const char *expected)
{
  static const char *const names[] = { "A", "B", "C", "D", "E", "F", "G", "H" };
  g_autofree char *text = rw_words_join (names, n);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_lists (void)
{
  assert_joined (1, "A");
  assert_joined (2, "A and B");
  assert_joined (3, "A, B and C");
  assert_joined (6, "A, B, C, D, E and F");
  assert_joined (7, "A, B, C, D and 3 more");
  assert_joined (8, "A, B, C, D and 4 more");
}

static void
test_same_rig_same_findings (void)
{
  g_autoptr (RwRig) rig = read_fixture ("loop", "bad-ring-and-chord.rig");
  g_autoptr (RwFindings) once = analyse (rig);
  g_autoptr (RwFindings) again = analyse (rig);
  g_autoptr (GPtrArray) brought = rw_findings_new_ones (once, again);

  g_assert_cmpuint (rw_findings_count (once, RW_SEVERITY_ERROR), ==, 2);
  g_assert_cmpuint (rw_findings_n (once), ==, rw_findings_n (again));
  g_assert_cmpuint (brought->len, ==, 0);
  for (guint i = 0; i < rw_findings_n (once); i++)
    g_assert_cmpstr (rw_findings_get (once, i)->message, ==, rw_findings_get (again, i)->message);
}

/* One cable that closes a loop in each of two VLANs gives two findings about the same things: they are counted. */
static void
test_new_ones_count_equals (void)
{
  g_autoptr (RwRig) one = read_fixture ("loop", "good-a-cable-for-each-vlan.rig");
  g_autoptr (RwRig) two = read_fixture ("loop", "bad-two-trunks-of-two-vlans.rig");
  g_autoptr (RwFindings) none = analyse (one);
  g_autoptr (RwFindings) both = analyse (two);
  g_autoptr (GPtrArray) brought = rw_findings_new_ones (none, both);
  g_autoptr (GPtrArray) gone = rw_findings_new_ones (both, none);

  g_assert_cmpuint (brought->len, ==, 2);
  g_assert_true (rw_finding_equal (brought->pdata[0], brought->pdata[1]));
  g_assert_cmpuint (gone->len, ==, 0);
}

/* The third cable of a chain, while it is in the air: what it brings is the loop and nothing else. */
static void
test_new_ones_of_a_cable (void)
{
  g_autoptr (RwRig) before_rig = read_fixture ("loop", "good-chain-of-three.rig");
  g_autoptr (RwRig) after_rig = read_fixture ("loop", "bad-ring-of-three.rig");
  g_autoptr (RwFindings) before = analyse (before_rig);
  g_autoptr (RwFindings) after = analyse (after_rig);
  g_autoptr (GPtrArray) brought = rw_findings_new_ones (before, after);
  const RwFinding *loop;

  g_assert_cmpuint (rw_findings_n (before), ==, 0);
  g_assert_cmpuint (brought->len, ==, 1);
  loop = brought->pdata[0];
  g_assert_cmpstr (loop->rule->code, ==, "loop");
  g_assert_cmpuint (g_strv_length (loop->devices), ==, 3);
}

/* How many findings @cable brings to the rig that is written as @text, but for those that can wait. */
static guint
n_brought_by (const char *text, const char *cable)
{
  g_autoptr (RwRig) rig = rw_test_rig (text);
  g_autoptr (RwFindings) before = analyse (rig);
  g_autoptr (RwFindings) after = NULL;
  g_autoptr (GPtrArray) brought = NULL;
  guint n = 0;

  rw_test_rig_add (rig, cable);
  after = analyse (rig);
  g_assert_cmpuint (rw_findings_n (after), >, 0);
  brought = rw_findings_new_ones (before, after);
  for (guint i = 0; i < brought->len; i++)
    n += !((RwFinding *) brought->pdata[i])->rule->can_wait;
  return n;
}

/* One device fewer without a cable, two islands that become one: nothing that was not said before. */
static void
test_new_ones_name_something_new (void)
{
  g_assert_cmpuint (n_brought_by ("console d ctrl=1; rack a id=1; rack b id=2", "d.s-a.p"), ==, 0);
  g_assert_cmpuint (n_brought_by ("console d ctrl=1; rack e id=9; d.s-e.p; rack a id=1; rack b id=2;"
                                  "rack f id=3; rack g id=4; a.s-b.p; f.s-g.p", "b.s-f.p"), ==, 0);
  g_assert_cmpuint (n_brought_by ("console d ctrl=1; rack a id=1; d.s-a.p; rack b", "a.s-d.p"), ==, 1);
}

/* An id stands nowhere on the drawing: without a label a cable is called by its ends. */
static void
test_cable_without_a_label (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console d ctrl=1 name='Desk'; rack a id=1 name='Left'; d.s-a.p label=N-1; a.s-d.p");
  g_autoptr (RwFindings) findings = analyse (rig);
  g_autoptr (GPtrArray) fixes = rw_finding_fixes (rw_findings_get (findings, 0), rig);

  g_assert_cmpstr (rw_findings_get (findings, 0)->message, ==,
                   "Cable Left – Desk closes a loop through Left and Desk: frames circle in it without end until the "
                   "network stops");
  g_assert_cmpstr (((RwChange *) fixes->pdata[0])->name, ==, "Remove Cable Left – Desk");
}

/* Two without a label between the same devices are told apart by their ports. */
static void
test_cables_alike (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console d ctrl=1 name='Desk'; rack a id=1 name='Left'; d.s-a.p; a.s-d.p");
  g_autoptr (RwFindings) findings = analyse (rig);
  g_autoptr (GPtrArray) fixes = rw_finding_fixes (rw_findings_get (findings, 0), rig);

  g_assert_true (g_str_has_prefix (rw_findings_get (findings, 0)->message,
                                   "Cable Left, secondary – Desk, primary closes a loop"));
  g_assert_cmpstr (((RwChange *) fixes->pdata[0])->name, ==, "Remove Cable Left, secondary – Desk, primary");
}

static void
set_field (RwRig *rig, const char *key, guint field, GVariant *value)
{
  g_autoptr (GError) error = NULL;
  RwEdit *edit = rw_edit_new (rig, "Set");
  g_autoptr (RwChange) change = NULL;

  rw_edit_set (edit, key, field, value, &error);
  g_assert_no_error (error);
  change = rw_edit_finish (edit);
  rw_rig_apply (rig, change, &error);
  g_assert_no_error (error);
}

static const RwFinding *
find (const RwFindings *findings, const char *code)
{
  for (guint i = 0; i < rw_findings_n (findings); i++)
    if (g_str_equal (rw_findings_get (findings, i)->rule->code, code))
      return rw_findings_get (findings, i);
  return NULL;
}

static void
assert_n_fixes (const RwRig *rig, const char *code, guint n)
{
  g_autoptr (RwFindings) findings = analyse (rig);
  const RwFinding *finding = find (findings, code);
  g_autoptr (GPtrArray) fixes = NULL;

  g_assert_nonnull (finding);
  fixes = rw_finding_fixes (finding, rig);
  g_assert_cmpuint (fixes->len, ==, n);
}

static void
test_no_fix_without_a_free_id (void)
{
  g_autoptr (RwRig) rig = read_fixture ("unit-id-clash", "bad-two-racks-one-id.rig");

  assert_n_fixes (rig, "unit-id-clash", 1);
  set_field (rig, RW_SYSTEM_KEY, RW_SYSTEM_UNIT_ID_MAX, g_variant_new_int32 (1));
  assert_n_fixes (rig, "unit-id-clash", 0);
}

/* Controller ID 1 is not offered to the only controller where another device has it: that would be a clash. */
static void
test_no_fix_that_brings_an_error (void)
{
  g_autoptr (RwRig) rig = read_fixture ("no-controller-1", "bad-controller-id-off.rig");

  assert_n_fixes (rig, "no-controller-1", 1);
  set_field (rig, "left", RW_DEVICE_CONTROLLER_ID, g_variant_new_int32 (1));
  assert_n_fixes (rig, "no-controller-1", 0);
}

static void
test_no_fix_for_what_is_gone (void)
{
  g_autoptr (RwRig) rig = read_fixture ("loop", "bad-ring-of-three.rig");
  g_autoptr (RwFindings) findings = analyse (rig);
  const RwFinding *loop = find (findings, "loop");
  g_autoptr (GPtrArray) fixes = rw_finding_fixes (loop, rig);
  g_autoptr (GPtrArray) later = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (fixes->len, ==, 1);
  rw_rig_apply (rig, fixes->pdata[0], &error);
  g_assert_no_error (error);
  later = rw_finding_fixes (loop, rig);
  g_assert_cmpuint (later->len, ==, 0);
}

static RwFinding *
begin_finding (RwFindings *findings)
{
  return rw_findings_begin (findings, rw_rule_find ("loop"), RW_SEVERITY_WARNING);
}

/* All five lists grow past their first room, stay NULL-ended, and tell findings apart. */
static void
test_finding_lists_grow (void)
{
  g_autoptr (RwRig) rig = rw_rig_new ();
  g_autoptr (RwFindings) findings = analyse (rig);
  RwFinding *a = begin_finding (findings), *b = begin_finding (findings);

  g_assert_null (a->devices[0]);
  g_assert_null (a->channels[0]);
  for (guint i = 0; i < 100; i++)
    {
      g_autofree char *id = g_strdup_printf ("x%u", i);
      g_autofree char *key = rw_channel_key (id, RW_CHANNEL_SEND, i + 1);

      rw_finding_add_device (a, id);
      rw_finding_add_port (a, id, "Primary");
      rw_finding_add_cable (a, id);
      rw_finding_add_row (a, id);
      rw_finding_add_channel (a, key);
    }
  g_assert_cmpuint (g_strv_length (a->devices), ==, 100);
  g_assert_cmpuint (g_strv_length (a->ports), ==, 200);
  g_assert_cmpuint (g_strv_length (a->cables), ==, 100);
  g_assert_cmpuint (g_strv_length (a->rows), ==, 100);
  g_assert_cmpstr (a->channels[99], ==, "/channel/x99/send/100");
  g_assert_false (rw_finding_equal (a, b));
  g_assert_true (rw_finding_equal (a, a));
  g_assert_cmpuint (rw_findings_count (findings, RW_SEVERITY_WARNING), ==, 2);
}

/* A finding lives on when its list is gone: windows hold one while the rig is analysed again. */
static void
test_finding_outlives_its_list (void)
{
  g_autoptr (RwRig) rig = read_fixture ("loop", "bad-ring-of-three.rig");
  RwFindings *findings = analyse (rig);
  g_autoptr (RwFinding) loop = rw_finding_ref (rw_findings_get (findings, 0));

  rw_findings_unref (findings);
  g_assert_cmpstr (loop->cables[0], ==, "c3");
}

static void
test_empty_rig (void)
{
  g_autoptr (RwRig) rig = rw_rig_new ();
  g_autoptr (RwFindings) findings = analyse (rig);

  g_assert_cmpuint (rw_findings_n (findings), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rules/lists", test_lists);
  g_test_add_func ("/rules/empty-rig", test_empty_rig);
  g_test_add_func ("/rules/same-rig-same-findings", test_same_rig_same_findings);
  g_test_add_func ("/rules/new-ones-count-equals", test_new_ones_count_equals);
  g_test_add_func ("/rules/new-ones-of-a-cable", test_new_ones_of_a_cable);
  g_test_add_func ("/rules/new-ones-name-something-new", test_new_ones_name_something_new);
  g_test_add_func ("/rules/cable-without-a-label", test_cable_without_a_label);
  g_test_add_func ("/rules/cables-alike", test_cables_alike);
  g_test_add_func ("/rules/no-fix-without-a-free-id", test_no_fix_without_a_free_id);
  g_test_add_func ("/rules/no-fix-that-brings-an-error", test_no_fix_that_brings_an_error);
  g_test_add_func ("/rules/no-fix-for-what-is-gone", test_no_fix_for_what_is_gone);
  g_test_add_func ("/rules/finding-lists-grow", test_finding_lists_grow);
  g_test_add_func ("/rules/finding-outlives-its-list", test_finding_outlives_its_list);
  return g_test_run ();
}
