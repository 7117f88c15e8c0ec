/* SPDX-License-Identifier: MIT */
#pragma once

#include <cairo.h>
#include "rw-scene.h"

G_BEGIN_DECLS

/**
 * Drawing of a scene on any cairo context whose user space is sheet millimetres.
 * The canvas and all exports call these functions and no others.
 */
typedef struct
{
  gboolean dark;       /* dark sheet */
  gboolean mono;       /* black and white only */
  gboolean balloons;
  double px_per_mm;    /* of a screen, for dropping detail in steps when far out; 0 = paper: everything */
  RwRect clip;         /* only what meets it is drawn; w = 0: all */
} RwDrawOptions;

typedef struct { double r, g, b; } RwInk;
/* The one list of colours; roles, not hues. */
typedef enum
{
  RW_INK_TEXT, RW_INK_FAINT, RW_INK_SHEET, RW_INK_BOX, RW_INK_BOX_LINE, RW_INK_CHAIN, RW_INK_PRIMARY,
  RW_INK_SECONDARY, RW_INK_CASING, RW_INK_PLAIN, RW_INK_FAULT, RW_INK_WARNING, RW_INK_NOTE, RW_INK_SELECTED,
} RwInkRole;
RwInk rw_ink (RwInkRole role, const RwDrawOptions *options);

void rw_draw_scene (cairo_t *cr, const RwScene *scene, const RwDrawOptions *options);
void rw_draw_device (cairo_t *cr, const RwScene *scene, guint device, const RwDrawOptions *options);
void rw_draw_cable (cairo_t *cr, const RwScene *scene, guint cable, const RwDrawOptions *options);
void rw_draw_balloon (cairo_t *cr, const RwScene *scene, guint balloon, const RwDrawOptions *options);
void rw_draw_loose_cable (cairo_t *cr, const RwPoint *points, guint n_points, gboolean bad, const RwDrawOptions *options);
void rw_draw_part_ghost (cairo_t *cr, const RwPart *part, const char *name, double x, double y, const RwDrawOptions *options);

G_END_DECLS
