/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-draw-pen.h"
#include "rw-draw-text.h"

#define CORNER 1.5      /* radius of a bend, mm */
#define BEAD 0.9        /* radius, mm */
#define CASING 0.18     /* to each side of a line */
#define SECONDARY_WIDTH 0.6 /* with its casing about the next width after the others' */
#define FAULT_GAP 0.35  /* of bare sheet between a line and its halo */
#define FAULT_HALO 0.7
#define FAR_PX 1.5      /* px_per_mm below which a line, its casing and its halo cannot be told apart */
#define HELD_MM 3.5     /* bare line before and behind the sign that a link is held open */
#define CORNER_PX 3.0   /* px_per_mm below which bends stay sharp: a curve costs several times a straight line */

/* How a style is drawn. @on, @off: dashes in mm, 0 = none; with round caps dashes of 0 are dots. @tick: a second,
 * shorter dash after each. @rails: only the two edges of the line show. @least_px: its width on a screen far out, where it
 * is its width that tells; 0 = a pixel. */
typedef struct
{
  RwInkRole ink;
  double width;
  double on, off;
  gboolean casing;
  gboolean bead;
  double tick;
  gboolean rails;
  double least_px;
} Line;

/* Dashes after ISO 128-2: long dashes about 12 widths and more, gaps at least 3. */
static const Line lines[RW_N_LINES] = {
  [RW_LINE_PLAIN] = { .ink = RW_INK_PLAIN, .width = RW_PEN_THIN },
  [RW_LINE_CHAIN] = { .ink = RW_INK_CHAIN, .width = RW_PEN_THICK, .bead = TRUE },
  [RW_LINE_PRIMARY] = { .ink = RW_INK_PRIMARY, .width = RW_PEN_THICK },
  [RW_LINE_SECONDARY] = { .ink = RW_INK_SECONDARY, .width = SECONDARY_WIDTH, .on = 5.0, .off = 2.0, .casing = TRUE },
  [RW_LINE_AUX] = { .ink = RW_INK_PLAIN, .width = RW_PEN_MEDIUM, .on = 0.0, .off = 1.2 },
  [RW_LINE_TRUNK] = { .ink = RW_INK_PRIMARY, .width = 1.2, .rails = TRUE },
  [RW_LINE_NETWORK] = { .ink = RW_INK_NETWORK, .width = RW_PEN_THICK, .on = 6.0, .off = 1.5, .tick = 0.6 },
  [RW_LINE_NETWORK + 1] = { .ink = RW_INK_NETWORK + 1, .width = RW_PEN_THICK, .on = 2.4, .off = 1.4 },
  [RW_LINE_NETWORK + 2] = { .ink = RW_INK_NETWORK + 2, .width = RW_PEN_FRAME, .on = 1.0, .off = 1.0 },
  [RW_LINE_NETWORK + 3] = { .ink = RW_INK_NETWORK + 3, .width = RW_PEN_THICK, .on = 3.0, .off = 1.2, .tick = 1.2 },
  [RW_LINE_NETWORK + 4] = { .ink = RW_INK_NETWORK, .width = 1.0 },
  [RW_LINE_QUIET] = { .ink = RW_INK_RULE, .width = RW_PEN_THIN },
  [RW_LINE_FAILED] = { .ink = RW_INK_FAULT, .width = 1.0, .on = 1.6, .off = 1.6, .least_px = 3 },
  [RW_LINE_LOAD + RW_FLOW_LOW] = { .ink = RW_INK_NETWORK, .width = RW_PEN_MEDIUM },
  [RW_LINE_LOAD + RW_FLOW_MEDIUM] = { .ink = RW_INK_NETWORK, .width = 0.9, .least_px = 2.5 },
  [RW_LINE_LOAD + RW_FLOW_HIGH] = { .ink = RW_INK_NETWORK, .width = 1.7, .least_px = 4 },
  [RW_LINE_LOAD + RW_FLOW_OVER_CEILING] = { .ink = RW_INK_SECONDARY, .width = 1.5, .casing = TRUE, .rails = TRUE, .least_px = 5 },
  [RW_LINE_LOAD + RW_FLOW_OVER_SPEED] = { .ink = RW_INK_FAULT, .width = 2.0, .on = 2.4, .off = 0.8, .least_px = 5 },
};

static double
distance (RwPoint a, RwPoint b)
{
  return hypot (b.x - a.x, b.y - a.y);
}

static RwPoint
toward (RwPoint from, RwPoint to, double way)
{
  double whole = distance (from, to);

  if (whole <= 0)
    return from;
  return (RwPoint) { from.x + (to.x - from.x) * way / whole, from.y + (to.y - from.y) * way / whole };
}

/* A bend at @corner: a quarter of a circle where the two stretches are square to each other. */
static void
add_bend (cairo_t *cr, RwPoint before, RwPoint corner, RwPoint after)
{
  double r = MIN (CORNER, MIN (distance (before, corner), distance (corner, after)) / 2);
  const double k = 1 - 0.5523; /* of a circle in one cubic */
  RwPoint in = toward (corner, before, r), out = toward (corner, after, r);
  RwPoint one = toward (corner, before, r * k), two = toward (corner, after, r * k);

  cairo_line_to (cr, in.x, in.y);
  if (r > 0)
    cairo_curve_to (cr, one.x, one.y, two.x, two.y, out.x, out.y);
}

static void
add_path (cairo_t *cr, const RwDrawOptions *options, double width, const RwPoint *points, guint n)
{
  gboolean sharp = options->px_per_mm > 0 && options->px_per_mm < CORNER_PX;
  RwPoint before = { 0, 0 }, here = points[0];

  rw_pen_snap (cr, options, width, &here.x, &here.y);
  cairo_move_to (cr, here.x, here.y);
  for (guint i = 1; i < n; i++)
    {
      RwPoint next = points[i];

      rw_pen_snap (cr, options, width, &next.x, &next.y);
      if (i > 1 && !sharp)
        add_bend (cr, before, here, next);
      else if (i > 1)
        cairo_line_to (cr, here.x, here.y);
      before = here;
      here = next;
    }
  cairo_line_to (cr, here.x, here.y);
}

static gboolean
is_far (const RwDrawOptions *options)
{
  return options->px_per_mm > 0 && options->px_per_mm < FAR_PX;
}

/* Far out dots are short dashes, which cost a tenth of round ones. */
static void
set_dashes (cairo_t *cr, const Line *line, double longer, const RwDrawOptions *options)
{
  double dashes[4] = { line->on + longer, line->off - longer, line->tick, line->off };
  gboolean dots = line->off > 0 && line->on <= 0;

  if (dots && is_far (options))
    dashes[0] = dashes[1] = 2 * line->off;
  if (line->off > 0)
    cairo_set_dash (cr, dashes, line->tick > 0 ? 4 : 2, longer / 2);
  cairo_set_line_cap (cr, dots && !is_far (options) ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
}

static void
stroke_solid (cairo_t *cr, const RwDrawOptions *options, RwInkRole ink, double width)
{
  rw_ink_set (cr, ink, options);
  cairo_set_dash (cr, NULL, 0, 0);
  rw_pen_set (cr, options, width);
  cairo_stroke_preserve (cr);
}

/* Where the width tells a load, a fault shows by its halo alone. */
static double
line_width (RwLineStyle style, gboolean fault, const RwDrawOptions *options)
{
  double width = lines[style].width * (fault && style < RW_LINE_LOAD ? 2 : 1);

  return options->px_per_mm > 0 ? MAX (width, lines[style].least_px / options->px_per_mm) : width;
}

/**
 * rw_draw_line: a line through @points as cables of @style are drawn, without its bead. A @fault has twice the width
 * and a halo that a gap of bare sheet parts from it, so that it shows without colours too.
 */
void
rw_draw_line (cairo_t *cr, const RwPoint *points, guint n_points, RwLineStyle style, gboolean fault,
              const RwDrawOptions *options)
{
  const Line *line = &lines[style];
  double width = line_width (style, fault, options);

  g_return_if_fail (n_points > 0);

  cairo_save (cr);
  cairo_new_path (cr);
  add_path (cr, options, width, points, n_points);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  if (fault && is_far (options))
    {
      stroke_solid (cr, options, RW_INK_FAULT, width + 2 * FAULT_GAP);
      cairo_restore (cr);
      return;
    }
  if (fault)
    {
      stroke_solid (cr, options, RW_INK_FAULT, width + 2 * (FAULT_GAP + FAULT_HALO));
      stroke_solid (cr, options, RW_INK_SHEET, width + 2 * FAULT_GAP);
    }
  if (line->casing && !options->mono && !is_far (options))
    {
      rw_ink_set (cr, RW_INK_CASING, options);
      rw_pen_set (cr, options, width + 2 * CASING);
      set_dashes (cr, line, 2 * CASING, options);
      cairo_stroke_preserve (cr);
    }
  rw_ink_set (cr, line->ink, options);
  rw_pen_set (cr, options, width);
  set_dashes (cr, line, 0, options);
  cairo_stroke_preserve (cr);
  if (line->rails && !is_far (options))
    stroke_solid (cr, options, RW_INK_SHEET, width / 2);
  cairo_restore (cr);
}

static double
length_of (const RwPoint *points, guint n)
{
  double length = 0;

  for (guint i = 1; i < n; i++)
    length += distance (points[i - 1], points[i]);
  return length;
}

static RwPoint
point_at (const RwPoint *points, guint n, double way)
{
  for (guint i = 1; i < n; i++)
    {
      double stretch = distance (points[i - 1], points[i]);

      if (way <= stretch)
        return toward (points[i - 1], points[i], way);
      way -= stretch;
    }
  return points[n - 1];
}

static gboolean
covers (RwRect rect, RwPoint point, double slack)
{
  return rect.w > 0 && point.x > rect.x - slack && point.x < rect.x + rect.w + slack
         && point.y > rect.y - slack && point.y < rect.y + rect.h + slack;
}

/* In the middle of the line, or as near to it as its label leaves bare for what has that @radius. */
static RwPoint
bead_place (const RwSceneCable *cable, double radius)
{
  double length = length_of (cable->points, cable->n_points);

  for (double off = 0; off < length / 2; off += BEAD)
    for (int sign = -1; sign <= 1; sign += 2)
      {
        RwPoint place = point_at (cable->points, cable->n_points, length / 2 + sign * off);

        if (!covers (cable->label, place, radius))
          return place;
      }
  return point_at (cable->points, cable->n_points, length / 2);
}

/* Near the port that is blocked, on the first straight stretch that has room for it past its label. */
static void
draw_held (cairo_t *cr, const RwSceneCable *cable, RwHeld held, const RwDrawOptions *options)
{
  guint n = cable->n_points;
  RwPoint at = point_at (cable->points, n, length_of (cable->points, n) / 2), along = { 1, 0 };
  gboolean found = FALSE;

  for (guint i = 1; i < n && !found; i++)
    {
      RwPoint a = cable->points[held == RW_HELD_FROM ? i - 1 : n - i];
      RwPoint b = cable->points[held == RW_HELD_FROM ? i : n - 1 - i];
      double stretch = distance (a, b);

      for (double way = HELD_MM; way <= stretch - HELD_MM && !found; way += 1)
        {
          at = toward (a, b, way);
          along = (RwPoint) { b.x - a.x, b.y - a.y };
          found = !covers (cable->label, at, HELD_MM / 2);
        }
    }
  rw_draw_held (cr, at, along, options);
}

/**
 * rw_draw_bead: what sits in the middle of a line of @style; nothing for a style without one, and nothing where it
 * would be but a dot.
 */
void
rw_draw_bead (cairo_t *cr, RwPoint centre, RwLineStyle style, gboolean fault, const RwDrawOptions *options)
{
  double radius = fault ? 1.5 * BEAD : BEAD;

  if (!lines[style].bead || (options->px_per_mm > 0 && radius * options->px_per_mm < 1.8))
    return;
  cairo_new_path (cr);
  cairo_arc (cr, centre.x, centre.y, radius, 0, 2 * G_PI);
  rw_ink_set (cr, lines[style].ink, options);
  cairo_fill (cr);
}

/* Bare sheet under a label, whatever runs there. */
static void
clear_label (cairo_t *cr, const RwSceneCable *cable, const RwDrawOptions *options)
{
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_new_path (cr);
  rw_pen_rect (cr, options, 0, cable->label);
  cairo_fill (cr);
}

/* Each of its lines in the middle of @rect. */
static void
draw_label (cairo_t *cr, const RwSceneCable *cable, const RwDrawOptions *options)
{
  g_auto (GStrv) lines_of_text = g_strsplit (cable->text, "\n", -1);
  guint n = g_strv_length (lines_of_text);
  RwRect rect = cable->label;
  RwTextStyle style = { cable->label_em, FALSE };

  rw_ink_set (cr, RW_INK_TEXT, options);
  for (guint i = 0; i < n; i++)
    rw_draw_text (cr, options, lines_of_text[i], style, RW_RECT_MIDDLE_X (rect), rect.y + rect.h * (i + 0.5) / n, 0.5, 0);
}

static RwRect
reach (const RwSceneCable *cable)
{
  RwRect r = cable->bounds;
  double slack = 3 + CASING;
  double right = MAX (r.x + r.w, cable->label.w > 0 ? cable->label.x + cable->label.w : r.x + r.w);
  double bottom = MAX (r.y + r.h, cable->label.w > 0 ? cable->label.y + cable->label.h : r.y + r.h);
  double left = cable->label.w > 0 ? MIN (r.x, cable->label.x) : r.x;
  double top = cable->label.w > 0 ? MIN (r.y, cable->label.y) : r.y;

  return (RwRect) { left - slack, top - slack, right - left + 2 * slack, bottom - top + 2 * slack };
}

/* What the lens says of the cable. */
static void
draw_mark (cairo_t *cr, const RwSceneCable *cable, guint index, const RwDrawOptions *options)
{
  const RwLensPlace *place = rw_lens_cable_place (options->lens, index, cable);
  const RwLensFlow *flow = rw_lens_cable_flow (options->lens, index);
  const char *mark = rw_lens_cable_mark (options->lens, index);
  gboolean placed = place != NULL && place->w > 0;
  double w = placed ? place->w : RW_MARK_HEIGHT, h = placed ? place->h : RW_MARK_HEIGHT;
  RwPoint c;

  if (flow == NULL && mark == NULL)
    return;
  c = placed ? place->centre : bead_place (cable, RW_MARK_HEIGHT / 2);
  if (!rw_pen_says (options, (RwRect) { c.x - w / 2, c.y - h / 2, w, h }))
    return;
  if (flow != NULL && place != NULL)
    rw_draw_flow (cr, place, flow, options);
  if (mark != NULL)
    rw_draw_mark (cr, c, mark, rw_lens_cable_failed (options->lens, index), options);
}

/* All that is drawn of cable @index, the lens' mark as large as it may be. */
static RwRect
reach_with_mark (const RwSceneCable *cable, guint index, const RwDrawOptions *options)
{
  const RwLensPlace *place = rw_lens_cable_place (options->lens, index, cable);
  double half = place != NULL && place->w > 0 ? MAX (place->w, place->h) / 2 * RW_FLOW_GROWTH : 0, x, y;
  RwRect r = reach (cable);

  if (half <= 0)
    return r;
  half = MAX (half, RW_MARK_HEIGHT / 2 * RW_MARK_GROWTH);
  x = MIN (r.x, place->centre.x - half);
  y = MIN (r.y, place->centre.y - half);
  return (RwRect) { x, y, MAX (r.x + r.w, place->centre.x + half) - x, MAX (r.y + r.h, place->centre.y + half) - y };
}

static gboolean
is_drawn (const RwSceneCable *cable, guint index, const RwDrawOptions *options)
{
  return cable->n_points > 0 && rw_pen_meets (options, reach_with_mark (cable, index, options));
}

/**
 * rw_draw_cable_line: cable @index of the scene without what it says.
 */
void
rw_draw_cable_line (cairo_t *cr, const RwScene *scene, guint index, const RwDrawOptions *options)
{
  const RwSceneCable *cable = rw_scene_cable (scene, index);
  RwLineStyle style = rw_lens_cable_style (options->lens, index, cable->style);
  RwHeld held;

  if (!is_drawn (cable, index, options))
    return;
  rw_draw_line (cr, cable->points, cable->n_points, style, cable->fault && style != RW_LINE_FAILED, options);
  held = rw_lens_cable_held (options->lens, index, cable->held);
  if (held != RW_HELD_NOT)
    draw_held (cr, cable, held, options);
}

/**
 * rw_draw_cable_words: what cable @index of the scene says: its label on bare sheet, its bead and the lens' mark.
 */
void
rw_draw_cable_words (cairo_t *cr, const RwScene *scene, guint index, const RwDrawOptions *options)
{
  const RwSceneCable *cable = rw_scene_cable (scene, index);
  RwLineStyle style = rw_lens_cable_style (options->lens, index, cable->style);
  gboolean labelled = cable->text != NULL && cable->label.w > 0 && rw_draw_detail (options) >= RW_DETAIL_PORTS
                      && rw_pen_says (options, cable->label);
  RW_DRAW_OWN_CONTEXT (options);

  if (!is_drawn (cable, index, options))
    return;
  if (labelled)
    clear_label (cr, cable, options);
  draw_mark (cr, cable, index, options);
  if (lines[style].bead && rw_lens_cable_mark (options->lens, index) == NULL)
    rw_draw_bead (cr, bead_place (cable, BEAD / 3), style, cable->fault, options);
  if (labelled)
    draw_label (cr, cable, options);
}

/**
 * rw_draw_cable: cable @index of the scene with its bead and label.
 */
void
rw_draw_cable (cairo_t *cr, const RwScene *scene, guint index, const RwDrawOptions *options)
{
  rw_draw_cable_line (cr, scene, index, options);
  rw_draw_cable_words (cr, scene, index, options);
}

/* A stroke across the end: a bad cable shows without its colour. */
static void
draw_cross (cairo_t *cr, RwPoint at, const RwDrawOptions *options)
{
  const double r = 1.8;

  rw_pen_set (cr, options, RW_PEN_FRAME);
  cairo_move_to (cr, at.x - r, at.y - r);
  cairo_line_to (cr, at.x + r, at.y + r);
  cairo_move_to (cr, at.x - r, at.y + r);
  cairo_line_to (cr, at.x + r, at.y - r);
  cairo_stroke (cr);
}

/**
 * rw_draw_loose_cable: a cable in the air. @bad: letting it go here would make an error.
 */
void
rw_draw_loose_cable (cairo_t *cr, const RwPoint *points, guint n_points, gboolean bad, const RwDrawOptions *options)
{
  double width = bad ? 2 * RW_PEN_THICK : RW_PEN_THICK;

  g_return_if_fail (n_points > 0);

  cairo_save (cr);
  rw_ink_set (cr, bad ? RW_INK_FAULT : RW_INK_SELECTED, options);
  rw_pen_set (cr, options, width);
  cairo_new_path (cr);
  add_path (cr, options, width, points, n_points);
  cairo_stroke (cr);
  if (bad)
    draw_cross (cr, points[n_points - 1], options);
  else
    {
      cairo_arc (cr, points[n_points - 1].x, points[n_points - 1].y, BEAD, 0, 2 * G_PI);
      cairo_fill (cr);
    }
  cairo_restore (cr);
}
