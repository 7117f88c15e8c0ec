/* SPDX-License-Identifier: MIT */
#include "rw-rule-clock.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  const RwClocks *clocks = rw_net_forecast (net)->clocks;
  g_autofree gboolean *counts = rw_clock_groups_that_count (clocks);

  for (guint i = 0; i < clocks->n_groups; i++)
    {
      const RwClockGroup *group = &clocks->groups[i];
      RwFinding *finding;

      if (!counts[i] || group->decided != RW_CLOCK_BY_IDENTITY)
        continue;
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_add_devices (finding, net, group->order.v, 1);
      /* Translators: two devices */
      rw_finding_set_message (finding, _("Nobody chose who leads the clock: %s leads before %s by its identity alone"),
                              rw_net_device_title (net, group->order.v[0]), rw_net_device_title (net, group->order.v[1]));
    }
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  rw_clock_propose_leader (rig, finding->devices[0], fixes);
}

const RwRule rw_rule_clock_even = {
  .code = "clock-even",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Clock leader left to chance"),
  .why = N_("Where all settings are equal, the number that each device was born with decides which leads the clock. "
            "That works, but who leads is chance, and changes with every device that is hired in."),
  .remedy = N_("Give the console that should lead a lower priority 1 than the others."),
  .can_wait = TRUE,
  .check = check,
  .fix = fix,
};
