/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>
#include <net/rw-ring.h>

#include "rw-rule-words.h"

/* Switches of each ring that do not run spanning tree, by the ring's name; only of rings of two switches or more. */
static void
count_switches (const RwNet *net, const guint *rings, guint *switches, guint *plain)
{
  for (guint i = 0; i < net->n_devices; i++)
    if (net->devices[i].part->kind == RW_PART_SWITCH)
      {
        switches[rings[i]]++;
        plain[rings[i]] += !net->devices[i].part->spanning_tree;
      }
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, const guint *plain, guint n, guint switches)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  g_autofree char *names = rw_words_devices (net, plain, n);

  rw_finding_add_devices (finding, net, plain, n);
  /* Translators: switches without spanning tree, a number of switches (2 or more) */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("%s runs no spanning tree, but is one of %u switches joined by "
                                                               "more than one way: nothing keeps loops away",
                                                               "%s run no spanning tree, but are among %u switches joined "
                                                               "by more than one way: nothing keeps loops away", n),
                                                     names, switches));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autofree guint *rings = rw_rings_new (net);
  g_autofree guint *switches = g_new0 (guint, net->n_devices), *plain = g_new0 (guint, net->n_devices);
  g_autofree guint *start = g_new0 (guint, net->n_devices + 1), *list = g_new (guint, net->n_devices);

  count_switches (net, rings, switches, plain);
  for (guint i = 0; i < net->n_devices; i++)
    start[i + 1] = start[i] + plain[i];
  for (guint i = 0; i < net->n_devices; i++)
    if (net->devices[i].part->kind == RW_PART_SWITCH && !net->devices[i].part->spanning_tree)
      list[start[rings[i]]++] = i;
  for (guint i = 0; i < net->n_devices; i++)
    if (switches[i] > 1 && plain[i] > 0)
      report (rule, net, findings, list + start[i] - plain[i], plain[i], switches[i]);
}

const RwRule rw_rule_no_tree = {
  .code = "no-tree",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Redundant links without spanning tree"),
  .why = N_("Two ways between switches are a loop unless spanning tree holds one open, or each VLAN has one of its own. "
            "A switch that does not run it blocks nothing, and one forgotten VLAN setting brings the network down."),
  .remedy = N_("Use switches that run spanning tree wherever they are joined by more than one way."),
  .check = check,
};
