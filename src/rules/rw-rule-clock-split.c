/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-rule-rows.h"
#include "rw-rule-words.h"

static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *rows, guint n)
{
  guint leaders[] = { RW_KEY_FIRST (key), RW_KEY_SECOND (key) };
  RwFinding *finding = rw_findings_begin_pair (findings, rule, rig, net, key, rows, n);

  /* Translators: a number of rows, two devices */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("%u row of the patch joins devices that follow the clocks of %s "
                                                               "and of %s: the two drift apart, and it clicks",
                                                               "%u rows of the patch join devices that follow the clocks of "
                                                               "%s and of %s: the two drift apart, and it clicks", n),
                                                     n, rw_net_device_title (net, leaders[0]),
                                                     rw_net_device_title (net, leaders[1])));
}

/* Where a device has no cable there is no network yet that could be split. */
static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  const RwRows *rows = rw_net_rows (net);
  const guint *leader = rw_net_forecast (net)->clocks->leader;
  g_autoptr (GArray) keyed = rw_keyed_rows_new ();

  for (guint i = 0; i < rows->n; i++)
    {
      guint from = rows->from[i], to = rows->to[i], a = leader[from], b = leader[to];

      if (a != b && a != RW_NONE && b != RW_NONE && net->devices[from].n_audio_cables > 0
          && net->devices[to].n_audio_cables > 0)
        rw_keyed_rows_add (keyed, RW_PAIR_KEY (MIN (a, b), MAX (a, b)), i);
    }
  rw_keyed_rows_report (keyed, rule, rig, net, findings, report);
}

const RwRule rw_rule_clock_split = {
  .code = "clock-split",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Patched across two clocks"),
  .why = N_("Each network and clock domain elects a leader of its own. Two leaders never run at quite the same speed, so what "
            "is sent from one to the other slips by a sample every few seconds: a click."),
  .remedy = N_("Bring the devices into one network and one clock domain."),
  .check = check,
};
