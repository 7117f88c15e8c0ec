/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-rows.h>

#include "rw-rule-phantom.h"

static gboolean
needs_phantom (const RwChannelEnd *channel)
{
  return channel->side == RW_CHANNEL_SEND && !channel->phantom
         && (channel->source == RW_SOURCE_CONDENSER || channel->source == RW_SOURCE_DI_ACTIVE);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_CHANNEL);
  const RwRows *rows = rw_net_rows (net);

  for (guint i = 0; i < rows->n_channels; i++)
    {
      const RwChannel *channel = (const RwChannel *) items[i];
      g_autofree char *line = NULL;
      RwFinding *finding;

      if (!needs_phantom (&rows->channels[i]))
        continue;
      line = rw_phantom_line (net, rows->channels[i].device, channel);
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_about_channel (finding, channel);
      /* Translators: a line, "Condenser" or another source */
      rw_finding_set_message (finding, _("%s has the source “%s” and no phantom power: it stays silent"), line,
                              _(rw_channel_table.fields[RW_CHANNEL_SOURCE].word_labels[channel->source]));
    }
}

/* There is none to be had where the rack has no preamp. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  const RwChannel *channel = (const RwChannel *) rw_rig_find (rig, finding->channels[0]);

  if (channel != NULL && rw_channel_has_preamp (net, rw_net_find_device (net, channel->device), channel->number))
    rw_phantom_propose (finding, rig, TRUE, fixes);
}

const RwRule rw_rule_phantom_missing = {
  .code = "phantom-missing",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Phantom power missing"),
  .why = N_("Condenser microphones and active DIs live on the 48 V that the preamp sends up the line. Some have a battery; "
            "without either they are silent."),
  .remedy = N_("Switch phantom power on for this line, with the channel muted."),
  .check = check,
  .fix = fix,
};
