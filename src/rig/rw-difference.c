/* SPDX-License-Identifier: MIT */
#include "rw-difference.h"

#include <string.h>

#include "rw-compare.h"

static void
difference_free (gpointer data)
{
  RwDifference *difference = data;

  g_clear_pointer (&difference->before, rw_item_unref);
  g_clear_pointer (&difference->after, rw_item_unref);
  g_free (difference->message);
  g_free (difference);
}

/* An absent member has the meaning of its default, or of nothing; only numbers and words without a default can
 * really be absent. */
static gboolean
has_meaning (gconstpointer record, const RwField *field, guint index)
{
  return rw_record_has (record, index) || field->has_def
         || (field->kind != RW_FIELD_STATE && field->kind != RW_FIELD_INTEGER && field->kind != RW_FIELD_REAL && field->kind != RW_FIELD_WORD);
}

/* Where a device stands of which nobody ever said it is for the program to choose: no difference to any other place. */
static gboolean
is_open_choice (gconstpointer before, gconstpointer after, const RwTable *table, guint index)
{
  return table == &rw_device_table && index == RW_DEVICE_AT
         && (!rw_record_has (before, index) || !rw_record_has (after, index));
}

/* The value that holds, written or not; NULL = absent. */
static GVariant *
value_that_holds (gconstpointer record, const RwTable *table, guint index)
{
  g_autofree RwRecord *written = NULL;

  if (!has_meaning (record, &table->fields[index], index))
    return NULL;
  written = g_memdup2 (record, table->size);
  written->present |= G_GUINT64_CONSTANT (1) << index;
  return rw_record_get (written, table, index);
}

/**
 * rw_difference_states: how many differences there are between two stored states, each (nullable).
 */
guint
rw_difference_states (const RwRig *before, const RwRig *after)
{
  g_autoptr (GPtrArray) differences = NULL;

  if (before == NULL || after == NULL || before == after)
    return before != after;
  differences = rw_differences_new (before, after);
  return differences->len;
}

static gboolean
field_differs (gconstpointer before, gconstpointer after, const RwTable *table, guint index)
{
  const RwField *field = &table->fields[index];
  g_autoptr (GVariant) a = NULL;
  g_autoptr (GVariant) b = NULL;

  if (is_open_choice (before, after, table, index))
    return FALSE;
  if (field->kind == RW_FIELD_RECORD)
    return rw_difference_fields (RW_FIELD_PTR (before, field), RW_FIELD_PTR (after, field), field->sub) != 0;
  if (field->kind == RW_FIELD_STATE)
    return rw_difference_states (*(RwRig *const *) RW_FIELD_PTR (before, field), *(RwRig *const *) RW_FIELD_PTR (after, field)) > 0;
  a = value_that_holds (before, table, index);
  b = value_that_holds (after, table, index);
  if (a == NULL || b == NULL)
    return a != b;
  return !g_variant_equal (a, b);
}

/**
 * rw_difference_fields: bit i = field i of @table differs in meaning between two records of it.
 */
guint64
rw_difference_fields (gconstpointer before, gconstpointer after, const RwTable *table)
{
  guint64 fields = 0;

  for (guint i = 0; i < table->n_fields; i++)
    if (field_differs (before, after, table, i))
      fields |= G_GUINT64_CONSTANT (1) << i;
  return fields;
}

static gboolean
extras_differ (const RwItem *a, const RwItem *b)
{
  char *none[] = { NULL };
  char **one = a->record.extras != NULL ? a->record.extras : none;
  char **other = b->record.extras != NULL ? b->record.extras : none;

  return !g_strv_equal ((const char *const *) one, (const char *const *) other);
}

/* NULL where the two states mean the same: a default that is now written out is no difference. */
static RwDifference *
difference_new (const RwChangeEntry *entry, const RwRig *older, const RwRig *newer)
{
  RwDifference *difference = g_new0 (RwDifference, 1);

  difference->type = entry->type;
  difference->before = entry->before != NULL ? rw_item_ref (entry->before) : NULL;
  difference->after = entry->after != NULL ? rw_item_ref (entry->after) : NULL;
  difference->kind = entry->before == NULL ? RW_DIFFERENCE_ADDED : entry->after == NULL ? RW_DIFFERENCE_REMOVED : RW_DIFFERENCE_CHANGED;
  if (difference->kind != RW_DIFFERENCE_CHANGED)
    difference->fields = (entry->before != NULL ? entry->before : entry->after)->record.present;
  else
    {
      difference->fields = rw_difference_fields (entry->before, entry->after, rw_item_table (entry->before));
      difference->extras = extras_differ (entry->before, entry->after);
      difference->moved = g_strcmp0 (entry->before_place, entry->after_place) != 0 && rw_item_equal (entry->before, entry->after);
      if (difference->fields == 0 && !difference->extras && !difference->moved)
        {
          difference_free (difference);
          return NULL;
        }
    }
  difference->message = rw_difference_text (difference, entry, older, newer);
  return difference;
}

/**
 * rw_differences_new: what leads from @older to @newer, by type in the order of the file: what went, then what came or
 * changed. What only the way of writing makes different is left out.
 *
 * Returns: (transfer full) (element-type RwDifference): free with g_ptr_array_unref()
 */
GPtrArray *
rw_differences_new (const RwRig *older, const RwRig *newer)
{
  g_autoptr (RwChange) change = NULL;
  GPtrArray *differences = g_ptr_array_new_with_free_func (difference_free);

  g_return_val_if_fail (older != NULL && newer != NULL, differences);

  change = rw_compare (older, newer, "");
  for (guint i = 0; i < rw_change_n (change); i++)
    {
      RwDifference *difference = difference_new (rw_change_entry (change, i), older, newer);

      if (difference != NULL)
        g_ptr_array_add (differences, difference);
    }
  return differences;
}

/**
 * rw_difference_key: the key of the item of which @difference speaks, the same in both states.
 */
const char *
rw_difference_key (const RwDifference *difference)
{
  return rw_item_key (difference->before != NULL ? difference->before : difference->after);
}

/**
 * rw_difference_record_value: what field @field of @record has or, where it is absent, the default that it stands for.
 * (transfer full) (nullable): NULL = nothing is given
 */
GVariant *
rw_difference_record_value (gconstpointer record, const RwTable *table, guint field)
{
  if (!rw_record_has (record, field) && !table->fields[field].has_def)
    return NULL;
  return value_that_holds (record, table, field);
}

/**
 * rw_difference_value: likewise, of @item: (nullable).
 */
GVariant *
rw_difference_value (const RwItem *item, guint field)
{
  return item != NULL ? rw_difference_record_value (item, rw_item_table (item), field) : NULL;
}
