/* SPDX-License-Identifier: MIT */
#pragma once

#include <cairo.h>
#include "rw-cloud.h"
#include "rw-lens.h"

G_BEGIN_DECLS

/**
 * RwDrawContext: laid-out texts that are kept from one drawing to the next, a bounded number of them. Whoever
 * draws often keeps one for as long as its window lives; it belongs to one thread.
 */
typedef struct _RwDrawContext RwDrawContext;

RwDrawContext *rw_draw_context_new (void);
void rw_draw_context_free (RwDrawContext *context);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwDrawContext, rw_draw_context_free)

/**
 * Drawing of a scene on any cairo context whose user space is sheet millimetres.
 * The canvas and all exports call these functions and no others.
 */
typedef struct
{
  gboolean dark;       /* dark sheet */
  gboolean mono;       /* black and white only */
  gboolean balloons;   /* rw_draw_scene() draws them too */
  double px_per_mm;    /* of a screen, for dropping detail in steps when far out; 0 = paper: everything */
  RwRect clip;         /* only what meets it is drawn; w = 0: all */
  RwRect own;          /* w > 0: of a drawing on several sheets, what is this sheet's: words of which @clip shows but a
                        * piece are drawn whole where their middle lies in it, and else left out */
  RwDrawContext *context; /* (nullable): NULL lays every text out anew */
  const RwLens *lens;     /* (nullable): of the scene's net; NULL = Wiring */
  const RwClouds *clouds; /* (nullable): of the scene */
  gboolean unlinked;      /* no links, and no places for them to lead to */
} RwDrawOptions;

typedef struct { double r, g, b; } RwInk;
/* The one list of colours; roles, not hues. */
typedef enum
{
  RW_INK_TEXT,
  RW_INK_FAINT,       /* second-rank text and thin lines that carry no meaning of their own */
  RW_INK_SHEET,
  RW_INK_BOX,         /* inside of a device */
  RW_INK_BOX_LINE,
  RW_INK_CHAIN,
  RW_INK_PRIMARY,
  RW_INK_SECONDARY,
  RW_INK_CASING,      /* round a line whose own colour is too pale for the sheet */
  RW_INK_PLAIN,
  RW_INK_FAULT,
  RW_INK_WARNING,
  RW_INK_NOTE,
  RW_INK_SELECTED,
  RW_INK_REVISION,    /* clouds round what changed */
  RW_INK_RULE,        /* between the rows of a table: leads the eye, carries no meaning */
  RW_INK_ON_FAULT,    /* text on a fill of that role; likewise the next two */
  RW_INK_ON_WARNING,
  RW_INK_ON_NOTE,
  RW_INK_NETWORK,     /* the first of four for further networks */
  RW_INK_DEPTH = RW_INK_NETWORK + 4, /* what a device's box is tinted with, the farther the more */
} RwInkRole;
#define RW_N_INK_ROLES (RW_INK_DEPTH + 1)
RwInk rw_ink (RwInkRole role, const RwDrawOptions *options);
void rw_ink_set (cairo_t *cr, RwInkRole role, const RwDrawOptions *options);

/* What is shown at a magnification; each step shows all that the one before it shows. */
typedef enum
{
  RW_DETAIL_BOXES,  /* boxes and lines */
  RW_DETAIL_NAMES,  /* a device's name, as large as its box allows */
  RW_DETAIL_PARTS,  /* name, part name and ID at their own size */
  RW_DETAIL_PORTS,  /* port letters and names, cable labels */
} RwDetail;
RwDetail rw_draw_detail (const RwDrawOptions *options);

/* The cables of a scene without and with nothing but what they say: labels, beads, marks. */
void rw_draw_lines (cairo_t *cr, const RwScene *scene, const RwDrawOptions *options);
void rw_draw_words (cairo_t *cr, const RwScene *scene, const RwDrawOptions *options);
void rw_draw_scene (cairo_t *cr, const RwScene *scene, const RwDrawOptions *options);
void rw_draw_device (cairo_t *cr, const RwScene *scene, guint device, const RwDrawOptions *options);
RwRect rw_draw_device_area (const RwScene *scene, guint device, const RwDrawOptions *options);
void rw_draw_cable (cairo_t *cr, const RwScene *scene, guint cable, const RwDrawOptions *options);
void rw_draw_cable_line (cairo_t *cr, const RwScene *scene, guint cable, const RwDrawOptions *options);
void rw_draw_cable_words (cairo_t *cr, const RwScene *scene, guint cable, const RwDrawOptions *options);
void rw_draw_balloon (cairo_t *cr, const RwScene *scene, guint balloon, const RwDrawOptions *options);
void rw_draw_clouds (cairo_t *cr, const RwDrawOptions *options);
void rw_draw_cloud (cairo_t *cr, const RwPoint *points, guint n_points, gboolean closed, const RwDrawOptions *options);
void rw_draw_revision (cairo_t *cr, RwPoint centre, double height, const char *letter, const RwDrawOptions *options);
void rw_draw_loose_cable (cairo_t *cr, const RwPoint *points, guint n_points, gboolean bad, const RwDrawOptions *options);
void rw_draw_part_ghost (cairo_t *cr, const RwPart *part, const char *name, double x, double y, const RwDrawOptions *options);

/* The pieces that these are made of, for legends and for what hangs over the sheet. */
void rw_draw_tab (cairo_t *cr, RwSide side, RwRect tab, RwEdge edge, const RwDrawOptions *options);
const char *rw_draw_tab_letter (RwSide side);
void rw_draw_line (cairo_t *cr, const RwPoint *points, guint n_points, RwLineStyle style, gboolean fault,
                   const RwDrawOptions *options);
void rw_draw_bead (cairo_t *cr, RwPoint centre, RwLineStyle style, gboolean fault, const RwDrawOptions *options);
void rw_draw_held (cairo_t *cr, RwPoint at, RwPoint along, const RwDrawOptions *options);
#define RW_MARK_HEIGHT 3.6 /* mm */
#define RW_MARK_GROWTH 4.0 /* how many times larger a mark may be drawn far out */
#define RW_FLOW_GROWTH 2.0 /* likewise of what passes */
double rw_draw_mark_width (RwDrawContext *context, const char *text);
void rw_draw_mark (cairo_t *cr, RwPoint centre, const char *text, gboolean always, const RwDrawOptions *options);
void rw_draw_flow_size (RwDrawContext *context, const RwLensFlow *flow, gboolean detailed, gboolean upright, double *w, double *h);
void rw_draw_flow (cairo_t *cr, const RwLensPlace *place, const RwLensFlow *flow, const RwDrawOptions *options);
RwRect rw_draw_badge_rect (RwDrawContext *context, RwRect box, RwCorner corner, const char *text, gboolean far);
gboolean rw_draw_badge_is_far (const RwDrawOptions *options);
RwRect rw_draw_badge_area (RwRect box, RwCorner corner, const char *text, const RwDrawOptions *options);
double rw_draw_badge (cairo_t *cr, RwRect box, RwCorner corner, const char *text, const RwDrawOptions *options);
void rw_draw_fate (cairo_t *cr, double w, double h, RwFate fate, const RwDrawOptions *options);
RwInk rw_draw_depth_ink (double depth, const RwDrawOptions *options);
void rw_draw_id_tab (cairo_t *cr, RwRect tab, const RwDrawOptions *options);
void rw_draw_severity (cairo_t *cr, RwSeverity severity, RwPoint centre, double radius, const char *text,
                       const RwDrawOptions *options);

G_END_DECLS
