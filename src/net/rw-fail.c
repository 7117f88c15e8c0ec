/* SPDX-License-Identifier: MIT */
#include "rw-survival.h"

#include "rw-forecast.h"
#include "rw-rows.h"
#include "rw-union.h"

/* Sets of nodes that still reach each other; @failed NULL = nothing failed, @active: (nullable): by link: only these. */
static guint *
join_what_is_left (const RwNet *net, const RwFailed *failed, const gboolean *active)
{
  guint *sets = rw_union_new (net->n_nodes);

  for (guint i = 0; i < net->n_links; i++)
    {
      const RwNetLink *link = &net->links[i];
      if (active != NULL && !active[i])
        continue;
      if (failed == NULL
          || (!failed->cable[link->cable] && !failed->device[net->nodes[link->node[0]].device]
              && !failed->device[net->nodes[link->node[1]].device]))
        rw_union_join (sets, link->node[0], link->node[1]);
    }
  return sets;
}

/**
 * rw_failed_new:
 * @net: a net
 * @ids: (nullable): ids of devices and cables that fail; others are passed over
 *
 * Returns: (transfer full): what fails
 */
RwFailed *
rw_failed_new (const RwNet *net, const char *const *ids)
{
  RwFailed *failed = g_new0 (RwFailed, 1);

  failed->device = g_new0 (gboolean, net->n_devices + 1);
  failed->cable = g_new0 (gboolean, net->n_cables + 1);
  for (guint i = 0; ids != NULL && ids[i] != NULL; i++)
    {
      guint device = rw_net_find_device (net, ids[i]), cable = rw_net_find_cable (net, ids[i]);

      if (device != RW_NONE)
        failed->device[device] = TRUE;
      if (cable != RW_NONE)
        failed->cable[cable] = TRUE;
    }
  return failed;
}

void
rw_failed_free (RwFailed *failed)
{
  g_free (failed->device);
  g_free (failed->cable);
  g_free (failed);
}

static gboolean
meets (const RwNet *net, guint *sets, guint from, guint to)
{
  const RwNetDevice *a = &net->devices[from], *b = &net->devices[to];

  for (guint i = a->first_node; i < a->first_node + a->n_nodes; i++)
    for (guint j = b->first_node; j < b->first_node + b->n_nodes && net->nodes[i].host; j++)
      if (net->nodes[j].host && rw_union_find (sets, i) == rw_union_find (sets, j))
        return TRUE;
  return FALSE;
}

/* By set: whether a controller that has not failed is in it. */
static gboolean *
find_controllers (const RwNet *net, guint *sets, const RwFailed *failed)
{
  gboolean *has = g_new0 (gboolean, net->n_nodes + 1);

  for (guint i = 0; i < net->n_nodes; i++)
    if (net->nodes[i].host && net->devices[net->nodes[i].device].part->kind == RW_PART_CONTROLLER
        && (failed == NULL || !failed->device[net->nodes[i].device]))
      has[rw_union_find (sets, i)] = TRUE;
  return has;
}

static gboolean
is_controlled (const RwNet *net, guint *sets, const gboolean *controllers, guint device)
{
  const RwNetDevice *d = &net->devices[device];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (net->nodes[i].host && controllers[rw_union_find (sets, i)])
      return TRUE;
  return FALSE;
}

/**
 * rw_fail:
 * @net: a net
 * @failed: what fails, all at once
 * @rows: (element-type guint): set to the rows that have a path now and lose it; not those of failed devices
 * @devices: (element-type guint): set to the racks and endpoints that reach a controller now and then no more; not
 *   failed ones
 */
void
rw_fail (const RwNet *net, const RwFailed *failed, GArray *rows, GArray *devices)
{
  const RwRows *patch = rw_net_rows (net);
  g_autofree guint *whole = join_what_is_left (net, NULL, NULL);
  g_autofree guint *left = join_what_is_left (net, failed, NULL);
  g_autofree gboolean *controllers = find_controllers (net, whole, NULL);
  g_autofree gboolean *controllers_left = find_controllers (net, left, failed);

  g_array_set_size (rows, 0);
  g_array_set_size (devices, 0);
  for (guint i = 0; i < patch->n; i++)
    {
      guint from = patch->from[i], to = patch->to[i];
      if (from != to && !failed->device[from] && !failed->device[to] && meets (net, whole, from, to)
          && !meets (net, left, from, to))
        g_array_append_val (rows, i);
    }
  for (guint i = 0; i < net->n_devices; i++)
    if (net->devices[i].part->kind != RW_PART_CONTROLLER && !failed->device[i]
        && is_controlled (net, whole, controllers, i) && !is_controlled (net, left, controllers_left, i))
      g_array_append_val (devices, i);
}

/* Who reaches whom: as it is wired, and over what the spanning tree leaves open; before and after. */
typedef struct
{
  const RwNet *net;
  const RwFailed *failed;
  guint *wired, *wired_left, *active, *active_left;
} Reach;

static void
reach_init (Reach *reach, const RwNet *net, const RwFailed *failed)
{
  const gboolean *active = rw_net_forecast (net)->paths->active;

  reach->net = net;
  reach->failed = failed;
  reach->wired = join_what_is_left (net, NULL, NULL);
  reach->wired_left = join_what_is_left (net, failed, NULL);
  reach->active = join_what_is_left (net, NULL, active);
  reach->active_left = join_what_is_left (net, failed, active);
}

static void
reach_clear (Reach *reach)
{
  g_free (reach->wired);
  g_free (reach->wired_left);
  g_free (reach->active);
  g_free (reach->active_left);
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
  gboolean some_cut = FALSE, some_left = FALSE;

  if (reach->failed->device[from] || reach->failed->device[to])
    return RW_FATE_FAILED;
  if (from == to)
    return RW_FATE_NONE;
  for (guint i = a->first_node; i < a->first_node + a->n_nodes; i++)
    for (guint j = b->first_node; j < b->first_node + b->n_nodes; j++)
      {
        if (!net->nodes[i].host || !net->nodes[j].host || rw_union_find (reach->active, i) != rw_union_find (reach->active, j))
          continue;
        if (rw_union_find (reach->active_left, i) == rw_union_find (reach->active_left, j))
          some_left = TRUE;
        else
          some_cut = TRUE;
      }
  return fate_of (meets (net, reach->wired, from, to), meets (net, reach->wired_left, from, to), some_cut, some_left);
}

/* By set: whether a controller is in it. */
typedef struct { gboolean *wired, *wired_left, *active, *active_left; } Controllers;

static void
controllers_init (Controllers *c, const Reach *reach)
{
  c->wired = find_controllers (reach->net, reach->wired, NULL);
  c->wired_left = find_controllers (reach->net, reach->wired_left, reach->failed);
  c->active = find_controllers (reach->net, reach->active, NULL);
  c->active_left = find_controllers (reach->net, reach->active_left, reach->failed);
}

static void
controllers_clear (Controllers *c)
{
  g_free (c->wired);
  g_free (c->wired_left);
  g_free (c->active);
  g_free (c->active_left);
}

static RwFate
device_fate (const Reach *reach, const Controllers *c, guint device, RwPlanes *planes)
{
  const RwNet *net = reach->net;
  const RwNetDevice *d = &net->devices[device];
  gboolean some_cut = FALSE, some_left = FALSE;

  if (reach->failed->device[device])
    return RW_FATE_FAILED;
  if (d->part->kind == RW_PART_CONTROLLER)
    return RW_FATE_NONE;
  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    {
      gboolean left = c->active_left[rw_union_find (reach->active_left, i)];

      if (!net->nodes[i].host || !c->active[rw_union_find (reach->active, i)])
        continue;
      some_left |= left;
      some_cut |= !left;
      if (left)
        *planes |= net->nodes[i].side == RW_SIDE_SECONDARY ? RW_PLANE_SECONDARY : RW_PLANE_PRIMARY;
    }
  return fate_of (is_controlled (net, reach->wired, c->wired, device),
                  is_controlled (net, reach->wired_left, c->wired_left, device), some_cut, some_left);
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
  Controllers controllers;
  Reach reach;

  reach_init (&reach, net, failed);
  controllers_init (&controllers, &reach);
  outcome->n_rows = patch->n;
  outcome->n_devices = net->n_devices;
  outcome->rows = g_new0 (RwFate, patch->n + 1);
  outcome->devices = g_new0 (RwFate, net->n_devices + 1);
  outcome->planes = g_new0 (RwPlanes, net->n_devices + 1);
  for (guint i = 0; i < patch->n; i++)
    {
      outcome->rows[i] = row_fate (&reach, patch->from[i], patch->to[i]);
      outcome->row_counts[outcome->rows[i]]++;
    }
  for (guint i = 0; i < net->n_devices; i++)
    {
      outcome->devices[i] = device_fate (&reach, &controllers, i, &outcome->planes[i]);
      outcome->device_counts[outcome->devices[i]]++;
    }
  controllers_clear (&controllers);
  reach_clear (&reach);
  return outcome;
}

void
rw_outcome_free (RwOutcome *outcome)
{
  g_free (outcome->rows);
  g_free (outcome->devices);
  g_free (outcome->planes);
  g_free (outcome);
}
