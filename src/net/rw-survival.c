/* SPDX-License-Identifier: MIT */
#include "rw-survival.h"

#include "rw-block.h"
#include "rw-halving.h"
#include "rw-rows.h"

/*
 * A need is a row that wants its talker and its listener joined, or a device that wants a controller. It has one
 * segment for each network that can meet it: a stretch of that network's tree in which every vertex parts it. A
 * failure costs the need when it lies on all its segments.
 *
 * A need of one segment is counted for all its failures at once: differences along the tree, summed up over
 * subtrees. Of a need of several, only what stands in more than one network can be on all segments: a switch
 * with VLANs, a trunk, a converter. These are visited one by one, by a pointer from each vertex to the next such
 * one above it.
 *
 * What has several nodes or links in one network falls with all of them at once, which no single vertex tells:
 * those few are told by halving.
 */
typedef struct
{
  guint low, high;  /* vertices */
  gboolean with_high; /* @high itself parts the need too; @low never does */
  guint top;        /* the highest vertex of the stretch: of low and high, or above both */
} Segment;

/* A cable or a device: cables behind devices. */
typedef guint Thing;

typedef struct
{
  const RwNet *net;
  const RwRows *rows;
  const RwBlocks *blocks;
  RwSurvival *survival;
  Thing *thing;         /* by vertex: what fails with it; RW_NONE = a block of several links */
  guint *n_networks;    /* by thing */
  gboolean *several;    /* by thing: it has several nodes or links in one network */
  guint *shared_above;  /* by vertex: the nearest vertex above it whose thing is in several networks */
  guint *controlled_by; /* by vertex: it, or the nearest vertex above it, with a controller under it */
} Counter;

/* The segments of one need. @crowded: two of them are in one network. */
typedef struct
{
  Segment v[4];
  guint n;
  gboolean crowded;
} Segments;

/* Where needs of one sort are counted. */
typedef struct
{
  gint64 *counts; /* by vertex: differences, to be summed over subtrees */
  gint64 *ends;   /* by vertex: needs that end there, whose own failure does not count */
  gsize offset;   /* of the figure in RwLoss */
} Tally;

static gboolean
is_controller (const RwNet *net, guint node)
{
  return net->nodes[node].host && net->devices[net->nodes[node].device].part->kind == RW_PART_CONTROLLER;
}

/* A node with one neighbour parts nothing when it fails, so the two interfaces of a redundant rack, say, do not make
 * it one that has several nodes. Those of a controller do: both go as a goal. */
static gboolean
costs (const RwNet *net, guint node)
{
  return net->adjacency_start[node + 1] - net->adjacency_start[node] > 1 || is_controller (net, node);
}

static void
find_things (Counter *c)
{
  const RwNet *net = c->net;
  guint n_things = net->n_devices + net->n_cables;
  g_autofree guint *last = g_new (guint, n_things + 1); /* by thing: network that counted it last */

  c->n_networks = g_new0 (guint, n_things + 1);
  c->several = g_new0 (gboolean, n_things + 1);
  for (guint i = 0; i < n_things; i++)
    last[i] = RW_NONE;
  for (guint i = 0; i < net->n_networks; i++)
    for (guint j = 0; j < net->networks[i].nodes.n + net->networks[i].links.n; j++)
      {
        guint n = net->networks[i].nodes.n;
        if (j < n && !costs (net, net->networks[i].nodes.v[j]))
          continue;
        Thing thing = j < n ? net->nodes[net->networks[i].nodes.v[j]].device
                            : net->n_devices + net->links[net->networks[i].links.v[j - n]].cable;
        if (last[thing] == i)
          c->several[thing] = TRUE;
        else
          c->n_networks[thing]++;
        last[thing] = i;
      }
}

static void
find_vertices (Counter *c)
{
  const RwBlocks *blocks = c->blocks;

  c->thing = g_new (Thing, blocks->n_vertices + 1);
  c->shared_above = g_new (guint, blocks->n_vertices + 1);
  for (guint v = 0; v < blocks->n_vertices; v++)
    if (v < blocks->n_nodes)
      c->thing[v] = c->net->nodes[v].device;
    else
      c->thing[v] = blocks->bridge[v] != RW_NONE ? c->net->n_devices + c->net->links[blocks->bridge[v]].cable : RW_NONE;
  for (guint i = 0; i < blocks->n_vertices; i++)
    {
      guint v = blocks->order[i], up = blocks->parent[v];
      c->shared_above[v] = RW_NONE;
      if (up != RW_NONE)
        c->shared_above[v] = c->thing[up] != RW_NONE && c->n_networks[c->thing[up]] > 1 ? up : c->shared_above[up];
    }
}

static void
find_controllers (Counter *c)
{
  const RwBlocks *blocks = c->blocks;
  g_autofree gboolean *under = g_new0 (gboolean, blocks->n_vertices + 1);

  c->controlled_by = g_new (guint, blocks->n_vertices + 1);
  for (guint i = blocks->n_vertices; i-- > 0;)
    {
      guint v = blocks->order[i];
      if (v < blocks->n_nodes && is_controller (c->net, v))
        under[v] = TRUE;
      if (under[v] && blocks->parent[v] != RW_NONE)
        under[blocks->parent[v]] = TRUE;
    }
  for (guint i = 0; i < blocks->n_vertices; i++)
    {
      guint v = blocks->order[i], up = blocks->parent[v];
      c->controlled_by[v] = under[v] ? v : up == RW_NONE ? RW_NONE : c->controlled_by[up];
    }
}

/* Whether the failure of vertex @v parts what @segment joins. */
static gboolean
lies_on (const Counter *c, guint v, const Segment *segment)
{
  const RwLca *lca = c->blocks->lca;

  if (v == segment->low || (v == segment->high && !segment->with_high))
    return FALSE;
  return rw_lca_is_above (lca, segment->top, v)
         && (rw_lca_is_above (lca, v, segment->low) || rw_lca_is_above (lca, v, segment->high));
}

static gboolean
thing_lies_on (const Counter *c, Thing thing, const Segment *segment)
{
  const RwNet *net = c->net;
  guint network = net->nodes[segment->low].network;

  if (thing < net->n_devices)
    {
      const RwNetDevice *d = &net->devices[thing];
      for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
        if (net->nodes[i].network == network && lies_on (c, i, segment))
          return TRUE;
      return FALSE;
    }
  const RwNetCable *cable = &net->cables[thing - net->n_devices];
  for (guint i = cable->first_link; i < cable->first_link + cable->n_links; i++)
    {
      guint a = net->links[i].node[0], b = net->links[i].node[1];
      guint block = c->blocks->parent[a];
      if (net->nodes[a].network != network)
        continue;
      /* the block of a link that is one of its own hangs on one of its ends and holds the other */
      if (block == RW_NONE || c->blocks->bridge[block] != i)
        block = c->blocks->parent[b];
      if (block != RW_NONE && c->blocks->bridge[block] == i && lies_on (c, block, segment))
        return TRUE;
    }
  return FALSE;
}

static RwLoss *
loss_of (const Counter *c, Thing thing)
{
  return thing < c->net->n_devices ? &c->survival->devices[thing] : &c->survival->cables[thing - c->net->n_devices];
}

/* One more for every vertex of the stretch, to be summed over subtrees. */
static void
count_single (const Counter *c, const Segment *s, const Tally *tally)
{
  tally->counts[s->low]++;
  tally->counts[s->high]++;
  tally->counts[s->top]--;
  if (c->blocks->parent[s->top] != RW_NONE)
    tally->counts[c->blocks->parent[s->top]]--;
  tally->ends[s->low]++;
  if (!s->with_high)
    tally->ends[s->high]++;
}

/* From @from up to the top of the first segment, over what may be on the others too. */
static void
climb (const Counter *c, guint from, gboolean with_top, const Segments *segments, const Tally *tally)
{
  const guint *above = segments->crowded ? c->blocks->parent : c->shared_above;
  guint top = segments->v[0].top;

  for (guint v = above[from]; v != RW_NONE && c->blocks->depth[v] >= c->blocks->depth[top]; v = above[v])
    {
      Thing thing = c->thing[v];
      gboolean on_all = thing != RW_NONE && !c->several[thing] && (v != top || with_top) && lies_on (c, v, &segments->v[0]);
      for (guint i = 1; i < segments->n && on_all; i++)
        on_all = thing_lies_on (c, thing, &segments->v[i]);
      if (on_all)
        ++*(guint *) G_STRUCT_MEMBER_P (loss_of (c, thing), tally->offset);
    }
}

static void
count_need (const Counter *c, const Segments *segments, const Tally *tally)
{
  const Segment *first = &segments->v[0];

  if (segments->n == 1)
    count_single (c, first, tally);
  if (segments->n <= 1)
    return;
  if (first->low != first->top)
    climb (c, first->low, TRUE, segments, tally);
  if (first->high != first->top)
    climb (c, first->high, first->low == first->top, segments, tally);
}

static void
add_segment (const Counter *c, Segments *segments, guint low, guint high, gboolean with_high)
{
  Segment segment = { low, high, with_high, rw_lca_find (c->blocks->lca, low, high) };

  for (guint i = 0; i < segments->n; i++)
    if (c->net->nodes[segments->v[i].low].network == c->net->nodes[low].network)
      segments->crowded = TRUE;
  segments->v[segments->n++] = segment;
}

/* One interface on each side meets in one network; a redundant pair in two; with crossed planes, up to four ways. */
static void
count_row (const Counter *c, guint row, const Tally *tally)
{
  const RwNet *net = c->net;
  const RwNetDevice *a = &net->devices[c->rows->from[row]], *b = &net->devices[c->rows->to[row]];
  Segments segments = { .n = 0 };

  if (a == b)
    return;
  for (guint i = a->first_node; i < a->first_node + a->n_nodes; i++)
    for (guint j = b->first_node; j < b->first_node + b->n_nodes && net->nodes[i].host; j++)
      if (net->nodes[j].host && net->nodes[i].network == net->nodes[j].network)
        add_segment (c, &segments, i, j, FALSE);
  count_need (c, &segments, tally);
}

static void
count_device (const Counter *c, guint device, const Tally *tally)
{
  const RwNetDevice *d = &c->net->devices[device];
  Segments segments = { .n = 0 };

  if (d->part->kind == RW_PART_CONTROLLER)
    return;
  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (c->net->nodes[i].host && c->controlled_by[i] != RW_NONE)
      add_segment (c, &segments, i, c->controlled_by[i], TRUE);
  count_need (c, &segments, tally);
}

static void
sum_up (const Counter *c, const Tally *tally)
{
  for (guint i = c->blocks->n_vertices; i-- > 0;)
    {
      guint v = c->blocks->order[i];
      Thing thing = c->thing[v];
      if (c->blocks->parent[v] != RW_NONE)
        tally->counts[c->blocks->parent[v]] += tally->counts[v];
      if (thing != RW_NONE && !c->several[thing])
        *(guint *) G_STRUCT_MEMBER_P (loss_of (c, thing), tally->offset) += (guint) (tally->counts[v] - tally->ends[v]);
    }
}

static void
count_needs (const Counter *c, guint n, void (*count) (const Counter *, guint, const Tally *), gsize offset)
{
  g_autofree gint64 *counts = g_new0 (gint64, c->blocks->n_vertices + 1);
  g_autofree gint64 *ends = g_new0 (gint64, c->blocks->n_vertices + 1);
  Tally tally = { counts, ends, offset };

  for (guint i = 0; i < n; i++)
    count (c, i, &tally);
  sum_up (c, &tally);
}

/* Those that have several nodes or links in one network, as owners of their links. */
typedef struct
{
  const Counter *c;
  Thing *things;   /* by owner */
  guint n;
  guint *owner_of; /* by thing; RW_NONE */
} Owners;

static void
find_owners (Owners *o, const Counter *c)
{
  guint n_things = c->net->n_devices + c->net->n_cables;

  *o = (Owners){ c, g_new (Thing, n_things), 0, g_new (guint, n_things) };
  for (Thing thing = 0; thing < n_things; thing++)
    {
      o->owner_of[thing] = c->several[thing] ? o->n : RW_NONE;
      if (c->several[thing])
        o->things[o->n++] = thing;
    }
}

static guint
owner_of_node (const Owners *o, guint node)
{
  return o->owner_of[o->c->net->nodes[node].device];
}

/* The net's links, and behind them one from each controller to a node that stands for all of them. */
static RwHalvingLink *
find_owned (const Owners *o, guint *n_links)
{
  const RwNet *net = o->c->net;
  RwHalvingLink *links = g_new (RwHalvingLink, net->n_links + net->n_nodes);
  guint n = 0;

  for (; n < net->n_links; n++)
    {
      const RwNetLink *link = &net->links[n];
      links[n] = (RwHalvingLink){ { link->node[0], link->node[1] },
                                  { o->owner_of[net->n_devices + link->cable], owner_of_node (o, link->node[0]),
                                    owner_of_node (o, link->node[1]) } };
    }
  for (guint i = 0; i < net->n_nodes; i++)
    if (is_controller (net, i))
      links[n++] = (RwHalvingLink){ { i, net->n_nodes }, { owner_of_node (o, i), RW_NONE, RW_NONE } };
  *n_links = n;
  return links;
}

static gboolean
row_is_met (const RwHalving *halving, guint row)
{
  const Counter *c = ((const Owners *) halving->data)->c;
  const RwNetDevice *a = &c->net->devices[c->rows->from[row]], *b = &c->net->devices[c->rows->to[row]];

  /* hosts come first among a device's nodes */
  for (guint i = a->first_node; i < a->first_node + a->n_nodes && c->net->nodes[i].host; i++)
    for (guint j = b->first_node; j < b->first_node + b->n_nodes && c->net->nodes[j].host; j++)
      if (c->net->nodes[i].network == c->net->nodes[j].network
          && rw_halving_find (halving, i) == rw_halving_find (halving, j))
        return TRUE;
  return FALSE;
}

static gboolean
device_is_met (const RwHalving *halving, guint device)
{
  const RwNet *net = ((const Owners *) halving->data)->c->net;
  const RwNetDevice *d = &net->devices[device];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes && net->nodes[i].host; i++)
    if (rw_halving_find (halving, i) == rw_halving_find (halving, net->n_nodes))
      return TRUE;
  return FALSE;
}

static void
judge_rows (const RwHalving *halving, guint owner, const guint *rows, guint n)
{
  const Owners *o = halving->data;
  Thing thing = o->things[owner];
  guint *lost = &loss_of (o->c, thing)->rows;

  *lost = 0;
  for (guint i = 0; i < n; i++)
    if (o->c->rows->from[rows[i]] != thing && o->c->rows->to[rows[i]] != thing)
      ++*lost;
}

static void
judge_devices (const RwHalving *halving, guint owner, const guint *devices, guint n)
{
  const Owners *o = halving->data;
  Thing thing = o->things[owner];
  guint *lost = &loss_of (o->c, thing)->devices;

  *lost = 0;
  for (guint i = 0; i < n; i++)
    if (devices[i] != thing)
      ++*lost;
}

static gboolean
has_controller (const Counter *c, guint device)
{
  const RwNetDevice *d = &c->net->devices[device];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes && c->net->nodes[i].host; i++)
    if (c->controlled_by[i] != RW_NONE)
      return TRUE;
  return FALSE;
}

static void
fail_several (const Counter *c)
{
  const RwNet *net = c->net;
  g_autofree guint *needs = g_new (guint, MAX (c->rows->n, net->n_devices));
  g_autofree RwHalvingLink *links = NULL;
  Owners owners;
  RwHalving halving = { .n_nodes = net->n_nodes + 1, .n_links = net->n_links, .needs = needs, .data = &owners };
  guint n_with_controllers;

  find_owners (&owners, c);
  halving.links = links = find_owned (&owners, &n_with_controllers);
  halving.n_owners = owners.n;
  for (guint i = 0; i < c->rows->n && owners.n > 0; i++)
    if (c->rows->from[i] != c->rows->to[i] && rw_net_shares_network (net, c->rows->from[i], c->rows->to[i]))
      needs[halving.n_needs++] = i;
  halving.is_met = row_is_met;
  halving.judge = judge_rows;
  rw_halving_run (&halving);
  halving.n_needs = 0;
  for (guint i = 0; i < net->n_devices && owners.n > 0; i++)
    if (net->devices[i].part->kind != RW_PART_CONTROLLER && has_controller (c, i))
      needs[halving.n_needs++] = i;
  halving.n_links = n_with_controllers;
  halving.is_met = device_is_met;
  halving.judge = judge_devices;
  rw_halving_run (&halving);
  g_free (owners.things);
  g_free (owners.owner_of);
}

/**
 * rw_survival_new:
 * @net: a net
 *
 * Returns: (transfer full): the cost of each single failure; near-linear in nodes, links and rows
 */
RwSurvival *
rw_survival_new (const RwNet *net)
{
  RwSurvival *survival = g_new0 (RwSurvival, 1);
  g_autoptr (RwBlocks) blocks = rw_blocks_new (net);
  Counter c = { .net = net, .rows = rw_net_rows (net), .blocks = blocks, .survival = survival };

  survival->n_devices = net->n_devices;
  survival->n_cables = net->n_cables;
  survival->devices = g_new0 (RwLoss, net->n_devices + 1);
  survival->cables = g_new0 (RwLoss, net->n_cables + 1);
  find_things (&c);
  find_vertices (&c);
  find_controllers (&c);
  count_needs (&c, c.rows->n, count_row, G_STRUCT_OFFSET (RwLoss, rows));
  count_needs (&c, net->n_devices, count_device, G_STRUCT_OFFSET (RwLoss, devices));
  fail_several (&c);
  g_free (c.thing);
  g_free (c.n_networks);
  g_free (c.several);
  g_free (c.shared_above);
  g_free (c.controlled_by);
  return survival;
}

void
rw_survival_free (RwSurvival *survival)
{
  g_free (survival->devices);
  g_free (survival->cables);
  g_free (survival);
}
