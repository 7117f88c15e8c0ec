/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <math.h>
#include <rig/rw-length.h>

#include "rw-papers-parts.h"

static const char *
device_at (const RwNet *net, guint port)
{
  return rw_device_title (net->devices[net->ports[port].device].device);
}

static void
add_cable (RwListing *listing, const RwPapersSource *source, guint index, guint digits)
{
  const RwNet *net = source->net;
  const RwNetCable *c = &net->cables[index];
  const RwCable *cable = c->cable;
  RwListingRow *row;

  row = rw_listing_take (listing, rw_cell_count (index + 1), rw_cell_text (rw_cable_title (cable)), rw_cell_text (device_at (net, c->port[0])),
                         rw_cell_text (net->ports[c->port[0]].port->name), rw_cell_text (device_at (net, c->port[1])),
                         rw_cell_text (net->ports[c->port[1]].port->name),
                         rw_cell_length (cable->length_m, (int) digits), rw_cell_word (&rw_cable_table.fields[RW_CABLE_MEDIUM], cable->medium),
                         rw_cell_word (&rw_cable_table.fields[RW_CABLE_GRADE], (int) rw_cable_grade (cable)),
                         g_strdup (cable->colour != NULL && *cable->colour != '\0' ? cable->colour : "—"),
                         rw_plane_word (rw_scene_cable (source->scene, index)->style), rw_cell_text (cable->notes), NULL, RW_LISTING_END);
  row->place = rw_place (RW_PLACE_ROW, index);
  row->link = rw_papers_link (source, RW_PLACE_CABLE, index);
}

RwFlow *
rw_papers_cables (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "No."), RW_ALIGN_RIGHT, 9, 0 }, 0 },
    { { C_("column", "Label"), RW_ALIGN_LEFT, 16, 1 }, 0 },
    { { C_("column", "From"), RW_ALIGN_LEFT, 24, 2 }, 0 },
    { { C_("column", "Port"), RW_ALIGN_LEFT, 11, 0 }, 0 },
    { { C_("column", "To"), RW_ALIGN_LEFT, 24, 2 }, 0 },
    { { C_("column", "Port"), RW_ALIGN_LEFT, 11, 0 }, 0 },
    { { rw_length_heading (C_("column", "Length, m"), C_("column", "Length")), RW_ALIGN_RIGHT, 14, 0, 0, 6 }, 0 },
    { { C_("column", "Medium"), RW_ALIGN_LEFT, 16, 0, 0, 4 }, 0 },
    { { C_("column", "Grade"), RW_ALIGN_LEFT, 12, 0, 0, 3 }, 0 },
    { { C_("column", "Jacket"), RW_ALIGN_LEFT, 12, 0, 0, 2 }, 0 },
    { { C_("column", "Plane"), RW_ALIGN_LEFT, 14, 0, 0, 5 }, 0 },
    { { C_("column", "Notes"), RW_ALIGN_LEFT, 30, 2, RW_TABLE_LINES_TEXT, 1 }, 0 },
    /* Translators: the cable is laid. */
    { { C_("column", "Laid"), RW_ALIGN_MIDDLE, 9, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("cables", _("Cable schedule"), columns, G_N_ELEMENTS (columns));
  RwFlow *flow = rw_flow_new (RW_PAPERS_CABLES);
  guint digits = rw_length_digits (source->net);

  listing->empty = _("There are no cables in this rig.");
  for (guint i = 0; i < source->net->n_cables; i++)
    add_cable (listing, source, i, digits);
  rw_flow_add_text (flow, RW_BLOCK_CAUTION, rw_sheet_caution ());
  rw_flow_take_listing (flow, listing);
  return flow;
}
