/* SPDX-License-Identifier: MIT */
#include "item-hand.h"
#include "line-hand.h"

static void
test_both_layers (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT,
             "Kick|Stage left|1|FOH|9|3|dynamic|~|30|80|Short boom\n"
             "Overhead|Stage left|2|FOH|10|4|cond|+48|~|~|~|Spaced pair\n");
  line_hand_assert (rig, RW_LINE_INPUT,
                "Kick|Stage left|1|FOH|9|3|Dynamic microphone||30|80|Short boom\n"
                "Overhead|Stage left|2|FOH|10|4|Condenser microphone|yes||||Spaced pair\n");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PATCH), ==, 2);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_INSIDE), ==, 2);
  line_hand_add (rig, RW_LINE_OUTPUT, "Main left|Stage right|1|FOH|5|1\n");
  line_hand_assert (rig, RW_LINE_OUTPUT, "Main left|Stage right|1|FOH|5|1\n");
  g_assert_cmpstr (((RwPatchRow *) rw_rig_items (rig, RW_ITEM_PATCH)[2])->from.device, ==, "foh");
}

/* A rack and a strip are enough: the socket, the console and the receive follow. */
static void
test_chosen (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT, "A|stage LEFT|~|~|~|1\nB|left|~|~|~|2\nC|Stage left|7|~|~|3\n");
  line_hand_assert (rig, RW_LINE_INPUT, "A|Stage left|1|FOH|1|1\nB|Stage left|2|FOH|2|2\nC|Stage left|7|FOH|3|3\n");
  /* a second strip of one send shares its receive, and no row is made twice */
  line_hand_add (rig, RW_LINE_INPUT, "~|Stage left|7|~|~|9\n");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PATCH), ==, 3);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_INSIDE), ==, 4);
}

/* Names as people type them: gaps and capitals do not matter, and x stands for ×. */
static void
test_names (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_device (rig, "box", rw_rig_device (rig, "left")->part, "Wall box 4×2");
  line_hand_add (rig, RW_LINE_INPUT, "A|WALL  BOX 4x2|1|~|~|1\nB| wallbox 4 X 2|2|foh |~|2\nC|STAGELEFT|1|F O H|~|3\n");
  line_hand_assert (rig, RW_LINE_INPUT, "C|Stage left|1|FOH|3|3\nA|Wall box 4×2|1|FOH|1|1\nB|Wall box 4×2|2|FOH|2|2\n");
  g_assert_cmpuint (rw_line_match ("wall box 4x2", "Wall box 4×2"), ==, 3);
  g_assert_cmpuint (rw_line_match ("wallb", "Wall box 4×2"), ==, 2);
  g_assert_cmpuint (rw_line_match ("4x wa", "Wall box 4×2"), ==, 1);
  g_assert_cmpuint (rw_line_match ("ox", "Wall box 4×2"), ==, 0);
}

/* What can stand in the columns of devices: a console for its own sockets, too. */
static void
test_fits (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  const RwDevice *left = rw_rig_device (rig, "left"), *foh = rw_rig_device (rig, "foh");

  line_hand_part (rig, "switch", "switch", 0, 0, 0, 0);
  line_hand_device (rig, "sw", "switch", "Switch");
  for (guint side = 0; side < RW_N_LINE_SIDES; side++)
    {
      g_assert_true (rw_line_fits (rig, side, RW_LINE_STAGE, left));
      g_assert_true (rw_line_fits (rig, side, RW_LINE_STAGE, foh));
      g_assert_false (rw_line_fits (rig, side, RW_LINE_CONSOLE, left));
      g_assert_true (rw_line_fits (rig, side, RW_LINE_CONSOLE, foh));
      g_assert_false (rw_line_fits (rig, side, RW_LINE_STAGE, rw_rig_device (rig, "sw")));
    }
}

static void
test_own_sockets (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT, "Talkback|FOH|2|FOH|own|24\n");
  line_hand_add (rig, RW_LINE_OUTPUT, "Booth|FOH|1|FOH|own|8\n");
  line_hand_assert (rig, RW_LINE_INPUT, "Talkback|FOH|2|FOH|own|24\n");
  line_hand_assert (rig, RW_LINE_OUTPUT, "Booth|FOH|1|FOH|own|8\n");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PATCH), ==, 0);
  /* onto the stage, and its particulars with it */
  line_hand_type (rig, RW_LINE_INPUT, 0, "~|Stage right|5");
  line_hand_assert (rig, RW_LINE_INPUT, "Talkback|Stage right|5|FOH|1|24\n");
  line_hand_type (rig, RW_LINE_INPUT, 0, "~|FOH|3");
  line_hand_assert (rig, RW_LINE_INPUT, "Talkback|FOH|3|FOH|own|24\n");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PATCH), ==, 0);
}

/* Two lines swap their sockets in one edit: names, phantom and rows follow. */
static void
test_swap (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  g_autoptr (RwLines) lines = NULL;
  RwLineEdit *edit;

  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1||yes\nBass|Stage left|2|FOH|2|2\n");
  lines = rw_lines_new (rig, RW_LINE_INPUT, FALSE);
  edit = rw_line_edit_new (rig, RW_LINE_INPUT, "Swap");
  line_hand_set (edit, 0, rw_lines_get (lines, 0), "~|~|2");
  line_hand_set (edit, 1, rw_lines_get (lines, 1), "~|~|1");
  line_hand_apply_cleanly (rig, edit);
  line_hand_assert (rig, RW_LINE_INPUT, "Bass|Stage left|1|FOH|2|2\nVox|Stage left|2|FOH|1|1||yes\n");
}

/* What is known of another socket is not written over by a line that moves onto it. */
static void
test_move_onto_named (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1\nSpare|Stage left|5\n");
  line_hand_type (rig, RW_LINE_INPUT, 0, "~|~|5");
  line_hand_assert (rig, RW_LINE_INPUT, "Vox|Stage left|1\nSpare|Stage left|5|FOH|1|1\n");
}

/* One send to two consoles: each keeps its own way; the name belongs to the send. */
static void
test_two_consoles (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_device (rig, "mon", "desk", "Monitors");
  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1\n~|Stage left|1|Monitors|4|12\n");
  line_hand_assert (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1\nVox|Stage left|1|Monitors|4|12\n");
  line_hand_type (rig, RW_LINE_INPUT, 1, "~|Stage right|6");
  /* the other console still needs the name where it was */
  line_hand_assert (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1\nVox|Stage right|6|Monitors|4|12\n");
}

/* A bus to two racks leaves the console once; a move of one end leaves the other. */
static void
test_shared_send (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_OUTPUT, "Main|Stage left|1|FOH|5|1\n");
  line_hand_add (rig, RW_LINE_OUTPUT, "~|Stage right|1|FOH|~|1\n");
  line_hand_assert (rig, RW_LINE_OUTPUT, "Main|Stage left|1|FOH|5|1\nMain|Stage right|1|FOH|5|1\n");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_INSIDE), ==, 1);
  line_hand_type (rig, RW_LINE_OUTPUT, 1, "~|~|~|~|7");
  line_hand_assert (rig, RW_LINE_OUTPUT, "Main|Stage left|1|FOH|5|1\nMain|Stage right|1|FOH|7|1\n");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_INSIDE), ==, 2);
}

static void
test_remove (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1\n");
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (RwLines) lines = rw_lines_new (rig, RW_LINE_INPUT, FALSE);
      RwLineEdit *edit = rw_line_edit_new (rig, RW_LINE_INPUT, "Remove");

      rw_line_edit_remove (edit, rw_lines_get (lines, 0));
      line_hand_apply_cleanly (rig, edit);
      /* first out of the patch, then its name */
      line_hand_assert (rig, RW_LINE_INPUT, i == 0 ? "Vox|Stage left|1\n" : "");
    }
  for (guint t = RW_ITEM_PATCH; t < RW_N_ITEM_TYPES; t++)
    g_assert_cmpuint (rw_rig_n (rig, t), ==, 0);
}

/* All cells that say where a line goes, emptied at once, take it out of the patch. */
static void
test_empty_cells (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1\nBass|Stage left|2|FOH|2|2\n");
  line_hand_type (rig, RW_LINE_INPUT, 0, "~|||||");
  line_hand_type (rig, RW_LINE_INPUT, 1, "~|~|~|~|~|");
  line_hand_assert (rig, RW_LINE_INPUT, "Vox|Stage left|1\nBass|Stage left|2|FOH|2\n");
  line_hand_type (rig, RW_LINE_INPUT, 1, "~|~|~|");
  line_hand_assert (rig, RW_LINE_INPUT, "Vox|Stage left|1\nBass|Stage left|2\n");
}

/* Halves that a person may be in the middle of have their line. */
static void
test_halves (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  RwItem *row = test_item_new (RW_ITEM_INSIDE, "i");
  g_autofree char *all = NULL;

  test_item_set (row, RW_INSIDE_DEVICE, g_variant_new_string ("foh"));
  test_item_set (row, RW_INSIDE_FROM, g_variant_new ("(si)", "receive", 7));
  test_item_set (row, RW_INSIDE_TO, g_variant_new ("(si)", "strip", 2));
  test_rig_append (rig, row);
  line_hand_add (rig, RW_LINE_INPUT, "~|Stage left|3|FOH|8\nSpare|Stage right|16\n");
  line_hand_assert (rig, RW_LINE_INPUT, "|Stage left|3|FOH|8\nSpare|Stage right|16\n|||FOH|7|2\n");
  line_hand_type (rig, RW_LINE_INPUT, 2, "~|Stage right|2");
  line_hand_assert (rig, RW_LINE_INPUT, "|Stage left|3|FOH|8\n|Stage right|2|FOH|7|2\nSpare|Stage right|16\n");
}

/* Every send of the racks and own input of the console once, patched or not. */
static void
test_free_lines (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  g_autoptr (RwLines) inputs = NULL;
  g_autoptr (RwLines) outputs = NULL;

  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|4|FOH|1|1\n");
  inputs = rw_lines_new (rig, RW_LINE_INPUT, TRUE);
  g_assert_cmpuint (rw_lines_n (inputs), ==, 16 + 16 + 4);
  g_assert_cmpint (rw_lines_get (inputs, 3)->strip, ==, 1);
  outputs = rw_lines_new (rig, RW_LINE_OUTPUT, TRUE);
  g_assert_cmpuint (rw_lines_n (outputs), ==, 24 + 8 + 8);
}

/* A list from outside often tells the strip alone: what it says of a strip that is fed belongs to the source. */
static void
test_end_alone (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|11|1\n~|Stage left|2|FOH|12\n~|FOH|3|FOH|own|5\n");
  line_hand_add (rig, RW_LINE_INPUT, "Kick|~|~|~|~|1\nSnare|~|~|FOH|12\nTalk|~|~|~|~|5\nSpare|~|~|~|~|9\n~|~|~|~|11|2\n");
  line_hand_assert (rig, RW_LINE_INPUT, "Kick|Stage left|1|FOH|11|1\nKick|Stage left|1|FOH|11|2\nSnare|Stage left|2|FOH|12\n"
                                    "Talk|FOH|3|FOH|own|5\nSpare|||FOH||9\n");
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PATCH), ==, 2);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_INSIDE), ==, 3);
}

static void
test_particulars (void)
{
  static const struct { const char *cells, *expected; } cases[] = {
    { "~|~|~|~|~|~|~|ON", "Vox|Stage left|1|FOH|1|1||yes\n" },
    { "~|~|~|~|~|~|~|no", "Vox|Stage left|1|FOH|1|1\n" },
    { "~|~|~|~|~|~|di-p|48 V|−10 dB|100 Hz", "Vox|Stage left|1|FOH|1|1|Passive DI|yes|-10|100\n" },
    { "~|~|~|~|~|~|||||Round", "Vox|Stage left|1|FOH|1|1|||||Round\n" },
    { "|~|~|~|~|~|||||", "|Stage left|1|FOH|1|1\n" },
  };
  g_autoptr (RwRig) rig = line_hand_rig ();

  line_hand_add (rig, RW_LINE_INPUT, "Vox|Stage left|1|FOH|1|1\n");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      line_hand_type (rig, RW_LINE_INPUT, 0, cases[i].cells);
      line_hand_assert (rig, RW_LINE_INPUT, cases[i].expected);
    }
  /* nothing is known of it any more */
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_CHANNEL), ==, 0);
}

static void
test_count_up (void)
{
  static const struct { const char *text; guint by; const char *expected; } cases[] = {
    { "1", 15, "16" }, { "Vox 09", 1, "Vox 10" }, { "007", 3, "010" }, { "Tom 1 mic", 2, "Tom 3 mic" },
    { "Kick", 4, "Kick" }, { "", 1, "" }, { "9999999999", 1, "9999999999" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = rw_line_count_up (cases[i].text, cases[i].by);
      g_assert_cmpstr (text, ==, cases[i].expected);
    }
}

/* What is dragged down goes on as the chosen cells begin. */
static void
test_fill (void)
{
  static const struct { RwLineColumn column; const char *cells[4]; guint by; const char *expected; } cases[] = {
    { RW_LINE_SOCKET, { "1" }, 15, "16" },
    { RW_LINE_SOCKET, { "1", "3" }, 2, "7" },
    { RW_LINE_SOCKET, { "8", "16", "24" }, 1, "32" },
    { RW_LINE_SOCKET, { "1", "2", "4" }, 4, "1" },
    { RW_LINE_NAME, { "Tom 1", "Tom 2" }, 1, "Tom 3" },
    { RW_LINE_NAME, { "Kick", "Snare" }, 3, "Kick" },
    { RW_LINE_NAME, { "Kick" }, 3, "Kick" },
    { RW_LINE_STAGE, { "Rack 1" }, 1, "Rack 1" }, /* a device's name is no number */
    { RW_LINE_GAIN, { "20", "30" }, 2, "30" },
    { RW_LINE_SOURCE, { "Line", "" }, 2, "" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      guint n = g_strv_length ((char **) cases[i].cells);
      g_autofree char *text = rw_line_fill (cases[i].column, cases[i].cells, n, cases[i].by);
      g_assert_cmpstr (text, ==, cases[i].expected);
    }
}

/* 500 lines in one edit, and every one of them read back from what it shows. */
static void
test_many (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  g_autoptr (RwRig) again = line_hand_rig ();
  GString *rows = g_string_new (NULL);
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  for (guint i = 1; i <= 500; i++)
    g_string_append_printf (rows, "Source %u|Stage left|%u|FOH|%u|%u||%s\n", i, i, i, 501 - i, i % 3 == 0 ? "yes" : "");
  line_hand_add (rig, RW_LINE_INPUT, rows->str);
  g_assert_cmpuint (rw_rig_n (rig, RW_ITEM_PATCH), ==, 500);
  first = line_hand_text (rig, RW_LINE_INPUT, FALSE);
  line_hand_add (again, RW_LINE_INPUT, first);
  second = line_hand_text (again, RW_LINE_INPUT, FALSE);
  g_assert_cmpstr (first, ==, second);
  g_string_free (rows, TRUE);
}

static void
test_sort (void)
{
  g_autoptr (RwRig) rig = line_hand_rig ();
  g_autoptr (RwLines) lines = NULL;

  line_hand_add (rig, RW_LINE_INPUT, "b|Stage left|1|FOH|1|10||| 6\na|Stage left|2|FOH|2|9|||-20\n~|Stage left|3\n~|Stage left|4|FOH|3\n");
  lines = rw_lines_new (rig, RW_LINE_INPUT, FALSE);
  g_assert_cmpint (rw_line_compare (rw_lines_get (lines, 0), rw_lines_get (lines, 1), RW_LINE_STRIP), >, 0);
  g_assert_cmpint (rw_line_compare (rw_lines_get (lines, 0), rw_lines_get (lines, 1), RW_LINE_NAME), >, 0);
  g_assert_cmpint (rw_line_compare (rw_lines_get (lines, 0), rw_lines_get (lines, 1), RW_LINE_GAIN), >, 0);
  /* without one: last */
  g_assert_cmpint (rw_line_compare (rw_lines_get (lines, 0), rw_lines_get (lines, 2), RW_LINE_STRIP), <, 0);
  g_assert_cmpint (rw_line_compare (rw_lines_get (lines, 2), rw_lines_get (lines, 0), RW_LINE_NAME), >, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rig/line/both-layers", test_both_layers);
  g_test_add_func ("/rig/line/chosen", test_chosen);
  g_test_add_func ("/rig/line/names", test_names);
  g_test_add_func ("/rig/line/fits", test_fits);
  g_test_add_func ("/rig/line/own-sockets", test_own_sockets);
  g_test_add_func ("/rig/line/swap", test_swap);
  g_test_add_func ("/rig/line/move-onto-named", test_move_onto_named);
  g_test_add_func ("/rig/line/two-consoles", test_two_consoles);
  g_test_add_func ("/rig/line/shared-send", test_shared_send);
  g_test_add_func ("/rig/line/remove", test_remove);
  g_test_add_func ("/rig/line/empty-cells", test_empty_cells);
  g_test_add_func ("/rig/line/halves", test_halves);
  g_test_add_func ("/rig/line/free", test_free_lines);
  g_test_add_func ("/rig/line/end-alone", test_end_alone);
  g_test_add_func ("/rig/line/particulars", test_particulars);
  g_test_add_func ("/rig/line/count-up", test_count_up);
  g_test_add_func ("/rig/line/fill", test_fill);
  g_test_add_func ("/rig/line/many", test_many);
  g_test_add_func ("/rig/line/sort", test_sort);
  return g_test_run ();
}
