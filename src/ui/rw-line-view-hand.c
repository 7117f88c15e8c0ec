/* SPDX-License-Identifier: MIT */
/* Hands and keys in the line list: which cells are chosen. */
#include "rw-line-view-private.h"
#include "rw-words.h"

#define PAGE_ROWS 12

/* --- The chosen cells --- */

RwCellRange
rw_line_view_range (RwLineView *view)
{
  if (view->row < 0)
    return (RwCellRange) { -1, -1, -1, -1 };
  return (RwCellRange) { MIN (view->row, view->anchor_row), MAX (view->row, view->anchor_row),
                         MIN (view->column, view->anchor_column), MAX (view->column, view->anchor_column) };
}

/* Likewise of what is chosen of the lines, without the blank row; its top is -1 where no line is chosen. */
RwCellRange
rw_line_view_lines (RwLineView *view)
{
  RwCellRange range = rw_line_view_range (view);
  int n = (int) rw_line_view_n_rows (view);

  if (range.top >= n)
    return (RwCellRange) { -1, -1, -1, -1 };
  range.bottom = MIN (range.bottom, n - 1);
  return range;
}

/* Returns: (nullable): the cell that shows it now */
RwLineCell *
rw_line_view_cell (RwLineView *view, int row, int column)
{
  GHashTableIter iter;
  gpointer key;

  if (row < 0 || column < 0)
    return NULL;
  g_hash_table_iter_init (&iter, view->cells);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    if (rw_line_cell_get_column (key) == view->columns[column] && rw_line_cell_get_position (key) == (guint) row)
      return key;
  return NULL;
}

/* Returns: where @column is shown, -1 = not on this side */
int
rw_line_view_shown_column (RwLineView *view, RwLineColumn column)
{
  for (guint i = 0; i < view->n_columns; i++)
    if (view->columns[i] == column)
      return (int) i;
  return -1;
}

static void
show_caution (RwLineView *view)
{
  RwCellRange range = rw_line_view_range (view);
  int phantom = rw_line_view_shown_column (view, RW_LINE_PHANTOM);
  gboolean there = phantom >= 0 && range.left <= phantom && phantom <= range.right;

  /* rows that are pasted or imported reach beyond what is chosen */
  rw_line_view_show_caution (view, there || view->powers ? rw_words_phantom_caution () : "");
}

/* What the cell at that place is to show of the choice: RwLineCellState. */
guint
rw_line_view_cell_state (RwLineView *view, int row, int column)
{
  RwCellRange range = rw_line_view_range (view);
  gboolean within = range.top >= 0 && column >= range.left && column <= range.right;
  guint state = 0;

  if (within && row >= range.top && row <= range.bottom)
    state |= RW_LINE_CELL_IN_RANGE;
  if (row == view->row && column == view->column)
    state |= RW_LINE_CELL_AT_CURSOR;
  if (row == range.bottom && column == range.right && !view->typing && !rw_line_view_is_blank (view, row))
    state |= RW_LINE_CELL_CORNER;
  if (within && view->filling && row > range.bottom && row <= view->fill_to)
    state |= RW_LINE_CELL_IN_FILL;
  return state;
}

void
rw_line_view_show_cells (RwLineView *view)
{
  GHashTableIter iter;
  gpointer key;

  g_hash_table_iter_init (&iter, view->cells);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    rw_line_cell_set_state (key, rw_line_view_cell_state (view, (int) rw_line_cell_get_position (key),
                                                          rw_line_view_shown_column (view, rw_line_cell_get_column (key))));
}

/* Marks the chosen cells and rows, and says what to mind of them. */
void
rw_line_view_show_range (RwLineView *view)
{
  RwCellRange range = rw_line_view_range (view);

  rw_line_view_show_cells (view);
  if (range.top < 0)
    gtk_selection_model_unselect_all (GTK_SELECTION_MODEL (view->selection));
  else
    gtk_selection_model_select_range (GTK_SELECTION_MODEL (view->selection), (guint) range.top,
                                      (guint) (range.bottom - range.top + 1), TRUE);
  show_caution (view);
}

static GtkWidget *
inner_list (RwLineView *view)
{
  GtkWidget *child = gtk_widget_get_first_child (view->list);

  while (child != NULL && !GTK_IS_LIST_VIEW (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

void
rw_line_view_scroll_to (RwLineView *view, int row)
{
  GtkWidget *inner = inner_list (view);

  if (inner != NULL)
    gtk_widget_activate_action (inner, "list.scroll-to-item", "u", (guint) row);
}

static void
bring_into_sight (RwLineView *view)
{
  RwLineCell *cell;

  rw_line_view_scroll_to (view, view->row);
  cell = rw_line_view_cell (view, view->row, view->column);
  if (cell != NULL)
    rw_line_cell_grab_focus (cell);
}

/**
 * rw_line_view_choose:
 * @row, @column: as shown, from 0; kept within the list
 * @extend: keep the other corner of the chosen cells
 *
 * What is being typed is meant; where it is not taken, it stays open, and nothing else is chosen. Whoever leaves the
 * blank row has made a line there.
 */
void
rw_line_view_choose (RwLineView *view, int row, int column, gboolean extend)
{
  int before = view->row;

  if (view->typing && !rw_line_view_end_typing (view, TRUE))
    {
      bring_into_sight (view);
      return;
    }
  if (rw_line_view_is_blank (view, view->row) && row != view->row)
    rw_line_view_leave_blank (view);
  if (extend && view->chosen_for)
    {
      view->anchor_row = view->row;
      view->anchor_column = view->column;
    }
  view->chosen_for = FALSE;
  view->row = CLAMP (row, 0, (int) rw_line_view_n_rows (view));
  view->column = CLAMP (column, 0, (int) view->n_columns - 1);
  if (!extend || view->anchor_row < 0)
    {
      view->anchor_row = view->row;
      view->anchor_column = view->column;
    }
  rw_line_view_show_range (view);
  bring_into_sight (view);
  if (before != view->row)
    rw_line_view_emit_way (view);
}

void
rw_line_view_choose_none (RwLineView *view)
{
  if (view->typing)
    rw_line_view_end_typing (view, FALSE);
  if (view->row < 0)
    return;
  view->row = view->column = view->anchor_row = view->anchor_column = -1;
  rw_line_view_show_range (view);
  rw_line_view_emit_way (view);
}

/* --- Keys --- */

static int
row_of_key (RwLineView *view, guint keyval, gboolean far)
{
  int n = (int) rw_line_view_n_rows (view), row = view->row;
  int last = row < n - 1 ? n - 1 : n; /* first to the last line, then to the blank row */

  switch (keyval)
    {
    case GDK_KEY_Up:
      return far ? 0 : row - 1;
    case GDK_KEY_Down:
      return far ? last : row + 1;
    case GDK_KEY_Page_Up:
      return row - PAGE_ROWS;
    case GDK_KEY_Page_Down:
      return row + PAGE_ROWS;
    case GDK_KEY_Home:
      return far ? 0 : row;
    case GDK_KEY_End:
      return far ? last : row;
    default:
      return row;
    }
}

static int
column_of_key (RwLineView *view, guint keyval, gboolean far)
{
  switch (keyval)
    {
    case GDK_KEY_Left:
      return far ? 0 : view->column - 1;
    case GDK_KEY_Right:
      return far ? (int) view->n_columns : view->column + 1;
    case GDK_KEY_Home:
      return 0;
    case GDK_KEY_End:
      return (int) view->n_columns;
    default:
      return view->column;
    }
}

static gboolean
move_key (RwLineView *view, guint keyval, GdkModifierType state)
{
  static const struct { guint key, keypad; } keys[] = {
    { GDK_KEY_Up, GDK_KEY_KP_Up }, { GDK_KEY_Down, GDK_KEY_KP_Down },
    { GDK_KEY_Left, GDK_KEY_KP_Left }, { GDK_KEY_Right, GDK_KEY_KP_Right },
    { GDK_KEY_Page_Up, GDK_KEY_KP_Page_Up }, { GDK_KEY_Page_Down, GDK_KEY_KP_Page_Down },
    { GDK_KEY_Home, GDK_KEY_KP_Home }, { GDK_KEY_End, GDK_KEY_KP_End },
  };
  gboolean far = (state & GDK_CONTROL_MASK) != 0;

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keyval == keys[i].key || keyval == keys[i].keypad)
      {
        rw_line_view_choose (view, row_of_key (view, keys[i].key, far), column_of_key (view, keys[i].key, far),
                             (state & GDK_SHIFT_MASK) != 0);
        return TRUE;
      }
  return FALSE;
}

/* A step over the cells of a row, and on to the next row; off the list the keyboard goes on as elsewhere. */
static gboolean
step (RwLineView *view, int by)
{
  int n = (int) view->n_columns, place = view->row * n + view->column + by;

  if (place >= n * ((int) rw_line_view_n_rows (view) + 1) && rw_line_view_has_blank (view))
    {
      rw_line_view_choose (view, view->row + 1, 0, FALSE);
      return TRUE;
    }
  if (place < 0 || place >= n * ((int) rw_line_view_n_rows (view) + 1))
    return FALSE;
  rw_line_view_choose (view, place / n, place % n, FALSE);
  return TRUE;
}

static gboolean
typing_key (RwLineView *view, guint keyval, GdkModifierType state)
{
  switch (keyval)
    {
    case GDK_KEY_Escape:
      rw_line_view_end_typing (view, FALSE);
      rw_line_view_forget_remark (view);
      return TRUE;
    case GDK_KEY_Down:
    case GDK_KEY_Up:
      if (rw_line_view_step_choice (view, keyval == GDK_KEY_Up ? -1 : 1))
        return TRUE;
      G_GNUC_FALLTHROUGH;
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      rw_line_view_take_offer (view);
      if (rw_line_view_end_typing (view, TRUE))
        rw_line_view_choose (view, view->row + (keyval == GDK_KEY_Up ? -1 : 1), view->column, FALSE);
      return TRUE;
    case GDK_KEY_Tab:
    case GDK_KEY_ISO_Left_Tab:
      rw_line_view_take_offer (view);
      if (rw_line_view_end_typing (view, TRUE))
        step (view, keyval == GDK_KEY_Tab ? 1 : -1);
      return TRUE;
    default:
      return FALSE;
    }
}

void
rw_line_view_choose_all (RwLineView *view)
{
  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_choose (view, MAX ((int) rw_line_view_n_rows (view) - 1, 0), (int) view->n_columns - 1, TRUE);
}

void
rw_line_view_cut (RwLineView *view)
{
  rw_line_view_copy (view);
  rw_line_view_empty_cells (view);
}

/* All chosen lines become what the one that keys work on is not. */
void
rw_line_view_toggle_phantom (RwLineView *view)
{
  g_autofree char *text = rw_line_view_get_text (view, (guint) view->row, RW_LINE_PHANTOM);
  gboolean on = rw_line_says_something (text);

  rw_line_view_type_all (view, RW_LINE_PHANTOM, on ? "" : "yes");
}

static gboolean
start_typing_key (RwLineView *view, guint keyval, GdkModifierType state)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);
  char text[8] = { 0 };

  if (rw_line_cell_chooses (view->columns[view->column])
      && (keyval == GDK_KEY_F4 || (keyval == GDK_KEY_Down && (state & GDK_ALT_MASK) != 0)))
    {
      rw_line_view_open_choices (view);
      return TRUE;
    }
  if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_F2)
    {
      rw_line_view_begin_typing (view, NULL);
      return TRUE;
    }
  if (letter == ' ' && view->columns[view->column] == RW_LINE_PHANTOM)
    {
      rw_line_view_toggle_phantom (view);
      return TRUE;
    }
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0 || !g_unichar_isprint (letter))
    return FALSE;
  g_unichar_to_utf8 (letter, text);
  rw_line_view_begin_typing (view, text);
  return TRUE;
}

/* Of the cell that keys work on. Returns: whether the key is for it */
static gboolean
menu_key (RwLineView *view, guint keyval, GdkModifierType state)
{
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);

  if (keyval != GDK_KEY_Menu && !(keyval == GDK_KEY_F10 && (state & GDK_SHIFT_MASK) != 0))
    return FALSE;
  if (cell != NULL)
    rw_line_view_open_menu (view, GTK_WIDGET (cell), 0, gtk_widget_get_height (GTK_WIDGET (cell)));
  return TRUE;
}

/* A key while the list has the keyboard. Returns: whether it was for the list */
gboolean
rw_line_view_key (RwLineView *view, guint keyval, GdkModifierType state)
{
  if (view->row < 0)
    return FALSE;
  if (view->typing)
    return typing_key (view, keyval, state);
  if (view->filling && keyval == GDK_KEY_Escape)
    {
      rw_line_view_end_filling (view, FALSE);
      return TRUE;
    }
  if (keyval == GDK_KEY_Escape && rw_line_view_is_blank (view, view->row) && rw_line_view_has_blank (view))
    {
      rw_line_view_clear_blank (view);
      rw_line_view_forget_remark (view);
      return TRUE;
    }
  if (keyval == GDK_KEY_Escape)
    {
      rw_line_view_emit_close (view);
      return TRUE;
    }
  if (keyval == GDK_KEY_Tab || keyval == GDK_KEY_ISO_Left_Tab)
    return (state & GDK_CONTROL_MASK) == 0 && step (view, keyval == GDK_KEY_Tab ? 1 : -1);
  if ((state & GDK_ALT_MASK) == 0 && move_key (view, keyval, state))
    return TRUE;
  return menu_key (view, keyval, state) || rw_line_view_command (view, keyval, state)
         || start_typing_key (view, keyval, state);
}

static gboolean
key_pressed (GtkEventControllerKey *keys, guint keyval, guint keycode, GdkModifierType state, gpointer user_data)
{
  return rw_line_view_key (user_data, keyval, state);
}

/* The keyboard went elsewhere: what is typed so far is meant. */
static gboolean
end_left (gpointer user_data)
{
  RwLineView *view = user_data;

  view->leaving = 0;
  if (rw_line_view_has_keyboard (view) || (view->choices != NULL && !view->typing)
      || (view->menu != NULL && gtk_widget_get_visible (view->menu)))
    return G_SOURCE_REMOVE;
  rw_line_view_settle (view);
  return G_SOURCE_REMOVE;
}

/* GTK is still at the entry, which must not go before it is through. */
static void
keyboard_left (GtkEventControllerFocus *focus, gpointer user_data)
{
  RwLineView *view = user_data;

  if (view->leaving == 0)
    view->leaving = g_idle_add (end_left, view);
}

void
rw_line_view_hand_init (RwLineView *view)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), view);
  g_signal_connect (focus, "leave", G_CALLBACK (keyboard_left), view);
  gtk_widget_add_controller (view->list, keys);
  gtk_widget_add_controller (view->list, focus);
  rw_line_view_mouse_init (view);
  rw_line_view_panel_init (view);
}
