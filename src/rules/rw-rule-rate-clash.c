/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-rule-rows.h"
#include "rw-rule-words.h"

static gboolean
differ (const RwNet *net, guint from, guint to)
{
  return net->devices[from].sample_rate_hz != net->devices[to].sample_rate_hz;
}

static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *rows, guint n)
{
  guint devices[] = { RW_KEY_FIRST (key), RW_KEY_SECOND (key) };
  RwFinding *finding = rw_findings_begin_pair (findings, rule, rig, net, key, rows, n);

  /* Translators: a device, a rate in Hz, a device, a rate in Hz */
  rw_finding_set_message (finding, _("%s runs at %d Hz and %s at %d Hz: what is patched between them is silent, or noise"),
                          rw_net_device_title (net, devices[0]),
                          net->devices[devices[0]].sample_rate_hz,
                          rw_net_device_title (net, devices[1]),
                          net->devices[devices[1]].sample_rate_hz);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  rw_pairs_check (rule, rig, net, findings, differ, report);
}

const RwRule rw_rule_rate_clash = {
  .code = "rate-clash",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Two sample rates"),
  .why = N_("A stream arrives with as many samples a second as its talker runs at. A listener that runs at another rate cannot "
            "play it."),
  .remedy = N_("Set both devices to one sample rate."),
  .check = check,
};
