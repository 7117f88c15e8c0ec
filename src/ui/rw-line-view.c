/* SPDX-License-Identifier: MIT */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

G_DEFINE_FINAL_TYPE (RwLineView, rw_line_view, GTK_TYPE_WIDGET)

enum { WAY, CLOSE, IMPORT, EXPORT, SETS, N_SIGNALS };
static guint signals[N_SIGNALS];

void
rw_line_view_emit_close (RwLineView *view)
{
  g_signal_emit (view, signals[CLOSE], 0);
}

void
rw_line_view_emit_way (RwLineView *view)
{
  g_signal_emit (view, signals[WAY], 0);
}

guint
rw_line_view_n_rows (RwLineView *view)
{
  return g_list_model_get_n_items (G_LIST_MODEL (view->selection)) - 1; /* without the blank one at the end */
}

/* Returns: (transfer none) (nullable): the list holds it */
RwLineRow *
rw_line_view_row (RwLineView *view, guint position)
{
  g_autoptr (RwLineRow) row = g_list_model_get_item (G_LIST_MODEL (view->selection), position);

  return row;
}

const RwLine *
rw_line_view_get_line (RwLineView *view)
{
  return rw_line_view_line_at (view, view->row);
}

/* --- What is listed --- */

static gboolean
is_of_devices (RwLineView *view, const RwLine *line)
{
  return view->devices == NULL
         || (line->stage != NULL && g_hash_table_contains (view->devices, rw_item_key (line->stage)))
         || (line->console != NULL && g_hash_table_contains (view->devices, rw_item_key (line->console)));
}

static gboolean
holds_needle (RwLineView *view, const RwLine *line)
{
  if (view->needle == NULL)
    return TRUE;
  for (guint i = 0; i < view->n_columns; i++)
    {
      g_autofree char *text = rw_line_text (line, view->columns[i]);
      g_autofree char *folded = g_utf8_casefold (text, -1);
      if (strstr (folded, view->needle) != NULL)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_listed (gpointer item, gpointer user_data)
{
  const RwLine *line = rw_line_row_get (item);

  return is_of_devices (user_data, line) && holds_needle (user_data, line);
}

/* What to do where nothing is listed. */
static const char *
hint_text (RwLineView *view)
{
  if (view->document == NULL || rw_rig_n (rw_document_rig (view->document), RW_ITEM_DEVICE) == 0)
    return _("Put a console and a rack on the sheet first: drag them from the shelf, or press Insert");
  if (view->needle != NULL)
    return _("No line holds what you search for");
  if (view->devices != NULL)
    return _("What is selected on the sheet has no lines here");
  return view->with_free ? _("No device on the sheet has anything to patch") : _("Tick “Free sockets” to see what can be patched");
}

static void
show_count (RwLineView *view)
{
  guint n = rw_line_view_n_rows (view);
  g_autofree char *text = g_strdup_printf (ngettext ("%u line", "%u lines", n), n);

  gtk_widget_set_visible (view->hint, n == 0);
  gtk_label_set_text (GTK_LABEL (view->hint), n == 0 ? hint_text (view) : "");
  gtk_label_set_text (GTK_LABEL (view->count), text);
  gtk_widget_set_tooltip_text (view->count, text);
}

#define FEW_ROWS 50 /* that may go while the list stays where it is */

/* GTK 4.8 leaves rows on the screen that are gone where many go while the list is scrolled far down. */
static void
show_top (RwLineView *view)
{
  gtk_adjustment_set_value (gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (view->list)), 0);
}

/* The rows at the corners of what is chosen, while the list becomes another. */
typedef struct { RwLineRow *row, *anchor; } Choice;

static RwLineRow *
hold_row (RwLineView *view, int row)
{
  RwLineRow *held = row >= 0 ? rw_line_view_row (view, (guint) row) : NULL;

  return held != NULL ? g_object_ref (held) : NULL;
}

static Choice
hold_choice (RwLineView *view)
{
  return (Choice){ hold_row (view, view->row), hold_row (view, view->anchor_row) };
}

/* Returns: where it stands now; @gone = nowhere, -1 or where it stood before */
static int
find_row (RwLineView *view, RwLineRow *row, int gone)
{
  int n = (int) rw_line_view_n_rows (view);

  if (row != NULL && gone >= 0 && rw_line_view_row (view, (guint) gone) == row) /* as after most edits */
    return gone;
  for (int i = 0; row != NULL && i <= n; i++)
    if (rw_line_view_row (view, (guint) i) == row)
      return i;
  return MIN (gone, MAX (n - 1, 0));
}

static void
show_choice (RwLineView *view)
{
  rw_line_view_show_range (view);
  show_count (view);
  rw_line_view_emit_way (view);
}

/* After the list became another: the same lines are chosen; where they are gone, what stands there now. */
static void
keep_choice (RwLineView *view, const Choice *choice)
{
  view->row = find_row (view, choice->row, view->row);
  view->anchor_row = find_row (view, choice->anchor, view->anchor_row);
}

/* After the list came into another order: the same line is chosen, if it is listed. */
static void
find_choice (RwLineView *view, const Choice *choice)
{
  view->row = view->anchor_row = find_row (view, choice->row, -1);
  view->anchor_column = view->column = view->row >= 0 ? view->column : -1;
}

void
rw_line_view_filter_anew (RwLineView *view)
{
  show_top (view);
  gtk_filter_changed (GTK_FILTER (view->filter), GTK_FILTER_CHANGE_DIFFERENT);
  rw_line_view_choose_none (view);
  show_choice (view);
}

/* Which devices of the sheet's selection the list keeps to, and what says so. */
static void
read_selection (RwLineView *view)
{
  const RwRig *rig = rw_document_rig (view->document);
  g_autofree const char **keys = rw_selection_keys (rw_document_selection (view->document), rig, RW_ITEM_DEVICE);
  guint n = g_strv_length ((char **) keys);
  g_autofree char *text = NULL;

  g_clear_pointer (&view->devices, g_hash_table_unref);
  gtk_widget_set_visible (view->filter_box, n > 0);
  if (n == 0)
    return;
  view->devices = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < n; i++)
    g_hash_table_add (view->devices, g_strdup (keys[i]));
  text = n == 1 /* Translators: %s is a device's name. */
           ? g_strdup_printf (_("Only of %s"), rw_device_title (rw_rig_device (rig, keys[0])))
           : g_strdup_printf (ngettext ("Only of %u device", "Only of %u devices", n), n);
  gtk_label_set_text (GTK_LABEL (view->filter_label), text);
  gtk_widget_set_tooltip_text (view->filter_label, text);
}

static int
compare_shown (gconstpointer a, gconstpointer b, gpointer view)
{
  GtkSorter *sorter = gtk_column_view_get_sorter (GTK_COLUMN_VIEW (RW_LINE_VIEW (view)->list));

  return gtk_sorter_compare (sorter, (gpointer) a, (gpointer) b);
}

/* Shows the rig as it is now; costs nothing while the list is out of sight.
 * @anew: in the order of the column that was clicked, else the rows stay as they stand */
static void
relist (RwLineView *view, gboolean anew)
{
  g_autoptr (RwLines) lines = NULL;
  Choice choice;
  gboolean far;

  if (view->document == NULL || !gtk_widget_get_mapped (GTK_WIDGET (view)))
    return;
  /* what is typed changes the rig, and the list with it */
  if (anew && view->typing && !rw_line_view_end_typing (view, TRUE))
    rw_line_view_end_typing (view, FALSE);
  lines = rw_lines_new (rw_document_rig (view->document), view->side, view->with_free);
  choice = hold_choice (view);
  far = anew || g_list_model_get_n_items (G_LIST_MODEL (view->model)) > rw_lines_n (lines) + FEW_ROWS;
  if (far)
    show_top (view);
  if (anew)
    rw_line_list_order (view->model, lines, compare_shown, view);
  else
    rw_line_list_refresh (view->model, lines, view->moves);
  (anew ? find_choice : keep_choice) (view, &choice);
  if (far && view->row >= 0)
    rw_line_view_scroll_to (view, view->row);
  show_choice (view);
  g_clear_object (&choice.row);
  g_clear_object (&choice.anchor);
}

static void
order_changed (GtkSorter *sorter, GtkSorterChange change, gpointer user_data)
{
  relist (user_data, TRUE);
}

static void
selection_changed (RwSelection *selection, gpointer user_data)
{
  RwLineView *view = user_data;

  read_selection (view);
  if (gtk_widget_get_mapped (GTK_WIDGET (view)))
    rw_line_view_filter_anew (view);
}

/* Until a person says otherwise, free sockets are listed only where there is no line yet that could be worked on. */
static void
choose_free (RwLineView *view)
{
  g_autoptr (RwLines) lines = NULL;

  if (view->free_chosen || view->document == NULL || !gtk_widget_get_mapped (GTK_WIDGET (view)))
    return;
  lines = rw_lines_new (rw_document_rig (view->document), view->side, FALSE);
  view->with_free = rw_lines_n (lines) == 0;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (view->free_check), view->with_free);
}

static void
document_changed (RwDocument *document, guint what, RwChange *change, gpointer user_data)
{
  RwLineView *view = user_data;

  if ((what & RW_DOCUMENT_RIG) != 0)
    {
      rw_line_view_forget_remark (view);
      rw_line_view_forget_candidates (view);
      view->powers = change != NULL && rw_change_turns_phantom_on (change);
    }
  if ((what & RW_DOCUMENT_WHOLE) != 0)
    {
      rw_line_view_close_problems (view);
      rw_line_view_clear_blank (view);
      rw_line_view_choose_none (view);
      choose_free (view);
    }
  read_selection (view);
  relist (view, (what & RW_DOCUMENT_WHOLE) != 0);
}

static void
rw_line_view_map (GtkWidget *widget)
{
  RwLineView *view = RW_LINE_VIEW (widget);

  GTK_WIDGET_CLASS (rw_line_view_parent_class)->map (widget);
  gtk_filter_changed (GTK_FILTER (view->filter), GTK_FILTER_CHANGE_DIFFERENT);
  choose_free (view);
  relist (view, TRUE);
  rw_line_view_filter_anew (view);
}

/* With the list goes what belongs to it. */
static void
rw_line_view_unmap (GtkWidget *widget)
{
  rw_line_view_close_problems (RW_LINE_VIEW (widget));
  GTK_WIDGET_CLASS (rw_line_view_parent_class)->unmap (widget);
}

void
rw_line_view_set_document (RwLineView *view, RwDocument *document)
{
  g_return_if_fail (RW_IS_LINE_VIEW (view));
  rw_line_view_close_problems (view);
  rw_line_view_forget_remark (view);
  rw_line_view_clear_blank (view);
  if (view->document != NULL)
    {
      g_signal_handlers_disconnect_by_data (view->document, view);
      g_signal_handlers_disconnect_by_data (rw_document_selection (view->document), view);
    }
  g_set_object (&view->document, document);
  if (document == NULL)
    return;
  g_signal_connect (document, "changed", G_CALLBACK (document_changed), view);
  g_signal_connect (rw_document_selection (document), "changed", G_CALLBACK (selection_changed), view);
  read_selection (view);
  choose_free (view);
  relist (view, TRUE);
}

/* --- Columns --- */

static void
cell_setup (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer column)
{
  gtk_list_item_set_child (item, rw_line_cell_new (GPOINTER_TO_INT (column), item));
  gtk_list_item_set_activatable (item, FALSE);
}

static void
cell_bind (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  RwLineView *view = user_data;
  RwLineCell *cell = RW_LINE_CELL (gtk_list_item_get_child (item));

  rw_line_cell_bind (cell);
  g_hash_table_add (view->cells, cell);
  rw_line_cell_set_state (cell, rw_line_view_cell_state (view, (int) gtk_list_item_get_position (item),
                                                         rw_line_view_shown_column (view, rw_line_cell_get_column (cell))));
}

static void
cell_unbind (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  RwLineView *view = user_data;
  RwLineCell *cell = RW_LINE_CELL (gtk_list_item_get_child (item));

  g_hash_table_remove (view->cells, cell);
  rw_line_cell_unbind (cell);
}

static int
compare_rows (gconstpointer a, gconstpointer b, gpointer column)
{
  return rw_line_compare (rw_line_row_get ((gpointer) a), rw_line_row_get ((gpointer) b), GPOINTER_TO_INT (column));
}

static void
add_column (RwLineView *view, RwLineColumn column)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkSorter) sorter = GTK_SORTER (gtk_custom_sorter_new (compare_rows, GINT_TO_POINTER (column), NULL));
  g_autoptr (GtkColumnViewColumn) shown = NULL;

  g_signal_connect (factory, "setup", G_CALLBACK (cell_setup), GINT_TO_POINTER (column));
  g_signal_connect (factory, "bind", G_CALLBACK (cell_bind), view);
  g_signal_connect (factory, "unbind", G_CALLBACK (cell_unbind), view);
  shown = gtk_column_view_column_new (rw_line_column_title (view->side, column), factory);
  gtk_column_view_column_set_resizable (shown, TRUE);
  gtk_column_view_column_set_fixed_width (shown, rw_line_cell_width (view->list, view->side, column));
  gtk_column_view_column_set_expand (shown, column == RW_LINE_NOTES);
  gtk_column_view_column_set_sorter (shown, sorter);
  gtk_column_view_append_column (GTK_COLUMN_VIEW (view->list), shown);
}

#define NUMBER_WIDTH 52 /* px: of four digits */

static void
show_number (GtkListItem *item, GParamSpec *pspec, gpointer label)
{
  g_autofree char *text = g_strdup_printf ("%u", gtk_list_item_get_position (item) + 1);

  gtk_label_set_text (label, text);
}

static void
number_setup (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_widget_add_css_class (label, "rw-row-number");
  gtk_list_item_set_child (item, label);
  gtk_list_item_set_activatable (item, FALSE);
  g_signal_connect_object (item, "notify::position", G_CALLBACK (show_number), label, 0);
}

/* Which row it is now, as remarks name it: no column of the line, neither sorted by nor copied nor exported. */
static void
add_numbers (RwLineView *view)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkColumnViewColumn) shown = NULL;

  g_signal_connect (factory, "setup", G_CALLBACK (number_setup), NULL);
  shown = gtk_column_view_column_new (_("Row"), factory);
  gtk_column_view_column_set_fixed_width (shown, NUMBER_WIDTH);
  gtk_column_view_append_column (GTK_COLUMN_VIEW (view->list), shown);
}

static void
show_columns (RwLineView *view)
{
  GListModel *present = gtk_column_view_get_columns (GTK_COLUMN_VIEW (view->list));

  gtk_column_view_sort_by_column (GTK_COLUMN_VIEW (view->list), NULL, GTK_SORT_ASCENDING);
  while (g_list_model_get_n_items (present) > 0)
    {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (present, 0);
      gtk_column_view_remove_column (GTK_COLUMN_VIEW (view->list), column);
    }
  view->columns = rw_line_columns (view->side, &view->n_columns);
  add_numbers (view);
  for (guint i = 0; i < view->n_columns; i++)
    add_column (view, view->columns[i]);
}

RwLineSide
rw_line_view_get_side (RwLineView *view)
{
  return view->side;
}

void
rw_line_view_set_side (RwLineView *view, RwLineSide side)
{
  g_return_if_fail (RW_IS_LINE_VIEW (view) && side < RW_N_LINE_SIDES);
  if (view->side == side)
    return;
  rw_line_view_forget_remark (view); /* it is of the other side's rows */
  rw_line_view_choose_none (view);
  show_top (view); /* while the rows still have their places */
  if (!rw_line_view_leave_blank (view))
    rw_line_view_clear_blank (view);
  view->side = side;
  rw_line_row_set_side (view->blank, side);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (view->side_buttons[side]), TRUE);
  show_columns (view);
  choose_free (view);
  relist (view, TRUE);
}

void
rw_line_view_set_with_free (RwLineView *view, gboolean with_free)
{
  g_return_if_fail (RW_IS_LINE_VIEW (view));
  if (view->with_free == with_free)
    return;
  view->free_chosen = TRUE;
  view->with_free = with_free;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (view->free_check), with_free);
  relist (view, TRUE);
}

void
rw_line_view_focus (RwLineView *view)
{
  g_return_if_fail (RW_IS_LINE_VIEW (view));
  rw_line_view_choose (view, MAX (view->row, 0), MAX (view->column, 0), FALSE);
}

/* --- The widget --- */

GtkWidget *
rw_line_view_new (void)
{
  return g_object_new (RW_TYPE_LINE_VIEW, NULL);
}

static void
rw_line_view_dispose (GObject *object)
{
  RwLineView *view = RW_LINE_VIEW (object);

  view->row = -1;
  view->typing = FALSE;
  rw_line_view_stop_scrolling (view);
  g_clear_handle_id (&view->leaving, g_source_remove);
  rw_line_view_close_choices (view);
  rw_line_view_forget_candidates (view);
  g_clear_pointer (&view->menu, gtk_widget_unparent);
  rw_line_view_set_document (view, NULL);
  g_clear_pointer (&view->box, gtk_widget_unparent);
  g_clear_object (&view->selection);
  g_clear_object (&view->filter);
  g_clear_object (&view->model);
  g_clear_object (&view->blank);
  g_clear_pointer (&view->devices, g_hash_table_unref);
  g_clear_pointer (&view->cells, g_hash_table_unref);
  g_clear_pointer (&view->needle, g_free);
  G_OBJECT_CLASS (rw_line_view_parent_class)->dispose (object);
}

static void
rw_line_view_class_init (RwLineViewClass *klass)
{
  static const char *const names[] = { "way", "close", "import", "export", "sets" };

  G_OBJECT_CLASS (klass)->dispose = rw_line_view_dispose;
  GTK_WIDGET_CLASS (klass)->map = rw_line_view_map;
  GTK_WIDGET_CLASS (klass)->unmap = rw_line_view_unmap;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "linelist");
  rw_line_view_install_actions (GTK_WIDGET_CLASS (klass));
  for (guint i = 0; i < N_SIGNALS; i++)
    signals[i] = g_signal_new (names[i], G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

/* Lines, in the order of the column that was clicked last → those that are wanted, and a blank one → chosen. */
static void
make_models (RwLineView *view)
{
  GtkFilterListModel *filtered;
  g_autoptr (GListStore) end = g_list_store_new (RW_TYPE_LINE_ROW);
  g_autoptr (GListStore) both = g_list_store_new (G_TYPE_LIST_MODEL);

  view->model = rw_line_list_new ();
  view->filter = gtk_custom_filter_new (is_listed, view, NULL);
  filtered = gtk_filter_list_model_new (G_LIST_MODEL (g_object_ref (view->model)), GTK_FILTER (g_object_ref (view->filter)));
  view->blank = rw_line_row_new_blank (view->side);
  g_list_store_append (end, view->blank);
  g_list_store_append (both, filtered);
  g_list_store_append (both, end);
  g_object_unref (filtered);
  view->selection = gtk_multi_selection_new (G_LIST_MODEL (gtk_flatten_list_model_new (g_object_ref (G_LIST_MODEL (both)))));
  gtk_column_view_set_model (GTK_COLUMN_VIEW (view->list), GTK_SELECTION_MODEL (view->selection));
}

static void
rw_line_view_init (RwLineView *view)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();

  view->row = view->column = view->anchor_row = view->anchor_column = -1;
  view->cells = g_hash_table_new (NULL, NULL);
  view->list = gtk_column_view_new (NULL);
  make_models (view);
  show_columns (view);
  g_signal_connect (gtk_column_view_get_sorter (GTK_COLUMN_VIEW (view->list)), "changed", G_CALLBACK (order_changed), view);
  gtk_column_view_set_reorderable (GTK_COLUMN_VIEW (view->list), FALSE);
  gtk_column_view_set_show_column_separators (GTK_COLUMN_VIEW (view->list), TRUE);
  gtk_column_view_set_show_row_separators (GTK_COLUMN_VIEW (view->list), TRUE);
  gtk_widget_add_css_class (view->list, "rw-line-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Line list"), -1);
  rw_line_view_hand_init (view);
  view->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (view->box), rw_line_view_make_bar (view));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), view->list);
  gtk_widget_set_vexpand (scroll, TRUE);
  gtk_box_append (GTK_BOX (view->box), rw_line_view_make_over (view, scroll));
  gtk_box_append (GTK_BOX (view->box), rw_line_view_make_foot (view));
  gtk_widget_set_parent (view->box, GTK_WIDGET (view));
}
