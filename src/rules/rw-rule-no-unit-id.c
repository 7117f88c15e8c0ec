/* SPDX-License-Identifier: MIT */
#include "rw-rule-ids.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"

static gboolean
lacks_unit_id (const RwNetDevice *device)
{
  return device->part->kind == RW_PART_RACK && device->part->preamps > 0
         && !rw_item_has (device->device, RW_DEVICE_UNIT_ID);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwNetDevice *device = &net->devices[i];
      RwFinding *finding;

      if (!lacks_unit_id (device))
        continue;
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_add_device (finding, rw_item_key (device->device));
      /* Translators: a device */
      rw_finding_set_message (finding, _("%s has no unit ID: no controller can set its preamps"),
                              rw_device_title (device->device));
    }
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  rw_fix_give_ids (rig, (const char *const *) finding->devices, RW_DEVICE_UNIT_ID, fixes);
}

const RwRule rw_rule_no_unit_id = {
  .code = "no-unit-id",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Rack without a unit ID"),
  .why = N_("A controller sets gain and phantom power of a rack’s preamps by calling the rack’s unit ID. A rack "
            "without one still passes audio, but nobody can set its preamps from the desk."),
  .remedy = N_("Give the rack a unit ID that no other device uses."),
  .check = check,
  .fix = fix,
};
