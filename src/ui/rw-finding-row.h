/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-finding-list.h"

G_BEGIN_DECLS

#define RW_TYPE_FINDING_WIDGET (rw_finding_widget_get_type ())
G_DECLARE_FINAL_TYPE (RwFindingWidget, rw_finding_widget, RW, FINDING_WIDGET, GtkWidget)

/**
 * RwFindingWidget: one line of the findings; open, it also says why it matters and how to put it right.
 *
 * Signals:
 *   "fix-asked" (const char *name)  the button of the quick fix of that name
 *   "toggled" ()                    a click on the head of an open line
 */
GtkWidget *rw_finding_widget_new (void);
void rw_finding_widget_set_row (RwFindingWidget *widget, RwFindingRow *row);
RwFindingRow *rw_finding_widget_get_row (RwFindingWidget *widget);
void rw_finding_widget_set_open (RwFindingWidget *widget, gboolean open, const RwRig *rig);
gboolean rw_finding_widget_get_open (RwFindingWidget *widget);
GtkWidget *rw_finding_widget_get_fix_button (RwFindingWidget *widget, guint index);

G_END_DECLS
