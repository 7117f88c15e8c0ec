/* SPDX-License-Identifier: MIT */
/* Where the canvas puts what it says over the drawing: beside what it speaks of. */
#include <math.h>

#include "canvas-stage.h"
#include "rig-builder.h"
#include <ui/rw-canvas-private.h>

static gboolean
overlap (RwRect a, RwRect b)
{
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

static void
assert_in_view (Stage *stage, RwRect box)
{
  g_assert_cmpfloat (box.w, >, 0);
  g_assert_cmpfloat (box.x, >=, 0);
  g_assert_cmpfloat (box.y, >=, 0);
  g_assert_cmpfloat (box.x + box.w, <=, gtk_widget_get_width (GTK_WIDGET (stage->canvas)));
  g_assert_cmpfloat (box.y + box.h, <=, gtk_widget_get_height (GTK_WIDGET (stage->canvas)));
}

/* No device with its ports lies below @box. */
static void
assert_clear_of_devices (Stage *stage, RwRect box)
{
  RwScene *scene = rw_document_scene (stage->document);

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    g_assert_false (overlap (box, rw_canvas_rect_px (stage->canvas, rw_scene_device (scene, i)->bounds)));
}

/* The verdict on a ring covers none of its devices, nor the hand, wherever in the view they are. */
static void
test_verdict (void)
{
  static const struct { const char *name, *rig; } cases[] = {
    { "a row", "console desk ctrl=1 at=[60,60]; rack left id=1 at=[130,60]; rack right id=2 at=[200,60]" },
    { "top left", "console desk ctrl=1 at=[30,20]; rack left id=1 at=[100,20]; rack right id=2 at=[100,60]" },
    { "bottom right", "console desk ctrl=1 at=[230,150]; rack left id=1 at=[150,160]; rack right id=2 at=[230,110]" },
    { "a pile", "console desk ctrl=1 at=[110,60]; rack left id=1 at=[110,100]; rack right id=2 at=[110,130]" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rig = g_strconcat (cases[i].rig, "; desk.s-left.p; left.s-right.p", NULL);
      Stage stage;
      RwPoint from, to;
      RwRect box;

      g_test_message ("%s", cases[i].name);
      stage_open_text (&stage, rig);
      from = stage_port (&stage, "right", "secondary");
      to = stage_port (&stage, "desk", "primary");
      rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, from.x, from.y, 0);
      for (guint step = 1; step <= 4; step++)
        {
          rw_canvas_motion (stage.canvas, to.x + 4 - step, to.y, GDK_BUTTON1_MASK);
          g_assert_cmpint (rw_canvas_overlay (stage.canvas)->verdict, ==, RW_VERDICT_ERROR);
          box = rw_canvas_verdict_box (stage.canvas);
          assert_in_view (&stage, box);
          assert_clear_of_devices (&stage, box);
          g_assert_false (overlap (box, (RwRect) { to.x - 4, to.y - 4, 12, 12 }));
        }
      rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, 5, 5, 0);
      stage_close (&stage);
    }
}

/* Where all is taken it lies within the view all the same; where nothing is, near the hand. */
static void
test_verdict_place (void)
{
  const RwRect all = { -10, -10, 900, 700 }, hand = { 392, 292, 24, 28 }, view = { 0, 0, 800, 600 };
  RwPoint at = rw_canvas_verdict_place (&all, 1, (RwPoint) { 790, 590 }, 300, 80, view);

  g_assert_true (at.x >= 0 && at.y >= 0 && at.x + 300 <= 800 && at.y + 80 <= 600);
  at = rw_canvas_verdict_place (&hand, 1, (RwPoint) { 400, 300 }, 300, 80, view);
  g_assert_false (overlap ((RwRect) { at.x, at.y, 300, 80 }, hand));
  g_assert_true (overlap ((RwRect) { at.x - 30, at.y - 30, 360, 140 }, hand));
}

/* At true size, so that more is drawn than is seen. */
static void
open_near (Stage *stage)
{
  stage_open_text (stage, "console desk ctrl=1 at=[150,100]; rack left id=1 at=[150,135]; desk.s-left.p");
  rw_canvas_zoom_actual (stage->canvas);
}

/* The legend lies in a corner where nothing is drawn, and stays there while the view is moved. */
static void
test_legend (void)
{
  static const RwPoint places[] = { { 60, 600 }, { 800, 600 }, { 800, 40 }, { 60, 40 } };
  RwPoint first = { 0, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      Stage stage;
      RwRect box, moved;
      double scale;

      open_near (&stage);
      scale = rw_canvas_scale (stage.canvas);
      rw_canvas_set_origin (stage.canvas, places[i].x - 150 * scale, places[i].y - 100 * scale);
      rw_canvas_set_lens (stage.canvas, RW_LENS_PLANES, NULL);
      stage_settle (&stage);
      box = rw_canvas_legend_box (stage.canvas);
      assert_in_view (&stage, box);
      assert_clear_of_devices (&stage, box);
      if (i == 0)
        first = (RwPoint) { box.x, box.y };
      else /* bottom left unless that is taken */
        g_assert_true (box.x < first.x && box.y > 350);
      rw_canvas_press (stage.canvas, GDK_BUTTON_MIDDLE, 1, 500, 300, 0);
      for (int x = 500; x > 100; x -= 20)
        {
          rw_canvas_motion (stage.canvas, x, 300 + x / 5, 0);
          moved = rw_canvas_legend_box (stage.canvas);
          g_assert_cmpfloat (moved.x, ==, box.x);
          g_assert_cmpfloat (moved.y, ==, box.y);
        }
      rw_canvas_release (stage.canvas, GDK_BUTTON_MIDDLE, 100, 320, 0);
      stage_close (&stage);
    }
}

/* An edit that puts something below it makes it go, one elsewhere does not. */
static void
test_legend_stays (void)
{
  Stage stage;
  RwRect before, after;

  open_near (&stage);
  rw_canvas_set_origin (stage.canvas, 0, -90);
  rw_canvas_set_lens (stage.canvas, RW_LENS_PLANES, NULL);
  stage_settle (&stage);
  before = rw_canvas_legend_box (stage.canvas);
  rw_selection_set (rw_document_selection (stage.document), "desk");
  g_assert_true (rw_document_nudge_selected (stage.document, -10, 5));
  stage_settle (&stage);
  after = rw_canvas_legend_box (stage.canvas);
  g_assert_cmpfloat (after.x, ==, before.x);
  g_assert_cmpfloat (after.y, ==, before.y);
  g_assert_true (rw_document_nudge_selected (stage.document, -100, 75));
  stage_settle (&stage);
  after = rw_canvas_legend_box (stage.canvas);
  g_assert_true (after.x != before.x || after.y != before.y);
  assert_clear_of_devices (&stage, after);
  stage_close (&stage);
}

/* One that was hidden finds its corner when it is shown. */
static void
test_legend_comes_back (void)
{
  Stage stage;
  RwRect box;
  double scale;

  open_near (&stage);
  scale = rw_canvas_scale (stage.canvas);
  rw_canvas_set_origin (stage.canvas, 60 - 150 * scale, 600 - 100 * scale);
  g_object_set (stage.canvas, "legend", FALSE, NULL);
  rw_canvas_set_lens (stage.canvas, RW_LENS_PLANES, NULL);
  stage_settle (&stage);
  g_object_set (stage.canvas, "legend", TRUE, NULL);
  box = rw_canvas_legend_box (stage.canvas);
  assert_in_view (&stage, box);
  assert_clear_of_devices (&stage, box);
  stage_close (&stage);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/canvas/verdict/beside", test_verdict);
  g_test_add_func ("/canvas/verdict/place", test_verdict_place);
  g_test_add_func ("/canvas/legend/corner", test_legend);
  g_test_add_func ("/canvas/legend/stays", test_legend_stays);
  g_test_add_func ("/canvas/legend/comes-back", test_legend_comes_back);
  return g_test_run ();
}
