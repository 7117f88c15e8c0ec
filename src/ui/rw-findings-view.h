/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-document.h"

G_BEGIN_DECLS

#define RW_TYPE_FINDINGS_VIEW (rw_findings_view_get_type ())
G_DECLARE_FINAL_TYPE (RwFindingsView, rw_findings_view, RW, FINDINGS_VIEW, GtkWidget)

/**
 * RwFindingsView: the findings, numbered as their balloons; the selected one opens to its why, its remedy
 * and a button for each quick fix.
 *
 * Property "selected" (int, readable): index of the selected finding, -1 = none.
 * Signals:
 *   "fix" (const char *finding_code, RwChange *change)   a quick fix was asked for
 */
GtkWidget *rw_findings_view_new (void);
void rw_findings_view_set_document (RwFindingsView *view, RwDocument *document);
int rw_findings_view_get_selected (RwFindingsView *view);
void rw_findings_view_select (RwFindingsView *view, int index);
/* Lists @brought (nullable, of RwFinding) above the findings, told apart from them, and counts them beside those. Cheap
   where it is the same array as before. */
void rw_findings_view_set_would_be (RwFindingsView *view, GPtrArray *brought);
/* From the selected one on, round the end; FALSE = there is none. */
gboolean rw_findings_view_step (RwFindingsView *view, int step);
/* The button of the selected finding's quick fix @index, for tests; (nullable). */
GtkWidget *rw_findings_view_get_fix_button (RwFindingsView *view, guint index);

G_END_DECLS
