/* SPDX-License-Identifier: MIT */
#include "rw-rule-rows.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* By send of the rig: a row leaves from it. */
static gboolean *
find_leaving (const RwNet *net, const RwSlots *sends)
{
  const RwRows *rows = rw_net_rows (net);
  gboolean *leaving = g_new0 (gboolean, sends->n + 1);

  for (guint i = 0; i < rows->n; i++)
    {
      guint slot = rw_slots_find (sends, rows->from[i], rows->send[i]);

      if (slot != RW_NONE)
        leaving[slot] = TRUE;
    }
  return leaving;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, const GPtrArray *channels)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autofree char *list = NULL;

  for (guint i = 0; i < channels->len; i++)
    {
      const RwChannel *channel = channels->pdata[i];

      if (g_hash_table_add (seen, channel->device))
        rw_finding_add_device (finding, channel->device);
      rw_finding_add_channel (finding, rw_item_key (channel));
      g_ptr_array_add (names, channel->name);
    }
  list = rw_words_join ((const char *const *) names->pdata, names->len);
  /* Translators: a list of names of lines */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("%s has a name and goes nowhere: nobody hears it",
                                                               "%s have names and go nowhere: nobody hears them", names->len),
                                                     list));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_CHANNEL);
  g_autoptr (GPtrArray) channels = g_ptr_array_new ();
  g_autofree gboolean *leaving = NULL;
  g_auto (RwSlots) sends = { 0 };

  if (rw_rig_n (rig, RW_ITEM_CHANNEL) == 0)
    return;
  rw_slots_init (&sends, net, RW_PART_SENDS);
  leaving = find_leaving (net, &sends);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CHANNEL); i++)
    {
      RwChannel *channel = (RwChannel *) items[i];
      guint slot;

      if (channel->side != RW_CHANNEL_SEND || channel->name == NULL || *channel->name == '\0')
        continue;
      slot = rw_slots_find (&sends, rw_net_rows (net)->channel_device[i], channel->number);
      if (slot == RW_NONE || !leaving[slot])
        g_ptr_array_add (channels, channel);
    }
  if (channels->len > 0)
    report (rule, net, findings, channels);
}

const RwRule rw_rule_not_patched = {
  .code = "not-patched",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Named line that goes nowhere"),
  .why = N_("Somebody gave this send a name, so something is plugged in or will be. No row of the patch takes it anywhere."),
  .remedy = N_("Patch the line, or clear its name if it is spare."),
  .check = check,
};
