/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

typedef enum
{
  RW_DIFFERENCE_ADDED,
  RW_DIFFERENCE_REMOVED,
  RW_DIFFERENCE_CHANGED,
} RwDifferenceKind;

/**
 * RwDifference: what became of one item between two states of a rig, as a person says it.
 * @before, @after: (nullable): the item in each of the two, NULL = it was not there
 * @fields: bit i = field i of the item's table differs in meaning; all that are given where the item came or went
 * @extras: members that the program does not know differ
 * @moved: it stands at another place in its list, which has meaning for some lists
 * @message: one line: "Cable N-04 now 50 m, was 20 m"
 */
typedef struct
{
  RwDifferenceKind kind;
  RwItemType type;
  RwItem *before;
  RwItem *after;
  guint64 fields;
  gboolean extras;
  gboolean moved;
  char *message;
} RwDifference;

GPtrArray *rw_differences_new (const RwRig *older, const RwRig *newer);
const char *rw_difference_key (const RwDifference *difference);
GVariant *rw_difference_value (const RwItem *item, guint field);
guint rw_difference_states (const RwRig *before, const RwRig *after);
GVariant *rw_difference_record_value (gconstpointer record, const RwTable *table, guint field);

/* rw-difference-text.c */
char *rw_difference_text (const RwDifference *difference, const RwChangeEntry *entry, const RwRig *older, const RwRig *newer);
guint64 rw_difference_fields (gconstpointer before, gconstpointer after, const RwTable *table);
char *rw_item_title (const RwItem *item, const RwRig *rig);

G_END_DECLS
