/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/* What several items say of one field. */
typedef enum
{
  RW_SHARED_ABSENT,  /* none says anything: the fallback holds */
  RW_SHARED_SAME,
  RW_SHARED_SEVERAL, /* they differ */
} RwShared;

/**
 * RwFieldLine: one line of Particulars.
 * @field: a leaf: never a RECORD
 * @parent: (nullable): the RECORD in which it sits
 * @path: "unit_id", "clock.priority1"
 */
typedef struct
{
  const RwField *field;
  const RwField *parent;
  char *path;
} RwFieldLine;

/**
 * RwFieldSheet: the fields that a set of items has in common, made from their tables. It keeps keys, not
 * items, so it stays right while the rig changes; items that are gone count as saying nothing.
 */
typedef struct _RwFieldSheet RwFieldSheet;

RwFieldSheet *rw_field_sheet_new (const RwRig *rig, const char *const *keys);
void rw_field_sheet_free (RwFieldSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwFieldSheet, rw_field_sheet_free)

guint rw_field_sheet_n (const RwFieldSheet *sheet);
const RwFieldLine *rw_field_sheet_line (const RwFieldSheet *sheet, guint index);
int rw_field_sheet_find (const RwFieldSheet *sheet, const char *path);
const char *const *rw_field_sheet_keys (const RwFieldSheet *sheet);
gboolean rw_field_sheet_covers (const RwFieldSheet *sheet, const RwFieldSheet *other);

/* @value: (out) (transfer full): set with RW_SHARED_SAME alone. */
RwShared rw_field_sheet_get (const RwFieldSheet *sheet, const RwRig *rig, guint line, GVariant **value);
/* What an absent value stands for: the system's, else the field's own default. (transfer full) (nullable). */
GVariant *rw_field_sheet_fallback_value (const RwFieldSheet *sheet, const RwRig *rig, guint line);
/* The same, as a person reads it, with its unit; "" = nothing. */
char *rw_field_sheet_fallback (const RwFieldSheet *sheet, const RwRig *rig, guint line);
/* The change that gives every item @value (NULL = says nothing), (transfer full). */
RwChange *rw_field_sheet_set (const RwFieldSheet *sheet, const RwRig *rig, guint line, GVariant *value,
                              GError **error);

G_END_DECLS
