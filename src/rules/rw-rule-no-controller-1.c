/* SPDX-License-Identifier: MIT */
#include "rw-rule-ids.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

static GArray *
devices_of_kind (const RwNet *net, RwPartKind kind)
{
  GArray *devices = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < net->n_devices; i++)
    if (net->devices[i].part->kind == (int) kind)
      g_array_append_val (devices, i);
  return devices;
}

static gboolean
is_first_controller (const RwDevice *device)
{
  return rw_item_has (device, RW_DEVICE_CONTROLLER_ID) && device->controller_id == 1;
}

static char *
say_missing (const RwNet *net, const guint *controllers, guint n)
{
  g_autofree char *names = NULL;

  if (n == 0)
    return g_strdup (_("There is no controller: nothing commands the racks"));
  names = rw_words_devices (net, controllers, n);
  if (n == 1)
    /* Translators: a device */
    return g_strdup_printf (_("%s does not have controller ID 1: no controller is in command of the system"),
                            names);
  /* Translators: a list of devices */
  return g_strdup_printf (_("None of %s has controller ID 1: no controller is in command of the system"), names);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GArray) controllers = devices_of_kind (net, RW_PART_CONTROLLER);
  g_autoptr (GArray) racks = devices_of_kind (net, RW_PART_RACK);
  const GArray *subjects = controllers->len > 0 ? controllers : racks;
  const guint *indices = (const guint *) (gpointer) controllers->data;
  RwFinding *finding;

  for (guint i = 0; i < controllers->len; i++)
    if (is_first_controller (net->devices[indices[i]].device))
      return;
  if (subjects->len == 0)
    return;
  finding = rw_findings_begin (findings, rule, rule->severity);
  rw_finding_add_devices (finding, net, (const guint *) (gpointer) subjects->data, subjects->len);
  rw_finding_take_message (finding, say_missing (net, indices, controllers->len));
}

/* Which of several is meant to be the first, only a person knows. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  const RwDevice *device = rw_rig_device (rig, finding->devices[0]);

  if (finding->devices[1] == NULL && rw_rig_part_of (rig, device)->kind == RW_PART_CONTROLLER)
    rw_fix_set_id (rig, device, RW_DEVICE_CONTROLLER_ID, 1, fixes);
}

const RwRule rw_rule_no_controller_1 = {
  .code = "no-controller-1",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("No controller with ID 1"),
  .why = N_("The controller with ID 1 is the one in command: the racks take their settings from it and the other "
            "controllers follow it. Without it preamps cannot be set from a console, and controllers with other "
            "numbers wait for one that never comes."),
  .remedy = N_("Give the main console controller ID 1."),
  .check = check,
  .fix = fix,
};
