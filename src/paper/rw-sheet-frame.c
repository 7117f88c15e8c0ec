/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-sheet-parts.h"

/* ISO 5457: margins, the border with the grid reference, and the lines. */
#define BINDING 20.0
#define MARGIN 10.0
#define BORDER 5.0
#define FIELD 50.0
#define CENTRING 5.0 /* of a centring mark inside the frame */

/**
 * rw_sheet_frame: the frame of a sheet of paper of @width × @height mm.
 */
RwRect
rw_sheet_frame (double width, double height)
{
  return (RwRect) { BINDING, MARGIN, width - BINDING - MARGIN, height - 2 * MARGIN };
}

/**
 * rw_sheet_n_fields: fields of the grid reference along a side of @length mm: an even number, as they are counted
 * from the middle; those at the corners take what is left over.
 */
guint
rw_sheet_n_fields (double length)
{
  return MAX (2, 2 * (guint) lrint (length / (2 * FIELD)));
}

/* Letters leave out I and O, which look like figures. */
static void
field_letter (guint index, char text[8])
{
  static const char letters[] = "ABCDEFGHJKLMNPQRSTUVWXYZ";

  g_snprintf (text, 8, "%c", letters[index % (G_N_ELEMENTS (letters) - 1)]);
}

/* A tick between two fields, and the name of the field before it, on both sides of the sheet. */
typedef struct
{
  cairo_t *cr;
  const RwDrawOptions *options;
  RwRect frame;
  gboolean across; /* along the top and bottom, with numbers; else left and right, with letters */
} Border;

static void
line (const Border *border, double x1, double y1, double x2, double y2)
{
  rw_pen_snap (border->cr, border->options, RW_PEN_MEDIUM, &x1, &y1);
  rw_pen_snap (border->cr, border->options, RW_PEN_MEDIUM, &x2, &y2);
  cairo_move_to (border->cr, x1, y1);
  cairo_line_to (border->cr, x2, y2);
  cairo_stroke (border->cr);
}

static void
tick (const Border *border, double at)
{
  RwRect f = border->frame;

  if (border->across)
    {
      line (border, at, f.y - BORDER, at, f.y);
      line (border, at, f.y + f.h, at, f.y + f.h + BORDER);
    }
  else
    {
      line (border, f.x - BORDER, at, f.x, at);
      line (border, f.x + f.w, at, f.x + f.w + BORDER, at);
    }
}

static void
name (const Border *border, guint index, double at)
{
  const RwTextStyle style = { RW_EM_NAME, FALSE };
  RwRect f = border->frame;
  char text[8];

  if (border->across)
    {
      g_snprintf (text, sizeof text, "%u", index + 1);
      rw_draw_text (border->cr, border->options, text, style, at, f.y - BORDER / 2, 0.5, 0);
      rw_draw_text (border->cr, border->options, text, style, at, f.y + f.h + BORDER / 2, 0.5, 0);
    }
  else
    {
      field_letter (index, text);
      rw_draw_text (border->cr, border->options, text, style, f.x - BORDER / 2, at, 0.5, 0);
      rw_draw_text (border->cr, border->options, text, style, f.x + f.w + BORDER / 2, at, 0.5, 0);
    }
}

static void
draw_fields (const Border *border, double length, double from, double to)
{
  guint n = rw_sheet_n_fields (length);
  double before = from;

  for (guint i = 0; i < n; i++)
    {
      double after = i + 1 < n ? length / 2 + ((double) i + 1 - n / 2.0) * FIELD : to;

      if (i + 1 < n && i + 1 != n / 2)
        tick (border, after);
      name (border, i, (before + after) / 2);
      before = after;
    }
}

static void
draw_centring (const Border *border, double width, double height)
{
  RwRect f = border->frame;
  double x = width / 2, y = height / 2;

  line (border, x, f.y - BORDER, x, f.y + CENTRING);
  line (border, x, f.y + f.h, x, f.y + f.h + BORDER); /* a title block may stand inside */
  line (border, f.x - BORDER, y, f.x + CENTRING, y);
  line (border, f.x + f.w - CENTRING, y, f.x + f.w + BORDER, y);
}

/**
 * rw_sheet_draw_frame: frame, grid reference and centring marks on paper of @width × @height mm (ISO 5457).
 */
void
rw_sheet_draw_frame (cairo_t *cr, double width, double height, const RwDrawOptions *options)
{
  RwRect frame = rw_sheet_frame (width, height);
  Border border = { cr, options, frame, TRUE };

  cairo_save (cr);
  cairo_new_path (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_MEDIUM);
  rw_pen_rect (cr, options, RW_PEN_MEDIUM, (RwRect) { frame.x - BORDER, frame.y - BORDER, frame.w + 2 * BORDER, frame.h + 2 * BORDER });
  cairo_stroke (cr);
  draw_fields (&border, width, frame.x, frame.x + frame.w);
  border.across = FALSE;
  draw_fields (&border, height, frame.y, frame.y + frame.h);
  rw_pen_set (cr, options, RW_PEN_FRAME);
  draw_centring (&border, width, height);
  rw_pen_rect (cr, options, RW_PEN_FRAME, frame);
  cairo_stroke (cr);
  cairo_restore (cr);
}
