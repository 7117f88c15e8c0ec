/* SPDX-License-Identifier: MIT */
/* What becomes of every patch row and every device when several things fail at once. */
#include "rw-fail-private.h"
#include "rw-forecast.h"
#include "rw-rows.h"

/* What a device is on the network for: the first of these that it reaches while nothing has failed. */
typedef enum
{
  NEED_CONTROLLER, /* racks and endpoints */
  NEED_HOST,       /* another device whose host sends or receives: controllers, switches, a rig without controllers */
  NEED_DEVICE,     /* any other device */
  N_NEEDS,
} Need;

/* Who is in a set of nodes: nobody, the device @first alone, or @several. */
typedef struct
{
  guint first; /* RW_NONE = nobody */
  gboolean several;
} Company;

/* Who reaches whom over some links. */
typedef struct
{
  guint *sets;
  gboolean *controllers; /* by set */
  Company *hosts;        /* by set: devices with a host in it */
  Company *devices;      /* by set */
} Ground;

/* As it is wired, and over what the spanning tree leaves open; before and after. */
typedef struct
{
  const RwNet *net;
  const RwFailed *failed;
  Ground wired, wired_left, active, active_left;
  guint *cables, *live; /* by device: all that leads to others, ports apart from the audio network too; what is left of it */
} Reach;

static void
join_company (Company *company, guint device)
{
  if (company->first == RW_NONE)
    company->first = device;
  else
    company->several |= company->first != device;
}

static void
ground_init (Ground *ground, const RwNet *net, const RwFailed *failed, const gboolean *active)
{
  ground->sets = rw_fail_join (net, failed, active);
  ground->controllers = rw_fail_controllers (net, ground->sets, failed);
  ground->hosts = g_new (Company, net->n_nodes + 1);
  ground->devices = g_new (Company, net->n_nodes + 1);
  for (guint i = 0; i < net->n_nodes; i++)
    ground->hosts[i] = ground->devices[i] = (Company){ RW_NONE, FALSE };
  for (guint i = 0; i < net->n_nodes; i++)
    {
      guint set = rw_union_find (ground->sets, i);

      join_company (&ground->devices[set], net->nodes[i].device);
      if (net->nodes[i].host)
        join_company (&ground->hosts[set], net->nodes[i].device);
    }
}

static void
ground_clear (Ground *ground)
{
  g_free (ground->sets);
  g_free (ground->controllers);
  g_free (ground->hosts);
  g_free (ground->devices);
}

static void
count_cables (Reach *reach)
{
  const RwNet *net = reach->net;
  const gboolean *dead = reach->failed->device;

  reach->cables = g_new0 (guint, net->n_devices + 1);
  reach->live = g_new0 (guint, net->n_devices + 1);
  for (guint i = 0; i < net->n_cables; i++)
    {
      guint from = net->ports[net->cables[i].port[0]].device, to = net->ports[net->cables[i].port[1]].device;
      gboolean live = !reach->failed->cable[i] && !dead[from] && !dead[to];

      if (from == to)
        continue;
      reach->cables[from]++;
      reach->cables[to]++;
      reach->live[from] += live;
      reach->live[to] += live;
    }
}

static void
reach_init (Reach *reach, const RwNet *net, const RwFailed *failed)
{
  const gboolean *active = rw_net_forecast (net)->paths->active;

  reach->net = net;
  reach->failed = failed;
  ground_init (&reach->wired, net, NULL, NULL);
  ground_init (&reach->wired_left, net, failed, NULL);
  ground_init (&reach->active, net, NULL, active);
  ground_init (&reach->active_left, net, failed, active);
  count_cables (reach);
}

static void
reach_clear (Reach *reach)
{
  ground_clear (&reach->wired);
  ground_clear (&reach->wired_left);
  ground_clear (&reach->active);
  ground_clear (&reach->active_left);
  g_free (reach->cables);
  g_free (reach->live);
}

static RwFate
fate_of (gboolean had, gboolean has, gboolean some_cut, gboolean some_left)
{
  if (!had)
    return RW_FATE_NONE;
  if (!has)
    return RW_FATE_LOST;
  return !some_cut ? RW_FATE_UNTOUCHED : some_left ? RW_FATE_OTHER_PLANE : RW_FATE_GAP;
}

static RwFate
row_fate (const Reach *reach, guint from, guint to)
{
  const RwNet *net = reach->net;
  const RwNetDevice *a = &net->devices[from], *b = &net->devices[to];
  guint *active = reach->active.sets, *left = reach->active_left.sets;
  gboolean some_cut = FALSE, some_left = FALSE;

  if (reach->failed->device[from] || reach->failed->device[to])
    return RW_FATE_FAILED;
  if (from == to)
    return RW_FATE_NONE;
  for (guint i = a->first_node; i < a->first_node + a->n_nodes; i++)
    for (guint j = b->first_node; j < b->first_node + b->n_nodes; j++)
      {
        if (!net->nodes[i].host || !net->nodes[j].host || rw_union_find (active, i) != rw_union_find (active, j))
          continue;
        if (rw_union_find (left, i) == rw_union_find (left, j))
          some_left = TRUE;
        else
          some_cut = TRUE;
      }
  return fate_of (rw_fail_meets (net, reach->wired.sets, from, to), rw_fail_meets (net, reach->wired_left.sets, from, to),
                  some_cut, some_left);
}

static gboolean
has_others (Company company, guint device)
{
  return company.several || (company.first != RW_NONE && company.first != device);
}

static gboolean
node_has (const RwNet *net, const Ground *ground, Need need, guint node)
{
  guint set = rw_union_find (ground->sets, node), device = net->nodes[node].device;

  switch (need)
    {
    case NEED_CONTROLLER:
      return ground->controllers[set];
    case NEED_HOST:
      return has_others (ground->hosts[set], device);
    case NEED_DEVICE:
    case N_NEEDS:
    default:
      return has_others (ground->devices[set], device);
    }
}

/* Whether the device itself, not only what it forwards for others, sits on the node; a switch is all its nodes. */
static gboolean
is_own (const RwNet *net, guint node, gboolean host)
{
  return net->nodes[node].host || !host;
}

static gboolean
device_has (const Reach *reach, const Ground *ground, Need need, guint device, gboolean host)
{
  const RwNetDevice *d = &reach->net->devices[device];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (is_own (reach->net, i, host) && node_has (reach->net, ground, need, i))
      return TRUE;
  return FALSE;
}

/* Returns: %N_NEEDS where it reaches nobody on the audio network: then its cables alone count */
static Need
need_of (const Reach *reach, guint device, gboolean host)
{
  gboolean controlled = host && reach->net->devices[device].part->kind != RW_PART_CONTROLLER;

  for (Need need = controlled ? NEED_CONTROLLER : NEED_HOST; need < N_NEEDS; need++)
    if (device_has (reach, &reach->wired, need, device, host))
      return need;
  return N_NEEDS;
}

/* Planes are a matter of hosts: a switch of which a part is cut is still there. */
static RwFate
name_fate (RwFate fate, Need need, gboolean host)
{
  if (fate == RW_FATE_LOST && need != NEED_CONTROLLER)
    return RW_FATE_CUT_OFF;
  if (fate == RW_FATE_OTHER_PLANE && !host)
    return RW_FATE_UNTOUCHED;
  return fate;
}

static RwFate
device_fate (const Reach *reach, guint device, RwPlanes *planes)
{
  const RwNet *net = reach->net;
  const RwNetDevice *d = &net->devices[device];
  gboolean host = rw_net_has_host (net, device), some_cut = FALSE, some_left = FALSE;
  Need need = need_of (reach, device, host);

  if (reach->failed->device[device])
    return RW_FATE_FAILED;
  if (need == N_NEEDS)
    return reach->cables[device] > 0 && reach->live[device] == 0 ? RW_FATE_CUT_OFF : RW_FATE_NONE;
  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    {
      gboolean left = node_has (net, &reach->active_left, need, i);

      if (!is_own (net, i, host) || !node_has (net, &reach->active, need, i))
        continue;
      some_left |= left;
      some_cut |= !left;
      if (left)
        *planes |= net->nodes[i].side == RW_SIDE_SECONDARY ? RW_PLANE_SECONDARY : RW_PLANE_PRIMARY;
    }
  return name_fate (fate_of (TRUE, device_has (reach, &reach->wired_left, need, device, host), some_cut, some_left),
                    need, host);
}

static void
count_lines (const RwOutcome *outcome, const Reach *reach, RwFate fate, guint *counts)
{
  const RwRows *patch = rw_net_rows (reach->net);

  for (guint i = 0; i < patch->n; i++)
    {
      guint from = patch->from[i], to = patch->to[i];

      /* what never had a way is not lost with its device either */
      if (outcome->rows[i] != fate || (fate == RW_FATE_FAILED && !rw_fail_meets (reach->net, reach->wired.sets, from, to)))
        continue;
      counts[from]++;
      counts[to]++;
    }
}

/* A device all of whose lines are lost is as good as silent, whatever else it reaches; where those that are left wait for
 * the spanning tree, it waits with them. */
static void
mark_without_lines (RwOutcome *outcome, const Reach *reach)
{
  g_autofree guint *lost = g_new0 (guint, outcome->n_devices + 1), *waiting = g_new0 (guint, outcome->n_devices + 1),
                   *playing = g_new0 (guint, outcome->n_devices + 1);

  count_lines (outcome, reach, RW_FATE_LOST, lost);
  count_lines (outcome, reach, RW_FATE_FAILED, lost);
  count_lines (outcome, reach, RW_FATE_GAP, waiting);
  count_lines (outcome, reach, RW_FATE_UNTOUCHED, playing);
  count_lines (outcome, reach, RW_FATE_OTHER_PLANE, playing);
  for (guint i = 0; i < outcome->n_devices; i++)
    if (playing[i] == 0 && waiting[i] > 0 && outcome->devices[i] < RW_FATE_GAP)
      outcome->devices[i] = RW_FATE_GAP;
    else if (playing[i] == 0 && waiting[i] == 0 && lost[i] > 0 && outcome->devices[i] < RW_FATE_NO_LINE)
      outcome->devices[i] = RW_FATE_NO_LINE;
}

/* (transfer full): the trees without what has failed. */
static RwTree *
tree_left (const RwNet *net, const RwFailed *failed)
{
  g_autofree gboolean *dead = g_new0 (gboolean, net->n_cables + 1);

  for (guint i = 0; i < net->n_cables; i++)
    dead[i] = failed->cable[i] || failed->device[net->ports[net->cables[i].port[0]].device]
              || failed->device[net->ports[net->cables[i].port[1]].device];
  return rw_tree_new_without (net, dead);
}

/**
 * rw_outcome_new:
 * @net: a net
 * @failed: what fails, all at once
 *
 * What becomes of every patch row and every device. Lost rows and devices are those of rw_fail(); a spanning tree takes
 * up to 30–50 s with classic timers to form anew (IEEE 802.1D-1998: 2 × forward delay, and max age before it; from memory).
 *
 * Returns: (transfer full): the outcome
 */
RwOutcome *
rw_outcome_new (const RwNet *net, const RwFailed *failed)
{
  const RwRows *patch = rw_net_rows (net);
  RwOutcome *outcome = g_new0 (RwOutcome, 1);
  Reach reach;

  reach_init (&reach, net, failed);
  outcome->n_rows = patch->n;
  outcome->n_devices = net->n_devices;
  outcome->rows = g_new0 (RwFate, patch->n + 1);
  outcome->devices = g_new0 (RwFate, net->n_devices + 1);
  outcome->planes = g_new0 (RwPlanes, net->n_devices + 1);
  outcome->cables = g_memdup2 (failed->cable, (net->n_cables + 1) * sizeof *failed->cable);
  outcome->n_cables = net->n_cables;
  outcome->tree = tree_left (net, failed);
  for (guint i = 0; i < patch->n; i++)
    {
      outcome->rows[i] = row_fate (&reach, patch->from[i], patch->to[i]);
      outcome->row_counts[outcome->rows[i]]++;
    }
  for (guint i = 0; i < net->n_devices; i++)
    outcome->devices[i] = device_fate (&reach, i, &outcome->planes[i]);
  mark_without_lines (outcome, &reach);
  for (guint i = 0; i < net->n_devices; i++)
    outcome->device_counts[outcome->devices[i]]++;
  reach_clear (&reach);
  return outcome;
}

void
rw_outcome_free (RwOutcome *outcome)
{
  g_free (outcome->rows);
  g_free (outcome->devices);
  g_free (outcome->planes);
  g_free (outcome->cables);
  rw_tree_free (outcome->tree);
  g_free (outcome);
}
