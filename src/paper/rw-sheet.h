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
  RwLensKind lens;
  const RwRig *since;  /* (nullable): an older state: clouds go round what changed; read only while the plan is made */
  const char *from;    /* (nullable): id of the device that hops are counted from; of no device: as NULL */
  const char *const *fail; /* (nullable): ids of devices and cables that have failed, for the Failure lens */
} RwSheetOptions;
void rw_sheet_options_init (RwSheetOptions *options);

/* Draws sheet @page of the cable plan (0 = the drawing, then tables) in millimetres from the paper's corner.
 * A plan belongs to the thread that made it; it keeps nothing of @rig that a change of it could alter. */
typedef struct _RwPlan RwPlan;
RwPlan *rw_plan_new (const RwRig *rig, const RwSheetOptions *options);
void rw_plan_free (RwPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwPlan, rw_plan_free)
guint rw_plan_n_pages (const RwPlan *plan);
void rw_plan_draw_page (const RwPlan *plan, guint page, cairo_t *cr);
void rw_plan_size (const RwPlan *plan, double *width_mm, double *height_mm);
double rw_plan_scale (const RwPlan *plan);
/* Whether the whole drawing lies on its page: always when fitted. */
gboolean rw_plan_fits (const RwPlan *plan);

/* The parts of the plan, for an outline: their titles and first pages. */
typedef struct { const char *title; guint page; } RwPlanPart;
guint rw_plan_n_parts (const RwPlan *plan);
RwPlanPart rw_plan_part (const RwPlan *plan, guint index);

#define RW_PAPER_ERROR (rw_paper_error_quark ())
GQuark rw_paper_error_quark (void);
typedef enum
{
  RW_PAPER_ERROR_KIND = 1, /* the file's extension is none that can be written */
  RW_PAPER_ERROR_SIZE,     /* the picture would be too large, the drawing larger than the paper, dpi out of range */
  RW_PAPER_ERROR_DRAW,     /* cairo failed */
} RwPaperError;

#define RW_DPI_LEAST 36
#define RW_DPI_MOST 1200

/* Writes FILE by its extension: .pdf all pages, .png and .svg the drawing. @dpi for PNG, 36…1200. */
gboolean rw_export_plan (const RwRig *rig, const char *path, const RwSheetOptions *options, double dpi, GError **error);

G_END_DECLS
