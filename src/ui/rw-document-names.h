/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/* The names of @rig's devices, as a set of borrowed or owned strings. (transfer full). */
GHashTable *rw_document_names (const RwRig *rig);
/* @name itself, or with the next number that is not @taken: “Stage rack”, “Stage rack 2”; it is taken from then on. */
char *rw_document_fresh_name (GHashTable *taken, const char *name);

G_END_DECLS
