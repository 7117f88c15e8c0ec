/* SPDX-License-Identifier: MIT */
#include "rw-edit.h"

#include <string.h>

/*
 * The edit lays a second set of neighbours over the rig's lists: a node for each item that the edit touched
 * or that stands beside one. What has no node is as the rig has it. Keys of nodes live as long as the edit.
 */
typedef struct
{
  char *key;
  RwItemType type;
  RwItem *item;  /* as it will be, NULL = removed */
  gboolean touched;
  gboolean moved; /* was taken from one place in its list to another */
  const char *prev, *next;
} Node;

struct _RwEdit
{
  RwRig *rig;
  char *name;
  GHashTable *nodes;  /* key → Node */
  GPtrArray *touched; /* nodes, in the order in which they were first touched */
  struct { gboolean known; const char *first, *last; } ends[RW_N_ITEM_TYPES];
};

static void
node_free (gpointer data)
{
  Node *node = data;

  g_clear_pointer (&node->item, rw_item_unref);
  g_free (node->key);
  g_free (node);
}

/**
 * rw_edit_new:
 * @rig: the rig that the change is for; must not change until the edit is finished
 * @name: what the person would undo: "Move 3 Devices"
 *
 * Returns: (transfer full): an edit; end it with rw_edit_finish() or rw_edit_free()
 */
RwEdit *
rw_edit_new (const RwRig *rig, const char *name)
{
  RwEdit *edit = g_new0 (RwEdit, 1);

  edit->rig = g_object_ref ((RwRig *) rig);
  edit->name = g_strdup (name);
  edit->nodes = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, node_free);
  edit->touched = g_ptr_array_new ();
  return edit;
}

void
rw_edit_free (RwEdit *edit)
{
  g_object_unref (edit->rig);
  g_free (edit->name);
  g_hash_table_unref (edit->nodes);
  g_ptr_array_unref (edit->touched);
  g_free (edit);
}

const RwRig *
rw_edit_rig (const RwEdit *edit)
{
  return edit->rig;
}

void
rw_edit_set_name (RwEdit *edit, const char *name)
{
  g_free (edit->name);
  edit->name = g_strdup (name);
}

static Node *
find_node (const RwEdit *edit, const char *key)
{
  return key != NULL ? g_hash_table_lookup (edit->nodes, key) : NULL;
}

/* The node of an item of the rig, or a new one that is in no list yet. */
static Node *
get_node (RwEdit *edit, RwItemType type, const char *key)
{
  Node *node = find_node (edit, key);
  RwItem *item;

  if (node != NULL)
    return node;
  node = g_new0 (Node, 1);
  node->key = g_strdup (key);
  node->type = type;
  item = rw_rig_find (edit->rig, key);
  if (item != NULL)
    {
      node->item = rw_item_ref (item);
      node->prev = rw_rig_place (edit->rig, key);
      node->next = rw_rig_next (edit->rig, type, key);
    }
  g_hash_table_insert (edit->nodes, node->key, node);
  return node;
}

static void
touch (RwEdit *edit, Node *node)
{
  if (node->touched)
    return;
  node->touched = TRUE;
  g_ptr_array_add (edit->touched, node);
}

static void
know_ends (RwEdit *edit, RwItemType type)
{
  if (edit->ends[type].known)
    return;
  edit->ends[type].known = TRUE;
  edit->ends[type].first = rw_rig_next (edit->rig, type, NULL);
  edit->ends[type].last = rw_rig_last (edit->rig, type);
}

/* Makes @b follow @a; NULL = the end of the list. */
static void
join (RwEdit *edit, RwItemType type, const char *a, const char *b)
{
  know_ends (edit, type);
  *(a != NULL ? &get_node (edit, type, a)->next : &edit->ends[type].first) = b;
  *(b != NULL ? &get_node (edit, type, b)->prev : &edit->ends[type].last) = a;
}

static void
link_behind (RwEdit *edit, Node *node, const char *place)
{
  const char *kept = place != NULL ? get_node (edit, node->type, place)->key : NULL;
  const char *next;

  know_ends (edit, node->type);
  next = rw_edit_next (edit, node->type, kept);
  join (edit, node->type, kept, node->key);
  join (edit, node->type, node->key, next);
}

static void
set_item (Node *node, RwItem *item)
{
  g_clear_pointer (&node->item, rw_item_unref);
  node->item = item;
}

/**
 * rw_edit_find:
 *
 * Returns: (transfer none) (nullable): the item with that key, as it will be
 */
RwItem *
rw_edit_find (const RwEdit *edit, const char *key)
{
  Node *node = find_node (edit, key);

  return node != NULL ? node->item : rw_rig_find (edit->rig, key);
}

/**
 * rw_edit_first:
 *
 * Returns: (transfer none) (nullable): key of the first item of that type, as it will be
 */
const char *
rw_edit_first (const RwEdit *edit, RwItemType type)
{
  return rw_edit_next (edit, type, NULL);
}

/**
 * rw_edit_next:
 *
 * Returns: (transfer none) (nullable): key of the item that will follow the one with @key; for %NULL the first
 */
const char *
rw_edit_next (const RwEdit *edit, RwItemType type, const char *key)
{
  Node *node = find_node (edit, key);

  if (node != NULL)
    return node->next;
  if (key == NULL && edit->ends[type].known)
    return edit->ends[type].first;
  return rw_rig_next (edit->rig, type, key);
}

/**
 * rw_edit_put:
 * @edit: an edit
 * @item: (transfer full): a sealed item
 *
 * Takes the place of the item with the same key; a new one goes to the end of its list.
 */
void
rw_edit_put (RwEdit *edit, gpointer item)
{
  RwItem *i = item;
  Node *node = get_node (edit, i->type, i->key);
  gboolean is_new = node->item == NULL;

  g_return_if_fail (node->type == i->type);

  touch (edit, node);
  set_item (node, i);
  if (!is_new)
    return;
  know_ends (edit, i->type);
  link_behind (edit, node, edit->ends[i->type].last);
}

/**
 * rw_edit_insert_after:
 * @edit: an edit
 * @item: (transfer full): a sealed item; moves there if it was in the list already
 * @place: (nullable): key of an item of that type that will be there; %NULL = make it the first
 *
 * Puts @item right behind @place.
 */
void
rw_edit_insert_after (RwEdit *edit, gpointer item, const char *place)
{
  RwItem *i = item;
  Node *node = get_node (edit, i->type, i->key);

  g_return_if_fail (place == NULL || (rw_edit_find (edit, place) != NULL && strcmp (place, i->key) != 0));

  touch (edit, node);
  if (node->item != NULL)
    {
      join (edit, node->type, node->prev, node->next);
      node->moved = TRUE;
    }
  set_item (node, i);
  link_behind (edit, node, place);
}

/**
 * rw_edit_remove:
 * @edit: an edit
 * @key: of an item that is there; what refers to it is the caller's care
 */
void
rw_edit_remove (RwEdit *edit, const char *key)
{
  RwItem *item = rw_edit_find (edit, key);
  Node *node;

  g_return_if_fail (item != NULL);

  node = get_node (edit, item->type, key);
  touch (edit, node);
  join (edit, node->type, node->prev, node->next);
  set_item (node, NULL);
}

/**
 * rw_edit_set:
 * @edit: an edit
 * @key: of an item that is there
 * @field: index of a field
 * @value: (nullable): as for rw_item_with()
 * @error: as for rw_item_with()
 *
 * Returns: %FALSE where the value was refused; the edit is then as before
 */
gboolean
rw_edit_set (RwEdit *edit, const char *key, guint field, GVariant *value, GError **error)
{
  RwItem *item = rw_edit_find (edit, key);
  RwItem *changed;

  g_return_val_if_fail (item != NULL, FALSE);

  changed = rw_item_with (item, field, value, error);
  if (changed == NULL)
    return FALSE;
  if (strcmp (changed->key, key) == 0)
    rw_edit_put (edit, changed);
  else
    {
      /* The key depends on the value (a channel's number): the item takes its old one's place. */
      rw_edit_insert_after (edit, changed, key);
      rw_edit_remove (edit, key);
    }
  return TRUE;
}

/**
 * rw_edit_fresh_id:
 * @edit: an edit
 * @stem: what the id starts with, itself a valid id of at most 50 characters
 *
 * Returns: (transfer full): an id that nothing in the rig has: "STEM-1", "STEM-2", …
 */
char *
rw_edit_fresh_id (const RwEdit *edit, const char *stem)
{
  for (guint n = 1;; n++)
    {
      g_autofree char *id = g_strdup_printf ("%s-%u", stem, n);
      /* one that this edit removed stays spoken for: an entry has one type */
      if (find_node (edit, id) == NULL && rw_rig_find (edit->rig, id) == NULL)
        return g_steal_pointer (&id);
    }
}

static gboolean
names_device (const RwItem *item, const char *id)
{
  const RwCable *cable = (const RwCable *) item;
  const RwPatchRow *row = (const RwPatchRow *) item;

  switch (item->type)
    {
    case RW_ITEM_CABLE:
      return strcmp (cable->from.device, id) == 0 || strcmp (cable->to.device, id) == 0;
    case RW_ITEM_PATCH:
      return strcmp (row->from.device, id) == 0 || strcmp (row->to.device, id) == 0;
    case RW_ITEM_INSIDE:
      return strcmp (((const RwInsideRow *) item)->device, id) == 0;
    case RW_ITEM_CHANNEL:
      return strcmp (((const RwChannel *) item)->device, id) == 0;
    case RW_ITEM_SHOW:
    case RW_ITEM_SYSTEM:
    case RW_ITEM_PART:
    case RW_ITEM_DEVICE:
    case RW_ITEM_SET:
    case RW_ITEM_REVISION:
      return FALSE;
    }
  return FALSE;
}

/**
 * rw_edit_remove_device:
 * @edit: an edit
 * @id: of a device that is there
 *
 * Removes the device with its cables, patch rows and channels.
 */
void
rw_edit_remove_device (RwEdit *edit, const char *id)
{
  g_autofree char *device = g_strdup (id);

  for (guint t = RW_ITEM_CABLE; t < RW_N_STATE_TYPES; t++)
    for (const char *key = rw_edit_first (edit, t), *next; key != NULL; key = next)
      {
        next = rw_edit_next (edit, t, key);
        if (names_device (rw_edit_find (edit, key), device))
          rw_edit_remove (edit, key);
      }
  rw_edit_remove (edit, device);
}

/**
 * rw_edit_finish:
 * @edit: (transfer full): an edit
 *
 * Returns: (transfer full): the change; it has no entries where nothing would change
 */
RwChange *
rw_edit_finish (RwEdit *edit)
{
  RwChange *change = rw_change_new (edit->name);

  for (guint i = 0; i < edit->touched->len; i++)
    {
      Node *node = g_ptr_array_index (edit->touched, i);
      RwItem *before = rw_rig_find (edit->rig, node->key);
      const char *before_place = rw_rig_place (edit->rig, node->key);
      const char *after_place = node->item != NULL ? node->prev : NULL;

      /* one that moved together with the item before it has the same place as ever, and still must move */
      if ((!node->moved || before == NULL) && rw_item_equal (before, node->item) && g_strcmp0 (before_place, after_place) == 0)
        continue;
      rw_change_add (change, node->type, node->key, before, before_place, node->item, after_place);
    }
  rw_edit_free (edit);
  return change;
}
