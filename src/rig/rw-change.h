/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-item.h"

G_BEGIN_DECLS

/**
 * RwChangeEntry: what becomes of one item.
 * @key: the item's key, the same before and after
 * @before: (nullable): the item, NULL = it was not there
 * @before_place: (nullable): key of the item that it followed in its type's list, NULL = it was first
 * @after, @after_place: likewise, in the rig that the change leads to
 *
 * Both places speak of whole lists: the one before the whole change and the one after it. So a
 * change is read the same way in both directions and its inverse is the swap of the two columns.
 */
typedef struct
{
  RwItemType type;
  char *key;
  RwItem *before;
  char *before_place;
  RwItem *after;
  char *after_place;
} RwChangeEntry;

/**
 * RwChange: an immutable, refcounted list of entries, at most one a key, with a name
 * that reads after "Undo" ("Move 3 Devices").
 */
struct _RwChange
{
  gatomicrefcount refs;
  char *name;
  GPtrArray *entries; /* of RwChangeEntry */
};

RwChange *rw_change_new (const char *name);
void rw_change_add (RwChange *change, RwItemType type, const char *key, RwItem *before,
                    const char *before_place, RwItem *after, const char *after_place);
RwChange *rw_change_ref (RwChange *change);
void rw_change_unref (RwChange *change);
guint rw_change_n (const RwChange *change);
const RwChangeEntry *rw_change_entry (const RwChange *change, guint index);
RwChange *rw_change_invert (const RwChange *change);
gboolean rw_change_is_in_place (const RwChange *change);
RwChange *rw_change_join (const RwChange *first, const RwChange *second);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwChange, rw_change_unref)

G_END_DECLS
