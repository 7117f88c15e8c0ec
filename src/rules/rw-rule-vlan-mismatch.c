/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static gboolean
is_switch_port (const RwNet *net, guint port)
{
  return net->devices[net->ports[port].device].part->kind == RW_PART_SWITCH;
}

/* What a switch port is: "VLAN 10", or "a trunk of VLANs 10 and 20". */
static char *
say_port (const RwNet *net, guint port)
{
  const RwDevice *device = net->devices[net->ports[port].device].device;
  const RwPortVlans *vlans = rw_device_port_vlans (device, rw_net_port_name (net, port));
  g_autoptr (GPtrArray) numbers = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *list = NULL;

  if (vlans == NULL || !vlans->tagged)
    /* Translators: the VLAN that a switch port belongs to */
    return g_strdup_printf (_("VLAN %d"), vlans == NULL ? 1 : vlans->vlans[0]);
  for (guint i = 0; i < vlans->n; i++)
    g_ptr_array_add (numbers, g_strdup_printf ("%d", vlans->vlans[i]));
  list = rw_words_join ((const char *const *) numbers->pdata, numbers->len);
  /* Translators: what a switch port carries: a list of VLAN numbers */
  return g_strdup_printf (ngettext ("a trunk of VLAN %s", "a trunk of VLANs %s", vlans->n), list);
}

/* Access ports of two VLANs joined: the frames between them are untagged, so only the nodes tell. */
static gboolean
joins_different (const RwNet *net, const RwNetCable *cable)
{
  for (guint i = cable->first_link; i < cable->first_link + cable->n_links; i++)
    if (net->nodes[net->links[i].node[0]].tag != net->nodes[net->links[i].node[1]].tag)
      return TRUE;
  return FALSE;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint index)
{
  const RwNetCable *cable = &net->cables[index];
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  const char *from = rw_net_device_title (net, rw_net_cable_device (net, index, 0));
  const char *to = rw_net_device_title (net, rw_net_cable_device (net, index, 1));
  g_autofree char *at_from = say_port (net, cable->port[0]);
  g_autofree char *at_to = say_port (net, cable->port[1]);
  g_autofree char *title = rw_words_net_cable (net, index);

  rw_finding_add_ends (finding, net, index);
  if (cable->n_links > 0)
    /* Translators: a cable, "VLAN 10", a device, "VLAN 20", a device */
    rw_finding_set_message (finding, _("Cable %s leads from %s on %s to %s on %s: it makes one network of the two"),
                            title, at_from, from, at_to, to);
  else
    /* Translators: a cable, "VLAN 10" or "a trunk of VLANs 10 and 20", a device, the same at the other end */
    rw_finding_set_message (finding, _("Cable %s leads from %s on %s to %s on %s: nothing passes"),
                            title, at_from, from, at_to, to);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_cables; i++)
    {
      const RwNetCable *cable = &net->cables[i];

      if (cable->carries && is_switch_port (net, cable->port[0]) && is_switch_port (net, cable->port[1])
          && (cable->n_links == 0 || joins_different (net, cable)))
        report (rule, net, findings, i);
    }
}

const RwRule rw_rule_vlan_mismatch = {
  .code = "vlan-mismatch",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("VLANs that do not meet"),
  .why = N_("A switch port either belongs to one VLAN and speaks without tags, or is a trunk and speaks with a tag for "
            "each VLAN. Where the two ends of a cable are set differently, frames are dropped, or cross from one "
            "VLAN into another."),
  .remedy = N_("Set both ports to the same VLAN, or make both a trunk of the same VLANs."),
  .check = check,
};
