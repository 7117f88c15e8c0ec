/* SPDX-License-Identifier: MIT */
#include "rw-rule-rows.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* How a row can have no other half, within one controller. */
enum { RECEIVE_WITHOUT_STRIP, STRIP_WITHOUT_LINE, SEND_WITHOUT_BUS, BUS_WITHOUT_LINE };

/* By receive and by send of the rig: what the two layers do with it. */
typedef struct
{
  RwSlots receives, sends;
  guint8 *fed, *stripped, *bussed, *leaving;
} Halves;

static void
mark (guint8 *marks, guint slot)
{
  if (slot != RW_NONE)
    marks[slot] = TRUE;
}

static void
mark_rows (const RwNet *net, Halves *h)
{
  const RwRows *rows = rw_net_rows (net);

  for (guint i = 0; i < rows->n; i++)
    {
      mark (h->leaving, rw_slots_find (&h->sends, rows->from[i], rows->send[i]));
      mark (h->fed, rw_slots_find (&h->receives, rows->to[i], rows->receive[i]));
    }
  for (guint i = 0; i < rows->n_inside; i++)
    {
      const RwInsideEnds *row = &rows->inside[i];

      if (row->from.kind == RW_INSIDE_RECEIVE && row->to.kind == RW_INSIDE_TO_STRIP)
        mark (h->stripped, rw_slots_find (&h->receives, row->device, row->from.number));
      if (row->from.kind == RW_INSIDE_BUS && row->to.kind == RW_INSIDE_TO_SEND)
        mark (h->bussed, rw_slots_find (&h->sends, row->device, row->to.number));
    }
}

static gboolean
is_controller (const RwNet *net, guint device)
{
  return net->devices[device].part->kind == RW_PART_CONTROLLER;
}

static void
look (GArray *keyed, const RwNet *net, guint device, guint half, const guint8 *other, guint slot, guint row)
{
  if (is_controller (net, device) && slot != RW_NONE && !other[slot])
    rw_keyed_rows_add (keyed, RW_PAIR_KEY (device, half), row);
}

static void
collect (const RwNet *net, const Halves *h, GArray *keyed)
{
  const RwRows *rows = rw_net_rows (net);

  for (guint i = 0; i < rows->n; i++)
    {
      guint from = rows->from[i], to = rows->to[i];

      look (keyed, net, to, RECEIVE_WITHOUT_STRIP, h->stripped, rw_slots_find (&h->receives, to, rows->receive[i]), i);
      look (keyed, net, from, SEND_WITHOUT_BUS, h->bussed, rw_slots_find (&h->sends, from, rows->send[i]), i);
    }
  for (guint i = 0; i < rows->n_inside; i++)
    {
      const RwInsideEnds *row = &rows->inside[i];

      if (row->from.kind == RW_INSIDE_RECEIVE && row->to.kind == RW_INSIDE_TO_STRIP)
        look (keyed, net, row->device, STRIP_WITHOUT_LINE, h->fed,
              rw_slots_find (&h->receives, row->device, row->from.number), i);
      if (row->from.kind == RW_INSIDE_BUS && row->to.kind == RW_INSIDE_TO_SEND)
        look (keyed, net, row->device, BUS_WITHOUT_LINE, h->leaving,
              rw_slots_find (&h->sends, row->device, row->to.number), i);
    }
}

static char *
say (const char *title, guint half, guint n)
{
  switch (half)
    {
    case RECEIVE_WITHOUT_STRIP:
      /* Translators: a number of rows, a device */
      return g_strdup_printf (ngettext ("%u line arrives at %s and goes to no strip: nobody hears it",
                                        "%u lines arrive at %s and go to no strip: nobody hears them", n), n, title);
    case STRIP_WITHOUT_LINE:
      /* Translators: a number of strips, a device */
      return g_strdup_printf (ngettext ("%u strip of %s listens to a receive that nothing feeds: it stays silent",
                                        "%u strips of %s listen to receives that nothing feeds: they stay silent", n), n, title);
    case SEND_WITHOUT_BUS:
      /* Translators: a number of rows, a device */
      return g_strdup_printf (ngettext ("%u line leaves %s by a send that no bus feeds: it carries silence",
                                        "%u lines leave %s by sends that no bus feeds: they carry silence", n), n, title);
    default:
      /* Translators: a number of buses, a device */
      return g_strdup_printf (ngettext ("%u bus of %s goes to a send from which no line leaves: nobody hears it",
                                        "%u buses of %s go to sends from which no line leaves: nobody hears them", n), n, title);
    }
}

static void
add_slots (RwFinding *finding, const RwNet *net, guint device, guint half, const guint *rows, guint n)
{
  const RwRows *all = rw_net_rows (net);

  for (guint i = 0; i < n; i++)
    switch (half)
      {
      case RECEIVE_WITHOUT_STRIP:
        rw_finding_add_slot (finding, net, device, RW_CHANNEL_RECEIVE, all->receive[rows[i]]);
        break;
      case STRIP_WITHOUT_LINE:
        rw_finding_add_slot (finding, net, device, RW_CHANNEL_RECEIVE, all->inside[rows[i]].from.number);
        break;
      case SEND_WITHOUT_BUS:
        rw_finding_add_slot (finding, net, device, RW_CHANNEL_SEND, all->send[rows[i]]);
        break;
      default:
        rw_finding_add_slot (finding, net, device, RW_CHANNEL_SEND, all->inside[rows[i]].to.number);
        break;
      }
}

/* key: device, then half. */
static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *rows, guint n)
{
  guint device = RW_KEY_FIRST (key), half = RW_KEY_SECOND (key);
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_devices (finding, net, &device, 1);
  rw_finding_add_rows (finding, rig, half == RECEIVE_WITHOUT_STRIP || half == SEND_WITHOUT_BUS ? RW_ITEM_PATCH
                                                                                               : RW_ITEM_INSIDE, rows, n);
  add_slots (finding, net, device, half, rows, n);
  rw_finding_take_message (finding, say (rw_net_device_title (net, device), half, n));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GArray) keyed = rw_keyed_rows_new ();
  Halves h;

  rw_slots_init (&h.receives, net, RW_PART_RECEIVES);
  rw_slots_init (&h.sends, net, RW_PART_SENDS);
  h.fed = g_new0 (guint8, h.receives.n + 1);
  h.stripped = g_new0 (guint8, h.receives.n + 1);
  h.bussed = g_new0 (guint8, h.sends.n + 1);
  h.leaving = g_new0 (guint8, h.sends.n + 1);
  mark_rows (net, &h);
  collect (net, &h, keyed);
  rw_keyed_rows_report (keyed, rule, rig, net, findings, report);
  rw_slots_clear (&h.receives);
  rw_slots_clear (&h.sends);
  g_free (h.fed);
  g_free (h.stripped);
  g_free (h.bussed);
  g_free (h.leaving);
}

const RwRule rw_rule_half_patched = {
  .code = "half-patched",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Patched in one layer only"),
  .why = N_("A line is patched twice: over the network between two devices, and inside the console between its network "
            "channels and its strips or buses. Where one of the two is missing, the line stops half way."),
  .remedy = N_("Patch the missing half, or remove the other."),
  .check = check,
};
