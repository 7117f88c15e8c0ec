/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

/* Which of the lines a patch set holds. */
typedef enum
{
  RW_SCOPE_ALL,
  RW_SCOPE_INPUTS,
  RW_SCOPE_OUTPUTS,
} RwScope;

enum
{
  RW_SET_ID,
  RW_SET_NAME,
  RW_SET_SCOPE,
  RW_SET_DEVICE,
  RW_SET_NOTES,
  RW_SET_STATE,
  RW_SET_N_FIELDS
};

/* A patch that was stored under a name. */
struct _RwPatchSet
{
  RwItem item;
  char *name;
  int scope;    /* RwScope */
  char *device; /* the console whose lines they are, a device of @state; NULL = of all */
  char *notes;
  RwRig *state; /* sealed */
};

enum
{
  RW_REVISION_ID,
  RW_REVISION_LETTER,
  RW_REVISION_DATE,
  RW_REVISION_BY,
  RW_REVISION_WHAT,
  RW_REVISION_STATE,
  RW_REVISION_N_FIELDS
};

/* A state of the rig that was given out. */
struct _RwRevision
{
  RwItem item;
  char *letter;
  char *date; /* YYYY-MM-DD is meant; any text opens */
  char *by;
  char *what;
  RwRig *state; /* sealed */
};

extern const RwTable rw_set_table;
extern const RwTable rw_revision_table;

RwItem *rw_set_new (const char *id, const char *name, RwScope scope, const char *device, const char *notes, const RwRig *state);
RwItem *rw_revision_new (const char *id, const char *letter, const char *date, const char *by, const char *what,
                         const RwRig *state);
RwItem *rw_set_with_state (const RwPatchSet *set, const RwRig *state);
const char *rw_set_title (const RwPatchSet *set);
const char *rw_revision_title (const RwRevision *revision);

/* What the field kind RW_FIELD_STATE does with the sealed rig in it. */
gboolean rw_state_equal (const RwRig *a, const RwRig *b);
GVariant *rw_state_get (const RwRig *state);
RwRig *rw_state_new_from_variant (GVariant *members, GError **error);
RwRig *rw_state_of (const RwItem *item, guint field);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwPatchSet, rw_item_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwRevision, rw_item_unref)

G_END_DECLS
