/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-sheet-parts.h"

#define PAD 1.5
#define HEAD_ROW 12.0
#define ROW 9.0
#define LABEL_MIDDLE 2.3  /* y of the middle of a field's label */
#define LABEL_END 4.2

/* One field of the block: its place as parts of the block's width, counted in millimetres of the full width. */
typedef struct
{
  double x, width;
  const char *label;
  const char *value;
  double em;
  gboolean bold;
} Field;

/**
 * rw_sheet_caution: what must stand where cables are run.
 */
const char *
rw_sheet_caution (void)
{
  return _("Lay cable runs so that nobody trips: ramps or covers where people walk, escape ways clear; local fire rules "
           "come first. Rigwright plans and checks drawings; it does not certify an installation.");
}

static PangoLayout *
caution_new (RwDrawContext *context, double block_width)
{
  double width = (124 / RW_TITLE_WIDTH) * block_width - 2 * PAD;

  return rw_draw_paragraph (context, rw_sheet_caution (), (RwTextStyle) { RW_EM_LEAST, FALSE }, width);
}

static double
caution_row (RwDrawContext *context, double block_width)
{
  PangoLayout *text = caution_new (context, block_width);
  double height = rw_draw_paragraph_height (text) + 2 * 1.2;

  g_object_unref (text);
  return MAX (ROW, height);
}

/**
 * rw_sheet_title_height: height in mm of a title block of @width mm; of the @whole block, as on the first sheet, or of
 * the strip on the sheets that follow.
 */
double
rw_sheet_title_height (RwDrawContext *context, double width, gboolean whole)
{
  return whole ? HEAD_ROW + ROW + caution_row (context, width) : ROW;
}

/* Two lines of smaller letters; what is longer still ends with “…”. */
static void
draw_two_lines (cairo_t *cr, const char *text, gboolean bold, double x, double middle, double width,
                const RwDrawOptions *options)
{
  PangoLayout *layout = rw_draw_paragraph (options->context, text, (RwTextStyle) { RW_EM_LABEL, bold }, width);

  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_height (layout, -2);
  cairo_move_to (cr, x, middle - rw_draw_paragraph_height (layout) / 2);
  pango_cairo_show_layout (cr, layout);
  g_object_unref (layout);
}

/* The largest of a few sizes at which @text fits; at the least it goes over two lines where there is the height, else
 * it is cut. */
static void
draw_value (cairo_t *cr, const char *text, double em, gboolean bold, RwRect room, const RwDrawOptions *options)
{
  RwTextStyle style = { em, bold };

  while (style.em > RW_EM_LEAST && rw_draw_text_width (options->context, text, style) > room.w)
    style.em = MAX (RW_EM_LEAST, style.em - 0.35);
  if (style.em < RW_EM_LABEL && room.h >= 2.4 * RW_EM_LABEL)
    draw_two_lines (cr, text, bold, room.x, RW_RECT_MIDDLE_Y (room), room.w, options);
  else
    rw_draw_text (cr, options, text, style, room.x, RW_RECT_MIDDLE_Y (room) - 0.2, 0, room.w);
}

static void
draw_fields (cairo_t *cr, RwRect row, const Field *fields, guint n, const RwDrawOptions *options)
{
  double part = row.w / RW_TITLE_WIDTH;

  for (guint i = 0; i < n; i++)
    {
      RwRect cell = { row.x + fields[i].x * part, row.y, fields[i].width * part, row.h };
      double room = cell.w - 2 * PAD;

      rw_ink_set (cr, RW_INK_TEXT, options);
      rw_pen_set (cr, options, RW_PEN_MEDIUM);
      rw_pen_rect (cr, options, RW_PEN_MEDIUM, cell);
      cairo_stroke (cr);
      if (fields[i].value != NULL)
        draw_value (cr, fields[i].value, fields[i].em, fields[i].bold,
                    (RwRect) { cell.x + PAD, cell.y + LABEL_END, room, cell.h - LABEL_END }, options);
      rw_ink_set (cr, RW_INK_FAINT, options);
      rw_draw_text (cr, options, fields[i].label, (RwTextStyle) { RW_EM_LEAST, FALSE }, cell.x + PAD, cell.y + LABEL_MIDDLE, 0, room);
    }
}

static char *
sheet_text (const RwTitle *title)
{
  /* Translators: the number of this sheet of paper, and how many there are. */
  return g_strdup_printf (_("%u of %u"), title->sheet, title->n_sheets);
}

static void
draw_strip (cairo_t *cr, RwRect block, const RwTitle *title, const RwDrawOptions *options)
{
  g_autofree char *sheet = sheet_text (title);
  const Field fields[] = {
    { 0, 80, _("Title"), title->title, RW_EM_NAME, TRUE },
    { 80, 44, _("Document type"), title->document_type, RW_EM_NAME, FALSE },
    { 124, 28, _("Revision"), title->revision, RW_EM_NAME, FALSE },
    { 152, 28, _("Sheet"), sheet, RW_EM_NAME, FALSE },
  };

  draw_fields (cr, block, fields, G_N_ELEMENTS (fields), options);
}

static void
draw_caution (cairo_t *cr, RwRect block, double y, const RwDrawOptions *options)
{
  PangoLayout *text = caution_new (options->context, block.w);
  double height = block.y + block.h - y;

  rw_ink_set (cr, RW_INK_TEXT, options);
  cairo_move_to (cr, block.x + PAD, y + (height - rw_draw_paragraph_height (text)) / 2);
  pango_cairo_show_layout (cr, text);
  g_object_unref (text);
}

static void
draw_whole (cairo_t *cr, RwRect block, const RwTitle *title, const RwDrawOptions *options)
{
  g_autofree char *sheet = sheet_text (title);
  const Field head[] = {
    { 0, 124, _("Title"), title->title, RW_EM_HEAD, TRUE },
    { 124, 56, _("Document type"), title->document_type, RW_EM_HEAD, FALSE },
  };
  const Field middle[] = {
    { 0, 74, _("Venue"), title->venue, RW_EM_NAME, FALSE },
    { 74, 50, _("Drawn by"), title->drawn_by, RW_EM_NAME, FALSE },
    { 124, 28, _("Date"), title->date, RW_EM_NAME, FALSE },
    { 152, 28, _("Revision"), title->revision, RW_EM_NAME, FALSE },
  };
  const Field last[] = {
    { 124, 28, _("Scale"), title->scale, RW_EM_NAME, FALSE },
    { 152, 28, _("Sheet"), sheet, RW_EM_NAME, FALSE },
  };
  double y = block.y + HEAD_ROW + ROW;

  draw_fields (cr, (RwRect) { block.x, block.y, block.w, HEAD_ROW }, head, G_N_ELEMENTS (head), options);
  draw_fields (cr, (RwRect) { block.x, block.y + HEAD_ROW, block.w, ROW }, middle, G_N_ELEMENTS (middle), options);
  draw_fields (cr, (RwRect) { block.x, y, block.w, block.y + block.h - y }, last, G_N_ELEMENTS (last), options);
  draw_caution (cr, block, y, options);
}

/**
 * rw_sheet_draw_title: a title block after ISO 7200 that fills @block, of a height from rw_sheet_title_height().
 */
void
rw_sheet_draw_title (cairo_t *cr, RwRect block, const RwTitle *title, gboolean whole, const RwDrawOptions *options)
{
  cairo_save (cr);
  cairo_new_path (cr);
  if (whole)
    draw_whole (cr, block, title, options);
  else
    draw_strip (cr, block, title, options);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_FRAME);
  rw_pen_rect (cr, options, RW_PEN_FRAME, block);
  cairo_stroke (cr);
  cairo_restore (cr);
}
