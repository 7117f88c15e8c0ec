/* SPDX-License-Identifier: MIT */
/* Steps that belong to one gesture, as the keys that are struck in one field. */
#include "rig-builder.h"

#include <rig/rw-edit.h>
#include <rig/rw-history.h>

static const char racks[] = "rack a id=1 name=A\nrack b id=2 name=B\n";

/* @devices: their ids, parted by blanks */
static void
type_names (RwHistory *history, const char *name, const char *devices, const char *run)
{
  RwEdit *edit = rw_edit_new (rw_history_rig (history), "Rename a");
  g_auto (GStrv) ids = g_strsplit (devices, " ", -1);
  g_autoptr (RwChange) change = NULL;

  for (guint i = 0; ids[i] != NULL; i++)
    g_assert_true (rw_edit_set (edit, ids[i], RW_DEVICE_NAME, g_variant_new_string (name), NULL));
  change = rw_edit_finish (edit);
  g_assert_true (rw_history_do_merged (history, change, run, NULL));
}

static void
type_name (RwHistory *history, const char *name, const char *run)
{
  type_names (history, name, "a", run);
}

static void
test_runs_and_saving (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (racks);
  g_autoptr (RwHistory) history = rw_history_new (rig);

  g_assert_true (rw_history_is_saved (history));
  type_name (history, "S", "name of a");
  type_name (history, "St", "name of a");
  type_name (history, "Sta", "name of a");
  g_assert_false (rw_history_is_saved (history));
  g_assert_true (rw_history_undo (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "A");
  g_assert_true (rw_history_is_saved (history));
  g_assert_false (rw_history_undo (history));
  g_assert_true (rw_history_redo (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "Sta");

  rw_history_mark_saved (history);
  type_name (history, "Stag", "name of a");
  g_assert_true (rw_history_undo (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "Sta");
  g_assert_true (rw_history_is_saved (history));

  g_assert_true (rw_history_undo (history));
  type_name (history, "other", NULL);
  g_assert_false (rw_history_is_saved (history)); /* the saved state was undone and overwritten: it is gone */
  g_assert_false (rw_history_redo (history));
}

/* Steps of one run may give new values to different items: they are one change all the same. */
static void
test_run_of_several (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (racks);
  g_autoptr (RwHistory) history = rw_history_new (rig);

  type_names (history, "2", "b", NULL);
  type_names (history, "2", "a b", "names");
  type_names (history, "21", "a b", "names");
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "21");
  g_assert_true (rw_history_undo (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "A");
  g_assert_cmpstr (rw_rig_device (rig, "b")->name, ==, "2");
  g_assert_true (rw_history_redo (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "21");
  g_assert_cmpstr (rw_rig_device (rig, "b")->name, ==, "21");
}

/* What was typed and shall not hold leaves nothing: no step, and what could be redone still can be. */
static void
test_take_back (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (racks);
  g_autoptr (RwHistory) history = rw_history_new (rig);

  g_assert_false (rw_history_take_back (history));
  type_name (history, "first", NULL);
  type_name (history, "saved", NULL);
  g_assert_false (rw_history_take_back (history));
  rw_history_mark_saved (history);
  g_assert_true (rw_history_undo (history));
  type_name (history, "x", "name of a");
  type_name (history, "xy", "name of a");
  g_assert_false (rw_history_redo (history));
  g_assert_true (rw_history_take_back (history));
  g_assert_false (rw_history_take_back (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "first");
  g_assert_false (rw_history_is_saved (history));
  g_assert_true (rw_history_redo (history));
  g_assert_true (rw_history_is_saved (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "saved");

  type_name (history, "x", "name of a");
  rw_history_end_run (history);
  g_assert_false (rw_history_take_back (history));
  type_name (history, "xy", "name of a");
  rw_history_mark_saved (history);
  g_assert_false (rw_history_take_back (history)); /* it stands in the file */
  type_name (history, "xyz", "name of a");
  g_assert_true (rw_history_take_back (history));
  g_assert_true (rw_history_is_saved (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "xy");
}

/* A run that comes back to where it began is no step; what went before it stays a step of its own. */
static void
test_run_to_nothing (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (racks);
  g_autoptr (RwHistory) history = rw_history_new (rig);

  type_name (history, "first", NULL);
  type_name (history, "second", NULL);
  g_assert_true (rw_history_undo (history));
  type_name (history, "x", "name of a");
  type_name (history, "first", "name of a");
  g_assert_cmpstr (rw_history_undo_name (history), ==, "Rename a");
  g_assert_nonnull (rw_history_redo_name (history));
  type_name (history, "y", "name of a");
  g_assert_null (rw_history_redo_name (history));
  g_assert_true (rw_history_undo (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "first");
  g_assert_true (rw_history_undo (history));
  g_assert_cmpstr (rw_rig_device (rig, "a")->name, ==, "A");
  g_assert_false (rw_history_undo (history));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rig/history/runs-and-saving", test_runs_and_saving);
  g_test_add_func ("/rig/history/run-of-several", test_run_of_several);
  g_test_add_func ("/rig/history/take-back", test_take_back);
  g_test_add_func ("/rig/history/run-to-nothing", test_run_to_nothing);
  return g_test_run ();
}
