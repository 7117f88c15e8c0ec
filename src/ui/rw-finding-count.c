/* SPDX-License-Identifier: MIT */
#include "rw-finding-count.h"

#include <glib/gi18n-lib.h>
#include "rw-words.h"

GtkWidget *
rw_finding_count_new (RwSeverity severity)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);

  gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name (rw_words_severity_icon (severity)));
  gtk_box_append (GTK_BOX (box), gtk_label_new (""));
  gtk_widget_add_css_class (box, rw_words_severity_class (severity));
  gtk_widget_add_css_class (box, "rw-count");
  return box;
}

void
rw_finding_count_show (GtkWidget *count, RwSeverity severity, guint n, guint more)
{
  GtkWidget *label = gtk_widget_get_last_child (count);
  g_autofree char *text = more > 0 ? g_strdup_printf ("%u + %u", n, more) : g_strdup_printf ("%u", n);
  g_autofree char *name = NULL;

  if (more > 0)
    /* Translators: a kind of finding, how many there are, and how many the cable in the hand would bring. */
    name = g_strdup_printf (_("%s: %u, and %u more once it is drawn"), rw_severity_title (severity), n, more);
  else
    /* Translators: a kind of finding and how many there are, as “Error: 2”. */
    name = g_strdup_printf (_("%s: %u"), rw_severity_title (severity), n);
  gtk_label_set_text (GTK_LABEL (label), text);
  (more > 0 ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (label, "rw-would-be");
  gtk_widget_set_tooltip_text (count, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (label), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_visible (count, n + more > 0);
}
