/* SPDX-License-Identifier: MIT */
/* The keyboard and the pointer in the line list beside its cells: what they do never reaches the sheet. */
#include "lines-hand.h"

#include <string.h>

static void
assert_sheet_is_whole (Hand *hand)
{
  g_assert_cmpuint (rw_rig_n (rw_document_rig (hand->window->document), RW_ITEM_DEVICE), ==, 3);
  g_assert_null (rw_history_undo_name (rw_document_history (hand->window->document)));
}

static const struct { guint keyval; GdkModifierType state; } sheet_keys[] = {
  { GDK_KEY_Delete, 0 },
  { GDK_KEY_x, GDK_CONTROL_MASK },
  { GDK_KEY_c, GDK_CONTROL_MASK },
  { GDK_KEY_d, GDK_CONTROL_MASK },
  { GDK_KEY_v, GDK_CONTROL_MASK },
};

/* With no cell chosen, from wherever in the panel. */
static void
test_no_cell (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  GtkWidget *places[] = { GTK_WIDGET (view), view->free_check, view->side_buttons[0] };

  hand_select (&hand, "left");
  for (guint place = 0; place < G_N_ELEMENTS (places); place++)
    for (guint i = 0; i < G_N_ELEMENTS (sheet_keys); i++)
      {
        rw_line_view_choose_none (view);
        g_assert_true (gtk_widget_grab_focus (places[place]));
        g_assert_true (hand_key (&hand, sheet_keys[i].keyval, sheet_keys[i].state));
        g_assert_cmpstr (rw_line_view_get_remark (view), ==, "Choose a cell first");
        assert_sheet_is_whole (&hand);
        g_assert_cmpuint (rw_selection_n (rw_document_selection (hand.window->document)), ==, 1);
      }
  g_assert_true (gtk_widget_grab_focus (view->free_check));
  g_assert_true (hand_key (&hand, GDK_KEY_a, GDK_CONTROL_MASK));
  g_assert_cmpint (rw_line_view_range (view).bottom, ==, 15);
  hand_end (&hand);
}

/* In the search field they are the field's, and with nothing in it nobody's: the cells that are chosen stay as they are. */
static void
test_search (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  hand_select (&hand, "left");
  rw_line_view_choose (view, 0, 0, FALSE);
  /* GTK 4.8 leaks what it began where there is no text to paste. */
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (view)), "");
  hand_press_on (gtk_widget_get_first_child (view->search));
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (hand.window)), view->search));
  for (guint i = 0; i < G_N_ELEMENTS (sheet_keys); i++)
    {
      g_assert_true (hand_key (&hand, sheet_keys[i].keyval, sheet_keys[i].state));
      g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (hand.window)), view->search));
      assert_sheet_is_whole (&hand);
    }
  hand_end (&hand);
}

/* A cell that was copied ends its line, which is nothing to look for. */
static void
test_search_copied (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  guint all = rw_line_view_n_rows (view), found;

  gtk_editable_set_text (GTK_EDITABLE (view->search), "Stage left");
  g_signal_emit_by_name (view->search, "search-changed");
  found = rw_line_view_n_rows (view);
  g_assert_cmpuint (found, <, all);
  gtk_editable_set_text (GTK_EDITABLE (view->search), "Stage left\n");
  g_signal_emit_by_name (view->search, "search-changed");
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, found);
  g_assert_cmpuint (found, >, 0);
  hand_end (&hand);
}

/* A click on a heading brings the keyboard from the sheet into the list, and so does the button that shows all lines. */
static void
test_click (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  GtkWidget *heading = gtk_widget_get_first_child (gtk_widget_get_first_child (view->list));

  hand_select (&hand, "left");
  gtk_widget_grab_focus (GTK_WIDGET (hand.window->canvas));
  hand_press_on (heading);
  g_assert_true (gtk_widget_is_focus (GTK_WIDGET (view)));
  g_assert_true (hand_key (&hand, GDK_KEY_Delete, 0));
  assert_sheet_is_whole (&hand);
  hand_click ("All lines");
  g_assert_true (gtk_widget_is_focus (GTK_WIDGET (view)));
  g_assert_true (hand_key (&hand, GDK_KEY_Down, 0));
  g_assert_nonnull (rw_line_view_get_line (view));
  hand_end (&hand);
}

/* A part after the other by its name; the key chooses what the field holds, it does not make it overwrite. */
static void
test_insert_again (void)
{
  Hand hand;
  GtkWidget *search;
  GtkText *text;
  int start, end;

  lines_begin (&hand);
  search = rw_shelf_get_search (hand.window->shelf);
  gtk_widget_grab_focus (GTK_WIDGET (hand.window->canvas));
  g_assert_true (hand_key (&hand, GDK_KEY_Insert, 0));
  gtk_editable_set_text (GTK_EDITABLE (search), "console 64");
  gtk_editable_set_position (GTK_EDITABLE (search), -1);
  g_signal_emit_by_name (search, "activate");
  text = GTK_TEXT (gtk_root_get_focus (GTK_ROOT (hand.window)));
  g_assert_true (hand_key (&hand, GDK_KEY_Insert, 0));
  g_assert_true (gtk_editable_get_selection_bounds (GTK_EDITABLE (search), &start, &end));
  g_assert_cmpint (end - start, ==, (int) strlen ("console 64"));
  g_assert_false (gtk_text_get_overwrite_mode (text));
  hand_end (&hand);
}

/* A table or a web address on the clipboard is no fault of a file: the sheet says plainly what it misses. */
static void
test_paste_on_sheet (void)
{
  Hand hand;

  lines_begin (&hand);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (hand.window)), "Kick\tStage left\t1\n");
  gtk_widget_grab_focus (GTK_WIDGET (hand.window->canvas));
  g_assert_true (hand_key (&hand, GDK_KEY_v, GDK_CONTROL_MASK));
  g_assert_true (hand_says (GTK_WIDGET (hand.window), "The clipboard holds no devices"));
  g_assert_false (hand_says (GTK_WIDGET (hand.window), "The clipboard holds no devices:"));
  hand_end (&hand);
}

/* The keys of two lenses are the cell's while one is chosen. */
static void
test_lens_keys (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *lens = NULL;
  g_auto (GStrv) accels = NULL;

  rw_line_view_choose (view, 0, 1, FALSE);
  hand_settle ();
  g_assert_true (hand_key (&hand, GDK_KEY_F2, 0));
  g_assert_true (view->typing);
  g_assert_true (hand_key (&hand, GDK_KEY_Escape, 0));
  g_assert_true (hand_key (&hand, GDK_KEY_F4, 0));
  g_assert_nonnull (view->choices);
  gtk_popover_popdown (GTK_POPOVER (view->choices));
  hand_settle ();
  g_object_get (hand.window, "lens", &lens, NULL);
  g_assert_cmpstr (lens, ==, "wiring");
  accels = gtk_application_get_accels_for_action (GTK_APPLICATION (hand.application), "win.lens::wiring");
  g_assert_null (accels[0]); /* those come before the focus */
  gtk_widget_grab_focus (GTK_WIDGET (hand.window->canvas));
  g_assert_true (hand_key (&hand, GDK_KEY_F4, 0));
  g_clear_pointer (&lens, g_free);
  g_object_get (hand.window, "lens", &lens, NULL);
  g_assert_cmpstr (lens, ==, "hops");
  hand_end (&hand);
}

/* The keypad's keys lead where the others do. */
static void
test_keypad (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 1, 3, FALSE);
  lines_key (&hand, GDK_KEY_KP_Home, 0);
  g_assert_cmpint (view->column, ==, 0);
  lines_key (&hand, GDK_KEY_KP_End, GDK_CONTROL_MASK);
  g_assert_cmpint (view->column, ==, (int) view->n_columns - 1);
  g_assert_cmpint (view->row, ==, (int) rw_line_view_n_rows (view) - 1);
  lines_key (&hand, GDK_KEY_KP_Page_Up, 0);
  g_assert_cmpint (view->row, ==, (int) rw_line_view_n_rows (view) - 13);
  lines_key (&hand, GDK_KEY_KP_Page_Down, GDK_SHIFT_MASK);
  g_assert_cmpint (view->anchor_row, ==, (int) rw_line_view_n_rows (view) - 13);
  g_assert_cmpint (view->row, ==, (int) rw_line_view_n_rows (view) - 1);
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/lines-keys/no-cell", test_no_cell);
  g_test_add_func ("/window/lines-keys/search", test_search);
  g_test_add_func ("/window/lines-keys/search-copied", test_search_copied);
  g_test_add_func ("/window/lines-keys/click", test_click);
  g_test_add_func ("/window/lines-keys/insert-again", test_insert_again);
  g_test_add_func ("/window/lines-keys/paste-on-sheet", test_paste_on_sheet);
  g_test_add_func ("/window/lines-keys/lens-keys", test_lens_keys);
  g_test_add_func ("/window/lines-keys/keypad", test_keypad);
  return g_test_run ();
}
