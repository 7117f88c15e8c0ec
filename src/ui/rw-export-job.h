/* SPDX-License-Identifier: MIT */
#pragma once

#include <gio/gio.h>
#include <paper/rw-sheet.h>

G_BEGIN_DECLS

/**
 * Writes the cable plan in a thread of its own, from a copy of @rig, so that the window stays alive. The
 * file appears whole or not at all: cancelled or failed work leaves what was at @path.
 */
void rw_export_job_start (const RwRig *rig, const char *path, const RwSheetOptions *options, double dpi,
                          GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data);
gboolean rw_export_job_finish (GAsyncResult *result, GError **error);

G_END_DECLS
