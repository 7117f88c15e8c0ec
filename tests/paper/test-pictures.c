/* SPDX-License-Identifier: MIT */
/* Pictures against NAME.ref.png beside this file. After a wanted change: look at the .out.png in the build folder, then
 * run with RIGWRIGHT_NEW_PICTURES=1. */
#include <paper/rw-draw-text.h>
#include <paper/rw-sheet-parts.h>
#include <paper/rw-table.h>

#include "paper-fixture.h"

static void
paint_sheet (cairo_t *cr, const RwDrawOptions *options)
{
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_paint (cr);
}

/* Every style of line, whole and at fault, with its corners; every tab on every edge; every severity. */
static void
draw_pieces (cairo_t *cr, const RwDrawOptions *options)
{
  paint_sheet (cr, options);
  for (guint i = 0; i <= RW_LINE_AUX; i++)
    for (guint fault = 0; fault < 2; fault++)
      {
        double x = 5 + 50.0 * fault, y = 5 + 9.0 * i;
        const RwPoint points[] = { { x, y }, { x + 30, y }, { x + 30, y + 5 }, { x + 42, y + 5 } };

        rw_draw_line (cr, points, G_N_ELEMENTS (points), i, fault == 1, options);
        rw_draw_bead (cr, (RwPoint) { x + 15, y }, i, fault == 1, options);
      }
  for (guint side = 0; side <= RW_SIDE_AUX; side++)
    for (guint edge = 0; edge <= RW_EDGE_BOTTOM; edge++)
      {
        gboolean upright = edge == RW_EDGE_LEFT || edge == RW_EDGE_RIGHT;
        double along = side == RW_SIDE_AUX ? 2.5 : 4;

        rw_draw_tab (cr, side, (RwRect) { 6 + 9.0 * side, 54 + 7.0 * edge, upright ? 2.5 : along, upright ? along : 2.5 }, edge, options);
      }
  for (guint i = 0; i <= RW_SEVERITY_NOTE; i++)
    {
      rw_draw_severity (cr, i, (RwPoint) { 55 + 14.0 * i, 58 }, 3, "7", options);
      rw_draw_severity (cr, i, (RwPoint) { 55 + 14.0 * i, 70 }, 3, "128", options);
    }
}

static void
test_pieces (gconstpointer data)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  RwDrawOptions options = { .context = context, .dark = g_str_equal (data, "pieces-dark"), .mono = g_str_equal (data, "pieces-mono") };
  cairo_t *cr = fixture_picture (105, 85, 6);

  draw_pieces (cr, &options);
  fixture_compare (cr, data);
}

/* A device of a part that has one of everything, as the shelf drags it in, and loose cables. */
static void
test_ghost (void)
{
  g_autoptr (RwRig) rig = fixture_rig ("small-chain.rig");
  const RwDrawOptions options = { .px_per_mm = 6 };
  const RwDevice *device = (const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[0];
  const RwPoint good[] = { { 5, 45 }, { 30, 45 }, { 30, 52 }, { 60, 52 } }, bad[] = { { 5, 55 }, { 60, 55 } };
  cairo_t *cr = fixture_picture (70, 62, 6);

  rw_draw_part_ghost (cr, rw_rig_part_of (rig, device), "New desk", 8, 6, &options);
  rw_draw_loose_cable (cr, good, G_N_ELEMENTS (good), FALSE, &options);
  rw_draw_loose_cable (cr, bad, G_N_ELEMENTS (bad), TRUE, &options);
  fixture_compare (cr, "ghost");
}

static void
test_frame (void)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  const RwDrawOptions options = { .context = context };
  const RwTitle title = { "A rather long name of a show in a town", "Town hall", "2031-04-09", "B", "A. Person", "Cable plan", "1:2", 1, 3 };
  double height = rw_sheet_title_height (context, 180, TRUE);
  cairo_t *cr = fixture_picture (210, 148, 4);

  rw_sheet_draw_title (cr, (RwRect) { 20, 138 - height, 180, height }, &title, TRUE, &options);
  rw_sheet_draw_title (cr, (RwRect) { 20, 60, 180, rw_sheet_title_height (context, 180, FALSE) }, &title, FALSE, &options);
  rw_sheet_draw_frame (cr, 210, 148, &options);
  fixture_compare (cr, "frame");
}

static void
test_table (void)
{
  static const RwColumn columns[] = {
    { "No.", RW_ALIGN_RIGHT, 9, 0 }, { "Name", RW_ALIGN_LEFT, 15, 1 }, { "Length, m", RW_ALIGN_RIGHT, 10, 0 },
  };
  static const char *const rows[][3] = {
    { "1", "Stage left", "12.5" }, { "2", "A long name that has to go over several lines of its cell, as it is so long", "100.0" },
    { "3", NULL, "—" }, { "4", "Donaudampfschifffahrtsgesellschaftskapitänskajütenschlüssel", "7.0" },
  };
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  g_autoptr (RwTableLayout) table = rw_table_layout_new (context, RW_EM_LEAST, columns, G_N_ELEMENTS (columns));
  const RwDrawOptions options = { .context = context };
  cairo_t *cr = fixture_picture (80, 50, 6);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    rw_table_layout_add (table, rows[i], NULL);
  rw_table_layout_fit (table, 70, 45);
  rw_table_layout_draw (table, cr, 5, 3, 0, G_N_ELEMENTS (rows), &options);
  fixture_compare (cr, "table");
}

/* The number of different colours in rows and columns of a picture's middle tells whether lines fill whole pixels. */
static void
test_lines_fill_pixels (void)
{
  const RwDrawOptions options = { .px_per_mm = 3.7 };
  const RwPoint points[] = { { 3.13, 5.27 }, { 20.71, 5.27 }, { 20.71, 12.9 } };
  cairo_t *cr = fixture_picture (25, 15, 3.7);
  cairo_surface_t *surface = cairo_get_target (cr);

  rw_draw_line (cr, points, 3, RW_LINE_PRIMARY, FALSE, &options);
  cairo_surface_flush (surface);
  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    {
      const guint32 *row = (gpointer) (cairo_image_surface_get_data (surface) + (gsize) y * cairo_image_surface_get_stride (surface));
      guint32 pixel = row[40] & 0xffffff;

      g_assert_true (pixel == 0xffffff || pixel == 0);
    }
  cairo_destroy (cr);
}

/* Detail comes in steps, and each keeps what the one before it showed. */
static void
test_detail_steps (void)
{
  RwDetail before = RW_DETAIL_BOXES;

  for (double px = 0.05; px < 10; px *= 1.1)
    {
      const RwDrawOptions options = { .px_per_mm = px };
      RwDetail detail = rw_draw_detail (&options);

      g_assert_cmpint (detail, >=, before);
      /* text that shows at its own size is at least 5 px high */
      g_assert_true (detail < RW_DETAIL_PORTS || RW_EM_LEAST * px >= 5);
      before = detail;
    }
  g_assert_cmpint (before, ==, RW_DETAIL_PORTS);
  g_assert_cmpint (rw_draw_detail (&(RwDrawOptions) { .px_per_mm = 0 }), ==, RW_DETAIL_PORTS);
}

/* Pixels of which a colour is more than @dark away from black. */
static guint
n_lighter (cairo_t *cr, guint dark)
{
  cairo_surface_t *surface = cairo_get_target (cr);
  guint n = 0;

  cairo_surface_flush (surface);
  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    {
      const guint8 *row = cairo_image_surface_get_data (surface) + (gsize) y * cairo_image_surface_get_stride (surface);

      for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
        n += row[4 * x] > dark || row[4 * x + 1] > dark || row[4 * x + 2] > dark;
    }
  return n;
}

/* Drawing tile by tile with the tile as clip gives what one drawing gives: nothing is culled that shows. */
static void
test_tiles_make_the_whole (void)
{
  g_autoptr (RwRig) rig = fixture_rig ("festival-60.rig");
  g_autoptr (RwScene) scene = fixture_scene (rig);
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  RwDrawOptions options = { .balloons = TRUE, .context = context };
  RwRect all = rw_scene_bounds (scene);
  const double px = 1.5, tile = 64 / px;
  cairo_t *whole = fixture_picture (all.w, all.h, px), *tiled = fixture_picture (all.w, all.h, px);

  cairo_translate (whole, -all.x, -all.y);
  rw_draw_scene (whole, scene, &options);
  cairo_translate (tiled, -all.x, -all.y);
  for (double y = all.y; y < all.y + all.h; y += tile)
    for (double x = all.x; x < all.x + all.w; x += tile)
      {
        cairo_save (tiled);
        cairo_rectangle (tiled, x, y, tile, tile);
        cairo_clip (tiled);
        options.clip = (RwRect) { x, y, tile, tile };
        rw_draw_scene (tiled, scene, &options);
        cairo_restore (tiled);
      }
  cairo_set_operator (whole, CAIRO_OPERATOR_DIFFERENCE);
  cairo_identity_matrix (whole);
  cairo_set_source_rgb (whole, 1, 1, 1);
  cairo_paint (whole);
  g_assert_cmpuint (n_lighter (whole, 128), >, 1000);
  cairo_paint (whole);
  cairo_set_source_surface (whole, cairo_get_target (tiled), 0, 0);
  cairo_paint (whole); /* black where both are the same, but for the rounding of a line cut in two */
  g_assert_cmpuint (n_lighter (whole, 16), ==, 0);
  cairo_destroy (whole);
  cairo_destroy (tiled);
}

static void
test_chain (gconstpointer data)
{
  g_autoptr (RwRig) rig = fixture_rig ("trip-loop.rig");
  g_autoptr (RwScene) scene = fixture_scene (rig);
  gboolean far = g_str_equal (data, "loop-far");
  RwDrawOptions options = { .balloons = TRUE, .dark = g_str_equal (data, "loop-dark"), .px_per_mm = far ? 1 : 4 };
  RwRect all = rw_scene_bounds (scene);
  cairo_t *cr = fixture_picture (all.w + 10, all.h + 10, options.px_per_mm);

  paint_sheet (cr, &options);
  cairo_translate (cr, 5 - all.x, 5 - all.y);
  rw_draw_scene (cr, scene, &options);
  fixture_compare (cr, data);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/paper/pictures/pieces", "pieces", test_pieces);
  g_test_add_data_func ("/paper/pictures/pieces-dark", "pieces-dark", test_pieces);
  g_test_add_data_func ("/paper/pictures/pieces-mono", "pieces-mono", test_pieces);
  g_test_add_data_func ("/paper/pictures/loop", "loop", test_chain);
  g_test_add_data_func ("/paper/pictures/loop-dark", "loop-dark", test_chain);
  g_test_add_data_func ("/paper/pictures/loop-far", "loop-far", test_chain);
  g_test_add_func ("/paper/pictures/ghost", test_ghost);
  g_test_add_func ("/paper/pictures/frame", test_frame);
  g_test_add_func ("/paper/pictures/table", test_table);
  g_test_add_func ("/paper/draw/lines-fill-pixels", test_lines_fill_pixels);
  g_test_add_func ("/paper/draw/detail-steps", test_detail_steps);
  g_test_add_func ("/paper/draw/tiles-make-the-whole", test_tiles_make_the_whole);
  return g_test_run ();
}
