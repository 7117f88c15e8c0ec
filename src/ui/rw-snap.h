/* SPDX-License-Identifier: MIT */
#pragma once

#include <paper/rw-scene.h>

#include "rw-tool.h"

G_BEGIN_DECLS

/* Other devices catch a dragged edge or centre from this near. */
#define RW_SNAP_REACH_MM 1.5

double rw_snap_to_grid (double mm);
GArray *rw_snap_boxes (const RwScene *scene, const guint *left_out, guint n_left_out);
RwPoint rw_snap_box (const GArray *others, RwRect box, GArray *guides);

G_END_DECLS
