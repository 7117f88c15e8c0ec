/* SPDX-License-Identifier: MIT */
#include "rw-rule-ids.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"

static gboolean
is_out_of_range (const RwRig *rig, const RwDevice *device, guint field)
{
  int id = rw_ids_of (device, field);

  return rw_item_has (device, field) && (id < 1 || id > rw_ids_max (rig, field));
}

/* A controller ID has no meaning on a part of another kind, whatever its number. */
static gboolean
is_misplaced (const RwDevice *device, const RwPart *part)
{
  return part->kind != RW_PART_CONTROLLER && rw_item_has (device, RW_DEVICE_CONTROLLER_ID);
}

static void
add_sentence (GString *text, char *sentence)
{
  if (text->len > 0)
    /* Translators: stands between two remarks on one device */
    g_string_append (text, _("; "));
  g_string_append (text, sentence);
  g_free (sentence);
}

static char *
say_unusable (const RwRig *rig, const RwDevice *device, const RwPart *part)
{
  const RwSystem *system = rw_rig_system (rig);
  const char *title = rw_device_title (device);
  g_autoptr (GString) text = g_string_new (NULL);

  if (is_out_of_range (rig, device, RW_DEVICE_UNIT_ID))
    /* Translators: a device, its ID, the highest ID */
    add_sentence (text, g_strdup_printf (_("Unit ID %2$d of %1$s is outside 1 to %3$d: the device cannot be set to "
                                           "it"), title, device->unit_id, system->unit_id_max));
  if (is_misplaced (device, part))
    /* Translators: a device */
    add_sentence (text, g_strdup_printf (_("%s has a controller ID but is no controller: it can command nothing"),
                                         title));
  else if (is_out_of_range (rig, device, RW_DEVICE_CONTROLLER_ID))
    /* Translators: a device, its ID, the highest ID */
    add_sentence (text, g_strdup_printf (_("Controller ID %2$d of %1$s is outside 1 to %3$d: the device cannot be "
                                           "set to it"), title, device->controller_id, system->controller_id_max));
  return g_strdup (text->str);
}

static gboolean
is_usable (const RwRig *rig, const RwDevice *device, const RwPart *part)
{
  return !is_out_of_range (rig, device, RW_DEVICE_UNIT_ID) && !is_misplaced (device, part)
         && !is_out_of_range (rig, device, RW_DEVICE_CONTROLLER_ID);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwDevice *device = net->devices[i].device;
      RwFinding *finding;

      rw_net_fetch_ahead (net, i, 0);
      if (is_usable (rig, device, net->devices[i].part))
        continue;
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_add_device (finding, rw_item_key (device));
      rw_finding_take_message (finding, say_unusable (rig, device, net->devices[i].part));
    }
}

/* One change that mends both numbers, where both are wrong; named for the one that it gives. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  const RwDevice *device = rw_rig_device (rig, finding->devices[0]);
  const RwPart *part = rw_rig_part_of (rig, device);
  gboolean misplaced = is_misplaced (device, part);
  gboolean wrong_unit = is_out_of_range (rig, device, RW_DEVICE_UNIT_ID);
  gboolean wrong_controller = !misplaced && is_out_of_range (rig, device, RW_DEVICE_CONTROLLER_ID);
  g_auto (RwIdsFree) units = { 0 };
  g_auto (RwIdsFree) controllers = { 0 };
  int unit_id, controller_id;

  rw_ids_free_init (&units, rig, RW_DEVICE_UNIT_ID);
  rw_ids_free_init (&controllers, rig, RW_DEVICE_CONTROLLER_ID);
  unit_id = wrong_unit ? rw_ids_free_take (&units) : 0;
  controller_id = wrong_controller ? rw_ids_free_take (&controllers) : 0;
  if ((wrong_unit && unit_id == 0) || (wrong_controller && controller_id == 0))
    return;
  rw_fix_mend_ids (rig, device, unit_id, controller_id, misplaced, fixes);
}

const RwRule rw_rule_id_range = {
  .code = "id-range",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("ID that cannot be set"),
  .why = N_("Devices take IDs only within the range that the system allows, counted from 1; 0 is not “off”. A "
            "controller ID belongs to controllers alone: on any other device there is nowhere to set it."),
  .remedy = N_("Choose an ID within the range of the system, or leave the field empty for none."),
  .check = check,
  .fix = fix,
};
