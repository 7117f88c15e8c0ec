/* SPDX-License-Identifier: MIT */
/*
 * What the sheet shows, against the drawing that goes on paper: the tiles, which are drawn piece by piece and only
 * where something changed, must hold the very picture that one drawing of the whole scene gives.
 */
#include "canvas-stage.h"
#include "rig-builder.h"

#include <math.h>
#include <paper/rw-draw.h>

#define TOLERANCE 24     /* of 255: a curve cut by a tile's edge is filled a little otherwise */
#define ALLOWED 0.0005   /* share of pixels beyond it */
#define MISSING 180      /* so far no pixel may be off: something dark is missing or too much */

/* All that lies on the paper, in one go, through no tile. */
static cairo_surface_t *
drawn_whole (Stage *stage, cairo_surface_t *like)
{
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, cairo_image_surface_get_width (like),
                                                         cairo_image_surface_get_height (like));
  cairo_t *cr = cairo_create (picture);
  RwPoint origin = rw_canvas_from_sheet (stage->canvas, (RwPoint) { 0, 0 });
  double scale = rw_canvas_from_sheet (stage->canvas, (RwPoint) { 1000, 0 }).x / 1000 - origin.x / 1000;
  g_autoptr (RwLens) lens = rw_lens_new (rw_document_net (stage->document), rw_canvas_lens (stage->canvas), RW_NONE);
  RwDrawOptions options = { .balloons = TRUE, .px_per_mm = scale, .lens = lens };

  rw_lens_place_marks (lens, rw_document_scene (stage->document));
  rw_ink_set (cr, RW_INK_SHEET, &options);
  cairo_paint (cr);
  cairo_translate (cr, origin.x, origin.y);
  cairo_scale (cr, scale, scale);
  rw_draw_scene (cr, rw_document_scene (stage->document), &options);
  cairo_destroy (cr);
  return picture;
}

/* The part of a picture round the drawing, where neither frame nor desk comes in. */
static cairo_surface_t *
cut_out (Stage *stage, cairo_surface_t *picture)
{
  RwRect mm = rw_scene_bounds (rw_document_scene (stage->document));
  RwPoint a = rw_canvas_from_sheet (stage->canvas, (RwPoint) { mm.x - 3, mm.y - 3 });
  RwPoint b = rw_canvas_from_sheet (stage->canvas, (RwPoint) { mm.x + mm.w + 3, mm.y + mm.h + 3 });
  int x = MAX (0, a.x), y = MAX (0, a.y);
  int width = MIN (b.x, cairo_image_surface_get_width (picture)) - x;
  int height = MIN (b.y, cairo_image_surface_get_height (picture)) - y;
  cairo_surface_t *cut = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (cut);

  cairo_set_source_surface (cr, picture, -x, -y);
  cairo_paint (cr);
  cairo_destroy (cr);
  return cut;
}

static void
assert_same (cairo_surface_t *a, cairo_surface_t *b, const char *name)
{
  double share = stage_difference (a, b, TOLERANCE) + (stage_difference (a, b, MISSING) > 0 ? 1 : 0);
  g_autofree char *out = g_strdup_printf ("%s/canvas-%s.out.png", g_get_tmp_dir (), name);
  g_autofree char *ref = g_strdup_printf ("%s/canvas-%s.ref.png", g_get_tmp_dir (), name);

  if (share <= ALLOWED)
    return;
  cairo_surface_write_to_png (a, out);
  cairo_surface_write_to_png (b, ref);
  g_test_message ("%s: %.4f of the pixels differ: see %s and %s", name, share, out, ref);
  g_test_fail ();
}

static void
assert_like_paper (Stage *stage, const char *name)
{
  cairo_surface_t *shown = stage_picture (stage);
  cairo_surface_t *whole = drawn_whole (stage, shown);
  cairo_surface_t *a = cut_out (stage, shown), *b = cut_out (stage, whole);

  assert_same (a, b, name);
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
  cairo_surface_destroy (shown);
  cairo_surface_destroy (whole);
}

static void
open_example (Stage *stage, const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("RIGWRIGHT_DATADIR"), "examples", name, NULL);
  g_autoptr (RwDocument) document = rw_document_new ();
  g_autoptr (GError) error = NULL;

  rw_document_load (document, path, &error);
  g_assert_no_error (error);
  stage_open (stage, document, 1200, 800);
  /* arrows and rings are the canvas's own: not on paper */
  gtk_widget_grab_focus (GTK_WIDGET (stage->canvas));
}

static void
test_examples (gconstpointer name)
{
  Stage stage;

  open_example (&stage, name);
  assert_like_paper (&stage, name);
  stage_close (&stage);
}

/* Every way to look at the same sheet: after zooms and pans the tiles are put together from old and new ones. */
static void
test_views (void)
{
  Stage stage;

  open_example (&stage, "redundant.rig");
  for (guint i = 0; i < 3; i++)
    {
      rw_canvas_zoom_out (stage.canvas);
      assert_like_paper (&stage, "zoomed-out");
    }
  rw_canvas_zoom_fit (stage.canvas);
  rw_canvas_press (stage.canvas, GDK_BUTTON_MIDDLE, 1, 500, 300, 0);
  for (guint i = 0; i < 20; i++)
    {
      rw_canvas_motion (stage.canvas, 500 + 7 * i, 300 - 3 * i, 0);
      stage_settle (&stage);
    }
  rw_canvas_release (stage.canvas, GDK_BUTTON_MIDDLE, 640, 240, 0);
  assert_like_paper (&stage, "panned");
  stage_close (&stage);
}

/* Badges reach out of their devices, the farther out the more, and so into other tiles: at some of so many heights a
 * tile's edge runs through. */
static void
test_badges (void)
{
  Stage stage;
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < 100; i++)
    g_string_append_printf (text, "rack r%u id=%u at=[%u,%u]; ", i, i + 1, 60 + 60 * (i % 20), 60 + 3 * i);
  stage_open_text (&stage, text->str);
  gtk_widget_grab_focus (GTK_WIDGET (stage.canvas));
  rw_selection_clear (rw_document_selection (stage.document));
  rw_canvas_set_lens (stage.canvas, RW_LENS_HOPS, NULL);
  assert_like_paper (&stage, "badges");
  stage_close (&stage);
}

/* Whether the upper edge of the only device's badge is to be seen. */
static gboolean
shows_badge (Stage *stage)
{
  RwScene *scene = rw_document_scene (stage->document);
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  RwRect badge = rw_draw_badge_rect (context, rw_scene_device (scene, 0)->box, RW_CORNER_TOP_RIGHT, "0", FALSE);
  RwPoint a = rw_canvas_from_sheet (stage->canvas, (RwPoint) { badge.x + 0.5, badge.y - 0.5 });
  RwPoint b = rw_canvas_from_sheet (stage->canvas, (RwPoint) { badge.x + badge.w - 0.5, badge.y + 0.5 });
  cairo_surface_t *picture = stage_picture (stage), *cut = cairo_image_surface_create (CAIRO_FORMAT_RGB24, b.x - a.x, b.y - a.y);
  cairo_t *cr = cairo_create (cut);
  double blank;

  cairo_set_source_surface (cr, picture, -floor (a.x), -floor (a.y));
  cairo_paint (cr);
  cairo_destroy (cr);
  blank = stage_share_of (cut, 1, 1, 1);
  cairo_surface_destroy (cut);
  cairo_surface_destroy (picture);
  return blank < 0.9;
}

static void
test_badge_is_dragged_along (void)
{
  Stage stage;
  RwPoint at;

  stage_open_text (&stage, "console desk ctrl=1 at=[60,60]");
  rw_canvas_set_lens (stage.canvas, RW_LENS_HOPS, NULL);
  rw_canvas_zoom_actual (stage.canvas);
  at = stage_device (&stage, "desk");
  g_assert_true (shows_badge (&stage));
  rw_canvas_press (stage.canvas, GDK_BUTTON_PRIMARY, 1, at.x, at.y, 0);
  for (guint i = 1; i <= 5; i++)
    {
      rw_canvas_motion (stage.canvas, at.x + 12 * i, at.y + 12 * i, 0);
      stage_settle (&stage);
    }
  g_assert_cmpfloat (rw_scene_device (rw_document_scene (stage.document), 0)->box.y, >, 60);
  g_assert_true (shows_badge (&stage));
  rw_canvas_release (stage.canvas, GDK_BUTTON_PRIMARY, at.x + 60, at.y + 60, 0);
  g_assert_true (shows_badge (&stage));
  stage_close (&stage);
}

/* How much of the next frame, and of the same view at rest, is neither sheet nor desk. */
static void
inked (Stage *stage, double *next, double *rest)
{
  static const RwDrawOptions options = { .px_per_mm = 1 };
  RwInk sheet = rw_ink (RW_INK_SHEET, &options);
  cairo_surface_t *glance, *picture;

  gtk_test_widget_wait_for_draw (GTK_WIDGET (stage->canvas)); /* scroll bars come and go */
  glance = stage_glance (stage);
  picture = stage_picture (stage);
  *next = 1 - stage_share_of (glance, sheet.r, sheet.g, sheet.b) - stage_share_of (glance, 0.835, 0.827, 0.804);
  *rest = 1 - stage_share_of (picture, sheet.r, sheet.g, sheet.b) - stage_share_of (picture, 0.835, 0.827, 0.804);
  cairo_surface_destroy (glance);
  cairo_surface_destroy (picture);
}

/* The frames in between may be coarse while the zoom changes, but nothing is missing; while the view moves they are whole. */
static void
test_between (void)
{
  Stage stage;
  cairo_surface_t *glance, *picture;
  double next, rest;

  open_example (&stage, "redundant.rig");
  cairo_surface_destroy (stage_picture (&stage));
  for (guint i = 0; i < 8; i++)
    {
      if (i < 4)
        rw_canvas_zoom_in (stage.canvas);
      else
        rw_canvas_zoom_out (stage.canvas);
      inked (&stage, &next, &rest);
      g_test_message ("zoom step %u: %.4f of the next frame inked, %.4f at rest", i, next, rest);
      g_assert_cmpfloat (next, >, 0.9 * rest);
    }
  for (guint i = 0; i < 3; i++)
    rw_canvas_zoom_in (stage.canvas);
  cairo_surface_destroy (stage_picture (&stage));
  rw_canvas_press (stage.canvas, GDK_BUTTON_MIDDLE, 1, 500, 300, 0);
  for (guint i = 1; i <= 4; i++)
    {
      rw_canvas_motion (stage.canvas, 500 + 150 * i, 300 - 90 * i, 0);
      gtk_test_widget_wait_for_draw (GTK_WIDGET (stage.canvas));
      glance = stage_glance (&stage);
      picture = stage_picture (&stage);
      g_assert_cmpfloat (stage_difference (glance, picture, 0), ==, 0);
      cairo_surface_destroy (glance);
      cairo_surface_destroy (picture);
    }
  rw_canvas_release (stage.canvas, GDK_BUTTON_MIDDLE, 1100, -60, 0);
  stage_close (&stage);
}

/* --- After edits --- */

static void
do_drag (Stage *stage, GRand *rand)
{
  const RwNet *net = rw_document_net (stage->document);
  guint index = g_rand_int_range (rand, 0, net->n_devices);
  RwPoint from = stage_device (stage, rw_item_key (net->devices[index].device));
  RwPoint to = { from.x + g_rand_int_range (rand, -80, 80), from.y + g_rand_int_range (rand, -60, 60) };

  stage_drag (stage, from, to, 0);
}

static void
do_cable (Stage *stage, GRand *rand)
{
  const RwNet *net = rw_document_net (stage->document);
  const RwNetPort *a = &net->ports[g_rand_int_range (rand, 0, net->n_ports)];
  const RwNetPort *b = &net->ports[g_rand_int_range (rand, 0, net->n_ports)];

  stage_drag (stage, stage_port (stage, rw_item_key (net->devices[a->device].device), a->port->name),
              stage_port (stage, rw_item_key (net->devices[b->device].device), b->port->name), 0);
}

static void
do_delete (Stage *stage, GRand *rand)
{
  const RwNet *net = rw_document_net (stage->document);

  if (net->n_cables == 0)
    return;
  rw_selection_set (rw_document_selection (stage->document),
                    rw_item_key (net->cables[g_rand_int_range (rand, 0, net->n_cables)].cable));
  rw_document_delete_selected (stage->document);
}

static void
do_undo (Stage *stage, GRand *rand)
{
  rw_document_undo (stage->document);
}

static void
do_cancelled_drag (Stage *stage, GRand *rand)
{
  const RwNet *net = rw_document_net (stage->document);
  guint index = g_rand_int_range (rand, 0, net->n_devices);
  RwPoint from = stage_device (stage, rw_item_key (net->devices[index].device));

  rw_canvas_press (stage->canvas, GDK_BUTTON_PRIMARY, 1, from.x, from.y, 0);
  rw_canvas_motion (stage->canvas, from.x + 90, from.y + 40, 0);
  stage_settle (stage);
  rw_canvas_key (stage->canvas, GDK_KEY_Escape, 0);
}

static void
do_duplicate (Stage *stage, GRand *rand)
{
  const RwNet *net = rw_document_net (stage->document);

  rw_selection_set (rw_document_selection (stage->document),
                    rw_item_key (net->devices[g_rand_int_range (rand, 0, net->n_devices)].device));
  rw_document_duplicate_selected (stage->document);
}

static void (*const edits[]) (Stage *stage, GRand *rand) = {
  do_drag, do_cable, do_delete, do_undo, do_cancelled_drag, do_duplicate,
};

/* Whatever is done, what the tiles still hold from before must not stay where something is other now. */
static void
test_edits (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260717);
  Stage stage;

  open_example (&stage, "redundant.rig");
  for (guint i = 0; i < 40; i++)
    {
      g_autofree char *name = g_strdup_printf ("edit-%u", i);

      edits[g_rand_int_range (rand, 0, G_N_ELEMENTS (edits))](&stage, rand);
      rw_selection_clear (rw_document_selection (stage.document));
      rw_canvas_zoom_fit (stage.canvas);
      assert_like_paper (&stage, name);
      if (g_test_failed ())
        break;
    }
  stage_close (&stage);
}

int
main (int argc, char *argv[])
{
  static const char *const examples[] = { "small-chain.rig", "redundant.rig", "festival-60.rig", "trip-loop.rig" };

  gtk_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (examples); i++)
    {
      g_autofree char *path = g_strdup_printf ("/canvas/picture/%s", examples[i]);

      g_test_add_data_func (path, examples[i], test_examples);
    }
  g_test_add_func ("/canvas/picture/views", test_views);
  g_test_add_func ("/canvas/picture/badges", test_badges);
  g_test_add_func ("/canvas/picture/badge-is-dragged-along", test_badge_is_dragged_along);
  g_test_add_func ("/canvas/picture/between", test_between);
  g_test_add_func ("/canvas/picture/edits", test_edits);
  return g_test_run ();
}
