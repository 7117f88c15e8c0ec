/* SPDX-License-Identifier: MIT */
#include "rw-far-end.h"

GtkWidget *
rw_far_end_new (void)
{
  GtkWidget *button = gtk_button_new_with_label ("");
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "rw-far-end");
  gtk_widget_set_hexpand (button, TRUE);
  return button;
}

void
rw_far_end_show (GtkWidget *button, const char *text, gboolean leads)
{
  gtk_button_set_label (GTK_BUTTON (button), text);
  gtk_widget_set_sensitive (button, leads);
  gtk_widget_set_tooltip_text (button, leads ? text : NULL);
}
