/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-draw.h"

G_BEGIN_DECLS

typedef enum
{
  RW_ALIGN_LEFT,
  RW_ALIGN_RIGHT,  /* numbers */
  RW_ALIGN_MIDDLE,
} RwAlign;

/* Lines of a cell. */
#define RW_TABLE_LINES 4
#define RW_TABLE_LINES_TEXT 12
#define RW_TABLE_LINES_LIST 100 /* as many as a page holds */

/**
 * RwColumn: @head: what stands over it, with the unit of its numbers ("Length, m")
 * @least: width in mm that it never goes under
 * @grow: what share of the room that is left when everything fits it gets beside that by its width
 * @lines: most lines of a cell; more end with “…”. 0 = RW_TABLE_LINES, which is enough for names
 * @yields: 0 = it always has its place. Else, where the paper is too narrow for all columns, the one with the lowest
 *   number goes first: what it says then stands beneath its row, with its head ("Stand: low boom"), if it says anything
 */
typedef struct
{
  const char *head;
  RwAlign align;
  double least;
  double grow;
  guint lines;
  guint yields;
} RwColumn;

/**
 * RwTableLayout: a table for paper: measured once for a width, then drawn in pieces of whole rows, the head
 * over each. A cell's text is wrapped; what has more lines than its column allows, or would not fit on a page, ends
 * with “…”. Columns that say that they yield leave the others whole words on narrow paper.
 */
typedef struct _RwTableLayout RwTableLayout;

RwTableLayout *rw_table_layout_new (RwDrawContext *context, double em, const RwColumn *columns, guint n_columns);
void rw_table_layout_free (RwTableLayout *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwTableLayout, rw_table_layout_free)

void rw_table_layout_add (RwTableLayout *table, const char *const *cells, const char *link);
guint rw_table_layout_n_rows (const RwTableLayout *table);

void rw_table_layout_fit (RwTableLayout *table, double width, double page_height);
guint rw_table_layout_take (const RwTableLayout *table, guint first, double height);
double rw_table_layout_height (const RwTableLayout *table, guint first, guint n);
void rw_table_layout_draw (const RwTableLayout *table, cairo_t *cr, double x, double y, guint first, guint n,
                           const RwDrawOptions *options);

/* For tests and hit areas. Row G_MAXUINT is the head. A column that yielded has no width and its cells no letters. */
void rw_table_layout_column (const RwTableLayout *table, guint column, double *x, double *width);
RwRect rw_table_layout_text_box (const RwTableLayout *table, guint row, guint column);
double rw_table_layout_row_height (const RwTableLayout *table, guint row);
double rw_table_layout_cells_height (const RwTableLayout *table, guint row);

G_END_DECLS
