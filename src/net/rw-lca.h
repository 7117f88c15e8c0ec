/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* All of a node that is asked together. */
typedef struct
{
  guint pre;   /* its number in preorder; a subtree is a run of numbers */
  guint size;  /* nodes in its subtree, itself included */
  guint head;  /* the highest node of its heavy path */
  guint depth;
} RwLcaNode;

/* Lowest common ancestors in a forest: linear to build; to ask takes a step for each heavy path passed, log n at most. */
typedef struct
{
  guint n;
  RwLcaNode *nodes;
  const guint *parent; /* by node, borrowed; G_MAXUINT = a root */
} RwLca;

RwLca *rw_lca_new (guint n, const guint *parent, const guint *depth, const guint *order);
void rw_lca_free (RwLca *lca);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLca, rw_lca_free)

/**
 * rw_lca_find:
 *
 * Returns: the lowest node that is above both or is one of them; G_MAXUINT where they are in two trees
 */
static inline guint
rw_lca_find (const RwLca *lca, guint a, guint b)
{
  const RwLcaNode *nodes = lca->nodes;

  while (nodes[a].head != nodes[b].head)
    {
      guint *lower = nodes[nodes[a].head].depth >= nodes[nodes[b].head].depth ? &a : &b;

      *lower = lca->parent[nodes[*lower].head];
      if (*lower == G_MAXUINT)
        return G_MAXUINT;
    }
  return nodes[a].depth <= nodes[b].depth ? a : b;
}

/**
 * rw_lca_is_above:
 *
 * Returns: %TRUE where @lower is in the subtree of @upper, itself included
 */
static inline gboolean
rw_lca_is_above (const RwLca *lca, guint upper, guint lower)
{
  return lca->nodes[lower].pre - lca->nodes[upper].pre < lca->nodes[upper].size;
}

G_END_DECLS
