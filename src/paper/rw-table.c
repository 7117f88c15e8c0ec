/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "rw-draw-pen.h"
#include "rw-draw-text.h"
#include "rw-table-width.h"

#define PAD_X 1.6
#define PAD_Y 0.9
#define HEAD G_MAXUINT
#define SHORT_WORD 20.0 /* mm, with its padding */
#define LONG_WORD 34.0
#define LEAST_CELL 7.0  /* mm; a box to tick, with some room */
#define HEAD_SHARE 0.3  /* of a page's height, at most */
#define ROW_SHARE 0.6
#define CELLS_SHARE 0.6 /* of a row's height, where something stands beneath its cells */
#define NOTHING "—"     /* what a cell says that has nothing to say */
#define BETWEEN "\u2003" /* what is said of one such column and the next */
#define LEAST_LETTER 0.1 /* width of the narrowest letter, as a part of the font size */

typedef struct
{
  char **cells;
  char *link;
  PangoLayout **texts; /* one a column, once fitted; NULL = it yielded */
  PangoLayout *beneath; /* (nullable): what the columns say that yielded */
  double cells_height;  /* without that */
  double height;
} Row;

struct _RwTableLayout
{
  RwDrawContext *context;
  RwTextStyle head_style, body_style;
  GArray *columns;   /* of RwColumn */
  Row head;
  GPtrArray *rows;   /* of Row */
  gboolean *yielded; /* by column */
  double *widths;    /* of columns, mm */
  double *x;
  double width;
};

static void
row_drop_texts (Row *row, guint n)
{
  for (guint i = 0; row->texts != NULL && i < n; i++)
    g_clear_object (&row->texts[i]);
  g_clear_pointer (&row->texts, g_free);
  g_clear_object (&row->beneath);
}

static void
row_clear (RwTableLayout *table, Row *row)
{
  row_drop_texts (row, table->columns->len);
  g_strfreev (row->cells);
  g_free (row->link);
}

/**
 * rw_table_layout_new: a table without rows, set at the font size @em in mm. @context must outlive it.
 */
RwTableLayout *
rw_table_layout_new (RwDrawContext *context, double em, const RwColumn *columns, guint n_columns)
{
  RwTableLayout *table = g_new0 (RwTableLayout, 1);

  g_return_val_if_fail (context != NULL && n_columns > 0, NULL);

  table->context = context;
  table->body_style = (RwTextStyle) { em, FALSE };
  table->head_style = (RwTextStyle) { em, TRUE };
  table->columns = g_array_new (FALSE, FALSE, sizeof (RwColumn));
  g_array_append_vals (table->columns, columns, n_columns);
  table->rows = g_ptr_array_new_with_free_func (g_free);
  table->yielded = g_new0 (gboolean, n_columns);
  table->widths = g_new0 (double, n_columns);
  table->x = g_new0 (double, n_columns);
  table->head.cells = g_new0 (char *, n_columns + 1);
  for (guint i = 0; i < n_columns; i++)
    table->head.cells[i] = g_strdup (columns[i].head);
  return table;
}

void
rw_table_layout_free (RwTableLayout *table)
{
  if (table == NULL)
    return;
  row_clear (table, &table->head);
  for (guint i = 0; i < table->rows->len; i++)
    row_clear (table, table->rows->pdata[i]);
  g_ptr_array_unref (table->rows);
  g_array_unref (table->columns);
  g_free (table->yielded);
  g_free (table->widths);
  g_free (table->x);
  g_free (table);
}

/**
 * rw_table_layout_add: adds a row of one cell a column; NULL stands for an empty one. @link: (nullable): name of a
 * place in the document to which the row leads.
 */
void
rw_table_layout_add (RwTableLayout *table, const char *const *cells, const char *link)
{
  Row *row = g_new0 (Row, 1);
  guint n = table->columns->len;

  row->cells = g_new0 (char *, n + 1);
  for (guint i = 0; i < n; i++)
    row->cells[i] = g_strdup (cells[i] != NULL ? cells[i] : "");
  row->link = g_strdup (link);
  g_ptr_array_add (table->rows, row);
}

guint
rw_table_layout_n_rows (const RwTableLayout *table)
{
  return table->rows->len;
}

static const RwColumn *
column_at (const RwTableLayout *table, guint i)
{
  return &g_array_index (table->columns, RwColumn, i);
}

/* Width of a cell if nothing is wrapped; of a column without any text, in which people write, what it is meant to have. */
static double
natural (RwTableLayout *table, guint column)
{
  double width = rw_draw_text_width (table->context, table->head.cells[column], table->head_style);
  gboolean empty = TRUE;

  for (guint i = 0; i < table->rows->len; i++)
    {
      const Row *row = table->rows->pdata[i];

      width = MAX (width, rw_draw_text_width (table->context, row->cells[column], table->body_style));
      empty = empty && *row->cells[column] == '\0';
    }
  /* a little more, so that rounding never wraps what fits */
  width += 2 * PAD_X + 0.1;
  return empty ? MAX (width, column_at (table, column)->least) : width;
}

static double
longest_word (RwTableLayout *table, const char *text, RwTextStyle style)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \n", -1);
  double width = 0;

  for (guint i = 0; words[i] != NULL; i++)
    width = MAX (width, rw_draw_text_width (table->context, words[i], style));
  return width + 2 * PAD_X + 0.1;
}

/* Words whole, but for those wider than @most: they may be parted. */
static double
shortest (RwTableLayout *table, guint column, double most)
{
  double width = MIN (LEAST_CELL, MAX (column_at (table, column)->least, 1));

  for (guint i = 0; i < table->rows->len; i++)
    {
      const Row *row = table->rows->pdata[i];

      width = MAX (width, MIN (longest_word (table, row->cells[column], table->body_style), most));
    }
  return width;
}

static void
fit_columns (RwTableLayout *table)
{
  guint n = table->columns->len;
  g_autofree double *numbers = g_new0 (double, 5 * n);
  RwTableWidths widths = { (const RwColumn *) table->columns->data, n, table->width, numbers, numbers + n, numbers + 2 * n,
                           numbers + 3 * n, numbers + 4 * n, table->yielded, table->widths };
  double x = 0;

  for (guint i = 0; i < n; i++)
    {
      widths.natural[i] = natural (table, i);
      widths.words[i] = shortest (table, i, SHORT_WORD);
      widths.heads[i] = MAX (widths.words[i], longest_word (table, table->head.cells[i], table->head_style));
      widths.whole[i] = MAX (widths.heads[i], shortest (table, i, LONG_WORD));
      widths.least[i] = MAX (column_at (table, i)->least, widths.whole[i]);
    }
  rw_table_share_width (&widths);
  for (guint i = 0; i < n; i++)
    {
      table->x[i] = x;
      x += table->widths[i];
    }
}

/* Where the first line begins that ends below @room. */
static int
first_line_beyond (PangoLayout *text, double room)
{
  PangoLayoutIter *iter = pango_layout_get_iter (text);
  int index = 0;

  do
    {
      PangoRectangle logical;

      pango_layout_iter_get_line_extents (iter, NULL, &logical);
      index = pango_layout_iter_get_index (iter);
      if (logical.y + logical.height > room * PANGO_SCALE)
        break;
    }
  while (pango_layout_iter_next_line (iter));
  pango_layout_iter_free (iter);
  return index;
}

/* Pango's own ellipsis keeps a line of every paragraph, however many there are. */
static void
cut_text (PangoLayout *text, double room)
{
  g_autofree char *whole = g_strdup (pango_layout_get_text (text));
  const char *end = whole + first_line_beyond (text, room);

  do
    {
      g_autofree char *cut = NULL;

      end = end > whole ? g_utf8_prev_char (end) : whole;
      cut = g_strdup_printf ("%.*s…", (int) (end - whole), whole);
      pango_layout_set_text (text, cut, -1);
    }
  while (end > whole && rw_draw_paragraph_height (text) > room);
}

static void
fit_text (PangoLayout *text, RwAlign align, double room)
{
  static const PangoAlignment alignments[] = {
    [RW_ALIGN_LEFT] = PANGO_ALIGN_LEFT, [RW_ALIGN_RIGHT] = PANGO_ALIGN_RIGHT, [RW_ALIGN_MIDDLE] = PANGO_ALIGN_CENTER,
  };

  pango_layout_set_alignment (text, alignments[align]);
  if (rw_draw_paragraph_height (text) > room)
    cut_text (text, room);
}

/* What stands on one line at the left looks the same in any column that holds it, so that all such cells, and the
 * measuring before, share one layout, which nobody may alter. (nullable) (transfer full) */
static PangoLayout *
share_text (RwTableLayout *table, const char *cell, RwTextStyle style, RwAlign align, double width, double room)
{
  const RwTextRun *run;

  if (align != RW_ALIGN_LEFT || strpbrk (cell, "\n\r") != NULL || strstr (cell, "\u2029") != NULL)
    return NULL;
  run = rw_draw_text_run (table->context, cell, style, 0);
  if (run->width > width - 0.01 || pango_layout_get_direction (run->layout, 0) == PANGO_DIRECTION_RTL
      || rw_draw_paragraph_height (run->layout) > room)
    return NULL;
  return g_object_ref (run->layout);
}

/* As much of @cell as can stand on the lines that it may have: what is much longer costs much to lay out. */
static char *
cut_cell (const char *cell, double em, double width, double room)
{
  glong most = (glong) MIN (1e6, (room / em + 1) * (width / (LEAST_LETTER * em) + 1));

  if (strlen (cell) <= (gsize) most || g_utf8_strlen (cell, -1) <= most)
    return NULL;
  return g_strndup (cell, g_utf8_offset_to_pointer (cell, most) - cell);
}

static PangoLayout *
cell_text (RwTableLayout *table, const Row *row, guint i, RwTextStyle style, double room)
{
  double width = MAX (table->widths[i] - 2 * PAD_X, 0.1);
  RwAlign align = column_at (table, i)->align;
  PangoLayout *text = share_text (table, row->cells[i], style, align, width, room);
  g_autofree char *cut = NULL;

  if (text != NULL)
    return text;
  cut = cut_cell (row->cells[i], style.em, width, room);
  text = rw_draw_paragraph (table->context, cut != NULL ? cut : row->cells[i], style, width);
  fit_text (text, align, room);
  return text;
}

/* "Source: Line  Stand: low boom": what the cells of the row say whose columns yielded; their heads bold by @bold.
 * (nullable) (transfer full) */
static char *
yielded_text (const RwTableLayout *table, const Row *row, PangoAttrList *bold)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < table->columns->len; i++)
    {
      g_autofree char *said = NULL;
      PangoAttribute *weight;

      if (!table->yielded[i] || *row->cells[i] == '\0' || strcmp (row->cells[i], NOTHING) == 0)
        continue;
      g_string_append (text, text->len > 0 ? BETWEEN : "");
      /* Translators: the head of a column, what stands in a cell of it. */
      said = g_strdup_printf (_("%s: %s"), table->head.cells[i], row->cells[i]);
      weight = pango_attr_weight_new (PANGO_WEIGHT_BOLD);
      weight->start_index = (guint) text->len;
      weight->end_index = (guint) (text->len + strlen (table->head.cells[i]));
      pango_attr_list_insert (bold, weight);
      g_string_append (text, said);
    }
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

static PangoLayout *
fit_beneath (RwTableLayout *table, const char *said, PangoAttrList *bold, double room)
{
  double width = MAX (table->width - 2 * PAD_X, 0.1);
  g_autofree char *cut = cut_cell (said, table->body_style.em, width, room);
  PangoLayout *text = rw_draw_paragraph (table->context, cut != NULL ? cut : said, table->body_style, width);

  pango_layout_set_attributes (text, bold);
  fit_text (text, RW_ALIGN_LEFT, room);
  return text;
}

static void
fit_row (RwTableLayout *table, Row *row, RwTextStyle style, double height)
{
  const RwTextRun *run = rw_draw_text_run (table->context, "x", style, 0);
  double line = rw_draw_paragraph_height (run->layout) * 1.01; /* so that rounding takes none away */
  gboolean head = row == &table->head;
  g_autoptr (PangoAttrList) bold = pango_attr_list_new ();
  g_autofree char *said = head ? NULL : yielded_text (table, row, bold);
  double room = (said != NULL ? CELLS_SHARE : 1) * height - 2 * PAD_Y, tallest = 0;
  guint n = table->columns->len;

  row_drop_texts (row, n);
  row->texts = g_new0 (PangoLayout *, n);
  for (guint i = 0; i < n; i++)
    {
      guint asked = column_at (table, i)->lines, lines = head ? RW_TABLE_LINES_TEXT : asked > 0 ? asked : RW_TABLE_LINES;

      if (table->yielded[i])
        continue;
      row->texts[i] = cell_text (table, row, i, style, MIN (lines * line, room));
      tallest = MAX (tallest, rw_draw_paragraph_height (row->texts[i]));
    }
  row->cells_height = tallest + 2 * PAD_Y;
  row->height = row->cells_height;
  if (said == NULL)
    return;
  row->beneath = fit_beneath (table, said, bold, MIN (RW_TABLE_LINES_TEXT * line, height - row->cells_height - PAD_Y));
  row->height += rw_draw_paragraph_height (row->beneath) + PAD_Y;
}

/**
 * rw_table_layout_fit: measures the table for pages that have @width by @page_height mm for it. No row is then higher
 * than a good half of @page_height, so that what leads to a table has room on the page of its first row.
 */
void
rw_table_layout_fit (RwTableLayout *table, double width, double page_height)
{
  g_return_if_fail (width > 0 && page_height > 0);

  table->width = width;
  fit_columns (table);
  fit_row (table, &table->head, table->head_style, page_height * HEAD_SHARE);
  for (guint i = 0; i < table->rows->len; i++)
    fit_row (table, table->rows->pdata[i], table->body_style, page_height * ROW_SHARE);
}

static const Row *
row_at (const RwTableLayout *table, guint index)
{
  return index == HEAD ? &table->head : table->rows->pdata[index];
}

double
rw_table_layout_row_height (const RwTableLayout *table, guint row)
{
  return row_at (table, row)->height;
}

/**
 * rw_table_layout_take: how many whole rows from @first on fit into @height mm under a head; may be 0.
 */
guint
rw_table_layout_take (const RwTableLayout *table, guint first, double height)
{
  double used = table->head.height;
  guint n = 0;

  while (first + n < table->rows->len)
    {
      used += row_at (table, first + n)->height;
      if (used > height + 1e-6)
        break;
      n++;
    }
  return n;
}

/* Of its cells alone, without what stands beneath them. */
double
rw_table_layout_cells_height (const RwTableLayout *table, guint row)
{
  return row_at (table, row)->cells_height;
}

/**
 * rw_table_layout_height: of @n rows from @first on, with their head, in mm.
 */
double
rw_table_layout_height (const RwTableLayout *table, guint first, guint n)
{
  double height = table->head.height;

  for (guint i = 0; i < n; i++)
    height += row_at (table, first + i)->height;
  return height;
}

void
rw_table_layout_column (const RwTableLayout *table, guint column, double *x, double *width)
{
  *x = table->x[column];
  *width = table->widths[column];
}

/**
 * rw_table_layout_text_box: what the letters of a cell cover, from the cell's top left corner, mm.
 */
RwRect
rw_table_layout_text_box (const RwTableLayout *table, guint row, guint column)
{
  PangoRectangle ink, logical;

  if (table->yielded[column])
    return (RwRect) { 0 };
  pango_layout_get_extents (row_at (table, row)->texts[column], &ink, &logical);
  return (RwRect) {
    PAD_X + (double) ink.x / PANGO_SCALE, PAD_Y + (double) logical.y / PANGO_SCALE,
    (double) ink.width / PANGO_SCALE, (double) logical.height / PANGO_SCALE,
  };
}

static void
draw_rule (cairo_t *cr, const RwTableLayout *table, double x, double y, double pen, const RwDrawOptions *options)
{
  double right = x + table->width;

  rw_pen_snap (cr, options, pen, &x, &y);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, right, y);
  rw_pen_set (cr, options, pen);
  cairo_stroke (cr);
}

static void
draw_cells (cairo_t *cr, const RwTableLayout *table, const Row *row, double x, double y)
{
  for (guint i = 0; i < table->columns->len; i++)
    if (row->texts[i] != NULL)
      {
        cairo_move_to (cr, x + table->x[i] + PAD_X, y + PAD_Y);
        pango_cairo_show_layout (cr, row->texts[i]);
      }
  if (row->beneath == NULL)
    return;
  cairo_move_to (cr, x + PAD_X, y + row->cells_height);
  pango_cairo_show_layout (cr, row->beneath);
}

static void
draw_row (cairo_t *cr, const RwTableLayout *table, const Row *row, double x, double y, const RwDrawOptions *options)
{
  g_autofree char *attributes = NULL;

  if (row->link == NULL || options->unlinked)
    {
      draw_cells (cr, table, row, x, y);
      return;
    }
  attributes = g_strdup_printf ("dest='%s'", row->link);
  cairo_tag_begin (cr, CAIRO_TAG_LINK, attributes);
  draw_cells (cr, table, row, x, y);
  cairo_tag_end (cr, CAIRO_TAG_LINK);
}

/**
 * rw_table_layout_draw: @n rows from @first on under a head, its top left corner at (@x, @y).
 */
void
rw_table_layout_draw (const RwTableLayout *table, cairo_t *cr, double x, double y, guint first, guint n,
                      const RwDrawOptions *options)
{
  cairo_save (cr);
  cairo_new_path (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  draw_cells (cr, table, &table->head, x, y);
  y += table->head.height;
  draw_rule (cr, table, x, y, RW_PEN_THICK, options);
  for (guint i = 0; i < n; i++)
    {
      const Row *row = row_at (table, first + i);

      rw_ink_set (cr, RW_INK_TEXT, options);
      draw_row (cr, table, row, x, y, options);
      y += row->height;
      rw_ink_set (cr, RW_INK_RULE, options);
      draw_rule (cr, table, x, y, RW_PEN_HAIR, options);
    }
  cairo_restore (cr);
}
