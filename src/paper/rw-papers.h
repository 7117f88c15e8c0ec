/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-pull.h>
#include "rw-sheet.h"

G_BEGIN_DECLS

/* The one list of the sections, in the order in which they are bound: id, name for the command line, title. */
#define RW_PAPERS_SECTIONS(X) \
  X (COVER, "cover", N_("Cover")) \
  X (PLAN, "plan", N_("Cable plan")) \
  X (EQUIPMENT, "equipment", N_("Equipment")) \
  X (NETWORK, "network", N_("IDs and network settings")) \
  X (CABLES, "cables", N_("Cable schedule")) \
  X (PULL, "pull", N_("Pull list")) \
  X (PORTS, "ports", N_("Switch ports")) \
  X (LINES, "lines", N_("Line lists")) \
  X (CARDS, "cards", N_("Setup cards")) \
  X (LABELS, "labels", N_("Labels")) \
  X (PROVING, "proving", N_("Proving sheet")) \
  X (FINDINGS, "findings", N_("Findings")) \
  X (REVISIONS, "revisions", N_("Revisions"))

typedef enum
{
#define RW_PAPERS_ID(id, name, title) RW_PAPERS_##id,
  RW_PAPERS_SECTIONS (RW_PAPERS_ID)
#undef RW_PAPERS_ID
} RwPapersSection;
#define RW_N_PAPERS_SECTIONS (RW_PAPERS_REVISIONS + 1)
#define RW_PAPERS_ALL ((1u << RW_N_PAPERS_SECTIONS) - 1)

const char *rw_papers_section_name (RwPapersSection section);
const char *rw_papers_section_title (RwPapersSection section);
int rw_papers_section_find (const char *name);

/* A sheet of labels: all in mm; @first: the first label that is not used yet, counted from 1 along the rows. */
typedef struct
{
  guint rows, columns;
  double top, right, bottom, left;
  double gap_x, gap_y;
  guint first;
} RwLabelGrid;
char *rw_label_grid_text (const RwLabelGrid *grid);
gboolean rw_label_grid_parse (const char *text, RwLabelGrid *grid, GError **error);
gboolean rw_label_grid_check (const RwLabelGrid *grid, const RwPaper *paper, GError **error);

/* rw-stock.c: the cables that are in stock, of each medium (index: RwMedium) their lengths. */
#define RW_N_STOCK_MEDIA (RW_MEDIUM_SINGLEMODE + 1)
typedef struct
{
  GArray *lengths[RW_N_STOCK_MEDIA]; /* of RwStockLength */
  double spares_percent;
} RwStock;
RwStock *rw_stock_new (void);
RwStock *rw_stock_parse (const char *text, GError **error);
char *rw_stock_text (const RwStock *stock);
RwStock *rw_stock_copy (const RwStock *stock);
void rw_stock_free (RwStock *stock);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwStock, rw_stock_free)

/**
 * @sections: bit i = section i is in; those that have nothing to say are left out anyway
 * @since, @stock: have to outlive the making of the papers only
 * @stock: (nullable): NULL = the usual lengths, as many as are asked for
 */
typedef struct
{
  const RwPaper *paper;
  gboolean portrait; /* of the tables and the drawing; labels are always upright */
  gboolean mono;
  double scale;      /* of the drawing; 0 = as large as can be read on the fewest sheets, 0.5 = 1:2 */
  RwLensKind lens;
  const RwRig *since; /* (nullable): an older state, sealed: clouds go round what changed */
  guint sections;
  RwLabelGrid labels;
  const RwStock *stock;
} RwPapersOptions;
void rw_papers_options_init (RwPapersOptions *options);
/* The paper, upright, on which labels are printed. */
const RwPaper *rw_papers_label_paper (const RwPapersOptions *options);

/**
 * RwPapers: the whole pack, broken into pages and ready to be drawn. It belongs to the thread that made it, and keeps
 * nothing of the rig that a change of it could alter.
 */
typedef struct _RwPapers RwPapers;
RwPapers *rw_papers_new (const RwRig *rig, const RwPapersOptions *options);
void rw_papers_free (RwPapers *papers);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwPapers, rw_papers_free)
const RwRig *rw_papers_rig (const RwPapers *papers);
guint rw_papers_n_pages (const RwPapers *papers);
/* Of the drawing, on its tiles where it has some: smaller than what was asked for where that would take too many sheets. 0: there is none. */
double rw_papers_scale (const RwPapers *papers);
RwPapersSection rw_papers_page_section (const RwPapers *papers, guint page);
void rw_papers_page_size (const RwPapers *papers, guint page, double *width_mm, double *height_mm);
void rw_papers_draw_page (RwPapers *papers, guint page, cairo_t *cr);
/* FALSE: without links, as for paper, or for a sheet that lies apart from those to which they lead. TRUE at first. */
void rw_papers_set_linked (RwPapers *papers, gboolean linked);

typedef struct
{
  const char *title;
  guint page;
  guint level; /* 0 = a section, 1 = within the section before it */
} RwPapersEntry;
guint rw_papers_n_entries (const RwPapers *papers);
const RwPapersEntry *rw_papers_entry (const RwPapers *papers, guint index);

/* Asked after each page; FALSE stops. */
typedef gboolean (*RwPapersProgress) (guint done, guint n_pages, gpointer user_data);
/* The same from papers that are there already: all in one, or a file for each sheet in a folder. */
gboolean rw_papers_write_pdf (RwPapers *papers, const char *path, RwPapersProgress progress, gpointer user_data, GError **error);
gboolean rw_papers_write_sheets (RwPapers *papers, const char *folder, RwPapersProgress progress, gpointer user_data, GError **error);
gboolean rw_papers_export (const RwRig *rig, const char *path, const RwPapersOptions *options, RwPapersProgress progress,
                           gpointer user_data, GError **error);
gboolean rw_papers_write_csv (const RwRig *rig, const char *folder, const RwPapersOptions *options, GError **error);

G_END_DECLS
