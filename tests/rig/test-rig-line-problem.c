/* SPDX-License-Identifier: MIT */
/* Cells of a line list that cannot be taken: each is told, none is dropped in silence. */
#include "line-hand.h"

#include <string.h>

static void
test_problems (void)
{
  static const struct { const char *cells; int column; gboolean left_out; } rows[] = {
    { "A|Attic|1|FOH|1|1", RW_LINE_STAGE, TRUE },
    { "B|Stage left|one|FOH|1|1", RW_LINE_SOCKET, TRUE },
    { "C|Stage left|3|FOH|3|3|harp", RW_LINE_SOURCE, FALSE },
    { "D|Stage left|4|FOH|4|4|~|perhaps", RW_LINE_PHANTOM, FALSE },
    { "E|Stage left|5|FOH|5|5|~|~|91", RW_LINE_GAIN, FALSE },
    { "F", RW_LINE_NAME, TRUE },
    { "G|Stage left|7|FOH|own|7", RW_LINE_CHANNEL, TRUE },
    { "H|~|~|~|12", RW_LINE_CHANNEL, TRUE },
  };
  g_autoptr (RwRig) rig = line_hand_rig ();
  RwLineEdit *edit = rw_line_edit_new (rig, RW_LINE_INPUT, "Paste");
  g_autoptr (GPtrArray) problems = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    line_hand_set (edit, i + 1, NULL, rows[i].cells);
  problems = line_hand_apply (rig, edit);
  g_assert_cmpuint (problems->len, ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < problems->len; i++)
    {
      RwLineProblem *problem = g_ptr_array_index (problems, i);
      g_assert_cmpuint (problem->row, ==, i + 1);
      g_assert_cmpint (problem->column, ==, rows[i].column);
      g_assert_cmpint (problem->left_out, ==, rows[i].left_out);
    }
  line_hand_assert (rig, RW_LINE_INPUT, "C|Stage left|3|FOH|3|3\nD|Stage left|4|FOH|4|4\nE|Stage left|5|FOH|5|5\n");
}

/* Two rows that speak of one send: the last counts, and what the other said is told. */
static void
test_overruled (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  RwLineEdit *edit = rw_line_edit_new (rig, RW_LINE_INPUT, "Paste");
  g_autoptr (GPtrArray) problems = NULL;
  const RwLineProblem *problem;

  line_hand_set (edit, 1, NULL, "Kick|Stage left|1|FOH|1|1|line|yes");
  line_hand_set (edit, 2, NULL, "Snare|Stage left|1|FOH|1|2|line");
  line_hand_set (edit, 3, NULL, "Hat|Stage left|3|FOH|3|3|harp");
  problems = line_hand_apply (rig, edit);
  line_hand_assert (rig, RW_LINE_INPUT, "Snare|Stage left|1|FOH|1|1|Line|yes\nSnare|Stage left|1|FOH|1|2|Line|yes\n"
                                    "Hat|Stage left|3|FOH|3|3\n");
  g_assert_cmpuint (problems->len, ==, 2);
  problem = g_ptr_array_index (problems, 0);
  g_assert_cmpuint (problem->row, ==, 1);
  g_assert_cmpint (problem->column, ==, RW_LINE_NAME);
  g_assert_cmpstr (problem->text, ==, "Kick");
  problem = g_ptr_array_index (problems, 1);
  g_assert_nonnull (strstr (problem->why, "Condenser microphone, "));
}

/* "Heading “text” why", a line each, "-" before the one by which its row is left out. */
static char *
problems_text (RwLineSide side, const GPtrArray *problems)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < problems->len; i++)
    {
      const RwLineProblem *problem = g_ptr_array_index (problems, i);
      g_string_append_printf (text, "%s%s “%s” %s\n", problem->left_out ? "-" : "",
                              rw_line_column_title (side, problem->column), problem->text, problem->why);
    }
  return g_string_free (text, FALSE);
}

/* @cells typed into the first of the lines, free ones too, or into a new one. @n_cells: that were not taken */
static void
assert_refused (RwRig *rig, RwLineSide side, gboolean fresh, const char *cells, guint n_cells, const char *expected)
{
  g_autoptr (RwLines) lines = rw_lines_new (rig, side, TRUE);
  RwLineEdit *edit = rw_line_edit_new (rig, side, "Paste");
  g_autoptr (GPtrArray) problems = NULL;
  g_autofree char *text = NULL;

  line_hand_set (edit, 0, fresh ? NULL : rw_lines_get (lines, 0), cells);
  problems = line_hand_apply (rig, edit);
  text = problems_text (side, problems);
  g_assert_cmpstr (text, ==, expected);
  g_assert_cmpuint (rw_line_problems_n_cells (problems), ==, n_cells);
}

#define STUCK(heading) "was not taken, since “" heading "” of its row was not\n"
#define NOBODY "is no device’s name\n"
#define NO_NUMBER "must be a whole number from 1\n"

/* A line that stays where it is since one cell is wrong: what else was typed of where it goes is told, too, in the order
 * of the columns; what was said of it is taken, and a cell that says what it did is no news. */
static void
test_stuck (void)
{
  static const struct { RwLineSide side; const char *cells; guint n_cells; const char *expected; } cases[] = {
    { RW_LINE_INPUT, "~|~|~|~|~|nine", 1, "Strip “nine” " NO_NUMBER },
    { RW_LINE_INPUT, "~|~|4|Monitors|5|6", 4,
      "Send “4” " STUCK ("Console") "Console “Monitors” " NOBODY "Receive “5” " STUCK ("Console") "Strip “6” " STUCK ("Console") },
    { RW_LINE_INPUT, "~|Attic|x|Monitors|y|z", 5,
      "From device “Attic” " NOBODY "Send “x” " NO_NUMBER "Console “Monitors” " NOBODY "Receive “y” " NO_NUMBER
      "Strip “z” " NO_NUMBER },
    { RW_LINE_INPUT, "Bass|Attic|2|~|~|7", 3,
      "From device “Attic” " NOBODY "Send “2” " STUCK ("From device") "Strip “7” " STUCK ("From device") },
    { RW_LINE_INPUT, "Bass|Attic|1|foh|1| 2", 2, "From device “Attic” " NOBODY "Strip “ 2” " STUCK ("From device") },
    { RW_LINE_INPUT, "~|~|~|Monitors|~|", 2, "Console “Monitors” " NOBODY "Strip “” " STUCK ("Console") },
    { RW_LINE_INPUT, "~|~|2|~|own|3", 3,
      "Send “2” " STUCK ("Receive") "Receive “own” only the console itself has its own sockets\n" "Strip “3” " STUCK ("Receive") },
    { RW_LINE_OUTPUT, "~|Attic|2|FOH|x|7", 4,
      "Bus “7” " STUCK ("Send") "Send “x” " NO_NUMBER "To device “Attic” " NOBODY "Receive “2” " STUCK ("To device") },
  };
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1\n");
  line_hand_add (rig, RW_LINE_OUTPUT, "Wedge|Stage left|1|FOH|1|1\n");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_refused (rig, cases[i].side, FALSE, cases[i].cells, cases[i].n_cells, cases[i].expected);
  line_hand_assert (rig, RW_LINE_INPUT, "Bass|Stage left|1|FOH|1|1\n");
  line_hand_assert (rig, RW_LINE_OUTPUT, "Wedge|Stage left|1|FOH|1|1\n");
}

/* Of a new line that comes to nothing one problem speaks for all cells; what is wrong in others is told as well. */
static void
test_left_out (void)
{
  static const struct { RwLineSide side; const char *cells; guint n_cells; const char *expected; } cases[] = {
    { RW_LINE_INPUT, "Vox|Stage left|1|Attic|1|1|line|yes", 8, "-Console “Attic” " NOBODY },
    { RW_LINE_INPUT, "Vox|Attic|one|FOH|1||line|perhaps", 7,
      "-From device “Attic” " NOBODY "Send “one” " NO_NUMBER "Phantom “perhaps” must be yes or no\n" },
    { RW_LINE_OUTPUT, "Wedge|Attic|1|Loft|1|1", 6, "-From device “Loft” " NOBODY "To device “Attic” " NOBODY },
    { RW_LINE_INPUT, "~|~|~|~|~|~|~|~|20", 1, "-Gain “20” says neither a device nor a console\n" },
    { RW_LINE_INPUT, "~|~|~|FOH", 1, "-Console “FOH” is no line by itself: it needs the device, the strip or the bus\n" },
  };
  g_autoptr (RwRig) rig = line_hand_rig ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_refused (rig, cases[i].side, TRUE, cases[i].cells, cases[i].n_cells, cases[i].expected);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CHANNEL), ==, 0);
}

/* What is chosen and cannot be is told of a cell that was typed in. */
static void
test_full (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  g_autoptr (RwRig) two = line_hand_rig ();
  GString *rows = g_string_new (NULL);

  line_hand_device (two, "mon", "desk", "Monitors");
  assert_refused (two, RW_LINE_INPUT, FALSE, "~|~|~|~|5|6", 2,
                  "Receive “5” says no console that it belongs to\nStrip “6” says no console that it belongs to\n");
  for (guint i = 0; i < 32; i++)
    g_string_append_printf (rows, "~|Stage %s|%u|FOH\n", i < 16 ? "left" : "right", i % 16 + 1);
  line_hand_add (rig, RW_LINE_INPUT, rows->str);
  g_string_free (rows, TRUE);
  assert_refused (rig, RW_LINE_INPUT, TRUE, "~|Stage left", 1, "-From device “Stage left” has no free socket left\n");
  assert_refused (rig, RW_LINE_INPUT, TRUE, "~|Stage left|17|~|~|1", 3,
                  "-From device “Stage left” needs a free channel of FOH, which has none left\n");
}

/* Particulars of a console's own free input have no place, whatever else is wrong with the row. */
static void
test_stuck_own (void)
{
  g_autoptr (RwRig) rig = rw_rig_new ();

  line_hand_part (rig, "desk", "controller", 32, 32, 24, 4);
  line_hand_device (rig, "foh", "desk", "FOH");
  assert_refused (rig, RW_LINE_INPUT, FALSE, "Talk|~|~|Attic", 2,
                  "Name “Talk” is kept with the strip: fill that in first\nConsole “Attic” " NOBODY);
}

/* A problem says by which line it can be found when the edit is done. */
static void
test_found_by (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  RwLineEdit *edit = rw_line_edit_new (rig, RW_LINE_INPUT, "Paste");
  g_autoptr (GPtrArray) problems = NULL;
  const RwLineProblem *problem;

  line_hand_set (edit, 0, NULL, "Vox|Stage left|4|FOH|1|1|harp");
  line_hand_set (edit, 1, NULL, "Bass|Stage left|5|Attic|1|1");
  problems = line_hand_apply (rig, edit);
  g_assert_cmpuint (problems->len, ==, 2);
  problem = g_ptr_array_index (problems, 0);
  g_assert_cmpstr (rw_item_key (problem->line.stage), ==, "left");
  g_assert_cmpint (problem->line.socket, ==, 4);
  g_assert_cmpint (problem->line.strip, ==, 1);
  problem = g_ptr_array_index (problems, 1);
  g_assert_null (problem->line.stage);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rig/line-problem/problems", test_problems);
  g_test_add_func ("/rig/line-problem/stuck", test_stuck);
  g_test_add_func ("/rig/line-problem/left-out", test_left_out);
  g_test_add_func ("/rig/line-problem/full", test_full);
  g_test_add_func ("/rig/line-problem/stuck-own", test_stuck_own);
  g_test_add_func ("/rig/line-problem/found-by", test_found_by);
  g_test_add_func ("/rig/line-problem/overruled", test_overruled);
  return g_test_run ();
}
