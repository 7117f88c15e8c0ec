/* SPDX-License-Identifier: MIT */
#include "rw-geometry.h"

#include <pango/pangocairo.h>

/* Text is measured this much larger than it stands on the sheet, so that hinting and rounding to pixels
 * do not show: a sheet is drawn at any zoom. */
#define SCALE 32.0
#define N_QUICK 0x250
#define LINE 1.2 /* em */

/* Advances of the plain Latin letters are kept: a rig of thousands of names is then measured without shaping. */
typedef struct
{
  PangoContext *context;
  PangoLayout *layout[2];
  float advance[2][N_QUICK]; /* em; < 0 = not asked yet */
} Ruler;

static void
ruler_free (gpointer data)
{
  Ruler *ruler = data;

  for (guint i = 0; i < 2; i++)
    g_object_unref (ruler->layout[i]);
  g_object_unref (ruler->context);
  g_free (ruler);
}

/* Font maps belong to the thread that uses them. */
static GPrivate ruler_key = G_PRIVATE_INIT (ruler_free);

static PangoLayout *
layout_new (PangoContext *context, gboolean bold)
{
  PangoLayout *layout = pango_layout_new (context);
  PangoFontDescription *font = pango_font_description_new ();

  pango_font_description_set_family_static (font, RW_TEXT_FAMILY);
  pango_font_description_set_weight (font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size (font, SCALE * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_font_description_free (font);
  return layout;
}

/* In em. */
static double
layout_measure (PangoLayout *layout, const char *text, gssize length)
{
  PangoRectangle box;

  pango_layout_set_text (layout, text, (int) length);
  pango_layout_get_extents (layout, NULL, &box);
  return box.width / (SCALE * PANGO_SCALE);
}

static Ruler *
ruler_new (void)
{
  Ruler *ruler = g_new0 (Ruler, 1);
  PangoFontMap *map = pango_cairo_font_map_new ();
  cairo_font_options_t *options = cairo_font_options_create ();

  ruler->context = pango_font_map_create_context (map);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (ruler->context, options);
  pango_cairo_context_set_resolution (ruler->context, 72.0);
  pango_context_set_round_glyph_positions (ruler->context, FALSE);
  cairo_font_options_destroy (options);
  g_object_unref (map);
  for (guint i = 0; i < 2; i++)
    {
      ruler->layout[i] = layout_new (ruler->context, i == 1);
      for (guint c = 0; c < N_QUICK; c++)
        ruler->advance[i][c] = -1.0f;
    }
  return ruler;
}

static Ruler *
ruler_get (void)
{
  Ruler *ruler = g_private_get (&ruler_key);

  if (ruler == NULL)
    {
      ruler = ruler_new ();
      g_private_set (&ruler_key, ruler);
    }
  return ruler;
}

static double
advance_of (Ruler *ruler, gunichar c, guint bold)
{
  if (ruler->advance[bold][c] < 0.0f)
    {
      char utf8[8] = { 0 };

      g_unichar_to_utf8 (c, utf8);
      ruler->advance[bold][c] = (float) layout_measure (ruler->layout[bold], utf8, -1);
    }
  return ruler->advance[bold][c];
}

/* Width in em. Letters beyond Latin may join or stack, so a text with one of these is shaped as a whole. */
static double
measure (const char *text, gsize length, guint bold)
{
  Ruler *ruler = ruler_get ();
  double sum = 0.0;

  for (const char *p = text; p < text + length; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (c >= 0x2010 && c <= 0x2026)
        c = c == 0x2026 ? 'W' : 'M'; /* dashes, quotes, “…”: at most about an em */
      if (c >= N_QUICK || c < ' ')
        return layout_measure (ruler->layout[bold], text, (gssize) length);
      sum += advance_of (ruler, c, bold);
    }
  return sum;
}

/**
 * rw_text_width: width of @text as one line, in mm, at the font size @em in mm. @text is UTF-8.
 * Plain Latin text is given as the sum of its letters, which kerning only makes narrower.
 */
double
rw_text_width (const char *text, double em, gboolean bold)
{
  g_return_val_if_fail (text != NULL, 0.0);

  return em * measure (text, strlen (text), bold ? 1 : 0);
}

/**
 * rw_text_height: height of the box of one line, in mm, whatever the font: the capitals stand in the middle of it, and
 * there is room for accents above and tails below. Faces differ in the height that they declare, not in what they need.
 */
double
rw_text_height (double em)
{
  return LINE * em;
}

/**
 * rw_text_shorten: @text cut so that with a “…” it is at most @width mm wide; the whole of it if it fits.
 * Free with g_free().
 */
char *
rw_text_shorten (const char *text, double em, gboolean bold, double width)
{
  const char *end;
  guint b = bold ? 1 : 0;

  g_return_val_if_fail (text != NULL, NULL);

  end = text + strlen (text);
  if (em * measure (text, end - text, b) <= width)
    return g_strdup (text);
  width -= em * measure ("…", strlen ("…"), b);
  while (end > text && (em * measure (text, end - text, b) > width || g_ascii_isspace (*g_utf8_prev_char (end))))
    end = g_utf8_prev_char (end);
  return g_strdup_printf ("%.*s…", (int) (end - text), text);
}
