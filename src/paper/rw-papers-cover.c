/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-length.h>

#include "rw-papers-parts.h"

static void
add_show (RwFlow *flow, const RwRig *rig)
{
  const RwShow *show = rw_rig_show (rig);
  g_autofree char *title = rw_rig_title (rig);
  const struct { guint field; const char *value; } lines[] = {
    { RW_SHOW_VENUE, show->venue }, { RW_SHOW_DATE, show->date }, { RW_SHOW_REVISION, show->revision },
    { RW_SHOW_DRAWN_BY, show->drawn_by }, { RW_SHOW_NOTES, show->notes },
  };

  rw_flow_add_text (flow, RW_BLOCK_BIG, title);
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    if (lines[i].value != NULL && *lines[i].value != '\0')
      {
        /* Translators: the label of a field, what stands in it. */
        g_autofree char *line = g_strdup_printf (_("%s: %s"), _(rw_show_table.fields[lines[i].field].label), lines[i].value);

        rw_flow_add_text (flow, RW_BLOCK_TEXT, line);
      }
}

static void
add_contents (RwFlow *flow, const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Section"), RW_ALIGN_LEFT, 40, 1 }, 0 },
    { { C_("column", "Sheet"), RW_ALIGN_RIGHT, 14, 0 }, 0 },
  };
  RwListing *listing = rw_listing_new (NULL, _("Contents"), columns, G_N_ELEMENTS (columns));

  for (guint i = RW_PAPERS_COVER + 1; i < RW_N_PAPERS_SECTIONS; i++)
    if (rw_papers_has (source, i))
      {
        /* the page is filled in when all sections are broken into pages */
        RwListingRow *row = rw_listing_take (listing, rw_cell_text (rw_papers_section_title (i)), rw_cell_text ("000"), RW_LISTING_END);

        row->link = rw_place (RW_PLACE_SECTION, i);
      }
  rw_flow_take_listing (flow, listing)->place = g_strdup (RW_PLACE_CONTENTS);
}

typedef struct
{
  guint kinds[RW_N_PART_KINDS];
  double watts, rack_units, cable_m;
} Sums;

static Sums
sum_up (const RwNet *net)
{
  Sums sums = { { 0 }, 0, 0, 0 };

  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwPart *part = net->devices[i].part;

      sums.kinds[part->kind]++;
      sums.watts += part->watts;
      sums.rack_units += part->rack_units;
    }
  for (guint i = 0; i < net->n_cables; i++)
    sums.cable_m += net->cables[i].cable->length_m;
  return sums;
}

static void
add_sums (RwFlow *flow, const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Figure"), RW_ALIGN_LEFT, 40, 1 }, 0 },
    { { C_("column", "Value"), RW_ALIGN_RIGHT, 20, 0 }, 0 },
  };
  RwListing *listing = rw_listing_new ("summary", _("Summary"), columns, G_N_ELEMENTS (columns));
  Sums sums = sum_up (source->net);

  for (guint i = 0; i < RW_N_PART_KINDS; i++)
    if (sums.kinds[i] > 0)
      rw_listing_take (listing, rw_cell_text (rw_part_kind_heading (i)), rw_cell_count (sums.kinds[i]), RW_LISTING_END);
  rw_listing_take (listing, rw_cell_text (_("Cables")), rw_cell_count (source->net->n_cables), RW_LISTING_END);
  rw_listing_take (listing, rw_cell_text (rw_length_heading (_("Length of all cables, m"), _("Length of all cables"))),
                   rw_cell_length (sums.cable_m, -1), RW_LISTING_END);
  rw_listing_take (listing, rw_cell_text (_("Patch rows")), rw_cell_count (rw_rig_n (source->rig, RW_ITEM_PATCH)), RW_LISTING_END);
  rw_listing_take (listing, rw_cell_text (_("Power from the mains, W")), rw_cell_plain (sums.watts), RW_LISTING_END);
  rw_listing_take (listing, rw_cell_text (_("Rack units, U")), rw_cell_plain (sums.rack_units), RW_LISTING_END);
  rw_flow_take_listing (flow, listing);
}

#define MOST_FINDINGS 12

static void
add_open_findings (RwFlow *flow, const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "No."), RW_ALIGN_RIGHT, 9, 0 }, RW_MARK_BALLOON },
    { { C_("column", "Open finding"), RW_ALIGN_LEFT, 60, 1, RW_TABLE_LINES_TEXT }, 0 },
  };
  RwListing *listing = rw_listing_new (NULL, _("Open findings"), columns, G_N_ELEMENTS (columns));
  guint n = rw_findings_n (source->findings);

  listing->empty = _("Nothing was found that speaks against this rig.");
  for (guint i = 0; i < MIN (n, MOST_FINDINGS); i++)
    {
      const RwFinding *finding = rw_findings_get (source->findings, i);
      RwListingRow *row = rw_listing_take (listing, rw_cell_count (i + 1), rw_cell_text (finding->message), RW_LISTING_END);

      row->grade = (int) finding->severity;
      row->link = rw_papers_link (source, RW_PLACE_FINDING, i);
    }
  rw_flow_take_listing (flow, listing);
  if (n > MOST_FINDINGS)
    {
      g_autofree char *more = g_strdup_printf (ngettext ("And %u more.", "And %u more.", n - MOST_FINDINGS), n - MOST_FINDINGS);

      rw_flow_add_text (flow, RW_BLOCK_TEXT, more);
    }
}

/**
 * rw_papers_cover: what the show is, what the pack holds, the figures that everybody asks for, and what is still open.
 */
RwFlow *
rw_papers_cover (const RwPapersSource *source)
{
  RwFlow *flow = rw_flow_new (RW_PAPERS_COVER);

  add_show (flow, source->rig);
  flow->columns = 2;
  add_contents (flow, source);
  add_sums (flow, source);
  add_open_findings (flow, source);
  return flow;
}
