/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-draw.h"

G_BEGIN_DECLS

typedef struct { const char *name, *label; double width_mm, height_mm; } RwPaper; /* portrait */
guint rw_n_papers (void);
const RwPaper *rw_paper (guint index);
const RwPaper *rw_paper_find (const char *name);

typedef struct
{
  const RwPaper *paper;
  gboolean portrait;   /* default: landscape */
  double scale;        /* 0 = fitted; 0.5 = 1:2 */
  gboolean mono;
  gboolean balloons;
} RwSheetOptions;
void rw_sheet_options_init (RwSheetOptions *options);

/* Draws sheet @page of the cable plan (0 = the drawing, then tables) in millimetres from the paper's corner. */
typedef struct _RwPlan RwPlan;
RwPlan *rw_plan_new (const RwRig *rig, const RwSheetOptions *options);
void rw_plan_free (RwPlan *plan);
guint rw_plan_n_pages (const RwPlan *plan);
void rw_plan_draw_page (const RwPlan *plan, guint page, cairo_t *cr);
void rw_plan_size (const RwPlan *plan, double *width_mm, double *height_mm);

/* Writes FILE by its extension: .pdf all pages, .png and .svg the drawing. @dpi for PNG, 36…1200. */
gboolean rw_export_plan (const RwRig *rig, const char *path, const RwSheetOptions *options, double dpi, GError **error);

G_END_DECLS
