/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-draw-pen.h"
#include "rw-draw-text.h"
#include "rw-sheet.h"

G_BEGIN_DECLS

/* rw-sheet-frame.c */
RwRect rw_sheet_frame (double width, double height);
guint rw_sheet_n_fields (double length);
void rw_sheet_draw_frame (cairo_t *cr, double width, double height, const RwDrawOptions *options);

/* rw-sheet-title.c: what stands in the title block of a page. All (nullable). */
typedef struct
{
  const char *title, *venue, *date, *revision, *drawn_by;
  const char *document_type, *scale;
  guint sheet, n_sheets;
} RwTitle;
#define RW_TITLE_WIDTH 180.0 /* ISO 7200 */
const char *rw_sheet_caution (void);
double rw_sheet_title_height (RwDrawContext *context, double width, gboolean whole);
void rw_sheet_draw_title (cairo_t *cr, RwRect block, const RwTitle *title, gboolean whole, const RwDrawOptions *options);

/* rw-sheet-legend.c: explains only what occurs in the scene. */
typedef struct _RwLegend RwLegend;
RwLegend *rw_legend_new (RwDrawContext *context, const RwScene *scene, const RwLens *lens, const RwClouds *clouds,
                         gboolean balloons);
void rw_legend_free (RwLegend *legend);
guint rw_legend_n (const RwLegend *legend);
double rw_legend_width (const RwLegend *legend);
double rw_legend_height (const RwLegend *legend, double width);
void rw_legend_draw (const RwLegend *legend, cairo_t *cr, RwRect place, const RwDrawOptions *options);

G_END_DECLS
