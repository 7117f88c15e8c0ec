/* SPDX-License-Identifier: MIT */
#pragma once

#include <gio/gio.h>
#include <paper/rw-cloud.h>
#include <rig/rw-difference.h>

G_BEGIN_DECLS

/* What two states of a rig differ in, and the newer one's drawing. */
typedef struct
{
  RwRig *older, *newer;
  GPtrArray *differences; /* of RwDifference */
  RwScene *scene;
  RwClouds *clouds;
} RwComparison;
void rw_comparison_free (RwComparison *comparison);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwComparison, rw_comparison_free)

/* Compares in a thread. @older, @newer: must not change any more: sealed, or nobody else's. */
void rw_compare_job_start (RwRig *older, RwRig *newer, GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data);
RwComparison *rw_compare_job_finish (GAsyncResult *result, GError **error);

G_END_DECLS
