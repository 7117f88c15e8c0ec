/* SPDX-License-Identifier: MIT */
/* What is stored in a rig: patch sets and issued revisions, each with a state that the rig no longer touches. */
#include <rig/rw-clip.h>
#include <rig/rw-compare.h>
#include <rig/rw-difference.h>
#include <rig/rw-error.h>
#include <rig/rw-history.h>
#include <rig/rw-state.h>

#include "item-hand.h"

static void
put (RwRig *rig, RwItemType type, const char *fields)
{
  g_autoptr (RwItem) item = rw_item_new (type);
  g_autoptr (GVariant) dict = g_variant_ref_sink (g_variant_new_parsed (fields));
  g_autoptr (GError) error = NULL;

  rw_record_set_all (item, rw_item_type_table (type), dict, &error);
  g_assert_no_error (error);
  rw_rig_append (rig, rw_item_seal (item), &error);
  g_assert_no_error (error);
}

static RwRig *
small_rig (void)
{
  RwRig *rig = rw_rig_new ();

  put (rig, RW_ITEM_PART, "{'id': <'rack'>, 'kind': <'rack'>, 'sends': <32>, 'ports': <[{'name': <'P'>, 'side': <'primary'>}]>}");
  put (rig, RW_ITEM_DEVICE, "{'id': <'a'>, 'part': <'rack'>}");
  put (rig, RW_ITEM_DEVICE, "{'id': <'b'>, 'part': <'rack'>}");
  put (rig, RW_ITEM_CABLE, "{'id': <'ab'>, 'from': <('a', 'P')>, 'to': <('b', 'P')>, 'length_m': <20.0>, 'label': <'N-04'>}");
  put (rig, RW_ITEM_CHANNEL, "{'device': <'a'>, 'side': <'send'>, 'number': <1>, 'name': <'Kick'>}");
  return rig;
}

static void
issue (RwRig *rig, const char *id, const char *letter)
{
  RwEdit *edit = rw_edit_new (rig, "Issue");

  rw_edit_put (edit, rw_revision_new (id, letter, "2031-06-01", "Ada", "first", rig));
  test_rig_apply (rig, edit);
}

static void
store (RwRig *rig, const char *id, const char *device)
{
  RwEdit *edit = rw_edit_new (rig, "Store");

  rw_edit_put (edit, rw_set_new (id, "Act one", RW_SCOPE_INPUTS, device, NULL, rig));
  test_rig_apply (rig, edit);
}

static void
set_length (RwRig *rig, double metres)
{
  RwEdit *edit = rw_edit_new (rig, "");

  g_assert_true (rw_edit_set (edit, "ab", RW_CABLE_LENGTH_M, g_variant_new_double (metres), NULL));
  test_rig_apply (rig, edit);
}

static RwRig *
state_in (RwRig *rig, const char *id)
{
  RwItem *item = rw_rig_find (rig, id);

  return rw_state_of (item, item->type == RW_ITEM_SET ? (guint) RW_SET_STATE : (guint) RW_REVISION_STATE);
}

static void
test_keeps_what_was (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) now = rw_rig_snapshot (rig);
  RwRig *state;

  issue (rig, "rev-a", "A");
  issue (rig, "rev-b", "B");
  set_length (rig, 50);
  state = state_in (rig, "rev-b");
  g_assert_true (rw_rig_is_sealed (state));
  g_assert_true (rw_state_equal (state, now));
  g_assert_cmpfloat (rw_rig_cable (state, "ab")->length_m, ==, 20);
  /* neither that revision nor the one before is inside it: a file does not grow by the square of its issues */
  g_assert_cmpuint (rw_rig_n (state, RW_ITEM_REVISION), ==, 0);
  g_assert_true (rw_rig_find (state, "a") == rw_rig_find (rig, "a")); /* shared, not copied */
}

static void
test_outlives_its_devices (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  RwEdit *edit;

  store (rig, "s", "a");
  edit = rw_edit_new (rig, "");
  rw_edit_remove_device (edit, "a");
  test_rig_apply (rig, edit);
  g_assert_null (rw_rig_device (rig, "a"));
  g_assert_nonnull (rw_rig_device (state_in (rig, "s"), "a"));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_SET), ==, 1);
}

static void
assert_refused (RwRig *rig, RwItem *item, const char *message)
{
  RwEdit *edit = rw_edit_new (rig, "");
  g_autoptr (RwChange) change = NULL;
  g_autoptr (GError) error = NULL;

  rw_edit_put (edit, item);
  change = rw_edit_finish (edit);
  g_assert_false (rw_rig_apply (rig, change, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE);
  g_assert_cmpstr (error->message, ==, message);
}

static void
test_refused (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwItem) blank = rw_item_new (RW_ITEM_REVISION);

  rw_item_seal (blank);
  assert_refused (rig, rw_set_new ("s", NULL, RW_SCOPE_ALL, "x", NULL, rig), "there is no device “x”");
  assert_refused (rig, rw_item_with (blank, RW_REVISION_ID, g_variant_new_string ("r"), NULL), "there is no stored state");
}

static char *
messages (const RwRig *older, const RwRig *newer)
{
  g_autoptr (GPtrArray) differences = rw_differences_new (older, newer);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < differences->len; i++)
    g_string_append_printf (text, "%s\n", ((RwDifference *) differences->pdata[i])->message);
  return g_string_free (text, FALSE);
}

static void
assert_messages (const RwRig *older, const RwRig *newer, const char *expected)
{
  g_autofree char *text = messages (older, newer);

  g_assert_cmpstr (text, ==, expected);
}

/* One line for a whole state, and nothing of the other stored things when the rig is held against a state. */
static void
test_compared (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) older = rw_rig_copy (rig);
  RwEdit *edit;

  issue (rig, "rev-a", "A");
  store (rig, "s", NULL);
  assert_messages (older, rig, "Patch set Act one added\nIssued revision A added\n");
  assert_messages (rig, older, "Patch set Act one removed\nIssued revision A removed\n");
  g_object_unref (older);
  older = rw_rig_copy (rig);
  set_length (rig, 50);
  assert_messages (state_in (rig, "rev-a"), rig, "Cable N-04 now 50 m, was 20 m\n");
  edit = rw_edit_new (rig, "");
  rw_edit_put (edit, rw_set_new ("s", "Act two", RW_SCOPE_INPUTS, NULL, NULL, rig));
  test_rig_apply (rig, edit);
  assert_messages (older, rig, "Cable N-04 now 50 m, was 20 m\nPatch set Act one: Name now “Act two”, was “Act one”; "
                               "Stored state: 1 change\n");
}

static void
put_at (RwRig *rig, const char *device, GVariant *at)
{
  RwEdit *edit = rw_edit_new (rig, "");

  g_assert_true (rw_edit_set (edit, device, RW_DEVICE_AT, at, NULL));
  test_rig_apply (rig, edit);
}

/* That a device is put anywhere that stood nowhere is no news; that it is moved is. */
static void
test_placed (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwRig) nowhere = rw_rig_copy (rig);
  g_autoptr (RwRig) there = NULL;

  put_at (rig, "a", g_variant_new ("(dd)", 40.0, 60.0));
  assert_messages (nowhere, rig, "");
  assert_messages (rig, nowhere, "");
  there = rw_rig_copy (rig);
  put_at (rig, "a", g_variant_new ("(dd)", 0.0, 0.0));
  assert_messages (there, rig, "Device a: Place on the sheet now 0, 0 mm, was 40, 60 mm\n");
}

/* Going back to a revision leaves all revisions and sets where they are. */
static void
test_gone_back_to (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  g_autoptr (RwChange) back = NULL;
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autoptr (RwRig) now = NULL;

  issue (rig, "rev-a", "A");
  set_length (rig, 50);
  now = rw_rig_copy (rig);
  back = rw_compare (rig, state_in (rig, "rev-a"), "Go Back to Revision A");
  g_assert_cmpuint (rw_change_n (back), ==, 1);
  g_assert_true (rw_history_do (history, back, NULL));
  g_assert_cmpfloat (rw_rig_cable (rig, "ab")->length_m, ==, 20);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_REVISION), ==, 1);
  g_assert_true (rw_history_undo (history));
  assert_messages (now, rig, "");
}

static void
test_not_in_clips (void)
{
  g_autoptr (RwRig) rig = small_rig ();
  const char *const keys[] = { "a", "b", NULL };
  g_autoptr (RwRig) clip = NULL;
  g_autoptr (RwChange) paste = NULL;

  store (rig, "s", "a");
  issue (rig, "r", "A");
  clip = rw_clip_new (rig, keys);
  g_assert_cmpuint (rw_rig_n (clip, RW_ITEM_SET) + rw_rig_n (clip, RW_ITEM_REVISION), ==, 0);
  g_assert_cmpuint (rw_rig_n (clip, RW_ITEM_CABLE), ==, 1);
  paste = rw_clip_paste (rig, rig, "", 0, 0, NULL); /* a whole file on the clipboard has some */
  g_assert_true (rw_rig_apply (rig, paste, NULL));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_DEVICE), ==, 4);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_SET), ==, 1);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_REVISION), ==, 1);
}

/* Same bytes in a file, same state: whether an empty list was written counts, how a full one came to be does not. */
static void
test_equality (void)
{
  g_autoptr (RwRig) one = rw_rig_seal (small_rig ());
  g_autoptr (RwRig) same = small_rig ();
  g_autoptr (RwRig) other = small_rig ();
  g_autoptr (RwRig) longer = small_rig ();

  rw_rig_set_lists (same, RW_ITEM_DEVICE, TRUE);
  rw_rig_set_lists (other, RW_ITEM_PATCH, TRUE);
  set_length (longer, 21);
  g_assert_true (rw_state_equal (one, same));
  g_assert_false (rw_state_equal (one, other));
  g_assert_false (rw_state_equal (one, longer));
  g_assert_false (rw_state_equal (one, NULL));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rig/state/keeps-what-was", test_keeps_what_was);
  g_test_add_func ("/rig/state/outlives-its-devices", test_outlives_its_devices);
  g_test_add_func ("/rig/state/refused", test_refused);
  g_test_add_func ("/rig/state/compared", test_compared);
  g_test_add_func ("/rig/state/placed", test_placed);
  g_test_add_func ("/rig/state/gone-back-to", test_gone_back_to);
  g_test_add_func ("/rig/state/not-in-clips", test_not_in_clips);
  g_test_add_func ("/rig/state/equality", test_equality);
  return g_test_run ();
}
