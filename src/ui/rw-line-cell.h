/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

#include "rw-line-row.h"

G_BEGIN_DECLS

#define RW_TYPE_LINE_CELL (rw_line_cell_get_type ())
G_DECLARE_FINAL_TYPE (RwLineCell, rw_line_cell, RW, LINE_CELL, GtkWidget)

typedef enum
{
  RW_LINE_CELL_IN_RANGE = 1 << 0,  /* among the chosen cells */
  RW_LINE_CELL_AT_CURSOR = 1 << 1, /* the one that keys work on */
  RW_LINE_CELL_CORNER = 1 << 2,    /* the last of the chosen: shows the handle to fill down by */
  RW_LINE_CELL_IN_FILL = 1 << 3,   /* would be filled if the handle were let go now */
} RwLineCellState;

typedef enum
{
  RW_LINE_CELL_PLAIN,
  RW_LINE_CELL_HANDLE,
  RW_LINE_CELL_TICK,  /* phantom power: on or off */
  RW_LINE_CELL_ARROW, /* opens the list of what can stand there */
} RwLineCellSpot;

/* RwLineCell: one cell of the line list: text that it draws itself, and an entry while it is typed in. */
GtkWidget *rw_line_cell_new (RwLineColumn column, GtkListItem *item);
void rw_line_cell_bind (RwLineCell *cell);
void rw_line_cell_unbind (RwLineCell *cell);
RwLineColumn rw_line_cell_get_column (RwLineCell *cell);
guint rw_line_cell_get_position (RwLineCell *cell);
/* @state: of RwLineCellState. */
void rw_line_cell_set_state (RwLineCell *cell, guint state);
/* What is at that point of the cell, in its own pixels. */
RwLineCellSpot rw_line_cell_get_spot (RwLineCell *cell, double x, double y);
/* Puts an entry with @text into the cell and the keyboard into the entry. */
void rw_line_cell_begin_edit (RwLineCell *cell, const char *text);
void rw_line_cell_end_edit (RwLineCell *cell);
/* What is typed in it is not taken: it is marked, and all of it chosen (@choose), so that the next letter writes over it. */
void rw_line_cell_refuse (RwLineCell *cell, gboolean choose);
/* Gives the keyboard to the cell, or to its entry while it has one. */
void rw_line_cell_grab_focus (RwLineCell *cell);
const char *rw_line_cell_get_edited (RwLineCell *cell);
GtkWidget *rw_line_cell_get_entry (RwLineCell *cell);
gboolean rw_line_cell_chooses (RwLineColumn column);
/* How wide a column of such cells is in @list, px. */
int rw_line_cell_width (GtkWidget *list, RwLineSide side, RwLineColumn column);

G_END_DECLS
