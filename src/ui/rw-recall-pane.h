/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <rig/rw-recall.h>

G_BEGIN_DECLS

#define RW_TYPE_RECALL_PANE (rw_recall_pane_get_type ())
G_DECLARE_FINAL_TYPE (RwRecallPane, rw_recall_pane, RW, RECALL_PANE, GtkWidget)

/**
 * RwRecallPane: which device of the rig stands in for each of a patch set, and what recalling it would change.
 *
 * Signal "changed" (): another choice, so another change.
 */
GtkWidget *rw_recall_pane_new (void);
/* @set: (nullable). Both must stay until the next call. */
void rw_recall_pane_show (RwRecallPane *pane, const RwRig *rig, const RwPatchSet *set);
/* What recalling does, borrowed; NULL = it cannot be done as chosen. */
RwChange *rw_recall_pane_get_change (RwRecallPane *pane);
/* One line: what comes, goes and changes, or why it cannot be. */
const char *rw_recall_pane_get_summary (RwRecallPane *pane);
/* A line for each thing. */
const char *rw_recall_pane_get_preview (RwRecallPane *pane);
/* Gives the stored device @index to the device of that title, NULL = leaves it out. */
void rw_recall_pane_choose (RwRecallPane *pane, guint index, const char *title);

G_END_DECLS
