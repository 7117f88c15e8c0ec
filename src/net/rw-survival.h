/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

/* What one failure costs. */
typedef struct
{
  guint rows;    /* patch rows that lose their last path; a failed device's own rows do not count */
  guint devices; /* devices that lose every controller that they could reach */
} RwLoss;

/**
 * RwSurvival: the cost of every single failure, each on its own. "Survives" means after the spanning tree has
 * formed anew, which takes up to 30–50 s with classic timers; only two planes play on without a gap.
 */
typedef struct
{
  guint n_devices, n_cables;
  RwLoss *devices; /* by device */
  RwLoss *cables;  /* by cable */
} RwSurvival;

RwSurvival *rw_survival_new (const RwNet *net);
void rw_survival_free (RwSurvival *survival);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwSurvival, rw_survival_free)

/* rw-fail.c: what is lost when all of these fail at once. */
typedef struct
{
  gboolean *device; /* by device */
  gboolean *cable;  /* by cable */
} RwFailed;
void rw_fail (const RwNet *net, const RwFailed *failed, GArray *rows, GArray *devices);

G_END_DECLS
