/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>
#include <net/rw-forecast.h>
#include <net/rw-tree.h>

#include "rw-rule-words.h"

/* The end of @cable that the tree blocks; 2 = neither. */
static guint
blocked_end (const RwNet *net, guint cable)
{
  const RwTree *tree = rw_net_tree (net);
  const guint *port = net->cables[cable].port;

  for (guint end = 0; end < 2; end++)
    if (tree->roles[port[end]] == RW_TREE_ROLE_BLOCKED)
      return end;
  return 2;
}

/* Links of the network that the tree blocks and whose two ends no other way joins. */
static GArray *
cutting_links (const RwNet *net, const RwNetwork *network)
{
  const guint *part = rw_net_forecast (net)->paths->part;
  GArray *cutting = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < network->links.n; i++)
    {
      const RwNetLink *link = &net->links[network->links.v[i]];

      if (part[link->node[0]] != part[link->node[1]])
        g_array_append_val (cutting, network->links.v[i]);
    }
  return cutting;
}

static void
add_subjects (RwFinding *finding, const RwNet *net, const GArray *links)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  guint before = RW_NONE;

  for (guint i = 0; i < links->len; i++)
    {
      guint cable = net->links[g_array_index (links, guint, i)].cable;
      guint end = blocked_end (net, cable), device = rw_net_cable_device (net, cable, end);

      if (cable == before)
        continue;
      before = cable;
      if (g_hash_table_add (seen, GUINT_TO_POINTER (device + 1)))
        rw_finding_add_devices (finding, net, &device, 1);
      rw_finding_add_net_port (finding, net, net->cables[cable].port[end]);
      rw_finding_add_cables (finding, net, &cable, 1);
    }
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint network, const GArray *links)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  g_autofree char *vlans = rw_words_vlans (net, network);
  guint cable = net->links[g_array_index (links, guint, 0)].cable, end = blocked_end (net, cable);
  g_autofree char *title = rw_words_net_cable (net, cable);

  add_subjects (finding, net, links);
  /* Translators: "VLAN 10" or "VLANs 10 and 20", a port, a device, a cable */
  rw_finding_set_message (finding, _("%s is cut in two: the spanning tree blocks port %s of %s, and no other link than "
                                     "cable %s carries it there"),
                          vlans != NULL ? vlans : "VLAN 1", rw_net_port_name (net, net->cables[cable].port[end]),
                          rw_net_device_title (net, rw_net_cable_device (net, cable, end)), title);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_networks; i++)
    {
      g_autoptr (GArray) links = cutting_links (net, &net->networks[i]);

      if (links->len > 0)
        report (rule, net, findings, i, links);
    }
}

const RwRule rw_rule_tree_cuts_vlan = {
  .code = "tree-cuts-vlan",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Spanning tree cuts a VLAN"),
  .why = N_("There is one spanning tree over the boxes, whatever their VLANs. It blocks a port for all of them; a VLAN "
            "whose only way leads through that port is parted in two, although its cable is there."),
  .remedy = N_("Carry the VLAN on every link between the switches, as a trunk, so that it goes wherever the tree goes."),
  .check = check,
};
