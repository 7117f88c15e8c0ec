/* SPDX-License-Identifier: MIT */
/* Cells of a line list that were not taken, and what is told of them. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-line-target.h"

void
rw_line_problem_free (RwLineProblem *problem)
{
  rw_line_clear (&problem->line);
  g_free (problem->text);
  g_free (problem->why);
  g_free (problem);
}

/**
 * rw_line_problems_n_cells:
 * @problems: (element-type RwLineProblem): of one edit
 *
 * Returns: how many cells were not taken in all
 */
guint
rw_line_problems_n_cells (const GPtrArray *problems)
{
  guint n = 0;

  for (guint i = 0; i < problems->len; i++)
    n += ((const RwLineProblem *) problems->pdata[i])->n_cells;
  return n;
}

/* @text: (nullable): what was typed. Returns: (transfer none): the new problem */
RwLineProblem *
rw_line_desk_problem (RwLineDesk *desk, guint row, RwLineColumn column, const char *text, const char *why)
{
  RwLineProblem *problem = g_new0 (RwLineProblem, 1);

  problem->row = row;
  problem->column = column;
  problem->text = g_strdup (text != NULL ? text : "");
  problem->why = g_strdup (why);
  problem->n_cells = 1;
  g_ptr_array_add (desk->problems, problem);
  return problem;
}

/* Where the column stands in a list of that side; those that it does not show come last. */
static guint
shown_place (RwLineSide side, int column)
{
  guint n;
  const RwLineColumn *columns = rw_line_columns (side, &n);

  for (guint i = 0; i < n; i++)
    if ((int) columns[i] == column)
      return i;
  return n + (guint) column;
}

static int
compare_problems (gconstpointer a, gconstpointer b, gpointer side)
{
  const RwLineProblem *x = *(RwLineProblem *const *) a, *y = *(RwLineProblem *const *) b;
  guint left = shown_place (GPOINTER_TO_UINT (side), x->column), right = shown_place (GPOINTER_TO_UINT (side), y->column);

  return x->row != y->row ? (x->row > y->row) - (x->row < y->row) : (left > right) - (left < right);
}

/* By their rows, then by the columns as they are shown. */
void
rw_line_desk_sort_problems (RwLineDesk *desk)
{
  g_ptr_array_sort_with_data (desk->problems, compare_problems, GUINT_TO_POINTER (desk->side));
}

/* (nullable): the problem of that cell, from the one at @first on */
static RwLineProblem *
problem_of (const RwLineDesk *desk, guint first, RwLineColumn column)
{
  for (guint i = first; i < desk->problems->len; i++)
    if (((RwLineProblem *) desk->problems->pdata[i])->column == (int) column)
      return desk->problems->pdata[i];
  return NULL;
}

/* The one that is shown first, of those from @first on; there must be one. */
static RwLineProblem *
shown_first (const RwLineDesk *desk, guint first)
{
  RwLineProblem *best = desk->problems->pdata[first];

  for (guint i = first + 1; i < desk->problems->len; i++)
    {
      RwLineProblem *problem = desk->problems->pdata[i];
      if (shown_place (desk->side, problem->column) < shown_place (desk->side, best->column))
        best = problem;
    }
  return best;
}

/* The cell for whose sake that of @column was not taken: that of the device which it counts on, if that is wrong. */
static RwLineColumn
cause_of (const RwLineDesk *desk, guint first, RwLineColumn column)
{
  RwLineColumn owner = column == RW_LINE_SOCKET ? RW_LINE_STAGE : RW_LINE_CONSOLE;

  return problem_of (desk, first, owner) != NULL ? owner : (RwLineColumn) shown_first (desk, first)->column;
}

/* Whether the cell would say something else than it does. */
static gboolean
would_change (const RwLine *before, RwLineColumn column, const char *typed)
{
  g_autofree char *present = typed != NULL ? rw_line_text (before, column) : NULL;
  g_autofree char *is = typed != NULL ? rw_line_fold (present) : NULL;
  g_autofree char *was_typed = typed != NULL ? rw_line_fold (typed) : NULL;

  return typed != NULL && strcmp (is, was_typed) != 0;
}

/**
 * rw_line_desk_tell_stuck:
 * @first: the problems from here on say why the line stays where it is; one at least
 * @before: the line, which stays so
 * @cells: as for rw_line_edit_set()
 *
 * The other cells that say where it should go are not taken either: each becomes a problem that names the cause.
 */
void
rw_line_desk_tell_stuck (RwLineDesk *desk, guint row, guint first, const RwLine *before, const char *const *cells)
{
  gboolean told[RW_LINE_N_COLUMNS];
  RwLineColumn causes[RW_LINE_N_COLUMNS];

  g_return_if_fail (first < desk->problems->len);
  for (RwLineColumn i = RW_LINE_STAGE; i <= RW_LINE_STRIP; i++)
    {
      told[i] = problem_of (desk, first, i) != NULL || !would_change (before, i, cells[i]);
      causes[i] = cause_of (desk, first, i);
    }
  for (RwLineColumn i = RW_LINE_STAGE; i <= RW_LINE_STRIP; i++)
    if (!told[i])
      {
        /* Translators: %s is a column's heading. It follows what stands in another cell of the row: “5” was not taken,
           since “Console” of its row was not. */
        g_autofree char *why = g_strdup_printf (_("was not taken, since “%s” of its row was not"),
                                                rw_line_column_title (desk->side, causes[i]));
        rw_line_desk_problem (desk, row, i, cells[i], why);
      }
}

/**
 * rw_line_desk_leave_out:
 * @first: the problems from here on are of one new line
 * @first_where: those from here on say why it comes to nothing; one at least
 * @cells: as for rw_line_edit_set()
 *
 * One of these speaks for all cells of the row that say something: the one that is shown first.
 */
void
rw_line_desk_leave_out (RwLineDesk *desk, guint first, guint first_where, const char *const *cells)
{
  RwLineProblem *cause;

  g_return_if_fail (first_where < desk->problems->len);
  for (guint i = first; i < desk->problems->len; i++)
    ((RwLineProblem *) desk->problems->pdata[i])->n_cells = 0;
  cause = shown_first (desk, first_where);
  cause->left_out = TRUE;
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    cause->n_cells += rw_line_says_something (cells[i]);
}
