/* SPDX-License-Identifier: MIT */
#pragma once

#include <gio/gio.h>
#include <rig/rw-line.h>

G_BEGIN_DECLS

#define RW_TYPE_LINE_ROW (rw_line_row_get_type ())
G_DECLARE_FINAL_TYPE (RwLineRow, rw_line_row, RW, LINE_ROW, GObject)

/**
 * RwLineRow: a line as an item of a list model.
 * Signal "changed" (RwLineRow *): it shows another line, or the same with other particulars.
 */
const RwLine *rw_line_row_get (RwLineRow *row);

/* What stands in a cell of the row (transfer full). */
char *rw_line_row_text (RwLineRow *row, RwLineColumn column);

/* A row that is no line of the rig: only what was typed into it stands there (NULL = nothing; transfer none). */
RwLineRow *rw_line_row_new_blank (RwLineSide side);
gboolean rw_line_row_is_blank (RwLineRow *row);
void rw_line_row_set_side (RwLineRow *row, RwLineSide side);
const char *rw_line_row_get_typed (RwLineRow *row, RwLineColumn column);
void rw_line_row_type (RwLineRow *row, RwLineColumn column, const char *text);

/* A list of RwLineRow: the lines of one side of a rig. */
GListStore *rw_line_list_new (void);
/**
 * RwLineMove: where an edit takes a line.
 * @row: (nullable): not owned: the row that shows it now; NULL = the edit makes it
 * @line: as the edit leaves it
 */
typedef struct
{
  RwLineRow *row;
  RwLine line;
} RwLineMove;

/**
 * rw_line_list_refresh:
 * @lines: as the rig has them now
 * @moves: (nullable): of RwLineMove: of the edit that was done last
 *
 * Shows @lines. Rows stay in the order in which they stand, also where their line goes to another place, so that none
 * jumps under the hand; lines that @moves made come last, others behind those that they follow in the rig.
 */
void rw_line_list_refresh (GListStore *list, const RwLines *lines, const GArray *moves);
/* Likewise, but in the order that @compare gives RwLineRows, those that are equal as they follow each other in the rig. */
void rw_line_list_order (GListStore *list, const RwLines *lines, GCompareDataFunc compare, gpointer data);
/* (transfer full): by RwLine, alike where it goes between the same places: where @rows (of RwLineRow) have it. Its keys are
 * theirs. */
GHashTable *rw_line_list_index (GListModel *rows);
/* Where @rows (of RwLineRow) have the line between the same places as @line; -1 = they have not. */
int rw_line_list_find (GListModel *rows, const RwLine *line);

G_END_DECLS
