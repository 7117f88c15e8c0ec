/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "rw-plan-parts.h"

#define CLEAR 7.0         /* round the drawing: past the centring marks */
#define LEGEND_PAD 4.0

/* Beside the title block or above it, over the whole width: wherever it leaves more room for the drawing. */
static void
place_legend (RwPlanDrawing *drawing, const RwLegend *legend)
{
  RwRect f = drawing->frame, b = drawing->block;
  double narrow = f.w - b.w - 2 * LEGEND_PAD, wide = f.w - 2 * LEGEND_PAD;
  double beside = MAX (rw_legend_height (legend, narrow) + 1, b.h);
  double above = rw_legend_height (legend, wide) + 1;

  if (beside <= above + 1 + b.h)
    drawing->legend = (RwRect) { f.x + LEGEND_PAD, f.y + f.h - beside, narrow, beside };
  else
    drawing->legend = (RwRect) { f.x + LEGEND_PAD, b.y - above - 1, wide, above };
}

/* Scales at which a drawing is fitted: those of ISO 5455 and a few steps between, so that paper is not wasted. A small rig
 * grows to no more than 2:1. */
static double
fitting_scale (RwRect area, RwRect bounds)
{
  static const double larger[] = { 2, 1.6, 1.25 };
  static const double parts[] = { 1, 1.1, 1.25, 1.4, 1.6, 1.8, 2, 2.25, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.5, 6, 7, 8, 9 };
  double most = MIN (area.w / bounds.w, area.h / bounds.h);

  for (guint i = 0; i < G_N_ELEMENTS (larger); i++)
    if (larger[i] <= most)
      return larger[i];
  for (double ten = 1; ten < 1e6; ten *= 10)
    for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
      if (1 / (ten * parts[i]) <= most)
        return 1 / (ten * parts[i]);
  return most;
}

/**
 * rw_plan_scale_text: "1:2", "2:1". Free with g_free().
 */
char *
rw_plan_scale_text (double scale)
{
  if (scale >= 1)
    return g_strdup_printf ("%.4g:1", scale);
  return g_strdup_printf ("1:%.3g", 1 / scale);
}

static void
place_drawing (RwPlanDrawing *drawing, const RwScene *scene, double scale)
{
  RwRect bounds = rw_scene_bounds (scene), area = drawing->area;

  if (rw_scene_n_devices (scene) == 0)
    return;
  drawing->scale = scale > 0 ? scale : fitting_scale (area, bounds);
  drawing->x = RW_RECT_MIDDLE_X (area) - RW_RECT_MIDDLE_X (bounds) * drawing->scale;
  drawing->y = RW_RECT_MIDDLE_Y (area) - RW_RECT_MIDDLE_Y (bounds) * drawing->scale;
}

/**
 * rw_plan_drawing_arrange: shares out the first sheet, paper of @width × @height mm.
 */
void
rw_plan_drawing_arrange (RwPlanDrawing *drawing, RwDrawContext *context, const RwScene *scene,
                         const RwLegend *legend, const RwSheetOptions *options, double width, double height)
{
  RwRect f = rw_sheet_frame (width, height);
  double block_width = MIN (RW_TITLE_WIDTH, f.w);
  double block_height = rw_sheet_title_height (context, block_width, TRUE);
  double bottom;

  *drawing = (RwPlanDrawing) { .frame = f };
  drawing->block = (RwRect) { f.x + f.w - block_width, f.y + f.h - block_height, block_width, block_height };
  place_legend (drawing, legend);
  bottom = MIN (drawing->block.y, rw_legend_n (legend) > 0 ? drawing->legend.y : G_MAXDOUBLE);
  drawing->area = (RwRect) { f.x + CLEAR, f.y + CLEAR, f.w - 2 * CLEAR, bottom - f.y - CLEAR - CLEAR / 2 };
  place_drawing (drawing, scene, options->scale);
}

/* A place that links lead to, a little above and left of @at, in the drawing's own millimetres. cairo takes it in
 * points of the page: whole ones, as for rw_place_mark(). */
static void
mark_place (cairo_t *cr, const char *kind, guint index, RwPoint at)
{
  g_autofree char *attributes = NULL;

  at.x -= 20;
  at.y -= 20;
  cairo_user_to_device (cr, &at.x, &at.y);
  attributes = g_strdup_printf ("name='%s-%u' x=%d y=%d", kind, index, (int) MAX (at.x, 0), (int) MAX (at.y, 0));
  cairo_tag_begin (cr, CAIRO_TAG_DEST, attributes);
  cairo_tag_end (cr, CAIRO_TAG_DEST);
}

static RwPoint
cable_place (const RwSceneCable *cable)
{
  if (cable->label.w > 0)
    return (RwPoint) { RW_RECT_MIDDLE_X (cable->label), RW_RECT_MIDDLE_Y (cable->label) };
  return cable->n_points > 0 ? cable->points[0] : (RwPoint) { cable->bounds.x, cable->bounds.y };
}

static RwPoint
finding_place (const RwScene *scene, guint finding)
{
  RwRect all = rw_scene_bounds (scene);

  for (guint i = 0; i < rw_scene_n_balloons (scene); i++)
    if (rw_scene_balloon (scene, i)->finding == finding)
      return rw_scene_balloon (scene, i)->centre;
  return (RwPoint) { all.x, all.y };
}

static void
mark_places (cairo_t *cr, const RwScene *scene)
{
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    mark_place (cr, RW_PLACE_CABLE, i, cable_place (rw_scene_cable (scene, i)));
  for (guint i = 0; i < rw_findings_n (rw_scene_findings (scene)); i++)
    mark_place (cr, RW_PLACE_FINDING, i, finding_place (scene, i));
}

static void
draw_nothing (cairo_t *cr, RwRect area, const RwDrawOptions *options)
{
  rw_ink_set (cr, RW_INK_FAINT, options);
  rw_draw_text (cr, options, _("There are no devices in this rig."), (RwTextStyle) { RW_EM_HEAD, FALSE },
                RW_RECT_MIDDLE_X (area), RW_RECT_MIDDLE_Y (area), 0.5, area.w);
}

/**
 * rw_plan_drawing_draw: the drawing in its area and the legend; what a scale asked for makes too large is cut off at
 * the frame.
 */
void
rw_plan_drawing_draw (const RwPlanDrawing *drawing, cairo_t *cr, const RwScene *scene,
                      const RwLegend *legend, const RwDrawOptions *options)
{
  RwRect f = drawing->frame;

  cairo_save (cr);
  if (drawing->scale > 0)
    {
      cairo_rectangle (cr, f.x, f.y, f.w, drawing->area.y + drawing->area.h - f.y);
      cairo_clip (cr);
      cairo_translate (cr, drawing->x, drawing->y);
      cairo_scale (cr, drawing->scale, drawing->scale);
      rw_draw_scene (cr, scene, options);
    }
  if (!options->unlinked)
    mark_places (cr, scene);
  cairo_restore (cr);
  if (drawing->scale <= 0)
    draw_nothing (cr, drawing->area, options);
  rw_legend_draw (legend, cr, drawing->legend, options);
}
