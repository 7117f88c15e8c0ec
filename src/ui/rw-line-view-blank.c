/* SPDX-License-Identifier: MIT */
/* The blank row at the end of the line list: what is typed there is gathered until the hand leaves the row, and becomes a
 * line then. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>

gboolean
rw_line_view_is_blank (RwLineView *view, int row)
{
  return row >= 0 && row == (int) rw_line_view_n_rows (view);
}

/* What is to stand in the cell of the blank row; "" = nothing. */
void
rw_line_view_set_blank (RwLineView *view, RwLineColumn column, const char *text)
{
  rw_line_row_type (view->blank, column, rw_line_says_something (text) ? text : NULL);
}

void
rw_line_view_clear_blank (RwLineView *view)
{
  for (guint i = 0; view->blank != NULL && i < RW_LINE_N_COLUMNS; i++) /* not when the list went before */
    rw_line_row_type (view->blank, i, NULL);
}

gboolean
rw_line_view_has_blank (RwLineView *view)
{
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    if (rw_line_row_get_typed (view->blank, i) != NULL)
      return TRUE;
  return FALSE;
}

/**
 * rw_line_view_fit_filter:
 * @cells: (array fixed-size=RW_LINE_N_COLUMNS): of a new line
 *
 * Where the list keeps to the lines of one device, a line that names none is of that device.
 */
void
rw_line_view_fit_filter (RwLineView *view, const char **cells)
{
  const RwRig *rig = rw_document_rig (view->document);
  const RwDevice *device = NULL;
  GHashTableIter iter;
  gpointer key;
  RwLineColumn column;

  if (view->devices == NULL || g_hash_table_size (view->devices) != 1)
    return;
  g_hash_table_iter_init (&iter, view->devices);
  if (g_hash_table_iter_next (&iter, &key, NULL))
    device = rw_rig_device (rig, key);
  if (device == NULL)
    return;
  column = rw_device_is_console (rig, device) ? RW_LINE_CONSOLE : RW_LINE_STAGE;
  if (!rw_line_says_something (cells[column]))
    cells[column] = rw_line_view_device_text (rig, device);
}

static RwLineEdit *
edit_of_blank (RwLineView *view)
{
  RwLineEdit *edit = rw_line_edit_new (rw_document_rig (view->document), view->side, _("Add a Line"));
  const char *cells[RW_LINE_N_COLUMNS] = { NULL };

  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    cells[i] = rw_line_row_get_typed (view->blank, i);
  rw_line_view_fit_filter (view, cells);
  rw_line_edit_set (edit, rw_line_view_n_rows (view), NULL, cells);
  return edit;
}

/* Keeps of what is told only that the cell itself is wrong, whatever the others will say. Returns: whether it is */
static gboolean
keep_wrong (RwLineOutcome *outcome, RwLineColumn column)
{
  for (guint i = outcome->problems->len; i-- > 0;)
    {
      RwLineProblem *problem = outcome->problems->pdata[i];

      problem->left_out = FALSE;
      problem->n_cells = 1;
      if (problem->column != (int) column || problem->unfinished)
        g_ptr_array_remove_index (outcome->problems, i);
    }
  return outcome->problems->len > 0;
}

/* Types @text into a cell of the blank row. Returns: FALSE = that is told, and the cell is as it was */
gboolean
rw_line_view_type_blank (RwLineView *view, RwLineColumn column, const char *text)
{
  g_autofree char *before = g_strdup (rw_line_row_get_typed (view->blank, column));
  RwLineOutcome outcome;
  gboolean wrong;

  rw_line_view_set_blank (view, column, text);
  outcome = rw_line_view_try (view, edit_of_blank (view));
  wrong = keep_wrong (&outcome, column);
  if (wrong)
    {
      rw_line_row_type (view->blank, column, before);
      rw_line_view_show_problems (view, outcome.problems, NULL);
    }
  rw_line_view_clear_outcome (&outcome);
  return !wrong;
}

static const RwLineProblem *
find_cause (const RwLineOutcome *outcome)
{
  for (guint i = 0; i < outcome->problems->len; i++)
    if (((const RwLineProblem *) outcome->problems->pdata[i])->left_out)
      return outcome->problems->pdata[i];
  return NULL;
}

/* Why the blank row is no line by now. */
static void
tell_why (RwLineView *view, const RwLineOutcome *outcome)
{
  const RwLineProblem *cause = find_cause (outcome);
  const RwLineMove *move = outcome->moves->len > 0 ? &g_array_index (outcome->moves, RwLineMove, 0) : NULL;
  g_autofree char *text = NULL;

  if (cause != NULL)
    /* Translators: a column's heading, what stands in that cell, what is wrong with it: “The new row is no line yet: Name
       “Vox” says neither a device nor a console”. */
    text = g_strdup_printf (_("The new row is no line yet: %s “%s” %s"), rw_line_column_title (view->side, cause->column),
                            cause->text, cause->why);
  else if (move != NULL && move->line.console != NULL) /* its rows of the patch are there */
    text = g_strdup (_("The new row is no line yet: there is one that says the same"));
  else
    text = g_strdup (_("The new row is no line yet: it needs a name, a console or a strip, too"));
  rw_line_view_show_remark (view, text);
}

/* @left, @right: the cells of the new line that are chosen then; -1 = what was chosen stays so */
gboolean
rw_line_view_make_blank (RwLineView *view, int left, int right)
{
  RwLineOutcome outcome;
  gboolean good;

  if (view->document == NULL || !rw_line_view_has_blank (view))
    return TRUE;
  outcome = rw_line_view_try (view, edit_of_blank (view));
  good = find_cause (&outcome) == NULL && rw_change_n (outcome.change) > 0;
  if (!good)
    tell_why (view, &outcome);
  else if ((good = rw_line_view_do (view, &outcome, NULL)))
    {
      rw_line_view_clear_blank (view); /* not before: what the document refuses is still there */
      if (left >= 0)
        rw_line_view_choose_moved (view, outcome.moves, left, right);
    }
  rw_line_view_clear_outcome (&outcome);
  return good;
}

/**
 * rw_line_view_leave_blank:
 *
 * What stands in the blank row becomes a line, and the row is blank again; where it cannot, that is told, and it stays.
 *
 * Returns: %FALSE = it stays
 */
gboolean
rw_line_view_leave_blank (RwLineView *view)
{
  return rw_line_view_make_blank (view, -1, -1);
}

gboolean
rw_line_view_settle (RwLineView *view)
{
  g_return_val_if_fail (RW_IS_LINE_VIEW (view), TRUE);
  return (!view->typing || rw_line_view_end_typing (view, TRUE)) && rw_line_view_leave_blank (view);
}

/* Begins a line in the blank row with the source of the chosen line, or with its bus: where it goes is still to be typed. */
void
rw_line_view_duplicate (RwLineView *view)
{
  gboolean input = view->side == RW_LINE_INPUT;
  RwLineColumn copied[] = { input ? RW_LINE_STAGE : RW_LINE_CONSOLE, input ? RW_LINE_SOCKET : RW_LINE_STRIP };
  int row = view->row, n = (int) rw_line_view_n_rows (view);

  if (row < 0 || row >= n)
    {
      rw_line_view_show_remark (view, _("Choose a line first"));
      return;
    }
  if (!rw_line_view_leave_blank (view))
    {
      rw_line_view_choose (view, n, 0, FALSE);
      return;
    }
  rw_line_view_forget_remark (view);
  for (guint i = 0; i < G_N_ELEMENTS (copied); i++)
    {
      g_autofree char *text = rw_line_view_get_text (view, (guint) row, copied[i]);
      rw_line_view_set_blank (view, copied[i], text);
    }
  rw_line_view_choose (view, (int) rw_line_view_n_rows (view),
                       rw_line_view_shown_column (view, input ? RW_LINE_CONSOLE : RW_LINE_STAGE), FALSE);
}
