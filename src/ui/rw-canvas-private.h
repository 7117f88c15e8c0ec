/* SPDX-License-Identifier: MIT */
#pragma once

#include <paper/rw-sheet-parts.h>

#include "rw-canvas-tiles.h"
#include "rw-canvas.h"

G_BEGIN_DECLS

/* Screen pixels per sheet mm at zoom 1: 96 px an inch. */
#define RW_CANVAS_PX_PER_MM (96.0 / 25.4)
#define RW_CANVAS_MIN_ZOOM 0.05
#define RW_CANVAS_MAX_ZOOM 8.0
#define RW_CANVAS_HIT_PX 6.0 /* how far a hand may miss */

/* A small arrow at the edge that stands for a finding out of sight. */
typedef struct { guint finding; RwSeverity severity; RwPoint at; RwPoint way; RwPoint foot; } RwEdgeArrow;

struct _RwCanvas
{
  GtkWidget parent_instance;

  RwDocument *document;
  RwTool *tools[RW_N_TOOLS];
  RwToolKind mode;
  RwTool *working; /* (nullable): the one that has the press or the keys */
  int finding;
  GArray *way_devices, *way_cables; /* (nullable): of guint: what is lit */
  gboolean balloons, dark_sheet, dark_desk;
  char *invitation;

  /* view */
  double zoom;
  RwPoint origin; /* where the sheet's (0, 0) lies, px */
  RwRect sheet;   /* the paper, sheet mm */
  gboolean fit_pending;
  gboolean fitted; /* the whole sheet is shown, and stays so in another size */
  GtkAdjustment *adjustments[2]; /* across, down */
  GtkWidget *bars[2];
  gboolean adjusting;

  /* layers */
  cairo_surface_t *frame_memory; /* (nullable): while there is a window */
  RwDrawContext *context;
  RwTiles *tiles;
  RwScene *shown_scene; /* the one that the tiles hold */
  guint8 *hidden_devices, *hidden_cables, *hidden_balloons; /* (nullable): not in the tiles while they are dragged */
  GHashTable *sprites;  /* of cairo_surface_t: pictures of dragged devices, by index */
  RwLensKind lens_kind;
  RwLens *lens;         /* (nullable): of the scene that is shown; NULL = Wiring */
  char *lens_from;      /* (nullable): id of the device that hops are counted from */
  GHashTable *failed;   /* set of ids: what has failed in the Failure lens; nothing of it is saved */
  char *failing_from;   /* (nullable): id of the device whose cables the arrows choose from there */
  gboolean path_shown;  /* the way of what is pointed at to its controller is lit, in whatever lens */
  RwLegend *legend;     /* (nullable): of the lens */
  gboolean legend_shown;
  guint legend_corner;  /* of the view, in which it lies */
  guint lens_pointed;   /* device whose way is lit; RW_NONE */
  GskRenderNode *marks; /* (nullable): what lies still over the tiles: veil, selection, port lights */
  GArray *arrows;       /* of RwEdgeArrow */
  GHashTable *arrow_pictures; /* of cairo_surface_t */

  /* hands */
  RwPoint pointer; /* last seen, px */
  gboolean space_down, panning;
  RwPoint pan_from, pan_origin;
  double pinch_from;
  struct { guint button, n; guint32 time; RwPoint at; } last_press;
  GtkWidget *demo_button;
  GtkWidget *invitation_label;

  /* assistive technology */
  GHashTable *exposed; /* key → child */
  guint expose_source;
};

/* rw-canvas-view.c */
double rw_canvas_scale (RwCanvas *self); /* px per mm */
void rw_canvas_view_init (RwCanvas *self);
void rw_canvas_view_allocate (RwCanvas *self, int width, int height);
void rw_canvas_view_clear (RwCanvas *self);
void rw_canvas_view_sheet_changed (RwCanvas *self);
void rw_canvas_set_origin (RwCanvas *self, double x, double y);
void rw_canvas_scroll (RwCanvas *self, double dx, double dy);
void rw_canvas_zoom_at (RwCanvas *self, double zoom, RwPoint px);
RwRect rw_canvas_rect_px (RwCanvas *self, RwRect mm);
void rw_canvas_show_point (RwCanvas *self, RwPoint mm);
void rw_canvas_show_area (RwCanvas *self, RwRect mm);

/* rw-canvas-layers.c */
void rw_canvas_layers_init (RwCanvas *self);
void rw_canvas_layers_clear (RwCanvas *self);
void rw_canvas_layers_scene_changed (RwCanvas *self);
void rw_canvas_layers_hide_moved (RwCanvas *self);
void rw_canvas_layers_show_moved (RwCanvas *self);
void rw_canvas_marks_changed (RwCanvas *self);
gboolean rw_canvas_draws_in_software (RwCanvas *self);
RwDrawOptions rw_canvas_options (RwCanvas *self);
cairo_t *rw_canvas_node (RwCanvas *self, GtkSnapshot *snapshot, RwRect mm, double pad_px);

/* rw-canvas-marks.c, rw-canvas-overlay.c: append to a snapshot */
void rw_canvas_snapshot_marks (RwCanvas *self, GtkSnapshot *snapshot);
void rw_canvas_snapshot_moved_marks (RwCanvas *self, GtkSnapshot *snapshot);
void rw_canvas_snapshot_moved (RwCanvas *self, GtkSnapshot *snapshot);
void rw_canvas_snapshot_overlay (RwCanvas *self, GtkSnapshot *snapshot);
void rw_canvas_snapshot_arrows (RwCanvas *self, GtkSnapshot *snapshot);
const RwEdgeArrow *rw_canvas_arrow_at (RwCanvas *self, double x, double y);

/* rw-canvas-verdict.c */
void rw_canvas_snapshot_verdict (RwCanvas *self, GtkSnapshot *snapshot);
RwRect rw_canvas_verdict_box (RwCanvas *self);
RwPoint rw_canvas_verdict_place (const RwRect *taken, guint n, RwPoint hand, double width, double height, RwRect view);

/* rw-canvas-input.c, rw-canvas-drop.c */
void rw_canvas_input_init (RwCanvas *self);
void rw_canvas_drop_init (RwCanvas *self);
void rw_canvas_apply (RwCanvas *self, RwChange *change);
void rw_canvas_fail (RwCanvas *self, const GError *error);
void rw_canvas_drop_finding (RwCanvas *self);
void rw_canvas_after_tool (RwCanvas *self);
RwToolPoint rw_canvas_tool_point (RwCanvas *self, double x, double y, GdkModifierType state, guint n_press);

/* rw-canvas-lens.c */
void rw_canvas_lens_renew (RwCanvas *self);
void rw_canvas_lens_clear (RwCanvas *self);
void rw_canvas_lens_point (RwCanvas *self, RwPoint mm);
void rw_canvas_path_changed (RwCanvas *self);
void rw_canvas_show_path (RwCanvas *self, gboolean shown);

/* rw-canvas-failure.c */
RwLens *rw_canvas_failure_lens (RwCanvas *self);
guint rw_canvas_n_failed (RwCanvas *self);
gboolean rw_canvas_failure_press (RwCanvas *self, double x, double y);
gboolean rw_canvas_failure_toggle_selected (RwCanvas *self);
gboolean rw_canvas_failure_step (RwCanvas *self, int step);

/* rw-canvas-legend.c */
void rw_canvas_legend_changed (RwCanvas *self);
void rw_canvas_legend_clear (RwCanvas *self);
void rw_canvas_legend_settle (RwCanvas *self);
RwRect rw_canvas_legend_box (RwCanvas *self);
void rw_canvas_snapshot_legend (RwCanvas *self, GtkSnapshot *snapshot);

/* rw-canvas-access.c */
void rw_canvas_access_changed (RwCanvas *self);
void rw_canvas_access_clear (RwCanvas *self);

/* rw-canvas.c */
void rw_canvas_light_way (RwCanvas *self, const GArray *devices, const GArray *cables);
typedef enum
{
  RW_CANVAS_PARTICULARS,
  RW_CANVAS_FINDING_PICKED,
  RW_CANVAS_DEMO_REQUESTED,
  RW_CANVAS_INSERT_REQUESTED,
  RW_CANVAS_FILES_DROPPED,
  RW_CANVAS_CONTEXT_MENU,
  RW_CANVAS_FAILED,
  RW_CANVAS_N_SIGNALS
} RwCanvasSignal;
void rw_canvas_emit (RwCanvas *self, RwCanvasSignal signal, ...);

G_END_DECLS
