/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-document.h"

G_BEGIN_DECLS

#define RW_TYPE_WINDOW (rw_window_get_type ())
G_DECLARE_FINAL_TYPE (RwWindow, rw_window, RW, WINDOW, GtkApplicationWindow)

/* RwWindow: one open rig: shelf, sheet, particulars, findings. */
RwWindow *rw_window_new (GtkApplication *application);
RwDocument *rw_window_get_document (RwWindow *window);
/* Replaces what is open; shows a message and returns FALSE when it cannot be read. */
gboolean rw_window_load (RwWindow *window, GFile *file);
/* Opens an example as an untitled rig, so that saving does not touch it. */
gboolean rw_window_load_example (RwWindow *window, const char *path);
/* A line for a person about what went wrong; NULL takes it away. */
void rw_window_show_message (RwWindow *window, const char *text);
/* TRUE when nothing is drawn or asked in it: another rig may open here. */
gboolean rw_window_is_idle (RwWindow *window);
gboolean rw_window_get_dark_sheet (RwWindow *window);
/* Takes over what a crash left behind in the journal at @path. */
void rw_window_recover (RwWindow *window, const char *path);

G_END_DECLS
