/* SPDX-License-Identifier: MIT */
/* Filling down in the line list: from the chosen rows into those below them, as far as the devices go. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>

/* What stopped before its end because a device has no more of what is counted. */
typedef struct { guint n_rows; RwLineColumn column; const RwDevice *device; int most; gboolean own; } Stop;

/* The cells that are filled from, by column as shown; NULL = nothing stands in them. */
typedef struct { GPtrArray *columns[RW_LINE_N_COLUMNS]; } Source;

/* Returns: (transfer full) (nullable): what stands in @column of the rows of @from, read once for all that are filled */
static GPtrArray *
read_column (RwLineView *view, RwCellRange from, int column)
{
  GPtrArray *cells = g_ptr_array_new_with_free_func (g_free);
  gboolean blank = TRUE;

  for (int row = from.top; row <= from.bottom; row++)
    {
      char *text = rw_line_view_get_text (view, (guint) row, view->columns[column]);
      g_ptr_array_add (cells, text != NULL ? text : g_strdup (""));
      blank &= *(char *) cells->pdata[cells->len - 1] == '\0';
    }
  if (blank)
    g_clear_pointer (&cells, g_ptr_array_unref);
  return cells;
}

/* (transfer full) (nullable): what they come to @by rows further down */
static char *
filled_text (RwLineView *view, const Source *source, int column, guint by)
{
  const GPtrArray *cells = source->columns[column];

  if (cells == NULL)
    return NULL;
  return rw_line_fill (view->columns[column], (const char *const *) cells->pdata, cells->len, by);
}

/* The devices of the line that @row becomes: repeated from the rows that are filled where their cells are, else its own.
 * Borrowed, as all of it. */
static RwLine
devices_there (RwLineView *view, RwCellRange from, int row, char *const *cells)
{
  const RwLine *present = rw_line_view_line_at (view, row);
  const RwLine *like = rw_line_view_line_at (view, from.top + (row - from.bottom - 1) % (from.bottom - from.top + 1));
  RwLine there = present != NULL ? *present : (RwLine) { .side = view->side };

  if (like != NULL && cells[RW_LINE_STAGE] != NULL)
    there.stage = like->stage;
  if (like != NULL && cells[RW_LINE_CONSOLE] != NULL)
    there.console = like->console;
  if (like != NULL && cells[RW_LINE_CHANNEL] != NULL)
    there.own = like->own;
  there.own &= there.stage == there.console;
  return there;
}

/* Whether a number among @cells is more than its device has. */
static gboolean
is_beyond (RwLineView *view, const RwLine *there, char *const *cells, Stop *stop)
{
  static const RwLineColumn counted[] = { RW_LINE_SOCKET, RW_LINE_CHANNEL, RW_LINE_STRIP };

  for (guint i = 0; i < G_N_ELEMENTS (counted); i++)
    {
      const char *text = cells[counted[i]];
      int most = text != NULL ? rw_line_most (rw_document_rig (view->document), there, counted[i]) : 0;

      if (most == 0 || g_ascii_strtoll (text, NULL, 10) <= most)
        continue;
      stop->column = counted[i];
      stop->device = counted[i] == RW_LINE_SOCKET ? there->stage : there->console;
      stop->most = most;
      stop->own = there->own && counted[i] == RW_LINE_SOCKET;
      return TRUE;
    }
  return FALSE;
}

/* (transfer full): "Stage left has 32 sends" */
static char *
limit_text (RwLineSide side, const Stop *stop)
{
  const char *name = rw_device_title (stop->device);
  gboolean input = side == RW_LINE_INPUT;
  gulong n = (gulong) stop->most;

  /* Translators: in all of these %s is a device's name, %d how many it has. */
  if (stop->column == RW_LINE_STRIP)
    return g_strdup_printf (input ? ngettext ("%s has %d strip", "%s has %d strips", n)
                                  : ngettext ("%s has %d bus", "%s has %d buses", n), name, stop->most);
  if (stop->own)
    return g_strdup_printf (input ? ngettext ("%s has %d input of its own", "%s has %d inputs of its own", n)
                                  : ngettext ("%s has %d output of its own", "%s has %d outputs of its own", n),
                            name, stop->most);
  if ((stop->column == RW_LINE_SOCKET) == input)
    return g_strdup_printf (ngettext ("%s has %d send", "%s has %d sends", n), name, stop->most);
  return g_strdup_printf (ngettext ("%s has %d receive", "%s has %d receives", n), name, stop->most);
}

/* (transfer full) (nullable): what is told of rows that were not filled */
static char *
stop_text (RwLineView *view, const Stop *stop)
{
  g_autofree char *limit = stop->n_rows > 0 ? limit_text (view->side, stop) : NULL;

  if (limit == NULL)
    return NULL;
  /* Translators: %s says why, as “Stage left has 32 sends” */
  return g_strdup_printf (ngettext ("%u row was not filled: %s", "%u rows were not filled: %s", stop->n_rows), stop->n_rows,
                          limit);
}

static gboolean
fill_row (RwLineView *view, RwLineEdit *edit, RwCellRange from, const Source *source, int row, Stop *stop)
{
  char *owned[RW_LINE_N_COLUMNS] = { NULL };
  RwLine there;
  gboolean fits;

  for (int column = from.left; column <= from.right; column++)
    owned[view->columns[column]] = filled_text (view, source, column, (guint) (row - from.bottom));
  there = devices_there (view, from, row, owned);
  fits = !is_beyond (view, &there, owned, stop);
  if (fits)
    rw_line_edit_set (edit, (guint) row, rw_line_view_line_at (view, row), (const char *const *) owned);
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    g_free (owned[i]);
  return fits;
}

/* The rows of @from go on into those below them, to @last, or to where a device has no more of what is counted: what
 * comes after that belongs to another.
 * @last: (inout): the last row that is filled
 * @more: (out) (transfer full) (nullable): what is told of the others
 * Returns: (transfer full): what fills them */
static RwLineEdit *
fill (RwLineView *view, RwCellRange from, int *last, char **more)
{
  RwLineEdit *edit = rw_line_view_begin (view, _("Fill Down"));
  Stop stop = { 0 };
  Source source = { { NULL } };
  int row = from.bottom + 1;

  for (int column = from.left; column <= from.right; column++)
    source.columns[column] = read_column (view, from, column);
  while (row <= *last && fill_row (view, edit, from, &source, row, &stop))
    row++;
  for (int column = from.left; column <= from.right; column++)
    g_clear_pointer (&source.columns[column], g_ptr_array_unref);
  stop.n_rows = (guint) (*last - row + 1);
  *more = stop_text (view, &stop);
  *last = row - 1;
  return edit;
}

/* The first of the chosen rows goes into those below it, numbers counting up; a single row takes the one above it. Where the
 * blank row is chosen too, it becomes a new line. */
void
rw_line_view_fill_down (RwLineView *view)
{
  RwCellRange range = rw_line_view_range (view);
  int from = range.top < range.bottom ? range.top : range.top - 1;
  g_autofree char *more = NULL;
  RwLineEdit *edit;

  if (from < 0)
    return;
  edit = fill (view, (RwCellRange) { from, from, range.left, range.right }, &range.bottom, &more);
  rw_line_view_apply (view, edit, more);
}

/* All of the chosen rows go on into those below them, to row @last, and these are chosen, too. Beyond the last line new ones
 * are made. */
void
rw_line_view_fill_to (RwLineView *view, int last)
{
  RwCellRange range = rw_line_view_lines (view);
  g_autofree char *more = NULL;
  RwLineEdit *edit;

  if (range.top < 0 || last <= range.bottom)
    return;
  edit = fill (view, range, &last, &more);
  rw_line_view_apply (view, edit, more);
  rw_line_view_choose (view, range.top, range.left, FALSE);
  rw_line_view_choose (view, MIN (last, (int) rw_line_view_n_rows (view) - 1), range.right, TRUE);
}
