/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

#include "rw-line-row.h"

G_BEGIN_DECLS

#define RW_TYPE_LINE_CELL (rw_line_cell_get_type ())
G_DECLARE_FINAL_TYPE (RwLineCell, rw_line_cell, RW, LINE_CELL, GtkWidget)

/* RwLineCell: one cell of the line list: text that it draws itself, and an entry while it is typed in. */
GtkWidget *rw_line_cell_new (RwLineColumn column, GtkListItem *item);
void rw_line_cell_bind (RwLineCell *cell);
void rw_line_cell_unbind (RwLineCell *cell);
RwLineColumn rw_line_cell_get_column (RwLineCell *cell);
guint rw_line_cell_get_position (RwLineCell *cell);
/* @in_range: among the chosen cells; @at_cursor: the one that keys work on. */
void rw_line_cell_set_state (RwLineCell *cell, gboolean in_range, gboolean at_cursor);
/* Puts an entry with @text into the cell and the keyboard into the entry. */
void rw_line_cell_begin_edit (RwLineCell *cell, const char *text);
void rw_line_cell_end_edit (RwLineCell *cell);
const char *rw_line_cell_get_edited (RwLineCell *cell);

G_END_DECLS
