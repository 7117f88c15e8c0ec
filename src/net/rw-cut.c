/* SPDX-License-Identifier: MIT */
#include "rw-halving.h"
#include "rw-net-private.h"

/*
 * What parts a network when it fails. A cable with one link and a device with one node in the network
 * come out of one depth-first search (Tarjan 1974, "A note on finding the bridges of a graph"; Hopcroft
 * and Tarjan 1973). A trunk that carries several links of the network, or a device with several nodes in
 * it, falls with all of them at once, which no single edge or vertex tells: those few are found by
 * joining, for each, all that it does not own.
 */

/* Nodes and links are counted here by their place in the network. */
typedef struct
{
  const RwNet *net;
  const RwNetwork *network;
  guint *order;      /* by node: when the search met it, from 1; 0 = not yet */
  guint *low;        /* by node: the earliest that it, or what hangs on it, reaches by one link back */
  guint *next;       /* by node: where its adjacency goes on */
  guint *came_by;    /* by node: link of the net */
  guint *stack;
  guint depth;       /* of the stack */
  guint clock;
  gboolean *cut;     /* by node: its loss parts the network */
  gboolean *bridges; /* by link: likewise */
} Search;

static void
descend (Search *search, guint to, guint link)
{
  search->order[to] = search->low[to] = ++search->clock;
  search->came_by[to] = link;
  search->next[to] = search->net->adjacency_start[search->network->nodes.v[to]];
  search->stack[search->depth++] = to;
}

static void
follow (Search *search, guint at, guint link)
{
  guint far = rw_net_other_node (search->net, link, search->network->nodes.v[at]);
  guint to = search->net->priv->node_place[far];

  /* By link, not by node: a second cable beside the first is a way back. */
  if (link == search->came_by[at])
    return;
  if (search->order[to] == 0)
    descend (search, to, link);
  else
    search->low[at] = MIN (search->low[at], search->order[to]);
}

/* Nothing lies above the start, node 0: it parts what hangs on it by several branches. */
static void
ascend (Search *search, guint child, guint *branches)
{
  guint at = search->stack[search->depth - 1];

  search->low[at] = MIN (search->low[at], search->low[child]);
  if (search->low[child] == search->order[child])
    search->bridges[search->net->priv->link_place[search->came_by[child]]] = TRUE;
  if (at == 0)
    search->cut[at] = ++*branches > 1;
  else if (search->low[child] >= search->order[at])
    search->cut[at] = TRUE;
}

/* No recursion: a chain may be as long as the rig. */
static void
search_network (Search *search)
{
  const RwNet *net = search->net;
  guint branches = 0;

  descend (search, 0, RW_NONE);
  while (search->depth > 0)
    {
      guint at = search->stack[search->depth - 1];

      if (search->next[at] < net->adjacency_start[search->network->nodes.v[at] + 1])
        follow (search, at, net->adjacency[search->next[at]++]);
      else if (--search->depth > 0)
        ascend (search, at, &branches);
    }
}

/* A cable or device that owns several links or nodes of the network. */
typedef struct
{
  gboolean is_cable;
  guint first; /* of its links or nodes, by place */
  guint n;
} Owner;

/* Runs of one cable among the links, then of one device among the nodes. */
static GArray *
find_owners (const RwNet *net, const RwNetwork *network)
{
  const RwSlice *links = &network->links, *nodes = &network->nodes;
  GArray *owners = g_array_new (FALSE, FALSE, sizeof (Owner));

  for (guint i = 0, n; i < links->n; i += n)
    {
      n = 1;
      while (i + n < links->n && net->links[links->v[i + n]].cable == net->links[links->v[i]].cable)
        n++;
      if (n > 1)
        g_array_append_val (owners, ((Owner) { TRUE, i, n }));
    }
  for (guint i = 0, n; i < nodes->n; i += n)
    {
      n = 1;
      while (i + n < nodes->n && net->nodes[nodes->v[i + n]].device == net->nodes[nodes->v[i]].device)
        n++;
      if (n > 1)
        g_array_append_val (owners, ((Owner) { FALSE, i, n }));
    }
  return owners;
}

typedef struct
{
  Search *search;
  const GArray *owners;
} Verdicts;

static void
judge_owner (const RwHalving *halving, guint index, const guint *needs, guint n)
{
  const Verdicts *verdicts = halving->data;
  const Owner *owner = &g_array_index (verdicts->owners, Owner, index);
  guint own = owner->is_cable ? 0 : owner->n;

  /* A failed device's nodes are left alone, each a set. */
  for (guint i = owner->first; i < owner->first + owner->n; i++)
    if (owner->is_cable)
      verdicts->search->bridges[i] = halving->n_sets - own > 1;
    else
      verdicts->search->cut[i] = halving->n_sets - own > 1;
}

/* (transfer full): the network's links, by place, with their owners. */
static RwHalvingLink *
find_owned (const RwNet *net, const RwNetwork *network, const GArray *owners)
{
  RwHalvingLink *links = g_new (RwHalvingLink, network->links.n);
  g_autofree guint *of_node = g_new (guint, network->nodes.n);

  for (guint i = 0; i < network->nodes.n; i++)
    of_node[i] = RW_NONE;
  for (guint i = 0; i < network->links.n; i++)
    links[i].owner[0] = RW_NONE;
  for (guint o = 0; o < owners->len; o++)
    {
      const Owner *owner = &g_array_index (owners, Owner, o);

      for (guint i = owner->first; i < owner->first + owner->n; i++)
        *(owner->is_cable ? &links[i].owner[0] : &of_node[i]) = o;
    }
  for (guint i = 0; i < network->links.n; i++)
    for (guint end = 0; end < 2; end++)
      {
        links[i].node[end] = net->priv->node_place[net->links[network->links.v[i]].node[end]];
        links[i].owner[1 + end] = of_node[links[i].node[end]];
      }
  return links;
}

static void
judge_several (Search *search)
{
  g_autoptr (GArray) owners = find_owners (search->net, search->network);
  Verdicts verdicts = { search, owners };
  g_autofree RwHalvingLink *links = NULL;
  RwHalving halving = { .n_nodes = search->network->nodes.n, .n_links = search->network->links.n, .n_owners = owners->len,
                        .judge = judge_owner, .data = &verdicts };

  if (owners->len == 0)
    return;
  halving.links = links = find_owned (search->net, search->network, owners);
  rw_halving_run (&halving);
}

/* Nodes stand by device and links by cable, so what repeats was added last. */
static void
add_once (GArray *indices, guint index)
{
  if (indices->len == 0 || g_array_index (indices, guint, indices->len - 1) != index)
    g_array_append_val (indices, index);
}

static void
collect (const Search *search, RwCuts *cuts)
{
  const RwNet *net = search->net;

  cuts->cables = g_array_new (FALSE, FALSE, sizeof (guint));
  cuts->devices = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < search->network->links.n; i++)
    if (search->bridges[i])
      add_once (cuts->cables, net->links[search->network->links.v[i]].cable);
  for (guint i = 0; i < search->network->nodes.n; i++)
    if (search->cut[i])
      add_once (cuts->devices, net->nodes[search->network->nodes.v[i]].device);
}

/**
 * rw_net_cuts: the cables and devices of @network whose loss parts what is left of it, in file order.
 * A device falls with all of its nodes. Near-linear.
 * @cuts: (out caller-allocates): free what it holds with rw_cuts_clear()
 */
void
rw_net_cuts (const RwNet *net, guint network, RwCuts *cuts)
{
  Search search = { .net = net };
  guint n_nodes, n_links;

  g_return_if_fail (network < net->n_networks);
  search.network = &net->networks[network];
  n_nodes = search.network->nodes.n;
  n_links = search.network->links.n;
  search.order = g_new0 (guint, n_nodes);
  search.low = g_new (guint, n_nodes);
  search.next = g_new (guint, n_nodes);
  search.came_by = g_new (guint, n_nodes);
  search.stack = g_new (guint, n_nodes);
  search.cut = g_new0 (gboolean, n_nodes);
  search.bridges = g_new0 (gboolean, n_links);
  search_network (&search);
  judge_several (&search);
  collect (&search, cuts);
  g_free (search.order);
  g_free (search.low);
  g_free (search.next);
  g_free (search.came_by);
  g_free (search.stack);
  g_free (search.cut);
  g_free (search.bridges);
}

void
rw_cuts_clear (RwCuts *cuts)
{
  g_clear_pointer (&cuts->cables, g_array_unref);
  g_clear_pointer (&cuts->devices, g_array_unref);
}
