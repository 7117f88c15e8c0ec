/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-clock.h>

#include "rw-lens.h"
#include "rw-papers-parts.h"

/* Every list of the proving sheet has the same columns. */
static RwListing *
steps_new (const char *name, const char *title)
{
  const RwListingColumn columns[] = {
    { { C_("column", "No."), RW_ALIGN_RIGHT, 10, 0 }, 0 },
    { { C_("column", "Check"), RW_ALIGN_LEFT, 60, 2, RW_TABLE_LINES_TEXT }, 0 },
    { { C_("column", "Right when"), RW_ALIGN_LEFT, 60, 2, RW_TABLE_LINES_TEXT }, 0 },
    { { C_("column", "Good"), RW_ALIGN_MIDDLE, 11, 0 }, RW_MARK_TICK },
    { { C_("column", "Remark"), RW_ALIGN_LEFT, 40, 1 }, RW_MARK_BLANK },
  };

  return rw_listing_new (name, title, columns, G_N_ELEMENTS (columns));
}

static RwListingRow *
step (RwListing *listing, char *check, char *right)
{
  return rw_listing_take (listing, rw_cell_count (listing->rows->len + 1), check, right, NULL, NULL, RW_LISTING_END);
}

static void
step_text (RwListing *listing, const char *check, const char *right)
{
  step (listing, g_strdup (check), g_strdup (right));
}

static RwListing *
before_power (void)
{
  RwListing *listing = steps_new ("proving-before", _("1. Before power"));

  step_text (listing, _("Mains and earthing"), _("Released by a competent person"));
  step_text (listing, _("Flown and stacked equipment"), _("Released by a qualified rigger"));
  step_text (listing, _("Cable runs"), _("Nobody can trip, escape ways are clear"));
  step_text (listing, _("Devices stand where the plan shows them"), _("All on the equipment list are ticked"));
  step_text (listing, _("All outputs and amplifiers"), _("Muted or down"));
  return listing;
}

static const char *
title_at (const RwNet *net, guint port)
{
  return rw_device_title (net->devices[net->ports[port].device].device);
}

static RwListing *
links (const RwPapersSource *source)
{
  RwListing *listing = steps_new ("proving-links", _("2. Links"));
  const RwNet *net = source->net;

  listing->empty = _("There are no cables in this rig.");
  for (guint i = 0; i < net->n_cables; i++)
    {
      const RwNetCable *c = &net->cables[i];
      int speed = MIN (net->ports[c->port[0]].port->speed_mbps, net->ports[c->port[1]].port->speed_mbps);
      RwListingRow *row;

      /* Translators: a cable, a device and its port, a device and its port, a speed. */
      row = step (listing, g_strdup_printf (_("%s: %s, %s – %s, %s"), rw_cable_title (c->cable), title_at (net, c->port[0]),
                                            net->ports[c->port[0]].port->name, title_at (net, c->port[1]), net->ports[c->port[1]].port->name),
                  g_strdup_printf (_("Link lights at both ends, %d Mb/s"), speed));
      row->link = rw_papers_link (source, RW_PLACE_CABLE, i);
    }
  return listing;
}

static RwListing *
ids (const RwPapersSource *source)
{
  RwListing *listing = steps_new ("proving-ids", _("3. IDs and modes"));

  listing->empty = _("No device has an ID or a port mode.");
  for (guint i = 0; i < source->net->n_devices; i++)
    {
      const RwNetDevice *d = &source->net->devices[i];
      GString *right = g_string_new (NULL);
      RwListingRow *row;

      if (rw_item_has (d->device, RW_DEVICE_UNIT_ID))
        g_string_append_printf (right, _("Unit ID %d"), d->device->unit_id);
      if (rw_item_has (d->device, RW_DEVICE_CONTROLLER_ID))
        {
          g_string_append (right, right->len > 0 ? ", " : "");
          g_string_append_printf (right, _("Controller ID %d"), d->device->controller_id);
        }
      if (!d->forwards)
        g_string_append_printf (right, "%s%s", right->len > 0 ? ", " : "", _(rw_device_table.fields[RW_DEVICE_MODE].word_labels[d->mode]));
      if (right->len == 0)
        {
          g_string_free (right, TRUE);
          continue;
        }
      row = step (listing, g_strdup (rw_device_title (d->device)), g_string_free (right, FALSE));
      row->link = rw_papers_link (source, RW_PLACE_CARD, i);
    }
  return listing;
}

static gboolean
plays (const RwNetDevice *device)
{
  return device->part->sends > 0 || device->part->receives > 0;
}

static RwListing *
clocks (const RwPapersSource *source)
{
  RwListing *listing = steps_new ("proving-clock", _("4. Clock"));
  const RwNet *net = source->net;
  g_autoptr (RwClocks) clocks = rw_clocks_new (net);

  listing->empty = _("No network has two devices with sound.");
  for (guint i = 0; i < clocks->n_groups; i++)
    {
      const RwClockGroup *group = &clocks->groups[i];
      g_autofree char *network = NULL;

      if (group->order.n == 0 || group->voters.n < 2)
        continue;
      network = rw_network_text (&net->networks[group->network]);
      /* Translators: a network ("Primary network, VLAN 10, 12 devices"), the number of a clock domain, how many devices. */
      step (listing, g_strdup_printf (_("%s; clock domain %d: the clock of %u devices"), network, group->domain, group->voters.n),
            /* Translators: a device. */
            g_strdup_printf (_("%s leads, all others follow it"), rw_device_title (net->devices[group->order.v[0]].device)));
    }
  return listing;
}

static RwListing *
reach (const RwPapersSource *source)
{
  RwListing *listing = steps_new ("proving-reach", _("5. Reachability"));
  const RwNet *net = source->net;

  listing->empty = _("There is no console that has to see an I/O rack.");
  for (guint i = 0; i < net->n_devices; i++)
    {
      GString *seen = g_string_new (NULL);
      guint n = 0;

      for (guint k = 0; net->devices[i].part->kind == RW_PART_CONTROLLER && k < net->n_devices; k++)
        if (net->devices[k].part->kind == RW_PART_RACK && rw_net_shares_network (net, i, k))
          {
            n++;
            g_string_append_printf (seen, "%s%s", seen->len > 0 ? ", " : "", rw_device_title (net->devices[k].device));
          }
      if (n > 0)
        /* Translators: a console; how many I/O racks; their names. */
        step (listing, g_strdup_printf (_("%s shows the I/O racks"), rw_device_title (net->devices[i].device)), g_strdup_printf ("%u: %s", n, seen->str));
      g_string_free (seen, TRUE);
    }
  return listing;
}

/* Rows of the patch by their two devices, in the order in which they first come. */
static RwListing *
patch (const RwPapersSource *source)
{
  RwListing *listing = steps_new ("proving-patch", _("6. Patch"));
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) order = g_ptr_array_new ();
  RwItem *const *rows = rw_rig_items (source->rig, RW_ITEM_PATCH);

  listing->empty = _("Nothing is patched over the network.");
  for (guint i = 0; i < rw_rig_n (source->rig, RW_ITEM_PATCH); i++)
    {
      const RwPatchRow *row = (const RwPatchRow *) rows[i];
      char *key = g_strdup_printf ("%s\n%s", row->from.device, row->to.device);
      guint n = GPOINTER_TO_UINT (g_hash_table_lookup (known, key));

      if (n == 0)
        g_ptr_array_add (order, (gpointer) row);
      g_hash_table_replace (known, key, GUINT_TO_POINTER (n + 1));
    }
  for (guint i = 0; i < order->len; i++)
    {
      const RwPatchRow *row = order->pdata[i];
      g_autofree char *key = g_strdup_printf ("%s\n%s", row->from.device, row->to.device);
      guint n = GPOINTER_TO_UINT (g_hash_table_lookup (known, key));

      /* Translators: two devices. */
      step (listing, g_strdup_printf (_("%s to %s"), rw_device_title (rw_rig_device (source->rig, row->from.device)),
                                      rw_device_title (rw_rig_device (source->rig, row->to.device))),
            g_strdup_printf (ngettext ("%u channel is subscribed and runs", "%u channels are subscribed and run", n), n));
    }
  return listing;
}

static gboolean
is_console (const RwPapersSource *source, const char *id)
{
  return rw_rig_part_of (source->rig, rw_rig_device (source->rig, id))->kind == RW_PART_CONTROLLER;
}

static char *
input_text (const char *device, int number, const char *name)
{
  if (*name == '\0')
    /* Translators: a device, the number of its input. */
    return g_strdup_printf (_("%s, input %d"), device, number);
  /* Translators: a device, the number of its input, what is heard on it. */
  return g_strdup_printf (_("%s, input %d: %s"), device, number, name);
}

/* @phantom: (nullable): the channel, where that has phantom power on. */
static char *
heard_text (const RwPapersSource *source, const RwPatchRow *row, const RwChannel *phantom)
{
  const char *title = rw_device_title (rw_rig_device (source->rig, row->to.device));
  g_autofree char *on = NULL;

  if (phantom == NULL)
    return g_strdup_printf (_("Heard clean at %s, receive %d"), title, row->to.number);
  on = rw_cell_phantom (phantom, _("phantom on"));
  /* Translators: a device, the number of its receive, "phantom on", perhaps with what is to be checked. */
  return g_strdup_printf (_("Heard clean at %s, receive %d; %s"), title, row->to.number, on);
}

/* Each send of a rack once, wherever it goes. */
static RwListing *
input_lines (const RwPapersSource *source)
{
  RwListing *listing = steps_new ("proving-inputs", _("7. Line check of the inputs"));
  RwItem *const *rows = rw_rig_items (source->rig, RW_ITEM_PATCH);
  g_autoptr (GHashTable) done = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  listing->empty = _("No input is patched.");
  for (guint i = 0; i < rw_rig_n (source->rig, RW_ITEM_PATCH); i++)
    {
      const RwPatchRow *row = (const RwPatchRow *) rows[i];
      const RwChannel *channel = rw_papers_channel (source, row->from.device, RW_CHANNEL_SEND, row->from.number);
      const char *name = channel != NULL && channel->name != NULL ? channel->name : "";
      gboolean phantom = channel != NULL && channel->phantom;

      if (is_console (source, row->from.device)
          || !g_hash_table_add (done, g_strdup_printf ("%s/%d", row->from.device, row->from.number)))
        continue;
      step (listing, input_text (rw_device_title (rw_rig_device (source->rig, row->from.device)), row->from.number, name),
            heard_text (source, row, phantom ? channel : NULL))->warned = phantom;
    }
  return listing;
}

static RwListing *
output_lines (const RwPapersSource *source)
{
  RwListing *listing = steps_new ("proving-outputs", _("8. Line check of the outputs"));
  RwItem *const *rows = rw_rig_items (source->rig, RW_ITEM_PATCH);

  listing->empty = _("No output is patched.");
  for (guint i = 0; i < rw_rig_n (source->rig, RW_ITEM_PATCH); i++)
    {
      const RwPatchRow *row = (const RwPatchRow *) rows[i];

      if (is_console (source, row->to.device))
        continue;
      /* Translators: a device, the number of its output. */
      step (listing, g_strdup_printf (_("%s, output %d"), rw_device_title (rw_rig_device (source->rig, row->to.device)), row->to.number),
            /* Translators: a device, the number of its send. */
            g_strdup_printf (_("Only %s, send %d is heard, in right polarity"), rw_device_title (rw_rig_device (source->rig, row->from.device)),
                             row->from.number));
    }
  return listing;
}

static void
add_plane_tests (RwListing *listing, const RwNet *net)
{
  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwNetDevice *d = &net->devices[i];

      if (d->forwards || d->mode != RW_MODE_REDUNDANT || !plays (d))
        continue;
      /* Translators: a device. */
      step (listing, g_strdup_printf (_("%s: pull the primary, plug it again; then the secondary"), rw_device_title (d->device)),
            g_strdup (_("Sound goes on without a click both times")));
    }
}

static void
add_loop_tests (RwListing *listing, const RwNet *net)
{
  g_autoptr (GHashTable) done = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < net->n_loops; i++)
    {
      const RwLoop *loop = &net->loops[i];

      /* a cable closes a ring in each of its VLANs */
      if (loop->held && g_hash_table_add (done, GUINT_TO_POINTER (loop->cable + 1)))
        /* Translators: a cable. */
        step (listing, g_strdup_printf (_("Pull cable %s, which closes a ring, and plug it again"), rw_cable_title (net->cables[loop->cable].cable)),
              g_strdup (_("The spanning tree finds another way; sound is back within a minute")));
    }
}

static RwListing *
failures (const RwPapersSource *source)
{
  RwListing *listing = steps_new ("proving-failures", _("9. Failure test"));

  listing->empty = _("There is no second plane and no ring: any failure stops what runs over it.");
  add_plane_tests (listing, source->net);
  add_loop_tests (listing, source->net);
  return listing;
}

/**
 * rw_papers_proving: what is checked before the show, in working order.
 */
RwFlow *
rw_papers_proving (const RwPapersSource *source)
{
  RwFlow *flow = rw_flow_new (RW_PAPERS_PROVING);
  RwBlock *caution;

  rw_flow_add_text (flow, RW_BLOCK_CAUTION,
                    _("Mains and temporary distribution: only by a competent and, where that is required, licensed person under local "
                      "regulations. Flown and stacked equipment: only by qualified riggers. Local rules come first. Rigwright plans and "
                      "checks drawings; it does not certify an installation."));
  rw_flow_take_listing (flow, before_power ());
  rw_flow_take_listing (flow, links (source));
  rw_flow_take_listing (flow, ids (source));
  rw_flow_take_listing (flow, clocks (source));
  rw_flow_take_listing (flow, reach (source));
  rw_flow_take_listing (flow, patch (source));
  caution = rw_flow_add_text (flow, RW_BLOCK_CAUTION,
                              _("Mute all outputs and bring levels up from nothing; protect your hearing and that of others. Switch phantom "
                                "power only with the channel muted, and never into a ribbon microphone or a line source that is not rated for "
                                "it. Local rules come first."));
  rw_flow_take_listing (flow, input_lines (source))->caution = caution;
  rw_flow_take_listing (flow, output_lines (source));
  rw_flow_take_listing (flow, failures (source));
  rw_flow_add_text (flow, RW_BLOCK_HEADING, _("10. Sign-off"));
  rw_flow_add_text (flow, RW_BLOCK_TEXT,
                    _("All checks were made and what is not good is noted as a remark. This sheet does not certify an installation."));
  rw_flow_add_text (flow, RW_BLOCK_SIGN, NULL);
  return flow;
}
