/* SPDX-License-Identifier: MIT */
#include "rw-csv-write.h"

#include <string.h>

static void
append_cell (GString *text, const char *cell, char separator)
{
  if (strpbrk (cell, "\"\r\n") == NULL && strchr (cell, separator) == NULL)
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
 * rw_csv_append_row: adds one record after RFC 4180: cells parted by @separator, ended by CR LF; a cell that holds a
 * separator, a quote or a line break stands in quotes, and a quote in it is doubled.
 * @separator: ',' in files; a tab is what spreadsheets put on the clipboard, with rows that end in LF alone
 * @cells: ended by NULL; a row of one empty cell is quoted, as an empty line would be no record to some readers
 */
void
rw_csv_append_row (GString *text, const char *const *cells, char separator)
{
  if (cells[0] != NULL && cells[0][0] == '\0' && cells[1] == NULL)
    g_string_append (text, "\"\"");
  for (guint i = 0; cells[i] != NULL; i++)
    {
      if (i > 0)
        g_string_append_c (text, separator);
      append_cell (text, cells[i], separator);
    }
  g_string_append (text, separator == '\t' ? "\n" : "\r\n");
}
