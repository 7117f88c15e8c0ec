/* SPDX-License-Identifier: MIT */
#include "rw-item.h"

#include <string.h>

#include "rw-cable.h"
#include "rw-channel.h"
#include "rw-device.h"
#include "rw-patch.h"
#include "rw-show.h"
#include "rw-state.h"

/* The one list of item types; @member is the name in the file's outermost object. */
static const struct
{
  const RwTable *table;
  const char *member;
  gboolean has_id;
} types[RW_N_ITEM_TYPES] = {
  [RW_ITEM_SHOW] = { &rw_show_table, "show", FALSE },
  [RW_ITEM_SYSTEM] = { &rw_system_table, "system", FALSE },
  [RW_ITEM_PART] = { &rw_part_table, "parts", TRUE },
  [RW_ITEM_DEVICE] = { &rw_device_table, "devices", TRUE },
  [RW_ITEM_CABLE] = { &rw_cable_table, "cables", TRUE },
  [RW_ITEM_PATCH] = { &rw_patch_table, "patch", TRUE },
  [RW_ITEM_INSIDE] = { &rw_inside_table, "inside", TRUE },
  [RW_ITEM_CHANNEL] = { &rw_channel_table, "channels", FALSE },
  [RW_ITEM_SET] = { &rw_set_table, "sets", TRUE },
  [RW_ITEM_REVISION] = { &rw_revision_table, "revisions", TRUE },
};

const RwTable *
rw_item_type_table (RwItemType type)
{
  return types[type].table;
}

const char *
rw_item_type_member (RwItemType type)
{
  return types[type].member;
}

gboolean
rw_item_type_has_id (RwItemType type)
{
  return types[type].has_id;
}

/**
 * rw_item_new:
 * @type: which kind of item
 *
 * Returns: (transfer full): an empty item, to be filled and then given to rw_item_seal()
 */
gpointer
rw_item_new (RwItemType type)
{
  RwItem *item = g_malloc0 (types[type].table->size);

  g_atomic_ref_count_init (&item->refs);
  item->type = type;
  rw_record_init (item, types[type].table);
  return item;
}

/**
 * rw_item_seal:
 * @item: an item that was filled
 *
 * Ends the building of @item: gives it its key where that is no id. From here on it never changes.
 *
 * Returns: (transfer none): @item
 */
gpointer
rw_item_seal (gpointer item)
{
  RwItem *i = item;
  const RwChannel *channel = item;

  if (types[i->type].has_id)
    return item;
  g_free (i->key);
  if (i->type == RW_ITEM_CHANNEL)
    i->key = rw_channel_key (channel->device, channel->side, channel->number);
  else
    i->key = g_strconcat ("/", types[i->type].member, NULL);
  return item;
}

gpointer
rw_item_ref (gpointer item)
{
  g_atomic_ref_count_inc (&((RwItem *) item)->refs);
  return item;
}

void
rw_item_unref (gpointer item)
{
  RwItem *i = item;

  if (!g_atomic_ref_count_dec (&i->refs))
    return;
  rw_record_clear (item, types[i->type].table);
  g_free (i->key); /* that of items with an id is a field: cleared above, NULL by now */
  g_free (item);
}

/**
 * rw_item_dup:
 * @item: an item
 *
 * Returns: (transfer full): an unsealed copy, to be changed and sealed
 */
gpointer
rw_item_dup (gconstpointer item)
{
  const RwItem *from = item;
  RwItem *to = g_malloc0 (types[from->type].table->size);

  g_atomic_ref_count_init (&to->refs);
  to->type = from->type;
  rw_record_copy (to, from, types[from->type].table);
  if (!types[from->type].has_id)
    to->key = g_strdup (from->key);
  return to;
}

/**
 * rw_item_equal:
 *
 * Returns: %TRUE where a file would hold the same bytes for both
 */
gboolean
rw_item_equal (gconstpointer a, gconstpointer b)
{
  const RwItem *i = a, *j = b;

  if (a == b)
    return TRUE;
  if (a == NULL || b == NULL)
    return FALSE;
  return i->type == j->type && rw_record_equal (a, b, types[i->type].table);
}

/**
 * rw_item_is_blank:
 *
 * Returns: %TRUE where a file would hold no member of it
 */
gboolean
rw_item_is_blank (gconstpointer item)
{
  const RwItem *i = item;
  const RwTable *table = rw_item_table (item);

  if (i->record.extras != NULL || i->record.present != 0)
    return FALSE;
  for (guint f = 0; f < table->n_fields; f++)
    if (!rw_record_is_default (item, table, f))
      return FALSE;
  return TRUE;
}

/**
 * rw_item_get:
 * @item: an item
 * @field: index of a field
 *
 * Returns: (transfer full) (nullable): the value, of the type that #RwFieldKind names; %NULL = absent
 */
GVariant *
rw_item_get (gconstpointer item, guint field)
{
  return rw_record_get (item, rw_item_table (item), field);
}

/**
 * rw_item_with:
 * @item: an item
 * @field: index of a field
 * @value: (nullable): the new value, %NULL = make it absent; a floating reference is consumed
 * @error: RW_RIG_ERROR_TYPE or RW_RIG_ERROR_RANGE
 *
 * Returns: (transfer full) (nullable): a sealed copy of @item with that field changed
 */
gpointer
rw_item_with (gconstpointer item, guint field, GVariant *value, GError **error)
{
  RwItem *changed = rw_item_dup (item);

  if (value == NULL)
    rw_record_unset (changed, rw_item_table (item), field);
  else if (!rw_record_set (changed, rw_item_table (item), field, value, error))
    g_clear_pointer (&changed, rw_item_unref);
  return changed != NULL ? rw_item_seal (changed) : NULL;
}
