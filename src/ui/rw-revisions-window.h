/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-compare-job.h"
#include "rw-compare-view.h"
#include "rw-document.h"

G_BEGIN_DECLS

#define RW_TYPE_REVISIONS_WINDOW (rw_revisions_window_get_type ())
G_DECLARE_FINAL_TYPE (RwRevisionsWindow, rw_revisions_window, RW, REVISIONS_WINDOW, GtkWindow)

/**
 * RwRevisionsWindow: the issued revisions of a rig, what two states differ in, and the drawing with clouds round it.
 */
GtkWidget *rw_revisions_window_new (GtkWindow *parent, RwDocument *document);

/* For tests, as a hand would. Letters; NULL = the rig as it is now. */
void rw_revisions_window_compare (RwRevisionsWindow *window, const char *older, const char *newer);
gboolean rw_revisions_window_open (RwRevisionsWindow *window, const char *path);
gboolean rw_revisions_window_is_busy (RwRevisionsWindow *window);
/* (nullable) */
const RwComparison *rw_revisions_window_comparison (RwRevisionsWindow *window);
guint rw_revisions_window_n_lines (RwRevisionsWindow *window);
void rw_revisions_window_choose_line (RwRevisionsWindow *window, guint line);
RwCompareView *rw_revisions_window_view (RwRevisionsWindow *window);
const char *rw_revisions_window_remark (RwRevisionsWindow *window);

G_END_DECLS
