/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>
#include <net/rw-path.h>

#include "rw-rule-words.h"

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint index, gboolean fibre)
{
  const RwNetCable *cable = &net->cables[index];
  guint fast = net->ports[cable->port[0]].port->speed_mbps > net->ports[cable->port[1]].port->speed_mbps ? 0 : 1;
  RwFinding *finding = rw_findings_begin (findings, rule, fibre ? RW_SEVERITY_ERROR : RW_SEVERITY_WARNING);
  g_autofree char *title = rw_words_net_cable (net, index);
  g_autofree char *high = rw_words_speed (net->ports[cable->port[fast]].port->speed_mbps);
  g_autofree char *low = rw_words_speed (net->ports[cable->port[1 - fast]].port->speed_mbps);
  const char *fast_device = rw_net_device_title (net, rw_net_cable_device (net, index, fast));
  const char *slow_device = rw_net_device_title (net, rw_net_cable_device (net, index, 1 - fast));

  rw_finding_add_ends (finding, net, index);
  if (fibre)
    /* Translators: a cable, a speed, a device, a speed, a device */
    rw_finding_set_message (finding, _("Cable %s joins %s at %s to %s at %s: fibre does not fall back, so no link comes up"),
                            title, high, fast_device, low, slow_device);
  else
    /* Translators: a cable, a speed, a device, a speed, a device, the lower speed again */
    rw_finding_set_message (finding, _("Cable %s joins %s at %s to %s at %s: the link runs at %s only"),
                            title, high, fast_device, low, slow_device, low);
}

/* A slow control port is what its maker meant; fibre of two speeds never works. */
static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_cables; i++)
    {
      const RwNetCable *cable = &net->cables[i];
      gboolean fibre = cable->run.medium != RW_MEDIUM_COPPER;

      if ((fibre || cable->audio)
          && net->ports[cable->port[0]].port->speed_mbps != net->ports[cable->port[1]].port->speed_mbps)
        report (rule, net, findings, i, fibre);
    }
}

const RwRule rw_rule_speed_mismatch = {
  .code = "speed-mismatch",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Two speeds on one cable"),
  .why = N_("On copper the two ends agree on the lower speed, and the faster port is wasted. On fibre they do not agree at "
            "all: modules of two speeds see no link."),
  .remedy = N_("Use ports of one speed at both ends; on fibre, modules of one kind."),
  .check = check,
};
