/* SPDX-License-Identifier: MIT */
#include "rw-papers-dialog.h"

#include <glib/gi18n-lib.h>
#include "rw-form.h"
#include "rw-print.h"
#include "rw-weak.h"

struct _RwPapersDialog
{
  GtkWindow parent_instance;
  RwRig *rig;
  RwSettings *settings;     /* (nullable) (not owned) */
  RwPapersWorker *worker;
  RwPapersChoices *choices;
  RwPapersOutline *outline; /* (nullable) */
  RwPageView *view;
  GtkWidget *controls, *actions, *problem, *remark;
  GtkWidget *progress_box, *progress;
  GCancellable *laying_out; /* (nullable): while it runs */
  GCancellable *writing;    /* (nullable): while it runs */
  guint watch;
  char *path;               /* (nullable): of what is written */
  GtkFileChooserNative *chooser;
  RwPapersForm form;        /* that the chooser asks for */
};

G_DEFINE_FINAL_TYPE (RwPapersDialog, rw_papers_dialog, GTK_TYPE_WINDOW)

static void
show_ways_out (RwPapersDialog *dialog)
{
  gboolean ready = dialog->writing == NULL && dialog->outline != NULL && dialog->outline->n_pages > 0;

  gtk_widget_set_sensitive (dialog->actions, ready);
  gtk_widget_set_sensitive (dialog->controls, dialog->writing == NULL);
  gtk_widget_set_visible (dialog->progress_box, dialog->writing != NULL);
  rw_page_view_set_busy (dialog->view, dialog->laying_out != NULL);
}

static void
laid_out (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (RwPapersDialog) dialog = rw_weak_take (user_data);
  RwPapersOutline *outline = rw_papers_worker_lay_out_finish (RW_PAPERS_WORKER (source), result, NULL);

  if (outline == NULL || dialog == NULL || dialog->view == NULL)
    {
      rw_papers_outline_free (outline);
      return;
    }
  g_clear_object (&dialog->laying_out);
  rw_papers_outline_free (dialog->outline);
  dialog->outline = outline;
  rw_papers_choices_show_pages (dialog->choices, outline->pages);
  rw_page_view_set_outline (dialog->view, outline);
  show_ways_out (dialog);
}

/* Only what was chosen last is laid out; the sheets that are shown stay until then. */
static void
lay_out (RwPapersDialog *dialog)
{
  RwPapersOptions options;
  g_autoptr (RwStock) stock = NULL;
  g_autoptr (GError) error = NULL;
  gboolean good = rw_papers_choices_get (dialog->choices, &options, &stock, &error);

  if (dialog->laying_out != NULL)
    g_cancellable_cancel (dialog->laying_out);
  g_clear_object (&dialog->laying_out);
  g_clear_pointer (&dialog->outline, rw_papers_outline_free);
  rw_form_set_note (dialog->problem, good ? NULL : error->message);
  rw_form_set_note (dialog->remark, NULL);
  if (good)
    {
      dialog->laying_out = g_cancellable_new ();
      rw_papers_worker_lay_out (dialog->worker, dialog->rig, &options, dialog->laying_out, laid_out, rw_weak_new (dialog));
    }
  show_ways_out (dialog);
}

static void
choice_changed (gpointer user_data)
{
  lay_out (user_data);
}

static void
rig_changed (RwRig *rig, RwChange *change, gpointer user_data)
{
  lay_out (user_data);
}

static void
go_to_section (RwPapersSection section, gpointer user_data)
{
  RwPapersDialog *dialog = user_data;
  guint page = 0;

  if (dialog->outline == NULL)
    return;
  for (guint i = 0; i < (guint) section; i++)
    page += dialog->outline->pages[i];
  rw_page_view_go (dialog->view, page);
}

static gboolean
watch_progress (gpointer user_data)
{
  RwPapersDialog *dialog = user_data;
  guint done, n;
  double fraction = rw_papers_worker_progress (dialog->worker, &done, &n);
  g_autofree char *text = NULL;

  if (done == 0)
    {
      gtk_progress_bar_pulse (GTK_PROGRESS_BAR (dialog->progress));
      return G_SOURCE_CONTINUE;
    }
  /* Translators: how many sheets of how many are drawn. */
  text = g_strdup_printf (_("Sheet %u of %u"), done, n);
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (dialog->progress), fraction);
  gtk_progress_bar_set_text (GTK_PROGRESS_BAR (dialog->progress), text);
  return G_SOURCE_CONTINUE;
}

static void
end_writing (RwPapersDialog *dialog)
{
  g_clear_object (&dialog->writing);
  g_clear_handle_id (&dialog->watch, g_source_remove);
  show_ways_out (dialog);
}

static void
written (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (RwPapersDialog) dialog = rw_weak_take (user_data);
  g_autoptr (GError) error = NULL;
  gboolean good = rw_papers_worker_write_finish (RW_PAPERS_WORKER (source), result, &error);
  g_autofree char *shown = NULL;
  g_autofree char *text = NULL;

  if (dialog == NULL || dialog->view == NULL)
    return;
  end_writing (dialog);
  shown = g_filename_display_name (dialog->path);
  /* Translators: a file or a folder. */
  text = good ? g_strdup_printf (_("Written: %s"), shown) : NULL;
  if (good)
    rw_form_set_note (dialog->remark, text);
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    rw_form_set_note (dialog->remark, _("Stopped; nothing was written."));
  else
    rw_form_set_note (dialog->problem, error->message);
}

void
rw_papers_dialog_write (RwPapersDialog *dialog, RwPapersForm form, const char *path)
{
  g_return_if_fail (RW_IS_PAPERS_DIALOG (dialog) && path != NULL);
  if (dialog->writing != NULL)
    return;
  rw_papers_choices_remember (dialog->choices);
  rw_form_set_note (dialog->problem, NULL);
  rw_form_set_note (dialog->remark, NULL);
  g_free (dialog->path);
  dialog->path = g_strdup (path);
  dialog->writing = g_cancellable_new ();
  gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (dialog->progress), 0);
  gtk_progress_bar_set_text (GTK_PROGRESS_BAR (dialog->progress), _("Drawing the sheets…"));
  dialog->watch = g_timeout_add (100, watch_progress, dialog);
  rw_papers_worker_write (dialog->worker, form, path, dialog->writing, written, rw_weak_new (dialog));
  show_ways_out (dialog);
}

void
rw_papers_dialog_stop (RwPapersDialog *dialog)
{
  g_return_if_fail (RW_IS_PAPERS_DIALOG (dialog));
  if (dialog->writing != NULL)
    g_cancellable_cancel (dialog->writing);
}

static char *
with_pdf (const char *path)
{
  g_autofree char *folded = g_ascii_strdown (path, -1);

  return g_str_has_suffix (folded, ".pdf") ? g_strdup (path) : g_strconcat (path, ".pdf", NULL);
}

static void
place_chosen (GtkNativeDialog *chooser, int response, gpointer user_data)
{
  RwPapersDialog *dialog = user_data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    {
      g_autofree char *full = dialog->form == RW_PAPERS_AS_PDF ? with_pdf (path) : g_strdup (path);
      rw_papers_dialog_write (dialog, dialog->form, full);
    }
  g_clear_object (&dialog->chooser);
}

/* Translators: after the title of a show, in the name of a file. */
#define FILE_NAME N_("papers")

static void
ask_where (RwPapersDialog *dialog, RwPapersForm form)
{
  static const char *const titles[] = {
    [RW_PAPERS_AS_PDF] = N_("Save the papers"),
    [RW_PAPERS_AS_SHEETS] = N_("A folder for the sheets"),
    [RW_PAPERS_AS_TABLES] = N_("A folder for the tables"),
  };
  g_autofree char *title = rw_rig_title (dialog->rig);

  g_clear_object (&dialog->chooser);
  dialog->form = form;
  dialog->chooser = gtk_file_chooser_native_new (_(titles[form]), GTK_WINDOW (dialog),
                                                 form == RW_PAPERS_AS_PDF ? GTK_FILE_CHOOSER_ACTION_SAVE : GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER,
                                                 _("_Save"), _("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog->chooser), TRUE);
  if (form == RW_PAPERS_AS_PDF)
    {
      g_autofree char *stem = g_strconcat (title, " – ", _(FILE_NAME), NULL);
      g_autofree char *name = g_strconcat (g_strdelimit (stem, "/\\:", '-'), ".pdf", NULL);

      gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog->chooser), name);
    }
  g_signal_connect (dialog->chooser, "response", G_CALLBACK (place_chosen), dialog);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog->chooser));
}

static void
pdf_clicked (GtkButton *button, gpointer user_data)
{
  ask_where (user_data, RW_PAPERS_AS_PDF);
}

static void
sheets_clicked (GtkButton *button, gpointer user_data)
{
  ask_where (user_data, RW_PAPERS_AS_SHEETS);
}

static void
tables_clicked (GtkButton *button, gpointer user_data)
{
  ask_where (user_data, RW_PAPERS_AS_TABLES);
}

static void
printed (gboolean good, const char *problem, gpointer user_data)
{
  g_autoptr (RwPapersDialog) dialog = rw_weak_take (user_data);

  if (dialog != NULL && dialog->view != NULL)
    rw_form_set_note (dialog->problem, problem);
}

static void
print_clicked (GtkButton *button, gpointer user_data)
{
  RwPapersDialog *dialog = user_data;
  RwPapersOptions options;
  g_autoptr (RwStock) stock = NULL;
  g_autoptr (GError) error = NULL;

  rw_papers_choices_remember (dialog->choices);
  if (rw_papers_choices_get (dialog->choices, &options, &stock, &error))
    rw_print (GTK_WINDOW (dialog), dialog->rig, &options, dialog->settings, NULL, printed, rw_weak_new (dialog));
  else
    rw_form_set_note (dialog->problem, error->message);
}

static void
stop_clicked (GtkButton *button, gpointer user_data)
{
  rw_papers_dialog_stop (user_data);
}

static gboolean
escaped (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static gboolean
close_asked (GtkWindow *window, gpointer user_data)
{
  rw_papers_choices_remember (RW_PAPERS_DIALOG (window)->choices);
  return FALSE;
}

static void
rw_papers_dialog_dispose (GObject *object)
{
  RwPapersDialog *dialog = RW_PAPERS_DIALOG (object);

  if (dialog->laying_out != NULL)
    g_cancellable_cancel (dialog->laying_out);
  if (dialog->writing != NULL)
    g_cancellable_cancel (dialog->writing);
  g_clear_object (&dialog->laying_out);
  g_clear_object (&dialog->writing);
  g_clear_handle_id (&dialog->watch, g_source_remove);
  if (dialog->rig != NULL)
    g_signal_handlers_disconnect_by_data (dialog->rig, dialog);
  g_clear_object (&dialog->rig);
  g_clear_object (&dialog->chooser);
  g_clear_object (&dialog->worker);
  g_clear_pointer (&dialog->outline, rw_papers_outline_free);
  dialog->view = NULL;
  G_OBJECT_CLASS (rw_papers_dialog_parent_class)->dispose (object);
}

static void
rw_papers_dialog_finalize (GObject *object)
{
  RwPapersDialog *dialog = RW_PAPERS_DIALOG (object);

  rw_papers_choices_free (dialog->choices);
  g_free (dialog->path);
  G_OBJECT_CLASS (rw_papers_dialog_parent_class)->finalize (object);
}

static void
rw_papers_dialog_class_init (RwPapersDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_papers_dialog_dispose;
  G_OBJECT_CLASS (klass)->finalize = rw_papers_dialog_finalize;
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, escaped, NULL);
}

static GtkWidget *
make_progress (RwPapersDialog *dialog)
{
  GtkWidget *stop = gtk_button_new_with_mnemonic (_("_Stop"));

  dialog->progress_box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  dialog->progress = gtk_progress_bar_new ();
  gtk_progress_bar_set_show_text (GTK_PROGRESS_BAR (dialog->progress), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (dialog->progress), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Drawing the sheets…"), -1);
  gtk_widget_set_hexpand (dialog->progress, TRUE);
  gtk_widget_set_valign (dialog->progress, GTK_ALIGN_CENTER);
  g_signal_connect (stop, "clicked", G_CALLBACK (stop_clicked), dialog);
  gtk_box_append (GTK_BOX (dialog->progress_box), dialog->progress);
  gtk_box_append (GTK_BOX (dialog->progress_box), stop);
  return dialog->progress_box;
}

static GtkWidget *
make_actions (RwPapersDialog *dialog)
{
  const struct { const char *label; GCallback clicked; gboolean suggested; } ways[] = {
    { _("_Print…"), G_CALLBACK (print_clicked), FALSE },
    { _("_Save as a PDF…"), G_CALLBACK (pdf_clicked), TRUE },
    { _("_Tables as CSV…"), G_CALLBACK (tables_clicked), FALSE },
    { _("Single s_heets…"), G_CALLBACK (sheets_clicked), FALSE },
  };

  dialog->actions = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (dialog->actions), 8);
  gtk_grid_set_column_spacing (GTK_GRID (dialog->actions), 8);
  gtk_grid_set_column_homogeneous (GTK_GRID (dialog->actions), TRUE);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      GtkWidget *button = gtk_button_new_with_mnemonic (ways[i].label);

      if (ways[i].suggested)
        {
          gtk_widget_add_css_class (button, "suggested-action");
          gtk_window_set_default_widget (GTK_WINDOW (dialog), button);
        }
      g_signal_connect (button, "clicked", ways[i].clicked, dialog);
      gtk_grid_attach (GTK_GRID (dialog->actions), button, (int) i % 2, (int) i / 2, 1, 1);
    }
  return dialog->actions;
}

static GtkWidget *
make_side (RwPapersDialog *dialog)
{
  GtkWidget *side = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *foot = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *content = rw_papers_choices_widget (dialog->choices);

  dialog->controls = gtk_scrolled_window_new ();
  gtk_widget_add_css_class (content, "rw-dialog-body");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (dialog->controls), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (dialog->controls), content);
  gtk_widget_set_vexpand (dialog->controls, TRUE);
  dialog->problem = rw_form_note ();
  gtk_widget_add_css_class (dialog->problem, "rw-problem");
  gtk_widget_add_css_class (foot, "rw-papers-foot");
  gtk_box_append (GTK_BOX (foot), dialog->problem);
  gtk_box_append (GTK_BOX (foot), make_actions (dialog));
  gtk_box_append (GTK_BOX (side), dialog->controls);
  gtk_box_append (GTK_BOX (side), foot);
  gtk_widget_set_size_request (side, 370, -1);
  gtk_widget_set_hexpand (side, FALSE);
  return side;
}

/* The sheets, and under them what becomes of writing: there it takes no room from the choices. */
static GtkWidget *
make_sheets (RwPapersDialog *dialog)
{
  GtkWidget *sheets = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *progress = make_progress (dialog);

  dialog->view = RW_PAGE_VIEW (rw_page_view_new (dialog->worker));
  dialog->remark = rw_form_note ();
  gtk_label_set_max_width_chars (GTK_LABEL (dialog->remark), -1);
  gtk_widget_set_vexpand (GTK_WIDGET (dialog->view), TRUE);
  gtk_widget_add_css_class (dialog->remark, "rw-line-remark");
  gtk_widget_add_css_class (progress, "rw-line-remark");
  gtk_box_append (GTK_BOX (sheets), GTK_WIDGET (dialog->view));
  gtk_box_append (GTK_BOX (sheets), dialog->remark);
  gtk_box_append (GTK_BOX (sheets), progress);
  gtk_widget_set_hexpand (sheets, TRUE);
  return sheets;
}

static void
rw_papers_dialog_init (RwPapersDialog *dialog)
{
}

GtkWidget *
rw_papers_dialog_new (GtkWindow *parent, RwRig *rig, RwSettings *settings)
{
  RwPapersDialog *dialog = g_object_new (RW_TYPE_PAPERS_DIALOG, "transient-for", parent, "modal", TRUE, "title", _("Papers"),
                                         "destroy-with-parent", TRUE, "default-width", 1060, "default-height", 720, NULL);
  const RwPapersChoicesCalls calls = { choice_changed, go_to_section, dialog };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0), *side;

  dialog->rig = g_object_ref (rig);
  dialog->settings = settings;
  dialog->worker = rw_papers_worker_new ();
  dialog->choices = rw_papers_choices_new (rig, settings, &calls);
  side = make_side (dialog);
  gtk_box_append (GTK_BOX (box), side);
  gtk_box_append (GTK_BOX (box), make_sheets (dialog));
  gtk_window_set_child (GTK_WINDOW (dialog), box);
  g_signal_connect (dialog, "close-request", G_CALLBACK (close_asked), NULL);
  g_signal_connect (rig, "changed", G_CALLBACK (rig_changed), dialog);
  lay_out (dialog);
  return GTK_WIDGET (dialog);
}

gboolean
rw_papers_dialog_is_writing (RwPapersDialog *dialog)
{
  return dialog->writing != NULL;
}

/* Sheets of what is being written. */
guint
rw_papers_dialog_n_drawn (RwPapersDialog *dialog)
{
  guint done, n;

  rw_papers_worker_progress (dialog->worker, &done, &n);
  return done;
}

gboolean
rw_papers_dialog_is_laying_out (RwPapersDialog *dialog)
{
  return dialog->laying_out != NULL;
}

RwPapersChoices *
rw_papers_dialog_choices (RwPapersDialog *dialog)
{
  return dialog->choices;
}

RwPageView *
rw_papers_dialog_view (RwPapersDialog *dialog)
{
  return dialog->view;
}

const RwPapersOutline *
rw_papers_dialog_outline (RwPapersDialog *dialog)
{
  return dialog->outline;
}

const char *
rw_papers_dialog_problem (RwPapersDialog *dialog)
{
  return gtk_label_get_text (GTK_LABEL (dialog->problem));
}

const char *
rw_papers_dialog_remark (RwPapersDialog *dialog)
{
  return gtk_label_get_text (GTK_LABEL (dialog->remark));
}
