/* SPDX-License-Identifier: MIT */
/* Whether a change fits the state that a rig is in. */
#include "rw-error.h"
#include "rw-rig-private.h"

static gboolean
stale (GError **error, const RwChangeEntry *entry)
{
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_STALE, "the change of “%s” does not fit this rig", entry->key);
  return FALSE;
}

/* An id may go with one type and come back with another in the same change: entries go by both. */
static guint
entry_hash (gconstpointer data)
{
  const RwChangeEntry *entry = data;

  return g_str_hash (entry->key) * 31 + entry->type;
}

static gboolean
entry_equal (gconstpointer a, gconstpointer b)
{
  const RwChangeEntry *e = a, *f = b;

  return e->type == f->type && g_str_equal (e->key, f->key);
}

const RwChangeEntry *
rw_rig_find_entry (GHashTable *entries, RwItemType type, const char *key)
{
  RwChangeEntry probe = { .type = type, .key = (char *) key };

  return key != NULL ? g_hash_table_lookup (entries, &probe) : NULL;
}

/* Whether nothing has the key of a new item, or what has it goes. */
static gboolean
key_is_free (const RwRig *rig, GHashTable *entries, const RwChangeEntry *entry)
{
  const RwItem *other = rw_rig_find (rig, entry->key);
  const RwChangeEntry *going = other != NULL ? rw_rig_find_entry (entries, other->type, entry->key) : NULL;

  return other == NULL || other->type == entry->type || (going != NULL && going->after == NULL);
}

static gboolean
place_will_be (const RwRig *rig, GHashTable *entries, const RwChangeEntry *entry)
{
  const RwChangeEntry *place = rw_rig_find_entry (entries, entry->type, entry->after_place);

  if (entry->after_place == NULL)
    return TRUE;
  return place != NULL ? place->after != NULL : rw_rig_find_of_type (rig, entry->after_place, entry->type) != NULL;
}

static gboolean
entry_fits (const RwRig *rig, GHashTable *entries, const RwChangeEntry *entry)
{
  if (!rw_item_equal (rw_rig_find_of_type (rig, entry->key, entry->type), entry->before))
    return FALSE;
  if (entry->after == NULL)
    return entry->before != NULL;
  return key_is_free (rig, entries, entry) && place_will_be (rig, entries, entry);
}

/* Whether following places from @entry comes to an end; @ended holds those of which that is known. */
static gboolean
places_end (GHashTable *entries, GHashTable *ended, const RwChangeEntry *entry)
{
  guint steps = 0;

  for (const RwChangeEntry *e = entry; e != NULL && !g_hash_table_contains (ended, e);
       e = rw_rig_find_entry (entries, e->type, e->after_place))
    if (steps++ > g_hash_table_size (entries))
      return FALSE;
  for (const RwChangeEntry *e = entry; e != NULL && g_hash_table_add (ended, (gpointer) e);
       e = rw_rig_find_entry (entries, e->type, e->after_place))
    ;
  return TRUE;
}

static gboolean
entries_fit (const RwRig *rig, const RwChange *change, GHashTable *entries, GError **error)
{
  g_autoptr (GHashTable) ended = g_hash_table_new (NULL, NULL);
  g_autoptr (GHashTable) coming = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *e = rw_change_entry (change, i);
      if (!entry_fits (rig, entries, e) || !places_end (entries, ended, e)
          || (e->after != NULL && !g_hash_table_add (coming, e->key)))
        return stale (error, e);
    }
  return TRUE;
}

/**
 * rw_rig_fit_change:
 * @error: RW_RIG_ERROR_STALE where @change was not made for the state that @rig is in
 *
 * Returns: (transfer full) (nullable): the entries of @change, which are borrowed, for rw_rig_find_entry()
 */
GHashTable *
rw_rig_fit_change (const RwRig *rig, const RwChange *change, GError **error)
{
  g_autoptr (GHashTable) entries = g_hash_table_new (entry_hash, entry_equal);

  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *e = rw_change_entry (change, i);
      if (!g_hash_table_add (entries, (gpointer) e))
        {
          stale (error, e);
          return NULL;
        }
    }
  return entries_fit (rig, change, entries, error) ? g_steal_pointer (&entries) : NULL;
}
