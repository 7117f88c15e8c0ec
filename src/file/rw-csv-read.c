/* SPDX-License-Identifier: MIT */
#include "rw-csv-read.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define MAX_BYTES (16u << 20)
#define MAX_ROWS 100000u
#define MAX_COLUMNS 256u

G_DEFINE_QUARK (rw-csv-error-quark, rw_csv_error)

/* --- Bytes to UTF-8 --- */

static gboolean
starts (const char *bytes, gsize length, const char *mark, gsize n)
{
  return length >= n && memcmp (bytes, mark, n) == 0;
}

/* UTF-16 without a mark: in a table of mostly Latin text nearly every second byte is zero. */
static const char *
guess_wide (const char *bytes, gsize length)
{
  gsize zeros[2] = { 0, 0 }, n = MIN (length, 4096);

  for (gsize i = 0; i < n; i++)
    zeros[i % 2] += bytes[i] == '\0';
  if (length % 2 != 0 || n < 4)
    return NULL;
  return zeros[1] > n / 5 && zeros[0] == 0 ? "UTF-16LE" : zeros[0] > n / 5 && zeros[1] == 0 ? "UTF-16BE" : NULL;
}

static const char *
find_encoding (const char *bytes, gsize length, gsize *mark)
{
  const char *wide = guess_wide (bytes, length);

  *mark = 2;
  if (starts (bytes, length, "\xff\xfe", 2))
    return "UTF-16LE";
  if (starts (bytes, length, "\xfe\xff", 2))
    return "UTF-16BE";
  *mark = starts (bytes, length, "\xef\xbb\xbf", 3) ? 3 : 0;
  if (wide != NULL)
    return wide;
  return g_utf8_validate_len (bytes, length, NULL) ? "UTF-8" : "ISO-8859-1";
}

/* Returns: (transfer full) (nullable): text without any zero byte */
static char *
to_text (const char *bytes, gsize length, const char **encoding, GError **error)
{
  gsize mark, written;
  g_autofree char *text = NULL;

  *encoding = find_encoding (bytes, length, &mark);
  text = g_convert (bytes + mark, length - mark, "UTF-8", *encoding, NULL, &written, NULL);
  if (text == NULL || strlen (text) != written)
    {
      g_set_error (error, RW_CSV_ERROR, RW_CSV_ERROR_BINARY,
                   _("is no table of text: expected CSV in UTF-8, UTF-16 or Latin-1"));
      return NULL;
    }
  return g_steal_pointer (&text);
}

/* --- Which separator --- */

static const char separators[] = { ',', ';', '\t' };

/* By the first line, its quoted parts left out: a tab where there is one, as none stands in a cell; else what parts it most. */
static char
find_separator (const char *text)
{
  guint n[G_N_ELEMENTS (separators)] = { 0 };
  gboolean quoted = FALSE;
  guint best;

  while (*text == '\r' || *text == '\n')
    text++;
  for (; *text != '\0' && (quoted || (*text != '\n' && *text != '\r')); text++)
    if (*text == '"')
      quoted = !quoted;
    else
      for (guint i = 0; !quoted && i < G_N_ELEMENTS (separators); i++)
        n[i] += *text == separators[i];
  best = n[1] > n[0];
  return separators[n[2] > 0 ? 2 : best];
}

/* (nullable): what stands behind a first line of "sep=;", as spreadsheets write it and take it away again (common
 * practice). */
static const char *
skip_separator_line (const char *text, char *separator)
{
  if (g_ascii_strncasecmp (text, "sep=", 4) != 0 || memchr (separators, text[4], sizeof separators) == NULL
      || (text[5] != '\r' && text[5] != '\n'))
    return NULL;
  *separator = text[4];
  return text + (text[5] == '\r' && text[6] == '\n' ? 7 : 6);
}

/* --- Fields --- */

typedef struct
{
  const char *p;
  guint line;
  char separator;
  RwCsvRows which;
  GPtrArray *row;
  RwCsv *csv;
} Scan;

static gboolean
fail (const Scan *scan, RwCsvError code, const char *why, GError **error)
{
  /* Translators: %u is a number of a line, %s says what is wrong there. */
  g_set_error (error, RW_CSV_ERROR, code, _("line %u: %s"), scan->line, why);
  return FALSE;
}

static gboolean
ends_field (const Scan *scan)
{
  return *scan->p == '\0' || *scan->p == '\n' || *scan->p == '\r' || *scan->p == scan->separator;
}

/* @scan stands on the opening quote; "" inside is one quote. */
static gboolean
read_quoted (Scan *scan, GString *field, GError **error)
{
  guint start = scan->line;

  for (scan->p++;; scan->p++)
    {
      if (*scan->p == '\0')
        {
          scan->line = start;
          return fail (scan, RW_CSV_ERROR_QUOTE, _("a quoted field is not closed"), error);
        }
      if (*scan->p == '"' && scan->p[1] != '"')
        break;
      if (*scan->p == '"')
        scan->p++;
      if (*scan->p == '\n' || (*scan->p == '\r' && scan->p[1] != '\n'))
        scan->line++;
      g_string_append_c (field, *scan->p);
    }
  scan->p++;
  while (*scan->p == ' ' && scan->separator != ' ')
    scan->p++;
  return ends_field (scan) || fail (scan, RW_CSV_ERROR_QUOTE, _("something stands behind a closing quote"), error);
}

static gboolean
read_field (Scan *scan, GError **error)
{
  GString *field = g_string_new (NULL);
  gboolean good = TRUE;

  if (*scan->p == '"')
    good = read_quoted (scan, field, error);
  else
    for (; !ends_field (scan); scan->p++)
      g_string_append_c (field, *scan->p);
  g_ptr_array_add (scan->row, g_string_free (field, FALSE));
  if (good && scan->row->len > MAX_COLUMNS)
    {
      /* Translators: how many columns a table may have */
      g_autofree char *why = g_strdup_printf (_("has more than %u columns"), MAX_COLUMNS);

      return fail (scan, RW_CSV_ERROR_SIZE, why, error);
    }
  return good;
}

static gboolean
is_blank (const GPtrArray *row)
{
  for (guint i = 0; i < row->len; i++)
    for (const char *p = g_ptr_array_index (row, i); *p != '\0'; p++)
      if (!g_ascii_isspace (*p))
        return FALSE;
  return TRUE;
}

static gboolean
has_room (const Scan *scan, GError **error)
{
  g_autofree char *why = NULL;

  if (scan->csv->rows->len <= MAX_ROWS)
    return TRUE;
  /* Translators: how many rows a table may have */
  why = g_strdup_printf (_("the table has more than %u rows"), MAX_ROWS);
  return fail (scan, RW_CSV_ERROR_SIZE, why, error);
}

static gboolean
read_row (Scan *scan, GError **error)
{
  guint line = scan->line;

  scan->row = g_ptr_array_new_with_free_func (g_free);
  for (;;)
    {
      if (!read_field (scan, error))
        {
          g_ptr_array_unref (scan->row);
          return FALSE;
        }
      if (*scan->p != scan->separator)
        break;
      scan->p++;
    }
  if (*scan->p == '\r')
    scan->p += scan->p[1] == '\n' ? 2 : 1;
  else if (*scan->p == '\n')
    scan->p++;
  scan->line++;
  if (scan->which == RW_CSV_FILLED_ROWS && is_blank (scan->row))
    {
      g_ptr_array_unref (scan->row);
      return TRUE;
    }
  g_array_append_val (scan->csv->lengths, scan->row->len);
  g_ptr_array_add (scan->row, NULL);
  g_ptr_array_add (scan->csv->rows, g_ptr_array_free (scan->row, FALSE));
  g_array_append_val (scan->csv->lines, line);
  return has_room (scan, error);
}

/**
 * rw_csv_parse:
 * @bytes: (nullable): what stands in the file or came from the clipboard; need not be text
 * @length: of @bytes
 * @separator: ',' ';' or tab; 0 = find it out from the first line, or by a line such as "sep=;" before it
 * @which: rows; what follows the last line end is no row in any case
 * @error: #RwCsvError
 *
 * RFC 4180, with any line ends, and Latin-1 taken for what is neither UTF-8 nor UTF-16.
 *
 * Returns: (transfer full) (nullable): the table; without rows where there is no text
 */
RwCsv *
rw_csv_parse (const char *bytes, gsize length, char separator, RwCsvRows which, GError **error)
{
  g_autoptr (RwCsv) csv = g_new0 (RwCsv, 1);
  g_autofree char *text = NULL;
  Scan scan = { .line = 1, .which = which };

  csv->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_strfreev);
  csv->lines = g_array_new (FALSE, FALSE, sizeof (guint));
  csv->lengths = g_array_new (FALSE, FALSE, sizeof (guint));
  scan.csv = csv;
  if (length > MAX_BYTES)
    {
      fail (&scan, RW_CSV_ERROR_SIZE, _("the table is over 16 MiB"), error);
      return NULL;
    }
  text = to_text (length > 0 ? bytes : "", length, &csv->encoding, error);
  if (text == NULL)
    return NULL;
  scan.p = separator == 0 ? skip_separator_line (text, &separator) : NULL;
  scan.line += scan.p != NULL;
  scan.p = scan.p != NULL ? scan.p : text;
  csv->separator = scan.separator = separator != 0 ? separator : find_separator (text);
  while (*scan.p != '\0')
    if (!read_row (&scan, error))
      return NULL;
  return g_steal_pointer (&csv);
}

/**
 * rw_csv_read:
 * @path: of a file
 * @error: #RwCsvError or #GFileError; the message names the file
 */
RwCsv *
rw_csv_read (const char *path, GError **error)
{
  g_autofree char *bytes = NULL;
  g_autofree char *name = g_filename_display_name (path);
  gsize length;
  RwCsv *csv;

  if (!g_file_get_contents (path, &bytes, &length, error))
    return NULL;
  csv = rw_csv_parse (bytes, length, 0, RW_CSV_FILLED_ROWS, error);
  if (csv == NULL)
    g_prefix_error (error, "%s: ", name);
  return csv;
}

void
rw_csv_free (RwCsv *csv)
{
  g_ptr_array_unref (csv->rows);
  g_array_unref (csv->lines);
  g_array_unref (csv->lengths);
  g_free (csv);
}

/* Returns: fields of the longest row */
guint
rw_csv_n_columns (const RwCsv *csv)
{
  guint n = 0;

  for (guint i = 0; i < csv->lengths->len; i++)
    n = MAX (n, g_array_index (csv->lengths, guint, i));
  return n;
}

/* Returns: (nullable): the field; %NULL = the row has not so many */
const char *
rw_csv_get (const RwCsv *csv, guint row, guint column)
{
  char **fields = g_ptr_array_index (csv->rows, row);

  return column < g_array_index (csv->lengths, guint, row) ? fields[column] : NULL;
}
