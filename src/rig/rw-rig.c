/* SPDX-License-Identifier: MIT */
#include "rw-rig.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-error.h"
#include "rw-id-map.h"
#include "rw-rig-private.h"

/* An item and its neighbours in the list of its type. */
typedef struct _Slot Slot;
struct _Slot
{
  RwItem *item;
  Slot *prev, *next;
  guint index; /* valid while the list's array is */
};

typedef struct
{
  Slot *first, *last;
  guint n;
  GPtrArray *array; /* of borrowed items, in order; made anew when asked for after a change */
  gboolean array_valid;
  gboolean present; /* the file had this member, even if empty */
} List;

struct _RwRig
{
  GObject parent_instance;

  RwIdMap slots; /* key → Slot */
  List lists[RW_N_ITEM_TYPES];
  RwRecord head;
  guint64 serial;
  gboolean sealed;
  char *path; /* (nullable) */
};

G_DEFINE_FINAL_TYPE (RwRig, rw_rig, G_TYPE_OBJECT)

static guint changed_signal;

static void
slot_free (Slot *slot)
{
  rw_item_unref (slot->item);
  g_free (slot);
}

static void
rw_rig_finalize (GObject *object)
{
  RwRig *rig = RW_RIG (object);

  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    {
      for (Slot *slot = rig->lists[t].first, *next; slot != NULL; slot = next)
        {
          next = slot->next;
          slot_free (slot);
        }
      g_ptr_array_unref (rig->lists[t].array);
    }
  rw_id_map_clear (&rig->slots);
  g_strfreev (rig->head.extras);
  g_free (rig->path);
  G_OBJECT_CLASS (rw_rig_parent_class)->finalize (object);
}

static void
rw_rig_class_init (RwRigClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_rig_finalize;
  changed_signal = g_signal_new ("changed", RW_TYPE_RIG, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_POINTER);
}

static void
rw_rig_init (RwRig *rig)
{
  rw_id_map_init (&rig->slots, 0);
  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    rig->lists[t].array = g_ptr_array_new ();
}

static Slot *
find_slot (const RwRig *rig, const char *key)
{
  return key != NULL ? rw_id_map_find (&rig->slots, key) : NULL;
}

/* Links @slot behind @place, NULL = first. */
static void
list_link (List *list, Slot *slot, Slot *place)
{
  slot->prev = place;
  slot->next = place != NULL ? place->next : list->first;
  *(slot->next != NULL ? &slot->next->prev : &list->last) = slot;
  *(place != NULL ? &place->next : &list->first) = slot;
  list->n++;
  list->array_valid = FALSE;
}

static void
list_unlink (List *list, Slot *slot)
{
  *(slot->prev != NULL ? &slot->prev->next : &list->first) = slot->next;
  *(slot->next != NULL ? &slot->next->prev : &list->last) = slot->prev;
  list->n--;
  list->array_valid = FALSE;
}

static void
insert (RwRig *rig, RwItem *item, Slot *place)
{
  Slot *slot = g_new0 (Slot, 1);

  slot->item = rw_item_ref (item);
  list_link (&rig->lists[item->type], slot, place);
  rw_id_map_put (&rig->slots, item->key, slot);
}

static void
take_out (RwRig *rig, Slot *slot)
{
  list_unlink (&rig->lists[slot->item->type], slot);
  rw_id_map_remove (&rig->slots, slot->item->key);
  slot_free (slot);
}

/**
 * rw_rig_new:
 *
 * Returns: (transfer full): an empty rig: a show and a system at their defaults, no parts, no devices
 */
RwRig *
rw_rig_new (void)
{
  RwRig *rig = g_object_new (RW_TYPE_RIG, NULL);
  g_autoptr (RwItem) show = rw_item_seal (rw_item_new (RW_ITEM_SHOW));
  g_autoptr (RwItem) system = rw_item_seal (rw_item_new (RW_ITEM_SYSTEM));

  insert (rig, show, NULL);
  insert (rig, system, NULL);
  return rig;
}

static RwRig *
copy_types (const RwRig *rig, guint n_types)
{
  RwRig *copy = g_object_new (RW_TYPE_RIG, NULL);

  for (guint t = 0; t < n_types; t++)
    {
      for (Slot *slot = rig->lists[t].first; slot != NULL; slot = slot->next)
        insert (copy, slot->item, copy->lists[t].last);
      copy->lists[t].present = rig->lists[t].present;
    }
  copy->head.present = rig->head.present;
  copy->head.extras = g_strdupv (rig->head.extras);
  copy->serial = rig->serial;
  copy->path = g_strdup (rig->path);
  return copy;
}

/**
 * rw_rig_set_path:
 * @rig: a rig
 * @path: (nullable): the file in which it is kept
 *
 * Of a copy it is the original's until it gets one of its own.
 */
void
rw_rig_set_path (RwRig *rig, const char *path)
{
  char *own = g_strdup (path); /* @path may be the old one */

  g_free (rig->path);
  rig->path = own;
}

/**
 * rw_rig_title:
 * @rig: a rig
 *
 * Returns: (transfer full): the title of its show; without one the name of its file, without “.rig”; else “Untitled rig”
 */
char *
rw_rig_title (const RwRig *rig)
{
  const char *title = rw_rig_show (rig)->title;
  g_autofree char *name = NULL;

  if (title != NULL && *title != '\0')
    return g_strdup (title);
  if (rig->path == NULL)
    return g_strdup (_("Untitled rig"));
  name = g_filename_display_basename (rig->path);
  if (g_str_has_suffix (name, ".rig") && !g_str_equal (name, ".rig"))
    name[strlen (name) - strlen (".rig")] = '\0';
  return g_steal_pointer (&name);
}

/**
 * rw_rig_copy:
 *
 * Returns: (transfer full): a rig with the same items (they are shared, being values) and no listeners
 */
RwRig *
rw_rig_copy (const RwRig *rig)
{
  return copy_types (rig, RW_N_ITEM_TYPES);
}

static void list_make_array (List *list);

/**
 * rw_rig_seal:
 * @rig: (transfer full): a rig that nobody else holds
 *
 * Ends its building: from here on it is a value, may be shared between threads and never changes.
 *
 * Returns: (transfer full): @rig
 */
RwRig *
rw_rig_seal (RwRig *rig)
{
  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    list_make_array (&rig->lists[t]);
  rig->sealed = TRUE;
  return rig;
}

gboolean
rw_rig_is_sealed (const RwRig *rig)
{
  return rig->sealed;
}

/**
 * rw_rig_snapshot:
 * @rig: a rig
 *
 * Keeps what @rig is now. That costs little: the items are shared.
 *
 * Returns: (transfer full): a sealed rig of the same items without the stored sets and revisions; @rig itself where
 *   it is sealed
 */
RwRig *
rw_rig_snapshot (const RwRig *rig)
{
  return rig->sealed ? g_object_ref ((RwRig *) rig) : rw_rig_seal (copy_types (rig, RW_N_STATE_TYPES));
}

guint
rw_rig_n (const RwRig *rig, RwItemType type)
{
  return rig->lists[type].n;
}

static void
list_make_array (List *list)
{
  guint index = 0;

  g_ptr_array_set_size (list->array, 0);
  for (Slot *slot = list->first; slot != NULL; slot = slot->next)
    {
      slot->index = index++;
      g_ptr_array_add (list->array, slot->item);
    }
  list->array_valid = TRUE;
}

/* The arrays are a cache: making them does not change what the rig says. */
static List *
list_with_array (const RwRig *rig, RwItemType type)
{
  List *list = (List *) &rig->lists[type];

  if (!list->array_valid)
    list_make_array (list);
  return list;
}

/**
 * rw_rig_items:
 * @rig: a rig
 * @type: which list
 *
 * Returns: (transfer none): rw_rig_n() items in file order; valid until the next change
 */
RwItem *const *
rw_rig_items (const RwRig *rig, RwItemType type)
{
  return (RwItem *const *) list_with_array (rig, type)->array->pdata;
}

/**
 * rw_rig_find:
 *
 * Returns: (transfer none) (nullable): the item with that key
 */
RwItem *
rw_rig_find (const RwRig *rig, const char *key)
{
  Slot *slot = find_slot (rig, key);

  return slot != NULL ? slot->item : NULL;
}

/**
 * rw_rig_index:
 *
 * Returns: place of the item in its type's list, counted from 0; -1 = not there
 */
int
rw_rig_index (const RwRig *rig, const char *key)
{
  Slot *slot = find_slot (rig, key);

  if (slot == NULL)
    return -1;
  list_with_array (rig, slot->item->type);
  return (int) slot->index;
}

/**
 * rw_rig_place:
 *
 * Returns: (transfer none) (nullable): key of the item that the one with @key follows; %NULL = it is first,
 *   or not there
 */
const char *
rw_rig_place (const RwRig *rig, const char *key)
{
  Slot *slot = find_slot (rig, key);

  return slot != NULL && slot->prev != NULL ? slot->prev->item->key : NULL;
}

/**
 * rw_rig_next:
 *
 * Returns: (transfer none) (nullable): key of the item that follows the one with @key; for %NULL the first
 */
const char *
rw_rig_next (const RwRig *rig, RwItemType type, const char *key)
{
  Slot *slot = find_slot (rig, key);
  Slot *next = key == NULL ? rig->lists[type].first : slot != NULL ? slot->next : NULL;

  return next != NULL ? next->item->key : NULL;
}

/**
 * rw_rig_last:
 *
 * Returns: (transfer none) (nullable): key of the last item of that type
 */
const char *
rw_rig_last (const RwRig *rig, RwItemType type)
{
  return rig->lists[type].last != NULL ? rig->lists[type].last->item->key : NULL;
}

/**
 * rw_rig_serial:
 *
 * Returns: a number that grows with each change that was applied
 */
guint64
rw_rig_serial (const RwRig *rig)
{
  return rig->serial;
}

gpointer
rw_rig_find_of_type (const RwRig *rig, const char *key, RwItemType type)
{
  RwItem *item = rw_rig_find (rig, key);

  return item != NULL && item->type == type ? item : NULL;
}

const RwShow *
rw_rig_show (const RwRig *rig)
{
  return (const RwShow *) rig->lists[RW_ITEM_SHOW].first->item;
}

const RwSystem *
rw_rig_system (const RwRig *rig)
{
  return (const RwSystem *) rig->lists[RW_ITEM_SYSTEM].first->item;
}

const RwPart *
rw_rig_part (const RwRig *rig, const char *id)
{
  return rw_rig_find_of_type (rig, id, RW_ITEM_PART);
}

const RwDevice *
rw_rig_device (const RwRig *rig, const char *id)
{
  return rw_rig_find_of_type (rig, id, RW_ITEM_DEVICE);
}

const RwCable *
rw_rig_cable (const RwRig *rig, const char *id)
{
  return rw_rig_find_of_type (rig, id, RW_ITEM_CABLE);
}

const RwPart *
rw_rig_part_of (const RwRig *rig, const RwDevice *device)
{
  return rw_rig_part (rig, device->part);
}

/**
 * rw_rig_append:
 * @rig: a rig
 * @item: a sealed item; a show or system takes the place of the present one
 * @error: RW_RIG_ERROR_ID where its key is taken
 *
 * Puts @item last in its list without a signal and without looking at what it refers to: for readers, which
 * check the whole once it is there.
 *
 * Returns: %TRUE where it was put in
 */
gboolean
rw_rig_append (RwRig *rig, RwItem *item, GError **error)
{
  Slot *taken = find_slot (rig, item->key);

  g_return_val_if_fail (!rig->sealed, FALSE);

  if (taken != NULL && (item->type == RW_ITEM_SHOW || item->type == RW_ITEM_SYSTEM))
    take_out (rig, taken);
  else if (taken != NULL)
    {
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_ID, "“%s” is used twice", item->key);
      return FALSE;
    }
  insert (rig, item, rig->lists[item->type].last);
  return TRUE;
}

/* A new value for a slot that stays where it is. */
static void
replace_in_slot (RwRig *rig, Slot *slot, RwItem *item)
{
  List *list = &rig->lists[item->type];
  RwItem *old = slot->item;

  slot->item = rw_item_ref (item);
  rw_id_map_put (&rig->slots, item->key, slot);
  if (list->array_valid)
    list->array->pdata[slot->index] = item;
  rw_item_unref (old);
}

/* Puts the after of @entry in, and first those that it stands behind. */
static void
insert_with_places (RwRig *rig, const RwChangeEntry *entry, GHashTable *pending)
{
  g_autoptr (GPtrArray) stack = g_ptr_array_new ();

  for (const RwChangeEntry *e = entry; e != NULL; e = rw_rig_find_entry (pending, e->type, e->after_place))
    g_ptr_array_add (stack, (gpointer) e);
  while (stack->len > 0)
    {
      const RwChangeEntry *e = g_ptr_array_steal_index (stack, stack->len - 1);
      insert (rig, e->after, find_slot (rig, e->after_place));
      g_hash_table_remove (pending, e);
    }
}

static void
apply_moving (RwRig *rig, const RwChange *change, GHashTable *pending)
{
  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *e = rw_change_entry (change, i);
      if (e->before != NULL)
        take_out (rig, find_slot (rig, e->key));
      if (e->after == NULL)
        g_hash_table_remove (pending, e);
    }
  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *e = rw_change_entry (change, i);
      if (g_hash_table_contains (pending, e))
        insert_with_places (rig, e, pending);
    }
}

static void
apply_in_place (RwRig *rig, const RwChange *change)
{
  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *e = rw_change_entry (change, i);
      replace_in_slot (rig, find_slot (rig, e->key), e->after);
    }
}

static gboolean
apply_entries (RwRig *rig, const RwChange *change, GError **error)
{
  g_autoptr (GHashTable) entries = rw_rig_fit_change (rig, change, error);

  if (entries == NULL)
    return FALSE;
  if (!rw_change_is_in_place (change))
    apply_moving (rig, change, entries);
  else
    apply_in_place (rig, change);
  return TRUE;
}

/**
 * rw_rig_apply:
 * @rig: a rig
 * @change: a change that was made for the state that @rig is in
 * @error: RW_RIG_ERROR_STALE where it was not; RW_RIG_ERROR_REFERENCE where it would leave something that
 *   names a part, device or port that is not there
 *
 * Carries out the whole change or nothing, then emits "changed".
 *
 * Returns: %TRUE where it was carried out
 */
gboolean
rw_rig_apply (RwRig *rig, RwChange *change, GError **error)
{
  g_return_val_if_fail (RW_IS_RIG (rig) && !rig->sealed, FALSE);

  if (rw_change_n (change) == 0)
    return TRUE;
  if (!apply_entries (rig, change, error))
    return FALSE;
  if (!rw_rig_check_change (rig, change, error))
    {
      g_autoptr (RwChange) back = rw_change_invert (change);
      apply_entries (rig, back, NULL);
      return FALSE;
    }
  rig->serial++;
  g_signal_emit (rig, changed_signal, 0, change);
  return TRUE;
}

/**
 * rw_rig_lists:
 *
 * Returns: %TRUE where the file has this member of its outermost object even if there is nothing in it
 */
gboolean
rw_rig_lists (const RwRig *rig, RwItemType type)
{
  return rig->lists[type].present;
}

void
rw_rig_set_lists (RwRig *rig, RwItemType type, gboolean present)
{
  rig->lists[type].present = present;
}

/**
 * rw_rig_head:
 *
 * Returns: (transfer none): where unknown members of the file's outermost object are kept
 */
RwRecord *
rw_rig_head (RwRig *rig)
{
  return &rig->head;
}
