/* SPDX-License-Identifier: MIT */
#include "rw-net-private.h"

/* The links that lead from the search's start to @node, first to last. */
static GArray *
collect_way (const RwNet *net, const guint *came_by, guint from, guint node)
{
  GArray *way = g_array_new (FALSE, FALSE, sizeof (guint));

  for (; node != from; node = rw_net_other_node (net, came_by[node], node))
    g_array_append_val (way, came_by[node]);
  for (guint i = 0, k = way->len; i + 1 < k; i++)
    {
      guint link = g_array_index (way, guint, i);

      g_array_index (way, guint, i) = g_array_index (way, guint, --k);
      g_array_index (way, guint, k) = link;
    }
  return way;
}

/**
 * rw_net_shortest_way: the fewest links from the node @from to one for which @is_goal says so; the first
 * found breadth first, links in file order of their cables.
 * Returns: (transfer full) (element-type guint): links from @from on; empty where @from is a goal or
 *   none is reached
 */
GArray *
rw_net_shortest_way (const RwNet *net, guint from, RwNetNodeFunc is_goal, gpointer user_data)
{
  g_autofree guint *came_by = g_new (guint, net->n_nodes);
  g_autofree guint *queue = g_new (guint, net->n_nodes);
  guint n = 0;

  for (guint i = 0; i < net->n_nodes; i++)
    came_by[i] = RW_NONE;
  queue[n++] = from;
  for (guint i = 0; i < n; i++)
    {
      guint node = queue[i];

      if (is_goal (net, node, user_data))
        return collect_way (net, came_by, from, node);
      for (guint k = net->adjacency_start[node]; k < net->adjacency_start[node + 1]; k++)
        {
          guint link = net->adjacency[k], next = rw_net_other_node (net, link, node);

          if (next == from || came_by[next] != RW_NONE)
            continue;
          came_by[next] = link;
          queue[n++] = next;
        }
    }
  return g_array_new (FALSE, FALSE, sizeof (guint));
}
