/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-cable.h"
#include "rw-change.h"
#include "rw-channel.h"
#include "rw-device.h"
#include "rw-patch.h"
#include "rw-show.h"

G_BEGIN_DECLS

#define RW_TYPE_RIG (rw_rig_get_type ())
G_DECLARE_FINAL_TYPE (RwRig, rw_rig, RW, RIG, GObject)

/**
 * RwRig: the document: items by key, in file order for each type.
 *
 * The show and the system are always there. Signal "changed" (RwRig *rig, RwChange *change) runs after
 * each rw_rig_apply().
 */
RwRig *rw_rig_new (void);
RwRig *rw_rig_copy (const RwRig *rig);
RwRig *rw_rig_snapshot (const RwRig *rig);
RwRig *rw_rig_seal (RwRig *rig);
gboolean rw_rig_is_sealed (const RwRig *rig);

guint rw_rig_n (const RwRig *rig, RwItemType type);
RwItem *const *rw_rig_items (const RwRig *rig, RwItemType type);
RwItem *rw_rig_find (const RwRig *rig, const char *key);
int rw_rig_index (const RwRig *rig, const char *key);
const char *rw_rig_place (const RwRig *rig, const char *key);
const char *rw_rig_next (const RwRig *rig, RwItemType type, const char *key);
const char *rw_rig_last (const RwRig *rig, RwItemType type);
guint64 rw_rig_serial (const RwRig *rig);

/* What the rig is called wherever it is named, and the file that may name it: no part of its data. */
char *rw_rig_title (const RwRig *rig);
void rw_rig_set_path (RwRig *rig, const char *path);

const RwShow *rw_rig_show (const RwRig *rig);
const RwSystem *rw_rig_system (const RwRig *rig);
const RwPart *rw_rig_part (const RwRig *rig, const char *id);
const RwDevice *rw_rig_device (const RwRig *rig, const char *id);
const RwCable *rw_rig_cable (const RwRig *rig, const char *id);
const RwPart *rw_rig_part_of (const RwRig *rig, const RwDevice *device);

gboolean rw_rig_apply (RwRig *rig, RwChange *change, GError **error);
gboolean rw_rig_append (RwRig *rig, RwItem *item, GError **error);
gboolean rw_rig_check_item (const RwRig *rig, const RwItem *item, char **field, GError **error);

/* What of the file's outermost object is not an item: kept for writing, not part of any change. */
gboolean rw_rig_lists (const RwRig *rig, RwItemType type);
void rw_rig_set_lists (RwRig *rig, RwItemType type, gboolean present);
RwRecord *rw_rig_head (RwRig *rig);

G_END_DECLS
