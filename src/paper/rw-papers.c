/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-papers-parts.h"

#define CLEAR 7.0       /* between the frame and what stands in it: more than a centring mark is long */
#define CLEAR_FOOT 3.0  /* over the title block, where there is no mark */
#define WIDE 300.0  /* a frame so wide has larger letters in its lists */

typedef struct
{
  RwPapersSection section;
  guint index;          /* of the page in its section */
  double width, height; /* of the paper, mm */
  guint first_piece, n_pieces;
} Page;

struct _RwPapers
{
  RwPapersOptions options;
  RwPapersSource source;
  RwRig *rig;
  char *title;
  RwDrawContext *context;
  double width, height, em;
  gboolean unlinked;
  RwFlow *flows[RW_N_PAPERS_SECTIONS];
  GArray *pieces[RW_N_PAPERS_SECTIONS]; /* of RwPiece */
  guint first_page[RW_N_PAPERS_SECTIONS];
  RwPlanTiles *tiles;
  GPtrArray *labels;
  double label_width, label_height;     /* of its paper */
  GArray *pages;                        /* of Page */
  GArray *entries;                      /* of RwPapersEntry */
  /* the table that was drawn last: a long one goes over many pages */
  const RwBlock *open_block;
  RwTableLayout *open_table;
};

static const RwPapersBuilder builders[RW_N_PAPERS_SECTIONS] = {
  [RW_PAPERS_COVER] = rw_papers_cover,
  [RW_PAPERS_EQUIPMENT] = rw_papers_equipment,
  [RW_PAPERS_NETWORK] = rw_papers_network,
  [RW_PAPERS_CABLES] = rw_papers_cables,
  [RW_PAPERS_PULL] = rw_papers_pull,
  [RW_PAPERS_PORTS] = rw_papers_ports,
  [RW_PAPERS_LINES] = rw_papers_lines,
  [RW_PAPERS_CARDS] = rw_papers_cards,
  [RW_PAPERS_PROVING] = rw_papers_proving,
  [RW_PAPERS_FINDINGS] = rw_papers_findings,
  [RW_PAPERS_REVISIONS] = rw_papers_revisions,
};

/* NULL: the section is no flow. */
RwPapersBuilder
rw_papers_builder (RwPapersSection section)
{
  return builders[section];
}

/**
 * rw_papers_options_init: everything, A4 on its long side, in colour, three by eight labels.
 */
void
rw_papers_options_init (RwPapersOptions *options)
{
  *options = (RwPapersOptions) {
    .paper = rw_paper_find ("a4"),
    .sections = RW_PAPERS_ALL,
    .labels = { .rows = 8, .columns = 3, .top = 12, .right = 8, .bottom = 12, .left = 8, .gap_x = 2.5, .first = 1 },
  };
}

const RwPaper *
rw_papers_label_paper (const RwPapersOptions *options)
{
  /* larger sheets of labels are rare, and few printers take them */
  return options->paper->height_mm > 400 ? rw_paper_find ("a4") : options->paper;
}

/**
 * rw_papers_source_init: analyses @rig, which must not change while @source is in use.
 */
void
rw_papers_source_init (RwPapersSource *source, const RwRig *rig, const RwPapersOptions *options)
{
  RwItem *const *channels = rw_rig_items (rig, RW_ITEM_CHANNEL);

  source->rig = rig;
  source->options = options;
  source->net = rw_net_new (rig);
  source->findings = rw_findings_new (rig, source->net);
  source->scene = rw_scene_new (rig, source->net, source->findings);
  source->lens = rw_lens_new (source->net, options->lens, RW_NONE);
  rw_lens_place_marks (source->lens, source->scene);
  source->clouds = options->since != NULL ? rw_clouds_new (options->since, rig, source->scene) : NULL;
  source->channels = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CHANNEL); i++)
    g_hash_table_insert (source->channels, channels[i]->key, channels[i]);
}

void
rw_papers_source_clear (RwPapersSource *source)
{
  g_hash_table_unref (source->channels);
  rw_lens_unref (source->lens);
  rw_clouds_unref (source->clouds);
  rw_scene_unref (source->scene);
  rw_findings_unref (source->findings);
  rw_net_unref (source->net);
}

static void
add_entry (RwPapers *papers, const char *title, guint page, guint level)
{
  RwPapersEntry entry = { title, page, level };

  g_array_append_val (papers->entries, entry);
}

static void
add_page (RwPapers *papers, RwPapersSection section, guint index, double width, double height)
{
  Page page = { section, index, width, height, 0, 0 };

  g_array_append_val (papers->pages, page);
}

/* A cover has the whole title block, the others its strip. */
static RwRect
body_of (const RwPapers *papers, RwPapersSection section)
{
  RwRect f = rw_sheet_frame (papers->width, papers->height);
  double foot = rw_sheet_title_height (papers->context, MIN (RW_TITLE_WIDTH, f.w), section == RW_PAPERS_COVER);

  return (RwRect) { f.x + CLEAR, f.y + CLEAR, f.w - 2 * CLEAR, f.h - CLEAR - CLEAR_FOOT - foot };
}

static guint
break_flow (RwPapers *papers, RwPapersSection section)
{
  papers->pieces[section] = g_array_new (FALSE, FALSE, sizeof (RwPiece));
  return rw_flow_break (papers->flows[section], papers->context, body_of (papers, section), papers->em, papers->pieces[section]);
}

static void
add_flow_entries (RwPapers *papers, RwPapersSection section)
{
  const RwFlow *flow = papers->flows[section];
  const GArray *pieces = papers->pieces[section];

  for (guint i = 0; i < pieces->len; i++)
    {
      const RwPiece *piece = &g_array_index (pieces, RwPiece, i);
      const RwBlock *block = flow->blocks->pdata[piece->block];

      if (block->entry != NULL && piece->first == 0)
        add_entry (papers, block->entry, papers->first_page[section] + piece->page, 1);
    }
}

static void
add_flow_pages (RwPapers *papers, RwPapersSection section, guint n_pages)
{
  const GArray *pieces = papers->pieces[section];
  guint at = 0;

  for (guint i = 0; i < n_pages; i++)
    {
      Page *page;

      add_page (papers, section, i, papers->width, papers->height);
      page = &g_array_index (papers->pages, Page, papers->pages->len - 1);
      page->first_piece = at;
      while (at < pieces->len && g_array_index (pieces, RwPiece, at).page == i)
        at++;
      page->n_pieces = at - page->first_piece;
    }
  add_flow_entries (papers, section);
}

static void
add_section (RwPapers *papers, RwPapersSection section)
{
  guint n_labels;

  papers->first_page[section] = papers->pages->len;
  add_entry (papers, rw_papers_section_title (section), papers->pages->len, 0);
  if (papers->flows[section] != NULL)
    add_flow_pages (papers, section, break_flow (papers, section));
  else if (section == RW_PAPERS_PLAN)
    for (guint i = 0; i < rw_plan_tiles_n_pages (papers->tiles); i++)
      add_page (papers, section, i, papers->width, papers->height);
  else
    {
      n_labels = rw_labels_n_pages (&papers->options.labels, papers->labels->len);
      for (guint i = 0; i < n_labels; i++)
        add_page (papers, section, i, papers->label_width, papers->label_height);
    }
}

/* Builds what the sections hold, and leaves out those that have nothing to say, so that nothing leads there. */
static void
build_sections (RwPapers *papers)
{
  if (rw_papers_has (&papers->source, RW_PAPERS_PLAN))
    {
      papers->tiles = rw_plan_tiles_new (papers->context, &papers->source, papers->width, papers->height);
      papers->source.tiled = rw_plan_tiles_n_pages (papers->tiles) > 1;
    }
  if (rw_rig_n (papers->rig, RW_ITEM_DEVICE) == 0)
    papers->options.sections &= ~(1u << RW_PAPERS_CARDS | 1u << RW_PAPERS_LABELS);
  if (rw_papers_has (&papers->source, RW_PAPERS_LABELS))
    papers->labels = rw_labels_new (&papers->source);
  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    if (i != RW_PAPERS_COVER && builders[i] != NULL && rw_papers_has (&papers->source, i))
      {
        papers->flows[i] = builders[i](&papers->source);
        if (papers->flows[i] == NULL)
          papers->options.sections &= ~(1u << i);
      }
  if (rw_papers_has (&papers->source, RW_PAPERS_COVER))
    papers->flows[RW_PAPERS_COVER] = rw_papers_cover (&papers->source);
}

/* The list of contents on the cover: its rows are the other sections, in order. */
static void
fill_contents (RwPapers *papers)
{
  const GPtrArray *blocks = papers->flows[RW_PAPERS_COVER]->blocks;
  const RwListing *contents = NULL;
  guint row = 0;

  for (guint i = 0; i < blocks->len && contents == NULL; i++)
    {
      const RwBlock *block = blocks->pdata[i];

      if (g_strcmp0 (block->place, RW_PLACE_CONTENTS) == 0)
        contents = block->listing;
    }
  for (guint i = RW_PAPERS_COVER + 1; contents != NULL && i < RW_N_PAPERS_SECTIONS; i++)
    if (rw_papers_has (&papers->source, i))
      {
        RwListingRow *r = contents->rows->pdata[row++];

        g_free (r->cells[1]);
        r->cells[1] = g_strdup_printf ("%u", papers->first_page[i] + 1);
      }
}

/**
 * rw_papers_new: the pack of @rig as it is now. @options: copied, but for its stock and its older state, which have to outlive this call.
 */
RwPapers *
rw_papers_new (const RwRig *rig, const RwPapersOptions *options)
{
  RwPapers *papers;

  g_return_val_if_fail (rig != NULL && options != NULL && options->paper != NULL, NULL);

  papers = g_new0 (RwPapers, 1);
  papers->options = *options;
  papers->rig = rw_rig_copy (rig);
  papers->title = rw_rig_title (rig);
  papers->width = options->portrait ? options->paper->width_mm : options->paper->height_mm;
  papers->height = options->portrait ? options->paper->height_mm : options->paper->width_mm;
  papers->label_width = rw_papers_label_paper (options)->width_mm;
  papers->label_height = rw_papers_label_paper (options)->height_mm;
  papers->context = rw_draw_context_new ();
  papers->em = rw_sheet_frame (papers->width, papers->height).w >= WIDE ? RW_EM_LABEL : RW_EM_LEAST;
  papers->pages = g_array_new (FALSE, FALSE, sizeof (Page));
  papers->entries = g_array_new (FALSE, FALSE, sizeof (RwPapersEntry));
  rw_papers_source_init (&papers->source, papers->rig, &papers->options);
  build_sections (papers);
  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    if (rw_papers_has (&papers->source, i))
      add_section (papers, i);
  if (papers->flows[RW_PAPERS_COVER] != NULL)
    fill_contents (papers);
  papers->options.stock = NULL;
  papers->options.since = NULL;
  return papers;
}

void
rw_papers_free (RwPapers *papers)
{
  if (papers == NULL)
    return;
  g_free (papers->title);
  for (guint i = 0; i < RW_N_PAPERS_SECTIONS; i++)
    {
      rw_flow_free (papers->flows[i]);
      g_clear_pointer (&papers->pieces[i], g_array_unref);
    }
  rw_table_layout_free (papers->open_table);
  rw_plan_tiles_free (papers->tiles);
  g_clear_pointer (&papers->labels, g_ptr_array_unref);
  g_array_unref (papers->pages);
  g_array_unref (papers->entries);
  rw_papers_source_clear (&papers->source);
  rw_draw_context_free (papers->context);
  g_object_unref (papers->rig);
  g_free (papers);
}

guint
rw_papers_n_pages (const RwPapers *papers)
{
  return papers->pages->len;
}

double
rw_papers_scale (const RwPapers *papers)
{
  return papers->tiles != NULL ? rw_plan_tiles_scale (papers->tiles) : 0;
}

void
rw_papers_page_size (const RwPapers *papers, guint page, double *width_mm, double *height_mm)
{
  g_return_if_fail (page < papers->pages->len);

  *width_mm = g_array_index (papers->pages, Page, page).width;
  *height_mm = g_array_index (papers->pages, Page, page).height;
}

RwPapersSection
rw_papers_page_section (const RwPapers *papers, guint page)
{
  g_return_val_if_fail (page < papers->pages->len, RW_PAPERS_COVER);

  return g_array_index (papers->pages, Page, page).section;
}

/* As it was when the papers were made. */
const RwRig *
rw_papers_rig (const RwPapers *papers)
{
  return papers->rig;
}

void
rw_papers_set_linked (RwPapers *papers, gboolean linked)
{
  papers->unlinked = !linked;
}

guint
rw_papers_n_entries (const RwPapers *papers)
{
  return papers->entries->len;
}

/**
 * rw_papers_entry: line @index of the outline: a section, or something in the section before it.
 */
const RwPapersEntry *
rw_papers_entry (const RwPapers *papers, guint index)
{
  g_return_val_if_fail (index < papers->entries->len, NULL);

  return &g_array_index (papers->entries, RwPapersEntry, index);
}

static RwTitle
title_of (const RwPapers *papers, guint page)
{
  const RwShow *show = rw_rig_show (papers->rig);

  return (RwTitle) {
    .title = papers->title, .venue = show->venue, .date = show->date, .revision = show->revision, .drawn_by = show->drawn_by,
    .document_type = rw_papers_section_title (g_array_index (papers->pages, Page, page).section),
    .sheet = page + 1, .n_sheets = papers->pages->len,
  };
}

static RwTableLayout *
table_of (RwPapers *papers, const RwBlock *block, const RwPiece *piece, RwRect body)
{
  if (block->kind != RW_BLOCK_TABLE || block->listing->rows->len == 0)
    return NULL;
  if (papers->open_block != block)
    {
      rw_table_layout_free (papers->open_table);
      papers->open_table = rw_flow_table (block, papers->context, papers->em, piece->w, body.h);
      papers->open_block = block;
    }
  return papers->open_table;
}

static void
draw_flow (RwPapers *papers, const Page *page, cairo_t *cr, const RwTitle *title, const RwDrawOptions *options)
{
  RwFlow *flow = papers->flows[page->section];
  RwRect body = body_of (papers, page->section), f = rw_sheet_frame (page->width, page->height);
  gboolean whole = page->section == RW_PAPERS_COVER;
  double width = MIN (RW_TITLE_WIDTH, f.w), height = rw_sheet_title_height (papers->context, width, whole);

  for (guint i = page->first_piece; i < page->first_piece + page->n_pieces; i++)
    {
      const RwPiece *piece = &g_array_index (papers->pieces[page->section], RwPiece, i);
      RwTableLayout *table = table_of (papers, flow->blocks->pdata[piece->block], piece, body);

      rw_flow_draw_piece (flow, piece, table, cr, papers->em, options);
    }
  rw_sheet_draw_title (cr, (RwRect) { f.x + f.w - width, f.y + f.h - height, width, height }, title, whole, options);
}

static void
draw_plan (RwPapers *papers, const Page *page, cairo_t *cr, RwTitle *title, const RwDrawOptions *options)
{
  g_autofree char *scale = rw_plan_tiles_scale_text (papers->tiles, page->index);

  title->scale = scale;
  rw_plan_tiles_draw (papers->tiles, cr, &papers->source, page->index, papers->first_page[RW_PAPERS_PLAN] + 1, title, options);
}

/**
 * rw_papers_draw_page: draws sheet @page in millimetres from its corner, on what is there: who wants white paper paints
 * it first.
 */
void
rw_papers_draw_page (RwPapers *papers, guint page, cairo_t *cr)
{
  RwDrawOptions options = { .mono = papers->options.mono, .balloons = TRUE, .context = papers->context,
                            .lens = papers->source.lens, .clouds = papers->source.clouds, .unlinked = papers->unlinked };
  const Page *p;
  RwTitle title;

  g_return_if_fail (page < papers->pages->len);

  p = &g_array_index (papers->pages, Page, page);
  title = title_of (papers, page);
  cairo_save (cr);
  if (p->index == 0)
    {
      g_autofree char *place = rw_place (RW_PLACE_SECTION, p->section);

      rw_place_mark (cr, place, 0, 0, &options);
    }
  if (papers->flows[p->section] != NULL)
    draw_flow (papers, p, cr, &title, &options);
  else if (p->section == RW_PAPERS_PLAN)
    draw_plan (papers, p, cr, &title, &options);
  else
    rw_labels_draw_page (cr, papers->labels, &papers->options.labels, p->width, p->height, p->index, &options);
  if (p->section != RW_PAPERS_LABELS)
    rw_sheet_draw_frame (cr, p->width, p->height, &options);
  cairo_restore (cr);
}
