/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-gain.h"
#include "rw-rule-words.h"

static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *consoles,
        guint n)
{
  guint rack = (guint) key;
  RwFinding *finding;

  if (n != 1 || !net->devices[rack].device->gain_compensation)
    return;
  finding = rw_findings_begin (findings, rule, rule->severity);
  rw_finding_add_devices (finding, net, &rack, 1);
  rw_finding_add_devices (finding, net, consoles, 1);
  /* Translators: a console, a rack */
  rw_finding_set_message (finding, _("%s alone uses the preamps of %s, where gain compensation is on: its gain changes nothing "
                                     "that is heard"), rw_net_device_title (net, consoles[0]), rw_net_device_title (net, rack));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_gain_check (rule, rig, net, findings, report);
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  rw_fix_set_compensation (rig, rw_rig_device (rig, finding->devices[0]), FALSE, fixes);
}

const RwRule rw_rule_compensation_idle = {
  .code = "compensation-idle",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Gain compensation without need"),
  .why = N_("Gain compensation fixes the level that leaves the rack. That is of use where several consoles share it; where only "
            "one does, its gain knob seems dead."),
  .remedy = N_("Switch gain compensation off in the rack, unless a second console will join."),
  .check = check,
  .fix = fix,
};
