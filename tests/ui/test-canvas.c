/* SPDX-License-Identifier: MIT */
/* The sheet under hands and keys, on a virtual display. */
#include <math.h>

#include "canvas-stage.h"
#include "rig-builder.h"

#include <paper/rw-draw.h>

#define CHAIN \
  "console desk ctrl=1 at=[60,60]; rack left id=1 at=[130,60]; rack right id=2 at=[200,60]; " \
  "desk.s-left.p; left.s-right.p"

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

static void
remember_cb (RwCanvas *canvas, int index, int *remembered)
{
  *remembered = index;
}

/* --- Hands --- */

static void
test_drag_device (void)
{
  Stage stage;
  RwPoint from, to;

  stage_open_text (&stage, CHAIN);
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

  stage_open_text (&stage, CHAIN);
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

  stage_open_text (&stage, CHAIN);
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

  stage_open_text (&stage, CHAIN);
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

  stage_open_text (&stage, CHAIN);
  g_signal_connect (stage.canvas, "context-menu", G_CALLBACK (place_cb), &asked);
  at = stage_device (&stage, "right");
  rw_canvas_press (stage.canvas, GDK_BUTTON_SECONDARY, 1, at.x, at.y, 0);
  assert_selected (&stage, "right");
  g_assert_cmpfloat (asked.x, ==, at.x);
  g_assert_cmpfloat (asked.y, ==, at.y);
  stage_close (&stage);
}

/* --- The view --- */

/* --- Keys --- */

static void
test_walk (void)
{
  Stage stage;

  stage_open_text (&stage, CHAIN);
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

  stage_open_text (&stage, CHAIN);
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

  stage_open_text (&stage, CHAIN);
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

  stage_open_text (&stage, CHAIN);
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

  stage_open_text (&stage, CHAIN);
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

/* --- Findings, the empty sheet, assistive technology --- */

static void
test_balloon_and_veil (void)
{
  Stage stage;
  int picked = -1;
  const RwSceneBalloon *balloon;
  RwPoint px;
  cairo_surface_t *plain, *veiled, *again;

  stage_open_text (&stage, CHAIN "; right.s-desk.p");
  g_signal_connect (stage.canvas, "finding-picked", G_CALLBACK (remember_cb), &picked);
  g_assert_cmpuint (rw_scene_n_balloons (rw_document_scene (stage.document)), >, 0);
  balloon = rw_scene_balloon (rw_document_scene (stage.document), 0);
  plain = stage_picture (&stage);
  px = rw_canvas_from_sheet (stage.canvas, balloon->centre);
  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, px.x, px.y, 0);
  rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, px.x, px.y, 0);
  g_assert_cmpint (picked, ==, (int) balloon->finding);
  rw_canvas_set_finding (stage.canvas, picked);
  veiled = stage_picture (&stage);
  g_assert_cmpfloat (stage_difference (plain, veiled, 30), >, 0.002);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Escape, 0));
  g_assert_cmpint (picked, ==, -1);
  again = stage_picture (&stage);
  g_assert_cmpfloat (stage_difference (plain, again, 0), ==, 0);
  cairo_surface_destroy (plain);
  cairo_surface_destroy (veiled);
  cairo_surface_destroy (again);
  stage_close (&stage);
}

/* A finding out of sight shows as an arrow at the edge; a press on it goes there. */
static void
test_edge_arrow (void)
{
  Stage stage;
  RwDrawOptions options = { 0 };
  RwInk fault = rw_ink (RW_INK_FAULT, &options);
  const RwSceneBalloon *balloon;
  cairo_surface_t *picture;
  int picked = -1;
  RwPoint px;

  stage_open_text (&stage, "console desk ctrl=1 at=[60,60]; rack a id=7 at=[2000,60]; rack b id=7 at=[2000,160]; desk.s-a.p; a.s-b.p");
  g_signal_connect (stage.canvas, "finding-picked", G_CALLBACK (remember_cb), &picked);
  balloon = rw_scene_balloon (rw_document_scene (stage.document), 0);
  rw_canvas_zoom_actual (stage.canvas);
  rw_canvas_reveal (stage.canvas, "desk");
  px = rw_canvas_from_sheet (stage.canvas, balloon->centre);
  g_assert_cmpfloat (px.x, >, gtk_widget_get_width (GTK_WIDGET (stage.canvas)));
  picture = stage_picture (&stage);
  g_assert_cmpfloat (stage_share_of (picture, fault.r, fault.g, fault.b), >, 0);
  cairo_surface_destroy (picture);

  /* the arrow lies where the way from the middle to the balloon meets the right edge */
  px.x -= gtk_widget_get_width (GTK_WIDGET (stage.canvas)) / 2.0;
  px.y -= gtk_widget_get_height (GTK_WIDGET (stage.canvas)) / 2.0;
  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, gtk_widget_get_width (GTK_WIDGET (stage.canvas)) - 23,
                   gtk_widget_get_height (GTK_WIDGET (stage.canvas)) / 2.0
                     + px.y * (gtk_widget_get_width (GTK_WIDGET (stage.canvas)) / 2.0 - 23) / px.x,
                   0);
  g_assert_cmpint (picked, ==, (int) balloon->finding);
  px = rw_canvas_from_sheet (stage.canvas, balloon->foot);
  g_assert_cmpfloat (px.x, <, gtk_widget_get_width (GTK_WIDGET (stage.canvas)));
  stage_close (&stage);
}

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

  stage_open_text (&stage, CHAIN "; rack twin id=2 name='Side stage' at=[60,130]; twin.p-right.s");
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

/* Through another lens the same rig looks different, tells the way to what is pointed at, and goes with each change. */
static void
test_lens (void)
{
  Stage stage;
  RwPoint right, bare;
  g_autofree char *lens = NULL, *pointed = NULL, *none = NULL, *from = NULL;
  cairo_surface_t *wiring, *hops, *load, *bare_load;

  stage_open_text (&stage, CHAIN);
  wiring = stage_picture (&stage);
  g_object_set (stage.canvas, "lens", "hops", NULL);
  hops = stage_picture (&stage);
  g_assert_cmpfloat (stage_difference (wiring, hops, 8), >, 0.001);
  g_object_set (stage.canvas, "lens", "load", NULL);
  load = stage_picture (&stage);
  g_assert_cmpfloat (stage_difference (wiring, load, 8), >, 0.001);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (stage.canvas), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                       "Load: planning figures, all streams of the patch at once\nNo stream passes");
  g_object_set (stage.canvas, "legend", FALSE, NULL);
  bare_load = stage_picture (&stage);
  g_assert_cmpfloat (stage_difference (load, bare_load, 8), >, 0.001);
  g_object_set (stage.canvas, "lens", "hops", "legend", TRUE, NULL);
  right = stage_device (&stage, "right");
  bare = (RwPoint) { right.x, right.y + 150 };
  rw_canvas_motion (stage.canvas, right.x, right.y, 0);
  pointed = rw_canvas_lens_text (stage.canvas, RW_NONE);
  g_assert_cmpstr (pointed, ==, "right: 3 bridges from desk");
  rw_canvas_motion (stage.canvas, bare.x, bare.y, 0);
  none = rw_canvas_lens_text (stage.canvas, RW_NONE);
  g_assert_null (none);
  rw_selection_set (rw_document_selection (stage.document), "right");
  g_assert_true (rw_document_delete_selected (stage.document));
  stage_settle (&stage);
  rw_canvas_set_lens (stage.canvas, RW_LENS_HOPS, "left");
  from = rw_canvas_lens_text (stage.canvas, rw_net_find_device (rw_document_net (stage.document), "desk"));
  g_assert_cmpstr (from, ==, "desk: 2 bridges from left");
  g_object_set (stage.canvas, "lens", "wiring", NULL);
  g_object_get (stage.canvas, "lens", &lens, NULL);
  g_assert_cmpstr (lens, ==, "wiring");
  cairo_surface_destroy (wiring);
  cairo_surface_destroy (hops);
  cairo_surface_destroy (load);
  cairo_surface_destroy (bare_load);
  stage_close (&stage);
}

/* In the Failure lens a press fails a thing and puts it back, keys do so too, and nothing of it reaches the rig. */
static void
test_failure (void)
{
  Stage stage;
  RwPoint right;
  guint n;
  g_autofree char *lens = NULL;

  stage_open_text (&stage, CHAIN);
  g_object_set (stage.canvas, "lens", "failure", NULL);
  g_assert_cmpuint (rw_canvas_outcome (stage.canvas)->device_counts[RW_FATE_FAILED], ==, 0);
  right = stage_device (&stage, "right");
  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, right.x, right.y, 0);
  rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, right.x, right.y, 0);
  g_assert_cmpuint (rw_canvas_outcome (stage.canvas)->device_counts[RW_FATE_FAILED], ==, 1);
  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, right.x, right.y, 0);
  rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, right.x, right.y, 0);
  g_assert_cmpuint (rw_canvas_outcome (stage.canvas)->device_counts[RW_FATE_FAILED], ==, 0);
  rw_selection_set (rw_document_selection (stage.document), "right");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_space, 0));
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Right, 0));
  g_assert_nonnull (rw_rig_cable (rw_document_rig (stage.document), rw_selection_single (rw_document_selection (stage.document))));
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Return, 0));
  g_object_get (stage.canvas, "failed", &n, NULL);
  g_assert_cmpuint (n, ==, 2);
  g_assert_null (rw_history_undo_name (rw_document_history (stage.document)));
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Escape, 0));
  g_object_get (stage.canvas, "failed", &n, "lens", &lens, NULL);
  g_assert_cmpuint (n, ==, 0);
  g_assert_cmpstr (lens, ==, "wiring");
  stage_close (&stage);
}

/* P lights the way of what is pointed at, else of what is selected, to its controller. */
static void
test_path (void)
{
  Stage stage;
  g_autofree char *selected = NULL, *pointed = NULL, *off = NULL;
  RwPoint left;

  stage_open_text (&stage, CHAIN);
  rw_selection_set (rw_document_selection (stage.document), "right");
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_p, 0));
  selected = rw_canvas_lens_text (stage.canvas, RW_NONE);
  g_assert_true (g_str_has_prefix (selected, "right: 3 bridges from desk, planned for "));
  left = stage_device (&stage, "left");
  rw_canvas_motion (stage.canvas, left.x, left.y, 0);
  pointed = rw_canvas_lens_text (stage.canvas, RW_NONE);
  g_assert_true (g_str_has_prefix (pointed, "left: 2 bridges from desk, planned for "));
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Escape, 0));
  off = rw_canvas_lens_text (stage.canvas, RW_NONE);
  g_assert_null (off);
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
  g_test_add_func ("/canvas/balloon-and-veil", test_balloon_and_veil);
  g_test_add_func ("/canvas/edge-arrow", test_edge_arrow);
  g_test_add_func ("/canvas/empty-sheet", test_empty_sheet);
  g_test_add_func ("/canvas/insert-finds-room", test_insert_finds_room);
  g_test_add_func ("/canvas/accessible", test_accessible);
  g_test_add_func ("/canvas/lens", test_lens);
  g_test_add_func ("/canvas/failure", test_failure);
  g_test_add_func ("/canvas/path", test_path);
  return g_test_run ();
}
