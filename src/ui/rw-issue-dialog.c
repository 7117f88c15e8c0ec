/* SPDX-License-Identifier: MIT */
#include "rw-issue-dialog.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-revision.h>
#include "rw-form.h"

struct _RwIssueDialog
{
  GtkWindow parent_instance;
  RwDocument *document;
  GtkWidget *letter, *date, *by, *what, *problem;
};

G_DEFINE_FINAL_TYPE (RwIssueDialog, rw_issue_dialog, GTK_TYPE_WINDOW)

static char *
text_in (GtkWidget *entry)
{
  return g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));
}

gboolean
rw_issue_dialog_apply (RwIssueDialog *dialog)
{
  g_autofree char *letter = text_in (dialog->letter);
  g_autofree char *date = text_in (dialog->date);
  g_autofree char *by = text_in (dialog->by);
  g_autofree char *what = text_in (dialog->what);
  g_autoptr (GError) error = NULL;
  g_autoptr (RwChange) change = NULL;

  g_return_val_if_fail (RW_IS_ISSUE_DIALOG (dialog), FALSE);
  change = rw_revision_issue (rw_document_rig (dialog->document), letter, date, by, what, &error);
  if (change == NULL || !rw_document_do (dialog->document, change, &error))
    {
      rw_form_set_note (dialog->problem, error->message);
      return FALSE;
    }
  gtk_window_close (GTK_WINDOW (dialog));
  return TRUE;
}

const char *
rw_issue_dialog_get_letter (RwIssueDialog *dialog)
{
  return gtk_editable_get_text (GTK_EDITABLE (dialog->letter));
}

void
rw_issue_dialog_type (RwIssueDialog *dialog, const char *letter, const char *what)
{
  gtk_editable_set_text (GTK_EDITABLE (dialog->letter), letter);
  gtk_editable_set_text (GTK_EDITABLE (dialog->what), what);
}

const char *
rw_issue_dialog_problem (RwIssueDialog *dialog)
{
  return gtk_label_get_text (GTK_LABEL (dialog->problem));
}

static void
issue_clicked (GtkButton *button, gpointer user_data)
{
  rw_issue_dialog_apply (user_data);
}

static gboolean
escaped (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static void
rw_issue_dialog_dispose (GObject *object)
{
  g_clear_object (&RW_ISSUE_DIALOG (object)->document);
  G_OBJECT_CLASS (rw_issue_dialog_parent_class)->dispose (object);
}

static void
rw_issue_dialog_class_init (RwIssueDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_issue_dialog_dispose;
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, escaped, NULL);
}

static void
rw_issue_dialog_init (RwIssueDialog *dialog)
{
}

static GtkWidget *
add_entry (GtkWidget *form, const char *name, const char *text)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_editable_set_text (GTK_EDITABLE (entry), text != NULL ? text : "");
  gtk_entry_set_activates_default (GTK_ENTRY (entry), TRUE);
  rw_form_add (form, name, entry);
  return entry;
}

static GtkWidget *
make_buttons (RwIssueDialog *dialog)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *cancel = gtk_button_new_with_mnemonic (_("_Cancel")), *issue = gtk_button_new_with_mnemonic (_("_Issue"));

  gtk_widget_add_css_class (issue, "suggested-action");
  g_signal_connect_swapped (cancel, "clicked", G_CALLBACK (gtk_window_close), dialog);
  g_signal_connect (issue, "clicked", G_CALLBACK (issue_clicked), dialog);
  gtk_widget_set_halign (row, GTK_ALIGN_END);
  gtk_widget_set_margin_top (row, 8);
  gtk_box_append (GTK_BOX (row), cancel);
  gtk_box_append (GTK_BOX (row), issue);
  gtk_window_set_default_widget (GTK_WINDOW (dialog), issue);
  return row;
}

GtkWidget *
rw_issue_dialog_new (GtkWindow *parent, RwDocument *document)
{
  RwIssueDialog *dialog = g_object_new (RW_TYPE_ISSUE_DIALOG, "transient-for", parent, "modal", TRUE, "title", _("Issue a revision"),
                                        "destroy-with-parent", TRUE, "default-width", 460, NULL);
  RwRig *rig = rw_document_rig (document);
  GtkWidget *form = rw_form_new (), *note = rw_form_note ();
  g_autofree char *letter = rw_revision_next_letter (rig);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *today = g_date_time_format (now, "%Y-%m-%d");

  dialog->document = g_object_ref (document);
  gtk_widget_add_css_class (form, "rw-dialog-body");
  rw_form_set_note (note, _("The rig is kept as it is now, so that later states can be compared with it. The letter goes into the title block."));
  gtk_label_set_max_width_chars (GTK_LABEL (note), 50);
  gtk_box_append (GTK_BOX (form), note);
  dialog->letter = add_entry (form, _("Revision"), letter);
  dialog->date = add_entry (form, _("Date"), today);
  dialog->by = add_entry (form, _("Issued by"), rw_rig_show (rig)->drawn_by);
  dialog->what = add_entry (form, _("What changed"), NULL);
  dialog->problem = rw_form_note ();
  gtk_widget_add_css_class (dialog->problem, "rw-problem");
  gtk_box_append (GTK_BOX (form), dialog->problem);
  gtk_box_append (GTK_BOX (form), make_buttons (dialog));
  gtk_window_set_child (GTK_WINDOW (dialog), form);
  gtk_window_set_focus (GTK_WINDOW (dialog), dialog->what);
  return GTK_WIDGET (dialog);
}
