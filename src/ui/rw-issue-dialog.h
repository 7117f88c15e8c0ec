/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-document.h"

G_BEGIN_DECLS

#define RW_TYPE_ISSUE_DIALOG (rw_issue_dialog_get_type ())
G_DECLARE_FINAL_TYPE (RwIssueDialog, rw_issue_dialog, RW, ISSUE_DIALOG, GtkWindow)

/* RwIssueDialog: asks for the letter, the day, who and what, and issues a revision as one step that can be undone. */
GtkWidget *rw_issue_dialog_new (GtkWindow *parent, RwDocument *document);
/* For tests. */
const char *rw_issue_dialog_get_letter (RwIssueDialog *dialog);
void rw_issue_dialog_type (RwIssueDialog *dialog, const char *letter, const char *what);
gboolean rw_issue_dialog_apply (RwIssueDialog *dialog);
const char *rw_issue_dialog_problem (RwIssueDialog *dialog);

G_END_DECLS
