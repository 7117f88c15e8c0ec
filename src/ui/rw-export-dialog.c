/* SPDX-License-Identifier: MIT */
#include "rw-export-dialog.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "rw-export-job.h"
#include "rw-export-options.h"

struct _RwExportDialog
{
  GtkWindow parent_instance;
  RwRig *rig;
  RwSettings *settings; /* (nullable) (not owned): outlives the window */
  RwExportOptions *options;
  GtkWidget *preview, *page_label, *previous, *next;
  GtkWidget *export, *cancel, *progress, *progress_box, *problem;
  RwPlan *plan; /* (nullable): made anew when an option or the rig changes */
  guint page;
  guint pulse;
  GCancellable *job; /* (nullable): while it runs */
  char *path;        /* (nullable): to which it writes, or wrote last */
  GtkFileChooserNative *chooser;
};

G_DEFINE_FINAL_TYPE (RwExportDialog, rw_export_dialog, GTK_TYPE_WINDOW)

enum { EXPORTED, N_SIGNALS };
static guint signals[N_SIGNALS];

void
rw_export_dialog_set_format (RwExportDialog *dialog, const char *format)
{
  g_return_if_fail (RW_IS_EXPORT_DIALOG (dialog));
  rw_export_options_set_format (dialog->options, format);
}

static guint
n_pages (RwExportDialog *dialog)
{
  return dialog->plan == NULL ? 0 : rw_export_options_is_paged (dialog->options) ? rw_plan_n_pages (dialog->plan) : 1;
}

static void
show_page (RwExportDialog *dialog)
{
  guint n = n_pages (dialog);
  g_autofree char *text = NULL;

  dialog->page = n > 0 ? MIN (dialog->page, n - 1) : 0;
  /* Translators: which page of how many. */
  text = g_strdup_printf (_("Page %u of %u"), dialog->page + 1, MAX (n, 1));
  gtk_label_set_text (GTK_LABEL (dialog->page_label), text);
  gtk_widget_set_sensitive (dialog->previous, dialog->page > 0);
  gtk_widget_set_sensitive (dialog->next, dialog->page + 1 < n);
  gtk_widget_queue_draw (dialog->preview);
}

static void
make_plan (RwExportDialog *dialog)
{
  RwSheetOptions options;
  double dpi;

  g_clear_pointer (&dialog->plan, rw_plan_free);
  rw_export_options_get (dialog->options, &options, &dpi);
  dialog->plan = rw_plan_new (dialog->rig, &options);
  show_page (dialog);
}

void
rw_export_dialog_set_lens (RwExportDialog *dialog, RwLensKind kind, const char *from, const char *const *fail)
{
  g_return_if_fail (RW_IS_EXPORT_DIALOG (dialog));
  rw_export_options_set_lens (dialog->options, kind, from, fail);
  make_plan (dialog);
}

static void
options_changed (RwExportOptions *options, gpointer user_data)
{
  make_plan (user_data);
}

static void
rig_changed (RwRig *rig, RwChange *change, gpointer user_data)
{
  make_plan (user_data);
}

static void
draw_preview (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  RwExportDialog *dialog = user_data;
  double paper_width, paper_height, scale, x, y;
  const double margin = 16;

  if (dialog->plan == NULL)
    return;
  rw_plan_size (dialog->plan, &paper_width, &paper_height);
  scale = MIN ((width - 2 * margin) / paper_width, (height - 2 * margin) / paper_height);
  if (scale <= 0)
    return;
  x = round ((width - paper_width * scale) / 2);
  y = round ((height - paper_height * scale) / 2);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.25);
  cairo_rectangle (cr, x + 3, y + 3, paper_width * scale, paper_height * scale);
  cairo_fill (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, scale, scale);
  cairo_rectangle (cr, 0, 0, paper_width, paper_height);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  rw_plan_draw_page (dialog->plan, dialog->page, cr);
}

static void
previous_page (GtkButton *button, gpointer user_data)
{
  RwExportDialog *dialog = user_data;

  if (dialog->page > 0)
    dialog->page--;
  show_page (dialog);
}

static void
next_page (GtkButton *button, gpointer user_data)
{
  RwExportDialog *dialog = user_data;

  dialog->page++;
  show_page (dialog);
}

static void
show_problem (RwExportDialog *dialog, const char *text)
{
  gtk_label_set_text (GTK_LABEL (dialog->problem), text != NULL ? text : "");
  gtk_widget_set_visible (dialog->problem, text != NULL);
}

const char *
rw_export_dialog_get_problem (RwExportDialog *dialog)
{
  g_return_val_if_fail (RW_IS_EXPORT_DIALOG (dialog), NULL);
  return gtk_label_get_text (GTK_LABEL (dialog->problem));
}

static gboolean
pulse (gpointer user_data)
{
  gtk_progress_bar_pulse (GTK_PROGRESS_BAR (((RwExportDialog *) user_data)->progress));
  return G_SOURCE_CONTINUE;
}

static void
show_busy (RwExportDialog *dialog, gboolean busy)
{
  gtk_widget_set_sensitive (dialog->export, !busy);
  gtk_widget_set_visible (dialog->progress_box, busy);
  g_clear_handle_id (&dialog->pulse, g_source_remove);
  if (busy)
    dialog->pulse = g_timeout_add (80, pulse, dialog);
}

gboolean
rw_export_dialog_is_busy (RwExportDialog *dialog)
{
  g_return_val_if_fail (RW_IS_EXPORT_DIALOG (dialog), FALSE);
  return dialog->job != NULL;
}

static void
export_done (GObject *source, GAsyncResult *result, gpointer user_data)
{
  GWeakRef *weak = user_data;
  g_autoptr (RwExportDialog) dialog = g_weak_ref_get (weak);
  g_autoptr (GError) error = NULL;
  gboolean done = rw_export_job_finish (result, &error);

  g_weak_ref_clear (weak);
  g_free (weak);
  if (dialog == NULL)
    return;
  g_clear_object (&dialog->job);
  show_busy (dialog, FALSE);
  if (done)
    {
      g_signal_emit (dialog, signals[EXPORTED], 0, dialog->path);
      gtk_window_close (GTK_WINDOW (dialog));
    }
  else if (!g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    show_problem (dialog, error->message);
}

void
rw_export_dialog_export_to (RwExportDialog *dialog, const char *path)
{
  GWeakRef *weak; /* the work must not keep a window alive whose parent has gone */
  RwSheetOptions options;
  double dpi;

  g_return_if_fail (RW_IS_EXPORT_DIALOG (dialog) && path != NULL);
  if (dialog->job != NULL)
    return;
  show_problem (dialog, NULL);
  rw_export_options_get (dialog->options, &options, &dpi);
  if (dialog->settings != NULL)
    rw_export_options_remember (dialog->options, dialog->settings);
  g_free (dialog->path);
  dialog->path = g_strdup (path);
  dialog->job = g_cancellable_new ();
  show_busy (dialog, TRUE);
  weak = g_new0 (GWeakRef, 1);
  g_weak_ref_init (weak, dialog);
  rw_export_job_start (dialog->rig, path, &options, dpi, dialog->job, export_done, weak);
}

/* The chosen format counts, whatever the name says. */
static char *
with_format (const char *path, const char *format)
{
  g_autofree char *extension = g_strconcat (".", format, NULL);
  g_autofree char *folded = g_ascii_strdown (path, -1);

  return g_str_has_suffix (folded, extension) ? g_strdup (path) : g_strconcat (path, extension, NULL);
}

static void
file_chosen (GtkNativeDialog *chooser, int response, gpointer user_data)
{
  RwExportDialog *dialog = user_data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    {
      g_autofree char *full = with_format (path, rw_export_options_get_format (dialog->options));
      rw_export_dialog_export_to (dialog, full);
    }
  g_clear_object (&dialog->chooser);
}

static char *
suggest_name (RwExportDialog *dialog)
{
  g_autofree char *stem = rw_rig_title (dialog->rig);

  return g_strconcat (g_strdelimit (stem, "/\\:", '-'), ".", rw_export_options_get_format (dialog->options), NULL);
}

static void
export_clicked (GtkButton *button, gpointer user_data)
{
  RwExportDialog *dialog = user_data;
  g_autofree char *name = suggest_name (dialog);

  g_clear_object (&dialog->chooser);
  dialog->chooser = gtk_file_chooser_native_new (_("Export the cable plan"), GTK_WINDOW (dialog),
                                                 GTK_FILE_CHOOSER_ACTION_SAVE, _("_Export"), _("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog->chooser), TRUE);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog->chooser), name);
  g_signal_connect (dialog->chooser, "response", G_CALLBACK (file_chosen), dialog);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog->chooser));
}

static void
stop_clicked (GtkButton *button, gpointer user_data)
{
  RwExportDialog *dialog = user_data;

  if (dialog->job != NULL)
    g_cancellable_cancel (dialog->job);
}

static void
cancel_clicked (GtkButton *button, gpointer user_data)
{
  gtk_window_close (user_data);
}

static gboolean
escaped (GtkWidget *widget, GVariant *args, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static void
rw_export_dialog_dispose (GObject *object)
{
  RwExportDialog *dialog = RW_EXPORT_DIALOG (object);

  if (dialog->job != NULL)
    g_cancellable_cancel (dialog->job);
  g_clear_handle_id (&dialog->pulse, g_source_remove);
  if (dialog->rig != NULL)
    g_signal_handlers_disconnect_by_data (dialog->rig, dialog);
  g_clear_object (&dialog->chooser);
  g_clear_pointer (&dialog->plan, rw_plan_free);
  g_clear_object (&dialog->rig);
  g_clear_object (&dialog->job);
  g_clear_pointer (&dialog->path, g_free);
  G_OBJECT_CLASS (rw_export_dialog_parent_class)->dispose (object);
}

static void
rw_export_dialog_class_init (RwExportDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_export_dialog_dispose;
  signals[EXPORTED] = g_signal_new ("exported", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                    G_TYPE_NONE, 1, G_TYPE_STRING);
}

static GtkWidget *
make_progress (RwExportDialog *dialog)
{
  GtkWidget *stop = gtk_button_new_with_mnemonic (_("_Stop"));
  GtkWidget *label = gtk_label_new (_("Writing the file…"));

  dialog->progress_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  dialog->progress = gtk_progress_bar_new ();
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_accessible_update_property (GTK_ACCESSIBLE (dialog->progress), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Writing the file…"), -1);
  g_signal_connect (stop, "clicked", G_CALLBACK (stop_clicked), dialog);
  gtk_box_append (GTK_BOX (dialog->progress_box), label);
  gtk_box_append (GTK_BOX (dialog->progress_box), dialog->progress);
  gtk_box_append (GTK_BOX (dialog->progress_box), stop);
  gtk_widget_set_visible (dialog->progress_box, FALSE);
  return dialog->progress_box;
}

static GtkWidget *
make_buttons (RwExportDialog *dialog)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  dialog->cancel = gtk_button_new_with_mnemonic (_("_Cancel"));
  dialog->export = gtk_button_new_with_mnemonic (_("_Export…"));
  gtk_widget_add_css_class (dialog->export, "suggested-action");
  g_signal_connect (dialog->cancel, "clicked", G_CALLBACK (cancel_clicked), dialog);
  g_signal_connect (dialog->export, "clicked", G_CALLBACK (export_clicked), dialog);
  gtk_box_set_homogeneous (GTK_BOX (row), TRUE);
  gtk_box_append (GTK_BOX (row), dialog->cancel);
  gtk_box_append (GTK_BOX (row), dialog->export);
  gtk_window_set_default_widget (GTK_WINDOW (dialog), dialog->export);
  return row;
}

static GtkWidget *
make_side (RwExportDialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  GtkWidget *space = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  dialog->options = RW_EXPORT_OPTIONS (rw_export_options_new (dialog->settings));
  g_signal_connect (dialog->options, "changed", G_CALLBACK (options_changed), dialog);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (dialog->options));
  gtk_widget_set_vexpand (space, TRUE);
  gtk_box_append (GTK_BOX (box), space);
  dialog->problem = gtk_label_new ("");
  gtk_label_set_wrap (GTK_LABEL (dialog->problem), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (dialog->problem), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (dialog->problem), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (dialog->problem), 30);
  gtk_widget_add_css_class (dialog->problem, "rw-problem");
  gtk_widget_set_visible (dialog->problem, FALSE);
  gtk_box_append (GTK_BOX (box), dialog->problem);
  gtk_box_append (GTK_BOX (box), make_progress (dialog));
  gtk_box_append (GTK_BOX (box), make_buttons (dialog));
  gtk_widget_set_size_request (box, 320, -1);
  gtk_widget_set_hexpand (box, FALSE);
  gtk_widget_add_css_class (box, "rw-dialog-body");
  return box;
}

static GtkWidget *
make_page_button (RwExportDialog *dialog, const char *icon, const char *name, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (button, "clicked", clicked, dialog);
  return button;
}

static GtkWidget *
make_preview (RwExportDialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  dialog->preview = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (dialog->preview), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("The page as it will come out"), -1);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (dialog->preview), draw_preview, dialog, NULL);
  gtk_widget_set_hexpand (dialog->preview, TRUE);
  gtk_widget_set_vexpand (dialog->preview, TRUE);
  dialog->page_label = gtk_label_new ("");
  gtk_label_set_width_chars (GTK_LABEL (dialog->page_label), 12);
  dialog->previous = make_page_button (dialog, "rw-up-symbolic", _("Previous page"), G_CALLBACK (previous_page));
  dialog->next = make_page_button (dialog, "rw-down-symbolic", _("Next page"), G_CALLBACK (next_page));
  gtk_box_append (GTK_BOX (row), dialog->previous);
  gtk_box_append (GTK_BOX (row), dialog->page_label);
  gtk_box_append (GTK_BOX (row), dialog->next);
  gtk_widget_set_halign (row, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_bottom (row, 8);
  gtk_box_append (GTK_BOX (box), dialog->preview);
  gtk_box_append (GTK_BOX (box), row);
  gtk_widget_add_css_class (box, "rw-desk");
  return box;
}

static void
rw_export_dialog_init (RwExportDialog *dialog)
{
}

GtkWidget *
rw_export_dialog_new (RwWindow *parent, RwRig *rig, RwSettings *settings)
{
  RwExportDialog *dialog = g_object_new (RW_TYPE_EXPORT_DIALOG, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkEventController *keys = gtk_shortcut_controller_new ();

  dialog->rig = g_object_ref (rig);
  dialog->settings = settings;
  gtk_window_set_title (GTK_WINDOW (dialog), _("Export the cable plan"));
  gtk_window_set_transient_for (GTK_WINDOW (dialog), GTK_WINDOW (parent));
  gtk_window_set_modal (GTK_WINDOW (dialog), TRUE);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (dialog), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (dialog), 960, 600);
  gtk_shortcut_controller_add_shortcut (
    GTK_SHORTCUT_CONTROLLER (keys), gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                      gtk_callback_action_new (escaped, NULL, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (dialog), keys);
  gtk_box_append (GTK_BOX (box), make_side (dialog));
  gtk_box_append (GTK_BOX (box), make_preview (dialog));
  gtk_window_set_child (GTK_WINDOW (dialog), box);
  g_signal_connect (rig, "changed", G_CALLBACK (rig_changed), dialog);
  make_plan (dialog);
  return GTK_WIDGET (dialog);
}
