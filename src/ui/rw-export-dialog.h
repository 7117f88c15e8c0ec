/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <paper/rw-lens.h>

#include "rw-settings.h"
#include "rw-window.h"

G_BEGIN_DECLS

#define RW_TYPE_EXPORT_DIALOG (rw_export_dialog_get_type ())
G_DECLARE_FINAL_TYPE (RwExportDialog, rw_export_dialog, RW, EXPORT_DIALOG, GtkWindow)

/**
 * RwExportDialog: what the cable plan shall look like, with the pages as they will come out, and the way
 * to a file.
 *
 * Signal "exported" (const char *path): the file is there.
 */
GtkWidget *rw_export_dialog_new (RwWindow *parent, RwRig *rig, RwSettings *settings);
/* The lens, the device that it counts hops from (nullable) and what has failed in it (nullable), as the window shows them. */
void rw_export_dialog_set_lens (RwExportDialog *dialog, RwLensKind kind, const char *from, const char *const *fail);
/* For tests: exports to @path as the dialog says. */
void rw_export_dialog_export_to (RwExportDialog *dialog, const char *path);
gboolean rw_export_dialog_is_busy (RwExportDialog *dialog);
/* Why the last export failed; "" = it did not. */
const char *rw_export_dialog_get_problem (RwExportDialog *dialog);
/* "pdf", "png" or "svg" */
void rw_export_dialog_set_format (RwExportDialog *dialog, const char *format);

G_END_DECLS
