/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static GArray *
units_of (const RwNet *net, const RwNetSystem *system)
{
  GArray *units = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < system->devices.n; i++)
    if (rw_item_has (net->devices[system->devices.v[i]].device, RW_DEVICE_UNIT_ID))
      g_array_append_val (units, system->devices.v[i]);
  return units;
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  int max = rw_rig_system (rig)->unit_id_max;

  for (guint i = 0; i < net->n_systems; i++)
    {
      g_autoptr (GArray) units = units_of (net, &net->systems[i]);
      RwFinding *finding;

      if (units->len <= (guint) max)
        continue;
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_add_devices (finding, net, (const guint *) (gpointer) units->data, units->len);
      /* Translators: how many devices have a unit ID, how many IDs there are */
      rw_finding_set_message (finding, ngettext ("%u device with a unit ID is in one system that has %d unit IDs: some "
                                                 "cannot have one of their own",
                                                 "%u devices with a unit ID are in one system that has %d unit IDs: "
                                                 "some cannot have one of their own", units->len),
                              units->len, max);
    }
}

const RwRule rw_rule_too_many_units = {
  .code = "too-many-units",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("More units than unit IDs"),
  .why = N_("Each device that a controller commands needs a unit ID of its own, and a system has only so many. With "
            "more devices than IDs, two must share one, and a controller cannot tell them apart."),
  .remedy = N_("Take the unit ID from devices that no controller has to command, or part the system in two."),
  .check = check,
};
