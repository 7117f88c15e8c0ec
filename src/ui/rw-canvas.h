/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

#include <paper/rw-lens.h>

#include "rw-document.h"
#include "rw-tool.h"

G_BEGIN_DECLS

/**
 * A part on its way from the shelf to the sheet: the boxed type of the value that a drag source gives:
 *   gdk_content_provider_new_typed (RW_TYPE_DRAGGED_PART, part)   with an RwPart *
 */
#define RW_TYPE_DRAGGED_PART (rw_dragged_part_get_type ())
GType rw_dragged_part_get_type (void);

#define RW_TYPE_CANVAS (rw_canvas_get_type ())
G_DECLARE_FINAL_TYPE (RwCanvas, rw_canvas, RW, CANVAS, GtkWidget)

/**
 * RwCanvas: the sheet: shows a document and lets hands and keys work on it.
 *
 * It fills what it is given; put it straight into a box or paned (it scrolls by itself). It takes the
 * keyboard focus. Its keys: Tab / Shift+Tab walk devices (off the last one the focus goes on), arrows move
 * what is selected by 5 mm (Shift: 1 mm), Enter, Delete, Escape, C, T, Ctrl+A, Ctrl+D, Ctrl+C, Ctrl+X, Ctrl+V, Ctrl+0,
 * Ctrl+1, Ctrl++, Ctrl+−. They act only while it has the focus; windows offer menu items that call the functions below.
 *
 * Properties:
 *   "document"   RwDocument
 *   "tool"       int, RwToolKind: RW_TOOL_SELECT, RW_TOOL_THREAD or RW_TOOL_PAN
 *   "dark-sheet" boolean
 *   "balloons"   boolean, TRUE: shown
 *   "finding"    int: index of the finding that is shown (the rest is dimmed), -1 = none
 *   "lens"       string: the name of an RwLensKind; set, hops are counted from where the lens itself begins
 *   "failed"     uint, readable: how many things have failed in the Failure lens
 *   "path"       boolean: the way of what is pointed at, or selected, to its controller is lit
 *   "legend"     boolean, TRUE: what the lens explains is shown in a corner
 *   "zoom"       double, readable: 1 = true size at 96 px an inch; 0.05 … 8
 *   "invitation" string (nullable): text in the middle of an empty sheet; has a default
 * Signals:
 *   "particulars" ()                  Enter or a double click: show the fields of what is selected
 *   "finding-picked" (int index)      a balloon was clicked; -1 = Escape or a click on nothing: none is to be shown
 *   "demo-requested" ()               the button on the empty sheet
 *   "insert-requested" ()             the Insert key
 *   "files-dropped" (GSList of GFile) borrowed for the call
 *   "context-menu" (double x, double y) right click or the Menu key; in the canvas's own pixels
 *   "failed" (const char *message)    a change or a paste that could not be done: one line for a person
 */
GtkWidget *rw_canvas_new (RwDocument *document);
void rw_canvas_set_document (RwCanvas *canvas, RwDocument *document);
RwDocument *rw_canvas_document (RwCanvas *canvas);
void rw_canvas_set_tool (RwCanvas *canvas, RwToolKind kind);
RwToolKind rw_canvas_tool (RwCanvas *canvas);
void rw_canvas_set_finding (RwCanvas *canvas, int index);
/* Lights up devices and cables (of guint, indices of the document's net as it is now), dims the rest and
   brings them into sight; NULL = nothing is lit. */
void rw_canvas_set_way (RwCanvas *canvas, const GArray *devices, const GArray *cables);

/* @from: (nullable): id of the device that hops are counted from. */
void rw_canvas_set_lens (RwCanvas *canvas, RwLensKind kind, const char *from);
RwLensKind rw_canvas_lens (RwCanvas *canvas);
/* (nullable) (transfer none): id of the device that the Hops lens is to count from. */
const char *rw_canvas_lens_from (RwCanvas *canvas);

/* In the Failure lens: fails the device or cable @key, or puts it back. NULL = all are put back. */
void rw_canvas_toggle_failed (RwCanvas *canvas, const char *key);
/* (transfer container): ids of what has failed. */
const char **rw_canvas_failed (RwCanvas *canvas);
/* (nullable): what the failure costs; NULL in other lenses. Borrowed until "failed" is notified or the rig changes. */
const RwOutcome *rw_canvas_outcome (RwCanvas *canvas);

/* What the Hops lens says of the device under the hand, else of @device (a net index or RW_NONE); NULL = nothing. */
char *rw_canvas_lens_text (RwCanvas *canvas, guint device);

/* Puts a device of @part in a free spot of what is seen and selects it: Insert, Enter. */
void rw_canvas_insert_part (RwCanvas *canvas, const RwPart *part);
/* Scrolls so far that the device or cable @key is seen. */
void rw_canvas_reveal (RwCanvas *canvas, const char *key);
/* Starts a cable at the selected device, to be led by arrow keys (the C key). */
void rw_canvas_begin_cable (RwCanvas *canvas);

void rw_canvas_zoom_in (RwCanvas *canvas);
void rw_canvas_zoom_out (RwCanvas *canvas);
void rw_canvas_zoom_actual (RwCanvas *canvas);
void rw_canvas_zoom_fit (RwCanvas *canvas);

void rw_canvas_copy (RwCanvas *canvas);
void rw_canvas_cut (RwCanvas *canvas);
void rw_canvas_paste (RwCanvas *canvas);

/* Where a point of the sheet (mm) lies in the canvas's own pixels, and back. */
RwPoint rw_canvas_from_sheet (RwCanvas *canvas, RwPoint sheet);
RwPoint rw_canvas_to_sheet (RwCanvas *canvas, RwPoint canvas_px);
/* The same in pixels of the surface of its window: where a mouse must go. FALSE while not shown. */
gboolean rw_canvas_sheet_to_window (RwCanvas *canvas, RwPoint sheet, RwPoint *window_px);

/* What the gestures call, in the canvas's own pixels; for tests and for hands alike. @button: GDK_BUTTON_PRIMARY … */
void rw_canvas_press (RwCanvas *canvas, guint button, guint n_press, double x, double y, GdkModifierType state);
void rw_canvas_motion (RwCanvas *canvas, double x, double y, GdkModifierType state);
void rw_canvas_release (RwCanvas *canvas, guint button, double x, double y, GdkModifierType state);
gboolean rw_canvas_key (RwCanvas *canvas, guint keyval, GdkModifierType state);
/* What the tool shows while it works. */
const RwOverlay *rw_canvas_overlay (RwCanvas *canvas);

G_END_DECLS
