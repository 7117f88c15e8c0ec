/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-sheet-parts.h"
#include "rw-table.h"

G_BEGIN_DECLS

/* Places in the document to which the lists lead are called KIND-INDEX; the index is the scene's or the findings'. */
#define RW_PLACE_CABLE "cable"
#define RW_PLACE_FINDING "finding"

/* rw-plan-drawing.c: the first sheet. */
typedef struct
{
  RwRect frame;
  RwRect block;       /* title block */
  RwRect legend;
  RwRect area;        /* for the drawing */
  double scale;       /* 0: nothing is drawn */
  double x, y;        /* where the sheet's (0, 0) lies on the paper */
} RwPlanDrawing;
void rw_plan_drawing_arrange (RwPlanDrawing *drawing, RwDrawContext *context, const RwScene *scene,
                              const RwLegend *legend, const RwSheetOptions *options, double width, double height);
char *rw_plan_scale_text (double scale);
void rw_plan_drawing_draw (const RwPlanDrawing *drawing, cairo_t *cr, const RwScene *scene,
                           const RwLegend *legend, const RwDrawOptions *options);

/* rw-plan-lists.c: the tables of the sheets that follow. */
RwTableLayout *rw_plan_cable_list (RwDrawContext *context, double em, double width, const RwScene *scene);
RwTableLayout *rw_plan_failure_list (RwDrawContext *context, double em, const RwRig *rig, const RwOutcome *outcome);
RwTableLayout *rw_plan_finding_list (RwDrawContext *context, double em, const RwFindings *findings);

G_END_DECLS
