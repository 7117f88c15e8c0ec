/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-forecast.h>

#include "rw-rule.h"
#include "rw-rule-words.h"

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint cable, guint direction, double percent, double mbps)
{
  gboolean over = percent > 100;
  RwFinding *finding = rw_findings_begin (findings, rule, over ? RW_SEVERITY_ERROR : RW_SEVERITY_WARNING);
  guint devices[] = { rw_net_cable_device (net, cable, direction), rw_net_cable_device (net, cable, 1 - direction) };
  const char *from = rw_net_device_title (net, devices[0]), *to = rw_net_device_title (net, devices[1]);
  g_autofree char *title = rw_words_net_cable (net, cable);

  rw_finding_add_devices (finding, net, devices, 2);
  rw_finding_add_net_port (finding, net, net->cables[cable].port[direction]);
  rw_finding_add_cables (finding, net, &cable, 1);
  if (over)
    /* Translators: a cable, two devices, a load in Mb/s, the same in percent */
    rw_finding_set_message (finding, _("Cable %s should carry %.0f Mb/s from %s to %s, %.0f %% of what it can: frames are lost, "
                                       "and all lines on it break up"),
                            title, mbps, from, to, percent);
  else
    /* Translators: a cable, a load in Mb/s, two devices, the load in percent */
    rw_finding_set_message (finding, _("Cable %s carries %.0f Mb/s from %s to %s, %.0f %% of what it can: little is left for "
                                       "control and bursts"),
                            title, mbps, from, to, percent);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  const RwLoads *loads = rw_net_forecast (net)->loads;

  for (guint i = 0; i < net->n_cables; i++)
    for (guint direction = 0; net->cables[i].carries && direction < 2; direction++)
      {
        double percent = rw_load_percent (net, loads, i, direction);

        if (percent > rw_rig_system (rig)->link_ceiling_percent)
          report (rule, net, findings, i, direction, percent, loads->loads[2 * i + direction].mbps);
      }
}

const RwRule rw_rule_link_full = {
  .code = "link-full",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Link too full"),
  .why = N_("All streams that pass a link must fit into its speed, with room for control, clock and bursts. Over the ceiling it "
            "becomes unsteady; over its speed, frames are lost for good."),
  .remedy = N_("Patch fewer channels over it, use a faster link, or lead them another way."),
  .check = check,
};
