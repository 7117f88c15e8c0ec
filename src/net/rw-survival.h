/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-tree.h"

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
RwFailed *rw_failed_new (const RwNet *net, const char *const *ids);
void rw_failed_free (RwFailed *failed);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwFailed, rw_failed_free)
void rw_fail (const RwNet *net, const RwFailed *failed, GArray *rows, GArray *devices);

/* rw-outcome.c: what becomes of a patch row, or of a device's way to what it is there for, from the best on: of racks and
 * endpoints a controller, of the others any device that sends or receives, or any at all. */
typedef enum
{
  RW_FATE_NONE,        /* it had no way to lose */
  RW_FATE_UNTOUCHED,
  RW_FATE_OTHER_PLANE, /* one plane is cut, the other plays on without a gap */
  RW_FATE_GAP,         /* every active way is cut; another is there once the spanning tree has formed anew */
  RW_FATE_NO_LINE,     /* of a device: it is in reach, but each line from or to it is lost */
  RW_FATE_LOST,        /* no way is left; of a device: no controller */
  RW_FATE_CUT_OFF,     /* of a device that needs no controller: the rest of the network is out of reach */
  RW_FATE_FAILED,      /* it has failed itself; of a row: one of its devices has */
} RwFate;
#define RW_N_FATES (RW_FATE_FAILED + 1)

typedef struct
{
  guint n_rows, n_devices, n_cables;
  RwFate *rows;         /* by patch row */
  RwFate *devices;      /* by device */
  gboolean *cables;     /* by cable: it has failed */
  RwPlanes *planes;     /* by device of RW_FATE_OTHER_PLANE: those on which it plays on */
  RwTree *tree;         /* the spanning trees once they have formed anew */
  guint row_counts[RW_N_FATES], device_counts[RW_N_FATES];
} RwOutcome;

RwOutcome *rw_outcome_new (const RwNet *net, const RwFailed *failed);
void rw_outcome_free (RwOutcome *outcome);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwOutcome, rw_outcome_free)

G_END_DECLS
