/* SPDX-License-Identifier: MIT */
/* The mouse in the line list: which cells are chosen, and the handle at their corner that fills down. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define SLOP 3          /* px that a click may move */
#define MOST_NEW 512    /* rows that one drag of the handle can add below the last line */
#define COUNT_X 16      /* px from the pointer to the number of rows beside it */
#define COUNT_Y 12
#define HINT_TOP 56     /* px: below the heads and the blank row */

/* @spot: (out) (optional): what is under the pointer there */
static RwLineCell *
cell_at (RwLineView *view, double x, double y, RwLineCellSpot *spot)
{
  GtkWidget *widget = gtk_widget_pick (view->list, x, y, GTK_PICK_DEFAULT);
  RwLineCell *cell;
  double cell_x, cell_y;

  if (widget == NULL)
    return NULL;
  cell = RW_IS_LINE_CELL (widget) ? RW_LINE_CELL (widget) : (RwLineCell *) gtk_widget_get_ancestor (widget, RW_TYPE_LINE_CELL);
  if (cell != NULL && spot != NULL && gtk_widget_translate_coordinates (view->list, GTK_WIDGET (cell), x, y, &cell_x, &cell_y))
    *spot = rw_line_cell_get_spot (cell, cell_x, cell_y);
  return cell;
}

static void
choose_cell (RwLineView *view, RwLineCell *cell, gboolean extend)
{
  rw_line_view_choose (view, (int) rw_line_cell_get_position (cell),
                       rw_line_view_shown_column (view, rw_line_cell_get_column (cell)), extend);
}

/* --- Beyond the edge --- */

/* How long each row takes while the pointer is held @beyond_px beyond the list: right at the edge so long that one can
 * stop at the row that is meant. */
guint
rw_line_view_scroll_ms (double beyond_px)
{
  return beyond_px < 24 ? 240 : beyond_px < 60 ? 120 : 50;
}

void
rw_line_view_stop_scrolling (RwLineView *view)
{
  g_clear_handle_id (&view->scroll_timer, g_source_remove);
}

void
rw_line_view_set_fill_to (RwLineView *view, int row)
{
  RwCellRange range = rw_line_view_range (view);
  g_autofree char *text = NULL;
  guint n;

  view->fill_to = CLAMP (row, range.bottom, (int) rw_line_view_n_rows (view) - 1 + MOST_NEW);
  n = (guint) (view->fill_to - range.top + 1);
  text = g_strdup_printf (ngettext ("%u row", "%u rows", n), n);
  gtk_label_set_text (GTK_LABEL (view->fill_count), text);
  gtk_widget_set_visible (view->fill_count, view->fill_to > range.bottom);
  rw_line_view_show_cells (view);
}

/* Beside the pointer, and always within the list. */
static void
place_count (RwLineView *view, double x, double y)
{
  GtkWidget *count = view->fill_count;
  GtkRequisition size; /* its margins included */
  int right, bottom;

  gtk_widget_get_preferred_size (count, NULL, &size);
  right = gtk_widget_get_width (view->list) - size.width + gtk_widget_get_margin_start (count);
  bottom = gtk_widget_get_height (view->list) - size.height + gtk_widget_get_margin_top (count);
  gtk_widget_set_margin_start (count, (int) CLAMP (x + COUNT_X, 0, MAX (right, 0)));
  gtk_widget_set_margin_top (count, (int) CLAMP (y + COUNT_Y, 0, MAX (bottom, 0)));
}

static gboolean
scroll_on (gpointer user_data)
{
  RwLineView *view = user_data;

  if (view->filling)
    {
      rw_line_view_set_fill_to (view, view->fill_to + view->scroll_by);
      rw_line_view_scroll_to (view, MIN (view->fill_to, (int) rw_line_view_n_rows (view)));
    }
  else
    rw_line_view_choose (view, view->row + view->scroll_by, view->column, TRUE);
  return G_SOURCE_CONTINUE;
}

/* Returns: whether the pointer is above the first row that can be seen, or below the last */
static gboolean
scrolls (RwLineView *view, double y)
{
  GtkWidget *header = gtk_widget_get_first_child (view->list);
  int top = header != NULL ? gtk_widget_get_height (header) : 0, bottom = gtk_widget_get_height (view->list);

  guint ms = rw_line_view_scroll_ms (MAX (top - y, y - bottom));

  view->scroll_by = y < top ? -1 : y > bottom ? 1 : 0;
  if (view->scroll_by == 0 || ms != view->scroll_ms)
    rw_line_view_stop_scrolling (view);
  view->scroll_ms = ms;
  if (view->scroll_by != 0 && view->scroll_timer == 0)
    view->scroll_timer = g_timeout_add (ms, scroll_on, view);
  return view->scroll_by != 0;
}

/* --- The handle --- */

void
rw_line_view_begin_filling (RwLineView *view)
{
  view->filling = TRUE;
  rw_line_view_set_fill_to (view, rw_line_view_range (view).bottom);
}

/* @keep: what was marked is filled, else nothing happens */
void
rw_line_view_end_filling (RwLineView *view, gboolean keep)
{
  if (!view->filling)
    return;
  view->filling = FALSE;
  gtk_widget_set_visible (view->fill_count, FALSE);
  rw_line_view_stop_scrolling (view);
  rw_line_view_show_cells (view);
  if (keep)
    rw_line_view_fill_to (view, view->fill_to);
}

/* --- Gestures --- */

static void
press_cell (RwLineView *view, RwLineCell *cell, RwLineCellSpot spot, int n_press, gboolean extend)
{
  if (spot == RW_LINE_CELL_HANDLE)
    {
      rw_line_view_begin_filling (view);
      return;
    }
  if (spot == RW_LINE_CELL_ARROW) /* of the cell that keys work on: all that is chosen is meant */
    {
      rw_line_view_open_choices (view);
      return;
    }
  choose_cell (view, cell, extend);
  if (view->typing) /* what was typed is not taken: it goes first */
    return;
  view->selecting = TRUE;
  if (spot == RW_LINE_CELL_TICK && !extend)
    rw_line_view_toggle_phantom (view);
  else if (n_press == 2 && rw_line_cell_get_column (cell) == RW_LINE_PHANTOM)
    rw_line_view_toggle_phantom (view);
  else if (n_press == 2)
    rw_line_view_begin_typing (view, NULL);
}

static void
pressed (GtkGestureClick *click, int n_press, double x, double y, gpointer user_data)
{
  RwLineView *view = user_data;
  RwLineCellSpot spot = RW_LINE_CELL_PLAIN;
  RwLineCell *cell = cell_at (view, x, y, &spot);
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (click));

  view->selecting = FALSE;
  if (cell == NULL || rw_line_cell_get_edited (cell) != NULL)
    {
      gtk_gesture_set_state (GTK_GESTURE (click), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  gtk_gesture_set_state (GTK_GESTURE (click), GTK_EVENT_SEQUENCE_CLAIMED);
  press_cell (view, cell, spot, n_press, (state & GDK_SHIFT_MASK) != 0);
}

/* The right button: of the cells that are chosen, or else of the one under it. */
static void
menu_pressed (GtkGestureClick *click, int n_press, double x, double y, gpointer user_data)
{
  RwLineView *view = user_data;
  RwLineCell *cell = cell_at (view, x, y, NULL);
  RwCellRange range = rw_line_view_range (view);
  int row, column;

  if (cell == NULL || rw_line_cell_get_edited (cell) != NULL)
    return;
  gtk_gesture_set_state (GTK_GESTURE (click), GTK_EVENT_SEQUENCE_CLAIMED);
  row = (int) rw_line_cell_get_position (cell);
  column = rw_line_view_shown_column (view, rw_line_cell_get_column (cell));
  if (row < range.top || row > range.bottom || column < range.left || column > range.right)
    choose_cell (view, cell, FALSE);
  if (!view->typing)
    rw_line_view_open_menu (view, view->list, x, y);
}

/* Returns: the row that would stand at @y below the last one, if each were as high as that */
static int
row_below (RwLineView *view, double y)
{
  int last = (int) rw_line_view_n_rows (view); /* the blank one */
  RwLineCell *cell = rw_line_view_cell (view, last, view->column);
  graphene_rect_t box;

  if (cell == NULL || !gtk_widget_compute_bounds (GTK_WIDGET (cell), view->list, &box) || box.size.height <= 0)
    return view->fill_to;
  return last + MAX (0, (int) floor ((y - box.origin.y) / box.size.height));
}

static void
dragged (GtkGestureDrag *drag, double dx, double dy, gpointer user_data)
{
  RwLineView *view = user_data;
  RwLineCell *cell;
  double x, y;

  if (view->row < 0 || view->typing || view->choices != NULL || !(view->filling || view->selecting)
      || !gtk_gesture_drag_get_start_point (drag, &x, &y) || (ABS (dx) <= SLOP && ABS (dy) <= SLOP))
    return;
  place_count (view, x + dx, y + dy);
  if (scrolls (view, y + dy))
    return;
  cell = cell_at (view, x + dx, y + dy, NULL);
  if (cell != NULL && view->filling)
    rw_line_view_set_fill_to (view, (int) rw_line_cell_get_position (cell));
  else if (view->filling)
    rw_line_view_set_fill_to (view, row_below (view, y + dy));
  else if (cell != NULL)
    choose_cell (view, cell, TRUE);
}

static void
let_go (GtkGestureDrag *drag, double dx, double dy, gpointer user_data)
{
  RwLineView *view = user_data;

  rw_line_view_stop_scrolling (view);
  view->selecting = FALSE;
  rw_line_view_end_filling (view, TRUE);
}

static void
broken_off (GtkGesture *gesture, GdkEventSequence *sequence, gpointer user_data)
{
  RwLineView *view = user_data;

  rw_line_view_stop_scrolling (view);
  view->selecting = FALSE;
  rw_line_view_end_filling (view, FALSE);
}

static void
moved (GtkEventControllerMotion *motion, double x, double y, gpointer user_data)
{
  RwLineView *view = user_data;
  RwLineCellSpot spot = RW_LINE_CELL_PLAIN;

  cell_at (view, x, y, &spot);
  gtk_widget_set_cursor_from_name (view->list, view->filling || spot == RW_LINE_CELL_HANDLE ? "crosshair" : NULL);
}

/* Returns: (transfer floating): @scroll, and over it what is shown beside the pointer */
GtkWidget *
rw_line_view_make_over (RwLineView *view, GtkWidget *scroll)
{
  GtkWidget *over = gtk_overlay_new ();

  view->fill_count = gtk_label_new ("");
  gtk_widget_add_css_class (view->fill_count, "rw-fill-count");
  gtk_widget_set_halign (view->fill_count, GTK_ALIGN_START);
  gtk_widget_set_valign (view->fill_count, GTK_ALIGN_START);
  gtk_widget_set_can_target (view->fill_count, FALSE);
  gtk_widget_set_visible (view->fill_count, FALSE);
  view->hint = gtk_label_new ("");
  gtk_label_set_wrap (GTK_LABEL (view->hint), TRUE);
  gtk_label_set_justify (GTK_LABEL (view->hint), GTK_JUSTIFY_CENTER);
  gtk_widget_add_css_class (view->hint, "dim-label");
  gtk_widget_set_halign (view->hint, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (view->hint, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_top (view->hint, HINT_TOP);
  gtk_widget_set_can_target (view->hint, FALSE);
  gtk_overlay_set_child (GTK_OVERLAY (over), scroll);
  gtk_overlay_add_overlay (GTK_OVERLAY (over), view->hint);
  gtk_overlay_add_overlay (GTK_OVERLAY (over), view->fill_count);
  return over;
}

void
rw_line_view_mouse_init (RwLineView *view)
{
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkGesture *click = gtk_gesture_click_new ();
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkGesture *menu = gtk_gesture_click_new ();

  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (click), GTK_PHASE_CAPTURE);
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (drag), GTK_PHASE_CAPTURE);
  g_signal_connect (click, "pressed", G_CALLBACK (pressed), view);
  g_signal_connect (drag, "drag-update", G_CALLBACK (dragged), view);
  g_signal_connect (drag, "drag-end", G_CALLBACK (let_go), view);
  g_signal_connect (drag, "cancel", G_CALLBACK (broken_off), view);
  g_signal_connect (motion, "motion", G_CALLBACK (moved), view);
  gtk_widget_add_controller (view->list, motion);
  gtk_widget_add_controller (view->list, GTK_EVENT_CONTROLLER (click));
  gtk_widget_add_controller (view->list, GTK_EVENT_CONTROLLER (drag));
  gtk_gesture_group (drag, click);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (menu), GTK_PHASE_CAPTURE);
  g_signal_connect (menu, "pressed", G_CALLBACK (menu_pressed), view);
  gtk_widget_add_controller (view->list, GTK_EVENT_CONTROLLER (menu));
}
