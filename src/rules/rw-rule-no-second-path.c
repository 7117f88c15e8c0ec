/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* Of a redundant device with one of its two ports cabled, the other; else RW_NONE. */
static guint
empty_port (const RwNet *net, guint device)
{
  guint primary, secondary;

  if (net->devices[device].forwards || net->devices[device].mode != RW_MODE_REDUNDANT)
    return RW_NONE;
  primary = rw_net_device_side (net, device, RW_SIDE_PRIMARY);
  secondary = rw_net_device_side (net, device, RW_SIDE_SECONDARY);
  if (primary == RW_NONE || secondary == RW_NONE
      || (net->ports[primary].n_cables > 0) == (net->ports[secondary].n_cables > 0))
    return RW_NONE;
  return net->ports[primary].n_cables > 0 ? secondary : primary;
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwDevice *device = net->devices[i].device;
      guint port = empty_port (net, i);
      RwFinding *finding;

      if (port == RW_NONE)
        continue;
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_add_device (finding, rw_item_key (device));
      rw_finding_add_port (finding, rw_item_key (device), rw_net_port_name (net, port));
      /* Translators: a device, its port that has no cable */
      rw_finding_set_message (finding, _("%s is redundant, but its port %s has no cable: one fault silences it"),
                              rw_device_title (device), rw_net_port_name (net, port));
    }
}

const RwRule rw_rule_no_second_path = {
  .code = "no-second-path",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Redundant device on one plane only"),
  .why = N_("Redundant mode sends everything twice, over two planes, so that either may fail without a gap. With a "
            "cable on one plane only there is nothing to fall back on, though the device says that it is redundant."),
  .remedy = N_("Cable the empty port to the other plane, or set the device to the mode that you mean."),
  .check = check,
};
