/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-edit.h"

G_BEGIN_DECLS

/**
 * A clip is a small rig of its own: some devices with their parts, the cables and patch rows between them,
 * what is patched inside them and their channels. Being a rig, it goes through the clipboard as a rig file.
 */
RwRig *rw_clip_new (const RwRig *rig, const char *const *keys);
RwChange *rw_clip_paste (const RwRig *rig, const RwRig *clip, const char *name, double dx_mm, double dy_mm,
                         GPtrArray *pasted);
void rw_clip_rename_ids (RwItem *item, GHashTable *names);
RwChange *rw_clip_delete (const RwRig *rig, const char *const *keys, const char *name);

G_END_DECLS
