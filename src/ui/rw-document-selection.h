/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

#define RW_TYPE_SELECTION (rw_selection_get_type ())
G_DECLARE_FINAL_TYPE (RwSelection, rw_selection, RW, SELECTION, GObject)

/**
 * RwSelection: which devices and cables of a rig are selected, by key.
 *
 * Signal "changed" (RwSelection *) runs once for each call that made a difference.
 */
RwSelection *rw_selection_new (void);
guint rw_selection_n (RwSelection *selection);
gboolean rw_selection_has (RwSelection *selection, const char *key);
/* The only selected key, or NULL when none or several are. Borrowed until the next change. */
const char *rw_selection_single (RwSelection *selection);
/* Keys of the selected items of @type in file order, NULL-ended. Free the array alone with g_free(): the keys are @rig's. */
const char **rw_selection_keys (RwSelection *selection, const RwRig *rig, RwItemType type);

void rw_selection_clear (RwSelection *selection);
void rw_selection_set (RwSelection *selection, const char *key);                  /* only this; NULL clears */
void rw_selection_set_all (RwSelection *selection, const char *const *keys);      /* only these, NULL-ended */
void rw_selection_add (RwSelection *selection, const char *key);
void rw_selection_toggle (RwSelection *selection, const char *key);
/* Forgets keys that @rig has not. */
void rw_selection_prune (RwSelection *selection, const RwRig *rig);

G_END_DECLS
