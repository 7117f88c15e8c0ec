/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

#include "rw-document.h"

G_BEGIN_DECLS

/* What is done to a whole rig at once, as one step. */
typedef enum
{
  RW_WHOLE_NUMBER,
  RW_WHOLE_LABEL,
  RW_WHOLE_ADDRESS,
  RW_WHOLE_CHAIN,
  RW_WHOLE_REDUNDANT,
} RwWholeKind;
#define RW_N_WHOLE_KINDS (RW_WHOLE_REDUNDANT + 1)

/**
 * RwWholeDialog: asks how, shows what would become of each thing, or what it costs, and does it.
 */
#define RW_TYPE_WHOLE_DIALOG (rw_whole_dialog_get_type ())
G_DECLARE_FINAL_TYPE (RwWholeDialog, rw_whole_dialog, RW, WHOLE_DIALOG, GtkWindow)

/* @catalogue: (nullable): a rig of the parts that the program brings. */
GtkWidget *rw_whole_dialog_new (GtkWindow *parent, RwDocument *document, RwRig *catalogue, RwWholeKind kind);
/* What is shown: one line for each thing, or the cost. */
const char *rw_whole_dialog_preview (RwWholeDialog *dialog);
const char *rw_whole_dialog_problem (RwWholeDialog *dialog);
/* Types into the first field: a pattern, an address. */
void rw_whole_dialog_set_text (RwWholeDialog *dialog, const char *text);
/* Does it and closes; FALSE where it cannot be done as asked. */
gboolean rw_whole_dialog_apply (RwWholeDialog *dialog);

G_END_DECLS
