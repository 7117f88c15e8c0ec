/* SPDX-License-Identifier: MIT */
#include "rw-rule-clock.h"

#include "rw-fix.h"

/**
 * rw_clock_groups_that_count: by group: whether it elects a leader whom somebody else there follows. A redundant
 * device votes on its second plane too, but takes its clock from the first. (transfer full).
 */
gboolean *
rw_clock_groups_that_count (const RwClocks *clocks)
{
  gboolean *counts = g_new0 (gboolean, clocks->n_groups + 1);

  for (guint i = 0; i < clocks->n_devices; i++)
    if (clocks->leader[i] != RW_NONE && clocks->leader[i] != i)
      counts[clocks->group[i]] = TRUE;
  return counts;
}

/* The controller with ID 1 that votes where @leader leads; RW_NONE without one, or with several. */
static guint
first_controller (const RwNet *net, const RwClockGroup *group)
{
  guint found = RW_NONE;

  for (guint i = 0; i < group->order.n; i++)
    {
      const RwNetDevice *device = &net->devices[group->order.v[i]];

      if (device->part->kind != RW_PART_CONTROLLER || !rw_item_has (device->device, RW_DEVICE_CONTROLLER_ID)
          || device->device->controller_id != 1)
        continue;
      if (found != RW_NONE)
        return RW_NONE;
      found = group->order.v[i];
    }
  return found;
}

/**
 * rw_clock_propose_leader: adds to @fixes that the controller with ID 1 leads instead of @leader, or before all others
 * where it leads already.
 */
void
rw_clock_propose_leader (const RwRig *rig, const char *leader, GPtrArray *fixes)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  const RwClocks *clocks = rw_net_forecast (net)->clocks;
  guint index = rw_net_find_device (net, leader), controller;

  if (clocks->group[index] == RW_NONE)
    return;
  controller = first_controller (net, &clocks->groups[clocks->group[index]]);
  if (controller != RW_NONE && net->devices[index].device->clock.priority1 > 0)
    rw_fix_lead_clock (rig, net->devices[controller].device, net->devices[index].device->clock.priority1 - 1, fixes);
}
