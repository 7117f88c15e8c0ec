/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-papers-parts.h"

static char *
id_text (const RwDevice *device, guint field, int id)
{
  return rw_item_has (device, field) ? g_strdup_printf ("%d", id) : g_strdup ("—");
}

static char *
mode_text (const RwNetDevice *device)
{
  if (device->forwards)
    return g_strdup ("—");
  return rw_cell_word (&rw_device_table.fields[RW_DEVICE_MODE], (int) device->mode);
}

static char *
or_dash (const char *text)
{
  return g_strdup (text != NULL && *text != '\0' ? text : "—");
}

static char *
clock_text (const RwDevice *device)
{
  if (device->clock.reference)
    /* Translators: a clock's priorities 1 and 2; this device is meant to lead. */
    return g_strdup_printf (_("%d / %d, leads"), device->clock.priority1, device->clock.priority2);
  return g_strdup_printf ("%d / %d", device->clock.priority1, device->clock.priority2);
}

static RwListing *
id_list (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Device"), RW_ALIGN_LEFT, 30, 2 }, 0 },
    { { C_("column", "Part"), RW_ALIGN_LEFT, 24, 1, 0, 1 }, 0 },
    { { C_("column", "Place"), RW_ALIGN_LEFT, 20, 1, 0, 4 }, 0 },
    { { C_("column", "Unit ID"), RW_ALIGN_RIGHT, 12, 0 }, 0 },
    { { C_("column", "Controller ID"), RW_ALIGN_RIGHT, 16, 0 }, 0 },
    { { C_("column", "Port mode"), RW_ALIGN_LEFT, 16, 0, 0, 7 }, 0 },
    { { C_("column", "Primary address"), RW_ALIGN_LEFT, 22, 0, 0, 6 }, 0 },
    { { C_("column", "Secondary address"), RW_ALIGN_LEFT, 22, 0, 0, 5 }, 0 },
    { { C_("column", "Hardware address"), RW_ALIGN_LEFT, 22, 0, 0, 2 }, 0 },
    { { C_("column", "Clock priorities 1 / 2"), RW_ALIGN_LEFT, 18, 0, 0, 3 }, 0 },
  };
  RwListing *listing = rw_listing_new ("network", _("IDs and addresses"), columns, G_N_ELEMENTS (columns));

  listing->empty = _("There are no devices in this rig.");
  for (guint i = 0; i < source->net->n_devices; i++)
    {
      const RwNetDevice *d = &source->net->devices[i];
      RwListingRow *row = rw_listing_take (listing, rw_cell_text (rw_device_title (d->device)), rw_cell_text (d->part->name),
                                           rw_cell_text (d->device->location), id_text (d->device, RW_DEVICE_UNIT_ID, d->device->unit_id),
                                           id_text (d->device, RW_DEVICE_CONTROLLER_ID, d->device->controller_id), mode_text (d),
                                           or_dash (d->device->addresses.primary), or_dash (d->device->addresses.secondary),
                                           or_dash (d->device->mac), clock_text (d->device), RW_LISTING_END);

      row->link = rw_papers_link (source, RW_PLACE_CARD, i);
      if (row->link == NULL)
        row->link = rw_papers_link (source, RW_PLACE_DEVICE, i);
    }
  return listing;
}

/* What holds for all devices that do not say otherwise, from the table of fields. */
static RwListing *
system_list (const RwSystem *system)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Setting of the whole rig"), RW_ALIGN_LEFT, 60, 1 }, 0 },
    { { C_("column", "Value"), RW_ALIGN_LEFT, 30, 1 }, 0 },
  };
  RwListing *listing = rw_listing_new ("system", _("Settings for all"), columns, G_N_ELEMENTS (columns));

  for (guint i = 0; i < rw_system_table.n_fields; i++)
    {
      const RwField *field = &rw_system_table.fields[i];
      g_autofree RwSystem *written = g_memdup2 (system, sizeof *system);
      g_autoptr (GVariant) value = NULL;

      /* absent ones hold as well */
      written->item.record.present |= G_GUINT64_CONSTANT (1) << i;
      value = rw_record_get (written, &rw_system_table, i);
      rw_listing_take (listing, rw_cell_text (_(field->label)), rw_field_format_whole (field, value), RW_LISTING_END);
    }
  return listing;
}

RwFlow *
rw_papers_network (const RwPapersSource *source)
{
  RwFlow *flow = rw_flow_new (RW_PAPERS_NETWORK);

  rw_flow_take_listing (flow, id_list (source));
  rw_flow_take_listing (flow, system_list (rw_rig_system (source->rig)));
  return flow;
}

/**
 * rw_papers_vlan_text: what a switch port belongs to: "10", "10, 20 tagged". Free with g_free().
 */
char *
rw_papers_vlan_text (const RwDevice *device, const char *port)
{
  const RwPortVlans *vlans = rw_device_port_vlans (device, port);
  GString *text;

  if (vlans == NULL)
    return g_strdup ("1");
  text = g_string_new (NULL);
  for (guint i = 0; i < vlans->n; i++)
    g_string_append_printf (text, "%s%d", i > 0 ? ", " : "", vlans->vlans[i]);
  if (vlans->tagged)
    /* Translators: after the numbers of the VLANs of a trunk. */
    g_string_append_printf (text, " %s", _("tagged"));
  return g_string_free (text, FALSE);
}

/**
 * rw_papers_far_end: what the cable in @port of @net leads to: "FOH desk, Net 1"; "" = the port is empty. Free with
 * g_free().
 */
char *
rw_papers_far_end (const RwNet *net, guint port)
{
  const RwNetPort *p = &net->ports[port], *far;
  const RwNetCable *cable;

  if (p->cable == RW_NONE)
    return g_strdup ("");
  cable = &net->cables[p->cable];
  far = &net->ports[cable->port[0] == port ? cable->port[1] : cable->port[0]];
  return g_strdup_printf ("%s, %s", rw_device_title (net->devices[far->device].device), far->port->name);
}

/* How many ports from @port on are free and alike, so that one row can speak of them. */
static guint
count_free (const RwNet *net, const RwNetDevice *device, guint port)
{
  const RwNetPort *first = &net->ports[port];
  guint end = device->first_port + device->n_ports, n = 0;
  g_autofree char *vlans = rw_papers_vlan_text (device->device, first->port->name);

  while (port + n < end && net->ports[port + n].cable == RW_NONE && net->ports[port + n].port->medium == first->port->medium
         && net->ports[port + n].port->speed_mbps == first->port->speed_mbps)
    {
      g_autofree char *here = rw_papers_vlan_text (device->device, net->ports[port + n].port->name);

      if (!g_str_equal (here, vlans))
        break;
      n++;
    }
  return n;
}

/* Returns how many ports the row speaks of. */
static guint
add_port (RwListing *listing, const RwPapersSource *source, guint device, guint port)
{
  const RwNet *net = source->net;
  const RwNetDevice *d = &net->devices[device];
  const RwNetPort *p = &net->ports[port];
  gboolean is_free = p->cable == RW_NONE;
  guint n = is_free ? count_free (net, d, port) : 1;
  RwListingRow *row;

  row = rw_listing_take (listing, rw_cell_text (rw_device_title (d->device)),
                         n > 1 ? g_strdup_printf ("%s – %s", p->port->name, net->ports[port + n - 1].port->name) : g_strdup (p->port->name),
                         rw_cell_word (&rw_port_table.fields[RW_PORT_MEDIUM], p->port->medium), g_strdup_printf ("%d", p->port->speed_mbps),
                         rw_papers_vlan_text (d->device, p->port->name),
                         is_free ? g_strdup ("—") : rw_cell_text (rw_cable_title (net->cables[p->cable].cable)),
                         is_free ? g_strdup (_("free")) : rw_papers_far_end (net, port), NULL, RW_LISTING_END);
  row->link = rw_papers_link (source, is_free ? RW_PLACE_DEVICE : RW_PLACE_CABLE, is_free ? device : p->cable);
  row->without_ticks = is_free;
  return n;
}

/**
 * rw_papers_ports: every port of every switch: NULL where there is no switch.
 */
RwFlow *
rw_papers_ports (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Switch"), RW_ALIGN_LEFT, 30, 1 }, 0 },
    { { C_("column", "Port"), RW_ALIGN_RIGHT, 10, 0 }, 0 },
    { { C_("column", "Medium"), RW_ALIGN_LEFT, 16, 0 }, 0 },
    { { C_("column", "Speed, Mb/s"), RW_ALIGN_RIGHT, 14, 0 }, 0 },
    { { C_("column", "VLAN"), RW_ALIGN_LEFT, 18, 1, RW_TABLE_LINES_TEXT }, 0 },
    { { C_("column", "Cable"), RW_ALIGN_LEFT, 18, 1 }, 0 },
    { { C_("column", "Far end"), RW_ALIGN_LEFT, 40, 2 }, 0 },
    { { C_("column", "Link"), RW_ALIGN_MIDDLE, 9, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("ports", _("Switch port schedule"), columns, G_N_ELEMENTS (columns));
  RwFlow *flow;

  for (guint i = 0; i < source->net->n_devices; i++)
    for (guint k = 0; source->net->devices[i].part->kind == RW_PART_SWITCH && k < source->net->devices[i].n_ports;)
      k += add_port (listing, source, i, source->net->devices[i].first_port + k);
  if (listing->rows->len == 0)
    {
      rw_listing_free (listing);
      return NULL;
    }
  flow = rw_flow_new (RW_PAPERS_PORTS);
  rw_flow_take_listing (flow, listing);
  return flow;
}
