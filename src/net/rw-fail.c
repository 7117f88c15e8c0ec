/* SPDX-License-Identifier: MIT */
#include "rw-fail-private.h"

#include "rw-rows.h"

/* (transfer full): sets of nodes that still reach each other; @failed NULL = nothing failed, @active: (nullable): by
 * link: only these. */
guint *
rw_fail_join (const RwNet *net, const RwFailed *failed, const gboolean *active)
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

/* Whether the hosts of two devices reach each other in one network at least. */
gboolean
rw_fail_meets (const RwNet *net, guint *sets, guint from, guint to)
{
  const RwNetDevice *a = &net->devices[from], *b = &net->devices[to];

  for (guint i = a->first_node; i < a->first_node + a->n_nodes; i++)
    for (guint j = b->first_node; j < b->first_node + b->n_nodes && net->nodes[i].host; j++)
      if (net->nodes[j].host && rw_union_find (sets, i) == rw_union_find (sets, j))
        return TRUE;
  return FALSE;
}

/* (transfer full): by set: whether a controller that has not failed is in it. */
gboolean *
rw_fail_controllers (const RwNet *net, guint *sets, const RwFailed *failed)
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
  g_autofree guint *whole = rw_fail_join (net, NULL, NULL);
  g_autofree guint *left = rw_fail_join (net, failed, NULL);
  g_autofree gboolean *controllers = rw_fail_controllers (net, whole, NULL);
  g_autofree gboolean *controllers_left = rw_fail_controllers (net, left, failed);

  g_array_set_size (rows, 0);
  g_array_set_size (devices, 0);
  for (guint i = 0; i < patch->n; i++)
    {
      guint from = patch->from[i], to = patch->to[i];
      if (from != to && !failed->device[from] && !failed->device[to] && rw_fail_meets (net, whole, from, to)
          && !rw_fail_meets (net, left, from, to))
        g_array_append_val (rows, i);
    }
  for (guint i = 0; i < net->n_devices; i++)
    if (net->devices[i].part->kind != RW_PART_CONTROLLER && !failed->device[i]
        && is_controlled (net, whole, controllers, i) && !is_controlled (net, left, controllers_left, i))
      g_array_append_val (devices, i);
}
