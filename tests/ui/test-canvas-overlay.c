/* SPDX-License-Identifier: MIT */
/* What is laid over the drawing: findings, lenses, failures and ways. */
#include "canvas-stage.h"

#include <paper/rw-draw.h>

static void
remember_cb (RwCanvas *canvas, int index, int *remembered)
{
  *remembered = index;
}

static void
test_balloon_and_veil (void)
{
  Stage stage;
  int picked = -1;
  const RwSceneBalloon *balloon;
  RwPoint px;
  cairo_surface_t *plain, *veiled, *again;

  stage_open_text (&stage, STAGE_CHAIN "; right.s-desk.p");
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

/* Through another lens the same rig looks different, tells the way to what is pointed at, and goes with each change. */
static void
test_lens (void)
{
  Stage stage;
  RwPoint right, bare;
  g_autofree char *lens = NULL, *pointed = NULL, *none = NULL, *from = NULL;
  cairo_surface_t *wiring, *hops, *load, *bare_load;

  stage_open_text (&stage, STAGE_CHAIN);
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

  stage_open_text (&stage, STAGE_CHAIN);
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

/* What was deleted after it failed costs nothing more; undone, it has failed again. */
static void
test_failure_deleted (void)
{
  Stage stage;
  guint n;

  stage_open_text (&stage, STAGE_CHAIN);
  g_object_set (stage.canvas, "lens", "failure", NULL);
  rw_canvas_toggle_failed (stage.canvas, "right");
  rw_selection_set (rw_document_selection (stage.document), "right");
  g_assert_true (rw_document_delete_selected (stage.document));
  stage_settle (&stage);
  g_object_get (stage.canvas, "failed", &n, NULL);
  g_assert_cmpuint (n, ==, 0);
  rw_document_undo (stage.document);
  stage_settle (&stage);
  g_object_get (stage.canvas, "failed", &n, NULL);
  g_assert_cmpuint (n, ==, 1);
  g_assert_cmpuint (rw_canvas_outcome (stage.canvas)->device_counts[RW_FATE_FAILED], ==, 1);
  stage_close (&stage);
}

/* A way that is lit dims the rest, but not while something has failed: that would be dimmed, too. */
static void
test_failure_and_way (void)
{
  g_autoptr (GArray) devices = g_array_new (FALSE, FALSE, sizeof (guint)), cables = g_array_new (FALSE, FALSE, sizeof (guint));
  cairo_surface_t *plain, *lit, *failed, *failed_lit;
  Stage stage;
  guint first = 0;

  g_array_append_val (devices, first);
  stage_open_text (&stage, STAGE_CHAIN);
  g_object_set (stage.canvas, "lens", "failure", NULL);
  plain = stage_picture (&stage);
  rw_canvas_set_way (stage.canvas, devices, cables);
  lit = stage_picture (&stage);
  g_assert_cmpfloat (stage_difference (plain, lit, 8), >, 0.001);
  rw_canvas_toggle_failed (stage.canvas, "right");
  failed_lit = stage_picture (&stage);
  rw_canvas_set_way (stage.canvas, NULL, NULL);
  failed = stage_picture (&stage);
  g_assert_cmpfloat (stage_difference (failed, failed_lit, 8), ==, 0);
  g_assert_cmpfloat (stage_difference (failed, plain, 8), >, 0.001);
  cairo_surface_destroy (plain);
  cairo_surface_destroy (lit);
  cairo_surface_destroy (failed);
  cairo_surface_destroy (failed_lit);
  stage_close (&stage);
}

/* P lights the way of what is pointed at, else of what is selected, to its controller. */
static void
test_path (void)
{
  Stage stage;
  g_autofree char *selected = NULL, *pointed = NULL, *off = NULL;
  RwPoint left;

  stage_open_text (&stage, STAGE_CHAIN);
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
  g_test_add_func ("/canvas-overlay/balloon-and-veil", test_balloon_and_veil);
  g_test_add_func ("/canvas-overlay/edge-arrow", test_edge_arrow);
  g_test_add_func ("/canvas-overlay/lens", test_lens);
  g_test_add_func ("/canvas-overlay/failure", test_failure);
  g_test_add_func ("/canvas-overlay/failure-deleted", test_failure_deleted);
  g_test_add_func ("/canvas-overlay/failure-and-way", test_failure_and_way);
  g_test_add_func ("/canvas-overlay/path", test_path);
  return g_test_run ();
}
