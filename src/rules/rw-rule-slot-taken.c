/* SPDX-License-Identifier: MIT */
#include "rw-rule-rows.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* The places that take one row only, and how a key tells them apart. */
enum { INTO_RECEIVE, INTO_STRIP, INTO_SEND, N_PLACES };

static const RwChannelSide sides[N_PLACES] = { RW_CHANNEL_RECEIVE, RW_CHANNEL_STRIP, RW_CHANNEL_SEND };

/* What each row leads into; RW_NONE = nothing that is there. */
typedef struct
{
  guint place;
  guint slot;
  guint device;
  int number;
} Target;

static guint
inside_place (const RwInsideRow *row)
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

static void
count (GArray *targets, guint *counts, guint place, const RwSlots *slots, guint device, int number)
{
  Target target = { place, place == N_PLACES ? RW_NONE : rw_slots_find (&slots[place], device, number), device, number };

  if (target.slot != RW_NONE)
    counts[target.slot]++;
  g_array_append_val (targets, target);
}

/* Of @targets, one for each row, those whose place is taken more than once. */
static void
collect (GArray *keyed, const GArray *targets, guint *const *counts)
{
  for (guint i = 0; i < targets->len; i++)
    {
      const Target *target = &g_array_index (targets, Target, i);

      if (target->slot != RW_NONE && counts[target->place][target->slot] > 1)
        rw_keyed_rows_add (keyed, RW_PAIR_KEY (target->device, target->place << 24 | (guint) target->number), i);
    }
}

static void
count_rows (const RwRig *rig, const RwNet *net, const RwSlots *slots, guint **counts, GArray *keyed)
{
  g_autoptr (GArray) patch = g_array_new (FALSE, FALSE, sizeof (Target)), inside = g_array_new (FALSE, FALSE, sizeof (Target));

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_PATCH); i++)
    count (patch, counts[INTO_RECEIVE], INTO_RECEIVE, slots, rw_net_forecast (net)->streams->row_to[i],
           rw_rig_patch_row (rig, i)->to.number);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_INSIDE); i++)
    {
      const RwInsideRow *row = rw_rig_inside_row (rig, i);
      guint place = inside_place (row);

      count (inside, place < N_PLACES ? counts[place] : NULL, place, slots, rw_net_find_device (net, row->device),
             row->to.number);
    }
  collect (keyed, patch, counts);
  collect (keyed, inside, counts);
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
  count_rows (rig, net, slots, counts, keyed);
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
