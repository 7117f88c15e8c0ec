/* SPDX-License-Identifier: MIT */
#include "rw-lca.h"

static void
number_nodes (RwLca *lca, const guint *parent, const guint *order)
{
  g_autofree guint *next = g_new (guint, lca->n); /* by node: number of its next child */
  guint free_number = 0;

  for (guint i = 0; i < lca->n; i++)
    lca->size[i] = 1;
  for (guint i = lca->n; i-- > 0;)
    if (parent[order[i]] != G_MAXUINT)
      lca->size[parent[order[i]]] += lca->size[order[i]];
  for (guint i = 0; i < lca->n; i++)
    {
      guint node = order[i];
      guint *number = parent[node] != G_MAXUINT ? &next[parent[node]] : &free_number;
      lca->pre[node] = *number;
      *number += lca->size[node];
      next[node] = lca->pre[node] + 1;
    }
}

/* Of two parents the shallower; a root between them says that there is none. */
static guint
shallower (const RwLca *lca, guint a, guint b)
{
  if (a == G_MAXUINT || b == G_MAXUINT)
    return a == G_MAXUINT ? a : b;
  return lca->depth[a] <= lca->depth[b] ? a : b;
}

/**
 * rw_lca_new:
 * @n: number of nodes
 * @parent: by node; G_MAXUINT = a root
 * @depth: by node; is borrowed and must outlive the result
 * @order: all nodes, each after its parent
 *
 * Built on preorder: between two nodes in it, the shallowest node met after the first is a child of their
 * lowest common ancestor. The minima of runs are kept in a sparse table (M. A. Bender and M. Farach-Colton,
 * LATIN 2000, 88–94).
 *
 * Returns: (transfer full): ready to be asked
 */
RwLca *
rw_lca_new (guint n, const guint *parent, const guint *depth, const guint *order)
{
  RwLca *lca = g_new0 (RwLca, 1);

  lca->n = n;
  lca->depth = depth;
  lca->pre = g_new (guint, n);
  lca->size = g_new (guint, n);
  number_nodes (lca, parent, order);
  lca->n_levels = n > 0 ? g_bit_storage (n) : 0;
  lca->best = g_new0 (guint *, lca->n_levels);
  if (n == 0)
    return lca;
  lca->best[0] = g_new (guint, n);
  for (guint i = 0; i < n; i++)
    lca->best[0][lca->pre[i]] = parent[i];
  for (guint k = 1; k < lca->n_levels; k++)
    {
      guint half = 1u << (k - 1);
      lca->best[k] = g_new (guint, n - 2 * half + 1);
      for (guint i = 0; i + 2 * half <= n; i++)
        lca->best[k][i] = shallower (lca, lca->best[k - 1][i], lca->best[k - 1][i + half]);
    }
  return lca;
}

void
rw_lca_free (RwLca *lca)
{
  for (guint k = 0; k < lca->n_levels; k++)
    g_free (lca->best[k]);
  g_free (lca->best);
  g_free (lca->pre);
  g_free (lca->size);
  g_free (lca);
}

/**
 * rw_lca_find:
 *
 * Returns: the lowest node that is above both or is one of them; G_MAXUINT where they are in two trees
 */
guint
rw_lca_find (const RwLca *lca, guint a, guint b)
{
  guint low = MIN (lca->pre[a], lca->pre[b]), high = MAX (lca->pre[a], lca->pre[b]);
  guint level;

  if (a == b)
    return a;
  level = g_bit_storage (high - low) - 1;
  return shallower (lca, lca->best[level][low + 1], lca->best[level][high + 1 - (1u << level)]);
}

/**
 * rw_lca_is_above:
 *
 * Returns: %TRUE where @lower is in the subtree of @upper, itself included
 */
gboolean
rw_lca_is_above (const RwLca *lca, guint upper, guint lower)
{
  return lca->pre[lower] - lca->pre[upper] < lca->size[upper];
}
