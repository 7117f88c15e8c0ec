/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-papers-parts.h"

/* Rows of the patch by their ends: "DEVICE/NUMBER" or "DEVICE/KIND/NUMBER" → GPtrArray of items in file order. */
typedef struct
{
  const RwPapersSource *source;
  GHashTable *by_send, *by_receive; /* of RwPatchRow */
  GHashTable *inside_from, *inside_to; /* of RwInsideRow */
} Patch;

static void
insert (GHashTable *table, char *key, gpointer item)
{
  GPtrArray *items = g_hash_table_lookup (table, key);

  if (items == NULL)
    {
      items = g_ptr_array_new ();
      g_hash_table_insert (table, key, items);
    }
  else
    g_free (key);
  g_ptr_array_add (items, item);
}

static GHashTable *
table_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_ptr_array_unref);
}

static void
patch_init (Patch *patch, const RwPapersSource *source)
{
  RwItem *const *rows = rw_rig_items (source->rig, RW_ITEM_PATCH);
  RwItem *const *inside = rw_rig_items (source->rig, RW_ITEM_INSIDE);

  *patch = (Patch) { source, table_new (), table_new (), table_new (), table_new () };
  for (guint i = 0; i < rw_rig_n (source->rig, RW_ITEM_PATCH); i++)
    {
      RwPatchRow *row = (RwPatchRow *) rows[i];

      insert (patch->by_send, g_strdup_printf ("%s/%d", row->from.device, row->from.number), row);
      insert (patch->by_receive, g_strdup_printf ("%s/%d", row->to.device, row->to.number), row);
    }
  for (guint i = 0; i < rw_rig_n (source->rig, RW_ITEM_INSIDE); i++)
    {
      RwInsideRow *row = (RwInsideRow *) inside[i];

      insert (patch->inside_from, g_strdup_printf ("%s/%d/%d", row->device, row->from.kind, row->from.number), row);
      insert (patch->inside_to, g_strdup_printf ("%s/%d/%d", row->device, row->to.kind, row->to.number), row);
    }
}

static void
patch_clear (Patch *patch)
{
  g_hash_table_unref (patch->by_send);
  g_hash_table_unref (patch->by_receive);
  g_hash_table_unref (patch->inside_from);
  g_hash_table_unref (patch->inside_to);
}

static const GPtrArray *
rows_at (GHashTable *table, const char *device, int number)
{
  g_autofree char *key = g_strdup_printf ("%s/%d", device, number);

  return g_hash_table_lookup (table, key);
}

static const GPtrArray *
inside_at (GHashTable *table, const char *device, int kind, int number)
{
  g_autofree char *key = g_strdup_printf ("%s/%d/%d", device, kind, number);

  return g_hash_table_lookup (table, key);
}

static const char *
title_of (const Patch *patch, const char *device)
{
  const RwDevice *d = rw_rig_device (patch->source->rig, device);

  return d != NULL ? rw_device_title (d) : device;
}

static void
join (GString *text, const char *part)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", part);
}

/* "strip 3, strip 4": where what arrives at a receive or an own input goes on inside the device. */
static char *
strips_of (const Patch *patch, const char *device, RwInsideFrom kind, int number)
{
  const GPtrArray *rows = inside_at (patch->inside_from, device, kind, number);
  GString *text = g_string_new (NULL);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const RwInsideRow *row = rows->pdata[i];

      if (row->to.kind == RW_INSIDE_TO_STRIP)
        g_string_append_printf (text, "%s%d", text->len > 0 ? ", " : "", row->to.number);
    }
  return g_string_free (text, FALSE);
}

/* All places to which a send goes. */
static char *
goes_to (const Patch *patch, const char *device, int send)
{
  const GPtrArray *rows = rows_at (patch->by_send, device, send);
  GString *text = g_string_new (NULL);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const RwPatchRow *row = rows->pdata[i];
      g_autofree char *strips = strips_of (patch, row->to.device, RW_INSIDE_RECEIVE, row->to.number);
      g_autofree char *place = NULL;

      if (*strips != '\0')
        /* Translators: a console, the number of its receive, the number of its strip. */
        place = g_strdup_printf (_("%s · %d, strip %s"), title_of (patch, row->to.device), row->to.number, strips);
      else
        place = g_strdup_printf ("%s · %d", title_of (patch, row->to.device), row->to.number);
      join (text, place);
    }
  return g_string_free (text, FALSE);
}

/* The name of what a send carries: its own, or that of the bus that feeds it. */
static const char *
send_name (const Patch *patch, const char *device, int send)
{
  const char *name = rw_papers_channel_name (patch->source, device, RW_CHANNEL_SEND, send);
  const GPtrArray *rows = *name == '\0' ? inside_at (patch->inside_to, device, RW_INSIDE_TO_SEND, send) : NULL;
  const RwInsideRow *row = rows != NULL ? rows->pdata[0] : NULL;

  if (row != NULL && row->from.kind == RW_INSIDE_BUS)
    name = rw_papers_channel_name (patch->source, device, RW_CHANNEL_BUS, row->from.number);
  return name;
}

static gboolean
is_console (const RwNetDevice *device)
{
  return device->part->kind == RW_PART_CONTROLLER;
}

static gboolean
has_phantom (const RwChannel *channel)
{
  return channel != NULL && channel->phantom;
}

static char *
phantom_text (const RwChannel *channel)
{
  return has_phantom (channel) ? rw_cell_phantom (channel, _("on")) : g_strdup ("—");
}

static char *
source_text (const RwChannel *channel)
{
  return rw_cell_word (&rw_channel_table.fields[RW_CHANNEL_SOURCE], channel != NULL ? channel->source : -1);
}

static char *
number_text (const RwChannel *channel, guint field)
{
  if (channel == NULL || !rw_item_has (channel, field))
    return g_strdup ("—");
  return g_strdup_printf ("%.10g", *(const double *) RW_FIELD_PTR (channel, &rw_channel_table.fields[field]));
}

static char *
notes_text (const RwChannel *channel)
{
  return rw_cell_text (channel != NULL ? channel->notes : NULL);
}

/* What is plugged in there, and what is set for it, goes into the columns from “Source” to “Notes”. */
static void
take_rack_input (RwListing *listing, const Patch *patch, guint index, int n, const char *name, const RwChannel *channel, char *goes_to)
{
  RwListingRow *row;

  row = rw_listing_take (listing, rw_cell_text (rw_device_title (patch->source->net->devices[index].device)), g_strdup_printf ("%d", n),
                         rw_cell_text (name), source_text (channel), phantom_text (channel), number_text (channel, RW_CHANNEL_GAIN_DB),
                         rw_cell_text (channel != NULL ? channel->stand : NULL), goes_to, notes_text (channel), NULL, RW_LISTING_END);
  row->warned = has_phantom (channel);
  row->link = rw_papers_link (patch->source, RW_PLACE_CARD, index);
}

static void
add_rack_inputs (RwListing *listing, const Patch *patch, guint index)
{
  const RwNetDevice *d = &patch->source->net->devices[index];
  const char *id = rw_item_key (d->device);

  for (int n = 1; n <= d->part->sends; n++)
    {
      const RwChannel *channel = rw_papers_channel (patch->source, id, RW_CHANNEL_SEND, n);

      if (channel != NULL || rows_at (patch->by_send, id, n) != NULL)
        take_rack_input (listing, patch, index, n, send_name (patch, id, n), channel, goes_to (patch, id, n));
    }
}

/* A console's own sockets: what is plugged in there is known by the strip that it goes to. */
static void
add_own_inputs (RwListing *listing, const Patch *patch, guint index)
{
  const RwNetDevice *d = &patch->source->net->devices[index];
  const char *id = rw_item_key (d->device);

  for (int n = 1; n <= d->part->local_inputs; n++)
    {
      const GPtrArray *rows = inside_at (patch->inside_from, id, RW_INSIDE_LOCAL, n);
      const RwInsideRow *row = rows != NULL ? rows->pdata[0] : NULL;
      g_autofree char *strips = row != NULL ? strips_of (patch, id, RW_INSIDE_LOCAL, n) : NULL;

      if (row != NULL && row->to.kind == RW_INSIDE_TO_STRIP)
        take_rack_input (listing, patch, index, n, rw_papers_channel_name (patch->source, id, RW_CHANNEL_STRIP, row->to.number),
                         rw_papers_channel (patch->source, id, RW_CHANNEL_STRIP, row->to.number),
                         /* Translators: the numbers of one or more strips of a console. */
                         g_strdup_printf (_("strip %s"), strips));
    }
}

static RwListing *
rack_inputs (const Patch *patch)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Device"), RW_ALIGN_LEFT, 26, 1 }, 0 },
    { { C_("column", "Input"), RW_ALIGN_RIGHT, 11, 0 }, 0 },
    { { C_("column", "Name"), RW_ALIGN_LEFT, 26, 1 }, 0 },
    { { C_("column", "Source"), RW_ALIGN_LEFT, 22, 0, 0, 5 }, 0 },
    { { C_("column", "Phantom"), RW_ALIGN_MIDDLE, 14, 0, 0, 6 }, 0 },
    { { C_("column", "Gain, dB"), RW_ALIGN_RIGHT, 12, 0, 0, 3 }, 0 },
    { { C_("column", "Stand"), RW_ALIGN_LEFT, 16, 0, 0, 4 }, 0 },
    { { C_("column", "Goes to"), RW_ALIGN_LEFT, 50, 3, RW_TABLE_LINES_TEXT, 2 }, 0 },
    { { C_("column", "Notes"), RW_ALIGN_LEFT, 34, 2, RW_TABLE_LINES_TEXT, 1 }, 0 },
    { { C_("column", "Done"), RW_ALIGN_MIDDLE, 10, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("inputs-by-rack", _("Inputs, by rack"), columns, G_N_ELEMENTS (columns));

  listing->empty = _("No input is patched or named.");
  for (guint i = 0; i < patch->source->net->n_devices; i++)
    if (is_console (&patch->source->net->devices[i]))
      add_own_inputs (listing, patch, i);
    else
      add_rack_inputs (listing, patch, i);
  return listing;
}

static char *
comes_from (const Patch *patch, const RwPatchRow *row)
{
  const GPtrArray *buses = inside_at (patch->inside_to, row->from.device, RW_INSIDE_TO_SEND, row->from.number);
  const RwInsideRow *bus = buses != NULL ? buses->pdata[0] : NULL;

  if (bus != NULL && bus->from.kind == RW_INSIDE_BUS)
    /* Translators: a console, the number of its send, the number of its bus. */
    return g_strdup_printf (_("%s · %d, bus %d"), title_of (patch, row->from.device), row->from.number, bus->from.number);
  return g_strdup_printf ("%s · %d", title_of (patch, row->from.device), row->from.number);
}

/* What holds the notes of the lines that leave by a send: the bus that feeds it, else the send itself. */
static const RwChannel *
send_about (const Patch *patch, const char *device, int send)
{
  const GPtrArray *rows = inside_at (patch->inside_to, device, RW_INSIDE_TO_SEND, send);
  const RwInsideRow *row = rows != NULL ? rows->pdata[0] : NULL;

  if (row != NULL && row->from.kind == RW_INSIDE_BUS)
    return rw_papers_channel (patch->source, device, RW_CHANNEL_BUS, row->from.number);
  return rw_papers_channel (patch->source, device, RW_CHANNEL_SEND, send);
}

static void
add_rack_outputs (RwListing *listing, const Patch *patch, guint index)
{
  const RwNetDevice *d = &patch->source->net->devices[index];
  const char *id = rw_item_key (d->device);

  for (int n = 1; n <= d->part->receives; n++)
    {
      const GPtrArray *rows = rows_at (patch->by_receive, id, n);

      for (guint i = 0; rows != NULL && i < rows->len; i++)
        {
          const RwPatchRow *p = rows->pdata[i];
          RwListingRow *row = rw_listing_take (listing, rw_cell_text (rw_device_title (d->device)), g_strdup_printf ("%d", n),
                                               rw_cell_text (send_name (patch, p->from.device, p->from.number)), comes_from (patch, p),
                                               notes_text (send_about (patch, p->from.device, p->from.number)), NULL, RW_LISTING_END);

          row->link = rw_papers_link (patch->source, RW_PLACE_CARD, index);
        }
    }
}

static RwListing *
rack_outputs (const Patch *patch)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Device"), RW_ALIGN_LEFT, 30, 2 }, 0 },
    { { C_("column", "Output"), RW_ALIGN_RIGHT, 14, 0 }, 0 },
    { { C_("column", "Name"), RW_ALIGN_LEFT, 30, 2 }, 0 },
    { { C_("column", "Comes from"), RW_ALIGN_LEFT, 36, 2, RW_TABLE_LINES_TEXT, 2 }, 0 },
    { { C_("column", "Notes"), RW_ALIGN_LEFT, 34, 2, RW_TABLE_LINES_TEXT, 1 }, 0 },
    { { C_("column", "Done"), RW_ALIGN_MIDDLE, 10, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("outputs-by-rack", _("Outputs, by rack, amplifier and loudspeaker"), columns, G_N_ELEMENTS (columns));

  listing->empty = _("No output is patched.");
  for (guint i = 0; i < patch->source->net->n_devices; i++)
    if (!is_console (&patch->source->net->devices[i]))
      add_rack_outputs (listing, patch, i);
  return listing;
}

static void
add_console_input (RwListing *listing, const Patch *patch, guint index, int strip, const RwInsideRow *inside)
{
  const RwNetDevice *d = &patch->source->net->devices[index];
  const char *id = rw_item_key (d->device), *name = rw_papers_channel_name (patch->source, id, RW_CHANNEL_STRIP, strip);
  const GPtrArray *rows = inside->from.kind == RW_INSIDE_RECEIVE ? rows_at (patch->by_receive, id, inside->from.number) : NULL;
  const RwPatchRow *p = rows != NULL ? rows->pdata[0] : NULL;
  /* of what comes over the network the send knows what it is, of all else the strip itself */
  const RwChannel *channel = p != NULL ? rw_papers_channel (patch->source, p->from.device, RW_CHANNEL_SEND, p->from.number)
                                       : rw_papers_channel (patch->source, id, RW_CHANNEL_STRIP, strip);
  RwListingRow *row;

  if (*name == '\0' && p != NULL)
    name = send_name (patch, p->from.device, p->from.number);
  row = rw_listing_take (listing, rw_cell_text (rw_device_title (d->device)), g_strdup_printf ("%d", strip), rw_cell_text (name),
                         g_strdup_printf ("%s %d", _(rw_inside_table.fields[RW_INSIDE_FROM].word_labels[inside->from.kind]), inside->from.number),
                         p != NULL ? comes_from (patch, p) : g_strdup ("—"), source_text (channel), phantom_text (channel),
                         number_text (channel, RW_CHANNEL_GAIN_DB), number_text (channel, RW_CHANNEL_HIGH_PASS_HZ), notes_text (channel),
                         NULL, RW_LISTING_END);
  row->warned = has_phantom (channel);
  row->link = rw_papers_link (patch->source, RW_PLACE_CARD, index);
}

static RwListing *
console_inputs (const Patch *patch)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Console"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { C_("column", "Strip"), RW_ALIGN_RIGHT, 12, 0 }, 0 },
    { { C_("column", "Name"), RW_ALIGN_LEFT, 30, 2 }, 0 },
    { { C_("column", "Fed by"), RW_ALIGN_LEFT, 22, 0, 0, 2 }, 0 },
    { { C_("column", "Comes from"), RW_ALIGN_LEFT, 36, 2, RW_TABLE_LINES_TEXT, 3 }, 0 },
    { { C_("column", "Source"), RW_ALIGN_LEFT, 22, 0, 0, 6 }, 0 },
    { { C_("column", "Phantom"), RW_ALIGN_MIDDLE, 14, 0, 0, 7 }, 0 },
    { { C_("column", "Gain, dB"), RW_ALIGN_RIGHT, 12, 0, 0, 5 }, 0 },
    { { C_("column", "High-pass, Hz"), RW_ALIGN_RIGHT, 12, 0, 0, 4 }, 0 },
    { { C_("column", "Notes"), RW_ALIGN_LEFT, 34, 2, RW_TABLE_LINES_TEXT, 1 }, 0 },
    { { C_("column", "Done"), RW_ALIGN_MIDDLE, 10, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("inputs-by-console", _("Inputs, by console"), columns, G_N_ELEMENTS (columns));
  const RwNet *net = patch->source->net;

  listing->empty = _("No strip of a console is fed.");
  for (guint i = 0; i < net->n_devices; i++)
    for (int strip = 1; is_console (&net->devices[i]) && strip <= net->devices[i].part->strips; strip++)
      {
        const GPtrArray *rows = inside_at (patch->inside_to, rw_item_key (net->devices[i].device), RW_INSIDE_TO_STRIP, strip);

        for (guint k = 0; rows != NULL && k < rows->len; k++)
          add_console_input (listing, patch, i, strip, rows->pdata[k]);
      }
  return listing;
}

static RwListing *
console_outputs (const Patch *patch)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Console"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { C_("column", "Bus"), RW_ALIGN_RIGHT, 12, 0 }, 0 },
    { { C_("column", "Name"), RW_ALIGN_LEFT, 30, 2 }, 0 },
    { { C_("column", "Leaves by"), RW_ALIGN_LEFT, 24, 0, 0, 2 }, 0 },
    { { C_("column", "Goes to"), RW_ALIGN_LEFT, 40, 3, RW_TABLE_LINES_TEXT, 3 }, 0 },
    { { C_("column", "Notes"), RW_ALIGN_LEFT, 34, 2, RW_TABLE_LINES_TEXT, 1 }, 0 },
    { { C_("column", "Done"), RW_ALIGN_MIDDLE, 10, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("outputs-by-console", _("Outputs, by console"), columns, G_N_ELEMENTS (columns));
  const RwNet *net = patch->source->net;

  listing->empty = _("No bus of a console leaves it.");
  for (guint i = 0; i < net->n_devices; i++)
    for (int bus = 1; is_console (&net->devices[i]) && bus <= net->devices[i].part->buses; bus++)
      {
        const char *id = rw_item_key (net->devices[i].device);
        const GPtrArray *rows = inside_at (patch->inside_from, id, RW_INSIDE_BUS, bus);

        for (guint k = 0; rows != NULL && k < rows->len; k++)
          {
            const RwInsideRow *inside = rows->pdata[k];
            gboolean sends = inside->to.kind == RW_INSIDE_TO_SEND;
            RwListingRow *row = rw_listing_take (listing, rw_cell_text (rw_device_title (net->devices[i].device)), g_strdup_printf ("%d", bus),
                                                 rw_cell_text (rw_papers_channel_name (patch->source, id, RW_CHANNEL_BUS, bus)),
                                                 g_strdup_printf ("%s %d", _(rw_inside_table.fields[RW_INSIDE_TO].word_labels[inside->to.kind]), inside->to.number),
                                                 sends ? goes_to (patch, id, inside->to.number) : g_strdup ("—"),
                                                 notes_text (rw_papers_channel (patch->source, id, RW_CHANNEL_BUS, bus)), NULL, RW_LISTING_END);

            row->link = rw_papers_link (patch->source, RW_PLACE_CARD, i);
          }
      }
  return listing;
}

/**
 * rw_papers_lines: what is plugged in where and where it goes, seen from the racks and from the consoles.
 */
RwFlow *
rw_papers_lines (const RwPapersSource *source)
{
  RwFlow *flow = rw_flow_new (RW_PAPERS_LINES);
  RwBlock *caution;
  Patch patch;

  patch_init (&patch, source);
  /* each sheet may go to another person */
  caution = rw_flow_add_text (flow, RW_BLOCK_CAUTION,
                              _("Phantom power: mute first, and never into a ribbon microphone or a line source that is not rated for it. "
                                "Local rules come first."));
  caution->on_need = TRUE;
  rw_flow_take_listing (flow, rack_inputs (&patch))->caution = caution;
  rw_flow_take_listing (flow, rack_outputs (&patch));
  rw_flow_take_listing (flow, console_inputs (&patch))->caution = caution;
  rw_flow_take_listing (flow, console_outputs (&patch));
  patch_clear (&patch);
  return flow;
}
