/* SPDX-License-Identifier: MIT */
#pragma once

#include <cairo.h>
#include <rig/rw-difference.h>
#include "rw-scene.h"

G_BEGIN_DECLS

/**
 * RwClouds: revision clouds: where on a drawing something was added, removed or changed since an older state, by what
 * rw_differences_new() says. It is only read once it is made.
 */
typedef struct _RwClouds RwClouds;

/* Something that is no longer there, where it stood. */
typedef struct
{
  RwRect rect;
  char *name;
} RwCloudGhost;

RwClouds *rw_clouds_new (const RwRig *older, const RwRig *newer, const RwScene *scene);
RwClouds *rw_clouds_ref (RwClouds *clouds);
void rw_clouds_unref (RwClouds *clouds);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwClouds, rw_clouds_unref)

/* What stands in the triangles: the letter of the newer state, or the one that it would get. */
const char *rw_clouds_letter (const RwClouds *clouds);
/* The outlines, right-angled, what they enclose on their right; holes run the other way round. */
guint rw_clouds_n (const RwClouds *clouds);
const RwPoint *rw_clouds_outline (const RwClouds *clouds, guint index, guint *n_points);
/* Whether the outline has a triangle, as holes have none; @centre: (out): its. */
gboolean rw_clouds_triangle (const RwClouds *clouds, guint index, RwPoint *centre);
#define RW_CLOUD_TRIANGLE 7.0 /* its height, mm */
#define RW_CLOUD_ROOM 3.5     /* what the bumps and their pen take beyond the outline, mm */
guint rw_clouds_n_ghosts (const RwClouds *clouds);
const RwCloudGhost *rw_clouds_ghost (const RwClouds *clouds, guint index);
/* Of all that is clouded; w = 0: nothing. */
RwRect rw_clouds_bounds (const RwClouds *clouds);
/* Where what @difference speaks of lies on the drawing; w = 0: nowhere. */
RwRect rw_clouds_place (const RwScene *scene, const RwRig *older, const RwDifference *difference);

/* rw-cloud-outline.c: the outlines of the union of @n rectangles, snapped outwards to a grid. (element-type GArray of RwPoint) */
GPtrArray *rw_cloud_outlines (const RwRect *rects, guint n);

G_END_DECLS
