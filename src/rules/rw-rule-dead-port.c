/* SPDX-License-Identifier: MIT */
#include "rw-rule-plugs.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

/* The secondary of a device that uses only its primary. */
static gboolean
is_dead (const RwNet *net, guint port)
{
  const RwNetDevice *device = &net->devices[net->ports[port].device];

  return !device->forwards && device->mode == RW_MODE_SINGLE && net->ports[port].port->side == RW_SIDE_SECONDARY;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint port, const guint *cables, guint n)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  const RwDevice *device = net->devices[net->ports[port].device].device;
  g_autofree char *names = rw_words_cables (net, cables, n);

  rw_finding_add_device (finding, rw_item_key (device));
  rw_finding_add_port (finding, rw_item_key (device), rw_net_port_name (net, port));
  rw_finding_add_cables (finding, net, cables, n);
  /* Translators: a list of cables, a port, a device */
  rw_finding_set_message (finding, ngettext ("Cable %s is in port %s of %s, which is in single mode and uses only its "
                                             "primary: the cable carries nothing",
                                             "Cables %s are in port %s of %s, which is in single mode and uses only "
                                             "its primary: the cables carry nothing", n),
                          names, rw_net_port_name (net, port), rw_device_title (device));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_plugs_check (rule, net, findings, is_dead, report);
}

/* The cable moves to the primary if that is free; with both cabled, either mode that uses both may be meant. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  const char *const *device = (const char *const *) finding->devices;

  if (finding->cables[1] == NULL)
    rw_fix_move_to_side (rig, finding->cables[0], finding->ports[0], finding->ports[1], RW_SIDE_PRIMARY, fixes);
  rw_fix_set_mode (rig, device, 1, RW_MODE_CHAIN, fixes);
  rw_fix_set_mode (rig, device, 1, RW_MODE_REDUNDANT, fixes);
}

const RwRule rw_rule_dead_port = {
  .code = "dead-port",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Cable in a port that is not used"),
  .why = N_("A device in single mode plays and listens on its primary port only. A cable in its secondary looks like "
            "a connection and is none: nothing that hangs on it is reached."),
  .remedy = N_("Move the cable to the primary port, or set the device to chain or redundant mode."),
  .check = check,
  .fix = fix,
};
