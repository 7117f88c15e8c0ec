/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

gpointer rw_rig_find_of_type (const RwRig *rig, const char *key, RwItemType type);
GHashTable *rw_rig_fit_change (const RwRig *rig, const RwChange *change, GError **error);
const RwChangeEntry *rw_rig_find_entry (GHashTable *entries, RwItemType type, const char *key);
gboolean rw_rig_check_change (const RwRig *rig, const RwChange *change, GError **error);

G_END_DECLS
