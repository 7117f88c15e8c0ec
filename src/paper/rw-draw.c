/* SPDX-License-Identifier: MIT */
#include "rw-draw-pen.h"
#include "rw-draw-text.h"

/* px_per_mm from which each step of detail shows: text comes in when it can be read, about 5 px high. */
static const double least_px[] = {
  [RW_DETAIL_BOXES] = 0.0,
  [RW_DETAIL_NAMES] = 0.5,
  [RW_DETAIL_PARTS] = 1.5,
  [RW_DETAIL_PORTS] = 2.0,
};

/**
 * rw_draw_detail: what shows at the magnification of @options. Paper shows everything.
 */
RwDetail
rw_draw_detail (const RwDrawOptions *options)
{
  RwDetail detail = RW_DETAIL_PORTS;

  if (options->px_per_mm <= 0)
    return detail;
  while (detail > RW_DETAIL_BOXES && options->px_per_mm < least_px[detail])
    detail--;
  return detail;
}

typedef void (*DrawCable) (cairo_t *cr, const RwScene *scene, guint cable, const RwDrawOptions *options);

/* Those at fault last. */
static void
draw_cables (cairo_t *cr, const RwScene *scene, const RwDrawOptions *options, DrawCable draw)
{
  for (int fault = 0; fault <= 1; fault++)
    for (guint i = 0; i < rw_scene_n_cables (scene); i++)
      if (!rw_scene_cable (scene, i)->fault == !fault)
        draw (cr, scene, i, options);
}

void
rw_draw_lines (cairo_t *cr, const RwScene *scene, const RwDrawOptions *options)
{
  draw_cables (cr, scene, options, rw_draw_cable_line);
}

void
rw_draw_words (cairo_t *cr, const RwScene *scene, const RwDrawOptions *options)
{
  RW_DRAW_OWN_CONTEXT (options);

  draw_cables (cr, scene, options, rw_draw_cable_words);
}

/**
 * rw_draw_scene: lines under what they say under devices under clouds under balloons.
 */
void
rw_draw_scene (cairo_t *cr, const RwScene *scene, const RwDrawOptions *options)
{
  RW_DRAW_OWN_CONTEXT (options);

  rw_draw_lines (cr, scene, options);
  rw_draw_words (cr, scene, options);
  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    rw_draw_device (cr, scene, i, options);
  rw_draw_clouds (cr, options);
  for (guint i = 0; options->balloons && i < rw_scene_n_balloons (scene); i++)
    rw_draw_balloon (cr, scene, i, options);
}
