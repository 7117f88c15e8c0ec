/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <rules/rw-finding.h>

G_BEGIN_DECLS

/* How many findings of a kind there are; hidden where there are none. */
GtkWidget *rw_finding_count_new (RwSeverity severity);
/* @more: how many the cable in the hand would bring. */
void rw_finding_count_show (GtkWidget *count, RwSeverity severity, guint n, guint more);

G_END_DECLS
