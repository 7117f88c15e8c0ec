/* SPDX-License-Identifier: MIT */
#include "rw-rule-rows.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* The sorts of channel; a device's own sockets are no channels that a file can say more about. */
static const struct
{
  guint field;
  int side;
} sorts[] = {
  { RW_PART_SENDS, RW_CHANNEL_SEND },   { RW_PART_RECEIVES, RW_CHANNEL_RECEIVE }, { RW_PART_STRIPS, RW_CHANNEL_STRIP },
  { RW_PART_BUSES, RW_CHANNEL_BUS },    { RW_PART_LOCAL_INPUTS, -1 },             { RW_PART_LOCAL_OUTPUTS, -1 },
};
enum { SENDS, RECEIVES, STRIPS, BUSES, LOCAL_INPUTS, LOCAL_OUTPUTS };

/* A row, and whether it is one of the inside patch, in one number: the network's come first. */
static guint
coded (guint row, gboolean inside)
{
  return inside ? row | 1u << 31 : row;
}

static int
number_in (const RwNet *net, guint code, guint sort)
{
  const RwRows *rows = rw_net_rows (net);
  guint row = code & ~(1u << 31);

  if (code == row)
    return sort == SENDS ? rows->send[row] : rows->receive[row];
  return sort == RECEIVES || sort == BUSES || sort == LOCAL_INPUTS ? rows->inside[row].from.number
                                                                   : rows->inside[row].to.number;
}

/* key: device, then sort. */
static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *rows, guint n)
{
  guint device = RW_KEY_FIRST (key), sort = RW_KEY_SECOND (key);
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_devices (finding, net, &device, 1);
  for (guint i = 0; i < n; i++)
    {
      guint row = rows[i] & ~(1u << 31);

      rw_finding_add_rows (finding, rig, rows[i] == row ? RW_ITEM_PATCH : RW_ITEM_INSIDE, &row, 1);
      if (sorts[sort].side >= 0)
        rw_finding_add_slot (finding, net, device, sorts[sort].side, number_in (net, rows[i], sort));
    }
  /* Translators: a device, "Sends" or another sort of channel, how many it has, a number of rows */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("%s: %s go from 1 to %d, but %u row asks for another: nothing "
                                                               "passes there",
                                                               "%s: %s go from 1 to %d, but %u rows ask for others: nothing "
                                                               "passes there", n),
                                                     rw_net_device_title (net, device),
                                                     _(rw_part_table.fields[sorts[sort].field].label),
                                                     rw_part_count (net->devices[device].part, sorts[sort].field), n));
}

static void
look (GArray *keyed, const RwNet *net, guint device, guint sort, int number, guint code)
{
  if (number < 1 || number > rw_part_count (net->devices[device].part, sorts[sort].field))
    rw_keyed_rows_add (keyed, RW_PAIR_KEY (device, sort), code);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  static const guint from_sorts[] = { RECEIVES, LOCAL_INPUTS, BUSES }, to_sorts[] = { STRIPS, SENDS, LOCAL_OUTPUTS };
  const RwRows *rows = rw_net_rows (net);
  g_autoptr (GArray) keyed = rw_keyed_rows_new ();

  for (guint i = 0; i < rows->n; i++)
    {
      look (keyed, net, rows->from[i], SENDS, rows->send[i], coded (i, FALSE));
      look (keyed, net, rows->to[i], RECEIVES, rows->receive[i], coded (i, FALSE));
    }
  for (guint i = 0; i < rows->n_inside; i++)
    {
      const RwInsideEnds *row = &rows->inside[i];

      look (keyed, net, row->device, from_sorts[row->from.kind], row->from.number, coded (i, TRUE));
      look (keyed, net, row->device, to_sorts[row->to.kind], row->to.number, coded (i, TRUE));
    }
  rw_keyed_rows_report (keyed, rule, rig, net, findings, report);
}

const RwRule rw_rule_no_channel = {
  .code = "no-channel",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Channel that is not there"),
  .why = N_("A row of the patch names a channel that the device has not got: it was patched for a larger model, or a number "
            "is wrong. The line is silent."),
  .remedy = N_("Choose a channel that the device has, or a device with more channels."),
  .check = check,
};
