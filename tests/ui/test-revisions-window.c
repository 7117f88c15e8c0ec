/* SPDX-License-Identifier: MIT */
/* Revisions as a person issues and compares them. */
#include "rig-builder.h"
#include "window-hand.h"

#include <math.h>
#include <string.h>
#include <rig/rw-edit.h>
#include <rig/rw-revision.h>
#include <ui/rw-issue-dialog.h>
#include <ui/rw-revisions-window.h>

static const char stage[] = "console desk ctrl=1 name=FOH at=[20,60]\n"
                            "rack left id=1 name='Stage left' at=[110,60]\n"
                            "rack right id=2 name='Stage right' at=[400,260]\n"
                            "desk.s-left.p length_m=20 label=N1\n"
                            "left.s-right.p length_m=30 label=N2\n";

static void
begin (Hand *hand)
{
  g_autoptr (RwRig) rig = rw_test_rig (stage);

  hand_begin (hand);
  hand_open (hand, rig);
}

static void
issue (Hand *hand, const char *letter)
{
  GtkWidget *dialog = rw_issue_dialog_new (GTK_WINDOW (hand->window), hand->window->document);

  gtk_window_present (GTK_WINDOW (dialog));
  if (letter != NULL)
    rw_issue_dialog_type (RW_ISSUE_DIALOG (dialog), letter, "For the venue");
  g_assert_true (rw_issue_dialog_apply (RW_ISSUE_DIALOG (dialog)));
  hand_settle ();
}

static void
set_number (Hand *hand, const char *key, guint field, double value)
{
  RwEdit *edit = rw_edit_new (rw_document_rig (hand->window->document), "");
  g_autoptr (RwChange) change = NULL;

  g_assert_true (rw_edit_set (edit, key, field, g_variant_new_double (value), NULL));
  change = rw_edit_finish (edit);
  g_assert_true (rw_document_do (hand->window->document, change, NULL));
}

static gboolean
is_compared (gpointer data)
{
  return !rw_revisions_window_is_busy (data);
}

static RwRevisionsWindow *
open_revisions (Hand *hand)
{
  RwRevisionsWindow *window;

  gtk_widget_activate_action (GTK_WIDGET (hand->window), "win.revisions", NULL);
  window = RW_REVISIONS_WINDOW (hand->window->revisions);
  hand_settle ();
  hand_wait (is_compared, window);
  return window;
}

static const char *
message (RwRevisionsWindow *window, guint index)
{
  return ((RwDifference *) rw_revisions_window_comparison (window)->differences->pdata[index])->message;
}

static void
test_issue (void)
{
  Hand hand;
  RwRig *rig;
  GtkWidget *dialog;

  begin (&hand);
  rig = rw_document_rig (hand.window->document);
  issue (&hand, NULL);
  g_assert_cmpstr (rw_rig_show (rig)->revision, ==, "A");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_REVISION), ==, 1);
  g_assert_true (g_regex_match_simple ("^\\d{4}-\\d\\d-\\d\\d$", rw_revision_last (rig)->date, 0, 0));
  dialog = rw_issue_dialog_new (GTK_WINDOW (hand.window), hand.window->document);
  gtk_window_present (GTK_WINDOW (dialog));
  g_assert_cmpstr (rw_issue_dialog_get_letter (RW_ISSUE_DIALOG (dialog)), ==, "B");
  rw_issue_dialog_type (RW_ISSUE_DIALOG (dialog), "A", "");
  g_assert_false (rw_issue_dialog_apply (RW_ISSUE_DIALOG (dialog)));
  g_assert_nonnull (strstr (rw_issue_dialog_problem (RW_ISSUE_DIALOG (dialog)), "A"));
  gtk_window_destroy (GTK_WINDOW (dialog));
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_REVISION), ==, 0);
  hand_end (&hand);
}

static void
test_compare (void)
{
  Hand hand;
  RwRevisionsWindow *window;

  begin (&hand);
  issue (&hand, "A");
  set_number (&hand, "c1", RW_CABLE_LENGTH_M, 50);
  issue (&hand, "B");
  set_number (&hand, "c2", RW_CABLE_LENGTH_M, 75);
  window = open_revisions (&hand);
  /* the last issue against now */
  g_assert_cmpuint (rw_revisions_window_n_lines (window), ==, 1);
  g_assert_cmpstr (message (window, 0), ==, "Cable N2 now 75 m, was 30 m");
  g_assert_cmpuint (rw_clouds_n (rw_revisions_window_comparison (window)->clouds), >, 0);
  g_assert_cmpstr (rw_clouds_letter (rw_revisions_window_comparison (window)->clouds), ==, "C");
  rw_revisions_window_compare (window, "A", "B");
  hand_wait (is_compared, window);
  g_assert_cmpuint (rw_revisions_window_n_lines (window), ==, 2);
  g_assert_cmpstr (message (window, 1), ==, "Cable N1 now 50 m, was 20 m");
  g_assert_cmpstr (rw_clouds_letter (rw_revisions_window_comparison (window)->clouds), ==, "B");
  rw_revisions_window_compare (window, "A", "A");
  hand_wait (is_compared, window);
  g_assert_cmpuint (rw_revisions_window_n_lines (window), ==, 0);
  g_assert_cmpuint (rw_clouds_n (rw_revisions_window_comparison (window)->clouds), ==, 0);
  hand_end (&hand);
}

/* A line that is chosen brings its thing into sight, close up. */
static void
test_line (void)
{
  Hand hand;
  RwRevisionsWindow *window;
  RwRect all, seen;

  begin (&hand);
  issue (&hand, "A");
  {
    RwEdit *edit = rw_edit_new (rw_document_rig (hand.window->document), "");
    g_autoptr (RwChange) change = NULL;

    rw_edit_set (edit, "right", RW_DEVICE_NOTES, g_variant_new_string ("new"), NULL);
    change = rw_edit_finish (edit);
    g_assert_true (rw_document_do (hand.window->document, change, NULL));
  }
  window = open_revisions (&hand);
  all = rw_compare_view_seen (rw_revisions_window_view (window));
  g_assert_cmpfloat (all.x, <, 20);
  rw_revisions_window_choose_line (window, 0);
  hand_settle ();
  seen = rw_compare_view_seen (rw_revisions_window_view (window));
  g_assert_cmpfloat (seen.w, <, all.w * 0.8);
  g_assert_cmpfloat (seen.x, <, 400);
  g_assert_cmpfloat (seen.x + seen.w, >, 400);
  g_assert_cmpfloat (seen.y, <, 260);
  g_assert_cmpfloat (seen.y + seen.h, >, 260);
  hand_end (&hand);
}

static void
test_file (void)
{
  Hand hand;
  RwRevisionsWindow *window;
  g_autofree char *path = NULL;
  g_autofree char *missing = NULL;

  begin (&hand);
  path = g_build_filename (hand.folder, "test.rig", NULL);
  missing = g_build_filename (hand.folder, "no.rig", NULL);
  set_number (&hand, "c1", RW_CABLE_LENGTH_M, 50);
  window = open_revisions (&hand);
  g_assert_cmpuint (rw_revisions_window_n_lines (window), ==, 0);
  g_assert_true (rw_revisions_window_open (window, path));
  hand_wait (is_compared, window);
  g_assert_cmpuint (rw_revisions_window_n_lines (window), ==, 1);
  g_assert_cmpstr (message (window, 0), ==, "Cable N1 now 50 m, was 20 m");
  g_assert_false (rw_revisions_window_open (window, missing));
  g_assert_nonnull (strstr (rw_revisions_window_remark (window), "no.rig"));
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/revisions-window/issue", test_issue);
  g_test_add_func ("/revisions-window/compare", test_compare);
  g_test_add_func ("/revisions-window/line", test_line);
  g_test_add_func ("/revisions-window/file", test_file);
  return g_test_run ();
}
