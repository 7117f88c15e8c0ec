/* SPDX-License-Identifier: MIT */
/* Filling down in the line list: how far it goes, and what is seen of it on the way. */
#include "lines-hand.h"

/* The rack has no 17th send: the rows of the next rack stay what they are, and it is told. */
static void
test_last_send (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 13, 1, FALSE);
  rw_line_view_choose (view, 13, 2, TRUE);
  rw_line_view_fill_to (view, 20);
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "5 rows were not filled: Stage left has 16 sends");
  g_assert_cmpint (rw_line_view_range (view).bottom, ==, 15);
  lines_assert_column (view, RW_LINE_STAGE, 16, 1, "Stage right");
  lines_assert_column (view, RW_LINE_SOCKET, 16, 1, "1");
  rw_line_view_choose (view, 15, 1, FALSE);
  rw_line_view_choose (view, 16, 2, TRUE);
  g_assert_true (rw_line_view_key (view, GDK_KEY_d, GDK_CONTROL_MASK));
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, "1 row was not filled: Stage left has 16 sends");
  lines_assert_column (view, RW_LINE_STAGE, 16, 1, "Stage right");
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 32);
  hand_end (&hand);
}

/* Likewise the console's receives, while the sends are each row's own. */
static void
test_last_receive (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  const RwRig *rig = rw_document_rig (hand.window->document);
  int receives = rw_rig_part_of (rig, rw_rig_device (rig, "desk"))->receives;
  g_autofree char *before_last = g_strdup_printf ("FOH\t%d\n", receives - 1);
  g_autofree char *last = g_strdup_printf ("%d", receives);
  g_autofree char *told = g_strdup_printf ("2 rows were not filled: FOH has %d receives", receives);

  g_assert_cmpint (receives, >, 1);
  rw_line_view_choose (view, 0, 3, FALSE);
  rw_line_view_paste_text (view, before_last);
  rw_line_view_choose (view, 0, 4, TRUE);
  rw_line_view_fill_to (view, 3);
  lines_assert_column (view, RW_LINE_CHANNEL, 1, 1, last);
  lines_assert_column (view, RW_LINE_CHANNEL, 2, 1, "");
  g_assert_cmpstr (rw_line_view_get_remark (view), ==, told);
  hand_end (&hand);
}

/* One line becomes sixteen, of which fifteen are new; with Ctrl+D the blank row becomes one more. One undo each. */
static void
test_new_lines (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_paste_text (view, "Tom 1\tStage left\t1\tFOH\t1\t1\n");
  rw_line_view_set_with_free (view, FALSE);
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 1);
  rw_line_view_choose (view, 0, 0, FALSE);
  rw_line_view_choose (view, 0, 5, TRUE);
  rw_line_view_fill_to (view, 14);
  hand_settle ();
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 15);
  lines_assert_cells (view, 14, "Tom 15|Stage left|15|FOH|15|15");
  g_assert_cmpint (rw_line_view_range (view).bottom, ==, 14);
  rw_line_view_choose (view, 14, 0, FALSE);
  rw_line_view_choose (view, 15, 5, TRUE);
  g_assert_true (rw_line_view_key (view, GDK_KEY_d, GDK_CONTROL_MASK));
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 16);
  lines_assert_cells (view, 15, "Tom 16|Stage left|16|FOH|16|16");
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpuint (rw_line_view_n_rows (view), ==, 1);
  hand_end (&hand);
}

static GtkGesture *
drag_of (RwLineView *view)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (view->list);

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkGesture) gesture = g_list_model_get_item (all, i);
      if (GTK_IS_GESTURE_DRAG (gesture))
        return gesture;
    }
  g_assert_not_reached ();
}

/* While the handle is dragged, the number of rows stands beside the pointer; right beyond the edge the list goes on
 * slowly enough to stop in time. */
static void
test_count (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 5, FALSE);
  rw_line_view_begin_filling (view);
  g_assert_false (gtk_widget_get_visible (view->fill_count));
  rw_line_view_set_fill_to (view, 15);
  g_assert_true (gtk_widget_get_visible (view->fill_count));
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (view->fill_count)), ==, "16 rows");
  g_signal_emit_by_name (drag_of (view), "cancel", NULL);
  g_assert_false (gtk_widget_get_visible (view->fill_count));
  g_assert_cmpuint (rw_line_view_scroll_ms (5), >, 3 * rw_line_view_scroll_ms (100));
  g_assert_cmpuint (rw_line_view_scroll_ms (5), >=, 200);
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/lines-fill/last-send", test_last_send);
  g_test_add_func ("/window/lines-fill/last-receive", test_last_receive);
  g_test_add_func ("/window/lines-fill/new-lines", test_new_lines);
  g_test_add_func ("/window/lines-fill/count", test_count);
  return g_test_run ();
}
