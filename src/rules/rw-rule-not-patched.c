/* SPDX-License-Identifier: MIT */
#include "rw-rule-rows.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* From which sends a row leaves. */
typedef struct
{
  RwSlots sends;
  gboolean *leaving;   /* by send of the rig */
  GHashTable *missing; /* those that their part has not got, of which no-channel tells: (device, number) as one number */
} Leaving;

static gint64
missing_key (guint device, int number)
{
  return (gint64) device << 32 | (guint32) number;
}

static void
find_leaving (Leaving *found, const RwNet *net)
{
  const RwRows *rows = rw_net_rows (net);

  rw_slots_init (&found->sends, net, RW_PART_SENDS);
  found->leaving = g_new0 (gboolean, found->sends.n + 1);
  found->missing = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  for (guint i = 0; i < rows->n; i++)
    {
      guint slot = rw_slots_find (&found->sends, rows->from[i], rows->send[i]);
      gint64 key = missing_key (rows->from[i], rows->send[i]);

      if (slot != RW_NONE)
        found->leaving[slot] = TRUE;
      else
        g_hash_table_add (found->missing, g_memdup2 (&key, sizeof key));
    }
}

static gboolean
leaves (const Leaving *found, guint device, int number)
{
  guint slot = rw_slots_find (&found->sends, device, number);
  gint64 key = missing_key (device, number);

  return slot != RW_NONE ? found->leaving[slot] : g_hash_table_contains (found->missing, &key);
}

static void
leaving_clear (Leaving *found)
{
  rw_slots_clear (&found->sends);
  g_free (found->leaving);
  g_hash_table_unref (found->missing);
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
  Leaving found;

  if (rw_rig_n (rig, RW_ITEM_CHANNEL) == 0)
    return;
  find_leaving (&found, net);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CHANNEL); i++)
    {
      const RwChannelEnd *channel = &rw_net_rows (net)->channels[i];

      if (channel->side != RW_CHANNEL_SEND || !channel->named)
        continue;
      if (!leaves (&found, channel->device, channel->number))
        g_ptr_array_add (channels, items[i]);
    }
  leaving_clear (&found);
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
