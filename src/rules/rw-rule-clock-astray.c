/* SPDX-License-Identifier: MIT */
#include "rw-rule-clock.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static gboolean
is_astray (const RwNet *net, const RwClockGroup *group)
{
  const RwNetDevice *leader = &net->devices[group->order.v[0]];

  return leader->part->kind != RW_PART_CONTROLLER && !leader->device->clock.reference;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, const RwClockGroup *group)
{
  guint leader = group->order.v[0];
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_devices (finding, net, &leader, 1);
  if (group->decided == RW_CLOCK_BY_NOTHING)
    /* Translators: a device */
    rw_finding_set_message (finding, _("%s leads the clock, for nobody else can: all lose it when this device is unplugged"),
                            rw_net_device_title (net, leader));
  else
    /* Translators: a device, "priority 1" or another attribute, the device that would lead next */
    rw_finding_set_message (finding, _("%s leads the clock by its %s, before %s: all lose it when this device is unplugged"),
                            rw_net_device_title (net, leader), rw_clock_decision_label (group->decided),
                            rw_net_device_title (net, group->order.v[1]));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  const RwClocks *clocks = rw_net_forecast (net)->clocks;
  g_autofree gboolean *counts = rw_clock_groups_that_count (clocks);

  for (guint i = 0; i < clocks->n_groups; i++)
    if (counts[i] && is_astray (net, &clocks->groups[i]))
      report (rule, net, findings, &clocks->groups[i]);
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  rw_clock_propose_leader (rig, finding->devices[0], fixes);
}

const RwRule rw_rule_clock_astray = {
  .code = "clock-astray",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Clock led by the wrong device"),
  .why = N_("All devices of a network follow one clock, and the lowest settings win it, wanted or not. If a rack or a computer "
            "leads, everything clicks or mutes for seconds when somebody switches it off."),
  .remedy = N_("Give the console that should lead a lower priority 1, or mark the device as the reference if it is meant."),
  .check = check,
  .fix = fix,
};
