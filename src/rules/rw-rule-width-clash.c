/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-rule-rows.h"
#include "rw-rule-words.h"

static gboolean
differ (const RwNet *net, guint from, guint to)
{
  return net->devices[from].word_bits != net->devices[to].word_bits;
}

static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *rows, guint n)
{
  guint devices[] = { RW_KEY_FIRST (key), RW_KEY_SECOND (key) };
  RwFinding *finding = rw_findings_begin_pair (findings, rule, rig, net, key, rows, n);

  /* Translators: a device, a word length in bits, a device, a word length in bits */
  rw_finding_set_message (finding, _("%s sends words of %d bits and %s of %d bits: not every receiver takes both"),
                          rw_net_device_title (net, devices[0]), net->devices[devices[0]].word_bits,
                          rw_net_device_title (net, devices[1]), net->devices[devices[1]].word_bits);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_pairs_check (rule, rig, net, findings, differ, report);
}

const RwRule rw_rule_width_clash = {
  .code = "width-clash",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Two word lengths"),
  .why = N_("Devices that send words of different length can often still listen to each other, as receivers for 16 and 24 bits "
            "are common. It costs headroom or bandwidth, and some devices refuse."),
  .remedy = N_("Set both devices to one word length, unless the difference is meant."),
  .check = check,
};
