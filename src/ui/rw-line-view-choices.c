/* SPDX-License-Identifier: MIT */
/* The list below a cell of what can stand in it: whole, to pick from, or what fits while one types. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MOST_HEIGHT 260 /* px */
#define MOST_OFFERED 50 /* of what fits: who wants another types on */

/* What stands in the list, and what it puts into the cell. */
typedef struct
{
  char *label, *text;
  char *name, *id; /* folded; @id: (nullable): whole, it means the same where no name does */
  guint fits;
} Choice;

static void
choice_clear (gpointer data)
{
  Choice *choice = data;

  g_free (choice->label);
  g_free (choice->text);
  g_free (choice->name);
  g_free (choice->id);
}

static void
add_kinds (GArray *choices)
{
  const char *const *kinds = rw_channel_table.fields[RW_CHANNEL_SOURCE].word_labels;

  for (guint i = 0; kinds[i] != NULL; i++)
    {
      Choice choice = { g_strdup (_(kinds[i])), g_strdup (_(kinds[i])), rw_line_fold (_(kinds[i])), NULL, 0 };
      g_array_append_val (choices, choice);
    }
}

/* Returns: (transfer full): the names that several devices have, folded */
static GHashTable *
find_shared_names (const RwRig *rig)
{
  RwItem *const *devices = rw_rig_items (rig, RW_ITEM_DEVICE);
  g_autoptr (GHashTable) names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GHashTable *shared = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      char *name = rw_line_fold (rw_device_title ((const RwDevice *) devices[i]));
      if (g_hash_table_contains (names, name))
        g_hash_table_add (shared, g_strdup (name));
      g_hash_table_add (names, name);
    }
  return shared;
}

/* A device is meant by its name; by its ID where another is called the same. */
static const char *
device_text (GHashTable *shared, const RwDevice *device)
{
  g_autofree char *name = rw_line_fold (rw_device_title (device));

  return g_hash_table_contains (shared, name) ? rw_item_key (device) : rw_device_title (device);
}

/* Returns: (transfer none): what means @device in a cell */
const char *
rw_line_view_device_text (const RwRig *rig, const RwDevice *device)
{
  g_autoptr (GHashTable) shared = find_shared_names (rig);

  return device_text (shared, device);
}

static void
add_devices (RwLineView *view, RwLineColumn column, GArray *choices)
{
  const RwRig *rig = rw_document_rig (view->document);
  RwItem *const *devices = rw_rig_items (rig, RW_ITEM_DEVICE);
  g_autoptr (GHashTable) shared = find_shared_names (rig);

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      const RwDevice *device = (const RwDevice *) devices[i];
      const char *title = rw_device_title (device), *id = rw_item_key (device), *text = device_text (shared, device);
      Choice choice = { .text = g_strdup (text), .name = rw_line_fold (title), .id = rw_line_fold (id) };

      choice.label = text == title ? g_strdup (title) : g_strdup_printf ("%s (%s)", title, id);
      if (rw_line_fits (rig, view->side, column, device))
        g_array_append_val (choices, choice);
      else
        choice_clear (&choice);
    }
}

/* Returns: (transfer full): of Choice: all that can stand in the chosen cell */
static GArray *
find_choices (RwLineView *view)
{
  GArray *choices = g_array_new (FALSE, FALSE, sizeof (Choice));
  RwLineColumn column = view->columns[view->column];

  g_array_set_clear_func (choices, choice_clear);
  if (column == RW_LINE_SOURCE)
    add_kinds (choices);
  else
    add_devices (view, column, choices);
  return choices;
}

/* How well a choice fits, as the cell would be understood: a name before an ID, both before what merely begins so. */
static guint
fit (const Choice *choice, const char *typed, const char *folded)
{
  if (strcmp (folded, choice->name) == 0)
    return 5;
  if (g_strcmp0 (folded, choice->id) == 0)
    return 4;
  return rw_line_match (typed, choice->label);
}

static int
compare_choices (gconstpointer a, gconstpointer b)
{
  return (int) (*(const Choice *const *) b)->fits - (int) (*(const Choice *const *) a)->fits;
}

/* Returns: (transfer container): of Choice: what fits @typed, the best first */
static GPtrArray *
find_fitting (GArray *choices, const char *typed)
{
  GPtrArray *fitting = g_ptr_array_new ();
  g_autofree char *folded = rw_line_fold (typed);

  for (guint i = 0; i < choices->len; i++)
    {
      Choice *choice = &g_array_index (choices, Choice, i);
      choice->fits = fit (choice, typed, folded);
      if (choice->fits > 0)
        g_ptr_array_add (fitting, choice);
    }
  g_ptr_array_sort (fitting, compare_choices); /* those that fit alike keep their order: GLib's sort is stable */
  g_ptr_array_set_size (fitting, (int) MIN (fitting->len, MOST_OFFERED));
  return fitting;
}

/* --- The list --- */

static GtkListBox *
box_of (RwLineView *view)
{
  return g_object_get_data (G_OBJECT (view->choices), "box");
}

static gboolean
destroy_closed (gpointer user_data)
{
  RwLineView *view = user_data;

  view->closed_source = 0;
  g_clear_pointer (&view->closed_choices, gtk_widget_unparent);
  return G_SOURCE_REMOVE;
}

static void
destroy_closed_now (RwLineView *view)
{
  g_clear_handle_id (&view->closed_source, g_source_remove);
  destroy_closed (view);
}

/* It goes when GTK is through with it: this may run inside its own signal. */
static void
list_closed (GtkPopover *list, gpointer user_data)
{
  RwLineView *view = user_data;

  if (view->choices != GTK_WIDGET (list))
    return;
  destroy_closed_now (view); /* one that closed before it */
  view->closed_choices = g_steal_pointer (&view->choices);
  view->closed_source = g_idle_add (destroy_closed, view);
  if (view->row >= 0 && gtk_popover_get_autohide (list))
    rw_line_view_choose (view, view->row, view->column, TRUE); /* the keyboard goes back to the cell */
}

void
rw_line_view_end_offer (RwLineView *view)
{
  if (view->choices != NULL)
    gtk_popover_popdown (GTK_POPOVER (view->choices));
}

/* At once: not from a signal of its own. */
void
rw_line_view_close_choices (RwLineView *view)
{
  GtkWidget *list = g_steal_pointer (&view->choices);

  destroy_closed_now (view);
  if (list != NULL)
    gtk_widget_unparent (list);
}

/* With it ends what was offered for what was typed. */
static void
put_into_entry (RwLineView *view, GtkListBoxRow *row)
{
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);

  view->typing = FALSE; /* so that nothing is offered for it again */
  if (cell != NULL && rw_line_cell_get_entry (cell) != NULL)
    gtk_editable_set_text (GTK_EDITABLE (rw_line_cell_get_entry (cell)), g_object_get_data (G_OBJECT (row), "text"));
  view->typing = TRUE;
  rw_line_view_end_offer (view);
}

gboolean
rw_line_view_pick (RwLineView *view, guint row)
{
  GtkListBoxRow *picked = view->choices != NULL ? gtk_list_box_get_row_at_index (box_of (view), (int) row) : NULL;
  g_autofree char *text = picked != NULL ? g_strdup (g_object_get_data (G_OBJECT (picked), "text")) : NULL;

  if (picked == NULL)
    return FALSE;
  if (view->typing)
    {
      put_into_entry (view, picked);
      rw_line_view_end_typing (view, TRUE);
      return TRUE;
    }
  gtk_popover_popdown (GTK_POPOVER (view->choices));
  rw_line_view_type_all (view, view->columns[view->column], text);
  return TRUE;
}

static void
row_activated (GtkListBox *box, GtkListBoxRow *row, gpointer user_data)
{
  rw_line_view_pick (user_data, (guint) gtk_list_box_row_get_index (row));
}

static GtkListBoxRow *
add_row (GtkListBox *box, const char *shown, const char *text, gboolean takes_keys)
{
  GtkWidget *row = gtk_list_box_row_new (), *label = gtk_label_new (shown);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  gtk_widget_set_can_focus (row, takes_keys);
  g_object_set_data_full (G_OBJECT (row), "text", g_strdup (text), g_free);
  gtk_list_box_append (box, row);
  return GTK_LIST_BOX_ROW (row);
}

/* @takes_keys: it has the keyboard, and goes with the next click beside it; else the keyboard stays where one types */
static GtkWidget *
make_list (RwLineView *view, gboolean takes_keys)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_list_box_new (), *scroll = gtk_scrolled_window_new ();

  gtk_widget_add_css_class (box, "rw-choice-list");
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (box), GTK_SELECTION_BROWSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (box), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  rw_line_column_title (view->side, view->columns[view->column]), -1);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroll), MOST_HEIGHT);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), box);
  gtk_popover_set_child (GTK_POPOVER (popover), scroll);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_popover_set_autohide (GTK_POPOVER (popover), takes_keys);
  gtk_popover_set_position (GTK_POPOVER (popover), GTK_POS_BOTTOM);
  gtk_widget_set_halign (popover, GTK_ALIGN_START);
  gtk_widget_set_can_focus (popover, takes_keys);
  gtk_widget_add_css_class (popover, "rw-choice-popover");
  g_object_set_data (G_OBJECT (popover), "box", box);
  g_signal_connect (box, "row-activated", G_CALLBACK (row_activated), view);
  g_signal_connect (popover, "closed", G_CALLBACK (list_closed), view);
  return popover;
}

/* Opens below the cell that keys work on. Returns: FALSE where that is out of sight */
static gboolean
open_list (RwLineView *view, gboolean takes_keys)
{
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);
  double x, y;

  if (cell == NULL || !gtk_widget_translate_coordinates (GTK_WIDGET (cell), GTK_WIDGET (view), 0, 0, &x, &y))
    return FALSE;
  view->choices = make_list (view, takes_keys);
  gtk_widget_set_parent (view->choices, GTK_WIDGET (view));
  gtk_popover_set_pointing_to (GTK_POPOVER (view->choices),
                               &(GdkRectangle) { (int) x, (int) y, gtk_widget_get_width (GTK_WIDGET (cell)), gtk_widget_get_height (GTK_WIDGET (cell)) });
  return TRUE;
}

static void
empty_list (RwLineView *view)
{
  GtkListBox *box = box_of (view);
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (box, 0)) != NULL)
    gtk_list_box_remove (box, GTK_WIDGET (row));
}

/* Opens the whole list, with the keyboard on what stands in the cell. */
void
rw_line_view_open_choices (RwLineView *view)
{
  g_autoptr (GArray) choices = NULL;
  g_autofree char *present = NULL;
  GtkListBoxRow *row;
  int at = 0;

  if (view->choices != NULL || view->row < 0 || !open_list (view, TRUE))
    return;
  present = rw_line_view_get_text (view, (guint) view->row, view->columns[view->column]);
  choices = find_choices (view);
  if (view->columns[view->column] == RW_LINE_SOURCE)
    add_row (box_of (view), _("Unknown"), "", TRUE);
  for (guint i = 0; i < choices->len; i++)
    {
      const Choice *choice = &g_array_index (choices, Choice, i);
      GtkListBoxRow *added = add_row (box_of (view), choice->label, choice->text, TRUE);
      if (g_strcmp0 (choice->text, present) == 0)
        at = gtk_list_box_row_get_index (added);
    }
  gtk_popover_popup (GTK_POPOVER (view->choices));
  row = gtk_list_box_get_row_at_index (box_of (view), at);
  if (row == NULL)
    return;
  gtk_list_box_select_row (box_of (view), row);
  gtk_widget_grab_focus (GTK_WIDGET (row));
}

/* What could be typed is looked for again at the next key: the cell or the rig is another. */
void
rw_line_view_forget_candidates (RwLineView *view)
{
  g_clear_pointer (&view->candidates, g_array_unref);
}

/* Offers what fits what is typed so far; the best of it is taken by Enter. */
void
rw_line_view_offer (RwLineView *view)
{
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);
  const char *typed = cell != NULL && view->typing ? rw_line_cell_get_edited (cell) : NULL;
  g_autoptr (GPtrArray) fitting = NULL;

  if (rw_line_says_something (typed))
    {
      if (view->candidates == NULL)
        view->candidates = find_choices (view);
      fitting = find_fitting (view->candidates, typed);
    }
  if (fitting == NULL || fitting->len == 0)
    {
      rw_line_view_end_offer (view);
      return;
    }
  if (view->choices == NULL && !open_list (view, FALSE))
    return;
  empty_list (view);
  for (guint i = 0; i < fitting->len; i++)
    {
      const Choice *choice = fitting->pdata[i];
      add_row (box_of (view), choice->label, choice->text, FALSE);
    }
  gtk_list_box_select_row (box_of (view), gtk_list_box_get_row_at_index (box_of (view), 0));
  gtk_popover_popup (GTK_POPOVER (view->choices));
}

static GtkListBoxRow *
chosen_row (RwLineView *view)
{
  return view->choices != NULL ? gtk_list_box_get_selected_row (box_of (view)) : NULL;
}

/* Up and down in what is offered. Returns: FALSE where nothing is */
gboolean
rw_line_view_step_choice (RwLineView *view, int by)
{
  GtkListBoxRow *row = chosen_row (view);

  if (row == NULL)
    return FALSE;
  row = gtk_list_box_get_row_at_index (box_of (view), gtk_list_box_row_get_index (row) + by);
  if (row != NULL)
    gtk_list_box_select_row (box_of (view), row);
  return TRUE;
}

/* What is offered goes into the entry, in the place of what was typed. */
void
rw_line_view_take_offer (RwLineView *view)
{
  GtkListBoxRow *row = view->typing ? chosen_row (view) : NULL;

  if (row != NULL)
    put_into_entry (view, row);
}
