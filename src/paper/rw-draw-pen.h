/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-draw.h"

G_BEGIN_DECLS

/* Widths of lines in mm, from the series of ISO 128-2. */
#define RW_PEN_HAIR 0.18
#define RW_PEN_THIN 0.25
#define RW_PEN_MEDIUM 0.35
#define RW_PEN_THICK 0.5
#define RW_PEN_FRAME 0.7

double rw_pen_set (cairo_t *cr, const RwDrawOptions *options, double width);
void rw_pen_snap (cairo_t *cr, const RwDrawOptions *options, double width, double *x, double *y);
void rw_pen_rect (cairo_t *cr, const RwDrawOptions *options, double width, RwRect rect);
gboolean rw_pen_meets (const RwDrawOptions *options, RwRect rect);
gboolean rw_pen_says (const RwDrawOptions *options, RwRect rect);

#define RW_RECT_MIDDLE_X(rect) ((rect).x + (rect).w / 2)
#define RW_RECT_MIDDLE_Y(rect) ((rect).y + (rect).h / 2)

G_END_DECLS
