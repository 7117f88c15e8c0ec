/* SPDX-License-Identifier: MIT */
#include "rw-rule-plugs.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

static gboolean
is_crowded (const RwNet *net, guint port)
{
  return net->ports[port].n_cables > 1;
}

/* One cable with both its ends in the port is no second cable. */
static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint port, const guint *cables, guint n)
{
  const RwNetDevice *device = &net->devices[net->ports[port].device];
  g_autofree char *names = rw_words_cables (net, cables, n);
  g_autofree char *first = rw_words_net_cable (net, cables[0]);
  RwFinding *finding;

  if (n < 2)
    return;
  finding = rw_findings_begin (findings, rule, rule->severity);
  rw_finding_add_device (finding, rw_item_key (device->device));
  rw_finding_add_port (finding, rw_item_key (device->device), rw_net_port_name (net, port));
  rw_finding_add_cables (finding, net, cables, n);
  /* Translators: a list of cables, a port, a device, the first of those cables */
  rw_finding_set_message (finding, _("Cables %s are in one port, %s of %s: only one plug fits, so only %s is "
                                     "reckoned with"),
                          names, rw_net_port_name (net, port), rw_device_title (device->device), first);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_plugs_check (rule, net, findings, is_crowded, report);
}

/* A free port of the same switch that is like this one takes the second cable; or it goes. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  if (finding->cables[2] != NULL)
    return;
  rw_fix_move_to_like_port (rig, finding->cables[1], finding->ports[0], finding->ports[1], fixes);
  rw_fix_remove_cable (rig, finding->cables[1], fixes);
}

const RwRule rw_rule_port_shared = {
  .code = "port-shared",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Two cables in one port"),
  .why = N_("A socket takes one plug. Two cables drawn into one port cannot both be built, so whatever the second "
            "was meant to reach will not be reached."),
  .remedy = N_("Move one of the cables to a free port, or take it out."),
  .check = check,
  .fix = fix,
};
