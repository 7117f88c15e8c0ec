/* SPDX-License-Identifier: MIT */
#include "rw-rule-loop.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

/**
 * rw_loops_check: one finding for each network and closing cable whose loop is (or is not) held open:
 * cables = the closing one, then the shortest way round among those drawn before it; devices =
 * those on the way from its from to its to.
 * @message: (transfer full result): what to say of a loop
 */
void
rw_loops_check (const RwRule *rule, const RwNet *net, RwFindings *findings, gboolean held,
                char *(*message) (const RwNet *net, const RwLoop *loop))
{
  for (guint i = 0; i < net->n_loops; i++)
    {
      const RwLoop *loop = &net->loops[i];
      RwFinding *finding;

      if (loop->held != held)
        continue;
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_add_cables (finding, net, &loop->cable, 1);
      rw_finding_add_cables (finding, net, loop->way.v, loop->way.n);
      rw_finding_add_devices (finding, net, loop->devices.v, loop->devices.n);
      rw_finding_take_message (finding, message (net, loop));
    }
}

static char *
say_loop (const RwNet *net, const RwLoop *loop)
{
  g_autofree char *cable = rw_words_net_cable (net, loop->cable);
  g_autofree char *devices = rw_words_devices (net, loop->devices.v, loop->devices.n);
  g_autofree char *vlans = rw_words_vlans (net, loop->network);

  if (loop->devices.n == 1 && vlans == NULL)
    /* Translators: a cable, a device */
    return g_strdup_printf (_("Cable %s joins two ports of %s: frames circle through it without end "
                              "until the network stops"), cable, devices);
  if (loop->devices.n == 1)
    /* Translators: a cable, a device, then "VLAN 10" or "VLANs 10 and 20" */
    return g_strdup_printf (_("Cable %s joins two ports of %s in %s: frames circle through it without "
                              "end until the network stops"), cable, devices, vlans);
  if (vlans == NULL)
    /* Translators: a cable, a list of devices */
    return g_strdup_printf (_("Cable %s closes a loop through %s: frames circle in it without end "
                              "until the network stops"), cable, devices);
  /* Translators: a cable, then "VLAN 10" or "VLANs 10 and 20", then a list of devices */
  return g_strdup_printf (_("Cable %s closes a loop in %s through %s: frames circle in it without end "
                            "until the network stops"), cable, vlans, devices);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_loops_check (rule, net, findings, FALSE, say_loop);
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  rw_fix_remove_cable (rig, finding->cables[0], fixes);
}

const RwRule rw_rule_loop = {
  .code = "loop",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Loop"),
  .why = N_("Ethernet frames carry no count of the hops that they have made. Where the cables form a ring and "
            "nothing holds it open, every broadcast comes round again, is copied again, and within a second the "
            "links are full of copies and no audio gets through."),
  .remedy = N_("Take out the cable that closes the ring, or use switches that all run spanning tree for every "
               "link of it."),
  .check = check,
  .fix = fix,
};
