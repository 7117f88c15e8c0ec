/* SPDX-License-Identifier: MIT */
#include "rw-rule-loop.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static char *
say_loop (const RwNet *net, const RwLoop *loop)
{
  g_autofree char *cable = rw_words_net_cable (net, loop->cable);
  g_autofree char *open = rw_words_net_cable (net, loop->open_cable);
  g_autofree char *devices = rw_words_devices (net, loop->devices.v, loop->devices.n);
  g_autofree char *vlans = rw_words_vlans (net, loop->network);

  if (vlans == NULL)
    /* Translators: a cable, a list of devices, the cable that passes nothing on for now */
    return g_strdup_printf (_("Cable %s closes a loop through %s; spanning tree holds it open at cable %s, "
                              "which passes nothing on until another link fails"), cable, devices, open);
  /* Translators: a cable, "VLAN 10" or "VLANs 10 and 20", a list of devices, the cable that passes nothing on */
  return g_strdup_printf (_("Cable %s closes a loop in %s through %s; spanning tree holds it open at cable %s, "
                            "which passes nothing on until another link fails"),
                          cable, vlans, devices, open);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_loops_check (rule, net, findings, TRUE, say_loop);
}

const RwRule rw_rule_loop_held = {
  .code = "loop-held",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Loop held open by spanning tree"),
  .why = N_("Switches that run spanning tree find a ring by themselves and shut one of its links, so it is a spare "
            "and not a storm. When a link fails, the tree forms anew, and with classic timers that takes up to 30 to "
            "50 seconds, in which audio stops."),
  .remedy = N_("Nothing has to be done. Keep spanning tree switched on in every switch of the ring, and check that "
               "the link that is shut is the one you want to spare."),
  .check = check,
};
