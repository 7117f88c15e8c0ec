/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-forecast.h>

#include "rw-papers-parts.h"

/* Steps of the card of one device; with @device in front where many cards share one table. */
typedef struct
{
  const RwPapersSource *source;
  RwListing *listing;
  guint index;
  const RwNetDevice *device;
  gboolean named;
} Card;

static RwListingRow *
step (const Card *card, const char *what, char *to)
{
  if (card->named)
    return rw_listing_take (card->listing, rw_cell_text (rw_device_title (card->device->device)), rw_cell_text (what), to, RW_LISTING_END);
  return rw_listing_take (card->listing, NULL, rw_cell_text (what), to, RW_LISTING_END);
}

static char *
or_system (gboolean own, int value, int system, const char *unit)
{
  return g_strdup_printf ("%d %s", own ? value : system, unit);
}

static const char *
label (guint field)
{
  return _(rw_device_table.fields[field].label);
}

static void
id_steps (const Card *card)
{
  const RwDevice *d = card->device->device;
  RwPartKind kind = card->device->part->kind;

  if (rw_item_has (d, RW_DEVICE_UNIT_ID))
    step (card, label (RW_DEVICE_UNIT_ID), g_strdup_printf ("%d", d->unit_id));
  else if (kind == RW_PART_RACK)
    step (card, label (RW_DEVICE_UNIT_ID), g_strdup (_("none")));
  if (rw_item_has (d, RW_DEVICE_CONTROLLER_ID))
    step (card, label (RW_DEVICE_CONTROLLER_ID), g_strdup_printf ("%d", d->controller_id));
  else if (kind == RW_PART_CONTROLLER)
    step (card, label (RW_DEVICE_CONTROLLER_ID), g_strdup (_("off")));
}

/* What is set, and the least that would do. */
static char *
latency_text (const Card *card)
{
  const RwArrival *arrival = &rw_net_forecast (card->source->net)->arrivals[card->index];
  int us = card->device->receive_latency_us;

  if (arrival->talker == RW_NONE)
    return g_strdup_printf ("%d µs", us);
  /* Translators: a time in µs that is set, the smallest safe one, a device, a time in µs. */
  return g_strdup_printf (_("%d µs (smallest safe %d µs: what %s sends takes up to %.0f µs)"), us, rw_arrival_safe_us (arrival),
                          rw_device_title (card->source->net->devices[arrival->talker].device), arrival->delay_ns / 1e3);
}

static gboolean
has_arrivals (const RwNet *net)
{
  for (guint i = 0; i < net->n_devices; i++)
    if (rw_net_forecast (net)->arrivals[i].talker != RW_NONE)
      return TRUE;
  return FALSE;
}

static void
audio_steps (const Card *card)
{
  const RwDevice *d = card->device->device;
  const RwSystem *system = rw_rig_system (card->source->rig);

  if (card->device->part->sends == 0 && card->device->part->receives == 0)
    return;
  step (card, label (RW_DEVICE_SAMPLE_RATE_HZ), or_system (rw_item_has (d, RW_DEVICE_SAMPLE_RATE_HZ), d->sample_rate_hz, system->sample_rate_hz, "Hz"));
  step (card, label (RW_DEVICE_WORD_BITS), or_system (rw_item_has (d, RW_DEVICE_WORD_BITS), d->word_bits, system->word_bits, "bit"));
  step (card, _(rw_system_table.fields[RW_SYSTEM_PACKET_TIME_US].label), g_strdup_printf ("%d µs", system->packet_time_us));
  if (card->device->part->receives > 0)
    step (card, label (RW_DEVICE_RECEIVE_LATENCY_US), latency_text (card));
  if (card->device->part->preamps > 0)
    step (card, label (RW_DEVICE_GAIN_COMPENSATION), g_strdup (d->gain_compensation ? _("on") : _("off")));
}

static void
clock_steps (const Card *card)
{
  const RwClock *clock = &card->device->device->clock;
  const RwSystem *system = rw_rig_system (card->source->rig);
  gboolean own = rw_record_has (clock, RW_CLOCK_DOMAIN);

  if (card->device->part->sends == 0 && card->device->part->receives == 0)
    return;
  step (card, _("Clock domain"), g_strdup_printf ("%d", own ? clock->domain : system->clock_domain));
  /* Translators: of a clock. */
  step (card, _("Clock priorities 1 and 2"), g_strdup_printf ("%d, %d", clock->priority1, clock->priority2));
  if (clock->reference)
    step (card, _("Clock"), g_strdup (_("preferred leader: on")));
}

static void
address_step (const Card *card, const char *what, const char *address)
{
  if (address != NULL && *address != '\0')
    step (card, what, g_strdup (address));
}

static void
network_steps (const Card *card)
{
  const RwDevice *d = card->device->device;

  if (!card->device->forwards)
    step (card, label (RW_DEVICE_MODE), rw_cell_word (&rw_device_table.fields[RW_DEVICE_MODE], (int) card->device->mode));
  address_step (card, _("Primary address"), d->addresses.primary);
  address_step (card, _("Secondary address"), d->addresses.secondary);
}

static void
switch_steps (const Card *card)
{
  const RwPart *part = card->device->part;
  const RwDevice *d = card->device->device;

  if (part->kind != RW_PART_SWITCH)
    return;
  if (part->spanning_tree)
    step (card, _("Spanning tree"), g_strdup_printf (_("on, bridge priority %d"), d->bridge_priority));
  if (part->snooping)
    step (card, _("Multicast snooping"), g_strdup (d->querier ? _("on, querier on") : _("on, querier off")));
  /* energy saving holds frames back, which clocks cannot stand (common practice) */
  step (card, _("Energy saving on ports (EEE)"), g_strdup (_("off")));
}

/* Each port with its VLAN, on switches, and its cable. */
static void
port_steps (const Card *card)
{
  const RwNet *net = card->source->net;

  for (guint i = 0; i < card->device->n_ports; i++)
    {
      guint port = card->device->first_port + i;
      const RwNetPort *p = &net->ports[port];
      gboolean is_switch = card->device->part->kind == RW_PART_SWITCH;
      g_autofree char *vlan = is_switch ? rw_papers_vlan_text (card->device->device, p->port->name) : NULL;
      g_autofree char *far = rw_papers_far_end (net, port);
      /* Translators: the name of a port. */
      g_autofree char *what = g_strdup_printf (_("Port %s"), p->port->name);
      GString *to = g_string_new (NULL);
      RwListingRow *row;

      if (p->cable == RW_NONE && !(is_switch && rw_device_port_vlans (card->device->device, p->port->name) != NULL))
        {
          g_string_free (to, TRUE);
          continue;
        }
      if (is_switch)
        /* Translators: the numbers of VLANs. */
        g_string_append_printf (to, _("in VLAN %s"), vlan);
      if (p->cable != RW_NONE)
        /* Translators: the label of a cable, the device and port at its far end. */
        g_string_append_printf (to, _("%scable %s to %s"), to->len > 0 ? "; " : "", rw_cable_title (net->cables[p->cable].cable), far);
      row = step (card, what, g_string_free (to, FALSE));
      if (!card->named && p->cable != RW_NONE)
        row->link = rw_papers_link (card->source, RW_PLACE_CABLE, p->cable);
    }
}

static void
preamp_steps (const Card *card)
{
  for (int n = 1; n <= card->device->part->preamps; n++)
    {
      const RwChannel *channel = rw_papers_channel (card->source, rw_item_key (card->device->device), RW_CHANNEL_SEND, n);
      g_autofree char *what = NULL, *phantom = NULL;
      GString *to;

      if (channel == NULL)
        continue;
      phantom = channel->phantom ? rw_cell_phantom (channel, _("phantom on")) : g_strdup (_("phantom off"));
      /* Translators: the number of an input socket. */
      what = g_strdup_printf (_("Input %d"), n);
      to = g_string_new (channel->name != NULL ? channel->name : "");
      if (rw_item_has (channel, RW_CHANNEL_GAIN_DB))
        g_string_append_printf (to, _("%sgain %.10g dB"), to->len > 0 ? ", " : "", channel->gain_db);
      g_string_append_printf (to, "%s%s", to->len > 0 ? ", " : "", phantom);
      step (card, what, g_string_free (to, FALSE))->warned = channel->phantom;
    }
}

static void
add_steps (const Card *card)
{
  step (card, label (RW_DEVICE_NAME), rw_cell_text (rw_device_title (card->device->device)));
  network_steps (card);
  id_steps (card);
  audio_steps (card);
  clock_steps (card);
  switch_steps (card);
  port_steps (card);
  preamp_steps (card);
  if (card->device->device->notes != NULL && *card->device->device->notes != '\0')
    step (card, label (RW_DEVICE_NOTES), g_strdup (card->device->device->notes));
}

static char *
heading_of (const RwNetDevice *device)
{
  const RwDevice *d = device->device;
  const char *part = device->part->name != NULL ? device->part->name : rw_item_key (device->part);

  if (d->location != NULL && *d->location != '\0')
    /* Translators: a device, its part, where it stands. */
    return g_strdup_printf (_("%s (%s, %s)"), rw_device_title (d), part, d->location);
  return g_strdup_printf (_("%s (%s)"), rw_device_title (d), part);
}

static void
add_card (RwFlow *flow, const RwPapersSource *source, guint index, const RwBlock *caution)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Set"), RW_ALIGN_MIDDLE, 9, 0 }, RW_MARK_TICK },
    { { C_("column", "What"), RW_ALIGN_LEFT, 36, 1 }, 0 },
    { { C_("column", "To"), RW_ALIGN_LEFT, 50, 2, RW_TABLE_LINES_LIST }, 0 },
  };
  const RwNetDevice *device = &source->net->devices[index];
  g_autofree char *heading = heading_of (device);
  Card card = { source, rw_listing_new (NULL, heading, columns, G_N_ELEMENTS (columns)), index, device, FALSE };
  RwBlock *block;

  add_steps (&card);
  block = rw_flow_take_listing (flow, card.listing);
  block->starts_group = TRUE;
  block->caution = caution;
  block->place = rw_place (RW_PLACE_CARD, index);
  block->entry = g_strdup (rw_device_title (device->device));
}

/**
 * rw_papers_cards: for each device what is set on its front panel, in that order, with boxes to tick.
 */
RwFlow *
rw_papers_cards (const RwPapersSource *source)
{
  RwFlow *flow = rw_flow_new (RW_PAPERS_CARDS);
  RwBlock *caution;

  flow->columns = 2;
  caution = rw_flow_add_text (flow, RW_BLOCK_CAUTION,
                              _("Switch phantom power only with the channel muted, and never into a ribbon microphone or a line source that "
                                "is not rated for it. Mains only by a competent person under local regulations; local rules come first."));
  if (has_arrivals (source->net))
    rw_flow_add_text (flow, RW_BLOCK_TEXT,
                      _("The smallest safe receive latencies are planning figures, not proven bounds: packets that bunch can take longer. "
                        "Receivers that play together are set alike."));
  for (guint i = 0; i < source->net->n_devices; i++)
    add_card (flow, source, i, caution);
  return flow;
}

/**
 * rw_papers_cards_listing: all cards as one table. (transfer full).
 */
RwListing *
rw_papers_cards_listing (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Device"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { C_("column", "What"), RW_ALIGN_LEFT, 36, 1 }, 0 },
    { { C_("column", "To"), RW_ALIGN_LEFT, 50, 2, RW_TABLE_LINES_LIST }, 0 },
  };
  RwListing *listing = rw_listing_new ("cards", NULL, columns, G_N_ELEMENTS (columns));

  for (guint i = 0; i < source->net->n_devices; i++)
    {
      Card card = { source, listing, i, &source->net->devices[i], TRUE };

      add_steps (&card);
    }
  return listing;
}
