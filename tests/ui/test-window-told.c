/* SPDX-License-Identifier: MIT */
/* What the window tells a person by itself. */
#include "window-hand.h"

#include <glib/gstdio.h>
#include <string.h>
#include <ui/rw-export-dialog.h>
#include <ui/rw-help.h>

static const char chain[] = "console desk ctrl=1 at=[20,60]\nrack left id=1 at=[110,60]\ndesk.s-left.p\n";

static const char *
status (Hand *hand)
{
  return gtk_label_get_text (GTK_LABEL (hand->window->status_label));
}

static gboolean
is_told (gpointer hand)
{
  return strstr (status (hand), "Written") != NULL;
}

/* The name of a file that was exported stands in the window, before the folder that it lies in. */
static void
test_exported (void)
{
  Hand hand;
  g_autofree char *path = NULL;

  hand_begin (&hand);
  hand_open_text (&hand, chain);
  path = g_build_filename (hand.folder, "my plan.pdf", NULL);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.export", NULL);
  hand_settle ();
  rw_export_dialog_export_to (RW_EXPORT_DIALOG (hand.window->export_dialog), path);
  hand_wait (is_told, &hand);
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
  g_assert_true (g_str_has_prefix (status (&hand), "✓ Written: my plan.pdf"));
  g_assert_nonnull (strstr (status (&hand), hand.folder));
  g_assert_true (gtk_widget_has_css_class (hand.window->status_label, "rw-fine"));
  hand_end (&hand);
}

/* What could not be written is not said to be there. */
static void
test_not_exported (void)
{
  Hand hand;
  g_autofree char *path = NULL;

  hand_begin (&hand);
  hand_open_text (&hand, chain);
  path = g_build_filename (hand.folder, "no such folder", "plan.pdf", NULL);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.export", NULL);
  hand_settle ();
  rw_export_dialog_export_to (RW_EXPORT_DIALOG (hand.window->export_dialog), path);
  while (rw_export_dialog_is_busy (RW_EXPORT_DIALOG (hand.window->export_dialog)))
    g_main_context_iteration (NULL, TRUE);
  hand_settle ();
  g_assert_false (is_told (&hand));
  hand_end (&hand);
}

static const char *
message (Hand *hand)
{
  return gtk_label_get_text (GTK_LABEL (hand->window->message_label));
}

static gboolean
has_message (gpointer hand)
{
  return *message (hand) != '\0';
}

/* Where nothing opens the help, the window says what would, and where the pages are. */
static void
test_no_viewer (void)
{
  Hand hand;
  const char *folder;
  g_autofree char *page = NULL;
  g_auto (GStrv) words = NULL;

  hand_begin (&hand);
  rw_help_show (GTK_WINDOW (hand.window), "rigwright-nothing-opens-this:rigwright");
  hand_wait (has_message, &hand);
  g_assert_nonnull (strstr (message (&hand), "yelp"));
  folder = strstr (message (&hand), "are in ");
  g_assert_nonnull (folder);
  words = g_strsplit (folder + strlen ("are in "), ",", 2);
  page = g_build_filename (words[0], "rule-loop.page", NULL);
  g_assert_true (g_file_test (page, G_FILE_TEST_EXISTS));
  hand_end (&hand);
}

/* Asked for from a dialog it opens, or is said not to, all the same. */
static void
test_no_viewer_for_dialog (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, chain);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.export", NULL);
  hand_settle ();
  rw_help_show (hand.window->export_dialog, "rigwright-nothing-opens-this:rigwright");
  hand_wait (has_message, &hand);
  g_assert_nonnull (strstr (message (&hand), "yelp"));
  hand_end (&hand);
}

/* The Failure lens warns of the time that a spanning tree takes only where a switch runs one. */
static void
test_failure_hint (void)
{
  static const struct { const char *rig; gboolean warned; } cases[] = {
    { "console desk ctrl=1 at=[20,60]\nrack left id=1 at=[110,60]\ndesk.s-left.p\n", FALSE },
    { "console desk ctrl=1 at=[20,60]\nswitch hub at=[110,60]\ndesk.p-hub.p1\n", FALSE },
    { "console desk ctrl=1 at=[20,60]\nswitch hub stp at=[110,60]\ndesk.p-hub.p1\n", TRUE },
  };
  Hand hand;

  hand_begin (&hand);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      hand_open_text (&hand, cases[i].rig);
      rw_canvas_set_lens (hand.window->canvas, RW_LENS_FAILURE, NULL);
      rw_canvas_toggle_failed (hand.window->canvas, "c1");
      hand_settle ();
      g_assert_true (hand_says (GTK_WIDGET (hand.window->failure), "only two planes play on without a gap"));
      g_assert_true (hand_says (GTK_WIDGET (hand.window->failure), "panning tree") == cases[i].warned);
      rw_canvas_set_lens (hand.window->canvas, RW_LENS_WIRING, NULL);
    }
  hand_end (&hand);
}

/* What a field did not take is said where it can still be read when the field is gone: which field it was, and what. */
static void
test_not_taken (void)
{
  static const char *const then[] = { NULL, "left", "c1" };
  static const char said[] = "Length: “85x” was not taken: the value is as it was.";
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  for (guint i = 0; i < G_N_ELEMENTS (then); i++)
    {
      hand_select (&hand, "c1");
      hand_type (&hand, "length_m", "85x");
      g_assert_cmpstr (status (&hand), !=, said);
      if (g_strcmp0 (then[i], "c1") == 0)
        gtk_widget_grab_focus (GTK_WIDGET (hand.window->canvas));
      rw_selection_set (rw_document_selection (hand.window->document), then[i]);
      hand_settle ();
      g_assert_cmpstr (status (&hand), ==, said);
      g_assert_true (gtk_widget_has_css_class (hand.window->status_label, "rw-warning"));
      rw_window_tell (hand.window, "");
    }
  hand_end (&hand);
}

/* The window does not close over what was not taken without a word; the second time it does. */
static void
test_not_taken_at_the_end (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_select (&hand, "c1");
  hand_type (&hand, "length_m", "12q");
  gtk_window_close (GTK_WINDOW (hand.window));
  hand_settle ();
  g_assert_nonnull (gtk_application_get_windows (GTK_APPLICATION (hand.application)));
  g_assert_true (g_str_has_prefix (status (&hand), "Length: “12q” was not taken"));
  gtk_window_close (GTK_WINDOW (hand.window));
  hand_settle ();
  g_assert_null (gtk_application_get_windows (GTK_APPLICATION (hand.application)));
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/window/told/exported", test_exported);
  g_test_add_func ("/window/told/not-exported", test_not_exported);
  g_test_add_func ("/window/told/no-help-viewer", test_no_viewer);
  g_test_add_func ("/window/told/no-help-viewer-for-dialog", test_no_viewer_for_dialog);
  g_test_add_func ("/window/told/failure-hint", test_failure_hint);
  g_test_add_func ("/window/told/not-taken", test_not_taken);
  g_test_add_func ("/window/told/not-taken-at-the-end", test_not_taken_at_the_end);
  return g_test_run ();
}
