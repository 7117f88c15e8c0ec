/* SPDX-License-Identifier: MIT */
#include "rw-rule-ids.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"

static char *
say_clash (const char *names, guint n, int id)
{
  return g_strdup_printf (rw_ids_two_or_more (n,
                                              /* Translators: "A and B", an ID */
                                              _("%s both use controller ID %d: the racks cannot tell whose command holds"),
                                              /* Translators: a list of three devices or more, an ID */
                                              _("%s all use controller ID %d: the racks cannot tell whose command holds")),
                          names, id);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_ids_check_clashes (rule, net, findings, RW_DEVICE_CONTROLLER_ID, say_clash);
}

/* The first controller keeps its ID; where only controllers clash, the others get free ones. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  for (char **id = finding->devices; *id != NULL; id++)
    if (rw_rig_part_of (rig, rw_rig_device (rig, *id))->kind != RW_PART_CONTROLLER)
      return; /* which is told off, and can be mended, by "id-range" */
  rw_fix_give_ids (rig, (const char *const *) finding->devices + 1, RW_DEVICE_CONTROLLER_ID, fixes);
}

const RwRule rw_rule_controller_id_clash = {
  .code = "controller-id-clash",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Controller ID used twice"),
  .why = N_("Racks and other controllers know a controller by its ID. Two with one number overwrite each other’s "
            "settings, and what a console shows is no longer what the rack does."),
  .remedy = N_("Give each controller an ID of its own, with 1 for the main console."),
  .check = check,
  .fix = fix,
};
