/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-geometry.h"

G_BEGIN_DECLS

/* RwSceneIndex: finds rectangles by where they lie: numbered things in the cells of a hashed uniform grid. */
typedef struct _RwSceneIndex RwSceneIndex;

/* What queries may cost: each thing and each cell that one looks at is a look. Past the limit they still answer. */
typedef struct { guint64 n, limit; } RwLooks;

RwSceneIndex *rw_scene_index_new (double cell_mm, RwLooks *looks);
void rw_scene_index_free (RwSceneIndex *index);
void rw_scene_index_insert (RwSceneIndex *index, guint id, RwRect rect);
void rw_scene_index_remove (RwSceneIndex *index, guint id);
RwRect rw_scene_index_rect (const RwSceneIndex *index, guint id);
/* Ids whose rectangle meets @area, borders included, in no order; valid until the next query. */
const guint *rw_scene_index_query (RwSceneIndex *index, RwRect area, guint *n);

static inline gboolean
rw_rects_touch (RwRect a, RwRect b)
{
  return a.x <= b.x + b.w && b.x <= a.x + a.w && a.y <= b.y + b.h && b.y <= a.y + a.h;
}

static inline gboolean
rw_rects_overlap (RwRect a, RwRect b)
{
  const double eps = 1e-6;

  return a.x + eps < b.x + b.w && b.x + eps < a.x + a.w && a.y + eps < b.y + b.h && b.y + eps < a.y + a.h;
}

static inline RwRect
rw_rects_united (RwRect a, RwRect b)
{
  double l = MIN (a.x, b.x), t = MIN (a.y, b.y);

  return (RwRect) { l, t, MAX (a.x + a.w, b.x + b.w) - l, MAX (a.y + a.h, b.y + b.h) - t };
}

static inline RwRect
rw_rect_grown (RwRect r, double by)
{
  return (RwRect) { r.x - by, r.y - by, r.w + 2.0 * by, r.h + 2.0 * by };
}

G_END_DECLS
