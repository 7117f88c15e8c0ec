/* SPDX-License-Identifier: MIT */
/* What stands in the line list and is not in the rig yet: it is kept, whatever is done next. */
#include "lines-hand.h"

#include <string.h>

/* Types "Vox" and its device into the blank row; what is typed last is still in its entry. */
static void
type_unfinished (RwLineView *view, const char *device)
{
  rw_line_view_choose (view, (int) rw_line_view_n_rows (view), 0, FALSE);
  hand_settle ();
  g_assert_true (rw_line_view_type (view, "Vox"));
  rw_line_view_choose (view, (int) rw_line_view_n_rows (view), 1, FALSE);
  hand_settle ();
  rw_line_view_begin_typing (view, device);
  g_assert_true (view->typing);
}

/* A click on a heading while one types: what is typed is in its place. */
static void
test_sorted (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autoptr (GtkColumnViewColumn) name = g_list_model_get_item (gtk_column_view_get_columns (GTK_COLUMN_VIEW (view->list)), 1);

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "A\tStage left\t1\nB\tStage left\t2\nC\tStage left\t3\n");
  rw_line_view_set_with_free (view, FALSE);
  rw_line_view_choose (view, 0, 0, FALSE);
  hand_settle ();
  rw_line_view_begin_typing (view, "Z");
  gtk_column_view_sort_by_column (GTK_COLUMN_VIEW (view->list), name, GTK_SORT_ASCENDING);
  lines_assert_column (view, RW_LINE_NAME, 0, 3, "B|C|Z");
  g_assert_cmpint (view->row, ==, 2);
  hand_end (&hand);
}

/* Whatever reads or writes the rig does so with the row that is begun. */
static void
test_read (void)
{
  static const char *const actions[] = { "win.save", "win.export", "win.papers", "win.issue", "win.revisions" };

  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      Hand hand;
      RwLineView *view = lines_begin (&hand);

      type_unfinished (view, "Stage left");
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (hand.window), actions[i], NULL));
      g_assert_cmpuint (lines_n_patched (&hand), ==, 0);
      g_assert_cmpuint (rw_rig_n (rw_document_rig (hand.window->document), RW_ITEM_CHANNEL), ==, 1);
      g_assert_false (view->typing);
      g_assert_false (rw_line_view_has_blank (view));
      g_assert_cmpint (rw_document_is_dirty (hand.window->document), ==, i > 0);
      hand_settle ();
      hand_end (&hand);
    }
}

/* The table that is written has the row, too. */
static void
test_exported (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *path = g_build_filename (hand.folder, "lines.csv", NULL), *text = NULL;

  type_unfinished (view, "Stage left");
  rw_window_lines_export (hand.window, path);
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "Vox,Stage left,1,"));
  hand_end (&hand);
}

/* A window is not closed over a row: what is a line is asked about as all changes are, what is none by itself. */
static void
test_closed (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  type_unfinished (view, "Stage left");
  gtk_window_close (GTK_WINDOW (hand.window));
  hand_settle ();
  g_assert_true (rw_document_is_dirty (hand.window->document));
  hand_click ("Cancel");
  hand_settle ();
  g_assert_true (rw_document_undo (hand.window->document));
  type_unfinished (view, "Attic");
  gtk_window_close (GTK_WINDOW (hand.window));
  hand_settle ();
  g_assert_null (hand_find_button ("Save"));
  hand_click ("Cancel");
  hand_settle ();
  g_assert_true (view->typing);
  g_assert_cmpstr (rw_line_row_get_typed (view->blank, RW_LINE_NAME), ==, "Vox");
  gtk_window_close (GTK_WINDOW (hand.window));
  hand_settle ();
  hand_click ("Discard");
  hand_settle ();
  g_assert_null (gtk_application_get_windows (GTK_APPLICATION (hand.application)));
  hand_end (&hand);
}

/* The same line is made while the blank row's is on its way: its change fits no more. */
static void
come_between (GObject *remark, GParamSpec *pspec, gpointer user_data)
{
  Hand *hand = user_data;
  const char *const cells[RW_LINE_N_COLUMNS] = { "Bass", "Stage left" };
  RwLineEdit *edit = rw_line_edit_new (rw_document_rig (hand->window->document), RW_LINE_INPUT, "Bass");
  g_autoptr (RwChange) change = NULL;
  g_autoptr (GPtrArray) problems = NULL;

  g_signal_handlers_disconnect_by_data (remark, hand);
  rw_line_edit_set (edit, 0, NULL, cells);
  change = rw_line_edit_finish (edit, &problems);
  g_assert_true (rw_document_do (hand->window->document, change, NULL));
}

/* What the document refuses stays in the row. */
static void
test_refused (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_set_blank (view, RW_LINE_NAME, "Vox");
  rw_line_view_set_blank (view, RW_LINE_STAGE, "Stage left");
  rw_line_view_show_remark (view, "Something");
  g_signal_connect (view->remark, "notify::label", G_CALLBACK (come_between), &hand);
  g_assert_false (rw_line_view_settle (view));
  g_assert_cmpstr (rw_line_row_get_typed (view->blank, RW_LINE_NAME), ==, "Vox");
  g_assert_cmpstr (rw_line_view_get_remark (view), !=, "");
  g_assert_true (rw_line_view_settle (view));
  g_assert_cmpuint (rw_rig_n (rw_document_rig (hand.window->document), RW_ITEM_CHANNEL), ==, 2);
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/lines-kept/sorted", test_sorted);
  g_test_add_func ("/window/lines-kept/read", test_read);
  g_test_add_func ("/window/lines-kept/exported", test_exported);
  g_test_add_func ("/window/lines-kept/closed", test_closed);
  g_test_add_func ("/window/lines-kept/refused", test_refused);
  return g_test_run ();
}
