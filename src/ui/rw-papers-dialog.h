/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-page-view.h"
#include "rw-papers-choices.h"
#include "rw-papers-worker.h"
#include "rw-settings.h"

G_BEGIN_DECLS

#define RW_TYPE_PAPERS_DIALOG (rw_papers_dialog_get_type ())
G_DECLARE_FINAL_TYPE (RwPapersDialog, rw_papers_dialog, RW, PAPERS_DIALOG, GtkWindow)

/**
 * RwPapersDialog: what the papers shall hold, the sheets as they will come out, and the ways to files and to a printer.
 * @settings: (nullable): outlives the window
 */
GtkWidget *rw_papers_dialog_new (GtkWindow *parent, RwRig *rig, RwSettings *settings);

/* For tests. Writes to @path as if it had been chosen. */
void rw_papers_dialog_write (RwPapersDialog *dialog, RwPapersForm form, const char *path);
void rw_papers_dialog_stop (RwPapersDialog *dialog);
gboolean rw_papers_dialog_is_writing (RwPapersDialog *dialog);
guint rw_papers_dialog_n_drawn (RwPapersDialog *dialog);
/* TRUE while what is shown is not yet what was chosen. */
gboolean rw_papers_dialog_is_laying_out (RwPapersDialog *dialog);
RwPapersChoices *rw_papers_dialog_choices (RwPapersDialog *dialog);
RwPageView *rw_papers_dialog_view (RwPapersDialog *dialog);
/* (nullable): NULL = laid out before it was chosen */
const RwPapersOutline *rw_papers_dialog_outline (RwPapersDialog *dialog);
/* Why it does not work; "" = it does. */
const char *rw_papers_dialog_problem (RwPapersDialog *dialog);
/* What became of the last file. */
const char *rw_papers_dialog_remark (RwPapersDialog *dialog);

G_END_DECLS
