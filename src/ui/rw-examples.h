/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef void (*RwExampleFunc) (const char *path, gpointer user_data);

/* One rig that the program brings. @rule: (nullable): code of the rule that it trips. */
typedef struct { char *path, *title, *about, *rule; } RwExample;

/* The example rigs: whole rigs by size, then those with one mistake each in the order of the rules; of RwExample. */
GPtrArray *rw_examples_list (void);
/* Shows them in a window; @picked must outlive it no longer than @parent. */
GtkWindow *rw_examples_show (GtkWindow *parent, RwExampleFunc picked, gpointer user_data);

G_END_DECLS
