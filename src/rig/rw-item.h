/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-field.h"

G_BEGIN_DECLS

/**
 * RwItem: head of every item. An item is a value: it may be filled only between rw_item_new() and
 * rw_item_seal(), while nobody else holds it, and is never changed afterwards.
 * @key: unique in a rig. The id of items that have one; "/show", "/system",
 *   "/channel/DEVICE/SIDE/NUMBER" for the others ('/' cannot stand in an id)
 */
struct _RwItem
{
  RwRecord record;
  gatomicrefcount refs;
  RwItemType type;
  char *key;
};

const RwTable *rw_item_type_table (RwItemType type);
const char *rw_item_type_member (RwItemType type);
gboolean rw_item_type_has_id (RwItemType type);

gpointer rw_item_new (RwItemType type);
gpointer rw_item_seal (gpointer item);
gpointer rw_item_ref (gpointer item);
void rw_item_unref (gpointer item);
gpointer rw_item_dup (gconstpointer item);
gboolean rw_item_equal (gconstpointer a, gconstpointer b);
gboolean rw_item_is_blank (gconstpointer item);

#define rw_item_key(item) (((const RwItem *) (item))->key)
#define rw_item_type(item) (((const RwItem *) (item))->type)
#define rw_item_table(item) rw_item_type_table (rw_item_type (item))
#define rw_item_has(item, field) rw_record_has (item, field)

GVariant *rw_item_get (gconstpointer item, guint field);
gpointer rw_item_with (gconstpointer item, guint field, GVariant *value, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwItem, rw_item_unref)

G_END_DECLS
