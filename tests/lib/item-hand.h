/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-edit.h>

G_BEGIN_DECLS

/* Making and changing single items, for tests; what does not work out fails the test. */
gpointer test_item_new (RwItemType type, const char *id);
void test_item_set (gpointer item, guint field, GVariant *value);
/* Seals the item and takes it. */
void test_rig_append (RwRig *rig, gpointer item);
/* Finishes the edit and carries it out. */
void test_rig_apply (RwRig *rig, RwEdit *edit);

G_END_DECLS
