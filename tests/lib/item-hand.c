/* SPDX-License-Identifier: MIT */
#include "item-hand.h"

gpointer
test_item_new (RwItemType type, const char *id)
{
  RwItem *item = rw_item_new (type);

  g_assert_true (rw_record_set (item, rw_item_type_table (type), 0, g_variant_new_string (id), NULL));
  return item;
}

void
test_item_set (gpointer item, guint field, GVariant *value)
{
  g_autoptr (GError) error = NULL;

  rw_record_set (item, rw_item_table (item), field, value, &error);
  g_assert_no_error (error);
}

void
test_rig_append (RwRig *rig, gpointer item)
{
  g_autoptr (GError) error = NULL;

  rw_rig_append (rig, rw_item_seal (item), &error);
  g_assert_no_error (error);
  rw_item_unref (item);
}

void
test_rig_apply (RwRig *rig, RwEdit *edit)
{
  g_autoptr (RwChange) change = rw_edit_finish (edit);
  g_autoptr (GError) error = NULL;

  rw_rig_apply (rig, change, &error);
  g_assert_no_error (error);
}
