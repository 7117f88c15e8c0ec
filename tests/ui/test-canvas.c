/* SPDX-License-Identifier: MIT */
/* The sheet under hands and keys, on a virtual display. */
#include "canvas-stage.h"
#include "rig-builder.h"

#include <paper/rw-draw.h>

static const RwDevice *
device (Stage *stage, const char *id)
{
  return rw_rig_device (rw_document_rig (stage->document), id);
}

static guint
count (Stage *stage, RwItemType type)
{
  return rw_rig_n (rw_document_rig (stage->document), type);
}

static void
assert_selected (Stage *stage, const char *key)
{
  g_assert_cmpstr (rw_selection_single (rw_document_selection (stage->document)), ==, key);
}

static void
count_cb (gpointer object, gpointer counter)
{
  ++*(guint *) counter;
}

/* --- Hands --- */

static void
test_drag_device (void)
{
  Stage stage;
  RwPoint from, to;

  stage_open_text (&stage, STAGE_CHAIN);
  from = stage_device (&stage, "left");
  to = rw_canvas_to_sheet (stage.canvas, from);
  to = rw_canvas_from_sheet (stage.canvas, (RwPoint) { to.x + 10.4, to.y + 60.9 });
  stage_drag (&stage, from, to, 0);
  g_assert_cmpfloat (device (&stage, "left")->at.x, ==, 140);
  g_assert_cmpfloat (device (&stage, "left")->at.y, ==, 120);
  assert_selected (&stage, "left");
  g_assert_true (rw_document_undo (stage.document));
  g_assert_cmpfloat (device (&stage, "left")->at.x, ==, 130);
  g_assert_false (rw_document_undo (stage.document));
  stage_close (&stage);
}

/* What the hand holds is deleted, or undone, before the button is let go. */
static void
test_gone_in_the_hand (void)
{
  Stage stage;
  RwPoint from, corner;

  stage_open_text (&stage, STAGE_CHAIN);
  from = stage_device (&stage, "right");
  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, from.x, from.y, 0);
  rw_canvas_motion (stage.canvas, from.x + 40, from.y + 60, 0);
  stage_settle (&stage);
  rw_selection_set_all (rw_document_selection (stage.document), (const char *const[]) { "desk", "left", "right", NULL });
  g_assert_true (rw_document_delete_selected (stage.document));
  stage_settle (&stage);
  rw_canvas_motion (stage.canvas, from.x + 50, from.y + 60, 0);
  rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, from.x + 50, from.y + 60, 0);
  stage_settle (&stage);
  g_assert_cmpuint (count (&stage, RW_ITEM_DEVICE), ==, 0);
  g_assert_true (rw_document_undo (stage.document));
  g_assert_false (rw_document_undo (stage.document)); /* nothing was moved */

  rw_selection_set (rw_document_selection (stage.document), "right");
  corner = rw_canvas_from_sheet (stage.canvas, (RwPoint) { 1, 1 });
  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, corner.x, corner.y, GDK_SHIFT_MASK);
  rw_canvas_motion (stage.canvas, corner.x + 30, corner.y + 30, GDK_SHIFT_MASK);
  g_assert_true (rw_document_delete_selected (stage.document));
  rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, corner.x + 30, corner.y + 30, GDK_SHIFT_MASK);
  g_assert_cmpuint (count (&stage, RW_ITEM_DEVICE), ==, 2);
  g_assert_cmpuint (rw_selection_n (rw_document_selection (stage.document)), ==, 0);
  stage_close (&stage);
}

static void
test_loop_in_the_air (void)
{
  Stage stage;
  RwDrawOptions options = { 0 };
  RwInk fault = rw_ink (RW_INK_FAULT, &options);
  RwPoint from, to;
  cairo_surface_t *before, *during, *after;

  stage_open_text (&stage, STAGE_CHAIN);
  before = stage_picture (&stage);
  g_assert_cmpfloat (stage_share_of (before, fault.r, fault.g, fault.b), ==, 0);
  from = stage_port (&stage, "right", "secondary");
  to = stage_port (&stage, "desk", "primary");
  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, from.x, from.y, 0);
  rw_canvas_motion (stage.canvas, to.x, to.y, 0);
  g_assert_cmpint (rw_canvas_overlay (stage.canvas)->verdict, ==, RW_VERDICT_ERROR);
  g_assert_cmpuint (rw_canvas_overlay (stage.canvas)->named->len, ==, 3);
  during = stage_picture (&stage);
  g_assert_cmpfloat (stage_share_of (during, fault.r, fault.g, fault.b), >, 0.002);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Escape, 0));
  after = stage_picture (&stage);
  g_assert_cmpfloat (stage_difference (before, after, 0), ==, 0);
  g_assert_cmpuint (count (&stage, RW_ITEM_CABLE), ==, 2);

  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, from.x, from.y, 0);
  rw_canvas_motion (stage.canvas, to.x, to.y, 0);
  rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, to.x, to.y, 0);
  g_assert_cmpuint (count (&stage, RW_ITEM_CABLE), ==, 3);
  g_assert_cmpuint (rw_findings_count (rw_document_findings (stage.document), RW_SEVERITY_ERROR), ==, 1);
  cairo_surface_destroy (before);
  cairo_surface_destroy (during);
  cairo_surface_destroy (after);
  stage_close (&stage);
}

static void
test_thread (void)
{
  Stage stage;
  RwPoint desk, right;

  stage_open_text (&stage, "console desk ctrl=1 at=[60,60]; rack left id=1 at=[130,60]; rack right id=2 at=[200,60]");
  desk = stage_device (&stage, "desk");
  right = stage_device (&stage, "right");
  rw_canvas_set_tool (stage.canvas, RW_TOOL_THREAD);
  stage_drag (&stage, desk, right, 0);
  g_assert_cmpuint (count (&stage, RW_ITEM_CABLE), ==, 2);
  g_assert_cmpstr (rw_history_undo_name (rw_document_history (stage.document)), ==, "Thread 3 Devices");
  stage_close (&stage);
}

static void
test_click_and_double_click (void)
{
  Stage stage;
  guint asked = 0;
  RwPoint at;

  stage_open_text (&stage, STAGE_CHAIN);
  g_signal_connect (stage.canvas, "particulars", G_CALLBACK (count_cb), &asked);
  at = stage_device (&stage, "left");
  for (guint n = 1; n <= 2; n++)
    {
      rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, n, at.x, at.y, 0);
      rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, at.x, at.y, 0);
      assert_selected (&stage, "left");
      g_assert_cmpuint (asked, ==, n - 1);
    }
  stage_close (&stage);
}

static void
place_cb (RwCanvas *canvas, double x, double y, RwPoint *at)
{
  *at = (RwPoint) { x, y };
}

static void
test_secondary_button (void)
{
  Stage stage;
  RwPoint at, asked = { 0, 0 };

  stage_open_text (&stage, STAGE_CHAIN);
  g_signal_connect (stage.canvas, "context-menu", G_CALLBACK (place_cb), &asked);
  at = stage_device (&stage, "right");
  rw_canvas_press (stage.canvas, GDK_BUTTON_SECONDARY, 1, at.x, at.y, 0);
  assert_selected (&stage, "right");
  g_assert_cmpfloat (asked.x, ==, at.x);
  g_assert_cmpfloat (asked.y, ==, at.y);
  stage_close (&stage);
}

/* --- Keys --- */

static void
test_walk (void)
{
  Stage stage;

  stage_open_text (&stage, STAGE_CHAIN);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Tab, 0));
  assert_selected (&stage, "desk");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Tab, 0));
  assert_selected (&stage, "left");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK));
  assert_selected (&stage, "desk");
  g_assert_false (rw_canvas_key (stage.canvas, GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK)); /* out of the sheet */
  /* a millimetre lower is still the same row */
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Down, GDK_SHIFT_MASK));
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Tab, 0));
  assert_selected (&stage, "left");
  stage_close (&stage);
}

static void
test_nudge (void)
{
  Stage stage;

  stage_open_text (&stage, STAGE_CHAIN);
  rw_selection_set (rw_document_selection (stage.document), "left");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Right, 0));
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Right, 0));
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Down, GDK_SHIFT_MASK));
  g_assert_cmpfloat (device (&stage, "left")->at.x, ==, 140);
  g_assert_cmpfloat (device (&stage, "left")->at.y, ==, 61);
  rw_selection_set (rw_document_selection (stage.document), "right");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Up, 0));
  g_assert_true (rw_document_undo (stage.document)); /* of the one … */
  g_assert_cmpfloat (device (&stage, "right")->at.y, ==, 60);
  g_assert_true (rw_document_undo (stage.document)); /* … and all of the other */
  g_assert_cmpfloat (device (&stage, "left")->at.x, ==, 130);
  g_assert_false (rw_document_undo (stage.document));
  stage_close (&stage);
}

static void
test_edit_keys (void)
{
  Stage stage;
  guint asked = 0, inserts = 0;

  stage_open_text (&stage, STAGE_CHAIN);
  g_signal_connect (stage.canvas, "particulars", G_CALLBACK (count_cb), &asked);
  g_signal_connect (stage.canvas, "insert-requested", G_CALLBACK (count_cb), &inserts);
  g_assert_false (rw_canvas_key (stage.canvas, GDK_KEY_Return, 0)); /* of nothing */
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_a, GDK_CONTROL_MASK));
  g_assert_cmpuint (rw_selection_n (rw_document_selection (stage.document)), ==, 5);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Return, 0));
  g_assert_cmpuint (asked, ==, 1);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Escape, 0));
  g_assert_cmpuint (rw_selection_n (rw_document_selection (stage.document)), ==, 0);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Insert, 0));
  g_assert_cmpuint (inserts, ==, 1);

  rw_selection_set (rw_document_selection (stage.document), "left");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_d, GDK_CONTROL_MASK));
  g_assert_cmpuint (count (&stage, RW_ITEM_DEVICE), ==, 4);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Delete, 0)); /* the copy is selected */
  g_assert_cmpuint (count (&stage, RW_ITEM_DEVICE), ==, 3);
  rw_selection_set (rw_document_selection (stage.document), "c1");
  rw_canvas_cut (stage.canvas); /* what could not be pasted stays */
  g_assert_cmpuint (count (&stage, RW_ITEM_CABLE), ==, 2);
  rw_selection_set (rw_document_selection (stage.document), "left");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Delete, 0));
  g_assert_cmpuint (count (&stage, RW_ITEM_CABLE), ==, 0);
  g_assert_false (rw_canvas_key (stage.canvas, GDK_KEY_z, 0));
  stage_close (&stage);
}

static void
test_cable_keys (void)
{
  Stage stage;

  stage_open_text (&stage, "console desk ctrl=1 at=[60,60]; rack left id=1 at=[130,60]");
  rw_selection_set (rw_document_selection (stage.document), "desk");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_c, 0));
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Right, 0));
  g_assert_cmpuint (rw_canvas_overlay (stage.canvas)->loose->len, ==, 1);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Return, 0));
  g_assert_cmpuint (count (&stage, RW_ITEM_CABLE), ==, 1);
  g_assert_cmpfloat (device (&stage, "desk")->at.x, ==, 60); /* the arrow moved nothing */
  stage_close (&stage);
}

/* --- Drops and the clipboard --- */

static void
test_drop_part (void)
{
  Stage stage;
  g_auto (GValue) value = G_VALUE_INIT;
  GtkEventController *target;
  gboolean taken = FALSE;
  RwPoint px;
  const RwDevice *new;

  stage_open_text (&stage, "rack left id=1 at=[60,60]");
  target = stage_controller (&stage, GTK_TYPE_DROP_TARGET);
  g_value_init (&value, RW_TYPE_DRAGGED_PART);
  g_value_set_boxed (&value, rw_rig_items (rw_document_rig (stage.document), RW_ITEM_PART)[0]);
  px = rw_canvas_from_sheet (stage.canvas, (RwPoint) { 180, 130 });
  g_signal_emit_by_name (target, "drop", &value, px.x, px.y, &taken);
  g_assert_true (taken);
  g_assert_cmpuint (count (&stage, RW_ITEM_DEVICE), ==, 2);
  new = (const RwDevice *) rw_rig_items (rw_document_rig (stage.document), RW_ITEM_DEVICE)[1];
  assert_selected (&stage, rw_item_key (new));
  stage_assert_near (rw_canvas_to_sheet (stage.canvas, stage_device (&stage, rw_item_key (new))), (RwPoint) { 180, 130 }, 3);
  stage_close (&stage);
}

static void
files_cb (RwCanvas *canvas, GSList *files, char **path)
{
  *path = g_file_get_path (files->data);
}

static void
test_drop_files (void)
{
  Stage stage;
  g_auto (GValue) value = G_VALUE_INIT;
  g_autoptr (GFile) file = g_file_new_for_path ("/tmp/show.rig");
  g_autoptr (GSList) files = g_slist_append (NULL, file);
  g_autofree char *path = NULL;
  gboolean taken = FALSE;

  stage_open_text (&stage, STAGE_CHAIN);
  g_signal_connect (stage.canvas, "files-dropped", G_CALLBACK (files_cb), &path);
  g_value_init (&value, GDK_TYPE_FILE_LIST);
  g_value_set_boxed (&value, files);
  g_signal_emit_by_name (stage_controller (&stage, GTK_TYPE_DROP_TARGET), "drop", &value, 10.0, 10.0, &taken);
  g_assert_true (taken);
  g_assert_cmpstr (path, ==, "/tmp/show.rig");
  stage_close (&stage);
}

static void
message_cb (RwCanvas *canvas, const char *message, char **failed)
{
  g_free (*failed);
  *failed = g_strdup (message);
}

static void
test_clipboard (void)
{
  Stage stage, other;
  g_autofree char *failed = NULL;

  stage_open_text (&stage, STAGE_CHAIN);
  stage_open_text (&other, "rack far id=9 at=[60,60]");
  rw_document_select_all (stage.document);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_c, GDK_CONTROL_MASK));
  g_assert_true (rw_canvas_key (other.canvas, GDK_KEY_v, GDK_CONTROL_MASK));
  while (count (&other, RW_ITEM_DEVICE) < 4)
    g_main_context_iteration (NULL, TRUE);
  g_assert_cmpuint (count (&other, RW_ITEM_CABLE), ==, 2);

  g_signal_connect (other.canvas, "failed", G_CALLBACK (message_cb), &failed);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (other.canvas)), "a shopping list");
  rw_canvas_paste (other.canvas);
  while (failed == NULL)
    g_main_context_iteration (NULL, TRUE);
  g_assert_cmpuint (count (&other, RW_ITEM_DEVICE), ==, 4);
  stage_close (&other);
  stage_close (&stage);
}

/* --- The empty sheet, assistive technology --- */

static GtkWidget *
find_child (GtkWidget *widget, GType type)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (G_OBJECT_TYPE (child) == type)
      return child;
  return NULL;
}

static void
test_empty_sheet (void)
{
  Stage stage;
  g_autoptr (RwDocument) document = rw_document_new ();
  g_autoptr (RwRig) rig = rw_test_rig ("rack left id=1");
  GtkWidget *button;
  guint asked = 0;

  stage_open (&stage, document, 1000, 700);
  button = find_child (GTK_WIDGET (stage.canvas), GTK_TYPE_BUTTON);
  g_assert_true (gtk_widget_get_mapped (button));
  g_signal_connect (stage.canvas, "demo-requested", G_CALLBACK (count_cb), &asked);
  gtk_widget_activate (button);
  while (asked == 0)
    g_main_context_iteration (NULL, TRUE);
  rw_canvas_insert_part (stage.canvas, (const RwPart *) rw_rig_items (rig, RW_ITEM_PART)[0]);
  g_assert_cmpuint (count (&stage, RW_ITEM_DEVICE), ==, 1);
  g_assert_false (gtk_widget_get_visible (button));
  rw_document_undo (stage.document);
  g_assert_true (gtk_widget_get_visible (button));
  stage_close (&stage);
}

static void
test_insert_finds_room (void)
{
  Stage stage;
  RwScene *scene;

  stage_open_text (&stage, "rack left id=1 at=[60,60]");
  for (guint i = 0; i < 12; i++)
    rw_canvas_insert_part (stage.canvas, (const RwPart *) rw_rig_items (rw_document_rig (stage.document), RW_ITEM_PART)[0]);
  scene = rw_document_scene (stage.document);
  g_assert_cmpuint (rw_scene_n_devices (scene), ==, 13);
  for (guint i = 0; i < 13; i++)
    {
      g_autoptr (GArray) there = rw_scene_devices_in (scene, rw_scene_device (scene, i)->bounds);

      g_assert_cmpuint (there->len, ==, 1);
    }
  stage_close (&stage);
}

static GtkWidget *
find_exposed (Stage *stage, guint *n)
{
  GtkWidget *first = NULL;

  *n = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (stage->canvas)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (child)) == GTK_ACCESSIBLE_ROLE_LIST_ITEM)
      {
        first = first == NULL ? child : first;
        ++*n;
      }
  return first;
}

static void
test_accessible (void)
{
  Stage stage;
  GtkWidget *child;
  guint n = 0;

  stage_open_text (&stage, STAGE_CHAIN "; rack twin id=2 name='Side stage' at=[60,130]; twin.p-right.s");
  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (stage.canvas), GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (stage.canvas), GTK_ACCESSIBLE_PROPERTY_LABEL, "Sheet");
  rw_selection_set (rw_document_selection (stage.document), "twin");
  do
    {
      g_main_context_iteration (NULL, TRUE);
      child = find_exposed (&stage, &n);
    }
  while (n < 4);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, "Side stage, rack");
  gtk_test_accessible_assert_state (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_STATE_SELECTED, TRUE);
  g_assert_true (gtk_test_accessible_has_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION));
  stage_close (&stage);
}

int
main (int argc, char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/canvas/drag-device", test_drag_device);
  g_test_add_func ("/canvas/gone-in-the-hand", test_gone_in_the_hand);
  g_test_add_func ("/canvas/loop-in-the-air", test_loop_in_the_air);
  g_test_add_func ("/canvas/thread", test_thread);
  g_test_add_func ("/canvas/click-and-double-click", test_click_and_double_click);
  g_test_add_func ("/canvas/secondary-button", test_secondary_button);
  g_test_add_func ("/canvas/walk", test_walk);
  g_test_add_func ("/canvas/nudge", test_nudge);
  g_test_add_func ("/canvas/edit-keys", test_edit_keys);
  g_test_add_func ("/canvas/cable-keys", test_cable_keys);
  g_test_add_func ("/canvas/drop-part", test_drop_part);
  g_test_add_func ("/canvas/drop-files", test_drop_files);
  g_test_add_func ("/canvas/clipboard", test_clipboard);
  g_test_add_func ("/canvas/empty-sheet", test_empty_sheet);
  g_test_add_func ("/canvas/insert-finds-room", test_insert_finds_room);
  g_test_add_func ("/canvas/accessible", test_accessible);
  return g_test_run ();
}
