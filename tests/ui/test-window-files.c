/* SPDX-License-Identifier: MIT */
/* The window and the files that it opens, saves, recovers and exports. */
#include "rig-builder.h"
#include "window-hand.h"

#include <glib/gstdio.h>
#include <rig/rw-edit.h>
#include <sys/wait.h>
#include <unistd.h>
#include <utime.h>

#include <ui/rw-export-dialog.h>

/* A rig with edits is not closed without an answer; "Save" saves it, "Cancel" keeps it open. */
static void
test_unsaved (void)
{
  Hand hand;
  g_autofree char *path = NULL;
  g_autoptr (RwRig) saved = NULL;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  path = g_strdup (rw_document_path (hand.window->document));
  hand_select (&hand, "left");
  hand_type (&hand, "location", "Wings");
  g_assert_true (rw_document_is_dirty (hand.window->document));
  gtk_window_close (GTK_WINDOW (hand.window));
  hand_settle ();
  hand_click ("Cancel");
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (hand.window)));
  gtk_window_close (GTK_WINDOW (hand.window));
  hand_settle ();
  hand_click ("Save");
  g_assert_null (gtk_application_get_windows (GTK_APPLICATION (hand.application)));
  saved = rw_file_read (path, NULL);
  g_assert_cmpstr (rw_rig_device (saved, "left")->location, ==, "Wings");
  hand_end (&hand);
}

/* A save that fails loses nothing and says why. */
static void
test_failed_save (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_select (&hand, "left");
  hand_type (&hand, "location", "Wings");
  hand.window->answer_path = g_build_filename (hand.folder, "no", "such", "folder.rig", NULL);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.save-as", NULL);
  hand_settle ();
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (hand.window->message_label)), "folder.rig"));
  g_assert_true (rw_document_is_dirty (hand.window->document));
  g_assert_cmpstr (rw_rig_device (rw_document_rig (hand.window->document), "left")->location, ==, "Wings");
  hand_end (&hand);
}

/* A broken file is told of with its place, and what was open stays. */
static void
test_broken (void)
{
  Hand hand;
  g_autofree char *path = NULL;
  g_autoptr (GFile) file = NULL;
  const char *message;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  path = g_build_filename (hand.folder, "broken.rig", NULL);
  g_file_set_contents (path, "{\"rigwright\": 1, \"devices\": [{\"id\": \"d\"}]}", -1, NULL);
  file = g_file_new_for_path (path);
  g_assert_false (rw_window_load (hand.window, file));
  message = gtk_label_get_text (GTK_LABEL (hand.window->message_label));
  g_assert_nonnull (strstr (message, "broken.rig"));
  g_assert_nonnull (strstr (message, "devices[0]"));
  g_assert_cmpuint (rw_rig_n (rw_document_rig (hand.window->document), RW_ITEM_DEVICE), ==, 3);
  hand_end (&hand);
}

/* Makes the last edit of the one journal that was left an old one; returns when it was. */
static char *
date_last_edit (void)
{
  g_auto (GStrv) left = rw_journal_list_left ();
  g_autoptr (GDateTime) at = g_date_time_new_local (2026, 3, 4, 15, 6, 0);
  const struct utimbuf times = { g_date_time_to_unix (at), g_date_time_to_unix (at) };

  g_assert_nonnull (left[0]);
  g_assert_cmpint (g_utime (left[0], (struct utimbuf *) &times), ==, 0);
  return g_date_time_format (at, "%Y-%m-%d %H:%M");
}

static gboolean
reads_below (GtkWidget *widget, const char *text)
{
  if (GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (reads_below (child, text))
      return TRUE;
  return FALSE;
}

/* Whether @text can be read in any window. */
static gboolean
hand_reads (const char *text)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (reads_below (window, text))
        return TRUE;
    }
  return FALSE;
}

/* Ends without closing the journal of @path, in which all of @changes (until NULL) are. */
static void
crash_after (const char *path, RwChange *const *changes)
{
  pid_t crashed = fork ();
  int status;

  if (crashed == 0)
    {
      RwJournal *journal = rw_journal_open (path, NULL);
      while (*changes != NULL && rw_journal_append (journal, *changes, NULL))
        changes++;
      _exit (*changes == NULL ? 0 : 1);
    }
  g_assert_cmpint (waitpid (crashed, &status, 0), ==, crashed);
  g_assert_cmpint (status, ==, 0);
}

/* Edits that were taken back before the crash are no loss: nothing is asked, where the rig is opened nor at the start. */
static void
test_nothing_to_recover (void)
{
  Hand hand;
  g_autofree char *path = NULL;
  g_autoptr (RwRig) rig = rw_test_rig (HAND_CHAIN);
  RwEdit *edit = rw_edit_new (rig, "Move");
  g_autoptr (RwChange) change = NULL, back = NULL;
  g_autoptr (GFile) file = NULL;
  g_auto (GStrv) left = NULL, after = NULL;

  hand_begin (&hand);
  path = g_build_filename (hand.folder, "crashed.rig", NULL);
  g_assert_true (rw_file_write (rig, path, NULL));
  rw_edit_set (edit, "left", RW_DEVICE_LOCATION, g_variant_new_string ("Roof"), NULL);
  change = rw_edit_finish (edit);
  back = rw_change_invert (change);
  crash_after (path, (RwChange *const[]) { change, back, NULL });
  left = rw_journal_list_left ();
  g_assert_cmpuint (g_strv_length (left), ==, 1);
  rw_window_recover (hand.window, left[0]);
  g_assert_true (rw_window_is_idle (hand.window));
  after = rw_journal_list_left ();
  g_assert_cmpuint (g_strv_length (after), ==, 0);
  crash_after (path, (RwChange *const[]) { change, back, NULL });
  file = g_file_new_for_path (path);
  g_assert_true (rw_window_load (hand.window, file));
  g_assert_false (hand.window->asking);
  g_assert_cmpuint (rw_journal_n_left (hand.window->journal), ==, 0);
  hand_end (&hand);
}

/* What a crash left is offered, and put back as steps that can be undone. */
static void
test_recover (void)
{
  Hand hand;
  g_autofree char *path = NULL;
  g_autoptr (RwRig) rig = rw_test_rig (HAND_CHAIN);
  g_autoptr (RwEdit) edit = rw_edit_new (rig, "Move");
  g_autoptr (RwChange) change = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = NULL;
  g_autofree char *time = NULL;

  hand_begin (&hand);
  path = g_build_filename (hand.folder, "crashed.rig", NULL);
  rw_file_write (rig, path, &error);
  g_assert_no_error (error);
  rw_edit_set (edit, "left", RW_DEVICE_LOCATION, g_variant_new_string ("Roof"), &error);
  change = rw_edit_finish (g_steal_pointer (&edit));
  crash_after (path, (RwChange *const[]) { change, NULL });
  time = date_last_edit ();
  file = g_file_new_for_path (path);
  /* As at the start, where a rig is loaded before its window is shown: the question has to come after the window. */
  gtk_widget_set_visible (GTK_WIDGET (hand.window), FALSE);
  g_assert_true (rw_window_load (hand.window, file));
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (hand.window)));
  hand_settle ();
  g_assert_true (hand_reads ("“crashed.rig”"));
  g_assert_true (hand_reads (time));
  g_assert_nonnull (hand_find_button ("Drop 1 edit"));
  hand_click ("Recover 1 edit");
  g_assert_cmpstr (rw_rig_device (rw_document_rig (hand.window->document), "left")->location, ==, "Roof");
  g_assert_true (rw_document_is_dirty (hand.window->document));
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_null (rw_rig_device (rw_document_rig (hand.window->document), "left")->location);
  hand_end (&hand);
}

static gboolean
dialog_is_idle (gpointer data)
{
  return !rw_export_dialog_is_busy (data);
}

/* The dialog writes what it shows. */
static void
test_export (void)
{
  static const struct { const char *format, *magic; } cases[] = {
    { "pdf", "%PDF-" }, { "png", "\x89PNG" }, { "svg", "<?xml" },
  };
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *name = g_strconcat ("plan.", cases[i].format, NULL);
      g_autofree char *path = g_build_filename (hand.folder, name, NULL);
      g_autofree char *data = NULL;
      g_autoptr (RwExportDialog) dialog = NULL;
      gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.export", NULL);
      hand_settle ();
      dialog = g_object_ref (RW_EXPORT_DIALOG (hand.window->export_dialog));
      rw_export_dialog_set_format (dialog, cases[i].format);
      rw_export_dialog_export_to (dialog, path);
      hand_wait (dialog_is_idle, dialog);
      g_clear_object (&dialog);
      hand_settle ();
      g_assert_null (hand.window->export_dialog);
      g_assert_true (g_file_get_contents (path, &data, NULL, NULL));
      g_assert_true (g_str_has_prefix (data, cases[i].magic));
    }
  hand_end (&hand);
}

static void
test_failed_export (void)
{
  Hand hand;
  g_autofree char *path = NULL;
  g_autoptr (RwExportDialog) dialog = NULL;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  path = g_build_filename (hand.folder, "no", "such.pdf", NULL);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.export", NULL);
  hand_settle ();
  dialog = g_object_ref (RW_EXPORT_DIALOG (hand.window->export_dialog));
  rw_export_dialog_export_to (dialog, path);
  hand_wait (dialog_is_idle, dialog);
  hand_settle ();
  g_assert_nonnull (hand.window->export_dialog);
  g_assert_nonnull (strstr (rw_export_dialog_get_problem (dialog), "such.pdf"));
  g_clear_object (&dialog);
  hand_end (&hand);
}

/* A second rig opens in a window of its own; the same rig again shows the window that has it. */
static void
test_windows (void)
{
  Hand hand;
  g_autofree char *path = NULL;
  g_autoptr (GFile) file = NULL, again = NULL;
  g_autoptr (RwRig) rig = rw_test_rig (HAND_CHAIN);

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  path = g_build_filename (hand.folder, "other.rig", NULL);
  rw_file_write (rig, path, NULL);
  file = g_file_new_for_path (path);
  rw_application_open_file (hand.application, file, hand.window);
  hand_settle ();
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (hand.application))), ==, 2);
  rw_application_open_file (hand.application, file, hand.window);
  hand_settle ();
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (hand.application))), ==, 2);
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/window-files/unsaved", test_unsaved);
  g_test_add_func ("/window-files/failed-save", test_failed_save);
  g_test_add_func ("/window-files/broken-file", test_broken);
  g_test_add_func ("/window-files/recover", test_recover);
  g_test_add_func ("/window-files/nothing-to-recover", test_nothing_to_recover);
  g_test_add_func ("/window-files/export/formats", test_export);
  g_test_add_func ("/window-files/export/failed", test_failed_export);
  g_test_add_func ("/window-files/several-windows", test_windows);
  return g_test_run ();
}
