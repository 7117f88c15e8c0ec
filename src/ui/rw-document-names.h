/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/* The names of @rig's devices, as a set of borrowed or owned strings. (transfer full). */
GHashTable *rw_document_names (const RwRig *rig);
/**
 * rw_document_fresh_name:
 * @model: (nullable): what its part is called: a number in that does not count devices
 *
 * Returns: @name itself, or with the next number that is not @taken: “Stage rack”, “Stage rack 2”; “Console 32”,
 *   “Console 32 #2”; it is taken from then on
 */
char *rw_document_fresh_name (GHashTable *taken, const char *name, const char *model);

G_END_DECLS
