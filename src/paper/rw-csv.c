/* SPDX-License-Identifier: MIT */
#include "rw-csv.h"

#include <string.h>

static void
append_cell (GString *text, const char *cell)
{
  if (strpbrk (cell, "\",\r\n") == NULL)
    {
      g_string_append (text, cell);
      return;
    }
  g_string_append_c (text, '"');
  for (; *cell != '\0'; cell++)
    {
      if (*cell == '"')
        g_string_append_c (text, '"');
      g_string_append_c (text, *cell);
    }
  g_string_append_c (text, '"');
}

/**
 * rw_csv_append_row: adds one record after RFC 4180: cells parted by commas, ended by CR LF; a cell that holds a comma,
 * a quote or a line break stands in quotes, and a quote in it is doubled.
 * @cells: ended by NULL; a row of one empty cell is quoted, as an empty line would be no record to some readers
 */
void
rw_csv_append_row (GString *text, const char *const *cells)
{
  if (cells[0] != NULL && cells[0][0] == '\0' && cells[1] == NULL)
    g_string_append (text, "\"\"");
  for (guint i = 0; cells[i] != NULL; i++)
    {
      if (i > 0)
        g_string_append_c (text, ',');
      append_cell (text, cells[i]);
    }
  g_string_append (text, "\r\n");
}
