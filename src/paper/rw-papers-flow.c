/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-papers-parts.h"

#define HEADING 8.0      /* height of a heading of one line */
#define HEADING_LINES 3  /* at most; a longer one is cut */
#define AFTER 5.0        /* below a block */
#define AFTER_TEXT 2.5
#define LEAST_COLUMN 70.0 /* of a page: where columns would be narrower, there is only one */
#define LEAST_ROOM 25.0  /* a table begins only where so much of it has room */
#define GUTTER 8.0       /* between two columns of a page */
#define PAD 2.0          /* inside the frame of a caution */
#define SIGN_HEIGHT 34.0
#define BIG_EM 11.0
#define TICK 3.0         /* side of a box to tick */

static void
block_free (gpointer data)
{
  RwBlock *block = data;

  g_free (block->text);
  rw_listing_free (block->listing);
  g_free (block->place);
  g_free (block->entry);
  g_free (block);
}

RwFlow *
rw_flow_new (RwPapersSection section)
{
  RwFlow *flow = g_new0 (RwFlow, 1);

  flow->section = section;
  flow->columns = 1;
  flow->blocks = g_ptr_array_new_with_free_func (block_free);
  return flow;
}

void
rw_flow_free (RwFlow *flow)
{
  if (flow == NULL)
    return;
  g_ptr_array_unref (flow->blocks);
  g_free (flow);
}

/* (transfer none): for a place, an entry or a group to be set. */
RwBlock *
rw_flow_add_text (RwFlow *flow, RwBlockKind kind, const char *text)
{
  RwBlock *block = g_new0 (RwBlock, 1);

  block->kind = kind;
  block->text = g_strdup (text);
  g_ptr_array_add (flow->blocks, block);
  return block;
}

/* @listing: (transfer full). */
RwBlock *
rw_flow_take_listing (RwFlow *flow, RwListing *listing)
{
  RwBlock *block = rw_flow_add_text (flow, RW_BLOCK_TABLE, NULL);

  block->listing = listing;
  return block;
}

static PangoLayout *
paragraph_new (const RwBlock *block, RwDrawContext *context, double em, double width)
{
  switch (block->kind)
    {
    case RW_BLOCK_BIG:
      return rw_draw_paragraph (context, block->text, (RwTextStyle) { BIG_EM, TRUE }, width);
    case RW_BLOCK_HEADING:
      return rw_draw_paragraph (context, block->text, (RwTextStyle) { RW_EM_HEAD, TRUE }, width);
    case RW_BLOCK_CAUTION:
      return rw_draw_paragraph (context, block->text, (RwTextStyle) { em, FALSE }, width - 3 * PAD);
    case RW_BLOCK_TEXT:
    case RW_BLOCK_TABLE:
    case RW_BLOCK_SIGN:
    default:
      return rw_draw_paragraph (context, block->text, (RwTextStyle) { em, FALSE }, width);
    }
}

static double
text_height (const RwBlock *block, RwDrawContext *context, double em, double width)
{
  PangoLayout *text;
  double height;

  if (block->kind == RW_BLOCK_SIGN)
    return SIGN_HEIGHT;
  text = paragraph_new (block, context, em, width);
  height = rw_draw_paragraph_height (text);
  g_object_unref (text);
  return block->kind == RW_BLOCK_CAUTION ? height + 2 * PAD : height;
}

/* (transfer full). */
static PangoLayout *
heading_new (const RwListing *listing, RwDrawContext *context, double width, gboolean continued)
{
  /* Translators: the title of a list, on the sheets after its first one. */
  g_autofree char *title = continued ? g_strdup_printf (_("%s, continued"), listing->title) : g_strdup (listing->title);
  PangoLayout *text = rw_draw_paragraph (context, title, (RwTextStyle) { RW_EM_NAME + 0.5, TRUE }, width);

  pango_layout_set_ellipsize (text, PANGO_ELLIPSIZE_END);
  pango_layout_set_height (text, -HEADING_LINES);
  return text;
}

static double
line_height (PangoLayout *text)
{
  return rw_draw_paragraph_height (text) / pango_layout_get_line_count (text);
}

static double
heading_height (const RwBlock *block, RwDrawContext *context, double width, gboolean continued)
{
  PangoLayout *text;
  double more;

  if (block->listing->title == NULL)
    return 0;
  text = heading_new (block->listing, context, width, continued);
  more = rw_draw_paragraph_height (text) - line_height (text);
  g_object_unref (text);
  return HEADING + more;
}

/**
 * rw_flow_table: the table of @block, measured for pages of @width × @page_height mm. (transfer full).
 */
RwTableLayout *
rw_flow_table (const RwBlock *block, RwDrawContext *context, double em, double width, double page_height)
{
  RwTableLayout *table = rw_listing_layout (block->listing, context, em);

  page_height -= MAX (HEADING, heading_height (block, context, width, TRUE));
  if (block->caution != NULL && rw_listing_warns (block->listing, 0, G_MAXUINT))
    page_height -= text_height (block->caution, context, em, width) + AFTER_TEXT;
  rw_table_layout_fit (table, width, page_height);
  return table;
}

/* Where the next thing goes. */
typedef struct
{
  const RwFlow *flow;
  RwDrawContext *context;
  RwRect body;
  double em;
  guint columns;     /* of a page */
  double width;      /* of one of them */
  guint page, column;
  double y;
  gboolean leading;  /* in this column there is nothing yet but what leads to what comes */
  GArray *pieces;
  guint open_block;
  RwTableLayout *open_table; /* (nullable): of that block */
} Pen;

static void
next_column (Pen *pen)
{
  pen->y = pen->body.y;
  pen->leading = TRUE;
  if (++pen->column < pen->columns)
    return;
  pen->column = 0;
  pen->page++;
}

static double
room (const Pen *pen)
{
  return pen->body.y + pen->body.h - pen->y;
}

static gboolean
at_top (const Pen *pen)
{
  return pen->y <= pen->body.y;
}

static void
put (Pen *pen, guint block, guint first, guint n, double height)
{
  RwPiece piece = { block, pen->page, pen->body.x + pen->column * (pen->width + GUTTER), pen->y, pen->width, first, n };

  g_array_append_val (pen->pieces, piece);
  pen->y += height;
}

/* Kept until another one is asked for. */
static RwTableLayout *
table_of (Pen *pen, guint index)
{
  if (pen->open_table != NULL && pen->open_block == index)
    return pen->open_table;
  rw_table_layout_free (pen->open_table);
  pen->open_block = index;
  pen->open_table = rw_flow_table (pen->flow->blocks->pdata[index], pen->context, pen->em, pen->width, pen->body.h);
  return pen->open_table;
}

/* Its caution, where that stands on this page not yet and one of the @n rows from @first on needs it; else the number of blocks. */
static guint
caution_due (const Pen *pen, const RwBlock *block, guint first, guint n)
{
  GPtrArray *blocks = pen->flow->blocks;
  guint caution;

  if (block->caution == NULL || !rw_listing_warns (block->listing, first, n) || !g_ptr_array_find (blocks, block->caution, &caution))
    return blocks->len;
  for (guint i = pen->pieces->len; i > 0 && g_array_index (pen->pieces, RwPiece, i - 1).page == pen->page; i--)
    if (g_array_index (pen->pieces, RwPiece, i - 1).block == caution)
      return blocks->len;
  return caution;
}

/* With what has to stand below it; 0 for none. */
static double
caution_height (const Pen *pen, guint caution)
{
  if (caution == pen->flow->blocks->len)
    return 0;
  return text_height (pen->flow->blocks->pdata[caution], pen->context, pen->em, pen->width) + AFTER_TEXT;
}

/* How many rows from @first on have room in @height, below the @caution that they need; that is the number of blocks if none. */
static guint
take_rows (Pen *pen, guint index, guint first, double height, guint *caution)
{
  const RwBlock *block = pen->flow->blocks->pdata[index];
  guint n = rw_table_layout_take (table_of (pen, index), first, height);

  *caution = caution_due (pen, block, first, n);
  if (*caution == pen->flow->blocks->len)
    return n;
  n = rw_table_layout_take (table_of (pen, index), first, height - caution_height (pen, *caution));
  *caution = caution_due (pen, block, first, n);
  return n;
}

static double
block_height (Pen *pen, guint index)
{
  const RwBlock *block = pen->flow->blocks->pdata[index];
  RwTableLayout *table;

  if (block->on_need)
    return 0;
  if (block->kind != RW_BLOCK_TABLE)
    return text_height (block, pen->context, pen->em, pen->width) + AFTER_TEXT;
  table = table_of (pen, index);
  return caution_height (pen, caution_due (pen, block, 0, G_MAXUINT)) + heading_height (block, pen->context, pen->width, FALSE)
         + rw_table_layout_height (table, 0, rw_table_layout_n_rows (table)) + AFTER;
}

/* What hangs together goes to the next column where it has room there and not here. */
static void
keep_group (Pen *pen, guint first)
{
  const GPtrArray *blocks = pen->flow->blocks;
  double height = 0;

  if (at_top (pen))
    return;
  for (guint i = first; i < blocks->len; i++)
    {
      const RwBlock *block = blocks->pdata[i];

      if (i > first && block->starts_group)
        break;
      height += block_height (pen, i);
      if (height > pen->body.h)
        return;
    }
  if (height - AFTER > room (pen))
    next_column (pen);
}

static gboolean
leads (const RwBlock *block)
{
  return block->kind == RW_BLOCK_HEADING || block->kind == RW_BLOCK_CAUTION;
}

/* Whether a table has room to begin in @height: not with one row of many, if that can be helped. */
static gboolean
can_begin (Pen *pen, guint index, double height)
{
  const RwBlock *block = pen->flow->blocks->pdata[index];
  guint n_rows = block->listing->rows->len, n, caution;

  if (n_rows == 0)
    return height >= LEAST_ROOM;
  n = take_rows (pen, index, 0, height - heading_height (block, pen->context, pen->width, FALSE), &caution);
  return n == n_rows || (height >= LEAST_ROOM && n >= 2);
}

/* Whether what leads to something has room here together with the beginning of that. */
static gboolean
has_room_to_lead (Pen *pen, guint index)
{
  const GPtrArray *blocks = pen->flow->blocks;
  double left = room (pen);

  for (; index < blocks->len && leads (blocks->pdata[index]); index++)
    left -= block_height (pen, index);
  if (index < blocks->len && ((const RwBlock *) blocks->pdata[index])->kind == RW_BLOCK_TABLE)
    return can_begin (pen, index, left);
  return left >= LEAST_ROOM;
}

static void
put_text (Pen *pen, guint index)
{
  const RwBlock *block = pen->flow->blocks->pdata[index];
  double height = text_height (block, pen->context, pen->em, pen->width);

  if (!at_top (pen) && (leads (block) ? !pen->leading && !has_room_to_lead (pen, index) : height > room (pen)))
    next_column (pen);
  put (pen, index, 0, 0, height + (block->kind == RW_BLOCK_BIG ? AFTER : AFTER_TEXT));
  pen->leading = pen->leading && leads (block);
}

static void
put_empty (Pen *pen, guint index)
{
  const RwBlock *block = pen->flow->blocks->pdata[index];

  if (block->listing->empty == NULL)
    return;
  if (room (pen) < HEADING + 2 * AFTER)
    next_column (pen);
  put (pen, index, 0, 0, heading_height (block, pen->context, pen->width, FALSE) + pen->em * 1.5 + AFTER);
  pen->leading = FALSE;
}

static void
put_table (Pen *pen, guint index)
{
  const RwBlock *block = pen->flow->blocks->pdata[index];
  RwTableLayout *table;
  double head = heading_height (block, pen->context, pen->width, FALSE);
  guint n_rows = block->listing->rows->len, first = 0;

  if (n_rows == 0)
    {
      put_empty (pen, index);
      return;
    }
  if (!at_top (pen) && !pen->leading && !can_begin (pen, index, room (pen)))
    next_column (pen);
  table = table_of (pen, index);
  while (first < n_rows)
    {
      guint caution, n = take_rows (pen, index, first, room (pen) - head, &caution);

      if (n == 0)
        {
          g_assert (!at_top (pen));
          next_column (pen);
          continue;
        }
      if (caution != pen->flow->blocks->len)
        put (pen, caution, 0, 0, caution_height (pen, caution));
      put (pen, index, first, n, head + rw_table_layout_height (table, first, n) + AFTER);
      first += n;
      head = heading_height (block, pen->context, pen->width, TRUE);
      if (first < n_rows)
        next_column (pen);
    }
  pen->leading = FALSE;
}

static double
column_width (RwRect body, guint columns)
{
  return (body.w - GUTTER * (columns - 1)) / columns;
}

/**
 * rw_flow_break: shares the blocks out among pages that have @body for them; fills @pieces in the order of reading.
 * Returns the number of pages, at least 1.
 */
guint
rw_flow_break (const RwFlow *flow, RwDrawContext *context, RwRect body, double em, GArray *pieces)
{
  Pen pen = { .flow = flow, .context = context, .body = body, .em = em, .y = body.y, .leading = TRUE, .pieces = pieces,
              .columns = flow->columns };

  if (column_width (body, pen.columns) < LEAST_COLUMN)
    pen.columns = 1;
  pen.width = column_width (body, pen.columns);
  for (guint i = 0; i < flow->blocks->len; i++)
    {
      const RwBlock *block = flow->blocks->pdata[i];

      if (block->starts_group)
        keep_group (&pen, i);
      if (block->kind == RW_BLOCK_TABLE)
        put_table (&pen, i);
      else if (!block->on_need)
        put_text (&pen, i);
    }
  rw_table_layout_free (pen.open_table);
  return pieces->len > 0 ? g_array_index (pieces, RwPiece, pieces->len - 1).page + 1 : 1;
}

/**
 * rw_place_mark: makes a place that links lead to, at (@x, @y) in user space. cairo takes it in points of the page, and
 * reads numbers as the locale writes them: in whole ones there is nothing to be mistaken.
 */
void
rw_place_mark (cairo_t *cr, const char *name, double x, double y, const RwDrawOptions *options)
{
  g_autofree char *attributes = NULL;

  if (options->unlinked)
    return;
  cairo_user_to_device (cr, &x, &y);
  attributes = g_strdup_printf ("name='%s' x=%d y=%d", name, (int) MAX (x, 0), (int) MAX (y, 0));
  cairo_tag_begin (cr, CAIRO_TAG_DEST, attributes);
  cairo_tag_end (cr, CAIRO_TAG_DEST);
}

static void
draw_tick (cairo_t *cr, RwRect cell, const RwDrawOptions *options)
{
  RwRect box = { RW_RECT_MIDDLE_X (cell) - TICK / 2, RW_RECT_MIDDLE_Y (cell) - TICK / 2, TICK, TICK };

  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_MEDIUM);
  rw_pen_rect (cr, options, RW_PEN_MEDIUM, box);
  cairo_stroke (cr);
}

static void
draw_mark (cairo_t *cr, const RwListing *listing, guint column, const RwListingRow *row, RwRect cell, const RwDrawOptions *options)
{
  switch (listing->columns[column].mark)
    {
    case RW_MARK_TICK:
      if (!row->without_ticks)
        draw_tick (cr, cell, options);
      break;
    case RW_MARK_BALLOON:
      rw_draw_severity (cr, (RwSeverity) row->grade, (RwPoint) { RW_RECT_MIDDLE_X (cell), cell.y + 3.2 }, 2.6, row->cells[column], options);
      break;
    case RW_MARK_NONE:
    case RW_MARK_BLANK:
    default:
      break;
    }
}

static void
draw_marks (cairo_t *cr, const RwListing *listing, const RwPiece *piece, RwTableLayout *table, double y, const RwDrawOptions *options)
{
  y += rw_table_layout_row_height (table, G_MAXUINT);
  for (guint r = piece->first; r < piece->first + piece->n; r++)
    {
      const RwListingRow *row = listing->rows->pdata[r];
      double height = rw_table_layout_row_height (table, r);

      if (row->place != NULL)
        rw_place_mark (cr, row->place, piece->x, y - 10, options);
      for (guint i = 0; i < listing->n_columns; i++)
        {
          RwRect cell = { .y = y, .h = rw_table_layout_cells_height (table, r) };

          rw_table_layout_column (table, i, &cell.x, &cell.w);
          cell.x += piece->x;
          draw_mark (cr, listing, i, row, cell, options);
        }
      y += height;
    }
}

/* Returns how high it is. */
static double
draw_heading (const RwBlock *block, const RwPiece *piece, cairo_t *cr, const RwDrawOptions *options)
{
  PangoLayout *text = heading_new (block->listing, options->context, piece->w, piece->first > 0);

  rw_ink_set (cr, RW_INK_TEXT, options);
  cairo_move_to (cr, piece->x, piece->y + (HEADING - line_height (text)) / 2 - 0.5);
  pango_cairo_show_layout (cr, text);
  g_object_unref (text);
  return heading_height (block, options->context, piece->w, piece->first > 0);
}

static void
draw_table (const RwBlock *block, const RwPiece *piece, RwTableLayout *table, cairo_t *cr, double em, const RwDrawOptions *options)
{
  const RwListing *listing = block->listing;
  double y = piece->y;

  if (listing->title != NULL)
    y += draw_heading (block, piece, cr, options);
  if (listing->rows->len == 0)
    {
      rw_draw_text (cr, options, listing->empty, (RwTextStyle) { em, FALSE }, piece->x, y + em / 2, 0, piece->w);
      return;
    }
  rw_table_layout_draw (table, cr, piece->x, y, piece->first, piece->n, options);
  draw_marks (cr, listing, piece, table, y, options);
}

static void
draw_caution_frame (cairo_t *cr, const RwPiece *piece, double height, const RwDrawOptions *options)
{
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_THIN);
  rw_pen_rect (cr, options, RW_PEN_THIN, (RwRect) { piece->x, piece->y, piece->w, height });
  cairo_stroke (cr);
  rw_ink_set (cr, RW_INK_FAULT, options);
  cairo_rectangle (cr, piece->x, piece->y, PAD / 2, height);
  cairo_fill (cr);
}

static void
draw_text_block (const RwBlock *block, const RwPiece *piece, cairo_t *cr, double em, const RwDrawOptions *options)
{
  PangoLayout *text = paragraph_new (block, options->context, em, piece->w);
  double indent = block->kind == RW_BLOCK_CAUTION ? PAD : 0;

  if (block->kind == RW_BLOCK_CAUTION)
    draw_caution_frame (cr, piece, rw_draw_paragraph_height (text) + 2 * PAD, options);
  rw_ink_set (cr, RW_INK_TEXT, options);
  cairo_move_to (cr, piece->x + 2 * indent, piece->y + indent);
  pango_cairo_show_layout (cr, text);
  g_object_unref (text);
}

static void
draw_field (cairo_t *cr, RwRect box, const char *label, const RwDrawOptions *options)
{
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_THIN);
  rw_pen_rect (cr, options, RW_PEN_THIN, box);
  cairo_stroke (cr);
  rw_ink_set (cr, RW_INK_FAINT, options);
  rw_draw_text (cr, options, label, (RwTextStyle) { RW_EM_LEAST, FALSE }, box.x + 1.5, box.y + 2.5, 0, box.w - 3);
}

static void
draw_sign (const RwPiece *piece, cairo_t *cr, const RwDrawOptions *options)
{
  double half = piece->w / 2, row = SIGN_HEIGHT / 2;

  draw_field (cr, (RwRect) { piece->x, piece->y, half, SIGN_HEIGHT }, _("Remarks"), options);
  draw_field (cr, (RwRect) { piece->x + half, piece->y, half / 2, row }, _("Date and time"), options);
  draw_field (cr, (RwRect) { piece->x + 1.5 * half, piece->y, half / 2, row }, _("Name"), options);
  draw_field (cr, (RwRect) { piece->x + half, piece->y + row, half, row }, _("Signature"), options);
}

/**
 * rw_flow_draw_piece: @table: (nullable): from rw_flow_table() for the block of a table.
 */
void
rw_flow_draw_piece (const RwFlow *flow, const RwPiece *piece, RwTableLayout *table, cairo_t *cr, double em,
                    const RwDrawOptions *options)
{
  const RwBlock *block = flow->blocks->pdata[piece->block];

  if (block->place != NULL && piece->first == 0)
    rw_place_mark (cr, block->place, piece->x, piece->y - 5, options);
  switch (block->kind)
    {
    case RW_BLOCK_TABLE:
      draw_table (block, piece, table, cr, em, options);
      break;
    case RW_BLOCK_SIGN:
      draw_sign (piece, cr, options);
      break;
    case RW_BLOCK_HEADING:
    case RW_BLOCK_TEXT:
    case RW_BLOCK_CAUTION:
    case RW_BLOCK_BIG:
    default:
      draw_text_block (block, piece, cr, em, options);
      break;
    }
}
