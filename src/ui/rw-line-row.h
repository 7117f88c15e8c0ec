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

/* A list of RwLineRow: the lines of one side of a rig. */
GListStore *rw_line_list_new (void);
/**
 * rw_line_list_refresh:
 * @with_free: as for rw_lines_new()
 *
 * Shows the lines as @rig has them now. It keeps the rows that it can: rows that only change say so by themselves, so
 * that a list neither jumps nor loses its place under the hand.
 */
void rw_line_list_refresh (GListStore *list, const RwRig *rig, RwLineSide side, gboolean with_free);
/* Where @rows (of RwLineRow) have the line between the same places as @line; -1 = they have not. */
int rw_line_list_find (GListModel *rows, const RwLine *line);

G_END_DECLS
