/* SPDX-License-Identifier: MIT */
#include "rw-halving.h"

#include "rw-union.h"

/* The head of the set of @node. */
guint
rw_halving_find (const RwHalving *halving, guint node)
{
  while (halving->parents[node] != node)
    node = halving->parents[node];
  return node;
}

static void
join (RwHalving *h, const RwHalvingLink *link)
{
  guint a = rw_halving_find (h, link->node[0]), b = rw_halving_find (h, link->node[1]);
  guint under = h->sizes[a] < h->sizes[b] ? a : b, over = a == under ? b : a;

  if (a == b)
    return;
  h->parents[under] = over;
  h->sizes[over] += h->sizes[under];
  h->joins[h->n_nodes - h->n_sets--] = under;
}

static void
undo_joins (RwHalving *h, guint n_sets)
{
  while (h->n_sets < n_sets)
    {
      guint under = h->joins[h->n_nodes - ++h->n_sets];

      h->sizes[h->parents[under]] -= h->sizes[under];
      h->parents[under] = under;
    }
}

static gboolean
is_owned_in (const RwHalvingLink *link, guint low, guint high)
{
  for (guint i = 0; i < G_N_ELEMENTS (link->owner); i++)
    if (link->owner[i] >= low && link->owner[i] < high)
      return TRUE;
  return FALSE;
}

/* Of @links and @needs those that the halves below have to see to; the others are joined, or met. */
static void
halve (RwHalving *h, const guint *links, guint n_links, const guint *needs, guint n_needs, guint low, guint high)
{
  guint before = h->n_sets, n_owned = 0, n_unmet = 0;
  g_autofree guint *owned = g_new (guint, n_links + n_needs + 1);
  guint *unmet = owned + n_links;

  for (guint i = 0; i < n_links; i++)
    if (is_owned_in (&h->links[links[i]], low, high))
      owned[n_owned++] = links[i];
    else
      join (h, &h->links[links[i]]);
  for (guint i = 0; i < n_needs; i++)
    if (!h->is_met (h, needs[i]))
      unmet[n_unmet++] = needs[i];
  if (low + 1 == high)
    h->judge (h, low, unmet, n_unmet);
  else
    for (guint half = 0, middle = low + (high - low) / 2; half < 2; half++)
      halve (h, owned, n_owned, unmet, n_unmet, half == 0 ? low : middle, half == 0 ? middle : high);
  undo_joins (h, before);
}

/**
 * rw_halving_run:
 * @halving: what to look at and whom to tell; the sets, and what follows them, are filled here and freed again
 */
void
rw_halving_run (RwHalving *halving)
{
  g_autofree guint *links = rw_union_new (halving->n_links);

  if (halving->n_owners == 0)
    return;
  halving->n_sets = halving->n_nodes;
  halving->parents = rw_union_new (halving->n_nodes);
  halving->sizes = g_new (guint, halving->n_nodes);
  halving->joins = g_new (guint, halving->n_nodes);
  for (guint i = 0; i < halving->n_nodes; i++)
    halving->sizes[i] = 1;
  halve (halving, links, halving->n_links, halving->needs, halving->n_needs, 0, halving->n_owners);
  g_free (halving->parents);
  g_free (halving->sizes);
  g_free (halving->joins);
}
