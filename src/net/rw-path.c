/* SPDX-License-Identifier: MIT */
#include "rw-path.h"

#include "rw-union.h"

static gboolean
is_blocked (const RwNet *net, guint link)
{
  const RwTree *tree = rw_net_tree (net);
  const RwNetCable *cable = &net->cables[net->links[link].cable];

  return tree->roles[cable->port[0]] == RW_TREE_ROLE_BLOCKED || tree->roles[cable->port[1]] == RW_TREE_ROLE_BLOCKED;
}

/* Links come in file order of their cables, so what closes a loop is the cable that was drawn last. */
static void
choose_links (const RwNet *net, RwPaths *paths)
{
  g_autofree guint *sets = rw_union_new (net->n_nodes);

  for (guint i = 0; i < net->n_links; i++)
    paths->active[i] = !is_blocked (net, i) && rw_union_join (sets, net->links[i].node[0], net->links[i].node[1]);
}

/* Breadth first over the active links; @order serves as the queue. */
static guint
grow_part (const RwNet *net, RwPaths *paths, guint root, guint next)
{
  guint head = next;

  paths->part[root] = paths->n_parts++;
  paths->order[next++] = root;
  for (; head < next; head++)
    {
      guint node = paths->order[head];
      for (guint i = net->adjacency_start[node]; i < net->adjacency_start[node + 1]; i++)
        {
          guint link = net->adjacency[i];
          guint other = rw_net_other_node (net, link, node);
          if (!paths->active[link] || paths->part[other] != RW_NONE)
            continue;
          paths->part[other] = paths->part[node];
          paths->parent[other] = node;
          paths->parent_link[other] = link;
          paths->depth[other] = paths->depth[node] + 1;
          paths->order[next++] = other;
        }
    }
  return next;
}

/**
 * rw_paths_new:
 * @net: a net
 *
 * Returns: (transfer full): the ways of its frames; near-linear in nodes and links
 */
RwPaths *
rw_paths_new (const RwNet *net)
{
  RwPaths *paths = g_new0 (RwPaths, 1);
  guint next = 0;

  paths->n_nodes = net->n_nodes;
  paths->parent = g_new (guint, net->n_nodes);
  paths->parent_link = g_new (guint, net->n_nodes);
  paths->part = g_new (guint, net->n_nodes);
  paths->depth = g_new0 (guint, net->n_nodes);
  paths->order = g_new (guint, net->n_nodes);
  paths->active = g_new0 (gboolean, net->n_links);
  choose_links (net, paths);
  for (guint i = 0; i < net->n_nodes; i++)
    paths->parent[i] = paths->parent_link[i] = paths->part[i] = RW_NONE;
  for (guint i = 0; i < net->n_nodes; i++)
    if (paths->part[i] == RW_NONE)
      next = grow_part (net, paths, i, next);
  return paths;
}

void
rw_paths_free (RwPaths *paths)
{
  g_free (paths->parent);
  g_free (paths->parent_link);
  g_free (paths->part);
  g_free (paths->depth);
  g_free (paths->order);
  g_free (paths->active);
  g_free (paths);
}

/**
 * rw_net_host_node:
 * @net: a net
 * @device: a device
 * @network: a network
 *
 * Returns: the node by which the device's own host hears that network; RW_NONE where it does not
 */
guint
rw_net_host_node (const RwNet *net, guint device, guint network)
{
  const RwNetDevice *d = &net->devices[device];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (net->nodes[i].host && net->nodes[i].network == network)
      return i;
  return RW_NONE;
}

/**
 * rw_net_has_host:
 * @net: a net
 * @device: a device
 *
 * Returns: whether it plays or listens in the audio network: a switch does not, nor does what has only a port apart from it
 */
gboolean
rw_net_has_host (const RwNet *net, guint device)
{
  const RwNetDevice *d = &net->devices[device];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (net->nodes[i].host)
      return TRUE;
  return FALSE;
}

/**
 * rw_paths_find:
 * @net: the net
 * @paths: its ways
 * @from: node of the talker
 * @to: node of the listener
 * @links: (element-type guint): set to the links on the way, in the order in which a frame passes them
 *
 * Returns: %FALSE where frames do not get from the one to the other
 */
gboolean
rw_paths_find (const RwNet *net, const RwPaths *paths, guint from, guint to, GArray *links)
{
  guint up = from, down = to, n_up;

  g_array_set_size (links, 0);
  if (paths->part[from] != paths->part[to])
    return FALSE;
  while (up != down)
    if (paths->depth[up] >= paths->depth[down])
      {
        g_array_append_val (links, paths->parent_link[up]);
        up = paths->parent[up];
      }
    else
      down = paths->parent[down];
  n_up = links->len;
  for (down = to; down != up; down = paths->parent[down])
    g_array_append_val (links, paths->parent_link[down]);
  for (guint i = n_up, j = links->len; i + 1 < j; i++, j--)
    {
      guint swap = g_array_index (links, guint, i);
      g_array_index (links, guint, i) = g_array_index (links, guint, j - 1);
      g_array_index (links, guint, j - 1) = swap;
    }
  return TRUE;
}

/**
 * rw_paths_hops:
 * @net: the net
 * @from: node at the start of the way
 * @links: (element-type guint): the way, as rw_paths_find() gives it
 *
 * Returns: how many bridging nodes a frame passes, the ends' own internal bridges included
 */
guint
rw_paths_hops (const RwNet *net, guint from, const GArray *links)
{
  guint node = from, hops = net->nodes[from].kind == RW_NODE_BRIDGE;

  for (guint i = 0; i < links->len; i++)
    {
      node = rw_net_other_node (net, g_array_index (links, guint, i), node);
      hops += net->nodes[node].kind == RW_NODE_BRIDGE;
    }
  return hops;
}

/**
 * rw_paths_distances:
 * @net: the net
 * @paths: its ways
 * @from: a node
 *
 * Returns: (transfer full) (element-type guint): by node: hops on the way from @from, both ends' own internal
 *   bridges included; RW_NONE where no frame gets
 */
GArray *
rw_paths_distances (const RwNet *net, const RwPaths *paths, guint from)
{
  GArray *distances = g_array_sized_new (FALSE, FALSE, sizeof (guint), paths->n_nodes);
  g_autofree guint *queue = g_new (guint, paths->n_nodes);
  guint *d = (guint *) (gpointer) distances->data;

  g_array_set_size (distances, paths->n_nodes);
  for (guint i = 0; i < paths->n_nodes; i++)
    d[i] = RW_NONE;
  d[from] = net->nodes[from].kind == RW_NODE_BRIDGE;
  queue[0] = from;
  for (guint head = 0, next = 1; head < next; head++)
    for (guint i = net->adjacency_start[queue[head]]; i < net->adjacency_start[queue[head] + 1]; i++)
      {
        guint other = rw_net_other_node (net, net->adjacency[i], queue[head]);
        if (!paths->active[net->adjacency[i]] || d[other] != RW_NONE)
          continue;
        d[other] = d[queue[head]] + (net->nodes[other].kind == RW_NODE_BRIDGE);
        queue[next++] = other;
      }
  return distances;
}
