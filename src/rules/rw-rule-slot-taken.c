/* SPDX-License-Identifier: MIT */
#include "rw-rule-rows.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* The places that take one row only, and how a key tells them apart. */
enum { INTO_RECEIVE, INTO_STRIP, INTO_SEND, N_PLACES };

static const RwChannelSide sides[N_PLACES] = { RW_CHANNEL_RECEIVE, RW_CHANNEL_STRIP, RW_CHANNEL_SEND };

static guint
inside_place (const RwInsideEnds *row)
{
  return row->to.kind == RW_INSIDE_TO_STRIP ? INTO_STRIP
         : row->to.kind == RW_INSIDE_TO_SEND && row->from.kind == RW_INSIDE_BUS ? INTO_SEND
                                                                                : N_PLACES;
}

static void
say (RwFinding *finding, const RwNet *net, guint place, guint device, int number, guint n)
{
  const char *title = rw_net_device_title (net, device);
  char *text;

  if (place == INTO_RECEIVE)
    /* Translators: a number of rows (2 or more), a channel number, a device */
    text = g_strdup_printf (ngettext ("%u row leads into receive %d of %s: only one of them is heard",
                                      "%u rows lead into receive %d of %s: only one of them is heard", n), n, number, title);
  else if (place == INTO_STRIP)
    /* Translators: a number of rows (2 or more), a channel number, a device */
    text = g_strdup_printf (ngettext ("%u row leads into strip %d of %s: only one of them is heard",
                                      "%u rows lead into strip %d of %s: only one of them is heard", n), n, number, title);
  else
    /* Translators: a number of buses (2 or more), a channel number, a device */
    text = g_strdup_printf (ngettext ("%u bus feeds send %d of %s: only one of them is heard",
                                      "%u buses feed send %d of %s: only one of them is heard", n), n, number, title);
  rw_finding_take_message (finding, text);
}

/* key: device, then place and number. */
static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *rows, guint n)
{
  guint device = RW_KEY_FIRST (key), place = RW_KEY_SECOND (key) >> 24;
  int number = (int) (RW_KEY_SECOND (key) & 0xffffff);
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_devices (finding, net, &device, 1);
  rw_finding_add_rows (finding, rig, place == INTO_RECEIVE ? RW_ITEM_PATCH : RW_ITEM_INSIDE, rows, n);
  rw_finding_add_slot (finding, net, device, sides[place], number);
  say (finding, net, place, device, number, n);
}

/* Told of each row that leads into a place that is there. */
typedef void (*TargetFunc) (guint *counts, GArray *keyed, guint place, guint slot, guint device, int number, guint row);

static void
count (guint *counts, GArray *keyed, guint place, guint slot, guint device, int number, guint row)
{
  counts[slot]++;
}

static void
collect (guint *counts, GArray *keyed, guint place, guint slot, guint device, int number, guint row)
{
  if (counts[slot] > 1)
    rw_keyed_rows_add (keyed, RW_PAIR_KEY (device, place << 24 | (guint) number), row);
}

static void
walk (const RwRows *rows, const RwSlots *slots, guint *const *counts, GArray *keyed, TargetFunc func)
{
  guint slot;

  for (guint i = 0; i < rows->n; i++)
    if ((slot = rw_slots_find (&slots[INTO_RECEIVE], rows->to[i], rows->receive[i])) != RW_NONE)
      func (counts[INTO_RECEIVE], keyed, INTO_RECEIVE, slot, rows->to[i], rows->receive[i], i);
  for (guint i = 0; i < rows->n_inside; i++)
    {
      const RwInsideEnds *row = &rows->inside[i];
      guint place = inside_place (row);

      if (place != N_PLACES && (slot = rw_slots_find (&slots[place], row->device, row->to.number)) != RW_NONE)
        func (counts[place], keyed, place, slot, row->device, row->to.number, i);
    }
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  static const guint fields[N_PLACES] = { RW_PART_RECEIVES, RW_PART_STRIPS, RW_PART_SENDS };
  RwSlots slots[N_PLACES];
  guint *counts[N_PLACES];
  g_autoptr (GArray) keyed = rw_keyed_rows_new ();

  for (guint i = 0; i < N_PLACES; i++)
    {
      rw_slots_init (&slots[i], net, fields[i]);
      counts[i] = g_new0 (guint, slots[i].n + 1);
    }
  walk (rw_net_rows (net), slots, counts, NULL, count);
  walk (rw_net_rows (net), slots, counts, keyed, collect);
  rw_keyed_rows_report (keyed, rule, rig, net, findings, report);
  for (guint i = 0; i < N_PLACES; i++)
    {
      rw_slots_clear (&slots[i]);
      g_free (counts[i]);
    }
}

const RwRule rw_rule_slot_taken = {
  .code = "slot-taken",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Two sources into one channel"),
  .why = N_("A receive, a strip and a send take one source each. When a second is patched to it, the first is silent, and "
            "nobody is told."),
  .remedy = N_("Patch one of the rows to a channel that is free, or remove it."),
  .check = check,
};
