/* SPDX-License-Identifier: MIT */
#include "rw-net-private.h"
#include "rw-union.h"

/*
 * Links between bridging nodes are taken in file order; one whose ends are joined already closes a
 * loop. A trunk can carry several links into one network, so a loop is told for each (network, closing
 * cable), not for each link.
 *
 * The way round is the one that a breadth-first search from the cable's from finds. That is, among the
 * ways of fewest links, the one whose first link comes first in the file, then its second, and so on. The
 * search's queue holds each level in just that order of ways. So it may be searched from both ends at once,
 * which visits far less of a large rig: of the nodes where the two meet, the first in the queue of the near
 * side lies on the way, and from there on each step takes the first link that leads closer to the far end.
 */

/* How a link met those drawn before it. */
typedef enum
{
  LINK_OPENS,
  LINK_CLOSES_OVER_ITSELF, /* its ends are joined, but only by other links of its own cable */
  LINK_CLOSES,
} LinkState;

/* A loop before its way is known. */
typedef struct
{
  guint network, cable;
  guint first; /* of its closing links; the others by Build.next */
} Closing;

/* A link as one of its ends sees it. */
typedef struct
{
  guint link;
  guint node; /* at the far end */
} Step;

typedef struct
{
  guint search;  /* that met the node last */
  guint level;   /* at which it did */
  guint came_by; /* link; undefined at the search's own end */
} Seen;

/* All that a search wants to know of a node, together, since it jumps from one to the next. */
typedef struct
{
  guint start; /* its steps: those of links that can lie on a loop, by ascending link */
  guint end;
  Seen seen[2]; /* from either side */
} Spot;

/* One end of a search: the levels of nodes around it. */
typedef struct
{
  guint *queue;
  guint n;      /* of the queue */
  guint first;  /* of the last level in the queue */
  gsize edges;  /* of that level's nodes */
} Side;

typedef struct
{
  RwNet *net;
  Spot *spots;         /* by node */
  Step *steps;
  LinkState *states;   /* by link */
  guint *next;         /* by link: the next closing link of the same loop */
  GArray *closings;    /* of Closing, by network, then cable */
  Side sides[2];       /* from the closing cable's from, from its to */
  guint search;        /* number of the running search */
  GArray *way, *best;  /* links */
  GArray *cables, *devices;          /* of all loops */
  guint *cable_stamp, *device_stamp; /* number of the loop that listed it last */
} Build;

static gboolean
joins_bridges (const RwNet *net, guint link)
{
  const guint *node = net->links[link].node;

  return net->nodes[node[0]].kind == RW_NODE_BRIDGE && net->nodes[node[1]].kind == RW_NODE_BRIDGE;
}

static guint
network_of_link (const RwNet *net, guint link)
{
  return net->nodes[net->links[link].node[0]].network;
}

static void
judge_cable (Build *build, const RwNetCable *cable, guint *joined)
{
  const RwNet *net = build->net;
  guint end = cable->first_link + cable->n_links;

  for (guint l = cable->first_link; l < end; l++)
    {
      const guint *node = net->links[l].node;

      build->states[l] = joins_bridges (net, l)
                             && rw_union_find (joined, node[0]) == rw_union_find (joined, node[1])
                           ? LINK_CLOSES
                           : LINK_OPENS;
    }
  for (guint l = cable->first_link; l < end; l++)
    if (joins_bridges (net, l) && !rw_union_join (joined, net->links[l].node[0], net->links[l].node[1]))
      {
        net->networks[network_of_link (net, l)].n_loops++;
        if (build->states[l] == LINK_OPENS)
          build->states[l] = LINK_CLOSES_OVER_ITSELF;
      }
}

/* Adds each closing link of the cable to the loop of its network, begun where it is the first. */
static void
add_closings (Build *build, guint c, guint *last)
{
  const RwNet *net = build->net;
  const RwNetCable *cable = &net->cables[c];

  for (guint l = cable->first_link + cable->n_links; l-- > cable->first_link;)
    {
      guint network = network_of_link (net, l);
      Closing *open = last[network] == RW_NONE
                        ? NULL : &g_array_index (build->closings, Closing, last[network]);

      if (build->states[l] == LINK_OPENS)
        continue;
      if (open != NULL && open->cable == c)
        {
          build->next[l] = open->first;
          open->first = l;
          continue;
        }
      last[network] = build->closings->len;
      build->next[l] = RW_NONE;
      g_array_append_val (build->closings, ((Closing) { network, c, l }));
    }
}

static int
compare_closings (gconstpointer a, gconstpointer b)
{
  const Closing *x = a, *y = b;

  if (x->network != y->network)
    return x->network < y->network ? -1 : 1;
  return (x->cable > y->cable) - (x->cable < y->cable);
}

static void
find_closings (Build *build)
{
  RwNet *net = build->net;
  g_autofree guint *joined = rw_union_new (net->n_nodes);
  g_autofree guint *last = g_new (guint, net->n_networks);

  for (guint k = 0; k < net->n_networks; k++)
    last[k] = RW_NONE;
  for (guint c = 0; c < net->n_cables; c++)
    {
      judge_cable (build, &net->cables[c], joined);
      add_closings (build, c, last);
    }
  g_array_sort (build->closings, compare_closings);
}

/* Takes node after node of one link only away, with that link: what is left lies on loops or between them. */
static void
prune (const RwNet *net, guint *degree, gboolean *kept)
{
  g_autofree guint *queue = g_new (guint, net->n_nodes);
  guint n = 0;

  for (guint i = 0; i < net->n_nodes; i++)
    if (degree[i] == 1)
      queue[n++] = i;
  for (guint i = 0; i < n; i++)
    for (guint k = net->adjacency_start[queue[i]]; k < net->adjacency_start[queue[i] + 1]; k++)
      {
        guint link = net->adjacency[k], far = rw_net_other_node (net, link, queue[i]);

        if (!kept[link])
          continue;
        kept[link] = FALSE;
        degree[queue[i]]--;
        if (--degree[far] == 1)
          queue[n++] = far;
      }
}

static void
add_adjacency (Build *build)
{
  const RwNet *net = build->net;
  g_autofree guint *degree = g_new0 (guint, net->n_nodes);
  g_autofree gboolean *kept = g_new0 (gboolean, net->n_links);
  guint n = 0;

  for (guint l = 0; l < net->n_links; l++)
    {
      const guint *node = net->links[l].node;

      kept[l] = node[0] != node[1] && joins_bridges (net, l);
      degree[node[0]] += kept[l];
      degree[node[1]] += kept[l];
    }
  prune (net, degree, kept);
  build->spots = g_new0 (Spot, net->n_nodes);
  build->steps = g_new (Step, 2 * net->n_links);
  for (guint i = 0; i < net->n_nodes; i++)
    {
      build->spots[i].start = n;
      for (guint k = net->adjacency_start[i]; k < net->adjacency_start[i + 1]; k++)
        if (kept[net->adjacency[k]])
          build->steps[n++] = (Step) { net->adjacency[k], rw_net_other_node (net, net->adjacency[k], i) };
      build->spots[i].end = n;
    }
}

static void
begin_side (Build *build, guint s, guint node)
{
  Side *side = &build->sides[s];

  build->spots[node].seen[s] = (Seen) { build->search, 0, RW_NONE };
  side->queue[0] = node;
  side->n = 1;
  side->first = 0;
  side->edges = build->spots[node].end - build->spots[node].start;
}

/*
 * Side @s goes one whole level on, over links drawn before @limit; less, once it meets the other side at
 * the node that no other meeting can come before.
 * Returns: whether the sides have met
 */
static gboolean
widen (Build *build, guint s, guint limit)
{
  const Side *near = &build->sides[0];
  Side *side = &build->sides[s];
  guint begin = side->first, end = side->n;
  gboolean met = FALSE;

  side->first = end;
  side->edges = 0;
  for (guint i = begin; i < end; i++)
    {
      const Spot *spot = &build->spots[side->queue[i]];

      for (guint k = spot->start; k < spot->end && build->steps[k].link < limit; k++)
        {
          guint node = build->steps[k].node;
          Spot *next = &build->spots[node];

          if (next->seen[s].search == build->search)
            continue;
          next->seen[s] = (Seen) { build->search, spot->seen[s].level + 1, build->steps[k].link };
          side->queue[side->n++] = node;
          side->edges += next->end - next->start;
          if (next->seen[1 - s].search != build->search)
            continue;
          if (s == 0 || node == near->queue[near->first])
            return TRUE;
          met = TRUE;
        }
    }
  return met;
}

/* The first node of the near side's last level that the far side has met too. */
static guint
find_meeting (const Build *build)
{
  const Side *near = &build->sides[0];
  guint i = near->first;

  while (build->spots[near->queue[i]].seen[1].search != build->search)
    i++;
  g_assert (i < near->n);
  return near->queue[i];
}

/* Adds the links by which the near side came to @node. */
static void
walk_back (Build *build, guint node)
{
  guint level = build->spots[node].seen[0].level;

  g_array_set_size (build->way, level);
  while (level > 0)
    {
      guint link = build->spots[node].seen[0].came_by;

      g_array_index (build->way, guint, --level) = link;
      node = rw_net_other_node (build->net, link, node);
    }
}

/* The first link from @spot that leads closer to the far end. */
static const Step *
step_down (const Build *build, const Spot *spot)
{
  for (guint k = spot->start; k < spot->end; k++)
    {
      const Seen *seen = &build->spots[build->steps[k].node].seen[1];

      if (seen->search == build->search && seen->level + 1 == spot->seen[1].level)
        return &build->steps[k];
    }
  g_assert_not_reached ();
}

static void
walk_down (Build *build, guint node)
{
  while (build->spots[node].seen[1].level > 0)
    {
      const Step *step = step_down (build, &build->spots[node]);

      g_array_append_val (build->way, step->link);
      node = step->node;
    }
}

/* Fills build->way with the links of the shortest way between the ends of @closing, drawn before @limit. */
static void
find_way (Build *build, guint closing, guint limit)
{
  const guint *node = build->net->links[closing].node;
  const Side *sides = build->sides;
  guint s, meeting;

  g_array_set_size (build->way, 0);
  if (node[0] == node[1])
    return;
  build->search++;
  begin_side (build, 0, node[0]);
  begin_side (build, 1, node[1]);
  do
    {
      s = sides[1].edges < sides[0].edges;
      g_assert (sides[s].first < sides[s].n);
    }
  while (!widen (build, s, limit));
  meeting = find_meeting (build);
  walk_back (build, meeting);
  walk_down (build, meeting);
}

/* Of a cable's several closing links into one network, the one with the shortest way, the first of those. */
static guint
find_best_way (Build *build, const Closing *closing)
{
  guint best = RW_NONE;
  LinkState wanted = LINK_CLOSES_OVER_ITSELF;

  for (guint l = closing->first; l != RW_NONE; l = build->next[l])
    wanted = MAX (wanted, build->states[l]);
  for (guint l = closing->first; l != RW_NONE; l = build->next[l])
    {
      if (build->states[l] != wanted)
        continue;
      find_way (build, l, wanted == LINK_CLOSES ? build->net->cables[closing->cable].first_link : l);
      if (best == RW_NONE || build->way->len < build->best->len)
        {
          GArray *way = build->way;

          build->way = build->best;
          build->best = way;
          best = l;
        }
    }
  return best;
}

static void
list_device (Build *build, RwLoop *loop, guint stamp, guint node)
{
  guint device = build->net->nodes[node].device;

  if (build->device_stamp[device] == stamp)
    return;
  build->device_stamp[device] = stamp;
  g_array_append_val (build->devices, device);
  loop->devices.n++;
}

static void
list_loop (Build *build, RwLoop *loop, guint stamp, guint closing)
{
  const RwNet *net = build->net;
  guint node = net->links[closing].node[0];

  build->cable_stamp[loop->cable] = stamp;
  list_device (build, loop, stamp, node);
  for (guint i = 0; i < build->best->len; i++)
    {
      guint link = g_array_index (build->best, guint, i), cable = net->links[link].cable;

      node = rw_net_other_node (net, link, node);
      list_device (build, loop, stamp, node);
      if (build->cable_stamp[cable] == stamp)
        continue;
      build->cable_stamp[cable] = stamp;
      g_array_append_val (build->cables, cable);
      loop->way.n++;
    }
}

static gboolean
is_blocked (const RwNet *net, guint cable)
{
  const guint *port = net->cables[cable].port;
  const RwTreeRole *roles = net->priv->tree->roles;

  return roles[port[0]] == RW_TREE_ROLE_BLOCKED || roles[port[1]] == RW_TREE_ROLE_BLOCKED;
}

/* A converter of two ports is no more than a piece of cable. */
static gboolean
is_cable_piece (const RwNetDevice *device)
{
  guint n = 0;

  if (device->part->kind != RW_PART_CONVERTER)
    return FALSE;
  for (guint i = 0; i < device->n_ports; i++)
    n += rw_part_port (device->part, i)->side != RW_SIDE_AUX;
  return n == 2;
}

/*
 * Round a loop of nothing but spanning-tree switches, joined directly or over pieces of cable, the tree
 * leaves one port blocked at least. A ring of converters alone has nobody to open it.
 */
static void
judge_loop (const RwNet *net, RwLoop *loop)
{
  loop->held = FALSE;
  loop->open_cable = RW_NONE;
  for (guint i = 0; i < loop->devices.n; i++)
    {
      const RwNetDevice *device = &net->devices[loop->devices.v[i]];

      if (!is_cable_piece (device) && !(device->part->kind == RW_PART_SWITCH && device->part->spanning_tree))
        return;
    }
  if (is_blocked (net, loop->cable))
    loop->open_cable = loop->cable;
  for (guint i = 0; i < loop->way.n && loop->open_cable == RW_NONE; i++)
    if (is_blocked (net, loop->way.v[i]))
      loop->open_cable = loop->way.v[i];
  loop->held = loop->open_cable != RW_NONE;
}

static void
list_loops (Build *build)
{
  RwNet *net = build->net;
  const guint *cables, *devices;

  net->n_loops = build->closings->len;
  net->loops = g_new0 (RwLoop, net->n_loops);
  for (guint i = 0; i < net->n_loops; i++)
    {
      const Closing *closing = &g_array_index (build->closings, Closing, i);

      net->loops[i].network = closing->network;
      net->loops[i].cable = closing->cable;
      list_loop (build, &net->loops[i], i + 1, find_best_way (build, closing));
    }
  cables = rw_net_keep_indices (net, build->cables);
  devices = rw_net_keep_indices (net, build->devices);
  for (guint i = 0; i < net->n_loops; i++)
    {
      rw_slice_place (&net->loops[i].way, &cables);
      rw_slice_place (&net->loops[i].devices, &devices);
      judge_loop (net, &net->loops[i]);
      net->networks[net->loops[i].network].storm |= !net->loops[i].held;
    }
}

static void
begin (Build *build, RwNet *net)
{
  build->net = net;
  build->states = g_new0 (LinkState, net->n_links);
  build->next = g_new (guint, net->n_links);
  build->closings = g_array_new (FALSE, FALSE, sizeof (Closing));
  for (guint s = 0; s < 2; s++)
    build->sides[s].queue = g_new (guint, net->n_nodes);
  build->way = g_array_new (FALSE, FALSE, sizeof (guint));
  build->best = g_array_new (FALSE, FALSE, sizeof (guint));
  build->cables = g_array_new (FALSE, FALSE, sizeof (guint));
  build->devices = g_array_new (FALSE, FALSE, sizeof (guint));
  build->cable_stamp = g_new0 (guint, net->n_cables);
  build->device_stamp = g_new0 (guint, net->n_devices);
}

/* Cables and devices belong to the net by now. */
static void
end (Build *build)
{
  g_free (build->spots);
  g_free (build->steps);
  g_free (build->states);
  g_free (build->next);
  g_array_unref (build->closings);
  for (guint s = 0; s < 2; s++)
    g_free (build->sides[s].queue);
  g_array_unref (build->way);
  g_array_unref (build->best);
  g_free (build->cable_stamp);
  g_free (build->device_stamp);
}

void
rw_net_add_loops (RwNet *net)
{
  Build build = { 0 };

  begin (&build, net);
  find_closings (&build);
  if (build.closings->len > 0)
    add_adjacency (&build);
  list_loops (&build);
  end (&build);
}
