/* SPDX-License-Identifier: MIT */
#include "rw-rule-ids.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"

static char *
say_clash (const char *names, guint n, int id)
{
  return g_strdup_printf (rw_ids_two_or_more (n,
                                              /* Translators: "A and B", an ID */
                                              _("%s both use unit ID %d: a controller cannot tell them apart"),
                                              /* Translators: a list of three devices or more, an ID */
                                              _("%s all use unit ID %d: a controller cannot tell them apart")),
                          names, id);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_ids_check_clashes (rule, net, findings, RW_DEVICE_UNIT_ID, say_clash);
}

/* The first keeps its ID. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  rw_fix_give_ids (rig, (const char *const *) finding->devices + 1, RW_DEVICE_UNIT_ID, fixes);
}

const RwRule rw_rule_unit_id_clash = {
  .code = "unit-id-clash",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Unit ID used twice"),
  .why = N_("A controller calls a device by its unit ID. If two answer to the same number, it commands one and shows "
            "the other, or loses both: gain is turned up on a stage where nobody is looking."),
  .remedy = N_("Give each device a unit ID of its own."),
  .check = check,
  .fix = fix,
};
