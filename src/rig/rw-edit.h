/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

/**
 * RwEdit: builds a change against a rig without touching it. What was already put in or removed is
 * seen by the functions that look; the rig must not change while an edit is open.
 */
RwEdit *rw_edit_new (const RwRig *rig, const char *name);
void rw_edit_free (RwEdit *edit);
RwChange *rw_edit_finish (RwEdit *edit);

const RwRig *rw_edit_rig (const RwEdit *edit);
void rw_edit_set_name (RwEdit *edit, const char *name);
RwItem *rw_edit_find (const RwEdit *edit, const char *key);
const char *rw_edit_first (const RwEdit *edit, RwItemType type);
const char *rw_edit_next (const RwEdit *edit, RwItemType type, const char *key);

void rw_edit_put (RwEdit *edit, gpointer item);
void rw_edit_insert_after (RwEdit *edit, gpointer item, const char *place);
void rw_edit_remove (RwEdit *edit, const char *key);
gboolean rw_edit_set (RwEdit *edit, const char *key, guint field, GVariant *value, GError **error);

char *rw_edit_fresh_id (const RwEdit *edit, const char *stem);
void rw_edit_remove_device (RwEdit *edit, const char *id);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwEdit, rw_edit_free)

G_END_DECLS
