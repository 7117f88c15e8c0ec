/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A flat button that fills its line and says what is at the other end of a cable; a click goes there. */
GtkWidget *rw_far_end_new (void);
/* @text: cut short in a narrow panel, so that it is its own tip; a button that leads nowhere has none. */
void rw_far_end_show (GtkWidget *button, const char *text, gboolean leads);
G_END_DECLS
