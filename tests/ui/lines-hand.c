/* SPDX-License-Identifier: MIT */
#include "lines-hand.h"

const char lines_stage[] = "console desk ctrl=1 name=FOH at=[20,60]\n"
                           "rack left id=1 name='Stage left' at=[110,60]\n"
                           "rack right id=2 name='Stage right' at=[200,60]\n"
                           "desk.s-left.p length_m=20\n"
                           "left.s-right.p length_m=20\n";

RwLineView *
lines_begin (Hand *hand)
{
  return lines_begin_text (hand, lines_stage);
}

RwLineView *
lines_begin_text (Hand *hand, const char *text)
{
  hand_begin (hand);
  hand_open_text (hand, text);
  g_object_set (hand->window, "lines-shown", TRUE, NULL);
  hand_settle ();
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (hand->window->lines)));
  return hand->window->lines;
}

void
lines_key (Hand *hand, guint keyval, GdkModifierType state)
{
  g_assert_true (rw_line_view_key (hand->window->lines, keyval, state));
  hand_settle ();
}

void
lines_type (Hand *hand, const char *text, guint keyval)
{
  RwLineView *view = hand->window->lines;

  rw_line_view_begin_typing (view, text);
  g_assert_true (view->typing);
  lines_key (hand, keyval, 0);
}

void
lines_assert_column (RwLineView *view, RwLineColumn column, guint first, guint n, const char *expected)
{
  g_auto (GStrv) texts = g_new0 (char *, n + 1);
  g_autofree char *text = NULL;

  for (guint i = 0; i < n; i++)
    texts[i] = rw_line_view_get_text (view, first + i, column);
  text = g_strjoinv ("|", texts);
  g_assert_cmpstr (text, ==, expected);
}

void
lines_assert_cells (RwLineView *view, guint row, const char *expected)
{
  g_auto (GStrv) texts = g_new0 (char *, RW_LINE_STRIP + 2);
  g_autofree char *text = NULL;

  for (guint column = RW_LINE_NAME; column <= RW_LINE_STRIP; column++)
    texts[column] = rw_line_view_get_text (view, row, column);
  text = g_strjoinv ("|", texts);
  g_assert_cmpstr (text, ==, expected);
}

/* The row that is seen at that height; -1 = none. */
static int
row_at (RwLineView *view, int y)
{
  GtkWidget *widget = gtk_widget_pick (view->list, 20, y, GTK_PICK_DEFAULT);
  GtkWidget *cell = widget != NULL && !RW_IS_LINE_CELL (widget) ? gtk_widget_get_ancestor (widget, RW_TYPE_LINE_CELL) : widget;

  return cell != NULL ? (int) rw_line_cell_get_position (RW_LINE_CELL (cell)) : -1;
}

void
lines_assert_seen (RwLineView *view)
{
  int top = gtk_widget_get_height (gtk_widget_get_first_child (view->list)) + 4, last = row_at (view, top);
  int n = (int) g_list_model_get_n_items (G_LIST_MODEL (view->selection));

  g_assert_cmpint (last, <, n);
  for (int y = top; y < gtk_widget_get_height (view->list); y += 4)
    {
      int row = row_at (view, y);

      g_assert_true (row == last || row == last + 1 || (row < 0 && last == n - 1));
      if (row < 0)
        break;
      last = row;
    }
}

guint
lines_n_patched (Hand *hand)
{
  return rw_rig_n (rw_document_rig (hand->window->document), RW_ITEM_PATCH);
}
