/* SPDX-License-Identifier: MIT */
/*
 * How long the lines of a sound rig with 50,000 rows take to list, and one typed cell to become a change: a name,
 * which concerns its line alone, and a strip, which takes the line to another place. Medians of processor time.
 */
#include <rig/rw-line.h>

#include "bench-time.h"
#include "sound-rig.h"

#define ROUNDS 21

static void
report_list (const RwRig *rig, RwLineSide side)
{
  double times[ROUNDS];
  guint n = 0;

  for (guint i = 0; i < ROUNDS; i++)
    {
      double start = bench_now_ms ();
      g_autoptr (RwLines) lines = rw_lines_new (rig, side, FALSE);

      times[i] = bench_now_ms () - start;
      n = rw_lines_n (lines);
    }
  g_print ("list of %5u %s: %8.3f ms\n", n, side == RW_LINE_INPUT ? "inputs" : "outputs", bench_median (times, ROUNDS));
}

static void
report_edit (const RwRig *rig, RwLineColumn column, const char *text)
{
  g_autoptr (RwLines) lines = rw_lines_new (rig, RW_LINE_INPUT, FALSE);
  const RwLine *line = rw_lines_get (lines, rw_lines_n (lines) / 2);
  const char *cells[RW_LINE_N_COLUMNS] = { NULL };
  double times[ROUNDS];

  cells[column] = text;
  for (guint i = 0; i < ROUNDS; i++)
    {
      double start = bench_now_ms ();
      RwLineEdit *edit = rw_line_edit_new (rig, RW_LINE_INPUT, "Edit");
      g_autoptr (GPtrArray) problems = NULL;
      g_autoptr (RwChange) change = NULL;

      rw_line_edit_set (edit, 0, line, cells);
      change = rw_line_edit_finish (edit, &problems);
      times[i] = bench_now_ms () - start;
      g_assert (change != NULL && problems->len == 0);
    }
  g_print ("edit of one cell, %s: %8.3f ms\n", rw_line_column_title (RW_LINE_INPUT, column), bench_median (times, ROUNDS));
}

int
main (void)
{
  g_autoptr (RwRig) rig = sound_rig_new (10000, 50000);

  report_list (rig, RW_LINE_INPUT);
  report_list (rig, RW_LINE_OUTPUT);
  report_edit (rig, RW_LINE_NAME, "Kick in");
  report_edit (rig, RW_LINE_STRIP, "200");
  return 0;
}
