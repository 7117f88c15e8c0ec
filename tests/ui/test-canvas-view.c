/* SPDX-License-Identifier: MIT */
/* What of the sheet is seen, and how large. */
#include <math.h>

#include "canvas-stage.h"
#include "rig-builder.h"
#include <ui/rw-canvas-private.h>

static double
zoom_of (Stage *stage)
{
  double zoom;

  g_object_get (stage->canvas, "zoom", &zoom, NULL);
  return zoom;
}

static void
test_coordinates (void)
{
  Stage stage;
  RwPoint mm = { 123.4, 56.7 }, window_px, px;

  stage_open_text (&stage, STAGE_CHAIN);
  px = rw_canvas_from_sheet (stage.canvas, mm);
  stage_assert_near (rw_canvas_to_sheet (stage.canvas, px), mm, 1e-9);
  g_assert_true (rw_canvas_sheet_to_window (stage.canvas, mm, &window_px));
  stage_assert_near (window_px, px, 1e-3); /* an undecorated window has nothing round its child */
  stage_close (&stage);
}

/* A pinch about the pointer: the point under it stays. (Its own middle is unknown without a touch screen.) */
static void
test_zoom_about_pointer (void)
{
  Stage stage;
  GtkEventController *pinch;
  RwPoint px = { 700, 200 }, mm;
  double before;

  stage_open_text (&stage, STAGE_CHAIN);
  pinch = stage_controller (&stage, GTK_TYPE_GESTURE_ZOOM);
  rw_canvas_motion (stage.canvas, px.x, px.y, 0);
  mm = rw_canvas_to_sheet (stage.canvas, px);
  before = zoom_of (&stage);
  g_signal_emit_by_name (pinch, "begin", NULL);
  g_signal_emit_by_name (pinch, "scale-changed", 1.5);
  g_assert_cmpfloat_with_epsilon (zoom_of (&stage), before * 1.5, 1e-9);
  stage_assert_near (rw_canvas_from_sheet (stage.canvas, mm), px, 0.51);
  g_signal_emit_by_name (pinch, "scale-changed", 1000.0);
  g_assert_cmpfloat (zoom_of (&stage), ==, 8);
  stage_close (&stage);
}

static void
test_zoom_keys (void)
{
  Stage stage;
  double fitted;

  stage_open_text (&stage, STAGE_CHAIN);
  fitted = zoom_of (&stage);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_plus, GDK_CONTROL_MASK | GDK_SHIFT_MASK));
  g_assert_cmpfloat (zoom_of (&stage), >, fitted);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_minus, GDK_CONTROL_MASK));
  g_assert_cmpfloat_with_epsilon (zoom_of (&stage), fitted, 1e-9);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_1, GDK_CONTROL_MASK));
  g_assert_cmpfloat (zoom_of (&stage), ==, 1);
  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_0, GDK_CONTROL_MASK));
  g_assert_cmpfloat_with_epsilon (zoom_of (&stage), fitted, 1e-9);
  stage_close (&stage);
}

/* Who looks at the whole sheet goes on doing so when it grows, and when that is undone. */
static void
test_stays_whole (void)
{
  Stage stage;
  g_autoptr (RwRig) rig = rw_test_rig ("rack far id=9 at=[700,60]");
  g_autoptr (RwDocument) other = rw_document_new_for_rig (rig);
  g_autofree char *text = NULL, *pasted = NULL;
  double whole;

  stage_open_text (&stage, STAGE_CHAIN);
  whole = zoom_of (&stage);
  rw_document_select_all (other);
  text = rw_document_copy (other);
  g_assert_true (rw_document_paste (stage.document, text, NULL, NULL));
  g_assert_cmpfloat (zoom_of (&stage), <, whole);
  pasted = g_strdup (rw_selection_single (rw_document_selection (stage.document)));
  g_assert_cmpfloat (stage_device (&stage, pasted).x, <, gtk_widget_get_width (GTK_WIDGET (stage.canvas)));
  g_assert_true (rw_document_undo (stage.document));
  g_assert_cmpfloat (zoom_of (&stage), ==, whole);

  /* but not who looks closer */
  rw_canvas_zoom_actual (stage.canvas);
  g_assert_true (rw_document_redo (stage.document));
  g_assert_cmpfloat (zoom_of (&stage), ==, 1);

  /* nor does it matter by what zoom the whole of it was seen */
  g_assert_true (rw_document_undo (stage.document));
  rw_canvas_zoom_fit (stage.canvas);
  rw_canvas_zoom_out (stage.canvas);
  g_assert_true (rw_document_redo (stage.document));
  g_assert_cmpfloat (zoom_of (&stage), <, whole);
  g_assert_cmpfloat (stage_device (&stage, pasted).x, <, gtk_widget_get_width (GTK_WIDGET (stage.canvas)));
  stage_close (&stage);
}

static void
test_pan (void)
{
  Stage stage;
  RwPoint mm = { 100, 100 }, before;

  stage_open_text (&stage, STAGE_CHAIN);
  before = rw_canvas_from_sheet (stage.canvas, mm);
  rw_canvas_press (stage.canvas, GDK_BUTTON_MIDDLE, 1, 500, 300, 0);
  rw_canvas_motion (stage.canvas, 460, 320, 0);
  rw_canvas_release (stage.canvas, GDK_BUTTON_MIDDLE, 450, 330, 0);
  stage_assert_near (rw_canvas_from_sheet (stage.canvas, mm), (RwPoint) { before.x - 50, before.y + 30 }, 1e-6);

  g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_space, 0));
  stage_drag (&stage, (RwPoint) { 450, 330 }, (RwPoint) { 500, 300 }, 0);
  stage_assert_near (rw_canvas_from_sheet (stage.canvas, mm), before, 1e-6);
  g_assert_cmpuint (rw_selection_n (rw_document_selection (stage.document)), ==, 0);
  stage_close (&stage);
}

static const guint arrow_keys[] = { GDK_KEY_Left, GDK_KEY_Right, GDK_KEY_Up, GDK_KEY_Down };

/* How much of the view the sheet covers along one axis, or how much of the sheet is seen where that is smaller. */
static double
share_seen (double from, double to, double view)
{
  return (MIN (to, view) - MAX (from, 0)) / MIN (to - from, view);
}

/* A sheet that is seen whole stays where it is; one that is not can be looked over to its edges and no further. */
static void
test_scroll_ends (void)
{
  Stage stage;
  RwPoint before, corner;
  gboolean handled;
  GtkEventController *wheel;

  stage_open_text (&stage, STAGE_CHAIN);
  wheel = stage_controller (&stage, GTK_TYPE_EVENT_CONTROLLER_SCROLL);
  before = rw_canvas_from_sheet (stage.canvas, (RwPoint) { 0, 0 });
  for (guint i = 0; i < 4; i++)
    g_assert_true (rw_canvas_key (stage.canvas, arrow_keys[i], 0));
  g_signal_emit_by_name (wheel, "scroll", 3.0, 5.0, &handled);
  stage_assert_near (rw_canvas_from_sheet (stage.canvas, (RwPoint) { 0, 0 }), before, 1e-6);

  rw_canvas_zoom_at (stage.canvas, 3, (RwPoint) { 500, 350 });
  for (guint i = 0; i < 100; i++)
    {
      g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Left, 0));
      g_assert_true (rw_canvas_key (stage.canvas, GDK_KEY_Up, 0));
    }
  corner = rw_canvas_from_sheet (stage.canvas, (RwPoint) { 0, 0 });
  stage_assert_near (corner, (RwPoint) { 32, 32 }, 1); /* with a margin of desk */
  stage_close (&stage);
}

/* However it is pulled, half of the sheet, or half a view of it, is still there. */
static void
test_stays_in_sight (void)
{
  static const double zooms[] = { 0.2, 1, 8 };
  Stage stage;

  stage_open_text (&stage, STAGE_CHAIN);
  for (guint i = 0; i < G_N_ELEMENTS (zooms); i++)
    {
      RwPoint a, b;

      rw_canvas_zoom_at (stage.canvas, zooms[i], (RwPoint) { 500, 350 });
      rw_canvas_press (stage.canvas, GDK_BUTTON_MIDDLE, 1, 500, 300, 0);
      rw_canvas_motion (stage.canvas, 90000, -70000, 0);
      rw_canvas_release (stage.canvas, GDK_BUTTON_MIDDLE, 90000, -70000, 0);
      a = rw_canvas_from_sheet (stage.canvas, (RwPoint) { 0, 0 });
      b = rw_canvas_from_sheet (stage.canvas, (RwPoint) { 297, 210 });
      g_assert_cmpfloat (share_seen (a.x, b.x, gtk_widget_get_width (GTK_WIDGET (stage.canvas))), >=, 0.49);
      g_assert_cmpfloat (share_seen (a.y, b.y, gtk_widget_get_height (GTK_WIDGET (stage.canvas))), >=, 0.49);
      rw_canvas_zoom_fit (stage.canvas);
    }
  stage_close (&stage);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/canvas/coordinates", test_coordinates);
  g_test_add_func ("/canvas/zoom-about-pointer", test_zoom_about_pointer);
  g_test_add_func ("/canvas/zoom-keys", test_zoom_keys);
  g_test_add_func ("/canvas/stays-whole", test_stays_whole);
  g_test_add_func ("/canvas/pan", test_pan);
  g_test_add_func ("/canvas/scroll-ends", test_scroll_ends);
  g_test_add_func ("/canvas/stays-in-sight", test_stays_in_sight);
  return g_test_run ();
}
