/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

/* The secondary port of a device that uses only its primary, if a cable is in it; else RW_NONE. */
static guint
dead_port (const RwNet *net, guint device)
{
  guint port;

  if (net->devices[device].forwards || net->devices[device].mode != RW_MODE_SINGLE)
    return RW_NONE;
  port = rw_net_device_side (net, device, RW_SIDE_SECONDARY);
  return port != RW_NONE && net->ports[port].n_cables > 0 ? port : RW_NONE;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint port, const GArray *cables)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  const RwDevice *device = net->devices[net->ports[port].device].device;
  const guint *indices = (const guint *) (gpointer) cables->data;
  g_autofree char *names = rw_words_cables (net, indices, cables->len);

  rw_finding_add_device (finding, rw_item_key (device));
  rw_finding_add_port (finding, rw_item_key (device), rw_net_port_name (net, port));
  rw_finding_add_cables (finding, net, indices, cables->len);
  /* Translators: a list of cables, a port, a device */
  rw_finding_set_message (finding, ngettext ("Cable %s is in port %s of %s, which is in single mode and uses only its "
                                             "primary: the cable carries nothing",
                                             "Cables %s are in port %s of %s, which is in single mode and uses only "
                                             "its primary: the cables carry nothing", cables->len),
                          names, rw_net_port_name (net, port), rw_device_title (device));
}

static GHashTable *
find_dead_ports (const RwNet *net)
{
  GHashTable *dead = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) g_array_unref);

  for (guint i = 0; i < net->n_devices; i++)
    {
      guint port = dead_port (net, i);

      if (port != RW_NONE)
        g_hash_table_insert (dead, GUINT_TO_POINTER (port), g_array_new (FALSE, FALSE, sizeof (guint)));
    }
  return dead;
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GHashTable) dead = find_dead_ports (net); /* port → its cables */

  if (g_hash_table_size (dead) == 0)
    return;
  for (guint i = 0; i < net->n_cables; i++)
    for (guint end = 0; end < 2; end++)
      {
        GArray *cables = g_hash_table_lookup (dead, GUINT_TO_POINTER (net->cables[i].port[end]));

        if (cables != NULL && !(end == 1 && net->cables[i].port[0] == net->cables[i].port[1]))
          g_array_append_val (cables, i);
      }
  for (guint i = 0; i < net->n_ports; i++)
    {
      const GArray *cables = g_hash_table_lookup (dead, GUINT_TO_POINTER (i));

      if (cables != NULL)
        report (rule, net, findings, i, cables);
    }
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
