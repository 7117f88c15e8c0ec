/* SPDX-License-Identifier: MIT */
/* What is typed, pasted and filled down in the line list becomes changes of the rig. */
#include "rw-line-view-private.h"

#include <file/rw-csv-read.h>
#include <file/rw-csv-write.h>
#include <glib/gi18n-lib.h>
#include <string.h>

static void
move_clear (gpointer data)
{
  RwLineMove *move = data;

  g_clear_object (&move->row);
  rw_line_clear (&move->line);
}

/* (transfer full): of RwLineMove: where the edit takes each line, by the rows that it names. */
static GArray *
moves_of (RwLineView *view, const RwLineEdit *edit)
{
  GArray *moves = g_array_new (FALSE, TRUE, sizeof (RwLineMove));

  g_array_set_clear_func (moves, move_clear);
  for (guint i = 0; i < rw_line_edit_n (edit); i++)
    {
      guint row;
      const RwLine *line = rw_line_edit_get (edit, i, &row);
      RwLineMove move = { NULL };

      if (line == NULL)
        continue;
      move.row = row < rw_line_view_n_rows (view) ? rw_line_view_row (view, row) : NULL;
      if (move.row != NULL)
        g_object_ref (move.row);
      rw_line_copy (&move.line, line);
      g_array_append_val (moves, move);
    }
  return moves;
}

/* What @edit (transfer full) would do. Returns: (transfer full): end it with rw_line_view_clear_outcome() */
RwLineOutcome
rw_line_view_try (RwLineView *view, RwLineEdit *edit)
{
  RwLineOutcome outcome = { .moves = moves_of (view, edit) };

  outcome.change = rw_line_edit_finish (edit, &outcome.problems);
  return outcome;
}

void
rw_line_view_clear_outcome (RwLineOutcome *outcome)
{
  g_array_unref (outcome->moves);
  g_ptr_array_unref (outcome->problems);
  g_clear_pointer (&outcome->change, rw_change_unref);
}

/* (transfer full): what is told of new lines that the list does not show; @more: (transfer full) (nullable): what else is */
static char *
add_hidden (RwLineView *view, const GArray *moves, char *more)
{
  g_autofree char *owned = more;
  g_autoptr (GHashTable) shown = NULL;
  g_autofree char *text = NULL;
  guint n = 0;

  if (view->devices == NULL && view->needle == NULL)
    return g_steal_pointer (&owned);
  shown = rw_line_list_index (G_LIST_MODEL (view->selection));
  for (guint i = 0; i < moves->len; i++)
    {
      const RwLineMove *move = &g_array_index (moves, RwLineMove, i);
      n += move->row == NULL && !g_hash_table_contains (shown, &move->line);
    }
  if (n == 0)
    return g_steal_pointer (&owned);
  text = g_strdup_printf (ngettext ("%u new line is not shown: it does not fit what the list is kept to",
                                    "%u new lines are not shown: they do not fit what the list is kept to", n), n);
  return more != NULL ? g_strjoin ("\n", more, text, NULL) : g_steal_pointer (&text);
}

/* Does it, and tells what was not taken; @more: (nullable): what was not taken besides
 * Returns: FALSE = the document refuses it, and the foot says why */
gboolean
rw_line_view_do (RwLineView *view, const RwLineOutcome *outcome, const char *more)
{
  g_autoptr (GError) error = NULL;
  gboolean done;

  rw_line_view_forget_remark (view);
  rw_line_view_show_range (view);
  view->moves = outcome->moves;
  done = rw_document_do (view->document, outcome->change, &error);
  view->moves = NULL;
  if (done)
    {
      g_autofree char *whole = add_hidden (view, outcome->moves, g_strdup (more));
      rw_line_view_show_problems (view, outcome->problems, whole);
    }
  else
    rw_line_view_show_remark (view, error->message);
  return done;
}

/* @edit: (transfer full): is done; @more: (nullable): what was not taken besides */
void
rw_line_view_apply (RwLineView *view, RwLineEdit *edit, const char *more)
{
  RwLineOutcome outcome = rw_line_view_try (view, edit);

  rw_line_view_do (view, &outcome, more);
  rw_line_view_clear_outcome (&outcome);
}

RwLineEdit *
rw_line_view_begin (RwLineView *view, const char *name)
{
  return rw_line_edit_new (rw_document_rig (view->document), view->side, name);
}

/* Returns: (nullable): the line in that row; NULL = there is none yet */
const RwLine *
rw_line_view_line_at (RwLineView *view, int row)
{
  RwLineRow *item = row >= 0 ? rw_line_view_row (view, (guint) row) : NULL;

  return item != NULL && !rw_line_row_is_blank (item) ? rw_line_row_get (item) : NULL;
}

char *
rw_line_view_get_text (RwLineView *view, guint row, RwLineColumn column)
{
  RwLineRow *item = rw_line_view_row (view, row);

  return item != NULL ? rw_line_row_text (item, column) : NULL;
}

/* --- One cell --- */

/* Whether a cell or its entry has it. */
gboolean
rw_line_view_has_keyboard (RwLineView *view)
{
  GtkRoot *root = gtk_widget_get_root (view->list);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  return focus != NULL && gtk_widget_is_ancestor (focus, view->list);
}

/* Ends the entry; what is typed in it goes with it. */
static void
close_entry (RwLineView *view)
{
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);

  view->typing = FALSE;
  if (cell == NULL || rw_line_cell_get_edited (cell) == NULL)
    return;
  if (rw_line_view_has_keyboard (view))
    gtk_widget_grab_focus (GTK_WIDGET (cell));
  rw_line_cell_end_edit (cell);
}

/* Types @text into the chosen cell of a line. */
static gboolean
type_line (RwLineView *view, const RwLine *line, const char *text)
{
  const char *cells[RW_LINE_N_COLUMNS] = { NULL };
  g_autofree char *present = rw_line_text (line, view->columns[view->column]);
  RwLineEdit *edit = rw_line_view_begin (view, _("Edit a Line"));
  RwLineOutcome outcome;
  gboolean taken;

  cells[view->columns[view->column]] = strcmp (present, text) != 0 ? text : NULL;
  rw_line_edit_set (edit, (guint) view->row, line, cells);
  outcome = rw_line_view_try (view, edit);
  taken = outcome.problems->len == 0;
  if (taken)
    {
      close_entry (view);
      rw_line_view_do (view, &outcome, NULL);
    }
  else
    rw_line_view_show_problems (view, outcome.problems, NULL);
  rw_line_view_clear_outcome (&outcome);
  return taken;
}

/**
 * rw_line_view_type:
 *
 * Types @text into the chosen cell, as if by keys and Enter.
 *
 * Returns: %FALSE where it was not taken: the foot says why, and what is being typed stays so
 */
gboolean
rw_line_view_type (RwLineView *view, const char *text)
{
  const RwLine *line = rw_line_view_line_at (view, view->row);

  if (view->row < 0 || view->column < 0)
    return TRUE;
  rw_line_view_forget_remark (view);
  if (line != NULL)
    return type_line (view, line, text);
  if (!rw_line_view_type_blank (view, view->columns[view->column], text))
    return FALSE;
  close_entry (view);
  return TRUE;
}

/* @text: (nullable): what the entry starts with; NULL = what stands in the cell */
void
rw_line_view_begin_typing (RwLineView *view, const char *text)
{
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);
  g_autofree char *present = NULL;

  if (cell == NULL)
    return;
  present = rw_line_view_get_text (view, (guint) view->row, view->columns[view->column]);
  view->typing = TRUE;
  rw_line_view_forget_candidates (view);
  rw_line_cell_begin_edit (cell, text != NULL ? text : present);
  if (!rw_line_cell_chooses (view->columns[view->column]))
    return;
  g_signal_connect_swapped (rw_line_cell_get_entry (cell), "changed", G_CALLBACK (rw_line_view_offer), view);
  if (text != NULL)
    rw_line_view_offer (view);
}

/**
 * rw_line_view_end_typing:
 * @keep: what was typed goes into the cell, else it is forgotten
 *
 * Returns: %FALSE where it was not taken: the entry stays open, and the foot says why
 */
gboolean
rw_line_view_end_typing (RwLineView *view, gboolean keep)
{
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);
  g_autofree char *text = cell != NULL ? g_strdup (rw_line_cell_get_edited (cell)) : NULL;
  gboolean taken;

  rw_line_view_end_offer (view);
  view->typing = FALSE; /* the keyboard goes from the entry to the cell: that must not end it again */
  taken = !keep || text == NULL || rw_line_view_type (view, text);
  view->typing = !taken;
  if (taken)
    close_entry (view);
  else
    rw_line_cell_refuse (cell, rw_line_view_has_keyboard (view));
  return taken;
}

/* --- The clipboard --- */

/* (transfer full): the cells of a row, from column @left to @right as shown; NULL-ended. */
static char **
row_texts (RwLineView *view, guint row, int left, int right)
{
  char **cells = g_new0 (char *, (gsize) (right - left) + 2);

  for (int column = left; column <= right; column++)
    cells[column - left] = rw_line_view_get_text (view, row, view->columns[column]);
  return cells;
}

/* The chosen cells as spreadsheets take them: a tab between cells, a new line between rows. */
char *
rw_line_view_copy_text (RwLineView *view)
{
  RwCellRange range = rw_line_view_is_blank (view, rw_line_view_range (view).top) ? rw_line_view_range (view)
                                                                                 : rw_line_view_lines (view);
  GString *text = g_string_new (NULL);

  for (int row = range.top; row >= 0 && row <= range.bottom; row++)
    {
      g_auto (GStrv) cells = row_texts (view, (guint) row, range.left, range.right);
      rw_csv_append_row (text, (const char *const *) cells, '\t');
    }
  return g_string_free (text, FALSE);
}

void
rw_line_view_copy (RwLineView *view)
{
  g_autofree char *text = rw_line_view_copy_text (view);

  if (*text != '\0')
    gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (view)), text);
}

char *
rw_line_view_csv_text (RwLineView *view)
{
  GString *text = g_string_new (NULL);
  const char *titles[RW_LINE_N_COLUMNS + 1] = { NULL };
  guint n = rw_line_view_n_rows (view);

  for (guint i = 0; i < view->n_columns; i++)
    titles[i] = rw_line_column_title (view->side, view->columns[i]);
  rw_csv_append_row (text, titles, ',');
  for (guint row = 0; row < n; row++)
    {
      g_auto (GStrv) cells = row_texts (view, row, 0, (int) view->n_columns - 1);
      rw_csv_append_row (text, (const char *const *) cells, ',');
    }
  return g_string_free (text, FALSE);
}

static gboolean
is_empty (const char *const *cells)
{
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    if (rw_line_says_something (cells[i]))
      return FALSE;
  return TRUE;
}

/* Puts row @row of the table into the cells from the range's left on; a single field goes into all of them. An empty
 * row empties the cells of a line that is there, and makes no new one. */
static void
paste_row (RwLineView *view, RwLineEdit *edit, const RwCsv *csv, guint row, int at, RwCellRange range, gboolean spread)
{
  const RwLine *line = rw_line_view_line_at (view, at);
  const char *cells[RW_LINE_N_COLUMNS] = { NULL };

  for (int column = range.left; column < (int) view->n_columns; column++)
    {
      if (spread && column <= range.right)
        cells[view->columns[column]] = rw_csv_get (csv, 0, 0);
      else if (!spread)
        cells[view->columns[column]] = rw_csv_get (csv, row, (guint) (column - range.left));
    }
  if (line == NULL && is_empty (cells))
    return;
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    if (cells[i] == NULL && line == NULL && row == 0)
      cells[i] = rw_line_row_get_typed (view->blank, i);
  if (line == NULL)
    rw_line_view_fit_filter (view, cells);
  rw_line_edit_set (edit, (guint) at, line, cells);
}

/* (transfer full) (nullable): what is told of columns that the list has no room for */
static char *
excess_text (RwLineView *view, const RwCsv *csv, RwCellRange range)
{
  guint room = view->n_columns - (guint) range.left, n = rw_csv_n_columns (csv);

  if (n <= room)
    return NULL;
  return g_strdup_printf (ngettext ("%u column does not fit beside the last one: it was left out",
                                    "%u columns do not fit beside the last one: they were left out", n - room),
                          n - room);
}

/* Chooses the rows of an edit's lines from @left to @right, where they stand together, and brings them into sight. */
void
rw_line_view_choose_moved (RwLineView *view, const GArray *moves, int left, int right)
{
  g_autoptr (GHashTable) shown = rw_line_list_index (G_LIST_MODEL (view->selection));
  int top = G_MAXINT, bottom = -1;
  gpointer at;

  for (guint i = 0; i < moves->len; i++)
    if (g_hash_table_lookup_extended (shown, &g_array_index (moves, RwLineMove, i).line, NULL, &at))
      {
        top = MIN (top, GPOINTER_TO_INT (at));
        bottom = MAX (bottom, GPOINTER_TO_INT (at));
      }
  if (bottom < 0)
    return;
  if (bottom - top >= (int) moves->len)
    bottom = top;
  rw_line_view_choose (view, bottom, right, FALSE);
  rw_line_view_choose (view, top, left, TRUE);
  view->chosen_for = TRUE;
}

/* One row of cells that is pasted into the blank row: several of them are a line, one alone waits for the others. */
static void
paste_blank (RwLineView *view, const RwCsv *csv, int left)
{
  guint wide = MIN (rw_csv_n_columns (csv), view->n_columns - (guint) left);

  if (wide == 1)
    {
      rw_line_view_type_blank (view, view->columns[left], rw_csv_get (csv, 0, 0));
      return;
    }
  for (guint i = 0; i < wide; i++)
    rw_line_view_set_blank (view, view->columns[left + (int) i], rw_csv_get (csv, 0, i));
  rw_line_view_make_blank (view, left, left + (int) wide - 1);
}

static void
paste_rows (RwLineView *view, const RwCsv *csv, RwCellRange range)
{
  gboolean spread = csv->rows->len == 1 && rw_csv_n_columns (csv) == 1;
  guint n = spread ? (guint) (range.bottom - range.top + 1) : csv->rows->len;
  int right = MIN (range.left + (int) rw_csv_n_columns (csv), (int) view->n_columns) - 1;
  RwLineEdit *edit = rw_line_view_begin (view, n == 1 ? _("Paste a Line") : _("Paste Lines"));
  g_autofree char *more = spread ? NULL : excess_text (view, csv, range);
  RwLineOutcome outcome;
  gboolean in_blank, done;

  for (guint i = 0; i < n; i++)
    paste_row (view, edit, csv, spread ? 0 : i, range.top + (int) i, range, spread);
  outcome = rw_line_view_try (view, edit);
  in_blank = rw_line_view_is_blank (view, range.top);
  done = rw_line_view_do (view, &outcome, more);
  if (done && in_blank)
    rw_line_view_clear_blank (view);
  if (done && !spread)
    rw_line_view_choose_moved (view, outcome.moves, range.left, right);
  rw_line_view_clear_outcome (&outcome);
}

/* Rows of @text below the last one become new lines. */
void
rw_line_view_paste_text (RwLineView *view, const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwCsv) csv = rw_csv_parse (text, strlen (text), '\t', RW_CSV_ALL_ROWS, &error);
  RwCellRange lines = rw_line_view_lines (view), range = rw_line_view_range (view);

  if (csv == NULL)
    {
      rw_line_view_show_remark (view, error->message);
      return;
    }
  if (csv->rows->len == 0 || range.top < 0)
    return;
  rw_line_view_forget_remark (view);
  if (lines.top < 0 && csv->rows->len == 1)
    paste_blank (view, csv, range.left);
  else
    paste_rows (view, csv, lines.top >= 0 ? lines : range);
}

static void
text_read (GObject *clipboard, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (RwLineView) view = user_data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);

  if (text != NULL && view->document != NULL)
    rw_line_view_paste_text (view, text);
  else
    rw_line_view_show_remark (view, _("There is no text on the clipboard"));
}

void
rw_line_view_paste (RwLineView *view)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (view)), NULL, text_read, g_object_ref (view));
}

/* --- Many cells --- */

/* Puts @text into @column of all chosen rows. */
void
rw_line_view_type_all (RwLineView *view, RwLineColumn column, const char *text)
{
  RwCellRange range = rw_line_view_lines (view);
  const char *cells[RW_LINE_N_COLUMNS] = { NULL };
  RwLineEdit *edit;

  if (rw_line_view_is_blank (view, rw_line_view_range (view).top))
    rw_line_view_type_blank (view, column, text);
  if (range.top < 0)
    return;
  cells[column] = text;
  edit = rw_line_view_begin (view, range.top == range.bottom ? _("Edit a Line") : _("Edit Lines"));
  for (int row = range.top; row <= range.bottom; row++)
    {
      g_autofree char *present = rw_line_view_get_text (view, (guint) row, column);
      if (strcmp (present, text) != 0)
        rw_line_edit_set (edit, (guint) row, rw_line_view_line_at (view, row), cells);
    }
  rw_line_view_apply (view, edit, NULL);
}

void
rw_line_view_empty_cells (RwLineView *view)
{
  RwCellRange range = rw_line_view_lines (view), all = rw_line_view_range (view);
  RwLineEdit *edit;

  for (int column = all.left; rw_line_view_is_blank (view, all.bottom) && column <= all.right; column++)
    rw_line_view_set_blank (view, view->columns[column], NULL);
  if (range.top < 0)
    return;
  edit = rw_line_view_begin (view, _("Empty Cells"));
  for (int row = range.top; row <= range.bottom; row++)
    {
      const char *cells[RW_LINE_N_COLUMNS] = { NULL };
      for (int column = range.left; column <= range.right; column++)
        {
          g_autofree char *present = rw_line_view_get_text (view, (guint) row, view->columns[column]);
          cells[view->columns[column]] = *present != '\0' ? "" : NULL;
        }
      rw_line_edit_set (edit, (guint) row, rw_line_view_line_at (view, row), cells);
    }
  rw_line_view_apply (view, edit, NULL);
}

/* Takes the chosen lines out of the patch; what is known of their sources stays until it is removed, too. */
void
rw_line_view_remove_lines (RwLineView *view)
{
  RwCellRange range = rw_line_view_lines (view);
  RwLineEdit *edit;

  if (rw_line_view_is_blank (view, rw_line_view_range (view).bottom))
    rw_line_view_clear_blank (view);
  if (range.top < 0)
    return;
  edit = rw_line_view_begin (view, range.top == range.bottom ? _("Take a Line out of the Patch") : _("Take Lines out of the Patch"));
  for (int row = range.top; row <= range.bottom; row++)
    rw_line_edit_remove (edit, rw_line_view_line_at (view, row));
  rw_line_view_apply (view, edit, NULL);
}
