/* SPDX-License-Identifier: MIT */
#include "rw-change.h"

static void
entry_free (gpointer data)
{
  RwChangeEntry *entry = data;

  g_free (entry->key);
  g_free (entry->before_place);
  g_free (entry->after_place);
  g_clear_pointer (&entry->before, rw_item_unref);
  g_clear_pointer (&entry->after, rw_item_unref);
  g_free (entry);
}

/**
 * rw_change_new:
 * @name: (nullable): what the person would undo: "Move 3 Devices"
 *
 * Returns: (transfer full): a change without entries, to be filled before others see it
 */
RwChange *
rw_change_new (const char *name)
{
  RwChange *change = g_new0 (RwChange, 1);

  g_atomic_ref_count_init (&change->refs);
  change->name = g_strdup (name);
  change->entries = g_ptr_array_new_with_free_func (entry_free);
  return change;
}

/**
 * rw_change_add:
 * @change: a change that nobody else holds yet
 * @type: of the item
 * @key: of the item
 * @before: (nullable): as it was
 * @before_place: (nullable): the key that it followed
 * @after: (nullable): as it becomes
 * @after_place: (nullable): the key that it will follow
 *
 * Adds one entry; takes references and copies. Each key may be added once.
 */
void
rw_change_add (RwChange *change, RwItemType type, const char *key, RwItem *before, const char *before_place,
               RwItem *after, const char *after_place)
{
  RwChangeEntry *entry = g_new0 (RwChangeEntry, 1);

  entry->type = type;
  entry->key = g_strdup (key);
  entry->before = before != NULL ? rw_item_ref (before) : NULL;
  entry->before_place = g_strdup (before_place);
  entry->after = after != NULL ? rw_item_ref (after) : NULL;
  entry->after_place = g_strdup (after_place);
  g_ptr_array_add (change->entries, entry);
}

RwChange *
rw_change_ref (RwChange *change)
{
  g_atomic_ref_count_inc (&change->refs);
  return change;
}

void
rw_change_unref (RwChange *change)
{
  if (!g_atomic_ref_count_dec (&change->refs))
    return;
  g_free (change->name);
  g_ptr_array_unref (change->entries);
  g_free (change);
}

guint
rw_change_n (const RwChange *change)
{
  return change->entries->len;
}

const RwChangeEntry *
rw_change_entry (const RwChange *change, guint index)
{
  return g_ptr_array_index (change->entries, index);
}

/**
 * rw_change_invert:
 *
 * Returns: (transfer full): the change that leads back
 */
RwChange *
rw_change_invert (const RwChange *change)
{
  RwChange *inverse = rw_change_new (change->name);

  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *e = rw_change_entry (change, i);
      rw_change_add (inverse, e->type, e->key, e->after, e->after_place, e->before, e->before_place);
    }
  return inverse;
}

static gboolean
entry_is_in_place (const RwChangeEntry *entry)
{
  return entry->before != NULL && entry->after != NULL
         && g_strcmp0 (entry->before_place, entry->after_place) == 0;
}

/**
 * rw_change_is_in_place:
 *
 * Returns: %TRUE where the change only gives items new values: none comes, goes or moves in its list
 */
gboolean
rw_change_is_in_place (const RwChange *change)
{
  for (guint i = 0; i < rw_change_n (change); i++)
    if (!entry_is_in_place (rw_change_entry (change, i)))
      return FALSE;
  return TRUE;
}

/* From each key of @change to its entry: changes may hold every item of a rig. */
static GHashTable *
index_entries (const RwChange *change)
{
  GHashTable *entries = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *entry = rw_change_entry (change, i);
      g_hash_table_insert (entries, entry->key, (gpointer) entry);
    }
  return entries;
}

static void
add_joined (RwChange *both, const RwChangeEntry *first, const RwChangeEntry *second)
{
  if (!rw_item_equal (first->before, second->after))
    rw_change_add (both, first->type, first->key, first->before, first->before_place, second->after, second->after_place);
}

/**
 * rw_change_join:
 * @first: a change
 * @second: the one that was applied after it
 *
 * Joins two steps of one gesture into one: keystrokes in a field, steps of a drag. An item that comes back to what it
 * was is left out.
 *
 * Returns: (transfer full) (nullable): the change that does both, or %NULL where one does not merely give new values to
 *   items
 */
RwChange *
rw_change_join (const RwChange *first, const RwChange *second)
{
  g_autoptr (GHashTable) later = NULL;
  RwChange *both;

  if (!rw_change_is_in_place (first) || !rw_change_is_in_place (second))
    return NULL;
  later = index_entries (second);
  both = rw_change_new (second->name);
  for (guint i = 0; i < rw_change_n (first); i++)
    {
      const RwChangeEntry *entry = rw_change_entry (first, i), *again = g_hash_table_lookup (later, entry->key);
      add_joined (both, entry, again != NULL ? again : entry);
      g_hash_table_remove (later, entry->key);
    }
  for (guint i = 0; i < rw_change_n (second); i++)
    if (g_hash_table_contains (later, rw_change_entry (second, i)->key))
      add_joined (both, rw_change_entry (second, i), rw_change_entry (second, i));
  return both;
}
