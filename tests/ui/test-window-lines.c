/* SPDX-License-Identifier: MIT */
/* The line list as a person works with it. */
#include "lines-hand.h"
#include "rig-builder.h"

#include <ui/rw-canvas-private.h>
#include <ui/rw-import-dialog.h>

#include <string.h>

/* Free sends stand in the list; typing a strip patches one through both layers. */
static void
test_type (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 32);
  rw_line_view_choose (view, 1, 5, FALSE);
  lines_key (&hand, GDK_KEY_9, 0);
  lines_key (&hand, GDK_KEY_Return, 0);
  lines_assert_cells (view, 1, "|Stage left|2|FOH|1|9");
  g_assert_cmpint (lines_n_patched (&hand), ==, 1);
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 32);
  /* Enter went one row down */
  g_assert_cmpint (rw_line_view_get_line (view)->socket, ==, 3);
  rw_line_view_type (view, "nine");
  g_assert_nonnull (strstr (rw_line_view_get_remark (view), "nine"));
  g_assert_true (rw_document_undo (hand.window->document));
  lines_assert_cells (view, 1, "|Stage left|2|||");
  hand_end (&hand);
}

/* 16 lines patched in a row by one gesture. */
static void
test_fill_down (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Vox 1\tStage left\t1\tFOH\t1\t17\n");
  rw_line_view_choose (view, 15, 5, TRUE);
  lines_key (&hand, GDK_KEY_d, GDK_CONTROL_MASK);
  g_assert_cmpint (lines_n_patched (&hand), ==, 16);
  lines_assert_cells (view, 15, "Vox 16|Stage left|16|FOH|16|32");
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpint (lines_n_patched (&hand), ==, 1);
  hand_end (&hand);
}

/* 500 rows from a spreadsheet, undone and done again; copied out they are what came in. */
static void
test_paste (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autoptr (GString) table = g_string_new (NULL);
  g_autofree char *copied = NULL;

  for (guint i = 1; i <= 500; i++)
    g_string_append_printf (table, "\"Line \"\"%u\"\"\"\tStage right\t%u\tFOH\t%u\t%u\t\t\t\t\t\tby the tent\n", i, i, i, i);
  rw_line_view_set_with_free (view, FALSE);
  rw_line_view_set_with_free (view, TRUE);
  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, table->str);
  g_assert_cmpint (lines_n_patched (&hand), ==, 500);
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpint (lines_n_patched (&hand), ==, 0);
  g_assert_true (rw_document_redo (hand.window->document));
  g_assert_cmpint (lines_n_patched (&hand), ==, 500);
  rw_line_view_set_with_free (view, FALSE);
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 500);
  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_choose (view, 499, 11, TRUE);
  copied = rw_line_view_copy_text (view);
  g_assert_cmpstr (copied, ==, table->str);
  hand_end (&hand);
}

/* An empty cell among those that are pasted is one: it empties its target and moves no other. */
static void
test_paste_empty (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *column = NULL;
  g_autofree char *cell = NULL;

  rw_line_view_choose (view, 0, RW_LINE_PHANTOM, FALSE);
  rw_line_view_paste_text (view, "\nyes\nyes\n");
  lines_assert_column (view, RW_LINE_PHANTOM, 0, 4, "|yes|yes|");
  rw_line_view_choose (view, 2, RW_LINE_PHANTOM, TRUE);
  column = rw_line_view_copy_text (view);
  rw_line_view_choose (view, 2, RW_LINE_PHANTOM, FALSE);
  rw_line_view_paste_text (view, column);
  lines_assert_column (view, RW_LINE_PHANTOM, 0, 6, "|yes||yes|yes|");
  rw_line_view_choose (view, 0, RW_LINE_NAME, FALSE);
  rw_line_view_paste_text (view, "K1\n\nK3");
  lines_assert_column (view, RW_LINE_NAME, 0, 4, "K1||K3|");
  /* one empty cell goes into all that are chosen */
  rw_line_view_choose (view, 1, RW_LINE_NAME, FALSE);
  cell = rw_line_view_copy_text (view);
  rw_line_view_choose (view, 0, RW_LINE_NAME, FALSE);
  rw_line_view_choose (view, 2, RW_LINE_NAME, TRUE);
  rw_line_view_paste_text (view, cell);
  lines_assert_column (view, RW_LINE_NAME, 0, 3, "||");
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  hand_end (&hand);
}

/* A row's whole way is lit on the sheet, and one key gives the sheet back. */
static void
test_way (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  RwCanvas *canvas = hand.window->canvas;

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Vox\tStage right\t1\tFOH\t1\t1\n");
  hand_select (&hand, "right");
  rw_line_view_choose (view, 0, 0, FALSE);
  /* the desk, the rack between and the rack itself; both cables */
  g_assert_nonnull (canvas->way_devices);
  g_assert_cmpuint (canvas->way_devices->len, ==, 3);
  g_assert_cmpuint (canvas->way_cables->len, ==, 2);
  lines_key (&hand, GDK_KEY_Escape, 0);
  g_assert_null (canvas->way_devices);
  g_assert_true (gtk_widget_is_focus (GTK_WIDGET (canvas)));
  hand_end (&hand);
}

/* Free sockets are listed from the start where nothing is patched yet, and only there; who says so has them. */
static void
test_free (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 32);
  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Vox\tStage right\t1\tFOH\t1\t1\n");
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 32); /* not from under the hand */
  lines_key (&hand, GDK_KEY_Escape, 0);
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (view)));
  g_object_set (hand.window, "lines-shown", TRUE, NULL);
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 1);
  g_assert_false (gtk_check_button_get_active (GTK_CHECK_BUTTON (view->free_check)));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (view->free_check), TRUE);
  hand_settle ();
  g_object_set (hand.window, "lines-shown", FALSE, NULL);
  g_object_set (hand.window, "lines-shown", TRUE, NULL);
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 32);
  hand_end (&hand);
}

static int
position (GtkWidget *paned)
{
  return gtk_paned_get_position (GTK_PANED (paned));
}

/* Closed and opened again, the list has its height, and closed, the panels beside the sheet have theirs. */
static void
test_splitters (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  RwWindow *window = hand.window;
  int beside, below = 0;

  g_object_set (window, "lines-shown", FALSE, NULL);
  hand_settle ();
  gtk_paned_set_position (GTK_PANED (window->findings_paned), 430);
  hand_settle ();
  beside = position (window->findings_paned);
  for (guint i = 0; i < 4; i++)
    {
      g_object_set (window, "lines-shown", TRUE, NULL);
      hand_settle ();
      if (i == 0)
        gtk_paned_set_position (GTK_PANED (window->lines_paned), position (window->lines_paned) + 40);
      hand_settle ();
      if (i == 0)
        below = position (window->lines_paned);
      g_assert_cmpint (position (window->lines_paned), ==, below);
      g_object_set (window, "lines-shown", FALSE, NULL);
      hand_settle ();
      g_assert_cmpint (ABS (position (window->findings_paned) - beside), <=, 1);
    }
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (view)));
  hand_end (&hand);
}

/* A height from a higher window leaves the sheet in sight in this one. */
static void
test_low_window (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  RwWindow *window = hand.window;
  int usual = position (window->lines_paned);

  for (int less = 0; less < 2; less++)
    {
      g_object_set (window, "lines-shown", FALSE, NULL);
      hand_settle ();
      window->lines_height = gtk_widget_get_height (window->lines_paned) + 300 * (1 - less) - 20 * less;
      g_object_set (window, "lines-shown", TRUE, NULL);
      hand_settle ();
      g_assert_cmpint (ABS (position (window->lines_paned) - usual), <=, 1);
    }
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (view)));
  hand_end (&hand);
}

/* Devices selected on the sheet keep the list to their lines. */
static void
test_filter (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  hand_select (&hand, "left");
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 16);
  lines_assert_cells (view, 0, "|Stage left|1|||");
  hand_click ("All lines");
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 32);
  rw_line_view_set_side (view, RW_LINE_OUTPUT);
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 16);
  hand_end (&hand);
}

static void
test_delete (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Vox\tStage left\t1\tFOH\t1\t1\nKick\tStage left\t2\tFOH\t2\t2\n");
  rw_line_view_choose (view, 0, 0, FALSE);
  lines_key (&hand, GDK_KEY_Delete, 0);
  lines_assert_cells (view, 0, "|Stage left|1|FOH|1|1");
  rw_line_view_choose (view, 1, 0, TRUE);
  lines_key (&hand, GDK_KEY_Delete, GDK_CONTROL_MASK);
  g_assert_cmpint (lines_n_patched (&hand), ==, 0);
  lines_assert_cells (view, 1, "Kick|Stage left|2|||");
  hand_end (&hand);
}

/* The caution stands where phantom power is switched. */
static void
test_phantom (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *on = NULL;
  g_autofree char *off = NULL;

  rw_line_view_choose (view, 0, RW_LINE_PHANTOM, FALSE);
  g_assert_nonnull (strstr (rw_line_view_get_remark (view), "mute first"));
  lines_key (&hand, GDK_KEY_space, 0);
  on = rw_line_view_get_text (view, 0, RW_LINE_PHANTOM);
  g_assert_cmpstr (on, ==, "yes");
  lines_key (&hand, GDK_KEY_space, 0);
  off = rw_line_view_get_text (view, 0, RW_LINE_PHANTOM);
  g_assert_cmpstr (off, ==, "");
  rw_line_view_choose (view, 0, 0, FALSE);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  /* pasted rows reach beyond what is chosen; it stays until the next change */
  rw_line_view_paste_text (view, "Vox\tStage left\t1\tFOH\t1\t1\tCondenser microphone\tyes\n");
  g_assert_nonnull (strstr (rw_line_view_get_remark (view), "mute first"));
  rw_line_view_choose (view, 1, 0, FALSE);
  g_assert_nonnull (strstr (rw_line_view_get_remark (view), "mute first"));
  rw_line_view_paste_text (view, "Bass\tStage left\t2\tFOH\t2\t2\tLine\tno\n");
  rw_line_view_choose (view, 1, 0, FALSE);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "");
  hand_end (&hand);
}

/* The handle at the corner of what is chosen: rows go on as they begin, in one step, and are chosen then. */
static void
test_fill_to (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Tom 1\tStage left\t1\tFOH\t1\t2\nTom 2\tStage left\t2\tFOH\t2\t4\n");
  rw_line_view_choose (view, 1, 5, TRUE);
  rw_line_view_fill_to (view, 7);
  g_assert_cmpint (lines_n_patched (&hand), ==, 8);
  lines_assert_cells (view, 7, "Tom 8|Stage left|8|FOH|8|16");
  g_assert_cmpint (rw_line_view_range (view).top, ==, 0);
  g_assert_cmpint (rw_line_view_range (view).bottom, ==, 7);
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpint (lines_n_patched (&hand), ==, 2);
  hand_end (&hand);
}

static RwLineCellSpot
corner_spot (RwLineView *view, int row, int column)
{
  GtkWidget *cell = GTK_WIDGET (rw_line_view_cell (view, row, column));

  return rw_line_cell_get_spot (RW_LINE_CELL (cell), gtk_widget_get_width (cell) - 2, gtk_widget_get_height (cell) - 2);
}

/* Dragging by the handle marks the rows that would be filled; Escape lets them be. */
static void
test_handle (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 1, FALSE);
  rw_line_view_choose (view, 1, 2, TRUE);
  hand_settle ();
  g_assert_cmpint (corner_spot (view, 1, 2), ==, RW_LINE_CELL_HANDLE);
  g_assert_cmpint (corner_spot (view, 0, 2), ==, RW_LINE_CELL_PLAIN);
  g_assert_cmpint (corner_spot (view, 1, 1), ==, RW_LINE_CELL_PLAIN);
  view->filling = TRUE;
  view->fill_to = 3;
  g_assert_cmpuint (rw_line_view_cell_state (view, 3, 2), ==, RW_LINE_CELL_IN_FILL);
  g_assert_cmpuint (rw_line_view_cell_state (view, 4, 2), ==, 0);
  g_assert_cmpuint (rw_line_view_cell_state (view, 3, 3), ==, 0);
  lines_key (&hand, GDK_KEY_Escape, 0);
  g_assert_false (view->filling);
  g_assert_cmpuint (rw_line_view_cell_state (view, 3, 2), ==, 0);
  g_assert_false (rw_document_is_dirty (hand.window->document));
  hand_end (&hand);
}

/* What is picked from the list goes into all chosen lines, and so does phantom power. */
static void
test_sources (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 6, FALSE);
  rw_line_view_choose (view, 2, 6, TRUE);
  hand_settle ();
  g_assert_false (rw_line_view_pick (view, 1));
  lines_key (&hand, GDK_KEY_F4, 0);
  g_assert_true (rw_line_view_pick (view, 1 + RW_SOURCE_RIBBON));
  hand_settle ();
  for (guint row = 0; row < 4; row++)
    {
      g_autofree char *text = rw_line_view_get_text (view, row, RW_LINE_SOURCE);
      g_assert_cmpstr (text, ==, row < 3 ? "Ribbon microphone" : "");
    }
  lines_key (&hand, GDK_KEY_Down, GDK_ALT_MASK);
  g_assert_true (rw_line_view_pick (view, 0));
  g_assert_true (rw_document_undo (hand.window->document));
  rw_line_view_choose (view, 0, 7, FALSE);
  rw_line_view_choose (view, 1, 7, TRUE);
  lines_key (&hand, GDK_KEY_space, 0);
  g_assert_true (rw_line_row_get (rw_line_view_row (view, 0))->about->phantom);
  g_assert_true (rw_line_row_get (rw_line_view_row (view, 1))->about->phantom);
  g_assert_false (rw_line_row_get (rw_line_view_row (view, 2))->about->phantom);
  hand_end (&hand);
}

static char *
write_table (Hand *hand, const char *text)
{
  char *path = g_build_filename (hand->folder, "list.csv", NULL);

  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  return path;
}

/* An input list as a band sends it: its own headings, no racks, a column that is none of ours, a source nobody knows. */
static void
test_import (void)
{
  static const char table[] = "Ch;Instrument;Mic / DI;48V;Catering\n"
                              "1;Kick;dynamic;no;tea\n"
                              "2;Overhead;condenser;yes;\n"
                              "3;Harp;gut strings;;\n";
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *path = write_table (&hand, table);
  RwImportDialog *dialog;

  rw_window_lines_import (hand.window, path);
  dialog = RW_IMPORT_DIALOG (hand.window->import_dialog);
  hand_settle ();
  g_assert_true (hand_says (GTK_WIDGET (dialog), ": 3 rows, parted by semicolons"));
  g_assert_nonnull (strstr (rw_import_dialog_get_remarks (dialog), "Column 5, “Catering”, is not used"));
  g_assert_nonnull (strstr (rw_import_dialog_get_remarks (dialog), "Line 4: Source “gut strings”"));
  g_assert_true (hand_says (GTK_WIDGET (dialog), "mute first"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (rw_import_dialog_get_meaning (dialog, 3)), 0);
  g_assert_false (hand_says (GTK_WIDGET (dialog), "mute first"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (rw_import_dialog_get_meaning (dialog, 3)), 8);
  /* nothing is in the rig before it is taken */
  g_assert_cmpuint (rw_rig_n (rw_document_rig (hand.window->document), RW_ITEM_CHANNEL), ==, 0);
  rw_import_dialog_set_device (dialog, FALSE, "Stage left");
  /* what the fifth column means is corrected: it is the last in the list, the notes */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (rw_import_dialog_get_meaning (dialog, 4)), 12);
  g_assert_null (strstr (rw_import_dialog_get_remarks (dialog), "Catering"));
  rw_import_dialog_accept (dialog);
  hand_settle ();
  g_assert_nonnull (strstr (rw_line_view_get_remark (view), "mute first"));
  g_assert_null (hand.window->import_dialog);
  g_assert_true (hand_says (GTK_WIDGET (hand.window), "✓ 3 lines imported"));
  lines_assert_cells (view, 0, "Kick|Stage left|1|FOH|1|1");
  lines_assert_cells (view, 2, "Harp|Stage left|3|FOH|3|3");
  {
    g_autofree char *notes = rw_line_view_get_text (view, 0, RW_LINE_NOTES);
    g_autofree char *phantom = rw_line_view_get_text (view, 1, RW_LINE_PHANTOM);
    g_assert_cmpstr (notes, ==, "tea");
    g_assert_cmpstr (phantom, ==, "yes");
  }
  g_assert_true (rw_document_undo (hand.window->document));
  lines_assert_cells (view, 0, "|Stage left|1|||");
  hand_end (&hand);
}

/* What the rig has already is told, so that one knows why there is nothing to import. */
static void
test_import_again (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *path = write_table (&hand, "Name,From device,Send\nKick,Stage left,1\n");
  GtkWidget *dialog;

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_type (view, "Kick");
  rw_window_lines_import (hand.window, path);
  dialog = GTK_WIDGET (hand.window->import_dialog);
  hand_settle ();
  g_assert_true (hand_says (dialog, "All of it is in the rig already"));
  g_assert_false (gtk_widget_get_sensitive (hand_find_button ("Import")));
  gtk_window_close (GTK_WINDOW (dialog));
  hand_settle ();
  hand_end (&hand);
}

/* Two consoles: a list that names none must be told which is meant. */
static void
test_import_console (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *path = write_table (&hand, "Channel,Name\n5,Vox\n");
  g_autoptr (RwRig) rig = rw_test_rig ("console desk ctrl=1 name=FOH\nconsole mon name=Monitors at=[90,0]\n");
  RwImportDialog *dialog;

  hand_open (&hand, rig);
  rw_window_lines_import (hand.window, path);
  dialog = RW_IMPORT_DIALOG (hand.window->import_dialog);
  g_assert_nonnull (strstr (rw_import_dialog_get_remarks (dialog), "Line 2 is left out with its 2 cells: Strip “5”"));
  rw_import_dialog_set_device (dialog, TRUE, "Monitors");
  g_assert_cmpstr (rw_import_dialog_get_remarks (dialog), ==, "");
  rw_import_dialog_accept (dialog);
  lines_assert_cells (view, 0, "Vox|||Monitors||5");
  hand_end (&hand);
}

/* What is exported comes back whole. */
static void
test_round_trip (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *path = g_build_filename (hand.folder, "out.csv", NULL);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "\"Vox, \"\"lead\"\"\"\tStage left\t1\tFOH\t1\t1\tcondenser\tyes\t-12.5\t80\tRound\t\"two\nlines\"\n"
                                 "Bass\tStage right\t3\tFOH\t9\t12\tdi-active\n");
  rw_line_view_set_with_free (view, FALSE);
  first = rw_line_view_csv_text (view);
  rw_window_lines_export (hand.window, path);
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 0);
  rw_window_lines_import (hand.window, path);
  g_assert_cmpstr (rw_import_dialog_get_remarks (RW_IMPORT_DIALOG (hand.window->import_dialog)), ==, "");
  rw_import_dialog_accept (RW_IMPORT_DIALOG (hand.window->import_dialog));
  second = rw_line_view_csv_text (view);
  g_assert_cmpstr (first, ==, second);
  hand_end (&hand);
}

/* A file that is no table says so and opens nothing. */
static void
test_import_bad (void)
{
  Hand hand;
  g_autofree char *path = NULL;

  lines_begin (&hand);
  path = write_table (&hand, "a,b\n\"1,2\n");
  rw_window_lines_import (hand.window, path);
  g_assert_null (hand.window->import_dialog);
  g_assert_nonnull (strstr (gtk_label_get_text (GTK_LABEL (hand.window->message_label)), "list.csv: line 2"));
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/lines/type", test_type);
  g_test_add_func ("/window/lines/fill-down", test_fill_down);
  g_test_add_func ("/window/lines/paste", test_paste);
  g_test_add_func ("/window/lines/paste-empty", test_paste_empty);
  g_test_add_func ("/window/lines/way", test_way);
  g_test_add_func ("/window/lines/free", test_free);
  g_test_add_func ("/window/lines/splitters", test_splitters);
  g_test_add_func ("/window/lines/low-window", test_low_window);
  g_test_add_func ("/window/lines/filter", test_filter);
  g_test_add_func ("/window/lines/delete", test_delete);
  g_test_add_func ("/window/lines/phantom", test_phantom);
  g_test_add_func ("/window/lines/fill-to", test_fill_to);
  g_test_add_func ("/window/lines/handle", test_handle);
  g_test_add_func ("/window/lines/sources", test_sources);
  g_test_add_func ("/window/lines/import", test_import);
  g_test_add_func ("/window/lines/import-again", test_import_again);
  g_test_add_func ("/window/lines/import-console", test_import_console);
  g_test_add_func ("/window/lines/import-bad", test_import_bad);
  g_test_add_func ("/window/lines/round-trip", test_round_trip);
  return g_test_run ();
}
