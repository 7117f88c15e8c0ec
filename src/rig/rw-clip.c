/* SPDX-License-Identifier: MIT */
#include "rw-clip.h"

#include <string.h>

static void
append (RwRig *clip, RwItem *item)
{
  if (rw_rig_find (clip, item->key) == NULL)
    rw_rig_append (clip, item, NULL);
}

static gboolean
belongs (const RwRig *clip, const RwItem *item)
{
  /* everything that the item names must be in the clip; a rig's own check says just that */
  return rw_rig_check_item (clip, item, NULL, NULL);
}

static void
append_devices (RwRig *clip, const RwRig *rig, GHashTable *wanted)
{
  RwItem *const *devices = rw_rig_items (rig, RW_ITEM_DEVICE);

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    if (g_hash_table_contains (wanted, devices[i]->key))
      {
        append (clip, (RwItem *) rw_rig_part_of (rig, (RwDevice *) devices[i]));
        append (clip, devices[i]);
      }
}

/**
 * rw_clip_new:
 * @rig: a rig
 * @keys: (array zero-terminated=1): what is selected; only devices count, cables come with both their ends
 *
 * Returns: (transfer full): the clip; without devices where none was selected
 */
RwRig *
rw_clip_new (const RwRig *rig, const char *const *keys)
{
  RwRig *clip = rw_rig_new ();
  g_autoptr (GHashTable) wanted = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; keys[i] != NULL; i++)
    g_hash_table_add (wanted, (gpointer) keys[i]);
  append_devices (clip, rig, wanted);
  for (guint t = RW_ITEM_CABLE; t < RW_N_STATE_TYPES; t++)
    {
      RwItem *const *items = rw_rig_items (rig, t);
      for (guint i = 0; i < rw_rig_n (rig, t); i++)
        if (belongs (clip, items[i]))
          append (clip, items[i]);
    }
  return clip;
}

/* "rack-12" → "rack": what a fresh id is made from. At most 50 characters. */
static char *
stem_of (const char *id)
{
  gsize length = strlen (id);

  while (length > 0 && g_ascii_isdigit (id[length - 1]))
    length--;
  while (length > 0 && id[length - 1] == '-')
    length--;
  return length > 0 ? g_strndup (id, MIN (length, 50)) : g_strdup ("item");
}

/* The part of the rig that is the same as @part, else a fresh copy put into the rig. */
static char *
paste_part (RwEdit *edit, const RwPart *part)
{
  RwItem *present = rw_edit_find (edit, rw_item_key (part));
  g_autofree char *stem = NULL;
  g_autofree char *id = NULL;

  if (present != NULL && rw_item_equal (present, part))
    return g_strdup (rw_item_key (part));
  if (present == NULL)
    {
      rw_edit_put (edit, rw_item_ref ((gpointer) part));
      return g_strdup (rw_item_key (part));
    }
  stem = stem_of (rw_item_key (part));
  id = rw_edit_fresh_id (edit, stem);
  rw_edit_put (edit, rw_item_with (part, RW_PART_ID, g_variant_new_string (id), NULL));
  return g_steal_pointer (&id);
}

static char **
text_at (const RwField *field, RwItem *item)
{
  gpointer place = RW_FIELD_PTR (item, field);

  switch (field->kind)
    {
    case RW_FIELD_ID:
      return place;
    case RW_FIELD_END:
      return &((RwEnd *) place)->device;
    case RW_FIELD_SLOT:
      return &((RwSlot *) place)->device;
    case RW_FIELD_TEXT:
    case RW_FIELD_INTEGER:
    case RW_FIELD_REAL:
    case RW_FIELD_BOOLEAN:
    case RW_FIELD_WORD:
    case RW_FIELD_POINT:
    case RW_FIELD_POINTS:
    case RW_FIELD_PLACE:
    case RW_FIELD_RECORD:
    case RW_FIELD_RECORDS:
    case RW_FIELD_VLANS:
    case RW_FIELD_STATE:
      return NULL;
    }
  g_return_val_if_reached (NULL);
}

/**
 * rw_clip_rename_ids:
 * @item: an item that is not sealed yet
 * @names: id → new id
 *
 * Every id in @item that has a new name in @names gets it.
 */
void
rw_clip_rename_ids (RwItem *item, GHashTable *names)
{
  const RwTable *table = rw_item_table (item);

  for (guint i = 0; i < table->n_fields; i++)
    {
      char **text = text_at (&table->fields[i], item);
      const char *name = text != NULL && *text != NULL ? g_hash_table_lookup (names, *text) : NULL;
      if (name == NULL)
        continue;
      g_free (*text);
      *text = g_strdup (name);
    }
}

/* Beyond the range a file could not be read back: what would land there stops at the edge. */
static void
shift_point (RwPoint *point, const RwField *field, double dx, double dy)
{
  point->x = CLAMP (point->x + dx, field->min, field->max);
  point->y = CLAMP (point->y + dy, field->min, field->max);
}

static void
shift (RwItem *item, double dx, double dy)
{
  RwPoints *bends = item->type == RW_ITEM_CABLE ? &((RwCable *) item)->bends : NULL;

  if (item->type == RW_ITEM_DEVICE)
    {
      shift_point (&((RwDevice *) item)->at, &rw_device_table.fields[RW_DEVICE_AT], dx, dy);
      item->record.present |= G_GUINT64_CONSTANT (1) << RW_DEVICE_AT;
    }
  for (guint i = 0; bends != NULL && i < bends->n; i++)
    shift_point (&bends->points[i], &rw_cable_table.fields[RW_CABLE_BENDS], dx, dy);
}

static void
paste_item (RwEdit *edit, RwItem *item, GHashTable *names, double dx, double dy, GPtrArray *pasted)
{
  RwItem *copy = rw_item_dup (item);

  if (rw_item_type_has_id (item->type))
    {
      g_autofree char *stem = stem_of (item->key);
      g_hash_table_insert (names, g_strdup (item->key), rw_edit_fresh_id (edit, stem));
    }
  rw_clip_rename_ids (copy, names);
  shift (copy, dx, dy);
  rw_item_seal (copy);
  if (pasted != NULL && (item->type == RW_ITEM_DEVICE || item->type == RW_ITEM_CABLE))
    g_ptr_array_add (pasted, g_strdup (copy->key));
  rw_edit_put (edit, copy);
}

/**
 * rw_clip_paste:
 * @rig: the rig to paste into
 * @clip: what to paste
 * @name: name of the change: "Paste 3 Devices"
 * @dx_mm, @dy_mm: how far from their places in the clip the devices and bends land, in sheet millimetres
 * @pasted: (nullable) (element-type utf8): takes the keys of the new devices and cables
 *
 * Returns: (transfer full): the change that puts everything of the clip in under fresh ids, behind what is
 *   there. IDs that the crew sees (unit, controller) stay as they were: the rules mark the clash, and the person
 *   decides
 */
RwChange *
rw_clip_paste (const RwRig *rig, const RwRig *clip, const char *name, double dx_mm, double dy_mm, GPtrArray *pasted)
{
  RwEdit *edit = rw_edit_new (rig, name);
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  for (guint t = RW_ITEM_PART; t < RW_N_STATE_TYPES; t++)
    {
      RwItem *const *items = rw_rig_items (clip, t);
      for (guint i = 0; i < rw_rig_n (clip, t); i++)
        if (t == RW_ITEM_PART)
          g_hash_table_insert (names, g_strdup (items[i]->key), paste_part (edit, (RwPart *) items[i]));
        else
          paste_item (edit, items[i], names, dx_mm, dy_mm, pasted);
    }
  return rw_edit_finish (edit);
}

/**
 * rw_clip_delete:
 * @rig: a rig
 * @keys: (array zero-terminated=1): devices go with what hangs on them; anything else alone; what is not there
 *   does not count
 * @name: name of the change: "Delete 3 Devices"
 *
 * Returns: (transfer full): the change
 */
RwChange *
rw_clip_delete (const RwRig *rig, const char *const *keys, const char *name)
{
  RwEdit *edit = rw_edit_new (rig, name);

  for (guint i = 0; keys[i] != NULL; i++)
    {
      RwItem *item = rw_edit_find (edit, keys[i]);
      if (item != NULL && item->type == RW_ITEM_DEVICE)
        rw_edit_remove_device (edit, keys[i]);
      else if (item != NULL && item->type > RW_ITEM_DEVICE)
        rw_edit_remove (edit, keys[i]);
    }
  return rw_edit_finish (edit);
}
