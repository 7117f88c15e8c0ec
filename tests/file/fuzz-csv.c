/* SPDX-License-Identifier: MIT */
/*
 * Any bytes are a table, which comes back from RFC 4180's form, or they are refused with one error. What its cells
 * make of a rig is a rig that comes back from its file, and after undoing it is the rig that it was.
 */
#include <file/rw-csv-read.h>
#include <file/rw-file.h>
#include <rig/rw-history.h>
#include <string.h>

#include "fuzz.h"

/* Small enough to keep the fuzzer quick; the rows beyond are only read. */
#define MOST_ROWS 50

static void
write_field (GString *text, const char *field)
{
  g_string_append_c (text, '"');
  for (const char *p = field; *p != '\0'; p++)
    g_string_append_printf (text, *p == '"' ? "%c\"" : "%c", *p);
  g_string_append_c (text, '"');
}

static void
check_comes_back (const RwCsv *csv)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (RwCsv) again = NULL;

  for (guint i = 0; i < csv->rows->len; i++)
    {
      char **fields = g_ptr_array_index (csv->rows, i);
      for (guint j = 0; fields[j] != NULL; j++)
        {
          g_assert_true (g_utf8_validate (fields[j], -1, NULL));
          if (j > 0)
            g_string_append_c (text, csv->separator);
          write_field (text, fields[j]);
        }
      g_string_append (text, "\r\n");
    }
  again = rw_csv_parse (text->str, text->len, csv->separator, RW_CSV_FILLED_ROWS, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->rows->len, ==, csv->rows->len);
  for (guint i = 0; i < csv->rows->len; i++)
    g_assert_cmpstrv (g_ptr_array_index (again->rows, i), g_ptr_array_index (csv->rows, i));
}

/* Lines are counted up; a row is never blank, and has as many fields as are there. */
static void
check_rows (const RwCsv *csv)
{
  guint most = rw_csv_n_columns (csv);

  g_assert_cmpuint (csv->lines->len, ==, csv->rows->len);
  for (guint i = 0; i < csv->rows->len; i++)
    {
      guint n = g_strv_length (g_ptr_array_index (csv->rows, i));

      g_assert_cmpuint (n, >, 0);
      g_assert_cmpuint (n, <=, most);
      g_assert_null (rw_csv_get (csv, i, n));
      g_assert_cmpuint (g_array_index (csv->lines, guint, i), >, i > 0 ? g_array_index (csv->lines, guint, i - 1) : 0);
    }
}

static RwChange *
change_of (const RwCsv *csv, RwLineSide side, const RwRig *rig, GPtrArray **problems)
{
  RwLineEdit *edit = rw_line_edit_new (rig, side, "Import");
  guint n_columns = rw_csv_n_columns (csv);

  for (guint i = 0; i < MIN (csv->rows->len, MOST_ROWS); i++)
    {
      const char *cells[RW_LINE_N_COLUMNS] = { NULL };

      for (guint j = 0; j < n_columns; j++)
        {
          const char *heading = rw_csv_get (csv, 0, j);
          int column = heading != NULL ? rw_csv_find_column (side, heading) : -1;
          const char *cell = rw_csv_get (csv, i, j);
          column = column >= 0 ? column : (int) (j % RW_LINE_N_COLUMNS);
          if (cell != NULL && *cell != '\0')
            cells[column] = cell;
        }
      rw_line_edit_set (edit, i, NULL, cells);
    }
  return rw_line_edit_finish (edit, problems);
}

static void
check_import (const RwCsv *csv, RwLineSide side)
{
  g_autoptr (RwRig) rig = fuzz_some_rig ();
  g_autoptr (GString) before = rw_file_write_bytes (rig);
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autoptr (GPtrArray) problems = NULL;
  g_autoptr (RwChange) change = change_of (csv, side, rig, &problems);
  g_autoptr (GError) error = NULL;
  g_autoptr (GString) after = NULL;

  for (guint i = 0; i < problems->len; i++)
    {
      const RwLineProblem *problem = g_ptr_array_index (problems, i);
      g_assert_true (problem->row < csv->rows->len && g_utf8_validate (problem->why, -1, NULL) && *problem->why != '\0');
    }
  rw_history_do (history, change, &error);
  g_assert_no_error (error);
  fuzz_rig_comes_back (rig);
  rw_history_undo (history);
  after = rw_file_write_bytes (rig);
  g_assert_cmpstr (after->str, ==, before->str);
}

void
fuzz_csv (const guint8 *data, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwCsv) csv = rw_csv_parse ((const char *) data, size, 0, RW_CSV_FILLED_ROWS, &error);

  g_assert_true ((csv == NULL) == (error != NULL));
  if (csv == NULL)
    {
      g_assert_true (error->domain == RW_CSV_ERROR && g_utf8_validate (error->message, -1, NULL));
      return;
    }
  check_rows (csv);
  check_comes_back (csv);
  for (RwLineSide side = 0; side < RW_N_LINE_SIDES; side++)
    check_import (csv, side);
}
