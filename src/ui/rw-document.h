/* SPDX-License-Identifier: MIT */
#pragma once

#include <file/rw-file.h>
#include <paper/rw-scene.h>
#include <rig/rw-edit.h>
#include <rig/rw-history.h>

#include "rw-document-selection.h"

G_BEGIN_DECLS

/* New and dragged devices lie on this grid. */
#define RW_GRID_MM 5.0

#define RW_TYPE_DOCUMENT (rw_document_get_type ())
G_DECLARE_FINAL_TYPE (RwDocument, rw_document, RW, DOCUMENT, GObject)

/* What of a document a "changed" signal speaks of. */
typedef enum
{
  RW_DOCUMENT_RIG = 1 << 0,      /* an item */
  RW_DOCUMENT_ANALYSIS = 1 << 1, /* the findings were computed anew */
  RW_DOCUMENT_SCENE = 1 << 2,    /* the scene is another object */
  RW_DOCUMENT_WHOLE = 1 << 3,    /* another rig altogether: history and selection are empty */
} RwDocumentWhat;

/**
 * RwDocument: one open rig, its history, its file, what is selected, and the present analysis.
 *
 * Signal "changed" (RwDocument *, guint what, RwChange *change (nullable)): @what is a set of
 *   RwDocumentWhat; @change is the one that was applied, NULL with RW_DOCUMENT_WHOLE.
 * Properties (all readable, with notify): "title" (text: the show's title, else the file's name, else
 *   “Untitled rig”), "path" (nullable), "dirty", "can-undo", "can-redo".
 */
RwDocument *rw_document_new (void);                 /* an empty rig without a file */
RwDocument *rw_document_new_for_rig (RwRig *rig);   /* unnamed, clean; takes a reference */
/* Replaces all by the rig in @path; on an error the document is as it was. */
gboolean rw_document_load (RwDocument *document, const char *path, GError **error);
/* To its own path: it must have one. */
gboolean rw_document_save (RwDocument *document, GError **error);
gboolean rw_document_save_as (RwDocument *document, const char *path, GError **error);

/* All borrowed; net, findings and scene until the next "changed". */
RwRig *rw_document_rig (RwDocument *document);
RwHistory *rw_document_history (RwDocument *document);
RwSelection *rw_document_selection (RwDocument *document);
const RwNet *rw_document_net (RwDocument *document);
const RwFindings *rw_document_findings (RwDocument *document);
RwScene *rw_document_scene (RwDocument *document);
const char *rw_document_title (RwDocument *document);
const char *rw_document_path (RwDocument *document);
gboolean rw_document_is_dirty (RwDocument *document);
/* Nothing is drawn, no file: a window may load into it. */
gboolean rw_document_is_blank (RwDocument *document);

/* @change is borrowed. An empty change does nothing and succeeds. */
gboolean rw_document_do (RwDocument *document, RwChange *change, GError **error);
/* As do(), but joined to the step before when that had the same @run: keystrokes in one field. */
gboolean rw_document_do_merged (RwDocument *document, RwChange *change, const char *run, GError **error);
void rw_document_end_run (RwDocument *document);
/* As if the run that goes on had never begun; FALSE = nothing was done in it. */
gboolean rw_document_take_back (RwDocument *document);
gboolean rw_document_undo (RwDocument *document);
gboolean rw_document_redo (RwDocument *document);

/* The findings that @change would bring, worst first (transfer full, of RwFinding); empty = none, NULL = it cannot be applied. */
GPtrArray *rw_document_preview (RwDocument *document, RwChange *change);
/* Shows devices (net indices) @dx, @dy mm from where the rig has them, while they are dragged; 0, 0 puts them back. */
void rw_document_shift (RwDocument *document, const guint *devices, guint n, double dx, double dy);

/* rw-document-edit.c: what menus and keys do. Each is one undoable step; FALSE = nothing to do. */
gboolean rw_document_delete_selected (RwDocument *document);
gboolean rw_document_duplicate_selected (RwDocument *document);
void rw_document_select_all (RwDocument *document);
/* The selected devices and the cables among them as a rig file's text, for the clipboard; NULL = nothing selected. */
char *rw_document_copy (RwDocument *document);
/* Adds the rig in @text, its top left device at @at, or (NULL) where it was or
 * the nearest place below or right of that where it covers no device; selects what came. */
gboolean rw_document_paste (RwDocument *document, const char *text, const RwPoint *at, GError **error);
/* A change that moves devices (ids, NULL-ended) by (@dx, @dy) mm, with the bends of cables between them; NULL and
 * @error when one would leave the allowed range. (transfer full). */
RwChange *rw_document_move (RwDocument *document, const char *const *devices, double dx, double dy, GError **error);
/* Moves the selected devices by (@dx, @dy) mm; calls in a row are one step. */
gboolean rw_document_nudge_selected (RwDocument *document, double dx, double dy);
/* A change that puts a new device of @part, its top left at @at; the part is copied in where the rig has it not. (transfer full). */
RwChange *rw_document_place (RwDocument *document, const RwPart *part, RwPoint at, char **device_id);
/* Gives a place to each device of @rig that has none, as the sheet has laid it out: no step, and nothing to save. */
void rw_document_settle (RwRig *rig);
/* An empty spot for a device of @part near @near, on the grid. */
RwPoint rw_document_free_spot (RwDocument *document, const RwPart *part, RwPoint near);
/* @at, or where a device of @part there would lie over another, the nearest place where it lies clear. */
RwPoint rw_document_clear_spot (RwDocument *document, const RwPart *part, RwPoint at);
/* How far the devices of @clip must be moved so that they cover none of the document's. */
RwPoint rw_document_free_shift (RwDocument *document, const RwRig *clip);

/* Lengths are shown in other units: everything that names one is made anew. */
void rw_document_retell (RwDocument *document);

G_END_DECLS
