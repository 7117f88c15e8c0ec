/* SPDX-License-Identifier: MIT */
/* What lenses put on the sheet: letters of networks, numbers on devices, links held open. */
#include <math.h>

#include "rw-draw-pen.h"
#include "rw-draw-text.h"

#define GAP_MM 2.0     /* between the two bars of a link held open */
#define BAR_MM 3.2     /* their length */
#define GAP_WIDTH 2.0  /* of line that the gap wipes out, its halo included */
#define LEAST_PX 3.0   /* what would be smaller on a screen is left out */
#define MARK_HEIGHT 3.6
#define BADGE_HEIGHT 4.6
#define DEEPEST 0.3    /* share of the tint in the box of the farthest device: its text keeps 4.5:1 (WCAG 2.2) */

static gboolean
is_readable (const RwDrawOptions *options, double em)
{
  return options->px_per_mm <= 0 || em * options->px_per_mm >= 2 * LEAST_PX;
}

/**
 * rw_draw_held: the sign that a link is held open: the line is cut at @at between two bars. @along: the line's
 * direction there, of any length.
 */
void
rw_draw_held (cairo_t *cr, RwPoint at, RwPoint along, const RwDrawOptions *options)
{
  double length = hypot (along.x, along.y);

  if (options->px_per_mm > 0 && GAP_MM * options->px_per_mm < LEAST_PX)
    return;
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  if (length > 0)
    cairo_rotate (cr, atan2 (along.y, along.x));
  cairo_new_path (cr);
  cairo_rectangle (cr, -GAP_MM / 2, -GAP_WIDTH / 2, GAP_MM, GAP_WIDTH);
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_fill (cr);
  for (int side = -1; side <= 1; side += 2)
    {
      cairo_move_to (cr, side * GAP_MM / 2, -BAR_MM / 2);
      cairo_line_to (cr, side * GAP_MM / 2, BAR_MM / 2);
    }
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_THICK);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
add_pill (cairo_t *cr, double x, double y, double w, double h)
{
  double r = h / 2;

  cairo_new_path (cr);
  cairo_arc (cr, x + r, y + r, r, G_PI_2, 3 * G_PI_2);
  cairo_arc (cr, x + w - r, y + r, r, -G_PI_2, G_PI_2);
  cairo_close_path (cr);
}

/**
 * rw_draw_mark: the letters of a cable's networks in a ring on its line.
 */
void
rw_draw_mark (cairo_t *cr, RwPoint centre, const char *text, const RwDrawOptions *options)
{
  RwTextStyle style = { RW_EM_LEAST, TRUE };
  RW_DRAW_OWN_CONTEXT (options);
  double w;

  if (!is_readable (options, style.em))
    return;
  w = MAX (MARK_HEIGHT, rw_draw_text_width (options->context, text, style) + 1.8);
  add_pill (cr, centre.x - w / 2, centre.y - MARK_HEIGHT / 2, w, MARK_HEIGHT);
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_THIN);
  cairo_stroke (cr);
  rw_draw_text (cr, options, text, style, centre.x, centre.y, 0.5, 0);
}

/**
 * rw_draw_badge: a number on the top right corner of a device, at @corner. Far out it grows as a device's name does.
 *
 * Returns: its width, mm
 */
double
rw_draw_badge (cairo_t *cr, RwPoint corner, const char *text, const RwDrawOptions *options)
{
  RwTextStyle style = { RW_EM_NAME, TRUE };
  RW_DRAW_OWN_CONTEXT (options);
  double w, h = BADGE_HEIGHT;

  for (guint i = 0; i < 3 && !is_readable (options, style.em); i++)
    {
      style.em *= G_SQRT2;
      h *= G_SQRT2;
    }
  if (!is_readable (options, style.em))
    return 0;
  w = MAX (h, rw_draw_text_width (options->context, text, style) + 2.0);
  cairo_new_path (cr);
  rw_pen_rect (cr, options, RW_PEN_MEDIUM, (RwRect) { corner.x - w + h / 3, corner.y - h * 2 / 3, w, h });
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_MEDIUM);
  cairo_stroke (cr);
  rw_draw_text (cr, options, text, style, corner.x - w / 2 + h / 3, corner.y - h / 6, 0.5, 0);
  return w;
}

/**
 * rw_draw_depth_ink: the colour of a device's box; @depth: 0…1 tints it, the deeper the more, below 0 does not.
 */
RwInk
rw_draw_depth_ink (double depth, const RwDrawOptions *options)
{
  RwInk box = rw_ink (RW_INK_BOX, options), tint = rw_ink (RW_INK_DEPTH, options);
  double share = DEEPEST * CLAMP (depth, 0, 1);

  return (RwInk) { box.r + (tint.r - box.r) * share, box.g + (tint.g - box.g) * share, box.b + (tint.b - box.b) * share };
}
