/* SPDX-License-Identifier: MIT */
#include "rw-compare.h"

/*
 * Which of the items that both rigs have stay where they are: a longest run of them that stands in the same
 * order in both, by patience sorting (M. L. Fredman, Discrete Mathematics 11, 1975, 29–35). The others moved.
 */
static GHashTable *
unmoved (const RwRig *older, const RwRig *newer, RwItemType type)
{
  RwItem *const *items = rw_rig_items (newer, type);
  guint n = rw_rig_n (newer, type), length = 0;
  g_autofree int *at = g_new (int, n);      /* place in the older list, -1 = not there */
  g_autofree guint *ends = g_new (guint, n); /* item that ends the best run of each length */
  g_autofree guint *before = g_new (guint, n);
  GHashTable *stay = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < n; i++)
    {
      guint low = 0, high = length;
      RwItem *old = rw_rig_find (older, items[i]->key);
      at[i] = old != NULL && old->type == type ? rw_rig_index (older, items[i]->key) : -1;
      if (at[i] < 0)
        continue;
      while (low < high)
        {
          guint middle = (low + high) / 2;
          if (at[ends[middle]] < at[i])
            low = middle + 1;
          else
            high = middle;
        }
      before[i] = low > 0 ? ends[low - 1] : i;
      ends[low] = i;
      length = MAX (length, low + 1);
    }
  for (guint i = length > 0 ? ends[length - 1] : 0, left = length; left > 0; left--, i = before[i])
    g_hash_table_add (stay, items[i]->key);
  return stay;
}

static void
add_gone (RwChange *change, const RwRig *older, const RwRig *newer, RwItemType type)
{
  RwItem *const *items = rw_rig_items (older, type);

  for (guint i = 0; i < rw_rig_n (older, type); i++)
    {
      RwItem *there = rw_rig_find (newer, items[i]->key);
      if (there == NULL || there->type != type)
        rw_change_add (change, type, items[i]->key, items[i], rw_rig_place (older, items[i]->key), NULL, NULL);
    }
}

static void
add_come_and_changed (RwChange *change, const RwRig *older, const RwRig *newer, RwItemType type)
{
  RwItem *const *items = rw_rig_items (newer, type);
  g_autoptr (GHashTable) stay = unmoved (older, newer, type);

  for (guint i = 0; i < rw_rig_n (newer, type); i++)
    {
      const char *key = items[i]->key;
      RwItem *before = rw_rig_find (older, key);
      const char *before_place = rw_rig_place (older, key);

      if (before != NULL && before->type != type)
        before = NULL, before_place = NULL;
      if (before != NULL && g_hash_table_contains (stay, key) && rw_item_equal (before, items[i]))
        continue;
      rw_change_add (change, type, key, before, before_place, items[i], rw_rig_place (newer, key));
    }
}

/**
 * rw_compare:
 * @older: a rig
 * @newer: another state of it, or any other rig
 * @name: name of the change
 *
 * Returns: (transfer full): the change that leads from @older to @newer: what went, then what came or changed,
 *   in file order. What merely stands behind another item than before is no change, nor are the stored sets and
 *   revisions where one of the two is a stored state, which has none
 */
RwChange *
rw_compare (const RwRig *older, const RwRig *newer, const char *name)
{
  RwChange *change = rw_change_new (name);
  gboolean of_state = rw_rig_is_sealed (older) || rw_rig_is_sealed (newer);

  for (guint t = 0; t < (of_state ? RW_N_STATE_TYPES : RW_N_ITEM_TYPES); t++)
    {
      add_gone (change, older, newer, t);
      add_come_and_changed (change, older, newer, t);
    }
  return change;
}
