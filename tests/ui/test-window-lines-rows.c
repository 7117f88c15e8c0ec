/* SPDX-License-Identifier: MIT */
/* Which rows the line list shows, in which order, and where the hand is in them after a change. */
#include "lines-hand.h"

#include <string.h>

/* A rig with a hundred lines and some hundred free sockets. */
static RwLineView *
begin_demo (Hand *hand)
{
  g_autofree char *path = g_build_filename (g_getenv ("RIGWRIGHT_DATADIR"), "examples", "festival-60.rig", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  RwLineView *view = lines_begin (hand);

  g_assert_true (rw_window_load (hand->window, file));
  rw_line_view_set_with_free (view, TRUE);
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), >, 600);
  return view;
}

static void
go_to_end (Hand *hand)
{
  RwLineView *view = hand->window->lines;

  rw_line_view_choose (view, (int) rw_line_view_n_rows (view) - 1, 0, FALSE);
  hand_settle ();
  lines_assert_seen (view);
}

/* Whatever makes the list short while its end is looked at: it shows rows that it has. */
static void
test_short_at_end (void)
{
  Hand hand;
  RwLineView *view = begin_demo (&hand);

  go_to_end (&hand);
  hand_type_into (view->search, "vox");
  hand_settle ();
  lines_assert_seen (view);
  gtk_editable_set_text (GTK_EDITABLE (view->search), "");
  hand_settle ();
  go_to_end (&hand);
  hand_select (&hand, "left-1");
  hand_settle ();
  lines_assert_seen (view);
  hand_click ("All lines");
  hand_settle ();
  go_to_end (&hand);
  rw_line_view_set_side (view, RW_LINE_OUTPUT);
  hand_settle ();
  lines_assert_seen (view);
  rw_line_view_set_side (view, RW_LINE_INPUT);
  hand_settle ();
  go_to_end (&hand);
  rw_line_view_set_with_free (view, FALSE);
  hand_settle ();
  lines_assert_seen (view);
  g_assert_null (rw_line_view_get_line (view));
  /* the line that is chosen stays so, and in sight */
  go_to_end (&hand);
  lines_assert_column (view, RW_LINE_NAME, (guint) view->row, 1, "Synth right");
  rw_line_view_set_with_free (view, TRUE);
  hand_settle ();
  lines_assert_seen (view);
  lines_assert_column (view, RW_LINE_NAME, (guint) view->row, 1, "Synth right");
  g_assert_nonnull (rw_line_view_cell (view, view->row, 0));
  hand_end (&hand);
}

/* A change of a cell that says where the line goes leaves the line where it stands, and the hand in it. */
static void
test_stays (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "A\tStage left\t1\tFOH\t1\t1\nB\tStage left\t2\tFOH\t2\t2\nC\tStage left\t3\tFOH\t3\t3\n");
  rw_line_view_set_with_free (view, FALSE);
  rw_line_view_choose (view, 0, 2, FALSE);
  lines_type (&hand, "999", GDK_KEY_Tab);
  g_assert_cmpint (view->row, ==, 0);
  g_assert_cmpint (view->column, ==, 3);
  lines_assert_column (view, RW_LINE_NAME, 0, 3, "A|B|C");
  lines_assert_column (view, RW_LINE_SOCKET, 0, 3, "999|2|3");
  g_assert_true (rw_document_undo (hand.window->document));
  lines_assert_column (view, RW_LINE_NAME, 0, 3, "A|B|C");
  lines_assert_column (view, RW_LINE_SOCKET, 0, 3, "1|2|3");
  /* two that change places: what is seen is what was pasted */
  rw_line_view_choose (view, 0, 2, FALSE);
  rw_line_view_paste_text (view, "2\n1\n");
  lines_assert_column (view, RW_LINE_SOCKET, 0, 3, "2|1|3");
  /* a line that is only named has nothing but its send to be known by */
  rw_line_view_choose (view, 0, 3, FALSE);
  rw_line_view_choose (view, 2, 5, TRUE);
  rw_line_view_empty_cells (view);
  g_assert_cmpuint (lines_n_patched (&hand), ==, 0);
  rw_line_view_choose (view, 1, 2, FALSE);
  lines_type (&hand, "16", GDK_KEY_Return);
  lines_assert_column (view, RW_LINE_NAME, 0, 3, "A|B|C");
  lines_assert_column (view, RW_LINE_SOCKET, 0, 3, "2|16|3");
  g_assert_cmpint (view->row, ==, 2);
  hand_end (&hand);
}

/* So it is in a list that is sorted; the next click on a heading sorts anew. */
static void
test_sorted (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autoptr (GtkColumnViewColumn) name = g_list_model_get_item (gtk_column_view_get_columns (GTK_COLUMN_VIEW (view->list)), 1);

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "C\tStage left\t1\nA\tStage left\t2\nB\tStage left\t3\n");
  rw_line_view_set_with_free (view, FALSE);
  rw_line_view_choose (view, 1, 0, FALSE);
  gtk_column_view_sort_by_column (GTK_COLUMN_VIEW (view->list), name, GTK_SORT_ASCENDING);
  lines_assert_column (view, RW_LINE_NAME, 0, 3, "A|B|C");
  g_assert_cmpint (view->row, ==, 0);
  rw_line_view_choose (view, 1, 2, FALSE);
  lines_type (&hand, "9", GDK_KEY_Tab);
  lines_type (&hand, "FOH", GDK_KEY_Tab);
  rw_line_view_choose (view, 1, 0, FALSE);
  lines_type (&hand, "Z", GDK_KEY_Tab);
  lines_assert_column (view, RW_LINE_NAME, 0, 3, "A|Z|C");
  lines_assert_column (view, RW_LINE_SOCKET, 0, 3, "2|9|1");
  gtk_column_view_sort_by_column (GTK_COLUMN_VIEW (view->list), name, GTK_SORT_DESCENDING);
  lines_assert_column (view, RW_LINE_NAME, 0, 3, "Z|C|A");
  g_assert_cmpint (view->row, ==, 0);
  g_assert_cmpint (view->column, ==, 1);
  hand_end (&hand);
}

/* Lines that are pasted below the last one stand there, chosen and in sight. */
static void
test_pasted (void)
{
  Hand hand;
  RwLineView *view = begin_demo (&hand);
  int n;

  rw_line_view_set_with_free (view, FALSE);
  n = (int) rw_line_view_n_rows (view);
  rw_line_view_choose (view, n - 1, 0, FALSE);
  rw_line_view_paste_text (view, "Last\nNew 1\tStage left 1\t5\tFOH desk\t88\t88\nNew 2\tDrum riser\t99\n");
  hand_settle ();
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  lines_assert_column (view, RW_LINE_NAME, (guint) n - 1, 3, "Last|New 1|New 2");
  g_assert_cmpint (rw_line_view_range (view).top, ==, n - 1);
  g_assert_cmpint (rw_line_view_range (view).bottom, ==, n + 1);
  g_assert_cmpint (view->row, ==, n - 1);
  g_assert_nonnull (rw_line_view_cell (view, n + 1, 0));
  lines_assert_seen (view);
  /* opened again, the list has the rig's own order */
  g_object_set (hand.window, "lines-shown", FALSE, NULL);
  g_object_set (hand.window, "lines-shown", TRUE, NULL);
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, (guint) n + 2);
  lines_assert_column (view, RW_LINE_NAME, (guint) n + 1, 1, "Last");
  hand_end (&hand);
}

/* Many rows that go while their end is looked at leave none behind. */
static void
test_undone_at_end (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autoptr (GString) table = g_string_new (NULL);

  for (guint i = 1; i <= 500; i++)
    g_string_append_printf (table, "Line %u\tStage right\t%u\tFOH\t%u\t%u\n", i, i, i, i);
  rw_line_view_choose (view, 31, 0, FALSE);
  rw_line_view_paste_text (view, table->str);
  hand_settle ();
  go_to_end (&hand);
  g_assert_true (rw_document_undo (hand.window->document));
  hand_settle ();
  lines_assert_seen (view);
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 32);
  hand_end (&hand);
}

/* The row below the last line is for a new one: it is made when the hand leaves the row, and counts for nothing before. */
static void
test_blank (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *csv = NULL;

  rw_line_view_set_with_free (view, FALSE);
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 0);
  rw_line_view_focus (view);
  g_assert_cmpint (view->row, ==, 0);
  lines_type (&hand, "Vox", GDK_KEY_Tab);
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 0);
  csv = rw_line_view_csv_text (view);
  g_assert_null (strstr (csv, "Vox"));
  g_assert_false (rw_document_is_dirty (hand.window->document));
  lines_type (&hand, "Stage left", GDK_KEY_Tab);
  lines_type (&hand, "7", GDK_KEY_Tab);
  lines_type (&hand, "FOH", GDK_KEY_Tab);
  lines_type (&hand, "7", GDK_KEY_Tab);
  g_assert_cmpuint (lines_n_patched (&hand), ==, 0);
  lines_type (&hand, "9", GDK_KEY_Return);
  g_assert_cmpuint (lines_n_patched (&hand), ==, 1);
  lines_assert_cells (view, 0, "Vox|Stage left|7|FOH|7|9");
  lines_assert_cells (view, 1, "|||||");
  g_assert_cmpint (view->row, ==, 1);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 0);
  hand_end (&hand);
}

/* A list that is disposed of twice, as GTK may, with something in its blank row. */
static void
test_blank_gone (void)
{
  GtkWidget *view;

  view = g_object_ref_sink (rw_line_view_new ());
  rw_line_view_set_blank (RW_LINE_VIEW (view), RW_LINE_NAME, "Vox");
  g_object_run_dispose (G_OBJECT (view));
  g_object_run_dispose (G_OBJECT (view));
  g_assert_finalize_object (view);
}

/* What cannot be a line stays there and is told; what is wrong in itself stays open. */
static void
test_blank_unfinished (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 32, 0, FALSE);
  lines_type (&hand, "Vox", GDK_KEY_Return);
  lines_assert_cells (view, 32, "Vox|||||");
  g_assert_cmpstr (rw_line_view_get_remark (view), ==,
                   "The new row is no line yet: Name “Vox” says neither a device nor a console");
  rw_line_view_choose (view, 32, 1, FALSE);
  lines_type (&hand, "Attic", GDK_KEY_Return);
  g_assert_true (view->typing);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "Row 33, From device: “Attic” is no device’s name");
  lines_key (&hand, GDK_KEY_Escape, 0);
  /* it is filled, pasted over and emptied by itself only */
  rw_line_view_choose (view, 31, 0, FALSE);
  rw_line_view_choose (view, 32, 0, TRUE);
  rw_line_view_paste_text (view, "Drum");
  lines_assert_column (view, RW_LINE_NAME, 31, 2, "Drum|Vox");
  rw_line_view_fill_to (view, 32);
  lines_assert_column (view, RW_LINE_NAME, 31, 2, "Drum|Vox");
  rw_line_view_choose (view, 32, 1, FALSE);
  rw_line_view_paste_text (view, "Stage right\t16\tFOH\t5\t6\n");
  g_assert_cmpuint (lines_n_patched (&hand), ==, 1);
  g_assert_cmpint (rw_line_view_get_line (view)->strip, ==, 6);
  rw_line_view_choose (view, (int) rw_line_view_n_rows (view), 0, FALSE);
  lines_type (&hand, "Bass", GDK_KEY_Tab);
  lines_key (&hand, GDK_KEY_Escape, 0);
  g_assert_false (rw_line_view_has_blank (view));
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (view)));
  hand_end (&hand);
}

/* In a list that is kept to a device, a new line is one of that device; one that is not is told. */
static void
test_blank_filtered (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_set_with_free (view, FALSE);
  hand_select (&hand, "left");
  rw_line_view_choose (view, 0, 0, FALSE);
  lines_type (&hand, "Vox", GDK_KEY_Return);
  lines_assert_cells (view, 0, "Vox|Stage left|1|||");
  rw_line_view_choose (view, 1, 0, FALSE);
  rw_line_view_paste_text (view, "Bass\tStage right\t4\tFOH\t4\t4\n");
  g_assert_cmpuint (lines_n_patched (&hand), ==, 1);
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 1);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==,
                   "1 new line is not shown: it does not fit what the list is kept to");
  /* its name may be another's, too */
  hand_open_text (&hand, "rack left id=1 name=Stage at=[20,60]\nrack right id=2 name=Stage at=[110,60]\n");
  hand_select (&hand, "right");
  rw_line_view_choose (view, (int) rw_line_view_n_rows (view), 0, FALSE);
  lines_type (&hand, "Vox", GDK_KEY_Return);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  g_assert_cmpstr (rw_item_key (rw_line_view_line_at (view, 0)->stage), ==, "right");
  hand_end (&hand);
}

/* A source goes to one more desk by a few keys. */
static void
test_duplicate (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  hand_open_text (&hand, "console desk ctrl=1 name=FOH at=[20,60]\nconsole mon ctrl=2 name=Monitors at=[20,120]\n"
                         "rack left id=1 name='Stage left' at=[110,60]\n");
  rw_line_view_set_with_free (view, FALSE);
  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Vox\tStage left\t3\tFOH\t3\t3\n");
  lines_key (&hand, GDK_KEY_D, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  g_assert_cmpint (view->row, ==, 1);
  lines_assert_cells (view, 1, "|Stage left|3|||");
  lines_type (&hand, "Monitors", GDK_KEY_Return);
  g_assert_cmpuint (lines_n_patched (&hand), ==, 2);
  lines_assert_cells (view, 1, "Vox|Stage left|3|Monitors|1|");
  /* by the menu, too */
  rw_line_view_choose (view, 0, 0, FALSE);
  lines_key (&hand, GDK_KEY_Menu, 0);
  g_assert_true (gtk_widget_get_visible (view->menu));
  g_assert_true (hand_says (view->menu, "Duplicate line"));
  gtk_popover_popdown (GTK_POPOVER (view->menu));
  hand_settle ();
  g_assert_true (rw_line_view_has_keyboard (view));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (view), "lines.duplicate", NULL));
  lines_assert_cells (view, 2, "|Stage left|3|||");
  lines_type (&hand, "FOH", GDK_KEY_Return);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "The new row is no line yet: there is one that says the same");
  lines_key (&hand, GDK_KEY_Escape, 0);
  /* an output: one more device on the same bus */
  rw_line_view_set_side (view, RW_LINE_OUTPUT);
  rw_line_view_choose (view, (int) rw_line_view_n_rows (view), 0, FALSE);
  rw_line_view_paste_text (view, "Wedge\tFOH\t2\t2\tStage left\t1\n");
  rw_line_view_duplicate (view);
  lines_type (&hand, "Stage left", GDK_KEY_Return);
  lines_assert_cells (view, 1, "Wedge|Stage left|2|FOH|2|2");
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/lines-rows/short-at-end", test_short_at_end);
  g_test_add_func ("/window/lines-rows/stays", test_stays);
  g_test_add_func ("/window/lines-rows/sorted", test_sorted);
  g_test_add_func ("/window/lines-rows/pasted", test_pasted);
  g_test_add_func ("/window/lines-rows/undone-at-end", test_undone_at_end);
  g_test_add_func ("/window/lines-rows/blank", test_blank);
  g_test_add_func ("/window/lines-rows/blank-gone", test_blank_gone);
  g_test_add_func ("/window/lines-rows/blank-unfinished", test_blank_unfinished);
  g_test_add_func ("/window/lines-rows/blank-filtered", test_blank_filtered);
  g_test_add_func ("/window/lines-rows/duplicate", test_duplicate);
  return g_test_run ();
}
