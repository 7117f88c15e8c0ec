/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

#include "rw-document.h"
#include "rw-line-row.h"

G_BEGIN_DECLS

#define RW_TYPE_LINE_VIEW (rw_line_view_get_type ())
G_DECLARE_FINAL_TYPE (RwLineView, rw_line_view, RW, LINE_VIEW, GtkWidget)

/**
 * RwLineView: the line list of a document: one row a line, every cell typed in, pasted into, filled down.
 *
 * While devices are selected on the sheet, it lists their lines only.
 * Signals:
 *   "way" ()        another line is chosen, or none: rw_line_view_get_line()
 *   "close" ()      its close button, or Escape while nothing is typed
 *   "import", "export", "sets" ()   their buttons
 */
GtkWidget *rw_line_view_new (void);
void rw_line_view_set_document (RwLineView *view, RwDocument *document);
void rw_line_view_set_side (RwLineView *view, RwLineSide side);
RwLineSide rw_line_view_get_side (RwLineView *view);
void rw_line_view_set_with_free (RwLineView *view, gboolean with_free);
/* Puts the keyboard into the list, at its first cell where none was chosen yet. */
void rw_line_view_focus (RwLineView *view);
/* The line that keys work on; NULL = none. Borrowed until the next change. */
const RwLine *rw_line_view_get_line (RwLineView *view);
/* No line is chosen any more. */
void rw_line_view_choose_none (RwLineView *view);
/* How many lines are listed; the blank row for a new one is the next. */
guint rw_line_view_n_rows (RwLineView *view);

/* What hands and keys do; rows and columns as they are shown, from 0. */
void rw_line_view_choose (RwLineView *view, int row, int column, gboolean extend);
gboolean rw_line_view_key (RwLineView *view, guint keyval, GdkModifierType state);
char *rw_line_view_get_text (RwLineView *view, guint row, RwLineColumn column);
gboolean rw_line_view_type (RwLineView *view, const char *text);
/* What is being typed goes into the rig, that of the blank row too; FALSE where it cannot: the foot says why, and it stays. */
gboolean rw_line_view_settle (RwLineView *view);
char *rw_line_view_copy_text (RwLineView *view);
/* All rows that are listed, under their headings, as CSV (RFC 4180, UTF-8). */
char *rw_line_view_csv_text (RwLineView *view);
void rw_line_view_paste_text (RwLineView *view, const char *text);
void rw_line_view_fill_down (RwLineView *view);
void rw_line_view_fill_to (RwLineView *view, int last);
/* Picks a row of the open list for the chosen lines; FALSE where none is open. */
gboolean rw_line_view_pick (RwLineView *view, guint row);
void rw_line_view_empty_cells (RwLineView *view);
void rw_line_view_remove_lines (RwLineView *view);
/* What stands at its foot: a caution, or what was not understood; "" = nothing. */
const char *rw_line_view_get_remark (RwLineView *view);

G_END_DECLS
