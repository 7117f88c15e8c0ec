/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* For a panel with one child: it never becomes wider for want of height, as text that wraps would have it. */
GtkLayoutManager *rw_form_panel_layout (void);
/* Rows of a dialog: a name on the left, a control that is called so on the right. */
GtkWidget *rw_form_new (void);
GtkWidget *rw_form_add (GtkWidget *form, const char *name, GtkWidget *control);
GtkWidget *rw_form_heading (const char *text);
GtkWidget *rw_form_drop (const char *const *names, guint chosen);
guint rw_form_chosen (GtkWidget *drop);
GtkWidget *rw_form_number (double value, double min, double max, double step, guint digits);
GtkWidget *rw_form_search (const char *name);
GtkWidget *rw_form_note (void);
void rw_form_set_note (GtkWidget *note, const char *text);
/* (transfer full): shows the strings of a GtkStringList as text that wraps, at most @max_chars wide where it may choose
 * (-1 = any width). */
GtkListItemFactory *rw_form_text_factory (int max_chars);

G_END_DECLS
