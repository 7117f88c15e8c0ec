/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-document.h"

G_BEGIN_DECLS

#define RW_TYPE_FIND_BAR (rw_find_bar_get_type ())
G_DECLARE_FINAL_TYPE (RwFindBar, rw_find_bar, RW, FIND_BAR, GtkWidget)

/**
 * RwFindBar: looks for devices and cables by what is written on them, one hit after the other.
 *
 * Signals: "found" (const char *key): the hit to be shown; "closed" ().
 */
GtkWidget *rw_find_bar_new (void);
void rw_find_bar_set_document (RwFindBar *bar, RwDocument *document);
void rw_find_bar_open (RwFindBar *bar);
void rw_find_bar_close (RwFindBar *bar);
GtkWidget *rw_find_bar_get_entry (RwFindBar *bar);

G_END_DECLS
