/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* Which networks a controller is a host in; NULL if the rig has no controller. */
static gboolean *
controlled_networks (const RwNet *net)
{
  gboolean *controlled = g_new0 (gboolean, net->n_networks + 1);
  gboolean any = FALSE;

  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwNetDevice *device = &net->devices[i];

      if (device->part->kind != RW_PART_CONTROLLER)
        continue;
      any = TRUE;
      for (guint j = device->first_node; j < device->first_node + device->n_nodes; j++)
        if (net->nodes[j].host)
          controlled[net->nodes[j].network] = TRUE;
    }
  if (!any)
    g_clear_pointer (&controlled, g_free);
  return controlled;
}

/* The system of a rack or endpoint that has an audio cable but no controller in any of its networks; else RW_NONE. */
static guint
system_cut_off (const RwNet *net, const RwNetDevice *device, const gboolean *controlled)
{
  guint system = RW_NONE;

  if ((device->part->kind != RW_PART_RACK && device->part->kind != RW_PART_ENDPOINT) || device->n_audio_cables == 0)
    return RW_NONE;
  for (guint i = device->first_node; i < device->first_node + device->n_nodes; i++)
    if (net->nodes[i].host)
      {
        if (controlled[net->nodes[i].network])
          return RW_NONE;
        system = net->networks[net->nodes[i].network].system;
      }
  return system;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, const guint *devices, guint n)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  g_autofree char *names = rw_words_devices (net, devices, n);

  rw_finding_add_devices (finding, net, devices, n);
  /* Translators: a list of devices */
  rw_finding_set_message (finding, ngettext ("%s shares no network with a controller: it cannot be commanded, and no "
                                             "console hears it",
                                             "%s share no network with a controller: they cannot be commanded, and no "
                                             "console hears them", n), names);
}

/* One finding a system, in the order of the first device of each that is cut off. */
static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autofree gboolean *controlled = controlled_networks (net);
  g_autoptr (GHashTable) of_system = g_hash_table_new (NULL, NULL); /* system + 1 → GArray in groups */
  g_autoptr (GPtrArray) groups = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);

  if (controlled == NULL)
    return;
  for (guint i = 0; i < net->n_devices; i++)
    {
      guint system = system_cut_off (net, &net->devices[i], controlled);
      GArray *group;

      if (system == RW_NONE)
        continue;
      group = g_hash_table_lookup (of_system, GUINT_TO_POINTER (system + 1));
      if (group == NULL)
        {
          group = g_array_new (FALSE, FALSE, sizeof (guint));
          g_ptr_array_add (groups, group);
          g_hash_table_insert (of_system, GUINT_TO_POINTER (system + 1), group);
        }
      g_array_append_val (group, i);
    }
  for (guint i = 0; i < groups->len; i++)
    {
      GArray *group = g_ptr_array_index (groups, i);

      report (rule, net, findings, (const guint *) (gpointer) group->data, group->len);
    }
}

const RwRule rw_rule_cut_off = {
  .code = "cut-off",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Cut off from every controller"),
  .why = N_("Audio and commands travel only within a network. A device that is cabled, but to no network that a "
            "controller is in, looks connected on the drawing and stays silent on the stage."),
  .remedy = N_("Trace the way from the device to the console: bridge the gap with a cable, or set the switch port or "
               "the mode that parts them."),
  .check = check,
};
