/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-difference.h>
#include <rig/rw-revision.h>

#include "rw-papers-parts.h"

/**
 * rw_papers_findings: all findings, numbered as their balloons on the drawing, with why and remedy.
 */
RwFlow *
rw_papers_findings (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "No."), RW_ALIGN_MIDDLE, 12, 0 }, RW_MARK_BALLOON },
    { { C_("column", "Severity"), RW_ALIGN_LEFT, 16, 0 }, 0 },
    { { C_("column", "Finding"), RW_ALIGN_LEFT, 60, 2, RW_TABLE_LINES_TEXT }, 0 },
    { { C_("column", "Why it matters"), RW_ALIGN_LEFT, 60, 2, RW_TABLE_LINES_TEXT, 1 }, 0 },
    { { C_("column", "What to do"), RW_ALIGN_LEFT, 60, 2, RW_TABLE_LINES_TEXT, 2 }, 0 },
    { { C_("column", "Done"), RW_ALIGN_MIDDLE, 11, 0 }, RW_MARK_TICK },
  };
  RwListing *listing = rw_listing_new ("findings", _("Findings"), columns, G_N_ELEMENTS (columns));
  RwFlow *flow = rw_flow_new (RW_PAPERS_FINDINGS);

  listing->empty = _("Nothing was found that speaks against this rig.");
  for (guint i = 0; i < rw_findings_n (source->findings); i++)
    {
      const RwFinding *finding = rw_findings_get (source->findings, i);
      RwListingRow *row = rw_listing_take (listing, rw_cell_count (i + 1), rw_cell_text (rw_severity_title (finding->severity)),
                                           rw_cell_text (finding->message), rw_cell_text (_(finding->rule->why)),
                                           rw_cell_text (_(finding->rule->remedy)), NULL, RW_LISTING_END);

      row->grade = (int) finding->severity;
      row->link = rw_papers_link (source, RW_PLACE_FINDING, i);
    }
  rw_flow_take_listing (flow, listing);
  return flow;
}

#define FIELDS_TO_WRITE 3

static RwListing *
issue_list (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "Revision"), RW_ALIGN_LEFT, 24, 0 }, 0 },
    { { C_("column", "Date"), RW_ALIGN_LEFT, 28, 0 }, 0 },
    { { C_("column", "By"), RW_ALIGN_LEFT, 44, 0 }, 0 },
    { { C_("column", "What"), RW_ALIGN_LEFT, 80, 1, RW_TABLE_LINES_TEXT }, 0 },
  };
  const RwShow *show = rw_rig_show (source->rig);
  RwItem *const *issued = rw_rig_items (source->rig, RW_ITEM_REVISION);
  RwListing *listing = rw_listing_new ("revisions", _("Revisions"), columns, G_N_ELEMENTS (columns));

  for (guint i = 0; i < rw_rig_n (source->rig, RW_ITEM_REVISION); i++)
    {
      const RwRevision *revision = (const RwRevision *) issued[i];

      rw_listing_take (listing, rw_cell_text (rw_revision_title (revision)), rw_cell_text (revision->date), rw_cell_text (revision->by),
                       rw_cell_text (revision->what), RW_LISTING_END);
    }
  if (show->revision != NULL && *show->revision != '\0' && rw_revision_find (source->rig, show->revision) == NULL)
    rw_listing_take (listing, rw_cell_text (show->revision), rw_cell_text (show->date), rw_cell_text (show->drawn_by),
                     rw_cell_text (_("This issue")), RW_LISTING_END);
  return listing;
}

/* What is new since the last issue; (nullable): nothing is. */
static RwListing *
change_list (const RwPapersSource *source)
{
  const RwListingColumn columns[] = {
    { { C_("column", "No."), RW_ALIGN_RIGHT, 12, 0 }, 0 },
    { { C_("column", "What changed"), RW_ALIGN_LEFT, 120, 1, RW_TABLE_LINES_TEXT }, 0 },
    { { C_("column", "Done"), RW_ALIGN_MIDDLE, 11, 0 }, RW_MARK_TICK },
  };
  const RwRevision *last = rw_revision_last (source->rig);
  g_autoptr (GPtrArray) differences = last != NULL ? rw_differences_new (last->state, source->rig) : NULL;
  RwListing *listing;
  g_autofree char *title = NULL;

  if (differences == NULL || differences->len == 0)
    return NULL;
  /* Translators: the letter of a revision. */
  title = g_strdup_printf (_("Changed since revision %s"), rw_revision_title (last));
  listing = rw_listing_new ("changes", title, columns, G_N_ELEMENTS (columns));
  for (guint i = 0; i < differences->len; i++)
    rw_listing_take (listing, rw_cell_count (i + 1), rw_cell_text (((const RwDifference *) differences->pdata[i])->message), NULL,
                     RW_LISTING_END);
  return listing;
}

/**
 * rw_papers_revisions: the revisions that were issued, what changed since, and room to write more by hand; NULL where the
 * show has none.
 */
RwFlow *
rw_papers_revisions (const RwPapersSource *source)
{
  RwListing *issues = issue_list (source), *changes;
  RwFlow *flow;

  if (issues->rows->len == 0)
    {
      rw_listing_free (issues);
      return NULL;
    }
  flow = rw_flow_new (RW_PAPERS_REVISIONS);
  rw_flow_take_listing (flow, issues);
  changes = change_list (source);
  if (changes != NULL)
    rw_flow_take_listing (flow, changes);
  rw_flow_add_text (flow, RW_BLOCK_TEXT, _("Write changes made on site below, with date and name, and pass them to whoever keeps the drawing."));
  for (guint i = 0; i < FIELDS_TO_WRITE; i++)
    rw_flow_add_text (flow, RW_BLOCK_SIGN, NULL);
  return flow;
}
