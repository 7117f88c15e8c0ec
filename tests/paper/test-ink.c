/* SPDX-License-Identifier: MIT */
/* Contrast after WCAG 2.2: relative luminance and contrast ratio by their definitions, text at least 4.5:1 (success
 * criterion 1.4.3), what is not text at least 3:1 (1.4.11). */
#include <math.h>
#include <paper/rw-draw.h>

typedef struct { RwInkRole ink, ground; double least; const char *name; } Pair;

static const Pair pairs[] = {
  { RW_INK_TEXT, RW_INK_SHEET, 4.5, "text" },
  { RW_INK_TEXT, RW_INK_BOX, 4.5, "text in a box" },
  { RW_INK_FAINT, RW_INK_SHEET, 4.5, "second-rank text" },
  { RW_INK_FAINT, RW_INK_BOX, 4.5, "part name" },
  { RW_INK_SHEET, RW_INK_TEXT, 4.5, "ID in its tab" },
  { RW_INK_ON_FAULT, RW_INK_FAULT, 4.5, "number of an error" },
  { RW_INK_ON_WARNING, RW_INK_WARNING, 4.5, "number of a warning" },
  { RW_INK_ON_NOTE, RW_INK_NOTE, 4.5, "number of a note" },
  { RW_INK_BOX_LINE, RW_INK_SHEET, 3, "outline" },
  { RW_INK_BOX_LINE, RW_INK_BOX, 3, "outline, inside" },
  { RW_INK_CHAIN, RW_INK_SHEET, 3, "chain" },
  { RW_INK_PRIMARY, RW_INK_SHEET, 3, "primary" },
  { RW_INK_PLAIN, RW_INK_SHEET, 3, "plain" },
  { RW_INK_FAULT, RW_INK_SHEET, 3, "fault" },
  { RW_INK_SELECTED, RW_INK_SHEET, 3, "selected" },
  { RW_INK_NETWORK, RW_INK_SHEET, 3, "further network" },
  { RW_INK_NETWORK + 1, RW_INK_SHEET, 3, "further network" },
  { RW_INK_NETWORK + 2, RW_INK_SHEET, 3, "further network" },
  { RW_INK_NETWORK + 3, RW_INK_SHEET, 3, "further network" },
};

static double
linear (double c)
{
  return c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4);
}

static double
luminance (RwInk ink)
{
  return 0.2126 * linear (ink.r) + 0.7152 * linear (ink.g) + 0.0722 * linear (ink.b);
}

static double
ratio (RwInk a, RwInk b)
{
  double one = luminance (a), two = luminance (b);

  return (MAX (one, two) + 0.05) / (MIN (one, two) + 0.05);
}

/* The figures that are printed with the palette. */
static void
test_formula (void)
{
  const RwInk black = { 0, 0, 0 }, white = { 1, 1, 1 }, green = { 0, 158 / 255.0, 115 / 255.0 }, orange = { 230 / 255.0, 159 / 255.0, 0 };

  g_assert_cmpfloat_with_epsilon (ratio (black, white), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (ratio (green, white), 3.42, 0.005);
  g_assert_cmpfloat_with_epsilon (ratio (orange, white), 2.25, 0.005);
}

static void
test_contrast (gconstpointer data)
{
  const RwDrawOptions *options = data;

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      double found = ratio (rw_ink (pairs[i].ink, options), rw_ink (pairs[i].ground, options));

      g_test_message ("%s: %.2f:1, least %.1f:1", pairs[i].name, found, pairs[i].least);
      g_assert_cmpfloat (found, >=, pairs[i].least);
    }
}

/* Texts stay legible on the most deeply tinted box. */
static void
test_depth (gconstpointer data)
{
  const RwDrawOptions *options = data;
  RwInk deepest = rw_draw_depth_ink (1, options);

  g_assert_cmpfloat (ratio (rw_ink (RW_INK_TEXT, options), deepest), >=, 4.5);
  g_assert_cmpfloat (ratio (rw_ink (RW_INK_FAINT, options), deepest), >=, 4.5);
  g_assert_cmpfloat (ratio (rw_draw_depth_ink (-1, options), rw_ink (RW_INK_BOX, options)), ==, 1);
}

/* A pale line shows by its casing: against the sheet one of the two must stand out, and they must stand out from
 * each other unless they are one. */
static void
test_casing (gconstpointer data)
{
  const RwDrawOptions *options = data;
  RwInk sheet = rw_ink (RW_INK_SHEET, options), line = rw_ink (RW_INK_SECONDARY, options), casing = rw_ink (RW_INK_CASING, options);

  g_assert_cmpfloat (MAX (ratio (line, sheet), ratio (casing, sheet)), >=, 3);
  if (!options->mono)
    g_assert_cmpfloat (ratio (line, casing), >=, 3);
}

static void
test_mono_has_no_hue (void)
{
  const RwDrawOptions options = { .mono = TRUE, .dark = TRUE };

  for (guint i = 0; i < RW_N_INK_ROLES; i++)
    {
      RwInk ink = rw_ink (i, &options);

      g_assert_true (ink.r == ink.g && ink.g == ink.b);
    }
}

int
main (int argc, char *argv[])
{
  static const RwDrawOptions light = { 0 }, dark = { .dark = TRUE }, mono = { .mono = TRUE };

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/paper/ink/formula", test_formula);
  g_test_add_data_func ("/paper/ink/contrast/light", &light, test_contrast);
  g_test_add_data_func ("/paper/ink/contrast/dark", &dark, test_contrast);
  g_test_add_data_func ("/paper/ink/contrast/mono", &mono, test_contrast);
  g_test_add_data_func ("/paper/ink/casing/light", &light, test_casing);
  g_test_add_data_func ("/paper/ink/casing/dark", &dark, test_casing);
  g_test_add_data_func ("/paper/ink/casing/mono", &mono, test_casing);
  g_test_add_data_func ("/paper/ink/depth/light", &light, test_depth);
  g_test_add_data_func ("/paper/ink/depth/dark", &dark, test_depth);
  g_test_add_data_func ("/paper/ink/depth/mono", &mono, test_depth);
  g_test_add_func ("/paper/ink/mono-has-no-hue", test_mono_has_no_hue);
  return g_test_run ();
}
