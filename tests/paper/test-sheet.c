/* SPDX-License-Identifier: MIT */
#include <paper/rw-plan-parts.h>

#include "paper-fixture.h"

typedef struct { const char *name; double width, height; } Size;

/* ISO 216; ASME Y14.1 in inches of 25.4 mm; legal and tabloid by common practice. */
static const Size sizes[] = {
  { "a0", 841, 1189 }, { "a1", 594, 841 }, { "a2", 420, 594 }, { "a3", 297, 420 }, { "a4", 210, 297 }, { "a5", 148, 210 },
  { "letter", 215.9, 279.4 }, { "legal", 215.9, 355.6 }, { "tabloid", 279.4, 431.8 },
  { "ansi-c", 431.8, 558.8 }, { "ansi-d", 558.8, 863.6 }, { "ansi-e", 863.6, 1117.6 },
};

static void
test_papers (void)
{
  g_assert_cmpuint (rw_n_papers (), ==, G_N_ELEMENTS (sizes));
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      const RwPaper *paper = rw_paper_find (sizes[i].name);

      g_assert_nonnull (paper);
      g_assert_cmpfloat_with_epsilon (paper->width_mm, sizes[i].width, 1e-6);
      g_assert_cmpfloat_with_epsilon (paper->height_mm, sizes[i].height, 1e-6);
    }
  g_assert_true (rw_paper_find ("A3") == rw_paper_find ("a3"));
  g_assert_null (rw_paper_find ("a6"));
  g_assert_null (rw_paper_find (""));
}

/* ISO 5457: 20 mm to the left, 10 mm elsewhere; A3 leaves 390 × 277 mm; fields of A0 24 × 16, A1 16 × 12, A2 12 × 8,
 * A3 8 × 6, A4 6 × 4. */
static void
test_frame (void)
{
  static const struct { double length; guint fields; } sides[] = {
    { 1189, 24 }, { 841, 16 }, { 594, 12 }, { 420, 8 }, { 297, 6 }, { 210, 4 },
  };
  RwRect frame = rw_sheet_frame (420, 297);

  g_assert_cmpfloat (frame.x, ==, 20);
  g_assert_cmpfloat (frame.y, ==, 10);
  g_assert_cmpfloat (frame.w, ==, 390);
  g_assert_cmpfloat (frame.h, ==, 277);
  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    g_assert_cmpuint (rw_sheet_n_fields (sides[i].length), ==, sides[i].fields);
}

static void
assert_within (RwRect inner, RwRect outer)
{
  g_assert_cmpfloat (inner.x, >=, outer.x - 1e-6);
  g_assert_cmpfloat (inner.y, >=, outer.y - 1e-6);
  g_assert_cmpfloat (inner.x + inner.w, <=, outer.x + outer.w + 1e-6);
  g_assert_cmpfloat (inner.y + inner.h, <=, outer.y + outer.h + 1e-6);
}

static gboolean
overlap (RwRect a, RwRect b)
{
  return a.x < b.x + b.w - 1e-6 && b.x < a.x + a.w - 1e-6 && a.y < b.y + b.h - 1e-6 && b.y < a.y + a.h - 1e-6;
}

/* On every paper, both ways up: drawing, legend and title block lie in the frame, apart from each other. */
static void
test_arrangement (gconstpointer data)
{
  g_autoptr (RwRig) rig = fixture_rig (data);
  g_autoptr (RwScene) scene = fixture_scene (rig);
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  RwLegend *legend = rw_legend_new (context, scene, NULL, NULL, TRUE);
  RwSheetOptions options;

  rw_sheet_options_init (&options);
  for (guint i = 0; i < 2 * rw_n_papers (); i++)
    {
      const RwPaper *paper = rw_paper (i / 2);
      double width = i % 2 == 0 ? paper->width_mm : paper->height_mm, height = i % 2 == 0 ? paper->height_mm : paper->width_mm;
      RwPlanDrawing d;
      RwRect bounds = rw_scene_bounds (scene), drawn;

      rw_plan_drawing_arrange (&d, context, scene, legend, &options, width, height);
      drawn = (RwRect) { d.x + bounds.x * d.scale, d.y + bounds.y * d.scale, bounds.w * d.scale, bounds.h * d.scale };
      g_assert_cmpfloat (d.scale, >, 0);
      g_assert_cmpfloat (d.scale, <=, 2);
      assert_within (d.area, d.frame);
      assert_within (d.block, d.frame);
      assert_within (d.legend, d.frame);
      assert_within (drawn, d.area);
      g_assert_cmpfloat (rw_legend_height (legend, d.legend.w), <=, d.legend.h);
      g_assert_false (overlap (d.area, d.block) || overlap (d.area, d.legend) || overlap (d.legend, d.block));
    }
  rw_legend_free (legend);
}

/* Every row of both lists on one page, in order; parts begin on the pages that the outline says. */
static void
test_pages (gconstpointer data)
{
  g_autoptr (RwRig) rig = fixture_rig (data);

  for (guint i = 0; i < 2 * rw_n_papers (); i++)
    {
      RwSheetOptions options;
      g_autoptr (RwPlan) plan = NULL;

      rw_sheet_options_init (&options);
      options.paper = rw_paper (i / 2);
      options.portrait = i % 2 == 0;
      plan = rw_plan_new (rig, &options);
      g_assert_true (rw_plan_fits (plan));
      g_assert_cmpuint (rw_plan_n_pages (plan), >=, 2);
      g_assert_cmpuint (rw_plan_n_parts (plan), ==, 3);
      for (guint p = 1; p < rw_plan_n_parts (plan); p++)
        g_assert_cmpuint (rw_plan_part (plan, p).page, >=, rw_plan_part (plan, p - 1).page);
      g_assert_cmpuint (rw_plan_part (plan, 1).page, ==, 1);
      g_assert_cmpuint (rw_plan_part (plan, 2).page, <, rw_plan_n_pages (plan));
    }
}

static void
test_scale_that_does_not_fit (void)
{
  g_autoptr (RwRig) rig = fixture_rig ("festival-60.rig");
  g_autofree char *path = fixture_path ("too-large.pdf");
  g_autoptr (GError) error = NULL;
  RwSheetOptions options;

  rw_sheet_options_init (&options);
  options.scale = 1;
  g_assert_false (rw_export_plan (rig, path, &options, 100, &error));
  g_assert_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE);
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  options.paper = rw_paper_find ("a0");
  g_clear_error (&error);
  g_assert_true (rw_export_plan (rig, path, &options, 100, &error));
  g_assert_no_error (error);
  fixture_clear ();
}

static void
assert_refused (double dpi, const char *paper, const char *name, RwPaperError code)
{
  g_autoptr (RwRig) rig = fixture_rig ("small-chain.rig");
  g_autofree char *path = fixture_path (name);
  g_autoptr (GError) error = NULL;
  RwSheetOptions options;

  rw_sheet_options_init (&options);
  options.paper = rw_paper_find (paper);
  g_assert_false (rw_export_plan (rig, path, &options, dpi, &error));
  g_assert_error (error, RW_PAPER_ERROR, (int) code);
  g_assert_true (g_str_has_prefix (error->message, path));
  g_assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  fixture_clear ();
}

static void
test_refusals (void)
{
  assert_refused (35, "a4", "a.png", RW_PAPER_ERROR_SIZE);
  assert_refused (1201, "a4", "a.png", RW_PAPER_ERROR_SIZE);
  assert_refused (0.0 / 0.0, "a4", "a.png", RW_PAPER_ERROR_SIZE);
  assert_refused (1200, "a0", "a.png", RW_PAPER_ERROR_SIZE); /* a side of 56,173 pixels; cairo holds 32,767 */
  assert_refused (100, "a4", "a.jpg", RW_PAPER_ERROR_KIND);
  assert_refused (100, "a4", "pdf", RW_PAPER_ERROR_KIND);
}

int
main (int argc, char *argv[])
{
  static const char *const rigs[] = { "small-chain.rig", "festival-60.rig", "trip-loop.rig" };
  int status;

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/paper/sheet/papers", test_papers);
  g_test_add_func ("/paper/sheet/frame", test_frame);
  for (guint i = 0; i < G_N_ELEMENTS (rigs); i++)
    {
      g_autofree char *arrangement = g_strconcat ("/paper/sheet/arrangement/", rigs[i], NULL);
      g_autofree char *pages = g_strconcat ("/paper/sheet/pages/", rigs[i], NULL);

      g_test_add_data_func (arrangement, rigs[i], test_arrangement);
      g_test_add_data_func (pages, rigs[i], test_pages);
    }
  g_test_add_func ("/paper/export/scale-that-does-not-fit", test_scale_that_does_not_fit);
  g_test_add_func ("/paper/export/refusals", test_refusals);
  status = g_test_run ();
  fixture_clear ();
  return status;
}
