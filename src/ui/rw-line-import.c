/* SPDX-License-Identifier: MIT */
#include "rw-line-import.h"

#include <glib/gi18n-lib.h>

static void
guess_columns (RwLineImport *import)
{
  gboolean used[RW_LINE_N_COLUMNS] = { FALSE };

  for (guint i = 0; i < import->n_columns; i++)
    {
      const char *heading = import->heading ? rw_csv_get (import->csv, 0, i) : NULL;
      int column = heading != NULL ? rw_csv_find_column (import->side, heading) : -1;

      /* the first that means it is meant */
      import->columns[i] = column >= 0 && !used[column] ? column : -1;
      if (column >= 0)
        used[column] = TRUE;
    }
}

/* A table without headings: as we export it. */
static void
assume_columns (RwLineImport *import)
{
  guint n;
  const RwLineColumn *ours = rw_line_columns (import->side, &n);

  for (guint i = 0; i < import->n_columns; i++)
    import->columns[i] = i < n ? (int) ours[i] : -1;
}

/* Takes the columns for inputs or for outputs, by their headings; what was corrected before is forgotten. */
void
rw_line_import_set_side (RwLineImport *import, RwLineSide side)
{
  import->side = side;
  import->heading = rw_csv_has_heading (import->csv, side);
  if (import->heading)
    guess_columns (import);
  else
    assume_columns (import);
}

/**
 * rw_line_import_new:
 * @csv: (transfer full): a table
 * @side: what it lists
 */
RwLineImport *
rw_line_import_new (RwCsv *csv, RwLineSide side)
{
  RwLineImport *import = g_new0 (RwLineImport, 1);

  import->csv = csv;
  import->n_columns = rw_csv_n_columns (csv);
  import->columns = g_new0 (int, import->n_columns + 1);
  rw_line_import_set_side (import, side);
  return import;
}

void
rw_line_import_free (RwLineImport *import)
{
  rw_csv_free (import->csv);
  g_free (import->columns);
  g_free (import->device);
  g_free (import->console);
  g_free (import);
}

/* Corrects what column @at of the table means; another that meant the same is not used any more. */
void
rw_line_import_set_column (RwLineImport *import, guint at, int column)
{
  g_return_if_fail (at < import->n_columns && column < (int) RW_LINE_N_COLUMNS);
  for (guint i = 0; column >= 0 && i < import->n_columns; i++)
    if (import->columns[i] == column)
      import->columns[i] = -1;
  import->columns[at] = column;
}

/* Whether anything below the heading stands in the column. */
static gboolean
column_has_text (const RwLineImport *import, guint column)
{
  for (guint i = import->heading ? 1 : 0; i < import->csv->rows->len; i++)
    if (rw_line_says_something (rw_csv_get (import->csv, i, column)))
      return TRUE;
  return FALSE;
}

static void
remark_unused (const RwLineImport *import, GPtrArray *remarks)
{
  for (guint i = 0; i < import->n_columns; i++)
    {
      const char *heading = import->heading ? rw_csv_get (import->csv, 0, i) : NULL;

      if (import->columns[i] >= 0 || !column_has_text (import, i))
        continue;
      if (rw_line_says_something (heading))
        /* Translators: a column's number and heading. */
        g_ptr_array_add (remarks, g_strdup_printf (_("Column %u, “%s”, is not used"), i + 1, heading));
      else
        g_ptr_array_add (remarks, g_strdup_printf (_("Column %u is not used"), i + 1));
    }
}

/* How many cells of the row the table itself fills, of those that are used. */
static guint
count_cells (const RwLineImport *import, guint row)
{
  guint n = 0;

  for (guint i = 0; i < import->n_columns; i++)
    n += import->columns[i] >= 0 && rw_line_says_something (rw_csv_get (import->csv, row, i));
  return n;
}

static void
remark_problem (const RwLineImport *import, const RwLineProblem *problem, GPtrArray *remarks)
{
  guint line = g_array_index (import->csv->lines, guint, problem->row), n = count_cells (import, problem->row);
  const char *title = rw_line_column_title (import->side, problem->column);

  if (problem->left_out)
    /* Translators: a line's number, how many cells of it, a column's heading, what stands in that cell, what is wrong
       with it. */
    g_ptr_array_add (remarks, g_strdup_printf (ngettext ("Line %u is left out with its %u cell: %s “%s” %s",
                                                         "Line %u is left out with its %u cells: %s “%s” %s", n),
                                               line, n, title, problem->text, problem->why));
  else
    /* Translators: as before; the rest of the line is taken. */
    g_ptr_array_add (remarks, g_strdup_printf (_("Line %u: %s “%s” %s"), line, title, problem->text, problem->why));
}

static void
set_row (RwLineImport *import, RwLineEdit *edit, guint row)
{
  const char *cells[RW_LINE_N_COLUMNS] = { NULL };

  for (guint i = 0; i < import->n_columns; i++)
    if (import->columns[i] >= 0 && rw_line_says_something (rw_csv_get (import->csv, row, i)))
      cells[import->columns[i]] = rw_csv_get (import->csv, row, i);
  if (cells[RW_LINE_STAGE] == NULL)
    cells[RW_LINE_STAGE] = import->device;
  if (cells[RW_LINE_CONSOLE] == NULL && (cells[RW_LINE_STRIP] != NULL || cells[RW_LINE_CHANNEL] != NULL))
    cells[RW_LINE_CONSOLE] = import->console;
  rw_line_edit_set (edit, row, NULL, cells);
}

/**
 * rw_line_import_change:
 * @rig: where it shall go
 * @remarks: (out) (transfer full) (element-type utf8): each column and cell that will not get into the rig, and why
 * @n_lines: (out): how many rows of the table will
 *
 * Empty cells leave what the rig knows.
 *
 * Returns: (transfer full): the change, one step to undo
 */
RwChange *
rw_line_import_change (RwLineImport *import, const RwRig *rig, GPtrArray **remarks, guint *n_lines)
{
  RwLineEdit *edit = rw_line_edit_new (rig, import->side, _("Import Lines"));
  g_autoptr (GPtrArray) problems = NULL;
  RwChange *change;
  guint first = import->heading ? 1 : 0;

  for (guint i = first; i < import->csv->rows->len; i++)
    set_row (import, edit, i);
  change = rw_line_edit_finish (edit, &problems);
  *remarks = g_ptr_array_new_with_free_func (g_free);
  *n_lines = import->csv->rows->len - MIN (first, import->csv->rows->len);
  remark_unused (import, *remarks);
  for (guint i = 0; i < problems->len; i++)
    {
      const RwLineProblem *problem = g_ptr_array_index (problems, i);
      remark_problem (import, problem, *remarks);
      *n_lines -= problem->left_out;
    }
  return change;
}
