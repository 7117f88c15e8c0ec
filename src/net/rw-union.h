/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Disjoint sets of the numbers 0 … n − 1, as a plain array: the parent of each, a set's head its own. */
guint *rw_union_new (guint n);
guint rw_union_find (guint *parents, guint i);
gboolean rw_union_join (guint *parents, guint a, guint b);

G_END_DECLS
