/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Lowest common ancestors in a forest: n log n to build, constant time to ask. */
typedef struct
{
  guint n;
  guint *pre;   /* by node: its number in preorder; a subtree is a run of numbers */
  guint *size;  /* by node: nodes in its subtree, itself included */
  guint **best; /* best[k][i]: of the 2^k nodes from preorder number i on, the parent of a shallowest one */
  guint n_levels;
  const guint *depth; /* by node, borrowed */
} RwLca;

RwLca *rw_lca_new (guint n, const guint *parent, const guint *depth, const guint *order);
void rw_lca_free (RwLca *lca);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLca, rw_lca_free)
guint rw_lca_find (const RwLca *lca, guint a, guint b);
gboolean rw_lca_is_above (const RwLca *lca, guint upper, guint lower);

G_END_DECLS
