/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-draw-text.h"

/* Texts kept in each of the two halves. A half that is full becomes the old one and the old one is dropped, so what is
 * used stays and what is not goes, at the cost of one more look-up. Two thousand devices show about this many. */
#define KEPT 8192

typedef struct
{
  RwTextRun run;
  char *text;
  int em;    /* 1/1000 mm */
  int width; /* 1/100 mm, -1 = any */
  gboolean bold, middle;
} Entry;

struct _RwDrawContext
{
  PangoContext *pango;
  PangoFontDescription *face;
  GHashTable *young;
  GHashTable *old;
};

static guint
entry_hash (gconstpointer data)
{
  const Entry *entry = data;

  return g_str_hash (entry->text) ^ (guint) (entry->em * 31 + entry->width * 131 + entry->bold * 2 + entry->middle);
}

static gboolean
entry_equal (gconstpointer one, gconstpointer other)
{
  const Entry *a = one, *b = other;

  return a->em == b->em && a->width == b->width && a->bold == b->bold && a->middle == b->middle
         && strcmp (a->text, b->text) == 0;
}

static void
entry_free (gpointer data)
{
  Entry *entry = data;

  g_object_unref (entry->run.layout);
  g_free (entry->text);
  g_free (entry);
}

static GHashTable *
half_new (void)
{
  return g_hash_table_new_full (entry_hash, entry_equal, NULL, entry_free);
}

/* Layouts are made once in millimetres and drawn at every magnification, so nothing may be rounded to a pixel. */
static PangoContext *
pango_new (void)
{
  PangoContext *pango = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (pango, options);
  pango_context_set_round_glyph_positions (pango, FALSE);
  cairo_font_options_destroy (options);
  return pango;
}

RwDrawContext *
rw_draw_context_new (void)
{
  RwDrawContext *context = g_new0 (RwDrawContext, 1);

  context->pango = pango_new ();
  context->face = pango_font_description_from_string (RW_TEXT_FAMILY);
  context->young = half_new ();
  context->old = half_new ();
  return context;
}

void
rw_draw_context_free (RwDrawContext *context)
{
  if (context == NULL)
    return;
  g_hash_table_unref (context->young);
  g_hash_table_unref (context->old);
  pango_font_description_free (context->face);
  g_object_unref (context->pango);
  g_free (context);
}

/* The number of texts that are kept; never above twice 8192. */
guint
rw_draw_text_n_kept (const RwDrawContext *context)
{
  return g_hash_table_size (context->young) + g_hash_table_size (context->old);
}

static PangoLayout *
layout_new (RwDrawContext *context, const char *text, RwTextStyle style)
{
  PangoLayout *layout = pango_layout_new (context->pango);
  g_autofree char *valid = g_utf8_make_valid (text, -1);

  pango_font_description_set_absolute_size (context->face, style.em * PANGO_SCALE);
  pango_font_description_set_weight (context->face, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description (layout, context->face);
  pango_layout_set_text (layout, valid, -1);
  return layout;
}

static Entry *
entry_new (RwDrawContext *context, const Entry *key, RwTextStyle style)
{
  Entry *entry = g_new0 (Entry, 1);
  PangoLayout *layout = layout_new (context, key->text, style);
  PangoRectangle logical;

  *entry = *key;
  entry->text = g_strdup (key->text);
  entry->run.layout = layout;
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  if (key->width >= 0)
    {
      pango_layout_set_ellipsize (layout, style.middle ? PANGO_ELLIPSIZE_MIDDLE : PANGO_ELLIPSIZE_END);
      pango_layout_set_width (layout, key->width * PANGO_SCALE / 100);
    }
  pango_layout_line_get_extents (pango_layout_get_line_readonly (layout, 0), NULL, &logical);
  entry->run.width = (double) logical.width / PANGO_SCALE;
  entry->run.cut = pango_layout_is_ellipsized (layout);
  return entry;
}

static void
keep (RwDrawContext *context, Entry *entry)
{
  if (g_hash_table_size (context->young) >= KEPT)
    {
      g_hash_table_unref (context->old);
      context->old = context->young;
      context->young = half_new ();
    }
  g_hash_table_add (context->young, entry);
}

/**
 * rw_draw_text_run: @text on one line, at most @max_width mm wide (0 = any width).
 */
const RwTextRun *
rw_draw_text_run (RwDrawContext *context, const char *text, RwTextStyle style, double max_width)
{
  Entry key = { .text = (char *) text, .em = (int) lrint (style.em * 1000), .bold = style.bold, .middle = style.middle,
                .width = max_width > 0 ? (int) floor (max_width * 100) : -1 };
  Entry *entry = g_hash_table_lookup (context->young, &key);

  if (entry != NULL)
    return &entry->run;
  entry = g_hash_table_lookup (context->old, &key);
  if (entry != NULL)
    g_hash_table_steal (context->old, entry);
  else
    entry = entry_new (context, &key, style);
  keep (context, entry);
  return &entry->run;
}

double
rw_draw_text_width (RwDrawContext *context, const char *text, RwTextStyle style)
{
  return rw_draw_text_run (context, text, style, 0)->width;
}

/**
 * rw_draw_text: the current source is the ink; @options must bring a context.
 */
double
rw_draw_text (cairo_t *cr, const RwDrawOptions *options, const char *text, RwTextStyle style,
              double x, double middle, double anchor, double max_width)
{
  const RwTextRun *run;

  g_return_val_if_fail (options->context != NULL, 0);

  if (text == NULL || *text == '\0')
    return 0;
  run = rw_draw_text_run (options->context, text, style, max_width);
  cairo_move_to (cr, x - anchor * run->width, middle + style.em * RW_CAPITAL / 2);
  pango_cairo_show_layout_line (cr, pango_layout_get_line_readonly (run->layout, 0));
  return run->width;
}

/* No hyphen is put where a long word has to be parted: in a name it would be read as the name's own, and it
 * would stand out of the column. */
static void
forbid_hyphens (PangoLayout *layout)
{
  PangoAttrList *attributes = pango_attr_list_new ();

  pango_attr_list_insert (attributes, pango_attr_insert_hyphens_new (FALSE));
  pango_layout_set_attributes (layout, attributes);
  pango_attr_list_unref (attributes);
}

PangoLayout *
rw_draw_paragraph (RwDrawContext *context, const char *text, RwTextStyle style, double width)
{
  PangoLayout *layout = layout_new (context, text, style);

  forbid_hyphens (layout);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_width (layout, (int) floor (width * PANGO_SCALE));
  return layout;
}

double
rw_draw_paragraph_height (PangoLayout *layout)
{
  PangoRectangle logical;

  pango_layout_get_extents (layout, NULL, &logical);
  return (double) logical.height / PANGO_SCALE;
}
