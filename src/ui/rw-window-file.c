/* SPDX-License-Identifier: MIT */
#include "rw-window-private.h"

#include <glib/gi18n-lib.h>
#include "rw-application.h"
#include "rw-examples.h"
#include "rw-export-dialog.h"
#include "rw-question.h"

/* What waits for the answer to a question or a file chooser. */
typedef struct
{
  RwWindow *window;
  RwWindowThen then; /* (nullable) */
  gpointer data;
  GtkNativeDialog *chooser; /* (nullable) */
} Waiting;

static Waiting *
waiting_new (RwWindow *window, RwWindowThen then, gpointer data)
{
  Waiting *waiting = g_new0 (Waiting, 1);

  waiting->window = g_object_ref (window);
  waiting->then = then;
  waiting->data = data;
  window->asking = TRUE;
  return waiting;
}

static void
waiting_end (Waiting *waiting, gboolean go_on)
{
  RwWindow *window = waiting->window;

  window->asking = FALSE;
  if (go_on && waiting->then != NULL)
    waiting->then (window, waiting->data);
  g_clear_object (&waiting->chooser);
  g_free (waiting);
  g_object_unref (window);
}

static GtkFileFilter *
make_filter (void)
{
  GtkFileFilter *filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, _("Rigs"));
  gtk_file_filter_add_pattern (filter, "*.rig");
  gtk_file_filter_add_mime_type (filter, "application/x-rigwright+json");
  return filter;
}

static GtkFileChooserNative *
make_chooser (RwWindow *window, const char *title, GtkFileChooserAction action, const char *accept)
{
  GtkFileChooserNative *chooser = gtk_file_chooser_native_new (title, GTK_WINDOW (window), action, accept, _("_Cancel"));
  g_autoptr (GtkFileFilter) rigs = make_filter ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  gtk_file_filter_set_name (all, _("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), rigs);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), all);
  return chooser;
}

static void
note_recent (const char *path)
{
  g_autofree char *uri = g_filename_to_uri (path, NULL, NULL);
  GtkRecentData data = {
    .mime_type = (char *) "application/x-rigwright+json",
    .app_name = (char *) "Rigwright",
    .app_exec = (char *) "rigwright %u",
  };

  if (uri != NULL)
    gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

gboolean
rw_window_load (RwWindow *window, GFile *file)
{
  g_autoptr (RwDocument) document = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;

  g_return_val_if_fail (RW_IS_WINDOW (window) && G_IS_FILE (file), FALSE);
  path = g_file_get_path (file);
  if (path == NULL)
    {
      g_autofree char *uri = g_file_get_uri (file);
      /* Translators: %s is a URI. */
      g_autofree char *text = g_strdup_printf (_("%s is not on this computer; copy the rig to a folder here first"), uri);
      rw_window_show_message (window, text);
      return FALSE;
    }
  document = rw_document_new ();
  if (!rw_document_load (document, path, &error))
    {
      rw_window_show_message (window, error->message);
      return FALSE;
    }
  rw_window_set_document (window, document);
  rw_window_show_message (window, NULL);
  rw_window_journal_loaded (window);
  note_recent (path);
  return TRUE;
}

gboolean
rw_window_load_example (RwWindow *window, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_file_read (path, &error);
  g_autoptr (RwDocument) document = NULL;

  if (rig == NULL)
    {
      rw_window_show_message (window, error->message);
      return FALSE;
    }
  document = rw_document_new_for_rig (rig);
  rw_window_set_document (window, document);
  rw_window_show_message (window, NULL);
  rw_window_journal_loaded (window);
  return TRUE;
}

/* The window that shall show another rig: this one where nothing would be lost, else a new one. */
static RwWindow *
window_for_next (RwWindow *window)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (window));
  RwWindow *next = window;

  if (!rw_window_is_idle (window) && application != NULL)
    next = rw_window_new (application);
  gtk_window_present (GTK_WINDOW (next));
  return next;
}

void
rw_window_open_files (RwWindow *window, GSList *files)
{
  RwApplication *application = RW_APPLICATION (gtk_window_get_application (GTK_WINDOW (window)));

  for (GSList *l = files; l != NULL; l = l->next)
    if (application != NULL)
      rw_application_open_file (application, G_FILE (l->data), window);
    else
      rw_window_load (window, G_FILE (l->data));
}

static void
open_answered (GtkNativeDialog *chooser, int response, gpointer user_data)
{
  Waiting *waiting = user_data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));

  waiting->window->asking = FALSE;
  if (response == GTK_RESPONSE_ACCEPT && file != NULL)
    {
      GSList one = { file, NULL };
      rw_window_open_files (waiting->window, &one);
    }
  waiting_end (waiting, FALSE);
}

void
rw_window_open (RwWindow *window)
{
  GtkFileChooserNative *chooser = make_chooser (window, _("Open a rig"), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Open"));
  Waiting *waiting = waiting_new (window, NULL, NULL);

  waiting->chooser = GTK_NATIVE_DIALOG (chooser);
  g_signal_connect (chooser, "response", G_CALLBACK (open_answered), waiting);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

gboolean
rw_window_settle (RwWindow *window)
{
  rw_particulars_settle (window->particulars);
  return rw_line_view_settle (window->lines);
}

/* A failed save loses nothing: the rig stays open and unsaved, and the message says why. */
static gboolean
save_to (RwWindow *window, const char *path)
{
  g_autoptr (GError) error = NULL;
  gboolean saved;

  rw_window_settle (window);
  saved = path != NULL ? rw_document_save_as (window->document, path, &error)
                       : rw_document_save (window->document, &error);

  rw_window_show_message (window, saved ? NULL : error->message);
  if (!saved)
    return FALSE;
  rw_window_journal_saved (window);
  note_recent (rw_document_path (window->document));
  return TRUE;
}

static char *
with_extension (const char *path, const char *extension)
{
  g_autofree char *name = g_path_get_basename (path);

  return strchr (name, '.') != NULL ? g_strdup (path) : g_strconcat (path, extension, NULL);
}

static void
save_answered (GtkNativeDialog *chooser, int response, gpointer user_data)
{
  Waiting *waiting = user_data;
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  gboolean saved = FALSE;

  if (response == GTK_RESPONSE_ACCEPT && path != NULL)
    {
      g_autofree char *full = with_extension (path, ".rig");
      saved = save_to (waiting->window, full);
    }
  waiting_end (waiting, saved);
}

void
rw_window_save_as (RwWindow *window, RwWindowThen then, gpointer data)
{
  const char *path = rw_document_path (window->document);
  GtkFileChooserNative *chooser;
  Waiting *waiting;

  if (window->answer_path != NULL)
    {
      if (save_to (window, window->answer_path) && then != NULL)
        then (window, data);
      return;
    }
  chooser = make_chooser (window, _("Save the rig as"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"));
  if (path != NULL)
    {
      g_autoptr (GFile) file = g_file_new_for_path (path);
      gtk_file_chooser_set_file (GTK_FILE_CHOOSER (chooser), file, NULL);
    }
  else
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (chooser), _("untitled.rig"));
  waiting = waiting_new (window, then, data);
  waiting->chooser = GTK_NATIVE_DIALOG (chooser);
  g_signal_connect (chooser, "response", G_CALLBACK (save_answered), waiting);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (chooser));
}

void
rw_window_save (RwWindow *window, RwWindowThen then, gpointer data)
{
  if (rw_document_path (window->document) == NULL)
    rw_window_save_as (window, then, data);
  else if (save_to (window, NULL) && then != NULL)
    then (window, data);
}

static void
unsaved_answered (const char *answer, gpointer user_data)
{
  Waiting *waiting = user_data;
  RwWindow *window = waiting->window;

  if (g_str_equal (answer, "save"))
    {
      window->asking = FALSE;
      rw_window_save (window, waiting->then, waiting->data);
      waiting_end (waiting, FALSE);
    }
  else
    waiting_end (waiting, g_str_equal (answer, "discard"));
}

void
rw_window_ask_unsaved (RwWindow *window, RwWindowThen then, gpointer data)
{
  static const RwAnswer answers[] = {
    { "cancel", N_("_Cancel"), RW_ANSWER_PLAIN },
    { "discard", N_("_Discard"), RW_ANSWER_DESTRUCTIVE },
    { "save", N_("_Save"), RW_ANSWER_SUGGESTED },
  };
  RwAnswer said[G_N_ELEMENTS (answers)];
  g_autofree char *heading = NULL;
  gboolean settled = rw_window_settle (window), dirty = rw_document_is_dirty (window->document);

  if (settled && !dirty)
    {
      then (window, data);
      return;
    }
  if (window->asking)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (answers); i++)
    said[i] = (RwAnswer) { answers[i].name, _(answers[i].label), answers[i].style };
  /* Translators: %s is the title of a rig. */
  heading = dirty ? g_strdup_printf (_("Save the changes to “%s”?"), rw_document_title (window->document))
                  : g_strdup (_("Discard what is typed in the line list?"));
  rw_question_ask (GTK_WINDOW (window), heading,
                   settled ? _("What you drew since the last save is lost if you discard it.")
                           : _("What you typed last in the line list is no line yet, and will be lost. Cancel to finish it."),
                   said, dirty ? G_N_ELEMENTS (said) : G_N_ELEMENTS (said) - 1, unsaved_answered,
                   waiting_new (window, then, data));
}

static void
exported (RwExportDialog *dialog, const char *path, gpointer user_data)
{
  rw_window_tell_written (user_data, path);
}

void
rw_window_export (RwWindow *window)
{
  RwApplication *application = RW_APPLICATION (gtk_window_get_application (GTK_WINDOW (window)));
  g_autofree const char **failed = NULL;

  rw_window_settle (window);
  if (window->export_dialog != NULL)
    {
      gtk_window_present (window->export_dialog);
      return;
    }
  g_set_weak_pointer (&window->export_dialog,
                      GTK_WINDOW (rw_export_dialog_new (window, rw_document_rig (window->document),
                                                        application != NULL ? rw_application_get_settings (application)
                                                                            : NULL)));
  g_signal_connect_object (window->export_dialog, "exported", G_CALLBACK (exported), window, 0);
  failed = rw_canvas_failed (window->canvas);
  rw_export_dialog_set_lens (RW_EXPORT_DIALOG (window->export_dialog), rw_canvas_lens (window->canvas),
                             rw_canvas_lens_from (window->canvas), failed);
  gtk_window_present (window->export_dialog);
}

static void
example_picked (const char *path, gpointer user_data)
{
  rw_window_load_example (window_for_next (user_data), path);
}

void
rw_window_show_examples (RwWindow *window)
{
  rw_examples_show (GTK_WINDOW (window), example_picked, window);
}
