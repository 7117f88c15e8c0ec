/* SPDX-License-Identifier: MIT */
#include "rw-remark-list.h"

#include <glib/gi18n-lib.h>

#include "rw-form.h"

#define LEAST_HEIGHT 90 /* px of the list below its title */

struct _RwRemarkList
{
  GtkWidget parent_instance;
  GtkWidget *box, *title, *copy, *view;
  GtkStringList *lines;
  GtkMultiSelection *selection;
  char *text; /* all lines */
};

G_DEFINE_FINAL_TYPE (RwRemarkList, rw_remark_list, GTK_TYPE_WIDGET)

static guint picked_signal;

const char *
rw_remark_list_get_title (RwRemarkList *list)
{
  g_return_val_if_fail (RW_IS_REMARK_LIST (list), NULL);
  return gtk_label_get_text (GTK_LABEL (list->title));
}

const char *
rw_remark_list_get_text (RwRemarkList *list)
{
  g_return_val_if_fail (RW_IS_REMARK_LIST (list), NULL);
  return list->text;
}

char *
rw_remark_list_chosen_text (RwRemarkList *list)
{
  g_autoptr (GtkBitset) chosen = gtk_selection_model_get_selection (GTK_SELECTION_MODEL (list->selection));
  GString *text;

  if (gtk_bitset_is_empty (chosen))
    return g_strdup (list->text);
  text = g_string_new (NULL);
  for (guint i = 0; i < gtk_bitset_get_size (chosen); i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "",
                            gtk_string_list_get_string (list->lines, gtk_bitset_get_nth (chosen, i)));
  return g_string_free (text, FALSE);
}

void
rw_remark_list_set_title (RwRemarkList *list, const char *title)
{
  g_return_if_fail (RW_IS_REMARK_LIST (list));
  gtk_label_set_text (GTK_LABEL (list->title), title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (list->view), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
}

void
rw_remark_list_show (RwRemarkList *list, const char *title, const GPtrArray *remarks)
{
  g_autoptr (GStrvBuilder) lines = g_strv_builder_new ();
  g_auto (GStrv) all = NULL;

  g_return_if_fail (RW_IS_REMARK_LIST (list));
  for (guint i = 0; i < remarks->len; i++)
    g_strv_builder_add (lines, remarks->pdata[i]);
  all = g_strv_builder_end (lines);
  gtk_string_list_splice (list->lines, 0, g_list_model_get_n_items (G_LIST_MODEL (list->lines)), (const char *const *) all);
  g_free (list->text);
  list->text = g_strjoinv ("\n", all);
  gtk_widget_set_visible (list->copy, remarks->len > 0);
  rw_remark_list_set_title (list, title);
}

void
rw_remark_list_focus (RwRemarkList *list)
{
  g_return_if_fail (RW_IS_REMARK_LIST (list));
  gtk_widget_child_focus (list->view, GTK_DIR_TAB_FORWARD);
}

/* --- Hands --- */

static void
copy_clicked (GtkButton *button, gpointer user_data)
{
  RwRemarkList *list = user_data;

  gdk_clipboard_set_text (gtk_widget_get_clipboard (list->view), list->text);
}

static gboolean
copy_chosen (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  g_autofree char *text = rw_remark_list_chosen_text (user_data);

  gdk_clipboard_set_text (gtk_widget_get_clipboard (widget), text);
  return TRUE;
}

static void
line_activated (GtkListView *view, guint position, gpointer user_data)
{
  g_signal_emit (user_data, picked_signal, 0, position);
}

/* --- What it is made of --- */

static GtkWidget *
make_list (RwRemarkList *list)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();
  GtkWidget *scroll = gtk_scrolled_window_new ();

  list->lines = gtk_string_list_new (NULL);
  list->selection = gtk_multi_selection_new (G_LIST_MODEL (list->lines));
  list->view = gtk_list_view_new (GTK_SELECTION_MODEL (list->selection), rw_form_text_factory (-1));
  gtk_widget_add_css_class (list->view, "rw-remark-list");
  g_signal_connect (list->view, "activate", G_CALLBACK (line_activated), list);
  gtk_shortcut_controller_add_shortcut (
    GTK_SHORTCUT_CONTROLLER (keys), gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_c, GDK_CONTROL_MASK),
                                                      gtk_callback_action_new (copy_chosen, list, NULL)));
  gtk_widget_add_controller (list->view, keys);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), list->view);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroll), LEAST_HEIGHT);
  gtk_widget_set_vexpand (scroll, TRUE);
  return scroll;
}

static GtkWidget *
make_head (RwRemarkList *list)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  list->title = gtk_label_new ("");
  gtk_label_set_xalign (GTK_LABEL (list->title), 0);
  gtk_label_set_wrap (GTK_LABEL (list->title), TRUE);
  gtk_widget_set_hexpand (list->title, TRUE);
  gtk_widget_add_css_class (list->title, "rw-panel-title");
  list->copy = gtk_button_new_with_mnemonic (_("Copy _all"));
  gtk_widget_set_tooltip_text (list->copy, _("Copy all lines; Ctrl+C copies those that are chosen"));
  gtk_widget_set_valign (list->copy, GTK_ALIGN_CENTER);
  g_signal_connect (list->copy, "clicked", G_CALLBACK (copy_clicked), list);
  gtk_box_append (GTK_BOX (head), list->title);
  gtk_box_append (GTK_BOX (head), list->copy);
  return head;
}

GtkWidget *
rw_remark_list_new (void)
{
  return g_object_new (RW_TYPE_REMARK_LIST, NULL);
}

static void
rw_remark_list_dispose (GObject *object)
{
  g_clear_pointer (&RW_REMARK_LIST (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (rw_remark_list_parent_class)->dispose (object);
}

static void
rw_remark_list_finalize (GObject *object)
{
  g_free (RW_REMARK_LIST (object)->text);
  G_OBJECT_CLASS (rw_remark_list_parent_class)->finalize (object);
}

static void
rw_remark_list_class_init (RwRemarkListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_remark_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = rw_remark_list_finalize;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "remarklist");
  picked_signal = g_signal_new ("picked", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                G_TYPE_UINT);
}

static void
rw_remark_list_init (RwRemarkList *list)
{
  list->text = g_strdup ("");
  list->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  gtk_box_append (GTK_BOX (list->box), make_head (list));
  gtk_box_append (GTK_BOX (list->box), make_list (list));
  gtk_widget_set_parent (list->box, GTK_WIDGET (list));
  gtk_widget_set_vexpand (GTK_WIDGET (list), TRUE);
}
