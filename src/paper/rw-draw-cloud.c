/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-draw-pen.h"
#include "rw-draw-text.h"

#define ARC 6.0       /* mm along an outline */
#define BULGE 0.45    /* of an arc's length */
#define ROOM (RW_CLOUD_ROOM + RW_CLOUD_TRIANGLE)

/* The bumps from @a to @b, outwards: to the left of the way. */
static void
add_bumps (cairo_t *cr, RwPoint a, RwPoint b)
{
  double length = hypot (b.x - a.x, b.y - a.y);
  int n = MAX (1, (int) round (length / ARC));
  double dx = (b.x - a.x) / n, dy = (b.y - a.y) / n;
  double out_x = dy * BULGE * 4 / 3, out_y = -dx * BULGE * 4 / 3;

  for (int i = 0; i < n; i++)
    {
      double x = a.x + i * dx, y = a.y + i * dy;

      cairo_curve_to (cr, x + out_x + dx * 0.05, y + out_y + dy * 0.05, x + dx * 0.95 + out_x, y + dy * 0.95 + out_y, x + dx, y + dy);
    }
}

/**
 * rw_draw_cloud: bumps along @points; @closed: back to the first.
 */
void
rw_draw_cloud (cairo_t *cr, const RwPoint *points, guint n_points, gboolean closed, const RwDrawOptions *options)
{
  if (n_points < 2)
    return;
  cairo_new_path (cr);
  cairo_move_to (cr, points[0].x, points[0].y);
  for (guint i = 0; i + 1 < n_points; i++)
    add_bumps (cr, points[i], points[i + 1]);
  if (closed)
    add_bumps (cr, points[n_points - 1], points[0]);
  rw_ink_set (cr, RW_INK_REVISION, options);
  rw_pen_set (cr, options, RW_PEN_THICK);
  cairo_stroke (cr);
}

/**
 * rw_draw_revision: the letter of a revision in its triangle of @height mm round @centre.
 */
void
rw_draw_revision (cairo_t *cr, RwPoint centre, double height, const char *letter, const RwDrawOptions *options)
{
  double half = height / sqrt (3), top = centre.y - height * 2 / 3, bottom = centre.y + height / 3;

  RW_DRAW_OWN_CONTEXT (options);
  cairo_new_path (cr);
  cairo_move_to (cr, centre.x, top);
  cairo_line_to (cr, centre.x + half, bottom);
  cairo_line_to (cr, centre.x - half, bottom);
  cairo_close_path (cr);
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_REVISION, options);
  rw_pen_set (cr, options, RW_PEN_MEDIUM);
  cairo_stroke (cr);
  rw_draw_text (cr, options, letter, (RwTextStyle) { height * 0.5, TRUE }, centre.x, centre.y + height * 0.04, 0.5, half * 1.3);
}

static RwRect
bounds_of (const RwPoint *points, guint n)
{
  double x0 = points[0].x, y0 = points[0].y, x1 = x0, y1 = y0;

  for (guint i = 1; i < n; i++)
    {
      x0 = MIN (x0, points[i].x);
      y0 = MIN (y0, points[i].y);
      x1 = MAX (x1, points[i].x);
      y1 = MAX (y1, points[i].y);
    }
  return (RwRect) { x0 - ROOM, y0 - ROOM, x1 - x0 + 2 * ROOM, y1 - y0 + 2 * ROOM };
}

static void
draw_ghost (cairo_t *cr, const RwCloudGhost *ghost, const RwDrawOptions *options)
{
  RwRect r = ghost->rect;

  if (!rw_pen_meets (options, r))
    return;
  cairo_new_path (cr);
  rw_ink_set (cr, RW_INK_REVISION, options);
  rw_pen_set (cr, options, RW_PEN_THIN);
  cairo_set_dash (cr, (const double[]) { 2, 1 }, 2, 0);
  cairo_rectangle (cr, r.x, r.y, r.w, r.h);
  cairo_move_to (cr, r.x, r.y);
  cairo_line_to (cr, r.x + r.w, r.y + r.h);
  cairo_move_to (cr, r.x + r.w, r.y);
  cairo_line_to (cr, r.x, r.y + r.h);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  if (rw_draw_detail (options) >= RW_DETAIL_NAMES)
    rw_draw_text (cr, options, ghost->name, (RwTextStyle) { RW_EM_LABEL, TRUE }, RW_RECT_MIDDLE_X (r), r.y + 4, 0.5, r.w);
}

/**
 * rw_draw_clouds: round what changed, each with the letter of the revision; what is gone stands crossed out in its cloud.
 */
void
rw_draw_clouds (cairo_t *cr, const RwDrawOptions *options)
{
  const RwClouds *clouds = options->clouds;

  if (clouds == NULL)
    return;
  RW_DRAW_OWN_CONTEXT (options);
  for (guint i = 0; i < rw_clouds_n_ghosts (clouds); i++)
    draw_ghost (cr, rw_clouds_ghost (clouds, i), options);
  for (guint i = 0; i < rw_clouds_n (clouds); i++)
    {
      guint n;
      const RwPoint *points = rw_clouds_outline (clouds, i, &n);
      RwPoint centre;

      if (n < 2 || !rw_pen_meets (options, bounds_of (points, n)))
        continue;
      rw_draw_cloud (cr, points, n, TRUE, options);
      if (rw_clouds_triangle (clouds, i, &centre))
        rw_draw_revision (cr, centre, RW_CLOUD_TRIANGLE, rw_clouds_letter (clouds), options);
    }
}
