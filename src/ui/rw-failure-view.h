/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <net/rw-survival.h>

G_BEGIN_DECLS

#define RW_TYPE_FAILURE_VIEW (rw_failure_view_get_type ())
G_DECLARE_FINAL_TYPE (RwFailureView, rw_failure_view, RW, FAILURE_VIEW, GtkWidget)

/**
 * RwFailureView: what the failure costs that is tried in the Failure lens: devices that go silent, lost lines, and what
 * plays on.
 *
 * Signals:
 *   "picked" (const char *key)   a row was activated: the device is to be seen
 *   "restore" ()                 its button: all that has failed is to be put back
 */
/* @outcome: (nullable); @n_failed: how many things have failed */
void rw_failure_view_update (RwFailureView *view, const RwRig *rig, const RwOutcome *outcome, guint n_failed);
/* What stands over the list, for tests. */
const char *rw_failure_view_get_summary (RwFailureView *view);
/* (transfer full): headings and rows as they are listed, a line each; for tests. */
char *rw_failure_view_get_text (RwFailureView *view);

G_END_DECLS
