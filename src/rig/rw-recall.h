/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-state.h"

G_BEGIN_DECLS

/**
 * RwRecallDevice: a device of a stored patch, and the one of the rig that stands in for it.
 * @stored: of the set's state
 * @target: (nullable): of the rig; NULL = left out, with all that names it
 * @needs: by #RwPart count, the highest number that the set uses
 */
typedef enum
{
  RW_NEED_SENDS,
  RW_NEED_RECEIVES,
  RW_NEED_STRIPS,
  RW_NEED_BUSES,
  RW_NEED_LOCAL_INPUTS,
  RW_NEED_LOCAL_OUTPUTS,
} RwNeed;
#define RW_N_NEEDS (RW_NEED_LOCAL_OUTPUTS + 1)

typedef struct
{
  const RwDevice *stored;
  const RwDevice *target;
  int needs[RW_N_NEEDS];
} RwRecallDevice;

/**
 * RwRecall: a patch set on its way back into a rig, which must not change meanwhile.
 * @devices: of RwRecallDevice, in the order of the set's state
 */
typedef struct
{
  const RwRig *rig;
  RwPatchSet *set;
  GArray *devices;
} RwRecall;

RwRecall *rw_recall_new (const RwRig *rig, const RwPatchSet *set);
void rw_recall_free (RwRecall *recall);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwRecall, rw_recall_free)
#define rw_recall_n(recall) ((recall)->devices->len)
#define rw_recall_get(recall, i) (&g_array_index ((recall)->devices, RwRecallDevice, i))

gboolean rw_recall_fits (const RwRecall *recall, guint index, const RwDevice *target, char **why);
void rw_recall_set_target (RwRecall *recall, guint index, const RwDevice *target);
gboolean rw_recall_check (const RwRecall *recall, GError **error);

/* rw-recall-change.c */
RwChange *rw_recall_change (const RwRecall *recall, const char *name, guint *n_left_out, GError **error);
GPtrArray *rw_recall_preview (const RwRecall *recall, const RwChange *change);

G_END_DECLS
