/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Opens a page of the help in the desktop's viewer; where there is none, the window says how to come to the pages.
   @window: (nullable): an RwWindow, or a dialog of one. */
void rw_help_show (GtkWindow *window, const char *uri);

G_END_DECLS
