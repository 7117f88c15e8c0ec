/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

#include "rw-document.h"
#include "rw-line-import.h"

G_BEGIN_DECLS

#define RW_TYPE_IMPORT_DIALOG (rw_import_dialog_get_type ())
G_DECLARE_FINAL_TYPE (RwImportDialog, rw_import_dialog, RW, IMPORT_DIALOG, GtkWindow)

/* Shows what a table from outside means and what comes of it, before any of it gets into the rig. Takes @import.
 * Signal: "taken" (guint n): so many lines of it were imported */
GtkWidget *rw_import_dialog_new (GtkWindow *parent, RwDocument *document, RwLineImport *import, const char *name);
/* What will not get into the rig, a line each; "" = all of it will. */
const char *rw_import_dialog_get_remarks (RwImportDialog *dialog);
GtkWidget *rw_import_dialog_get_meaning (RwImportDialog *dialog, guint column);
/* Which device of the stage, or console, rows go to that name none: its name, NULL = none. */
void rw_import_dialog_set_device (RwImportDialog *dialog, gboolean console, const char *title);
void rw_import_dialog_accept (RwImportDialog *dialog);

G_END_DECLS
