/* SPDX-License-Identifier: MIT */
/* The list of what can stand in a cell: picked from, and offered while one types. */
#include "lines-hand.h"

#include <string.h>

/* What the open list has, "|" between its rows; "" = none is open. */
static void
assert_offered (RwLineView *view, const char *expected)
{
  GString *text = g_string_new (NULL);
  GtkListBox *box = view->choices != NULL ? g_object_get_data (G_OBJECT (view->choices), "box") : NULL;
  GtkListBoxRow *row;

  for (int i = 0; box != NULL && (row = gtk_list_box_get_row_at_index (box, i)) != NULL; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "|" : "",
                            gtk_label_get_text (GTK_LABEL (gtk_list_box_row_get_child (row))));
  g_assert_cmpstr (text->str, ==, expected);
  g_string_free (text, TRUE);
}

static int
count_offered (RwLineView *view)
{
  int n = 0;

  while (gtk_list_box_get_row_at_index (g_object_get_data (G_OBJECT (view->choices), "box"), n) != NULL)
    n++;
  return n;
}

static void
type_keys (Hand *hand, const char *text)
{
  RwLineView *view = hand->window->lines;
  GtkEditable *entry;
  int at = -1;

  lines_key (hand, (guint) text[0], 0);
  entry = GTK_EDITABLE (rw_line_cell_get_entry (rw_line_view_cell (view, view->row, view->column)));
  gtk_editable_insert_text (entry, text + 1, -1, &at);
  hand_settle ();
}

/* Only devices that have something for the column; the arrows go through what fits, Enter takes it. */
static void
test_type_device (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 1, FALSE);
  hand_settle ();
  type_keys (&hand, "stage");
  assert_offered (view, "Stage left|Stage right");
  lines_key (&hand, GDK_KEY_Down, 0);
  lines_key (&hand, GDK_KEY_Escape, 0);
  assert_offered (view, "");
  lines_assert_column (view, RW_LINE_STAGE, 0, 1, "Stage left");
  type_keys (&hand, "ri");
  assert_offered (view, "Stage right");
  lines_key (&hand, GDK_KEY_Escape, 0);
  type_keys (&hand, "attic");
  assert_offered (view, "");
  lines_key (&hand, GDK_KEY_Escape, 0);
  rw_line_view_choose (view, 0, 3, FALSE);
  hand_settle ();
  type_keys (&hand, "f");
  assert_offered (view, "FOH");
  lines_key (&hand, GDK_KEY_Return, 0);
  lines_assert_column (view, RW_LINE_CONSOLE, 0, 1, "FOH");
  assert_offered (view, "");
  hand_end (&hand);
}

/* The whole list goes into all chosen lines, as that of sources does. */
static void
test_pick_device (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  rw_line_view_choose (view, 0, 3, FALSE);
  rw_line_view_choose (view, 2, 3, TRUE);
  hand_settle ();
  lines_key (&hand, GDK_KEY_F4, 0);
  assert_offered (view, "FOH");
  g_assert_true (rw_line_view_pick (view, 0));
  hand_settle ();
  lines_assert_column (view, RW_LINE_CONSOLE, 0, 4, "FOH|FOH|FOH|");
  assert_offered (view, "");
  hand_end (&hand);
}

/* A whole ID is understood as the cell does: before what merely begins so, after a name. */
static void
test_type_id (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);

  hand_open_text (&hand, "rack wing id=1 name='Left wing' at=[20,60]\nrack left id=2 name='Stage left' at=[110,60]\n"
                         "rack named id=3 name=Right at=[200,60]\nrack right id=4 name='Stage right' at=[290,60]\n");
  rw_line_view_choose (view, 0, 1, FALSE);
  hand_settle ();
  type_keys (&hand, "left");
  assert_offered (view, "Stage left|Left wing");
  lines_key (&hand, GDK_KEY_Escape, 0);
  type_keys (&hand, "right");
  assert_offered (view, "Right|Stage right");
  lines_key (&hand, GDK_KEY_Escape, 0);
  hand_end (&hand);
}

/* Of very many only the best are offered; the list to pick from has them all. */
static void
test_many (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  GString *racks = g_string_new (NULL);

  for (guint i = 1; i <= 60; i++)
    g_string_append_printf (racks, "rack r%u id=%u name='Rack %u' at=[110,%u]\n", i, i, i, 30 * i);
  hand_open_text (&hand, racks->str);
  rw_line_view_choose (view, 0, 1, FALSE);
  hand_settle ();
  type_keys (&hand, "rack");
  g_assert_cmpint (count_offered (view), ==, 50);
  lines_key (&hand, GDK_KEY_Escape, 0);
  type_keys (&hand, "rack 60");
  assert_offered (view, "Rack 60");
  lines_key (&hand, GDK_KEY_Escape, 0);
  lines_key (&hand, GDK_KEY_F4, 0);
  g_assert_cmpint (count_offered (view), ==, 60);
  g_string_free (racks, TRUE);
  hand_end (&hand);
}

/* Words of sources are offered likewise, and one that is clicked while typing goes into that cell alone. */
static void
test_type_source (void)
{
  Hand hand;
  RwLineView *view = lines_begin (&hand);
  g_autofree char *source = NULL;

  rw_line_view_choose (view, 0, 6, FALSE);
  hand_settle ();
  type_keys (&hand, "mic");
  g_assert_nonnull (view->choices);
  g_assert_true (rw_line_view_pick (view, 0));
  hand_settle ();
  g_assert_false (view->typing);
  assert_offered (view, "");
  source = rw_line_view_get_text (view, 0, RW_LINE_SOURCE);
  g_assert_nonnull (strstr (source, "microphone"));
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/lines-choices/type-device", test_type_device);
  g_test_add_func ("/window/lines-choices/pick-device", test_pick_device);
  g_test_add_func ("/window/lines-choices/type-id", test_type_id);
  g_test_add_func ("/window/lines-choices/many", test_many);
  g_test_add_func ("/window/lines-choices/type-source", test_type_source);
  return g_test_run ();
}
