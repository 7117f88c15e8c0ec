/* SPDX-License-Identifier: MIT */
#include "rw-whole-cost.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <rig/rw-length.h>

#define MOST_LINES 500 /* of a list: more nobody reads */

/* What is told of: everything is counted and named from the change itself, so that what is said is what is done. */
typedef struct
{
  const RwRig *before, *after;
  const RwChange *change;
  GString *text;
} Tale;

/* Of the change's entries of one type: those that come, that go, or that stay and change. */
typedef enum { COMES, GOES, CHANGES } Fate;

static gboolean
is_of (const RwChangeEntry *entry, RwItemType type, Fate fate)
{
  Fate its = entry->before == NULL ? COMES : entry->after == NULL ? GOES : CHANGES;

  return entry->type == type && its == fate;
}

static guint
count (const Tale *tale, RwItemType type, Fate fate)
{
  guint n = 0;

  for (guint i = 0; i < rw_change_n (tale->change); i++)
    n += is_of (rw_change_entry (tale->change, i), type, fate);
  return n;
}

static void
add_line (const Tale *tale, guint n, char *line)
{
  if (n > 0)
    g_string_append_printf (tale->text, "%s%s", tale->text->len > 0 ? "\n" : "", line);
  g_free (line);
}

static void
add_cables (const Tale *tale, const RwRewireCost *cost)
{
  double unit = rw_length_units () == RW_UNITS_FEET ? RW_METRES_A_FOOT : 1;
  g_autofree char *length = rw_length_text (round (cost->metres / unit) * unit);
  guint gone = count (tale, RW_ITEM_CABLE, GOES), new = count (tale, RW_ITEM_CABLE, COMES);
  guint kept = rw_rig_n (tale->before, RW_ITEM_CABLE) - gone;

  add_line (tale, gone, g_strdup_printf (ngettext ("%u cable goes", "%u cables go", gone), gone));
  add_line (tale, kept, g_strdup_printf (ngettext ("%u cable stays: it is right already or serves another network",
                                                   "%u cables stay: they are right already or serve other networks", kept), kept));
  add_line (tale, new, g_strdup_printf (ngettext ("%u new cable, whose length is not known until you give it",
                                                  "%u new cables, whose lengths are not known until you give them", new), new));
  add_line (tale, cost->metres > 0, g_strdup_printf (_("To plan with: at most %s of cable, laid along the present ways"), length));
  add_line (tale, cost->metres > 0 ? cost->n_unmeasured : 0,
            g_strdup_printf (ngettext ("%u of them is not counted: the way along it has no known length",
                                       "%u of them are not counted: the ways along them have no known length",
                                       cost->n_unmeasured), cost->n_unmeasured));
  add_line (tale, cost->n_mismatched, g_strdup_printf (ngettext ("%u new cable joins copper and fibre and needs a converter",
                                                                 "%u new cables join copper and fibre and need converters",
                                                                 cost->n_mismatched), cost->n_mismatched));
}

static void
add_devices (const Tale *tale, const RwRewireCost *cost, guint n_bare)
{
  guint n = count (tale, RW_ITEM_DEVICE, COMES);

  add_line (tale, n, g_strdup_printf (ngettext ("%u new switch", "%u new switches", n), n));
  add_line (tale, cost->n_switch_ports, g_strdup_printf (ngettext ("%u switch port in use", "%u switch ports in use",
                                                                   cost->n_switch_ports), cost->n_switch_ports));
  n = count (tale, RW_ITEM_DEVICE, CHANGES);
  add_line (tale, n, g_strdup_printf (ngettext ("%u device changes its mode", "%u devices change their mode", n), n));
  add_line (tale, n_bare, g_strdup_printf (ngettext ("%u device stays on the sheet without a cable",
                                                     "%u devices stay on the sheet without a cable", n_bare), n_bare));
}

static char *
device_text (const RwRig *rig, const RwItem *item)
{
  return g_strdup (rw_device_title ((const RwDevice *) item));
}

static char *
mode_text (const RwRig *rig, const RwItem *item)
{
  const RwDevice *device = (const RwDevice *) item;
  RwMode mode = rw_device_mode (device, rw_rig_part_of (rig, device));

  return g_strdup_printf ("%s: %s", rw_device_title (device), _(rw_device_table.fields[RW_DEVICE_MODE].word_labels[mode]));
}

static char *
end_text (const RwRig *rig, const RwEnd *end)
{
  return g_strdup_printf ("%s, %s", rw_device_title (rw_rig_device (rig, end->device)), end->port);
}

static char *
cable_text (const RwRig *rig, const RwItem *item)
{
  const RwCable *cable = (const RwCable *) item;
  g_autofree char *from = end_text (rig, &cable->from), *to = end_text (rig, &cable->to);
  g_autofree char *length = cable->length_m > 0 ? rw_length_text (cable->length_m) : NULL;

  return g_strconcat (rw_cable_has_label (cable) ? cable->label : "", rw_cable_has_label (cable) ? ": " : "", from, " – ", to,
                      length != NULL ? "; " : "", length, NULL);
}

typedef char *(*TextFunc) (const RwRig *rig, const RwItem *item);

static void
add_list (const Tale *tale, const char *heading, const RwRig *rig, const GPtrArray *items, TextFunc text)
{
  if (items->len > 0)
    g_string_append_printf (tale->text, "\n\n%s", heading);
  for (guint i = 0; i < MIN (items->len, MOST_LINES); i++)
    add_line (tale, 1, text (rig, g_ptr_array_index (items, i)));
  add_line (tale, items->len > MOST_LINES, g_strdup ("…"));
}

static void
list (const Tale *tale, const char *heading, RwItemType type, Fate fate, TextFunc text)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new ();

  for (guint i = 0; i < rw_change_n (tale->change); i++)
    {
      const RwChangeEntry *entry = rw_change_entry (tale->change, i);
      if (is_of (entry, type, fate))
        g_ptr_array_add (items, fate == GOES ? entry->before : entry->after);
    }
  add_list (tale, heading, fate == GOES ? tale->before : tale->after, items, text);
}

/**
 * rw_whole_cost_text: what a rewiring would do and cost: first the sums, a line each, without those that are nothing;
 * then by name all that it touches, a list after an empty line each, under its heading.
 * @rig: a rig
 * @change: a rewiring of it
 * @cost: what it takes
 *
 * Returns: (transfer full): the text
 */
char *
rw_whole_cost_text (const RwRig *rig, const RwChange *change, const RwRewireCost *cost)
{
  g_autoptr (RwRig) after = rw_rig_copy (rig);
  g_autoptr (GPtrArray) bare = rw_rewire_bare (rig, change);
  Tale tale = { rig, after, change, g_string_new (NULL) };

  rw_rig_apply (after, (RwChange *) change, NULL);
  add_cables (&tale, cost);
  add_devices (&tale, cost, bare->len);
  list (&tale, _("New switches:"), RW_ITEM_DEVICE, COMES, device_text);
  add_list (&tale, _("Left without a cable:"), rig, bare, device_text);
  list (&tale, _("New modes:"), RW_ITEM_DEVICE, CHANGES, mode_text);
  list (&tale, _("Cables that go:"), RW_ITEM_CABLE, GOES, cable_text);
  list (&tale, _("New cables:"), RW_ITEM_CABLE, COMES, cable_text);
  return g_string_free (tale.text, FALSE);
}
