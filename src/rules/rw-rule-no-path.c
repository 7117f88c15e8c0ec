/* SPDX-License-Identifier: MIT */
#include "rw-rule-rows.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static gboolean
are_apart (const RwNet *net, guint from, guint to)
{
  return !rw_net_shares_network (net, from, to);
}

static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *rows, guint n)
{
  guint devices[] = { RW_KEY_FIRST (key), RW_KEY_SECOND (key) };
  RwFinding *finding = rw_findings_begin_pair (findings, rule, rig, net, key, rows, n);

  /* Translators: two devices, a number of rows */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("%s and %s share no network: %u row of the patch between them "
                                                               "is silent",
                                                               "%s and %s share no network: %u rows of the patch between "
                                                               "them are silent", n),
                                                     rw_net_device_title (net, devices[0]),
                                                     rw_net_device_title (net, devices[1]), n));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_pairs_check (rule, rig, net, findings, are_apart, report);
}

const RwRule rw_rule_no_path = {
  .code = "no-path",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Patch without a way"),
  .why = N_("The patch joins two devices that no cable joins, not in either plane. The line looks right on the patch and is "
            "silent."),
  .remedy = N_("Cable both devices to one network, and look at their modes and at the VLANs on the way."),
  .check = check,
};
