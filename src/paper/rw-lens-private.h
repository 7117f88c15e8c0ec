/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-draw.h"
#include "rw-scene-index.h"

G_BEGIN_DECLS

/* RwCorner: near and far out. */
typedef struct { guint8 at[2]; } RwBadgeCorners;

struct _RwLens
{
  gatomicrefcount refs;
  RwLensKind kind;
  RwNet *net;
  guint from;
  char *heading;
  RwLineStyle *styles; /* by cable; NULL = as usual */
  char **marks;        /* by cable, each nullable; NULL = none */
  RwLensFlow *flows;   /* by cable; NULL = none */
  RwLensPlace *places; /* by cable; NULL = not looked for */
  char **badges;       /* by device, likewise */
  RwBadgeCorners *corners; /* by device; NULL = not looked for */
  RwFailed *failed;    /* of the Failure lens; else NULL */
  RwOutcome *outcome;  /* likewise */
  double *depths;      /* by device, where there are badges */
  GPtrArray *samples;  /* of RwLensSample */
};

void rw_lens_add_sample (RwLens *lens, RwLensSample sample);
void rw_lens_fill_planes (RwLens *lens);
void rw_lens_fill_hops (RwLens *lens);
void rw_lens_fill_load (RwLens *lens);
void rw_lens_fill_failure (RwLens *lens);

RwSceneIndex *rw_lens_place_badges (RwLens *lens, const RwScene *scene, RwDrawContext *context);
RwLineStyle rw_lens_failure_style (const RwLens *lens, guint cable, RwLineStyle usual);

G_END_DECLS
