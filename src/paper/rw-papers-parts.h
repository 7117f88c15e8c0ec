/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-listing.h"
#include "rw-papers.h"
#include "rw-plan-parts.h"

G_BEGIN_DECLS

/* What the sections are made from: one analysis for all of them. */
typedef struct
{
  const RwRig *rig;
  RwNet *net;
  RwFindings *findings;
  RwScene *scene;
  const RwPapersOptions *options;
  GHashTable *channels; /* key → RwChannel; borrowed */
  RwLens *lens;
  RwClouds *clouds;     /* (nullable) */
  gboolean tiled;       /* the drawing lies on several sheets */
} RwPapersSource;
void rw_papers_source_init (RwPapersSource *source, const RwRig *rig, const RwPapersOptions *options);
void rw_papers_source_clear (RwPapersSource *source);

gboolean rw_papers_has (const RwPapersSource *source, RwPapersSection section);
const char *rw_papers_channel_name (const RwPapersSource *source, const char *device, RwChannelSide side, int number);
const RwChannel *rw_papers_channel (const RwPapersSource *source, const char *device, RwChannelSide side, int number);

/* Texts for cells, newly made. */
char *rw_cell_text (const char *text);                   /* "" for NULL */
char *rw_cell_count (guint count);
char *rw_cell_number (double number, guint digits);      /* "—" for 0 */
char *rw_cell_length (double metres, int digits);
char *rw_cell_plain (double number);                     /* likewise, with as many digits as it needs */
char *rw_cell_word (const RwField *field, int index);    /* the word's label, "—" for absent */
char *rw_cell_phantom (const RwChannel *channel, const char *on);
guint rw_digits_needed (const double *numbers, guint n);
guint rw_length_digits (const RwNet *net); /* those that the lengths of all cables need */
char *rw_plane_word (RwLineStyle style);

/* Names of places: KIND-INDEX, the index that of the net or of the findings. */
#define RW_PLACE_DEVICE "device"
#define RW_PLACE_CARD "card"
#define RW_PLACE_ROW "row" /* of the cable schedule */
#define RW_PLACE_SECTION "section"
#define RW_PLACE_TILE "tile"
#define RW_PLACE_CONTENTS "contents"
#define RW_PLACE_TILED "tiled-" /* before the name of what the overview has as well */
char *rw_place (const char *kind, guint index);
/* NULL where the papers have no such place. */
char *rw_papers_link (const RwPapersSource *source, const char *kind, guint index);

/* A piece of what runs down the pages of a section. */
typedef enum
{
  RW_BLOCK_HEADING,
  RW_BLOCK_TEXT,
  RW_BLOCK_CAUTION,  /* framed */
  RW_BLOCK_TABLE,
  RW_BLOCK_SIGN,     /* room for remarks, date and signature */
  RW_BLOCK_BIG,      /* the title on the cover */
} RwBlockKind;

typedef struct _RwBlock RwBlock;
struct _RwBlock
{
  RwBlockKind kind;
  char *text;
  RwListing *listing;
  char *place;         /* (nullable) */
  char *entry;         /* (nullable): its line in the outline */
  gboolean starts_group; /* what follows up to the next group stays together if a page can hold it */
  const RwBlock *caution; /* (nullable): of the same flow; stands on each page that shows a row of this table that is warned */
  gboolean on_need;       /* such a caution has no place of its own beside those pages */
};

/* What a section holds. */
typedef struct
{
  RwPapersSection section;
  GPtrArray *blocks;  /* of RwBlock */
  guint columns;      /* of the page */
} RwFlow;
RwFlow *rw_flow_new (RwPapersSection section);
void rw_flow_free (RwFlow *flow);
RwBlock *rw_flow_add_text (RwFlow *flow, RwBlockKind kind, const char *text);
RwBlock *rw_flow_take_listing (RwFlow *flow, RwListing *listing);

/* rw-papers-flow.c: where a piece of a block stands on the pages of its flow. */
typedef struct
{
  guint block;
  guint page;      /* of the flow, from 0 */
  double x, y, w;
  guint first, n;  /* rows of a table */
} RwPiece;
guint rw_flow_break (const RwFlow *flow, RwDrawContext *context, RwRect body, double em, GArray *pieces);
RwTableLayout *rw_flow_table (const RwBlock *block, RwDrawContext *context, double em, double width, double page_height);
void rw_flow_draw_piece (const RwFlow *flow, const RwPiece *piece, RwTableLayout *table, cairo_t *cr, double em,
                         const RwDrawOptions *options);
void rw_place_mark (cairo_t *cr, const char *name, double x, double y, const RwDrawOptions *options);

typedef RwFlow *(*RwPapersBuilder) (const RwPapersSource *source);
RwPapersBuilder rw_papers_builder (RwPapersSection section);
/* One builder a section; NULL = the section has nothing to say. Plan and labels have their own ways. */
RwFlow *rw_papers_equipment (const RwPapersSource *source);
RwFlow *rw_papers_network (const RwPapersSource *source);
RwFlow *rw_papers_ports (const RwPapersSource *source);
RwFlow *rw_papers_cables (const RwPapersSource *source);
RwFlow *rw_papers_pull (const RwPapersSource *source);
RwFlow *rw_papers_lines (const RwPapersSource *source);
RwFlow *rw_papers_cards (const RwPapersSource *source);
RwFlow *rw_papers_proving (const RwPapersSource *source);
RwFlow *rw_papers_findings (const RwPapersSource *source);
RwFlow *rw_papers_revisions (const RwPapersSource *source);
RwFlow *rw_papers_cover (const RwPapersSource *source);
char *rw_papers_vlan_text (const RwDevice *device, const char *port);
char *rw_papers_far_end (const RwNet *net, guint port);
gboolean rw_papers_make_folder (const char *folder, GError **error);
RwListing *rw_papers_cards_listing (const RwPapersSource *source);
RwListing *rw_papers_labels_listing (const RwPapersSource *source);

/* rw-papers-plan.c: the drawing on one sheet, or an overview and tiles. */
typedef struct _RwPlanTiles RwPlanTiles;
RwPlanTiles *rw_plan_tiles_new (RwDrawContext *context, const RwPapersSource *source, double width, double height);
void rw_plan_tiles_free (RwPlanTiles *tiles);
guint rw_plan_tiles_n_pages (const RwPlanTiles *tiles);
double rw_plan_tiles_scale (const RwPlanTiles *tiles);
char *rw_plan_tiles_scale_text (const RwPlanTiles *tiles, guint page);
void rw_plan_tiles_draw (const RwPlanTiles *tiles, cairo_t *cr, const RwPapersSource *source, guint page, guint first_sheet,
                    const RwTitle *title, const RwDrawOptions *options);

/* rw-papers-cut.c: where a drawing on several sheets is cut. */
#define RW_CUT_DEVICE 1000 /* what it costs to part a device */
double rw_cut_step (double length);
guint rw_cut_places (const RwScene *scene, gboolean down, double from, double length, guint n, double most, double *cuts);

/* rw-papers-tile.c: one sheet of it. */
typedef struct
{
  RwRect rect;     /* what it shows, in the drawing's mm */
  RwRect place;    /* where that lies on the paper */
  double scale;
  guint behind[4]; /* by RwEdge: the sheet that goes on there; 0 = none */
} RwPlanTile;
void rw_plan_tile_transform (const RwPlanTile *tile, cairo_t *cr);
void rw_plan_tile_draw (const RwPlanTile *tile, cairo_t *cr, const RwScene *scene, const RwDrawOptions *options);

/* rw-labels.c */
typedef struct
{
  char *big, *small[3];
  gsize keep[3]; /* bytes at the end of a small line that stay when it is cut */
} RwLabelText;
GPtrArray *rw_labels_new (const RwPapersSource *source); /* of RwLabelText */
guint rw_labels_n_pages (const RwLabelGrid *grid, guint n_labels);
void rw_labels_draw_page (cairo_t *cr, const GPtrArray *labels, const RwLabelGrid *grid, double width, double height, guint page,
                          const RwDrawOptions *options);

G_END_DECLS
