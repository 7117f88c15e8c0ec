/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

#define RW_TYPE_HISTORY (rw_history_get_type ())
G_DECLARE_FINAL_TYPE (RwHistory, rw_history, RW, HISTORY, GObject)

/**
 * RwHistory: the changes that were applied to a rig, and the way back.
 *
 * Signal "notify::saved" and the properties "can-undo", "can-redo" tell windows what to show.
 */
RwHistory *rw_history_new (RwRig *rig);
gboolean rw_history_do (RwHistory *history, RwChange *change, GError **error);
gboolean rw_history_do_merged (RwHistory *history, RwChange *change, const char *run, GError **error);
void rw_history_end_run (RwHistory *history);
gboolean rw_history_take_back (RwHistory *history);
gboolean rw_history_undo (RwHistory *history);
gboolean rw_history_redo (RwHistory *history);
const char *rw_history_undo_name (RwHistory *history);
const char *rw_history_redo_name (RwHistory *history);
void rw_history_mark_saved (RwHistory *history);
gboolean rw_history_is_saved (RwHistory *history);
RwRig *rw_history_rig (RwHistory *history);

G_END_DECLS
