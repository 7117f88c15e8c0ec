/* SPDX-License-Identifier: MIT */
#include "rw-form.h"

#define GAP 8

static GtkSizeRequestMode
panel_mode (GtkWidget *panel)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
measure_panel (GtkWidget *panel, GtkOrientation orientation, int for_size, int *minimum, int *natural,
               int *minimum_baseline, int *natural_baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (panel);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    for_size = -1;
  else if (for_size < 0) /* as high as it is at its natural width: GTK wants that no width makes it higher */
    gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &for_size, NULL, NULL);
  gtk_widget_measure (child, orientation, for_size, minimum, natural, NULL, NULL);
}

static void
allocate_panel (GtkWidget *panel, int width, int height, int baseline)
{
  gtk_widget_size_allocate (gtk_widget_get_first_child (panel), &(GtkAllocation) { 0, 0, width, height }, baseline);
}

GtkLayoutManager *
rw_form_panel_layout (void)
{
  return gtk_custom_layout_new (panel_mode, measure_panel, allocate_panel);
}

GtkWidget *
rw_form_new (void)
{
  return gtk_box_new (GTK_ORIENTATION_VERTICAL, GAP);
}

/* Returns: (transfer none): the row */
GtkWidget *
rw_form_add (GtkWidget *form, const char *name, GtkWidget *control)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = gtk_label_new (name);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), 13);
  gtk_widget_add_css_class (label, "rw-field-label");
  gtk_widget_set_hexpand (control, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (control), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), control);
  gtk_box_append (GTK_BOX (form), row);
  return row;
}

GtkWidget *
rw_form_heading (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "rw-group-heading");
  return label;
}

GtkWidget *
rw_form_drop (const char *const *names, guint chosen)
{
  GtkWidget *drop = gtk_drop_down_new_from_strings (names);

  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), chosen);
  return drop;
}

/* Index of what is chosen; the first where nothing is. */
guint
rw_form_chosen (GtkWidget *drop)
{
  guint index = gtk_drop_down_get_selected (GTK_DROP_DOWN (drop));

  return index == GTK_INVALID_LIST_POSITION ? 0 : index;
}

GtkWidget *
rw_form_number (double value, double min, double max, double step, guint digits)
{
  GtkWidget *spin = gtk_spin_button_new_with_range (min, max, step);

  gtk_spin_button_set_digits (GTK_SPIN_BUTTON (spin), digits);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), value);
  return spin;
}

/* The icon of a search field does not give it the keyboard by itself. */
static void
search_pressed (GtkGestureClick *click, int n_press, double x, double y, gpointer search)
{
  GtkRoot *root = gtk_widget_get_root (search);
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (focus == NULL || !gtk_widget_is_ancestor (focus, search))
    gtk_widget_grab_focus (search);
}

/* A field that searches for what @name says; a click anywhere in it gives it the keyboard. */
GtkWidget *
rw_form_search (const char *name)
{
  GtkWidget *search = gtk_search_entry_new ();
  GtkGesture *click = gtk_gesture_click_new ();

  g_object_set (search, "placeholder-text", name, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (search), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (click), GTK_PHASE_CAPTURE);
  g_signal_connect (click, "pressed", G_CALLBACK (search_pressed), search);
  gtk_widget_add_controller (search, GTK_EVENT_CONTROLLER (click));
  return search;
}

/* A line that wraps, hidden while it says nothing. */
GtkWidget *
rw_form_note (void)
{
  GtkWidget *note = gtk_label_new ("");

  gtk_label_set_wrap (GTK_LABEL (note), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (note), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (note), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (note), 34);
  gtk_widget_set_visible (note, FALSE);
  return note;
}

void
rw_form_set_note (GtkWidget *note, const char *text)
{
  gtk_label_set_text (GTK_LABEL (note), text != NULL ? text : "");
  gtk_widget_set_visible (note, text != NULL && *text != '\0');
}

static void
text_setup (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer max_chars)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), GPOINTER_TO_INT (max_chars));
  gtk_list_item_set_child (item, label);
}

static void
text_bind (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), gtk_string_object_get_string (gtk_list_item_get_item (item)));
}

GtkListItemFactory *
rw_form_text_factory (int max_chars)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (text_setup), GINT_TO_POINTER (max_chars));
  g_signal_connect (factory, "bind", G_CALLBACK (text_bind), NULL);
  return factory;
}
