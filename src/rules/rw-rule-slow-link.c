/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>
#include <net/rw-path.h>

#include "rw-rule-words.h"

/* Common practice: networks of live sound are built of links of 1 Gb/s at least. */
#define LEAST_MBPS 1000

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_cables; i++)
    {
      guint mbps = net->cables[i].run.mbps;
      g_autofree char *speed = NULL, *title = NULL;
      RwFinding *finding;

      if (!net->cables[i].audio || mbps >= LEAST_MBPS)
        continue;
      speed = rw_words_speed ((int) mbps);
      title = rw_words_net_cable (net, i);
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_add_ends (finding, net, i);
      /* Translators: a cable, a speed ("100 Mb/s"), two devices */
      rw_finding_set_message (finding, _("Cable %s runs at %s between %s and %s: it holds few channels, and each frame "
                                         "waits longer"),
                              title, speed,
                              rw_net_device_title (net, rw_net_cable_device (net, i, 0)),
                              rw_net_device_title (net, rw_net_cable_device (net, i, 1)));
    }
}

const RwRule rw_rule_slow_link = {
  .code = "slow-link",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Audio link under 1 Gb/s"),
  .why = N_("At 100 Mb/s a frame takes ten times as long as at 1 Gb/s, and every frame that must wait for it waits as long. "
            "Few channels fit, the clock is less steady, and the delay of everything behind the link grows."),
  .remedy = N_("Use ports of 1 Gb/s or more at both ends."),
  .check = check,
};
