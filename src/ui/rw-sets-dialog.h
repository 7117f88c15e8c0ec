/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-document.h"
#include "rw-recall-pane.h"

G_BEGIN_DECLS

#define RW_TYPE_SETS_DIALOG (rw_sets_dialog_get_type ())
G_DECLARE_FINAL_TYPE (RwSetsDialog, rw_sets_dialog, RW, SETS_DIALOG, GtkWindow)

/**
 * RwSetsDialog: the patch sets of a rig: stores the present patch under a name, and recalls one.
 */
GtkWidget *rw_sets_dialog_new (GtkWindow *parent, RwDocument *document, RwScope scope);
/* The set whose particulars are shown, NULL = there is none. */
const RwPatchSet *rw_sets_dialog_get_set (RwSetsDialog *dialog);
void rw_sets_dialog_select (RwSetsDialog *dialog, guint index);
RwRecallPane *rw_sets_dialog_get_pane (RwSetsDialog *dialog);
/* Why the last step was not done; "" = it was. */
const char *rw_sets_dialog_get_problem (RwSetsDialog *dialog);

/* What its fields and buttons do. @console: (nullable): its title. FALSE = not done. */
gboolean rw_sets_dialog_store (RwSetsDialog *dialog, const char *name, RwScope scope, const char *console);
gboolean rw_sets_dialog_rename (RwSetsDialog *dialog, const char *name);
gboolean rw_sets_dialog_replace (RwSetsDialog *dialog);
gboolean rw_sets_dialog_delete (RwSetsDialog *dialog);
/* Closes the window where it is done. */
gboolean rw_sets_dialog_recall (RwSetsDialog *dialog);

G_END_DECLS
