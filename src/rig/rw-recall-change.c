/* SPDX-License-Identifier: MIT */
#include "rw-clip.h"
#include "rw-difference.h"
#include "rw-edit.h"
#include "rw-line.h"
#include "rw-recall.h"
#include "rw-scope.h"

/* One list of the rig while the set's takes its place. */
typedef struct
{
  const RwRecall *recall;
  RwEdit *edit;
  GHashTable *names;   /* id of a stored device → id of its target */
  GHashTable *free;    /* what an item says → GQueue of the rig's items that say it and have no use yet */
  GHashTable *used;    /* keys of the rig's items that stay, or that an item of the set takes the place of */
  GPtrArray *coming;   /* of the set's items, renamed, without those that are left out */
  GArray *placed;      /* of gboolean, by @coming: it has its place in the edit */
  GPtrArray *going;    /* of the rig's items in question */
  guint n_left_out;
  guint n_ids;         /* the number of the last id that was made */
} Swap;

/* What an item says, whatever its id. */
static char *
says (const RwItem *item)
{
  const RwPatchRow *row = (const RwPatchRow *) item;
  const RwInsideRow *inside = (const RwInsideRow *) item;

  if (item->type == RW_ITEM_PATCH)
    return g_strdup_printf ("%s/%d/%s/%d", row->from.device, row->from.number, row->to.device, row->to.number);
  if (item->type == RW_ITEM_INSIDE)
    return g_strdup_printf ("%s/%d/%d/%d/%d", inside->device, inside->from.kind, inside->from.number, inside->to.kind,
                            inside->to.number);
  return g_strdup (item->key);
}

static gboolean
is_there (Swap *swap, const RwItem *item)
{
  if (item->type == RW_ITEM_PATCH)
    return g_hash_table_contains (swap->names, ((const RwPatchRow *) item)->from.device)
           && g_hash_table_contains (swap->names, ((const RwPatchRow *) item)->to.device);
  return g_hash_table_contains (swap->names, item->type == RW_ITEM_INSIDE ? ((const RwInsideRow *) item)->device
                                                                           : ((const RwChannel *) item)->device);
}

/* (transfer full) (nullable): @item of the set as it will be in the rig. */
static RwItem *
rename_item (Swap *swap, RwItem *item)
{
  RwItem *copy;

  if (!is_there (swap, item))
    {
      swap->n_left_out += item->type != RW_ITEM_CHANNEL;
      return NULL;
    }
  copy = rw_item_dup (item);
  rw_clip_rename_ids (copy, swap->names);
  return rw_item_seal (copy);
}

static void
add_going (Swap *swap, RwItem *item)
{
  char *key = says (item);
  GQueue *queue = g_hash_table_lookup (swap->free, key);

  if (queue == NULL)
    g_hash_table_insert (swap->free, g_strdup (key), queue = g_queue_new ());
  g_queue_push_tail (queue, item);
  g_ptr_array_add (swap->going, item);
  g_free (key);
}

static gboolean
is_going (Swap *swap, const RwItem *item)
{
  g_autofree char *key = says (item);
  GQueue *queue = g_hash_table_lookup (swap->free, key);

  return queue != NULL && g_queue_find (queue, item) != NULL;
}

static void
use (Swap *swap, RwItem *item)
{
  g_autofree char *key = says (item);

  g_queue_remove (g_hash_table_lookup (swap->free, key), item);
  g_hash_table_add (swap->used, item->key);
}

/* The item of the rig with the id of one that comes, where that is in question and has no use yet. */
static RwItem *
same_id (Swap *swap, const RwItem *coming)
{
  RwItem *there = rw_rig_find (swap->recall->rig, coming->key);

  return there != NULL && there->type == coming->type && is_going (swap, there) ? there : NULL;
}

static void
take_place (Swap *swap, guint index, RwItem *there)
{
  use (swap, there);
  if (!rw_item_equal (there, swap->coming->pdata[index]))
    rw_edit_put (swap->edit, rw_item_ref (swap->coming->pdata[index]));
  g_array_index (swap->placed, gboolean, index) = TRUE;
}

/* First pass: what has not changed at all. */
static void
match_same (Swap *swap, guint index)
{
  RwItem *coming = swap->coming->pdata[index];
  RwItem *there = same_id (swap, coming);
  g_autofree char *says_one = says (coming);
  g_autofree char *says_other = there != NULL ? says (there) : NULL;

  if (g_strcmp0 (says_one, says_other) == 0)
    take_place (swap, index, there);
}

/* Second pass: a row that says the same under another id stays, and what comes is not needed. */
static void
match_meaning (Swap *swap, guint index)
{
  RwItem *coming = swap->coming->pdata[index];
  g_autofree char *key = says (coming);
  GQueue *queue = g_hash_table_lookup (swap->free, key);
  RwItem *there = queue != NULL ? g_queue_peek_head (queue) : NULL;

  if (there == NULL || g_array_index (swap->placed, gboolean, index))
    return;
  use (swap, there);
  g_array_index (swap->placed, gboolean, index) = TRUE;
  rw_item_unref (coming);
  swap->coming->pdata[index] = rw_item_ref (there);
}

static RwItem *
with_fresh_id (Swap *swap, RwItem *item)
{
  const char *stem = item->type == RW_ITEM_PATCH ? "patch" : "inside";
  g_autofree char *id = NULL;

  /* counts on where the row before left off: thousands may need one */
  do
    {
      g_free (id);
      id = g_strdup_printf ("%s-%u", stem, ++swap->n_ids);
    }
  while (rw_edit_find (swap->edit, id) != NULL || rw_rig_find (swap->recall->rig, id) != NULL);
  return rw_item_with (item, RW_PATCH_ID, g_variant_new_string (id), NULL);
}

/* Third pass: what is really new comes behind the item that it followed in the set. */
static void
bring (Swap *swap, guint index, const char *behind)
{
  RwItem *coming = swap->coming->pdata[index];
  RwItem *there = same_id (swap, coming);

  if (there != NULL)
    {
      take_place (swap, index, there);
      return;
    }
  /* a channel is what its place is; a row's id may be that of anything */
  if (coming->type == RW_ITEM_CHANNEL && rw_edit_find (swap->edit, coming->key) != NULL)
    {
      rw_edit_put (swap->edit, rw_item_ref (coming));
      return;
    }
  if (rw_edit_find (swap->edit, coming->key) != NULL)
    {
      swap->coming->pdata[index] = with_fresh_id (swap, coming);
      rw_item_unref (coming);
      coming = swap->coming->pdata[index];
    }
  rw_edit_insert_after (swap->edit, rw_item_ref (coming), behind);
}

G_STATIC_ASSERT ((int) RW_PATCH_ID == (int) RW_INSIDE_ID);

static void
match_all (Swap *swap)
{
  const char *behind = NULL;

  for (guint i = 0; i < swap->coming->len; i++)
    match_same (swap, i);
  for (guint i = 0; i < swap->coming->len; i++)
    match_meaning (swap, i);
  for (guint i = 0; i < swap->coming->len; i++)
    {
      if (!g_array_index (swap->placed, gboolean, i))
        bring (swap, i, behind);
      behind = rw_item_key (swap->coming->pdata[i]);
    }
  for (guint i = 0; i < swap->going->len; i++)
    if (!g_hash_table_contains (swap->used, rw_item_key (swap->going->pdata[i])))
      rw_edit_remove (swap->edit, rw_item_key (swap->going->pdata[i]));
}

static void
swap_list (const RwRecall *recall, RwEdit *edit, GHashTable *names, RwScopeIndex *scope, RwItemType type, guint *n_left_out)
{
  Swap swap = { .recall = recall, .edit = edit, .names = names };
  RwRig *state = recall->set->state;

  swap.free = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_queue_free);
  swap.used = g_hash_table_new (g_str_hash, g_str_equal);
  swap.coming = g_ptr_array_new_with_free_func (rw_item_unref);
  swap.going = g_ptr_array_new ();
  for (guint i = 0; i < rw_rig_n (recall->rig, type); i++)
    if (rw_scope_index_goes (scope, rw_rig_items (recall->rig, type)[i]))
      add_going (&swap, rw_rig_items (recall->rig, type)[i]);
  for (guint i = 0; i < rw_rig_n (state, type); i++)
    {
      RwItem *item = rename_item (&swap, rw_rig_items (state, type)[i]);
      if (item != NULL)
        g_ptr_array_add (swap.coming, item);
    }
  swap.placed = g_array_new (FALSE, TRUE, sizeof (gboolean));
  g_array_set_size (swap.placed, swap.coming->len);
  match_all (&swap);
  for (guint i = 0; type == RW_ITEM_PATCH && i < swap.coming->len; i++)
    rw_scope_index_add_row (scope, swap.coming->pdata[i]);
  *n_left_out += swap.n_left_out;
  g_array_unref (swap.placed);
  g_hash_table_unref (swap.free);
  g_hash_table_unref (swap.used);
  g_ptr_array_unref (swap.coming);
  g_ptr_array_unref (swap.going);
}

static GHashTable *
make_names (const RwRecall *recall)
{
  GHashTable *names = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < rw_recall_n (recall); i++)
    {
      const RwRecallDevice *device = rw_recall_get (recall, i);
      if (device->target != NULL)
        g_hash_table_insert (names, (gpointer) rw_item_key (device->stored), (gpointer) rw_item_key (device->target));
    }
  return names;
}

static GHashTable *
make_involved (GHashTable *names)
{
  GHashTable *involved = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTableIter iter;
  gpointer target;

  g_hash_table_iter_init (&iter, names);
  while (g_hash_table_iter_next (&iter, NULL, &target))
    g_hash_table_add (involved, target);
  return involved;
}

/**
 * rw_recall_change:
 * @recall: a recall
 * @name: name of the change: "Recall Act One"
 * @n_left_out: (out): rows of the set that do not come, since a device of theirs is left out
 * @error: as rw_recall_check()
 *
 * The lines that the set is of become those of the set: what is not in it goes, what is comes, each row that is there
 * already stays as it is. Other lines, and all but the patch, are not touched. Recalling again changes nothing.
 *
 * Returns: (transfer full) (nullable): the change, for the recall's rig
 */
RwChange *
rw_recall_change (const RwRecall *recall, const char *name, guint *n_left_out, GError **error)
{
  g_autoptr (GHashTable) names = make_names (recall);
  g_autoptr (GHashTable) involved = make_involved (names);
  const char *console = recall->set->device;
  RwScopeIndex scope;
  RwEdit *edit;

  *n_left_out = 0;
  if (!rw_recall_check (recall, error))
    return NULL;
  if (console != NULL)
    console = g_hash_table_lookup (names, console);
  edit = rw_edit_new (recall->rig, name);
  rw_scope_index_init (&scope, recall->rig, recall->set->scope, console, involved);
  for (RwItemType type = RW_ITEM_PATCH; type <= RW_ITEM_CHANNEL; type++)
    swap_list (recall, edit, names, &scope, type, n_left_out);
  rw_scope_index_clear (&scope);
  return rw_edit_finish (edit);
}

/**
 * rw_recall_preview:
 * @recall: a recall
 * @change: what rw_recall_change() made of it
 *
 * Returns: (transfer full) (element-type RwDifference): what @change would do, in words; free with g_ptr_array_unref()
 */
GPtrArray *
rw_recall_preview (const RwRecall *recall, const RwChange *change)
{
  g_autoptr (RwRig) after = rw_rig_copy (recall->rig);

  rw_rig_apply (after, (RwChange *) change, NULL);
  return rw_differences_new (recall->rig, after);
}
