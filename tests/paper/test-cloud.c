/* SPDX-License-Identifier: MIT */
/* Revision clouds: their outlines against a count of squares, and what of a rig they go round. */
#include "rig-builder.h"

#include <math.h>
#include <paper/rw-cloud.h>
#include <rig/rw-edit.h>

#define STEP 2.5

/* Twice the area by Gauss's formula of the trapezoids; above 0 = clockwise on a sheet whose y runs down. */
static double
twice_area (const GArray *outline)
{
  const RwPoint *p = (const RwPoint *) outline->data;
  double area = 0;

  for (guint i = 0; i < outline->len; i++)
    area += p[i].x * p[(i + 1) % outline->len].y - p[(i + 1) % outline->len].x * p[i].y;
  return area;
}

static void
test_outline_of_one (void)
{
  const RwRect one = { 5, 10, 20, 10 };
  g_autoptr (GPtrArray) outlines = rw_cloud_outlines (&one, 1);
  const GArray *outline = outlines->pdata[0];

  g_assert_cmpuint (outlines->len, ==, 1);
  g_assert_cmpuint (outline->len, ==, 4);
  g_assert_cmpfloat (twice_area (outline), ==, 400);
}

/* Four bars round a hole. */
static void
test_outline_with_a_hole (void)
{
  const RwRect bars[] = { { 0, 0, 40, 5 }, { 0, 35, 40, 5 }, { 0, 0, 5, 40 }, { 35, 0, 5, 40 } };
  g_autoptr (GPtrArray) outlines = rw_cloud_outlines (bars, 4);

  g_assert_cmpuint (outlines->len, ==, 2);
  g_assert_cmpfloat (twice_area (outlines->pdata[0]), ==, 2 * 1600);
  g_assert_cmpfloat (twice_area (outlines->pdata[1]), ==, -2 * 900);
}

/* Random rectangles on the grid: all outlines together enclose as many squares as are covered, by counting them, and
 * touch no corner twice in a row. */
static void
test_outlines_enclose_what_is_covered (void)
{
  for (guint run = 0; run < 2000; run++)
    {
      guint n = (guint) g_test_rand_int_range (1, 12), n_squares = 0;
      gboolean covered[20][20] = { { FALSE } };
      RwRect rects[12];
      double area = 0;
      g_autoptr (GPtrArray) outlines = NULL;

      for (guint i = 0; i < n; i++)
        {
          int x = g_test_rand_int_range (0, 15), y = g_test_rand_int_range (0, 15);
          int w = g_test_rand_int_range (1, 6), h = g_test_rand_int_range (1, 6);

          rects[i] = (RwRect) { x * STEP, y * STEP, w * STEP, h * STEP };
          for (int r = y; r < y + h; r++)
            for (int c = x; c < x + w; c++)
              covered[r][c] = TRUE;
        }
      for (guint i = 0; i < 400; i++)
        n_squares += covered[i / 20][i % 20];
      outlines = rw_cloud_outlines (rects, n);
      for (guint i = 0; i < outlines->len; i++)
        {
          const GArray *outline = outlines->pdata[i];

          area += twice_area (outline) / 2;
          for (guint k = 0; k < outline->len; k++)
            {
              const RwPoint *a = &g_array_index (outline, RwPoint, k), *b = &g_array_index (outline, RwPoint, (k + 1) % outline->len);

              g_assert_true ((a->x == b->x) != (a->y == b->y));
            }
        }
      g_assert_cmpfloat_with_epsilon (area, n_squares * STEP * STEP, 1e-6);
    }
}

static const char rig_text[] = "rack left id=1 name='Stage left' at=[20,20]\n"
                               "rack right id=2 name='Stage right' at=[220,20]\n"
                               "rack far id=3 name='Far' at=[220,220]\n"
                               "left.s-right.p length_m=20 label=N-04\n"
                               "right.s-far.p length_m=20 label=N-05\n";

static RwClouds *
clouds_of (const RwRig *older, const RwRig *newer, RwScene **scene)
{
  g_autoptr (RwNet) net = rw_net_new (newer);
  g_autoptr (RwFindings) findings = rw_findings_new (newer, net);

  *scene = rw_scene_new (newer, net, findings);
  return rw_clouds_new (older, newer, *scene);
}

static gboolean
holds (const RwClouds *clouds, RwRect inner)
{
  for (guint i = 0; i < rw_clouds_n (clouds); i++)
    {
      guint n;
      const RwPoint *p = rw_clouds_outline (clouds, i, &n);
      double x0 = G_MAXDOUBLE, y0 = G_MAXDOUBLE, x1 = -G_MAXDOUBLE, y1 = -G_MAXDOUBLE;

      for (guint k = 0; k < n; k++)
        {
          x0 = MIN (x0, p[k].x);
          y0 = MIN (y0, p[k].y);
          x1 = MAX (x1, p[k].x);
          y1 = MAX (y1, p[k].y);
        }
      if (x0 <= inner.x && y0 <= inner.y && x1 >= inner.x + inner.w && y1 >= inner.y + inner.h)
        return TRUE;
    }
  return FALSE;
}

static void
finish (RwRig *rig, RwEdit *edit)
{
  g_autoptr (RwChange) change = rw_edit_finish (edit);

  g_assert_true (rw_rig_apply (rig, change, NULL));
}

static void
test_nothing_changed (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (rig_text);
  g_autoptr (RwRig) same = rw_test_rig (rig_text);
  g_autoptr (RwScene) scene = NULL;
  g_autoptr (RwClouds) clouds = clouds_of (rig, same, &scene);

  g_assert_cmpuint (rw_clouds_n (clouds), ==, 0);
  g_assert_cmpuint (rw_clouds_n_ghosts (clouds), ==, 0);
}

static void
test_round_what_changed (void)
{
  g_autoptr (RwRig) older = rw_test_rig (rig_text);
  g_autoptr (RwRig) newer = rw_test_rig (rig_text);
  g_autoptr (RwScene) scene = NULL;
  g_autoptr (RwClouds) clouds = NULL;
  RwEdit *edit = rw_edit_new (newer, "");
  guint cable, left, far;
  RwPoint at;

  rw_edit_set (edit, "c1", RW_CABLE_LENGTH_M, g_variant_new_double (50), NULL);
  rw_edit_set (edit, "far", RW_DEVICE_NOTES, g_variant_new_string ("new"), NULL);
  finish (newer, edit);
  clouds = clouds_of (older, newer, &scene);
  cable = rw_net_find_cable (rw_scene_net (scene), "c1");
  left = rw_net_find_device (rw_scene_net (scene), "left");
  far = rw_net_find_device (rw_scene_net (scene), "far");
  g_assert_true (holds (clouds, rw_scene_cable (scene, cable)->bounds));
  g_assert_true (holds (clouds, rw_scene_device (scene, far)->bounds));
  g_assert_false (holds (clouds, rw_scene_device (scene, left)->bounds));
  g_assert_cmpuint (rw_clouds_n (clouds), ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (rw_clouds_triangle (clouds, i, &at));
      g_assert_true (isfinite (at.x) && isfinite (at.y));
    }
  g_assert_cmpstr (rw_clouds_letter (clouds), ==, "A");
}

static void
test_what_is_gone (void)
{
  g_autoptr (RwRig) older = rw_test_rig (rig_text);
  g_autoptr (RwRig) newer = rw_test_rig (rig_text);
  g_autoptr (RwScene) scene = NULL;
  g_autoptr (RwClouds) clouds = NULL;
  RwEdit *edit = rw_edit_new (newer, "");

  rw_edit_remove_device (edit, "far");
  finish (newer, edit);
  clouds = clouds_of (older, newer, &scene);
  g_assert_cmpuint (rw_clouds_n_ghosts (clouds), ==, 1);
  g_assert_cmpstr (rw_clouds_ghost (clouds, 0)->name, ==, "Far");
  g_assert_true (holds (clouds, rw_clouds_ghost (clouds, 0)->rect));
  /* and the port that its cable left free */
  g_assert_true (holds (clouds, rw_scene_port (scene, rw_net_find_port (rw_scene_net (scene), "right", "secondary"))->tab));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cloud/outline/one", test_outline_of_one);
  g_test_add_func ("/cloud/outline/hole", test_outline_with_a_hole);
  g_test_add_func ("/cloud/outline/random", test_outlines_enclose_what_is_covered);
  g_test_add_func ("/cloud/nothing", test_nothing_changed);
  g_test_add_func ("/cloud/changed", test_round_what_changed);
  g_test_add_func ("/cloud/gone", test_what_is_gone);
  return g_test_run ();
}
