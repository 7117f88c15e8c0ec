/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-item.h"

G_BEGIN_DECLS

/* Items and their texts lie all over the heap: a walk fetches them so many items before it reads them. */
#define RW_AHEAD_ITEM 16
#define RW_AHEAD_TEXT 8

/* For each step of a walk. (nullable): the item of which the texts are to be fetched now, by __builtin_prefetch(). */
static inline const RwItem *
rw_items_ahead (RwItem *const *items, guint n, guint i)
{
  if (i + RW_AHEAD_ITEM < n)
    __builtin_prefetch (items[i + RW_AHEAD_ITEM]);
  return i + RW_AHEAD_TEXT < n ? items[i + RW_AHEAD_TEXT] : NULL;
}

G_END_DECLS
