/* SPDX-License-Identifier: MIT */
/* What lenses put on the sheet: letters of networks, numbers on devices, links held open. */
#include <math.h>

#include "rw-draw-pen.h"
#include "rw-draw-text.h"

#define GAP_MM 2.0     /* between the two bars of a link held open */
#define BAR_MM 3.2     /* their length */
#define GAP_WIDTH 2.0  /* of line that the gap wipes out, its halo included */
#define HATCH_MM 2.4    /* between the lines of a hatching */
#define LEAST_PX 3.0   /* what would be smaller on a screen is left out */
#define BADGE_HEIGHT 4.6
#define MOST_GROWTH (2 * G_SQRT2) /* of a badge far out: three steps of √2 */
#define DEEPEST 0.3    /* share of the tint in the box of the farthest device: its text keeps 4.5:1 (WCAG 2.2) */

static const RwTextStyle mark_style = { RW_EM_LEAST, TRUE };
static const RwTextStyle flow_style = { RW_EM_LEAST, FALSE };

static gboolean
is_readable (const RwDrawOptions *options, double em)
{
  return options->px_per_mm <= 0 || em * options->px_per_mm >= 2 * LEAST_PX;
}

/* How many times larger than it is letters of @em mm are drawn far out, so that they can be read; 0 = not at all. */
static double
growth_of (const RwDrawOptions *options, double em, double most)
{
  double growth = 1;

  while (growth < most && !is_readable (options, em * growth))
    growth *= G_SQRT2;
  return is_readable (options, em * growth) ? growth : 0;
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

/* rw_draw_mark_width: of what rw_draw_mark() draws, mm. */
double
rw_draw_mark_width (RwDrawContext *context, const char *text)
{
  return MAX (RW_MARK_HEIGHT, rw_draw_text_width (context, text, mark_style) + 1.8);
}

/**
 * rw_draw_mark: the letters of a cable's networks in a ring on its line.
 * @always: far out it grows until it can be read, as a badge does
 */
void
rw_draw_mark (cairo_t *cr, RwPoint centre, const char *text, gboolean always, const RwDrawOptions *options)
{
  RW_DRAW_OWN_CONTEXT (options);
  double growth = growth_of (options, mark_style.em, always ? RW_MARK_GROWTH : 1), h = RW_MARK_HEIGHT * growth, w;

  if (growth <= 0)
    return;
  w = growth * rw_draw_mark_width (options->context, text);
  add_pill (cr, centre.x - w / 2, centre.y - h / 2, w, h);
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_THIN);
  cairo_stroke (cr);
  rw_draw_text (cr, options, text, (RwTextStyle) { mark_style.em * growth, mark_style.bold }, centre.x, centre.y, 0.5, 0);
}

#define ARROW_MM 1.5     /* length of an arrow head */
#define ARROW_GAP 0.6    /* between it and its text */
#define FLOW_GAP 1.6     /* between the two directions */
#define FLOW_PAD 0.7
#define FLOW_LINE 2.9    /* height of a line of text */

/* Directions in which something passes. */
static guint
n_directions (const RwLensFlow *flow)
{
  return (flow->mbps[0] > 0) + (flow->mbps[1] > 0);
}

static double
direction_width (RwDrawContext *context, const RwLensFlow *flow, guint direction, gboolean detailed)
{
  g_autofree char *text = rw_lens_flow_text (flow, direction, detailed);

  return flow->mbps[direction] > 0 ? ARROW_MM + ARROW_GAP + rw_draw_text_width (context, text, flow_style) : 0;
}

/**
 * rw_draw_flow_size:
 * @context: for measuring
 * @flow: what passes
 * @detailed: with Mb/s
 * @upright: on an upright line, where the two directions stand one over the other
 * @w: (out): mm
 * @h: (out): mm
 */
void
rw_draw_flow_size (RwDrawContext *context, const RwLensFlow *flow, gboolean detailed, gboolean upright, double *w, double *h)
{
  guint n = n_directions (flow);
  double first = direction_width (context, flow, 0, detailed), second = direction_width (context, flow, 1, detailed);

  *w = 2 * FLOW_PAD + (upright ? MAX (first, second) : first + second + (n > 1 ? FLOW_GAP : 0));
  *h = upright ? n * FLOW_LINE + 0.4 : FLOW_LINE + 0.3;
}

/* Points along @along, its middle at @at. */
static void
draw_arrow (cairo_t *cr, RwPoint at, RwPoint along)
{
  double half = ARROW_MM / 2;

  cairo_move_to (cr, at.x + along.x * half, at.y + along.y * half);
  cairo_line_to (cr, at.x - along.x * half - along.y * half, at.y - along.y * half + along.x * half);
  cairo_line_to (cr, at.x - along.x * half + along.y * half, at.y - along.y * half - along.x * half);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* Returns: its width */
static double
draw_direction (cairo_t *cr, const RwLensPlace *place, const RwLensFlow *flow, guint direction, double x, double y,
                RwInkRole ink, const RwDrawOptions *options)
{
  g_autofree char *text = rw_lens_flow_text (flow, direction, place->detailed);
  int sign = direction == 0 ? 1 : -1;

  rw_ink_set (cr, ink, options);
  draw_arrow (cr, (RwPoint) { x + ARROW_MM / 2, y }, (RwPoint) { sign * place->along.x, sign * place->along.y });
  return ARROW_MM + ARROW_GAP + rw_draw_text (cr, options, text, flow_style, x + ARROW_MM + ARROW_GAP, y, 0, 0);
}

/* How much larger than it is a flow is drawn; 0 = not at all. As soon as the cables' labels show it has its own size. */
static double
flow_growth (const RwDrawOptions *options)
{
  return rw_draw_detail (options) >= RW_DETAIL_PORTS ? 1 : growth_of (options, flow_style.em, RW_FLOW_GROWTH);
}

static void
draw_flow (cairo_t *cr, const RwLensPlace *place, const RwLensFlow *flow, const RwDrawOptions *options)
{
  gboolean upright = fabs (place->along.y) > fabs (place->along.x), over = flow->step >= RW_FLOW_OVER_CEILING;
  double x = place->centre.x - place->w / 2 + FLOW_PAD, y = place->centre.y;

  if (upright)
    y -= (n_directions (flow) - 1) * FLOW_LINE / 2;
  cairo_new_path (cr);
  rw_pen_rect (cr, options, RW_PEN_HAIR, (RwRect) { place->centre.x - place->w / 2, place->centre.y - place->h / 2, place->w, place->h });
  rw_ink_set (cr, over ? RW_INK_TEXT : RW_INK_SHEET, options);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_HAIR);
  cairo_stroke (cr);
  for (guint i = 0; i < 2; i++)
    {
      double w;

      if (flow->mbps[i] <= 0)
        continue;
      w = draw_direction (cr, place, flow, i, x, y, over ? RW_INK_SHEET : RW_INK_TEXT, options);
      if (upright)
        y += FLOW_LINE;
      else
        x += w + FLOW_GAP;
    }
}

/**
 * rw_draw_flow: what passes a cable each way, in a box on its line: dark with light letters where it is too much. Far out,
 * where labels do not show, it grows by up to RW_FLOW_GROWTH and leaves out its details; the lowest loads do not show there.
 */
void
rw_draw_flow (cairo_t *cr, const RwLensPlace *place, const RwLensFlow *flow, const RwDrawOptions *options)
{
  RwLensPlace far = *place;
  double growth = flow_growth (options);
  RW_DRAW_OWN_CONTEXT (options);
  RwDrawOptions larger = *options;

  if (place->w <= 0 || growth <= 0 || (growth > 1 && flow->step == RW_FLOW_LOW))
    return;
  if (growth == 1)
    {
      draw_flow (cr, place, flow, options);
      return;
    }
  far.detailed = FALSE;
  rw_draw_flow_size (options->context, flow, FALSE, fabs (place->along.y) > fabs (place->along.x), &far.w, &far.h);
  far.centre = (RwPoint) { 0, 0 };
  larger.px_per_mm *= growth;
  cairo_save (cr);
  cairo_translate (cr, place->centre.x, place->centre.y);
  cairo_scale (cr, growth, growth);
  draw_flow (cr, &far, flow, &larger);
  cairo_restore (cr);
}

static const RwTextStyle badge_style = { RW_EM_NAME, TRUE };

/* On a corner of @box a badge sits a third of its height inside of both edges, beside it a quarter inside of one. */
static RwRect
badge_at (RwRect box, RwCorner corner, double w, double h)
{
  double right = box.x + box.w, bottom = box.y + box.h;
  double lefts[] = { box.x - h / 3, box.x - w + h / 4 }, rights[] = { right - w + h / 3, right - h / 4 };
  double tops[] = { box.y - h * 2 / 3, box.y + h / 6 }, bottoms[] = { bottom - h / 3, bottom - h * 7 / 6 };
  gboolean beside = corner == RW_CORNER_RIGHT_TOP || corner == RW_CORNER_RIGHT_BOTTOM || corner == RW_CORNER_LEFT_TOP
                    || corner == RW_CORNER_LEFT_BOTTOM;
  gboolean left = corner >= RW_CORNER_TOP_LEFT;
  gboolean low = corner == RW_CORNER_BOTTOM_RIGHT || corner == RW_CORNER_RIGHT_BOTTOM || corner == RW_CORNER_BOTTOM_LEFT
                 || corner == RW_CORNER_LEFT_BOTTOM;

  return (RwRect) { left ? lefts[beside] : rights[beside], low ? bottoms[beside] : tops[beside], w, h };
}

static double
badge_growth (const RwDrawOptions *options)
{
  return growth_of (options, badge_style.em, MOST_GROWTH);
}

/**
 * rw_draw_badge_is_far: whether badges are drawn larger than they are, so that they need another corner than near.
 */
gboolean
rw_draw_badge_is_far (const RwDrawOptions *options)
{
  return badge_growth (options) > 1;
}

static RwRect
badge_rect (RwDrawContext *context, RwRect box, RwCorner corner, const char *text, double growth)
{
  double w = rw_draw_text_width (context, text, (RwTextStyle) { badge_style.em * growth, badge_style.bold }) + 2.0;
  double h = BADGE_HEIGHT * growth;

  return badge_at (box, corner, MAX (h, w), h);
}

/**
 * rw_draw_badge_rect: what a badge of @box covers, mm: where all is shown, or, @far out, where it is drawn the largest.
 */
RwRect
rw_draw_badge_rect (RwDrawContext *context, RwRect box, RwCorner corner, const char *text, gboolean far)
{
  return badge_rect (context, box, corner, text, far ? MOST_GROWTH : 1);
}

/**
 * rw_draw_badge_area: what rw_draw_badge() covers, mm; of no size, at the corner, where it draws nothing.
 */
RwRect
rw_draw_badge_area (RwRect box, RwCorner corner, const char *text, const RwDrawOptions *options)
{
  double growth = badge_growth (options);
  RW_DRAW_OWN_CONTEXT (options);

  return growth > 0 ? badge_rect (options->context, box, corner, text, growth) : badge_at (box, corner, 0, 0);
}

/**
 * rw_draw_badge: a number on a corner of a device that has the outline @box. Far out it grows as a device's name does.
 *
 * Returns: its width, mm
 */
double
rw_draw_badge (cairo_t *cr, RwRect box, RwCorner corner, const char *text, const RwDrawOptions *options)
{
  double growth = badge_growth (options);
  RW_DRAW_OWN_CONTEXT (options);
  RwRect at = rw_draw_badge_area (box, corner, text, options);

  if (growth <= 0)
    return 0;
  cairo_new_path (cr);
  rw_pen_rect (cr, options, RW_PEN_MEDIUM, at);
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_MEDIUM);
  cairo_stroke (cr);
  rw_draw_text (cr, options, text, (RwTextStyle) { badge_style.em * growth, badge_style.bold }, RW_RECT_MIDDLE_X (at),
                RW_RECT_MIDDLE_Y (at), 0.5, 0);
  return at.w;
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

/* A failed device is crossed out. */
static void
add_cross (cairo_t *cr, double w, double h)
{
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, w, h);
  cairo_move_to (cr, w, 0);
  cairo_line_to (cr, 0, h);
}

static void
add_hatch (cairo_t *cr, double w, double h)
{
  for (double x = HATCH_MM - h; x < w; x += HATCH_MM)
    {
      cairo_move_to (cr, x, h);
      cairo_line_to (cr, x + h, 0);
    }
}

/**
 * rw_draw_fate: over the box of a device, @w × @h mm from (0, 0), what has become of it: crossed out, or hatched where no
 * sound passes it.
 */
void
rw_draw_fate (cairo_t *cr, double w, double h, RwFate fate, const RwDrawOptions *options)
{
  if (fate < RW_FATE_GAP)
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, 0, 0, w, h);
  cairo_clip (cr);
  if (fate == RW_FATE_FAILED)
    add_cross (cr, w, h);
  else
    add_hatch (cr, w, h);
  rw_ink_set (cr, fate == RW_FATE_FAILED ? RW_INK_FAULT : RW_INK_RULE, options);
  cairo_set_dash (cr, NULL, 0, 0);
  rw_pen_set (cr, options, fate == RW_FATE_FAILED ? 1.2 : RW_PEN_THIN);
  cairo_stroke (cr);
  cairo_restore (cr);
}
