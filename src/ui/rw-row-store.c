/* SPDX-License-Identifier: MIT */
#include "rw-row-store.h"

GPtrArray *
rw_row_store_rows (GListStore *store)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (store));
  GPtrArray *rows = g_ptr_array_new_full (n, g_object_unref);

  for (guint i = 0; i < n; i++)
    g_ptr_array_add (rows, g_list_model_get_item (G_LIST_MODEL (store), i));
  return rows;
}

void
rw_row_store_show (GListStore *store, GPtrArray *rows)
{
  g_autoptr (GPtrArray) before = rw_row_store_rows (store);
  guint head = 0, tail = 0, least = MIN (before->len, rows->len);

  while (head < least && before->pdata[head] == rows->pdata[head])
    head++;
  while (tail < least - head && before->pdata[before->len - 1 - tail] == rows->pdata[rows->len - 1 - tail])
    tail++;
  if (before->len - head - tail > 0 || rows->len - head - tail > 0)
    g_list_store_splice (store, head, before->len - head - tail, rows->pdata + head, rows->len - head - tail);
}
