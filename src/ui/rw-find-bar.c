/* SPDX-License-Identifier: MIT */
#include "rw-find-bar.h"

#include <glib/gi18n-lib.h>
#include "rw-form.h"
#include "rw-thing.h"

struct _RwFindBar
{
  GtkWidget parent_instance;
  GtkWidget *revealer;
  GtkWidget *entry;
  GtkWidget *count;
  RwDocument *document;
  GPtrArray *hits; /* of keys */
  guint now;
};

G_DEFINE_FINAL_TYPE (RwFindBar, rw_find_bar, GTK_TYPE_WIDGET)

enum { FOUND, CLOSED, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
show_hit (RwFindBar *bar)
{
  g_autofree char *text = NULL;
  gboolean typed = *gtk_editable_get_text (GTK_EDITABLE (bar->entry)) != '\0';

  if (bar->hits->len > 0)
    /* Translators: which hit of how many, as “2 of 5”. */
    text = g_strdup_printf (_("%u of %u"), bar->now + 1, bar->hits->len);
  else
    text = g_strdup (typed ? _("not found") : "");
  gtk_label_set_text (GTK_LABEL (bar->count), text);
  if (typed && bar->hits->len == 0)
    gtk_widget_add_css_class (bar->entry, "error");
  else
    gtk_widget_remove_css_class (bar->entry, "error");
  if (bar->hits->len > 0)
    g_signal_emit (bar, signals[FOUND], 0, g_ptr_array_index (bar->hits, bar->now));
}

static void
text_changed (GtkEditable *editable, gpointer user_data)
{
  RwFindBar *bar = user_data;

  g_clear_pointer (&bar->hits, g_ptr_array_unref);
  bar->hits = rw_things_search (rw_document_rig (bar->document), gtk_editable_get_text (editable));
  bar->now = 0;
  show_hit (bar);
}

static void
step (RwFindBar *bar, int by)
{
  /* The rig may have changed since the text was typed. */
  g_autoptr (GPtrArray) hits = rw_things_search (rw_document_rig (bar->document),
                                                 gtk_editable_get_text (GTK_EDITABLE (bar->entry)));

  g_ptr_array_unref (bar->hits);
  bar->hits = g_steal_pointer (&hits);
  if (bar->hits->len > 0)
    bar->now = (guint) ((int) (bar->now % bar->hits->len + bar->hits->len) + by) % bar->hits->len;
  show_hit (bar);
}

static void
next_hit (GtkWidget *widget, gpointer user_data)
{
  step (user_data, 1);
}

static void
previous_hit (GtkWidget *widget, gpointer user_data)
{
  step (user_data, -1);
}

static void
stop (GtkWidget *widget, gpointer user_data)
{
  rw_find_bar_close (user_data);
}

void
rw_find_bar_set_document (RwFindBar *bar, RwDocument *document)
{
  g_return_if_fail (RW_IS_FIND_BAR (bar));
  g_set_object (&bar->document, document);
}

void
rw_find_bar_open (RwFindBar *bar)
{
  g_return_if_fail (RW_IS_FIND_BAR (bar));
  gtk_widget_set_visible (GTK_WIDGET (bar), TRUE);
  gtk_revealer_set_reveal_child (GTK_REVEALER (bar->revealer), TRUE);
  gtk_widget_grab_focus (bar->entry);
  gtk_editable_select_region (GTK_EDITABLE (bar->entry), 0, -1);
}

void
rw_find_bar_close (RwFindBar *bar)
{
  g_return_if_fail (RW_IS_FIND_BAR (bar));
  gtk_revealer_set_reveal_child (GTK_REVEALER (bar->revealer), FALSE);
  gtk_widget_set_visible (GTK_WIDGET (bar), FALSE);
  g_signal_emit (bar, signals[CLOSED], 0);
}

GtkWidget *
rw_find_bar_get_entry (RwFindBar *bar)
{
  g_return_val_if_fail (RW_IS_FIND_BAR (bar), NULL);
  return bar->entry;
}

GtkWidget *
rw_find_bar_new (void)
{
  return g_object_new (RW_TYPE_FIND_BAR, NULL);
}

static void
rw_find_bar_dispose (GObject *object)
{
  RwFindBar *bar = RW_FIND_BAR (object);

  g_clear_pointer (&bar->revealer, gtk_widget_unparent);
  g_clear_pointer (&bar->hits, g_ptr_array_unref);
  g_clear_object (&bar->document);
  G_OBJECT_CLASS (rw_find_bar_parent_class)->dispose (object);
}

static void
rw_find_bar_class_init (RwFindBarClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_find_bar_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[FOUND] = g_signal_new ("found", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[CLOSED] = g_signal_new ("closed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}

static GtkWidget *
make_button (RwFindBar *bar, const char *icon, const char *name, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (button, "clicked", clicked, bar);
  return button;
}

static void
rw_find_bar_init (RwFindBar *bar)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  bar->hits = g_ptr_array_new_with_free_func (g_free);
  bar->entry = rw_form_search (_("Find a device or cable"));
  bar->count = gtk_label_new ("");
  gtk_widget_set_hexpand (bar->entry, TRUE);
  gtk_label_set_width_chars (GTK_LABEL (bar->count), 9);
  gtk_label_set_xalign (GTK_LABEL (bar->count), 0);
  gtk_widget_add_css_class (bar->count, "dim-label");
  g_signal_connect (bar->entry, "changed", G_CALLBACK (text_changed), bar);
  g_signal_connect (bar->entry, "activate", G_CALLBACK (next_hit), bar);
  g_signal_connect (bar->entry, "next-match", G_CALLBACK (next_hit), bar);
  g_signal_connect (bar->entry, "previous-match", G_CALLBACK (previous_hit), bar);
  g_signal_connect (bar->entry, "stop-search", G_CALLBACK (stop), bar);
  gtk_box_append (GTK_BOX (box), bar->entry);
  gtk_box_append (GTK_BOX (box), bar->count);
  gtk_box_append (GTK_BOX (box), make_button (bar, "rw-up-symbolic", _("Previous hit"), G_CALLBACK (previous_hit)));
  gtk_box_append (GTK_BOX (box), make_button (bar, "rw-down-symbolic", _("Next hit"), G_CALLBACK (next_hit)));
  gtk_box_append (GTK_BOX (box), make_button (bar, "rw-clear-symbolic", _("Close"), G_CALLBACK (stop)));
  gtk_widget_add_css_class (box, "rw-find-bar");
  bar->revealer = gtk_revealer_new ();
  gtk_revealer_set_child (GTK_REVEALER (bar->revealer), box);
  gtk_widget_set_parent (bar->revealer, GTK_WIDGET (bar));
  gtk_widget_set_visible (GTK_WIDGET (bar), FALSE);
}
