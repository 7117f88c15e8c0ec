/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <rules/rw-finding.h>

G_BEGIN_DECLS

#define RW_TYPE_BADGE (rw_badge_get_type ())
G_DECLARE_FINAL_TYPE (RwBadge, rw_badge, RW, BADGE, GtkWidget)

/* RwBadge: the head of a finding's balloon, as the sheet draws it, with its number. */
GtkWidget *rw_badge_new (void);
void rw_badge_show (RwBadge *badge, RwSeverity severity, guint number);

G_END_DECLS
