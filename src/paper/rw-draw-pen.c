/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-draw-pen.h"

/* Whole pixels of a pen on a screen, at least one; 0 on paper. */
static int
pixels (const RwDrawOptions *options, double width)
{
  if (options->px_per_mm <= 0)
    return 0;
  return MAX (1, (int) lrint (width * options->px_per_mm));
}

/**
 * rw_pen_set: takes a pen of @width mm; on a screen of whole pixels. Gives the width that it has, in mm.
 */
double
rw_pen_set (cairo_t *cr, const RwDrawOptions *options, double width)
{
  int px = pixels (options, width);

  if (px > 0)
    width = px / options->px_per_mm;
  cairo_set_line_width (cr, width);
  return width;
}

/**
 * rw_pen_snap: moves a point so that a level or upright line of @width mm through it fills whole pixels of a screen;
 * a @width of 0 puts the point between two pixels. Does nothing on paper.
 */
void
rw_pen_snap (cairo_t *cr, const RwDrawOptions *options, double width, double *x, double *y)
{
  if (options->px_per_mm <= 0)
    return;
  cairo_user_to_device (cr, x, y);
  if (width > 0 && pixels (options, width) % 2 == 1)
    {
      *x = floor (*x) + 0.5;
      *y = floor (*y) + 0.5;
    }
  else
    {
      *x = round (*x);
      *y = round (*y);
    }
  cairo_device_to_user (cr, x, y);
}

/**
 * rw_pen_rect: adds the outline of @rect, for a pen of @width mm, to the path.
 */
void
rw_pen_rect (cairo_t *cr, const RwDrawOptions *options, double width, RwRect rect)
{
  double left = rect.x, top = rect.y, right = rect.x + rect.w, bottom = rect.y + rect.h;

  rw_pen_snap (cr, options, width, &left, &top);
  rw_pen_snap (cr, options, width, &right, &bottom);
  cairo_rectangle (cr, left, top, right - left, bottom - top);
}

/**
 * rw_pen_meets: whether anything of @rect has to be drawn.
 */
gboolean
rw_pen_meets (const RwDrawOptions *options, RwRect rect)
{
  const RwRect *clip = &options->clip;

  if (clip->w <= 0)
    return TRUE;
  return rect.x <= clip->x + clip->w && rect.x + rect.w >= clip->x
         && rect.y <= clip->y + clip->h && rect.y + rect.h >= clip->y;
}

/**
 * rw_pen_says: whether words that cover @rect have to be drawn, which is then done to the last letter.
 */
gboolean
rw_pen_says (const RwDrawOptions *options, RwRect rect)
{
  const RwRect *own = &options->own, *clip = &options->clip;
  double x = RW_RECT_MIDDLE_X (rect), y = RW_RECT_MIDDLE_Y (rect);

  if (own->w <= 0 || !rw_pen_meets (options, rect))
    return own->w <= 0;
  if (x >= own->x && x < own->x + own->w && y >= own->y && y < own->y + own->h)
    return TRUE;
  return rect.x >= clip->x && rect.x + rect.w <= clip->x + clip->w && rect.y >= clip->y && rect.y + rect.h <= clip->y + clip->h;
}
