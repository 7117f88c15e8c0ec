/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-state.h"

G_BEGIN_DECLS

/**
 * RwScopeIndex: which rows and channels of a rig are among the lines that a patch set holds.
 *
 * A row belongs to the inputs of the console that it leads to, and to the outputs of the one that it comes from; one
 * between devices that are no consoles is an output of none. The channels at both of its ends belong with it. A stage
 * socket that no row uses belongs to every console's inputs or outputs, but, where one console is asked for, only on
 * the devices that are involved.
 * @console: (nullable): id of the one console, NULL = all
 * @involved: (nullable): set of device ids
 */
typedef struct
{
  const RwRig *rig;
  gboolean inputs, outputs;
  const char *console;
  GHashTable *involved;
  GHashTable *sends;    /* "DEVICE/NUMBER" → what uses it */
  GHashTable *receives;
} RwScopeIndex;

void rw_scope_index_init (RwScopeIndex *index, const RwRig *rig, RwScope scope, const char *console, GHashTable *involved);
void rw_scope_index_clear (RwScopeIndex *index);
void rw_scope_index_add_row (RwScopeIndex *index, const RwPatchRow *row);
gboolean rw_scope_index_has (const RwScopeIndex *index, const RwItem *item);
gboolean rw_scope_index_goes (const RwScopeIndex *index, const RwItem *item);

RwRig *rw_scope_gather (const RwRig *rig, RwScope scope, const char *console);

G_END_DECLS
