/* SPDX-License-Identifier: MIT */
/* What the window is made of, where no display is needed. */
#include "rig-builder.h"

#include <glib/gstdio.h>
#include <rig/rw-edit.h>
#include <rig/rw-error.h>
#include <file/rw-file.h>
#include <string.h>
#include <ui/rw-examples.h>
#include <ui/rw-field-sheet.h>
#include <ui/rw-finding-list.h>
#include <ui/rw-port-list.h>
#include <ui/rw-recent.h>
#include <ui/rw-scheme.h>
#include <ui/rw-settings.h>
#include <ui/rw-shelf.h>
#include <ui/rw-thing.h>
#include <ui/rw-words.h>

static void
test_sheet_values (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("rack a id=1 location=Roof\nrack b id=2 location=Roof");
  g_autoptr (RwFieldSheet) sheet = rw_field_sheet_new (rig, (const char *const[]) { "a", "b", NULL });
  g_autoptr (GVariant) value = NULL;
  g_autoptr (GVariant) none = NULL;
  g_autofree char *fallback = NULL;

  g_assert_cmpint (rw_field_sheet_get (sheet, rig, rw_field_sheet_find (sheet, "location"), &value), ==, RW_SHARED_SAME);
  g_assert_cmpstr (g_variant_get_string (value, NULL), ==, "Roof");
  g_assert_cmpint (rw_field_sheet_get (sheet, rig, rw_field_sheet_find (sheet, "unit_id"), &none), ==, RW_SHARED_SEVERAL);
  g_assert_null (none);
  g_assert_cmpint (rw_field_sheet_get (sheet, rig, rw_field_sheet_find (sheet, "mac"), &none), ==, RW_SHARED_ABSENT);
  fallback = rw_field_sheet_fallback (sheet, rig, rw_field_sheet_find (sheet, "sample_rate_hz"));
  g_assert_cmpstr (fallback, ==, "48000 Hz");
}

/* What the system says is what a device falls back on. */
static void
test_sheet_fallback (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("rack a id=1");
  RwEdit *edit = rw_edit_new (rig, "Rate");
  g_autoptr (RwChange) change = NULL;
  g_autoptr (RwFieldSheet) sheet = NULL;
  g_autofree char *text = NULL;

  g_assert_true (rw_edit_set (edit, RW_SYSTEM_KEY, RW_SYSTEM_SAMPLE_RATE_HZ, g_variant_new_int32 (96000), NULL));
  change = rw_edit_finish (edit);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  sheet = rw_field_sheet_new (rig, (const char *const[]) { "a", NULL });
  text = rw_field_sheet_fallback (sheet, rig, rw_field_sheet_find (sheet, "sample_rate_hz"));
  g_assert_cmpstr (text, ==, "96000 Hz");
}

/* Fields that make no sense on a part are not offered, unless the device says them already. */
static void
test_sheet_applies (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("rack a id=1\nswitch s\nrack odd ctrl=1\ncomputer c");
  const struct { const char *key, *path; gboolean offered; } cases[] = {
    { "a", "unit_id", TRUE },      { "a", "controller_id", FALSE },   { "odd", "controller_id", TRUE },
    { "a", "mode", TRUE },         { "c", "mode", FALSE },            { "s", "mode", FALSE },
    { "s", "querier", TRUE },      { "a", "querier", FALSE },         { "a", "clock.priority1", TRUE },
    { "s", "clock.priority1", FALSE }, { "a", "id", FALSE },          { "a", "at", FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RwFieldSheet) sheet = rw_field_sheet_new (rig, (const char *const[]) { cases[i].key, NULL });
      g_test_message ("%s %s", cases[i].key, cases[i].path);
      g_assert_cmpint (rw_field_sheet_find (sheet, cases[i].path) >= 0, ==, cases[i].offered);
    }
}

/* Setting a member of a record keeps its other members; taking the last away takes the record away. */
static void
test_sheet_record (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("rack a id=1");
  const char *const keys[] = { "a", NULL };
  static const struct { const char *path; int value; } sets[] = {
    { "clock.priority1", 100 }, { "clock.domain", 3 }, { "clock.priority1", -1 }, { "clock.domain", -1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (sets); i++)
    {
      g_autoptr (RwFieldSheet) sheet = rw_field_sheet_new (rig, keys);
      g_autoptr (RwChange) change = rw_field_sheet_set (sheet, rig, rw_field_sheet_find (sheet, sets[i].path),
                                                        sets[i].value < 0 ? NULL : g_variant_new_int32 (sets[i].value), NULL);
      g_assert_nonnull (change);
      g_assert_true (rw_rig_apply (rig, change, NULL));
      if (i == 1)
        {
          g_assert_cmpint (rw_rig_device (rig, "a")->clock.priority1, ==, 100);
          g_assert_cmpint (rw_rig_device (rig, "a")->clock.domain, ==, 3);
        }
    }
  g_assert_false (rw_item_has (rw_rig_device (rig, "a"), RW_DEVICE_CLOCK));
}

/* A device and a cable have their notes in common, and one change writes both. */
static void
test_sheet_mixed (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("rack a id=1\nrack b id=2\na.s-b.p");
  g_autoptr (RwFieldSheet) sheet = rw_field_sheet_new (rig, (const char *const[]) { "a", "c1", NULL });
  g_autoptr (RwChange) change = NULL;

  g_assert_cmpuint (rw_field_sheet_n (sheet), ==, 1);
  g_assert_cmpstr (rw_field_sheet_line (sheet, 0)->path, ==, "notes");
  change = rw_field_sheet_set (sheet, rig, 0, g_variant_new_string ("Check"), NULL);
  g_assert_cmpuint (rw_change_n (change), ==, 2);
}

static void
test_sheet_refuses (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("rack a id=1");
  g_autoptr (RwFieldSheet) sheet = rw_field_sheet_new (rig, (const char *const[]) { "a", NULL });
  g_autoptr (GError) error = NULL;

  g_assert_null (rw_field_sheet_set (sheet, rig, rw_field_sheet_find (sheet, "receive_latency_us"),
                                     g_variant_new_int32 (0), &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE);
}

static void
test_vlans (void)
{
  const struct { const char *text; gboolean tagged; const char *expected; } good[] = {
    { "10", FALSE, "10" }, { " 10 ", TRUE, "[10]" }, { "10, 20", FALSE, "[10, 20]" }, { "1,4094,", FALSE, "[1, 4094]" },
  };
  const char *const bad[] = { "0", "4095", "ten", "10 20", "-1" };

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autoptr (GVariant) value = rw_vlans_parse (good[i].text, good[i].tagged, NULL);
      g_autofree char *printed = g_variant_print (value, FALSE);
      g_assert_cmpstr (printed, ==, good[i].expected);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      g_test_message ("%s", bad[i]);
      g_assert_null (rw_vlans_parse (bad[i], FALSE, &error));
      g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE);
    }
  g_assert_null (rw_vlans_parse ("", FALSE, NULL));
}

/* Other ports keep theirs; the last one gone takes the member away. */
static void
test_vlans_change (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("switch s");
  const struct { const char *port; int vlan; guint n; } steps[] = {
    { "p2", 30, 1 }, { "p1", 10, 2 }, { "p1", 20, 2 }, { "p2", 0, 1 }, { "p1", 0, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      g_autoptr (RwChange) change = rw_vlans_change (rig, "s", steps[i].port,
                                                     steps[i].vlan > 0 ? g_variant_new_int32 (steps[i].vlan) : NULL, NULL);
      g_assert_nonnull (change);
      g_assert_true (rw_rig_apply (rig, change, NULL));
      g_assert_cmpuint (rw_rig_device (rig, "s")->port_vlans.n, ==, steps[i].n);
    }
  g_assert_false (rw_item_has (rw_rig_device (rig, "s"), RW_DEVICE_PORT_VLANS));
}

/* With a clock leader that somebody chose, so that no rule has a note on that. */
static void
analyse (GListStore *list, const char *text)
{
  g_autoptr (RwRig) rig = rw_test_rig (text);
  RwItem *desk = rw_rig_find (rig, "d");
  g_autoptr (RwItem) leader = rw_item_with (desk, RW_DEVICE_CLOCK, g_variant_new_parsed ("{'priority1': <10>}"), NULL);
  g_autoptr (RwChange) change = rw_change_new ("");
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwFindings) findings = NULL;

  rw_change_add (change, RW_ITEM_DEVICE, "d", desk, NULL, leader, NULL);
  g_assert_true (rw_rig_apply (rig, change, NULL));
  net = rw_net_new (rig);
  findings = rw_findings_new (rig, net);
  rw_finding_list_update (list, findings);
}

static void
count_changes (GListModel *model, guint position, guint removed, guint added, gpointer user_data)
{
  *(guint *) user_data += 1;
}

static gboolean
holds (GListStore *list, guint index, RwFindingRow *row)
{
  g_autoptr (RwFindingRow) there = g_list_model_get_item (G_LIST_MODEL (list), index);

  return there == row;
}

static void
test_finding_list (void)
{
  g_autoptr (GListStore) list = rw_finding_list_new ();
  g_autoptr (RwFindingRow) clash = NULL;
  guint changes = 0;

  g_signal_connect (list, "items-changed", G_CALLBACK (count_changes), &changes);
  analyse (list, "console d ctrl=1\nrack a id=3\nrack b id=3\nd.s-a.p length_m=5\na.s-b.p length_m=5");
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (list)), ==, 1);
  clash = g_list_model_get_item (G_LIST_MODEL (list), 0);
  /* The same finding in other words is the same row, and the list says nothing. */
  analyse (list, "console d ctrl=1\nrack a id=3 name=Left\nrack b id=3\nd.s-a.p length_m=5\na.s-b.p length_m=5");
  g_assert_true (holds (list, 0, clash));
  g_assert_nonnull (strstr (rw_finding_row_get_finding (clash)->message, "Left"));
  g_assert_cmpuint (changes, ==, 1);
  analyse (list, "console d ctrl=1\nrack a id=3\nrack b id=3\nd.s-a.p length_m=5\na.s-b.p length_m=5\nb.s-d.p length_m=5");
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (list)), ==, 2);
  g_assert_true (holds (list, 1, clash));
  g_assert_cmpuint (rw_finding_row_get_number (clash), ==, 2);
  analyse (list, "console d ctrl=1");
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (list)), ==, 1);
  g_assert_false (holds (list, 0, clash));
}

/* Racks that nobody cabled or numbered, from the @first on; a finding each. */
static void
analyse_racks (GListStore *list, guint first, guint n)
{
  g_autoptr (GString) text = g_string_new ("console d ctrl=1");

  for (guint i = first; i < first + n; i++)
    g_string_append_printf (text, "\nrack r%u", i);
  analyse (list, text->str);
}

static gboolean
speaks_of (RwFindingRow *row, const char *device)
{
  char *const *devices = rw_finding_row_get_finding (row)->devices;

  return devices[0] != NULL && devices[1] == NULL && g_str_equal (devices[0], device);
}

/* Of so many findings that each must be found at once: what stays keeps its row, what is new gets one, none is lost. */
static void
test_long_finding_list (void)
{
  g_autoptr (GListStore) list = rw_finding_list_new ();
  g_autoptr (GPtrArray) before = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GHashTable) known = g_hash_table_new (NULL, NULL);
  guint n, n_kept = 0, n_meant = 0;

  analyse_racks (list, 0, 20000);
  n = g_list_model_get_n_items (G_LIST_MODEL (list));
  g_assert_cmpuint (n, >=, 20000);
  for (guint i = 0; i < n; i++)
    {
      RwFindingRow *row = g_list_model_get_item (G_LIST_MODEL (list), i);

      g_ptr_array_add (before, row);
      g_hash_table_add (known, row);
      n_meant += speaks_of (row, "r19999");
    }
  g_assert_cmpuint (n_meant, >, 0);
  analyse_racks (list, 19999, 20000); /* all but one are others */
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (list)), ==, n);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (RwFindingRow) row = g_list_model_get_item (G_LIST_MODEL (list), i);
      gboolean stayed = speaks_of (row, "r19999") || speaks_of (row, "d");

      g_assert_cmpuint (rw_finding_row_get_number (row), ==, i + 1);
      g_assert_true (g_hash_table_contains (known, row) == stayed);
      n_kept += speaks_of (row, "r19999");
    }
  g_assert_cmpuint (n_kept, ==, n_meant);
}

static void
test_search (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("rack a name='Stage Left'\nrack b location='stage right'\na.s-b.p label=N77");
  const struct { const char *text; guint n; } cases[] = { { "STAGE", 2 }, { "n77", 1 }, { "c1", 1 }, { "zzz", 0 }, { "", 0 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GPtrArray) hits = rw_things_search (rig, cases[i].text);
      g_test_message ("%s", cases[i].text);
      g_assert_cmpuint (hits->len, ==, cases[i].n);
    }
}

static void
test_settings (void)
{
  g_autofree char *folder = g_dir_make_tmp ("rigwright-settings-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "deep", "settings.ini", NULL);
  g_autofree char *deep = g_path_get_dirname (path);
  g_autoptr (RwSettings) first = rw_settings_load (path);
  g_autoptr (RwSettings) second = NULL;

  g_assert_cmpint (rw_settings_get_scheme (first), ==, RW_SCHEME_DESKTOP);
  g_assert_cmpint (rw_settings_get_integer (first, "width", 1280, 600, 9999), ==, 1280);
  rw_settings_set_scheme (first, RW_SCHEME_DARK);
  rw_settings_set_integer (first, "width", 5);
  g_assert_true (rw_settings_save (first, NULL));
  second = rw_settings_load (path);
  g_assert_cmpint (rw_settings_get_scheme (second), ==, RW_SCHEME_DARK);
  g_assert_cmpint (rw_settings_get_integer (second, "width", 1280, 600, 9999), ==, 1280);
  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_cmpint (g_rmdir (deep), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

/* XDG desktop portal, Settings, org.freedesktop.appearance color-scheme: 0 none, 1 dark, 2 light. */
static void
test_scheme (void)
{
  const struct { const char *text; gboolean known, dark; } cases[] = {
    { "uint32 1", TRUE, TRUE }, { "<uint32 1>", TRUE, TRUE }, { "<<uint32 2>>", TRUE, FALSE },
    { "uint32 0", TRUE, FALSE }, { "'dark'", FALSE, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GVariant) value = g_variant_ref_sink (g_variant_new_parsed (cases[i].text));
      gboolean dark = FALSE;
      g_assert_cmpint (rw_scheme_parse_preference (value, &dark), ==, cases[i].known);
      g_assert_cmpint (dark, ==, cases[i].dark);
    }
}

/* Every rule has its example in the menu, and every example can be read. */
static void
test_examples (void)
{
  g_autoptr (GPtrArray) examples = rw_examples_list ();
  guint whole = 0;

  for (guint r = 0; r < rw_n_rules (); r++)
    {
      guint found = 0;
      for (guint i = 0; i < examples->len; i++)
        found += g_strcmp0 (((RwExample *) g_ptr_array_index (examples, i))->rule, rw_rule (r)->code) == 0;
      g_test_message ("%s", rw_rule (r)->code);
      g_assert_cmpuint (found, ==, 1);
    }
  for (guint i = 0; i < examples->len; i++)
    whole += ((RwExample *) g_ptr_array_index (examples, i))->rule == NULL;
  g_assert_cmpuint (whole, >=, 3);
}

static void
test_shelf_words (void)
{
  g_autoptr (RwRig) catalogue = rw_catalogue_load (NULL);
  const RwPart *part = rw_rig_part (catalogue, "rack-16x8");

  g_assert_true (rw_shelf_matches (part, ""));
  g_assert_true (rw_shelf_matches (part, "STAGE 16"));
  g_assert_true (rw_shelf_matches (part, "rack-16x8"));
  g_assert_false (rw_shelf_matches (part, "console"));
}

/* Names that clash are told apart by the folder; where that clashes too, by all folders. */
static void
test_recent (void)
{
  static const char *const uris[] = {
    "file:///home/ann/tour/hall.rig", "file:///home/ann/club/hall.rig", "file:///home/ann/tour/my_roof%20top.rig",
    "file:///srv/tour/open.rig", "file:///home/ann/tour/open.rig", NULL,
  };
  g_auto (GStrv) names = rw_recent_names (uris);
  static const char *const expected[] = {
    "hall.rig (in tour)", "hall.rig (in club)", "my_roof top.rig", "open.rig (in /srv/tour)",
    "open.rig (in /home/ann/tour)", NULL,
  };

  g_assert_cmpstrv (names, expected);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window-parts/sheet/values", test_sheet_values);
  g_test_add_func ("/window-parts/sheet/fallback", test_sheet_fallback);
  g_test_add_func ("/window-parts/sheet/applies", test_sheet_applies);
  g_test_add_func ("/window-parts/sheet/record", test_sheet_record);
  g_test_add_func ("/window-parts/sheet/mixed", test_sheet_mixed);
  g_test_add_func ("/window-parts/sheet/refuses", test_sheet_refuses);
  g_test_add_func ("/window-parts/vlans/text", test_vlans);
  g_test_add_func ("/window-parts/vlans/change", test_vlans_change);
  g_test_add_func ("/window-parts/finding-list", test_finding_list);
  g_test_add_func ("/window-parts/finding-list-long", test_long_finding_list);
  g_test_add_func ("/window-parts/search", test_search);
  g_test_add_func ("/window-parts/settings", test_settings);
  g_test_add_func ("/window-parts/scheme", test_scheme);
  g_test_add_func ("/window-parts/examples", test_examples);
  g_test_add_func ("/window-parts/shelf-words", test_shelf_words);
  g_test_add_func ("/window-parts/recent", test_recent);
  return g_test_run ();
}
