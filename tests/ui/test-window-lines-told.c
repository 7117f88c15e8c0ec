/* SPDX-License-Identifier: MIT */
/* Cells of the line list that were not taken: each can be read, copied and gone to. */
#include "lines-hand.h"
#include "rig-builder.h"

#include <ui/rw-remark-list.h>

#include <string.h>

static const char stage[] = "console desk ctrl=1 name=FOH at=[20,60]\n"
                            "rack left id=1 name='Stage left' at=[110,60]\n"
                            "desk.s-left.p length_m=20\n";

/* The window that lists all cells which were not taken; NULL = it is not open. */
static RwRemarkList *
open_list (RwLineView *view)
{
  return view->problems_window != NULL ? RW_REMARK_LIST (gtk_window_get_child (GTK_WINDOW (view->problems_window))) : NULL;
}

/* A row that stays where it is names all that was not taken of it; what the foot cannot hold is a button away. */
static void
test_not_taken (void)
{
  Hand hand;
  RwLineView *view = lines_begin_text (&hand, stage);
  RwRemarkList *list;
  g_autofree char *chosen = NULL;

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Vox\tAttic\t2\n");
  g_assert_cmpstr (rw_line_view_get_remark (view), ==,
                   "Row 1, From device: “Attic” is no device’s name\n"
                   "Row 1, Send: “2” was not taken, since “From device” of its row was not");
  g_assert_null (hand_find_button ("Show all…"));
  rw_line_view_paste_text (view, "Bass\tAttic\t2\tLoft\t5\t6\nDrum\tStage left\t2\tLoft\n");
  g_assert_true (g_str_has_suffix (rw_line_view_get_remark (view), "\n6 cells were not taken"));
  hand_click ("Show all…");
  hand_settle ();
  list = open_list (view);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (view->problems_window)), ==, "6 cells were not taken");
  g_assert_cmpstr (rw_remark_list_get_text (list), ==,
                   "Row 1, From device: “Attic” is no device’s name\n"
                   "Row 1, Send: “2” was not taken, since “From device” of its row was not\n"
                   "Row 1, Console: “Loft” is no device’s name\n"
                   "Row 1, Receive: “5” was not taken, since “Console” of its row was not\n"
                   "Row 1, Strip: “6” was not taken, since “Console” of its row was not\n"
                   "Row 2, Console: “Loft” is no device’s name");
  chosen = rw_remark_list_chosen_text (list);
  g_assert_cmpstr (chosen, ==, rw_remark_list_get_text (list));
  /* going to one of them leaves the list of the others */
  g_signal_emit_by_name (list, "picked", 5u);
  hand_settle ();
  g_assert_cmpint (view->row, ==, 1);
  g_assert_cmpint (view->column, ==, 3);
  g_assert_true (open_list (view) == list);
  g_assert_true (g_str_has_suffix (rw_line_view_get_remark (view), "\n6 cells were not taken"));
  g_assert_true (rw_line_view_key (view, GDK_KEY_Escape, 0));
  hand_settle ();
  g_assert_null (view->problems_window);
  hand_end (&hand);
}

static void
type_and_enter (RwLineView *view, int row, int column, const char *text)
{
  rw_line_view_choose (view, row, column, FALSE);
  rw_line_view_begin_typing (view, text);
  g_assert_true (rw_line_view_key (view, GDK_KEY_Return, 0));
  hand_settle ();
}

/* The text of the entry that is open in that cell; NULL = none is. */
static const char *
typed_text (RwLineView *view, int row, int column)
{
  RwLineCell *cell = rw_line_view_cell (view, row, column);

  return cell != NULL ? rw_line_cell_get_edited (cell) : NULL;
}

static void
leave_by_enter (Hand *hand)
{
  g_assert_true (rw_line_view_key (hand->window->lines, GDK_KEY_Return, 0));
}

static void
leave_by_tab (Hand *hand)
{
  g_assert_true (rw_line_view_key (hand->window->lines, GDK_KEY_Tab, 0));
}

/* As the mouse chooses another cell. */
static void
leave_by_choice (Hand *hand)
{
  rw_line_view_choose (hand->window->lines, 3, 0, FALSE);
}

static void
leave_by_focus (Hand *hand)
{
  gtk_widget_grab_focus (hand->window->lines->search);
}

/* A cell that is not understood stays open with its text and the reason, however it is left; Escape gives back what
 * stood in it, and what is then typed is taken. */
static void
test_refused (void)
{
  static const struct { int column; const char *text, *why, *good; void (*leave) (Hand *hand); } cases[] = {
    { 8, "200", "Row 1, Gain: “200” must be from -60 to 90", "20", leave_by_enter },
    { 9, "abc", "Row 1, High-pass: “abc” must be a number", "80", leave_by_tab },
    { 1, "Nowhere", "Row 1, From device: “Nowhere” is no device’s name", "Stage left", leave_by_choice },
    { 3, "cons", "Row 1, Console: “cons” is no device’s name", "FOH", leave_by_focus },
  };
  Hand hand;
  RwLineView *view = lines_begin_text (&hand, stage);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      rw_line_view_choose (view, 0, cases[i].column, FALSE);
      hand_settle ();
      rw_line_view_begin_typing (view, cases[i].text);
      cases[i].leave (&hand);
      hand_settle ();
      g_assert_cmpstr (typed_text (view, 0, cases[i].column), ==, cases[i].text);
      g_assert_true (gtk_widget_has_css_class (GTK_WIDGET (rw_line_view_cell (view, 0, cases[i].column)), "rw-refused"));
      g_assert_cmpstr (rw_line_view_get_remark (view), ==, cases[i].why);
      g_assert_cmpint (view->row, ==, 0);
      g_assert_cmpint (view->column, ==, cases[i].column);
      g_assert_true (rw_line_view_key (view, GDK_KEY_Escape, 0));
      hand_settle ();
      g_assert_null (typed_text (view, 0, cases[i].column));
      g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
      rw_line_view_begin_typing (view, cases[i].good);
      cases[i].leave (&hand);
      hand_settle ();
      g_assert_null (typed_text (view, 0, cases[i].column));
      g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
    }
  hand_end (&hand);
}

/* Choosing another cell does not take the remark away, and each of many cells that get the same has one. */
static void
test_short (void)
{
  Hand hand;
  RwLineView *view = lines_begin_text (&hand, stage);

  type_and_enter (view, 0, 0, "Vox");
  g_assert_cmpint (view->row, ==, 1);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  rw_line_view_choose (view, 0, 3, FALSE);
  rw_line_view_choose (view, 1, 3, TRUE);
  rw_line_view_paste_text (view, "Loft");
  g_assert_cmpstr (rw_line_view_get_remark (view), ==,
                   "Row 1, Console: “Loft” is no device’s name\nRow 2, Console: “Loft” is no device’s name");
  rw_line_view_choose (view, 4, 0, FALSE);
  g_assert_true (g_str_has_prefix (rw_line_view_get_remark (view), "Row 1, Console: “Loft”"));
  rw_line_view_set_side (view, RW_LINE_OUTPUT); /* these rows are not those that it tells of */
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  hand_end (&hand);
}

/* Rows that go on beyond what there is: the console has 64 receives, the racks 80 sends. */
static void
test_fill (void)
{
  Hand hand;
  RwLineView *view = lines_begin_text (&hand, stage);
  GString *racks = g_string_new ("console desk ctrl=1 name=FOH at=[20,60]\n");

  for (guint i = 1; i <= 5; i++)
    g_string_append_printf (racks, "rack r%u id=%u name='Rack %u' at=[110,%u]\n", i, i, i, 30 * i);
  hand_open_text (&hand, racks->str);
  rw_line_view_choose (view, 0, 5, FALSE);
  rw_line_view_type (view, "1");
  rw_line_view_fill_to (view, 79);
  hand_settle ();
  g_assert_cmpuint (rw_rig_n (rw_document_rig (hand.window->document), RW_ITEM_PATCH), ==, 64);
  g_assert_true (g_str_has_prefix (rw_line_view_get_remark (view),
                                   "Row 65, Strip: “65” needs a free channel of FOH, which has none left\n"));
  g_assert_true (g_str_has_suffix (rw_line_view_get_remark (view), "\n16 cells were not taken"));
  g_string_free (racks, TRUE);
  hand_end (&hand);
}

/* New lines that come to nothing, and columns for which there is no room: each is told, one does not hide the other. */
static void
test_left_out (void)
{
  Hand hand;
  RwLineView *view = lines_begin_text (&hand, stage);
  GString *table = g_string_new (NULL);

  rw_line_view_set_side (view, RW_LINE_OUTPUT);
  rw_line_view_choose (view, (int) rw_line_view_n_rows (view) - 1, 0, FALSE);
  for (guint i = 0; i < 4; i++)
    g_string_append (table, "Wedge\tAttic\t1\t2\t\t\tby the drums\tone too many\n");
  rw_line_view_paste_text (view, table->str);
  g_assert_true (g_str_has_prefix (rw_line_view_get_remark (view), "1 column does not fit beside the last one"));
  hand_click ("Show all…");
  hand_settle ();
  g_assert_nonnull (strstr (rw_remark_list_get_text (open_list (view)),
                            "is left out with its 5 cells: From device “Attic” is no device’s name"));
  /* the first is of a line that there is: its name and its notes are taken, where it goes stays, the emptied cells too */
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (view->problems_window)), ==, "20 cells were not taken");
  g_signal_emit_by_name (open_list (view), "picked", 6u);
  g_assert_cmpstr (rw_remark_list_get_title (open_list (view)), ==, "The list does not show that line");
  g_string_free (table, TRUE);
  hand_end (&hand);
}

/* An edit that is undone has nothing more to tell, and another rig takes the window away. */
static void
test_report_ends (void)
{
  Hand hand;
  RwLineView *view = lines_begin_text (&hand, stage);
  g_autoptr (RwRig) other = rw_test_rig (stage);

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Bass\tAttic\t2\tLoft\t5\t6\n");
  hand_click ("Show all…");
  hand_settle ();
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  g_assert_null (hand_find_button ("Show all…"));
  g_assert_nonnull (open_list (view));
  hand_open (&hand, other);
  hand_settle ();
  g_assert_null (view->problems_window);
  hand_end (&hand);
}

/* Remarks name rows by their number: the list shows it, whatever it is sorted by, and exports it not. */
static void
test_row_numbers (void)
{
  Hand hand;
  RwLineView *view = lines_begin_text (&hand, stage);
  GListModel *columns = gtk_column_view_get_columns (GTK_COLUMN_VIEW (view->list));
  g_autoptr (GtkColumnViewColumn) numbers = g_list_model_get_item (columns, 0);
  g_autofree char *csv = rw_line_view_csv_text (view);
  g_autofree char *copied = NULL;

  hand_settle ();
  g_assert_cmpstr (gtk_column_view_column_get_title (numbers), ==, "Row");
  g_assert_null (gtk_column_view_column_get_sorter (numbers));
  g_assert_cmpuint (g_list_model_get_n_items (columns), ==, view->n_columns + 1);
  g_assert_true (hand_says (view->list, "3"));
  g_assert_true (g_str_has_prefix (csv, "Name,"));
  g_assert_true (g_str_has_suffix (csv, "\r\n")); /* RFC 4180; a clipboard's rows end in LF alone */
  rw_line_view_choose (view, 0, 1, FALSE);
  copied = rw_line_view_copy_text (view);
  g_assert_cmpstr (copied, ==, "Stage left\n");
  hand_end (&hand);
}

/* An empty list says what to do. */
static void
test_hint (void)
{
  Hand hand;
  RwLineView *view = lines_begin_text (&hand, stage);

  g_assert_false (gtk_widget_get_visible (view->hint));
  rw_line_view_set_with_free (view, FALSE);
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (view->hint)), ==, "Tick “Free sockets” to see what can be patched");
  rw_document_select_all (hand.window->document);
  g_assert_true (rw_document_delete_selected (hand.window->document));
  hand_settle ();
  g_assert_true (gtk_widget_get_visible (view->hint));
  g_assert_true (g_str_has_prefix (gtk_label_get_text (GTK_LABEL (view->hint)), "Put a console and a rack on the sheet first"));
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/lines-told/not-taken", test_not_taken);
  g_test_add_func ("/window/lines-told/refused", test_refused);
  g_test_add_func ("/window/lines-told/short", test_short);
  g_test_add_func ("/window/lines-told/fill", test_fill);
  g_test_add_func ("/window/lines-told/left-out", test_left_out);
  g_test_add_func ("/window/lines-told/report-ends", test_report_ends);
  g_test_add_func ("/window/lines-told/row-numbers", test_row_numbers);
  g_test_add_func ("/window/lines-told/hint", test_hint);
  return g_test_run ();
}
