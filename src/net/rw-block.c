/* SPDX-License-Identifier: MIT */
#include "rw-block.h"

typedef struct
{
  const RwNet *net;
  RwBlocks *blocks;
  guint *found;   /* by node: when the search met it, from 1; 0 = not yet */
  guint *low;     /* by node: the earliest that it, or what hangs on it, reaches by one link back */
  guint *next;    /* by node: where its adjacency goes on */
  guint *came_by; /* by node: link */
  guint *walk;    /* the way from the root to where the search is */
  guint n_walk;
  guint *open;    /* nodes met that are not yet in a block under their parent */
  guint n_open;
  guint *met;     /* nodes in the order in which they were met */
  guint n_met;
} Search;

static void
descend (Search *s, guint node, guint link)
{
  s->met[s->n_met++] = node;
  s->found[node] = s->low[node] = s->n_met;
  s->came_by[node] = link;
  s->next[node] = s->net->adjacency_start[node];
  s->walk[s->n_walk++] = node;
  s->open[s->n_open++] = node;
}

/* All that is open down to @child hangs on @at by one block. */
static void
close_block (Search *s, guint at, guint child)
{
  RwBlocks *blocks = s->blocks;
  guint block = blocks->n_vertices++, node;

  blocks->parent[block] = at;
  /* by link, so that a second cable beside the first is a way back */
  blocks->bridge[block] = s->low[child] == s->found[child] ? s->came_by[child] : RW_NONE;
  do
    {
      node = s->open[--s->n_open];
      blocks->parent[node] = block;
    }
  while (node != child);
}

static void
step (Search *s)
{
  guint at = s->walk[s->n_walk - 1];
  guint link, to;

  if (s->next[at] == s->net->adjacency_start[at + 1])
    {
      if (--s->n_walk == 0)
        return;
      guint above = s->walk[s->n_walk - 1];
      s->low[above] = MIN (s->low[above], s->low[at]);
      if (s->low[at] >= s->found[above])
        close_block (s, above, at);
      return;
    }
  link = s->net->adjacency[s->next[at]++];
  to = rw_net_other_node (s->net, link, at);
  if (link == s->came_by[at] || to == at)
    return;
  if (s->found[to] == 0)
    descend (s, to, link);
  else
    s->low[at] = MIN (s->low[at], s->found[to]);
}

static guint
choose_root (const RwNet *net, guint network)
{
  RwSlice nodes = net->networks[network].nodes;

  for (guint i = 0; i < nodes.n; i++)
    if (net->nodes[nodes.v[i]].host && net->devices[net->nodes[nodes.v[i]].device].part->kind == RW_PART_CONTROLLER)
      return nodes.v[i];
  return nodes.v[0];
}

/* A node is met after the node that its block hangs on: so the order of meeting gives the order of the tree. */
static void
order_vertices (Search *s)
{
  RwBlocks *blocks = s->blocks;
  guint n = 0;

  for (guint i = 0; i < blocks->n_vertices; i++)
    blocks->depth[i] = RW_NONE;
  for (guint i = 0; i < s->n_met; i++)
    {
      guint node = s->met[i], block = blocks->parent[node];
      if (block != RW_NONE && blocks->depth[block] == RW_NONE)
        {
          blocks->depth[block] = blocks->depth[blocks->parent[block]] + 1;
          blocks->order[n++] = block;
        }
      blocks->depth[node] = block == RW_NONE ? 0 : blocks->depth[block] + 1;
      blocks->order[n++] = node;
    }
}

static void
search_networks (Search *s)
{
  for (guint i = 0; i < s->net->n_networks; i++)
    {
      guint root = choose_root (s->net, i);
      s->blocks->parent[root] = RW_NONE;
      descend (s, root, RW_NONE);
      while (s->n_walk > 0)
        step (s);
      s->n_open = 0; /* the root is in no block above it */
    }
}

/**
 * rw_blocks_new:
 * @net: a net
 *
 * One depth-first search without recursion: J. Hopcroft and R. Tarjan, Communications of the ACM 16(6), 1973.
 *
 * Returns: (transfer full): the forest
 */
RwBlocks *
rw_blocks_new (const RwNet *net)
{
  RwBlocks *blocks = g_new0 (RwBlocks, 1);
  guint n = net->n_nodes;
  Search s = { .net = net, .blocks = blocks };

  blocks->n_nodes = blocks->n_vertices = n;
  blocks->parent = g_new (guint, 2 * n + 1);
  blocks->depth = g_new (guint, 2 * n + 1);
  blocks->order = g_new (guint, 2 * n + 1);
  blocks->bridge = g_new (guint, 2 * n + 1);
  for (guint i = 0; i < n; i++)
    blocks->bridge[i] = RW_NONE;
  s.found = g_new0 (guint, n + 1);
  s.low = g_new (guint, n + 1);
  s.next = g_new (guint, n + 1);
  s.came_by = g_new (guint, n + 1);
  s.walk = g_new (guint, n + 1);
  s.open = g_new (guint, n + 1);
  s.met = g_new (guint, n + 1);
  search_networks (&s);
  order_vertices (&s);
  blocks->lca = rw_lca_new (blocks->n_vertices, blocks->parent, blocks->depth, blocks->order);
  g_free (s.found);
  g_free (s.low);
  g_free (s.next);
  g_free (s.came_by);
  g_free (s.walk);
  g_free (s.open);
  g_free (s.met);
  return blocks;
}

void
rw_blocks_free (RwBlocks *blocks)
{
  rw_lca_free (blocks->lca);
  g_free (blocks->parent);
  g_free (blocks->depth);
  g_free (blocks->order);
  g_free (blocks->bridge);
  g_free (blocks);
}
