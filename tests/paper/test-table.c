/* SPDX-License-Identifier: MIT */
#include <paper/rw-draw-text.h>
#include <paper/rw-table.h>
#include <string.h>

#include "paper-fixture.h"
#include "rig-builder.h"

static const RwColumn columns[] = {
  { "No.", RW_ALIGN_RIGHT, 9, 0 },
  { "Name", RW_ALIGN_LEFT, 15, 1 },
  { "Place", RW_ALIGN_MIDDLE, 12, 2 },
  { "Length, m", RW_ALIGN_RIGHT, 10, 0 },
  { "Notes", RW_ALIGN_LEFT, 20, 3 },
};
#define N G_N_ELEMENTS (columns)

static const char *const words[] = {
  "stage", "Monitor", "left", "Überwachungsraum", "F12", "12.5", "drum", "ραντάρ", "коммутатор", "舞台", "—",
  "Donaudampfschifffahrtsgesellschaftskapitänskajütenschlüssel", "a", "B/C", "(spare)",
};

/* @most words; now and then one without any place to break it. */
static char *
random_text (guint most)
{
  GString *text = g_string_new (NULL);
  guint n = g_test_rand_int_range (0, most + 1);

  for (guint i = 0; i < n; i++)
    {
      g_string_append (text, words[g_test_rand_int_range (0, G_N_ELEMENTS (words))]);
      g_string_append (text, g_test_rand_int_range (0, 8) == 0 ? "\n" : g_test_rand_int_range (0, 5) == 0 ? "" : " ");
    }
  return g_string_free (text, FALSE);
}

static RwTableLayout *
random_table (RwDrawContext *context, guint n_rows, guint most_words)
{
  RwTableLayout *table = rw_table_layout_new (context, RW_EM_LEAST, columns, N);

  for (guint r = 0; r < n_rows; r++)
    {
      char *cells[N];

      for (guint c = 0; c < N; c++)
        cells[c] = random_text (most_words);
      rw_table_layout_add (table, (const char *const *) cells, NULL);
      for (guint c = 0; c < N; c++)
        g_free (cells[c]);
    }
  return table;
}

static void
assert_texts_inside (const RwTableLayout *table, guint row, double width)
{
  double end = 0;

  for (guint c = 0; c < N; c++)
    {
      RwRect text = rw_table_layout_text_box (table, row, c);
      double x, w;

      rw_table_layout_column (table, c, &x, &w);
      g_assert_cmpfloat (x, >=, end - 1e-6);
      g_assert_cmpfloat (text.x, >=, 0);
      g_assert_cmpfloat (text.x + text.w, <=, w);
      g_assert_cmpfloat (text.y, >=, 0);
      g_assert_cmpfloat (text.y + text.h, <=, rw_table_layout_row_height (table, row) + 1e-6);
      end = x + w;
    }
  g_assert_cmpfloat (end, <=, width + 1e-6);
}

static void
test_texts_stay_in_their_cells (void)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();

  for (guint round = 0; round < 20; round++)
    {
      g_autoptr (RwTableLayout) table = random_table (context, 12, g_test_rand_int_range (1, 30));
      double width = g_test_rand_double_range (110, 400);

      rw_table_layout_fit (table, width, g_test_rand_double_range (60, 250));
      assert_texts_inside (table, G_MAXUINT, width);
      for (guint r = 0; r < rw_table_layout_n_rows (table); r++)
        assert_texts_inside (table, r, width);
    }
}

/* Every row on exactly one page, all pages within their height, none empty. */
static void
test_pages_hold_whole_rows (void)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();

  for (guint round = 0; round < 16; round++)
    {
      g_autoptr (RwTableLayout) table = random_table (context, 16, round % 4 == 0 ? 150 : 12);
      double height = g_test_rand_double_range (30, 120);
      guint first = 0;

      rw_table_layout_fit (table, g_test_rand_double_range (110, 400), height);
      while (first < rw_table_layout_n_rows (table))
        {
          guint n = rw_table_layout_take (table, first, height);

          g_assert_cmpuint (n, >, 0);
          g_assert_cmpfloat (rw_table_layout_height (table, first, n), <=, height + 1e-5);
          if (first + n < rw_table_layout_n_rows (table))
            g_assert_cmpfloat (rw_table_layout_height (table, first, n + 1), >, height);
          first += n;
        }
      g_assert_cmpuint (first, ==, 16);
    }
}

static void
test_short_texts_are_not_wrapped (void)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  g_autoptr (RwTableLayout) table = rw_table_layout_new (context, RW_EM_LEAST, columns, N);
  const char *cells[N] = { "1", "Front of house", "Stage left", "12.5", "ends at the back of the rack" };
  double line;

  rw_table_layout_add (table, cells, NULL);
  rw_table_layout_fit (table, 200, 200);
  line = rw_table_layout_text_box (table, 0, 0).h;
  for (guint c = 1; c < N; c++)
    g_assert_cmpfloat_with_epsilon (rw_table_layout_text_box (table, 0, c).h, line, 1e-6);
}

/* Nothing is wrapped as long as other columns have more than their texts need; where people write there is always room. */
static void
test_columns_give_room (void)
{
  const RwColumn roomy[] = {
    { "Name", RW_ALIGN_LEFT, 60, 2 }, { "Source", RW_ALIGN_LEFT, 22, 0 }, { "Notes", RW_ALIGN_LEFT, 20, 1 }, { "Remark", RW_ALIGN_LEFT, 40, 1 },
  };
  const char *cells[] = { "Hat", "Condenser microphone", "ends at the back of the rack", "" };
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  g_autoptr (RwTableLayout) table = rw_table_layout_new (context, RW_EM_LEAST, roomy, G_N_ELEMENTS (roomy));
  double x, width;

  rw_table_layout_add (table, cells, NULL);
  rw_table_layout_fit (table, 150, 200);
  for (guint c = 1; c < 3; c++)
    g_assert_cmpfloat_with_epsilon (rw_table_layout_text_box (table, 0, c).h, rw_table_layout_text_box (table, 0, 0).h, 1e-6);
  rw_table_layout_column (table, 3, &x, &width);
  g_assert_cmpfloat (width, >=, 40 - 1e-6);
  g_assert_cmpfloat (x + width, <=, 150 + 1e-6);
}

/* However long a name is, it takes four lines, and prose as many as its column allows; a head shows all that it says. */
static void
test_long_cells_end_in_time (void)
{
  const RwColumn narrow[] = {
    { "Name", RW_ALIGN_LEFT, 12, 1 },
    { "Why it matters", RW_ALIGN_LEFT, 20, 1, RW_TABLE_LINES_TEXT },
    { "Controller of the far side as seen by who stands on the near one", RW_ALIGN_LEFT, 9, 0 },
  };
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  g_autoptr (RwTableLayout) table = rw_table_layout_new (context, RW_EM_LEAST, narrow, G_N_ELEMENTS (narrow));
  g_autofree char *name = g_strnfill (3000, 'W');
  GString *prose = g_string_new (NULL);
  double line;

  for (guint i = 0; i < 500; i++)
    g_string_append (prose, "and so on ");
  rw_table_layout_add (table, (const char *[]) { "one", "one", "1" }, NULL);
  rw_table_layout_add (table, (const char *[]) { name, prose->str, "1" }, NULL);
  rw_table_layout_fit (table, 60, 200);
  line = rw_table_layout_text_box (table, 0, 0).h;
  g_assert_cmpfloat_with_epsilon (rw_table_layout_text_box (table, 1, 0).h, 4 * line, 0.1);
  g_assert_cmpfloat_with_epsilon (rw_table_layout_text_box (table, 1, 1).h, 12 * line, 0.1);
  g_assert_cmpfloat (rw_table_layout_text_box (table, G_MAXUINT, 2).h, >, 4.5 * line);
  g_string_free (prose, TRUE);
}

/* Where heads and words are too wide together, it is the heads that are broken. */
static void
test_words_stay_whole_before_heads (void)
{
  const RwColumn narrow[] = {
    { "Microphones", RW_ALIGN_RIGHT, 20, 0 },
    { "Phantom", RW_ALIGN_MIDDLE, 20, 0 },
    { "Goes to", RW_ALIGN_LEFT, 50, 3, RW_TABLE_LINES_TEXT },
  };
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  g_autoptr (RwTableLayout) table = rw_table_layout_new (context, RW_EM_LEAST, narrow, G_N_ELEMENTS (narrow));
  double word = rw_draw_text_width (context, "Broadcast", (RwTextStyle) { RW_EM_LEAST, FALSE }), x, width;

  rw_table_layout_add (table, (const char *[]) { "1", "on", "FOH desk · 11, strip 11; Broadcast desk · 11, strip 11" }, NULL);
  rw_table_layout_fit (table, 40, 200);
  rw_table_layout_column (table, 2, &x, &width);
  g_assert_cmpfloat (width, >, word + 2);
  rw_table_layout_column (table, 0, &x, &width);
  g_assert_cmpfloat (width, <, rw_draw_text_width (context, "Microphones", (RwTextStyle) { RW_EM_LEAST, TRUE }));
}

/* Where not all columns have room, those that yield go in their order, and their row says what they said. */
static void
test_columns_yield (void)
{
  const RwColumn yielding[] = {
    { "Name", RW_ALIGN_LEFT, 20, 0 },
    { "Stand", RW_ALIGN_LEFT, 20, 0, 0, 2 },
    { "Notes", RW_ALIGN_LEFT, 40, 1, RW_TABLE_LINES_TEXT, 1 },
  };
  const char *cells[] = { "Kick in", "a low boom", "keep the spare one warm until the break, please" };
  const double widths[] = { 120, 70, 30 };
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();

  for (guint yielded = 0; yielded < G_N_ELEMENTS (widths); yielded++)
    {
      g_autoptr (RwTableLayout) table = rw_table_layout_new (context, RW_EM_LEAST, yielding, G_N_ELEMENTS (yielding));

      rw_table_layout_add (table, cells, NULL);
      rw_table_layout_add (table, (const char *[]) { "Kick out", "", "—" }, NULL);
      rw_table_layout_fit (table, widths[yielded], 200);
      for (guint c = 0; c < G_N_ELEMENTS (yielding); c++)
        {
          double x, width;

          rw_table_layout_column (table, c, &x, &width);
          g_assert_cmpint (width > 0, ==, c < G_N_ELEMENTS (yielding) - yielded);
        }
      g_assert_cmpint (rw_table_layout_row_height (table, 0) > rw_table_layout_cells_height (table, 0) + RW_EM_LEAST, ==, yielded > 0);
      /* a row whose cells have nothing to say is no higher for it */
      g_assert_cmpfloat (rw_table_layout_row_height (table, 1), ==, rw_table_layout_cells_height (table, 1));
    }
}

/* What is kept of texts is bounded, and what comes back is the same. */
static void
test_kept_texts_are_bounded (void)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  const RwTextStyle style = { RW_EM_LEAST, FALSE };
  double before = rw_draw_text_width (context, "Monitor desk", style);

  for (guint i = 0; i < 40000; i++)
    {
      char text[16];

      g_snprintf (text, sizeof text, "n%u", i);
      rw_draw_text_width (context, text, style);
    }
  g_assert_cmpuint (rw_draw_text_n_kept (context), <=, 16384);
  g_assert_cmpfloat (rw_draw_text_width (context, "Monitor desk", style), ==, before);
}

static void
test_cut_text_fits (void)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  const char *text = "A name that is a good deal longer than its box";

  for (double width = 5; width < 120; width += 2.5)
    {
      const RwTextRun *run = rw_draw_text_run (context, text, (RwTextStyle) { RW_EM_NAME, TRUE }, width);
      double all = rw_draw_text_width (context, text, (RwTextStyle) { RW_EM_NAME, TRUE });

      run = rw_draw_text_run (context, text, (RwTextStyle) { RW_EM_NAME, TRUE }, width);
      g_assert_cmpfloat (run->width, <=, width + 0.01);
      g_assert_true (run->cut == (all > width));
    }
}

/* What is drawn of a device's name in a box of 20 mm where letters of 3.5 mm are too small to be read. */
static cairo_surface_t *
far_name (const char *name)
{
  g_autofree char *text = g_strdup_printf ("rack B name='%s' at=[10,10]", name);
  g_autoptr (RwRig) rig = rw_test_rig (text);
  RwScene *scene = fixture_scene (rig);
  RwDrawOptions options = { .px_per_mm = 0.8 };
  cairo_t *cr = fixture_picture (120, 60, 0.8);
  cairo_surface_t *surface = cairo_surface_reference (cairo_get_target (cr));

  rw_draw_device (cr, scene, 0, &options);
  cairo_destroy (cr);
  rw_scene_unref (scene);
  cairo_surface_flush (surface);
  return surface;
}

static gboolean
look_alike (const char *one, const char *other)
{
  cairo_surface_t *a = far_name (one), *b = far_name (other);
  gsize n = (gsize) cairo_image_surface_get_stride (a) * (gsize) cairo_image_surface_get_height (a);
  gboolean alike = memcmp (cairo_image_surface_get_data (a), cairo_image_surface_get_data (b), n) == 0;

  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
  return alike;
}

/* Far out, names in rows are told from each other by their numbers; other names keep their beginning. */
static void
test_far_names (void)
{
  g_assert_false (look_alike ("Amplifier on the left 1", "Amplifier on the left 2"));
  g_assert_true (look_alike ("Amplifier on the left side", "Amplifier on the left wing"));
  g_assert_false (look_alike ("Amplifier on the left side", "Loudspeaker on the left side"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/paper/table/texts-stay-in-their-cells", test_texts_stay_in_their_cells);
  g_test_add_func ("/paper/table/pages-hold-whole-rows", test_pages_hold_whole_rows);
  g_test_add_func ("/paper/table/short-texts-are-not-wrapped", test_short_texts_are_not_wrapped);
  g_test_add_func ("/paper/table/columns-give-room", test_columns_give_room);
  g_test_add_func ("/paper/table/long-cells-end-in-time", test_long_cells_end_in_time);
  g_test_add_func ("/paper/table/words-stay-whole-before-heads", test_words_stay_whole_before_heads);
  g_test_add_func ("/paper/table/columns-yield", test_columns_yield);
  g_test_add_func ("/paper/text/kept-texts-are-bounded", test_kept_texts_are_bounded);
  g_test_add_func ("/paper/text/cut-text-fits", test_cut_text_fits);
  g_test_add_func ("/paper/text/far-names", test_far_names);
  return g_test_run ();
}
