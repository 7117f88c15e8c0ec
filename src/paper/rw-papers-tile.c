/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-papers-parts.h"

#define BEYOND 4.0       /* what is drawn past a match line, so that both sheets show what crosses it */
#define TEXT_AWAY 2.0    /* from there to the middle of the match line's text */
#define EVERYWHERE 1e7   /* mm */

/**
 * rw_plan_tile_transform: makes the drawing's mm the user space of @cr, whose own is the paper's.
 */
void
rw_plan_tile_transform (const RwPlanTile *tile, cairo_t *cr)
{
  cairo_translate (cr, tile->place.x - tile->rect.x * tile->scale, tile->place.y - tile->rect.y * tile->scale);
  cairo_scale (cr, tile->scale, tile->scale);
}

/* Where nothing goes on, what lies outside is this tile's too. */
static RwRect
own_part (const RwPlanTile *tile)
{
  const guint *behind = tile->behind;
  RwRect r = tile->rect;
  double left = behind[RW_EDGE_LEFT] > 0 ? r.x : -EVERYWHERE, right = behind[RW_EDGE_RIGHT] > 0 ? r.x + r.w : EVERYWHERE;
  double top = behind[RW_EDGE_TOP] > 0 ? r.y : -EVERYWHERE, bottom = behind[RW_EDGE_BOTTOM] > 0 ? r.y + r.h : EVERYWHERE;

  return (RwRect) { left, top, right - left, bottom - top };
}

static RwRect
grown (RwRect r, double by)
{
  return (RwRect) { r.x - by, r.y - by, r.w + 2 * by, r.h + 2 * by };
}

static gboolean
overlap (RwRect a, RwRect b)
{
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

/* A device that only reaches into the strip past a match line stands whole on the sheet behind it. */
static void
draw_lines_and_boxes (const RwPlanTile *tile, cairo_t *cr, const RwScene *scene, const RwDrawOptions *options)
{
  RwRect shown = grown (tile->place, BEYOND);

  cairo_save (cr);
  cairo_rectangle (cr, shown.x, shown.y, shown.w, shown.h);
  cairo_clip (cr);
  rw_plan_tile_transform (tile, cr);
  rw_draw_lines (cr, scene, options);
  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    if (overlap (rw_scene_device (scene, i)->bounds, tile->rect))
      rw_draw_device (cr, scene, i, options);
  rw_draw_clouds (cr, options);
  cairo_restore (cr);
}

static void
draw_match_line (cairo_t *cr, RwRect a, RwEdge edge, const RwDrawOptions *options)
{
  double x = edge == RW_EDGE_RIGHT ? a.x + a.w : a.x, y = edge == RW_EDGE_BOTTOM ? a.y + a.h : a.y;
  gboolean upright = edge == RW_EDGE_LEFT || edge == RW_EDGE_RIGHT;

  rw_ink_set (cr, RW_INK_FAINT, options);
  rw_pen_set (cr, options, RW_PEN_THICK);
  cairo_set_dash (cr, (const double[]) { 8, 1.5, 1, 1.5 }, 4, 0);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, upright ? x : x + a.w, upright ? y + a.h : y);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

/* Whether something that is said by the drawing stands at @area of the paper. */
static gboolean
is_written (const RwPlanTile *tile, const RwScene *scene, RwRect area, const RwDrawOptions *options)
{
  RwRect at = {
    tile->rect.x + (area.x - tile->place.x) / tile->scale, tile->rect.y + (area.y - tile->place.y) / tile->scale,
    area.w / tile->scale, area.h / tile->scale,
  };

  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    {
      RwRect label = rw_scene_cable (scene, i)->label;

      if (label.w > 0 && overlap (label, at) && rw_pen_says (options, label))
        return TRUE;
    }
  for (guint i = 0; i < rw_scene_n_balloons (scene); i++)
    {
      const RwSceneBalloon *b = rw_scene_balloon (scene, i);

      if (overlap (grown ((RwRect) { b->centre.x, b->centre.y, 0, 0 }, b->radius), at))
        return TRUE;
    }
  return FALSE;
}

/* In the middle of its line, or as near to it as the drawing's words leave room. */
static void
draw_match_text (const RwPlanTile *tile, cairo_t *cr, const RwScene *scene, RwEdge edge, const RwDrawOptions *options)
{
  static const double shares[] = { 0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82 };
  RwTextStyle style = { RW_EM_LABEL, TRUE };
  RwRect a = tile->place;
  gboolean upright = edge == RW_EDGE_LEFT || edge == RW_EDGE_RIGHT;
  double away = BEYOND + TEXT_AWAY, length = upright ? a.h : a.w;
  /* Translators: beside a line at which a drawing is cut; the number of the sheet that shows the rest. */
  g_autofree char *text = g_strdup_printf (_("Match line: continued on sheet %u"), tile->behind[edge]);
  double half = MIN (length, rw_draw_text_width (options->context, text, style)) / 2;
  RwPoint c = { 0, 0 };

  for (guint i = G_N_ELEMENTS (shares) + 1; i-- > 0;)
    {
      double share = shares[(G_N_ELEMENTS (shares) - i) % G_N_ELEMENTS (shares)];

      c.x = upright ? (edge == RW_EDGE_LEFT ? a.x - away : a.x + a.w + away) : a.x + a.w * share;
      c.y = upright ? a.y + a.h * share : (edge == RW_EDGE_TOP ? a.y - away : a.y + a.h + away);
      if (!is_written (tile, scene, (RwRect) { c.x - (upright ? 2 : half), c.y - (upright ? half : 2), upright ? 4 : 2 * half, upright ? 2 * half : 4 }, options))
        break;
    }
  cairo_save (cr);
  cairo_translate (cr, c.x, c.y);
  if (upright)
    cairo_rotate (cr, -G_PI / 2);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_draw_text (cr, options, text, style, 0, 0, 0.5, length);
  cairo_restore (cr);
}

/* Last, and to the last letter: they break the match lines. */
static void
draw_words (const RwPlanTile *tile, cairo_t *cr, const RwScene *scene, const RwDrawOptions *options)
{
  cairo_save (cr);
  rw_plan_tile_transform (tile, cr);
  rw_draw_words (cr, scene, options);
  for (guint i = 0; i < rw_scene_n_balloons (scene); i++)
    rw_draw_balloon (cr, scene, i, options);
  cairo_restore (cr);
}

/**
 * rw_plan_tile_draw: a piece of the drawing of @scene with its match lines. What crosses such a line is drawn a little
 * past it; words are drawn whole, on the sheet on which their middle lies and on each other that has room for them.
 */
void
rw_plan_tile_draw (const RwPlanTile *tile, cairo_t *cr, const RwScene *scene, const RwDrawOptions *options)
{
  RwDrawOptions part = *options;

  part.clip = grown (tile->rect, BEYOND / tile->scale);
  part.own = own_part (tile);
  draw_lines_and_boxes (tile, cr, scene, &part);
  for (guint edge = 0; edge < G_N_ELEMENTS (tile->behind); edge++)
    if (tile->behind[edge] > 0)
      draw_match_line (cr, tile->place, (RwEdge) edge, options);
  for (guint edge = 0; edge < G_N_ELEMENTS (tile->behind); edge++)
    if (tile->behind[edge] > 0)
      draw_match_text (tile, cr, scene, (RwEdge) edge, &part);
  draw_words (tile, cr, scene, &part);
}
