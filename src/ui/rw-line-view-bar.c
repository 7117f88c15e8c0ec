/* SPDX-License-Identifier: MIT */
/* The bar above the line list: which lines are listed, and what is done with all of them. */
#include "rw-fold.h"
#include "rw-form.h"
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>

static void
side_toggled (GtkToggleButton *button, gpointer user_data)
{
  RwLineView *view = user_data;

  for (guint side = 0; side < RW_N_LINE_SIDES; side++)
    if (view->side_buttons[side] == GTK_WIDGET (button) && gtk_toggle_button_get_active (button))
      rw_line_view_set_side (view, side);
}

static void
free_toggled (GtkCheckButton *button, gpointer user_data)
{
  rw_line_view_set_with_free (user_data, gtk_check_button_get_active (button));
}

static void
search_changed (GtkSearchEntry *entry, gpointer user_data)
{
  RwLineView *view = user_data;
  /* a cell that was copied ends its line */
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  g_clear_pointer (&view->needle, g_free);
  if (*text != '\0')
    view->needle = g_utf8_casefold (text, -1);
  rw_line_view_filter_anew (view);
}

static void
search_stopped (GtkSearchEntry *entry, gpointer user_data)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), "");
  rw_line_view_focus (user_data);
}

static void
all_clicked (GtkButton *button, gpointer user_data)
{
  gtk_widget_grab_focus (user_data); /* the button goes with what it lets go of */
  rw_selection_clear (rw_document_selection (RW_LINE_VIEW (user_data)->document));
}

static void
close_clicked (GtkButton *button, gpointer user_data)
{
  rw_line_view_emit_close (user_data);
}

static GtkWidget *
make_sides (RwLineView *view)
{
  static const char *const labels[] = { N_("Inputs"), N_("Outputs") };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_add_css_class (box, "linked");
  gtk_widget_add_css_class (box, "rw-switcher");
  for (guint side = 0; side < RW_N_LINE_SIDES; side++)
    {
      view->side_buttons[side] = gtk_toggle_button_new_with_label (_(labels[side]));
      if (side > 0)
        gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (view->side_buttons[side]), GTK_TOGGLE_BUTTON (view->side_buttons[0]));
      g_signal_connect (view->side_buttons[side], "toggled", G_CALLBACK (side_toggled), view);
      gtk_box_append (GTK_BOX (box), view->side_buttons[side]);
    }
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (view->side_buttons[0]), TRUE);
  return box;
}

/* What is done with the whole list: a button each, or a menu where there is no room for them. */
static GtkWidget *
make_commands (void)
{
  GtkWidget *wide = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10), *narrow = gtk_menu_button_new ();
  g_autoptr (GMenu) menu = g_menu_new ();
  guint n;
  const RwLineCommand *commands = rw_line_view_commands (&n);

  for (guint i = 0; i < n; i++)
    {
      GtkWidget *button = commands[i].in_bar ? gtk_button_new_with_label (_(commands[i].label)) : NULL;

      if (button == NULL)
        continue;
      gtk_widget_set_tooltip_text (button, _(commands[i].tip));
      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), commands[i].action);
      gtk_box_append (GTK_BOX (wide), button);
      g_menu_append (menu, _(commands[i].label), commands[i].action);
    }
  gtk_menu_button_set_label (GTK_MENU_BUTTON (narrow), _("More"));
  gtk_widget_set_halign (narrow, GTK_ALIGN_END);
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (narrow), G_MENU_MODEL (menu));
  return rw_fold_new (wide, narrow);
}

static GtkWidget *
make_filter (RwLineView *view)
{
  GtkWidget *all = gtk_button_new_with_label (_("All lines"));

  gtk_widget_set_tooltip_text (all, _("Let go of what is selected on the sheet"));
  g_signal_connect (all, "clicked", G_CALLBACK (all_clicked), view);
  view->filter_box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  view->filter_label = gtk_label_new ("");
  gtk_label_set_ellipsize (GTK_LABEL (view->filter_label), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (view->filter_label), 24);
  gtk_box_append (GTK_BOX (view->filter_box), view->filter_label);
  gtk_box_append (GTK_BOX (view->filter_box), all);
  gtk_widget_set_visible (view->filter_box, FALSE);
  return view->filter_box;
}

static GtkWidget *
make_close (RwLineView *view)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("rw-clear-symbolic");

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "rw-small-button");
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_set_tooltip_text (button, _("Close the line list"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Close the line list"), -1);
  g_signal_connect (button, "clicked", G_CALLBACK (close_clicked), view);
  return button;
}

GtkWidget *
rw_line_view_make_bar (RwLineView *view)
{
  GtkWidget *bar = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *title = gtk_label_new (_("Line list"));
  GtkWidget *space = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_add_css_class (title, "rw-panel-title");
  gtk_widget_add_css_class (bar, "rw-panel-header");
  gtk_widget_add_css_class (bar, "rw-line-bar");
  gtk_widget_set_hexpand (space, TRUE);
  view->search = rw_form_search (_("Find in lines"));
  gtk_editable_set_width_chars (GTK_EDITABLE (view->search), 8);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (view->search), 16);
  gtk_widget_set_tooltip_text (view->search, _("Find in lines"));
  g_signal_connect (view->search, "search-changed", G_CALLBACK (search_changed), view);
  g_signal_connect (view->search, "stop-search", G_CALLBACK (search_stopped), view);
  view->free_check = gtk_check_button_new_with_label (_("Free sockets"));
  gtk_widget_set_tooltip_text (view->free_check, _("Also list sends, receives and buses that are not patched"));
  g_signal_connect (view->free_check, "toggled", G_CALLBACK (free_toggled), view);
  view->count = gtk_label_new ("");
  gtk_widget_add_css_class (view->count, "rw-small");
  view->commands = make_commands ();
  gtk_box_append (GTK_BOX (bar), rw_fold_new (title, NULL));
  gtk_box_append (GTK_BOX (bar), make_sides (view));
  gtk_box_append (GTK_BOX (bar), view->free_check);
  gtk_box_append (GTK_BOX (bar), view->search);
  gtk_box_append (GTK_BOX (bar), view->count);
  gtk_box_append (GTK_BOX (bar), make_filter (view));
  gtk_box_append (GTK_BOX (bar), space);
  gtk_box_append (GTK_BOX (bar), view->commands);
  gtk_box_append (GTK_BOX (bar), make_close (view));
  return bar;
}
