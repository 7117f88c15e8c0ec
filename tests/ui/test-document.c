/* SPDX-License-Identifier: MIT */
/* What menus, keys and the clipboard do to a document, and what it says of a change beforehand; without a display. */
#include "tool-hand.h"

#include <glib/gstdio.h>
#include <rules/rw-rule.h>

/* Room for a cable is left between any two devices. */
static void
assert_apart (RwDocument *document)
{
  RwScene *scene = rw_document_scene (document);

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      RwRect area = rw_scene_device (scene, i)->box;
      g_autoptr (GArray) there = NULL;

      area = (RwRect) { area.x - 5, area.y - 5, area.w + 10, area.h + 10 };
      there = rw_scene_devices_in (scene, area);
      g_assert_cmpuint (there->len, ==, 1);
    }
}

static RwPoint
first_selected_at (RwDocument *document)
{
  g_autofree const char **keys = rw_selection_keys (rw_document_selection (document), rw_document_rig (document),
                                                    RW_ITEM_DEVICE);

  g_assert_nonnull (keys[0]);
  return rw_rig_device (rw_document_rig (document), keys[0])->at;
}

#define ROW "console desk ctrl=1 at=[40,60]; rack left id=1 at=[160,60]; rack right id=2 at=[280,60]; " \
            "desk.s-left.p; left.s-right.p"

/* Copies are selected, keep their columns and cover nothing. */
static void
test_duplicate (void)
{
  g_autoptr (RwDocument) document = hand_document (ROW);

  rw_document_select_all (document);
  for (guint i = 2; i <= 4; i++)
    {
      g_assert_true (rw_document_duplicate_selected (document));
      g_assert_cmpuint (hand_count (document, RW_ITEM_DEVICE), ==, 3 * i);
      g_assert_cmpuint (hand_count (document, RW_ITEM_CABLE), ==, 2 * i);
      g_assert_cmpfloat (first_selected_at (document).x, ==, 40);
      g_assert_cmpfloat (first_selected_at (document).y, >, 60);
      assert_apart (document);
    }
  rw_selection_set (rw_document_selection (document), "left");
  g_assert_true (rw_document_duplicate_selected (document));
  assert_apart (document);
}

/* A paste lies where it came from if there is room, as on another sheet, and else beside that. */
static void
test_paste (void)
{
  g_autoptr (RwDocument) document = hand_document (ROW);
  g_autoptr (RwDocument) other = hand_document ("rack far id=9 at=[40,260]");
  g_autofree char *text = NULL;
  RwPoint at = { 400, 200 };

  rw_document_select_all (document);
  text = rw_document_copy (document);
  g_assert_true (rw_document_paste (other, text, NULL, NULL));
  g_assert_cmpfloat (first_selected_at (other).x, ==, 40);
  g_assert_cmpfloat (first_selected_at (other).y, ==, 60);
  for (guint i = 0; i < 3; i++)
    {
      g_assert_true (rw_document_paste (other, text, NULL, NULL));
      assert_apart (other);
    }
  g_assert_true (rw_document_paste (document, text, &at, NULL));
  g_assert_cmpfloat (first_selected_at (document).x, ==, 400);
  g_assert_cmpfloat (first_selected_at (document).y, ==, 200);
}

/* Copies are counted; a number that is part of what the part is called counts nothing. */
static void
test_names (void)
{
  static const char *const expected[] = { "Hub", "Stage left", "Hub 2", "Stage left 2", "Hub 3", "Stage left 3" };
  g_autoptr (RwDocument) document = hand_document ("switch a name=Hub at=[40,60]; rack b name='Stage left' at=[160,60]");
  g_autoptr (RwDocument) placed = rw_document_new ();
  RwRig *rig = rw_document_rig (document);
  g_autoptr (RwItem) part = rw_item_with (rw_rig_items (rig, RW_ITEM_PART)[1], RW_PART_NAME,
                                          g_variant_new_string ("Console 32"), NULL);

  rw_document_select_all (document);
  for (guint i = 0; i < 2; i++)
    g_assert_true (rw_document_duplicate_selected (document));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpstr (((const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i])->name, ==, expected[i]);

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (RwChange) change = rw_document_place (placed, (const RwPart *) part, (RwPoint) { 40, 60 + 80 * i }, NULL);

      g_assert_true (rw_document_do (placed, change, NULL));
    }
  rw_document_select_all (placed);
  g_assert_true (rw_document_duplicate_selected (placed));
  g_assert_cmpstr (((const RwDevice *) rw_rig_items (rw_document_rig (placed), RW_ITEM_DEVICE)[1])->name, ==, "Console 32 #2");
  g_assert_cmpstr (((const RwDevice *) rw_rig_items (rw_document_rig (placed), RW_ITEM_DEVICE)[3])->name, ==, "Console 32 #4");
}

#define UNPLACED "{\"rigwright\": 1, \"parts\": [{\"id\": \"rack\", \"name\": \"Rack\", \"kind\": \"rack\"}], \"devices\": [" \
                 "{\"id\": \"a\", \"part\": \"rack\"}, {\"id\": \"b\", \"part\": \"rack\"}, {\"id\": \"c\", \"part\": \"rack\"}]}"

static char *
written (const char *path)
{
  g_autoptr (GError) error = NULL;
  char *text;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

/* A file whose devices stand nowhere opens tidy and clean; the places are the rig's from then on, and are saved with the first edit. */
static void
test_unplaced (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("rigwright-document-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "unplaced.rig", NULL);
  g_autofree char *untouched = NULL, *saved = NULL;
  g_autoptr (RwDocument) document = rw_document_new (), other = hand_document (ROW);
  g_autoptr (RwChange) change = NULL;
  const char *const one[] = { "b", NULL };
  RwPoint before[3];

  g_file_set_contents (path, UNPLACED, -1, &error);
  g_assert_no_error (error);
  g_assert_true (rw_document_load (document, path, &error));
  assert_apart (document);
  g_assert_false (rw_document_is_dirty (document));
  g_assert_false (rw_document_undo (document));
  untouched = written (path);
  g_assert_cmpstr (untouched, ==, UNPLACED);

  for (guint i = 0; i < 3; i++)
    before[i] = rw_scene_place (rw_document_scene (document), i);
  change = rw_document_move (document, one, 30, 10, &error);
  g_assert_true (rw_document_do (document, change, &error));
  for (guint i = 0; i < 3; i++)
    {
      RwPoint now = rw_scene_place (rw_document_scene (document), i);

      g_assert_cmpfloat (now.x - before[i].x, ==, i == 1 ? 30 : 0);
      g_assert_cmpfloat (now.y - before[i].y, ==, i == 1 ? 10 : 0);
    }
  g_assert_true (rw_document_save (document, &error));
  saved = written (path);
  for (guint i = 0; i < 3; i++)
    {
      RwPoint at = rw_scene_place (rw_document_scene (document), i);
      g_autofree char *member = g_strdup_printf ("\"at\": [%g, %g]", at.x, at.y);

      g_assert_nonnull (strstr (saved, member));
    }

  g_assert_true (rw_document_paste (other, UNPLACED, NULL, &error));
  assert_apart (other);
  g_assert_cmpint (g_unlink (path), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

static gboolean
is_known (RwDocument *document, const RwFinding *finding)
{
  const RwFindings *findings = rw_document_findings (document);

  for (guint i = 0; i < rw_findings_n (findings); i++)
    if (rw_findings_get (findings, i)->rule == finding->rule)
      return TRUE;
  return FALSE;
}

/* What is seen to when the drawing is done, as a cable's length, is no verdict on a cable in the air. */
static void
test_preview (void)
{
  g_autoptr (RwDocument) document = hand_document (ROW);
  g_autoptr (RwDocument) bare = hand_document ("console desk ctrl=1 at=[40,60]; rack left id=1 at=[160,60]");
  g_autoptr (RwTool) tool = rw_tool_new (RW_TOOL_CABLE, bare);
  guint n_waiting = 0;

  hand_press (tool, hand_port (bare, "desk", "secondary"), 0);
  hand_move (tool, hand_port (bare, "left", "primary"), 0);
  g_assert_cmpint (rw_tool_overlay (tool)->verdict, ==, RW_VERDICT_FINE);
  g_assert_true (hand_release (tool, hand_port (bare, "left", "primary"), 0));
  for (guint i = 0; i < rw_findings_n (rw_document_findings (bare)); i++)
    n_waiting += rw_findings_get (rw_document_findings (bare), i)->rule->can_wait;
  g_assert_cmpuint (n_waiting, >, 0);

  for (guint i = 0; i < hand_count (document, RW_ITEM_CABLE); i++)
    {
      RwEdit *edit = rw_edit_new (rw_document_rig (document), "");
      g_autoptr (GPtrArray) brought = NULL;
      g_autoptr (RwChange) change = NULL;

      rw_edit_remove (edit, rw_item_key (rw_rig_items (rw_document_rig (document), RW_ITEM_CABLE)[i]));
      change = rw_edit_finish (edit);
      brought = rw_document_preview (document, change);
      g_assert_nonnull (brought);
      g_assert_cmpuint (brought->len, >, 0);
      for (guint k = 0; k < brought->len; k++)
        g_assert_false (((const RwFinding *) g_ptr_array_index (brought, k))->rule->can_wait);
      g_assert_false (is_known (document, g_ptr_array_index (brought, 0)));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/document/duplicate", test_duplicate);
  g_test_add_func ("/document/paste", test_paste);
  g_test_add_func ("/document/names", test_names);
  g_test_add_func ("/document/unplaced", test_unplaced);
  g_test_add_func ("/document/preview", test_preview);
  return g_test_run ();
}
