/* SPDX-License-Identifier: MIT */
/* A drawing over several sheets: what it says is whole on some sheet and in no place half. */
#include <math.h>
#include <paper/rw-papers-parts.h>

#include "paper-fixture.h"

#define PX 3.0
#define MARGIN 30.0 /* mm round the drawing */

typedef struct
{
  RwRig *rig;
  RwScene *scene;
  RwDrawContext *context;
  RwRect all;
} Sheet;

static void
sheet_open (Sheet *sheet, const char *rig)
{
  sheet->rig = fixture_rig (rig);
  sheet->scene = fixture_scene (sheet->rig);
  sheet->context = rw_draw_context_new ();
  sheet->all = rw_scene_bounds (sheet->scene);
}

static void
sheet_close (Sheet *sheet)
{
  rw_draw_context_free (sheet->context);
  rw_scene_unref (sheet->scene);
  g_object_unref (sheet->rig);
}

/* In all pictures the same thing lies at the same pixel. */
static cairo_t *
picture (const Sheet *sheet)
{
  cairo_t *cr = fixture_picture (ceil (sheet->all.w + 2 * MARGIN), ceil (sheet->all.h + 2 * MARGIN), PX);

  cairo_translate (cr, MARGIN - sheet->all.x, MARGIN - sheet->all.y);
  return cr;
}

static cairo_t *
whole_picture (const Sheet *sheet)
{
  RwDrawOptions options = { .balloons = TRUE, .context = sheet->context };
  cairo_t *cr = picture (sheet);

  rw_draw_scene (cr, sheet->scene, &options);
  return cr;
}

static cairo_t *
lines_picture (const Sheet *sheet)
{
  RwDrawOptions options = { .context = sheet->context };
  cairo_t *cr = picture (sheet);

  rw_draw_lines (cr, sheet->scene, &options);
  return cr;
}

/* What lies between @left and @right, with match lines where the drawing goes on. */
static cairo_t *
tile_picture (const Sheet *sheet, double left, double right)
{
  RwDrawOptions options = { .balloons = TRUE, .context = sheet->context };
  RwRect a = { left, sheet->all.y, right - left, sheet->all.h };
  RwPlanTile tile = { a, a, 1, { 0 } };
  cairo_t *cr = picture (sheet);

  tile.behind[RW_EDGE_LEFT] = left > sheet->all.x ? 7 : 0;
  tile.behind[RW_EDGE_RIGHT] = right < sheet->all.x + sheet->all.w ? 8 : 0;
  rw_plan_tile_draw (&tile, cr, sheet->scene, &options);
  return cr;
}

/* The green of the pixel at (@x, @y) mm of the drawing. */
static int
green_at (const Sheet *sheet, cairo_t *cr, double x, double y)
{
  cairo_surface_t *surface = cairo_get_target (cr);
  int column = (int) ((x - sheet->all.x + MARGIN) * PX), row = (int) ((y - sheet->all.y + MARGIN) * PX);

  return cairo_image_surface_get_data (surface)[(gsize) row * cairo_image_surface_get_stride (surface) + 4 * column + 1];
}

/* Whether two pictures are the same inside @area. */
static gboolean
alike (const Sheet *sheet, cairo_t *a, cairo_t *b, RwRect area)
{
  const double slack = 1 / PX; /* pixels that the area covers but in part */

  cairo_surface_flush (cairo_get_target (a));
  cairo_surface_flush (cairo_get_target (b));
  for (double y = area.y + slack; y < area.y + area.h - slack; y += 1 / PX)
    for (double x = area.x + slack; x < area.x + area.w - slack; x += 1 / PX)
      if (ABS (green_at (sheet, a, x, y) - green_at (sheet, b, x, y)) > 8)
        return FALSE;
  return TRUE;
}

/* What of @area lies in the strip past the cut at @at that @sheet_index, 0 left of it and 1 right, shows too. */
static RwRect
beyond (RwRect area, double at, guint sheet_index)
{
  double low = sheet_index == 0 ? at + 1 : at - 4, high = sheet_index == 0 ? at + 4 : at - 1;
  double left = MAX (area.x, low), right = MIN (area.x + area.w, high);

  return (RwRect) { left, area.y, MAX (0, right - left), area.h };
}

/* @share: where a label is cut, in percent of its length. */
static void
test_labels_are_whole (gconstpointer share)
{
  Sheet sheet;
  RwRect chosen;
  double at;
  guint n_cut = 0;

  sheet_open (&sheet, "festival-60.rig");
  chosen = rw_scene_cable (sheet.scene, 20)->label;
  g_assert_cmpfloat (chosen.w, >, 0);
  at = chosen.x + chosen.w * GPOINTER_TO_INT (share) / 100;
  cairo_t *whole = whole_picture (&sheet), *lines = lines_picture (&sheet);
  cairo_t *tiles[] = { tile_picture (&sheet, sheet.all.x, at), tile_picture (&sheet, at, sheet.all.x + sheet.all.w) };
  for (guint i = 0; i < rw_scene_n_cables (sheet.scene); i++)
    {
      RwRect label = rw_scene_cable (sheet.scene, i)->label;
      gboolean left = alike (&sheet, whole, tiles[0], label), right = alike (&sheet, whole, tiles[1], label);

      g_assert_true (left || right);
      if (label.w <= 0 || label.x + 2 > at || label.x + label.w - 2 < at)
        continue;
      n_cut++;
      g_assert_true (left || alike (&sheet, lines, tiles[0], beyond (label, at, 0)));
      g_assert_true (right || alike (&sheet, lines, tiles[1], beyond (label, at, 1)));
    }
  g_assert_cmpuint (n_cut, >, 0);
  cairo_destroy (whole);
  cairo_destroy (lines);
  cairo_destroy (tiles[0]);
  cairo_destroy (tiles[1]);
  sheet_close (&sheet);
}

/* A device that stands past a cut is not there with the half of its ports that the strip shows. */
static void
test_no_device_is_half (void)
{
  Sheet sheet;
  const RwSceneDevice *device;
  double at;

  sheet_open (&sheet, "festival-60.rig");
  device = rw_scene_device (sheet.scene, 0);
  at = device->bounds.x - 1;
  cairo_t *lines = lines_picture (&sheet), *tile = tile_picture (&sheet, sheet.all.x, at);
  g_assert_true (alike (&sheet, lines, tile, beyond (device->bounds, at, 0)));
  cairo_destroy (tile);
  tile = tile_picture (&sheet, at, sheet.all.x + sheet.all.w);
  g_assert_false (alike (&sheet, lines, tile, beyond (device->bounds, at, 0)));
  cairo_destroy (tile);
  cairo_destroy (lines);
  sheet_close (&sheet);
}

/* Cuts as short of each other as asked, between devices wherever the drawing lets them, and beside the labels. */
static void
test_cuts_part_little (void)
{
  Sheet sheet;
  double cuts[4], most;

  sheet_open (&sheet, "festival-60.rig");
  most = sheet.all.w * 0.42;
  g_assert_cmpuint (rw_cut_places (sheet.scene, FALSE, sheet.all.x, sheet.all.w, 3, most, cuts), <, RW_CUT_DEVICE);
  g_assert_cmpfloat_with_epsilon (cuts[0], sheet.all.x, 1e-6);
  g_assert_cmpfloat_with_epsilon (cuts[3], sheet.all.x + sheet.all.w, 1e-6);
  for (guint c = 1; c < 4; c++)
    g_assert_cmpfloat (cuts[c] - cuts[c - 1], <=, most + 1e-6);
  for (guint i = 0; i < rw_scene_n_devices (sheet.scene); i++)
    for (guint c = 1; c < 3; c++)
      {
        RwRect b = rw_scene_device (sheet.scene, i)->bounds;

        g_assert_true (cuts[c] < b.x || cuts[c] > b.x + b.w);
      }
  sheet_close (&sheet);
}

/* A line along a cut, and a label across it, cost a little: the cut goes where neither is. */
static void
test_cuts_keep_off_lines_and_labels (void)
{
  Sheet sheet;
  double cuts[3];

  sheet_open (&sheet, "festival-60.rig");
  rw_cut_places (sheet.scene, FALSE, sheet.all.x, sheet.all.w, 2, sheet.all.w * 0.7, cuts);
  for (guint i = 0; i < rw_scene_n_cables (sheet.scene); i++)
    {
      const RwSceneCable *cable = rw_scene_cable (sheet.scene, i);

      g_assert_true (cable->label.w <= 0 || cuts[1] <= cable->label.x || cuts[1] >= cable->label.x + cable->label.w);
      for (guint k = 0; k + 1 < cable->n_points; k++)
        g_assert_true (fabs (cable->points[k].x - cable->points[k + 1].x) > 1e-6 || fabs (cable->points[k].x - cuts[1]) >= 1.5);
    }
  sheet_close (&sheet);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/paper/tile/label-cut-left-of-its-middle", GINT_TO_POINTER (40), test_labels_are_whole);
  g_test_add_data_func ("/paper/tile/label-cut-right-of-its-middle", GINT_TO_POINTER (60), test_labels_are_whole);
  g_test_add_func ("/paper/tile/no-device-is-half", test_no_device_is_half);
  g_test_add_func ("/paper/tile/cuts-part-little", test_cuts_part_little);
  g_test_add_func ("/paper/tile/cuts-keep-off-lines-and-labels", test_cuts_keep_off_lines_and_labels);
  return g_test_run ();
}
