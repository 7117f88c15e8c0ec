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
  g_autofree char *names = NULL;
  RwFinding *finding;

  if (n < 2 || net->devices[rack].device->gain_compensation)
    return;
  names = rw_words_devices (net, consoles, n);
  finding = rw_findings_begin (findings, rule, rule->severity);
  rw_finding_add_devices (finding, net, &rack, 1);
  rw_finding_add_devices (finding, net, consoles, n);
  /* Translators: two consoles or more, a rack */
  rw_finding_set_message (finding, _("%s share the preamps of %s without gain compensation: when one turns the gain, it jumps "
                                     "at the others"), names, rw_net_device_title (net, rack));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_gain_check (rule, rig, net, findings, report);
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  rw_fix_set_compensation (rig, rw_rig_device (rig, finding->devices[0]), TRUE, fixes);
}

const RwRule rw_rule_gain_shared = {
  .code = "gain-shared",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Preamps shared without compensation"),
  .why = N_("A preamp has one gain, whoever turns it. Gain compensation takes back digitally in the rack what is turned up in "
            "front, so that the other consoles hear no change."),
  .remedy = N_("Switch gain compensation on in the rack, and agree who has the gain."),
  .check = check,
  .fix = fix,
};
