/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-rows.h>

#include "rw-rule-phantom.h"

static void
check_channel (const RwRule *rule, const RwNet *net, RwFindings *findings, const RwChannelEnd *end, const RwChannel *channel)
{
  gboolean preamp = rw_channel_has_preamp (net, end->device, end->number);
  g_autofree char *line = NULL;
  RwFinding *finding;

  if (preamp && rw_phantom_suits (end->source))
    return;
  line = rw_phantom_line (net, end->device, channel);
  finding = rw_findings_begin (findings, rule, preamp && !rw_phantom_harms (channel->source) ? RW_SEVERITY_NOTE : rule->severity);
  rw_finding_about_channel (finding, channel);
  if (rw_phantom_harms (channel->source))
    /* Translators: a line, "Ribbon" or another source */
    rw_finding_set_message (finding, _("%s has phantom power on and the source “%s”: it may be damaged"), line,
                            _(rw_channel_table.fields[RW_CHANNEL_SOURCE].word_labels[channel->source]));
  else if (!preamp)
    /* Translators: a line */
    rw_finding_set_message (finding, _("%s has phantom power on, but there is no preamp that could give it"), line);
  else
    /* Translators: a line */
    rw_finding_set_message (finding, _("%s has phantom power on for a passive DI: it does not need it, and is normally unharmed"),
                            line);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_CHANNEL);
  const RwRows *rows = rw_net_rows (net);

  for (guint i = 0; i < rows->n_channels; i++)
    if (rows->channels[i].side == RW_CHANNEL_SEND && rows->channels[i].phantom)
      check_channel (rule, net, findings, &rows->channels[i], (const RwChannel *) items[i]);
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  rw_phantom_propose (finding, rig, FALSE, fixes);
}

const RwRule rw_rule_phantom_harm = {
  .code = "phantom-harm",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Phantom power where it may harm"),
  .why = N_("Its 48 V on the line of a ribbon microphone, a line output or a radio receiver can damage it, above all while plugs "
            "go in and out. Mute first, switch it off before patching, and wait until it has gone."),
  .remedy = N_("Switch phantom power off on this line."),
  .check = check,
  .fix = fix,
};
