/* SPDX-License-Identifier: MIT */
#include "rw-lca.h"

static void
measure_subtrees (RwLca *lca, const guint *order)
{
  for (guint i = 0; i < lca->n; i++)
    lca->nodes[i].size = 1;
  for (guint i = lca->n; i-- > 0;)
    if (lca->parent[order[i]] != G_MAXUINT)
      lca->nodes[lca->parent[order[i]]].size += lca->nodes[order[i]].size;
}

static void
number_nodes (RwLca *lca, const guint *order)
{
  g_autofree guint *next = g_new (guint, lca->n); /* by node: number of its next child */
  guint free_number = 0;

  for (guint i = 0; i < lca->n; i++)
    {
      guint node = order[i], parent = lca->parent[node];
      guint *number = parent != G_MAXUINT ? &next[parent] : &free_number;

      lca->nodes[node].pre = *number;
      *number += lca->nodes[node].size;
      next[node] = lca->nodes[node].pre + 1;
    }
}

/* A path goes on into the child with the largest subtree. */
static void
find_paths (RwLca *lca, const guint *order)
{
  g_autofree guint *heavy = g_new (guint, lca->n); /* by node: that child */

  for (guint i = 0; i < lca->n; i++)
    heavy[i] = G_MAXUINT;
  for (guint i = lca->n; i-- > 0;)
    {
      guint node = order[i], parent = lca->parent[node];

      if (parent != G_MAXUINT && (heavy[parent] == G_MAXUINT || lca->nodes[node].size > lca->nodes[heavy[parent]].size))
        heavy[parent] = node;
    }
  for (guint i = 0; i < lca->n; i++)
    {
      guint node = order[i], parent = lca->parent[node];

      lca->nodes[node].head = parent != G_MAXUINT && heavy[parent] == node ? lca->nodes[parent].head : node;
    }
}

/**
 * rw_lca_new:
 * @n: number of nodes
 * @parent: by node; G_MAXUINT = a root; is borrowed and must outlive the result
 * @depth: by node
 * @order: all nodes, each after its parent
 *
 * Parts the forest into heavy paths, of which any way to a root passes log n at most (D. D. Sleator and R. E. Tarjan,
 * "A data structure for dynamic trees", Journal of Computer and System Sciences 26, 1983; from memory).
 *
 * Returns: (transfer full): ready to be asked
 */
RwLca *
rw_lca_new (guint n, const guint *parent, const guint *depth, const guint *order)
{
  RwLca *lca = g_new (RwLca, 1);

  *lca = (RwLca){ n, g_new (RwLcaNode, n), parent };
  for (guint i = 0; i < n; i++)
    lca->nodes[i].depth = depth[i];
  measure_subtrees (lca, order);
  number_nodes (lca, order);
  find_paths (lca, order);
  return lca;
}

void
rw_lca_free (RwLca *lca)
{
  g_free (lca->nodes);
  g_free (lca);
}
