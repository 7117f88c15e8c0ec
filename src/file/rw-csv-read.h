/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-line.h>

G_BEGIN_DECLS

#define RW_CSV_ERROR (rw_csv_error_quark ())
GQuark rw_csv_error_quark (void);

/**
 * RwCsvError:
 * @RW_CSV_ERROR_BINARY: holds bytes that no table of text has
 * @RW_CSV_ERROR_QUOTE: a quoted field is not closed, or something stands behind its closing quote
 * @RW_CSV_ERROR_SIZE: more bytes, rows or columns than a list of lines can have
 */
typedef enum
{
  RW_CSV_ERROR_BINARY = 1,
  RW_CSV_ERROR_QUOTE,
  RW_CSV_ERROR_SIZE,
} RwCsvError;

/**
 * RwCsvRows:
 * @RW_CSV_FILLED_ROWS: rows without any text are left out, as in a file that a person reads
 * @RW_CSV_ALL_ROWS: these count, too: what is pasted must not close up, or it gets to other rows than those meant
 */
typedef enum
{
  RW_CSV_FILLED_ROWS,
  RW_CSV_ALL_ROWS,
} RwCsvRows;

/**
 * RwCsv: a table as it was written (RFC 4180).
 * @rows: of char **, each NULL-ended, of any number of fields
 * @lines: of guint, by row: the line of the text on which it starts, from 1
 * @lengths: of guint, by row: how many fields it has
 * @separator: ',' ';' or tab
 * @encoding: what the bytes were taken for: "UTF-8", "UTF-16LE", "UTF-16BE", "ISO-8859-1"
 */
typedef struct
{
  GPtrArray *rows;
  GArray *lines;
  GArray *lengths;
  char separator;
  const char *encoding;
} RwCsv;

RwCsv *rw_csv_read (const char *path, GError **error);
RwCsv *rw_csv_parse (const char *bytes, gsize length, char separator, RwCsvRows which, GError **error);
void rw_csv_free (RwCsv *csv);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwCsv, rw_csv_free)
guint rw_csv_n_columns (const RwCsv *csv);
const char *rw_csv_get (const RwCsv *csv, guint row, guint column);

/* rw-csv-header.c */
int rw_csv_find_column (RwLineSide side, const char *heading);
gboolean rw_csv_has_heading (const RwCsv *csv, RwLineSide side);

G_END_DECLS
