/* SPDX-License-Identifier: MIT */
#include <file/rw-csv-read.h>
#include <string.h>

/* Rows parted by '/', fields by '|'. */
static char *
shown (const RwCsv *csv)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < csv->rows->len; i++)
    {
      g_autofree char *row = g_strjoinv ("|", g_ptr_array_index (csv->rows, i));
      g_string_append_printf (text, "%s%s", i > 0 ? "/" : "", row);
    }
  return g_string_free (text, FALSE);
}

typedef struct
{
  const char *name;
  const char *bytes;
  gsize length;
  const char *expected;
  char separator;
  const char *encoding;
} Good;

#define BYTES(text) text, sizeof text - 1

static const Good good[] = {
  { "comma", BYTES ("a,b\r\n1,2\r\n"), "a|b/1|2", ',', "UTF-8" },
  { "no-last-line-end", BYTES ("a,b\n1,2"), "a|b/1|2", ',', "UTF-8" },
  { "semicolon", BYTES ("Name;Gain\nVox, lead;3,5\n"), "Name|Gain/Vox, lead|3,5", ';', "UTF-8" },
  { "tab", BYTES ("a\tb, c\n"), "a|b, c", '\t', "UTF-8" },
  { "old-line-ends", BYTES ("a,b\r1,2\r"), "a|b/1|2", ',', "UTF-8" },
  /* RFC 4180 section 2, items 5 to 7 */
  { "quotes", BYTES ("\"aaa\",\"b\r\nbb\",\"c\"\"c\"\r\nzzz,yyy,xxx\r\n"), "aaa|b\r\nbb|c\"c/zzz|yyy|xxx", ',', "UTF-8" },
  { "separator-in-quotes", BYTES ("\"a;b;c\",d\n"), "a;b;c|d", ',', "UTF-8" },
  { "empty-fields", BYTES (",,x\n"), "||x", ',', "UTF-8" },
  { "blank-lines", BYTES ("\n\na,b\n  ,\n\n1,2\n\n"), "a|b/1|2", ',', "UTF-8" },
  { "uneven", BYTES ("a\n1,2,3\n"), "a/1|2|3", ',', "UTF-8" },
  { "mark", BYTES ("\xef\xbb\xbfgr\xc3\xbc\xc3\x9f,b\n"), "grüß|b", ',', "UTF-8" },
  { "latin-1", BYTES ("B\xfchne,b\n"), "Bühne|b", ',', "ISO-8859-1" },
  { "utf-16le", BYTES ("\xff\xfe" "B\0\xfc\0;\0b\0\r\0\n\0"), "Bü|b", ';', "UTF-16LE" },
  { "utf-16be", BYTES ("\xfe\xff\0B\0\xfc\0;\0b\0\n"), "Bü|b", ';', "UTF-16BE" },
  { "utf-16le-unmarked", BYTES ("N\0a\0m\0e\0,\0x\0\n\0"), "Name|x", ',', "UTF-16LE" },
  { "separator-told", BYTES ("sep=;\r\na,b;c\r\n"), "a,b|c", ';', "UTF-8" }, /* as spreadsheets write it */
  { "no-separator-told", BYTES ("sep=;x\n"), "sep=|x", ';', "UTF-8" },
  { "nothing", BYTES (""), "", ',', "UTF-8" },
};

static void
test_good (gconstpointer data)
{
  const Good *g = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (RwCsv) csv = rw_csv_parse (g->bytes, g->length, 0, RW_CSV_FILLED_ROWS, &error);
  g_autofree char *text = NULL;

  g_assert_no_error (error);
  text = shown (csv);
  g_assert_cmpstr (text, ==, g->expected);
  g_assert_cmpint (csv->separator, ==, g->separator);
  g_assert_cmpstr (csv->encoding, ==, g->encoding);
}

typedef struct { const char *name, *bytes; gsize length; int code; const char *says; } Bad;

static const Bad bad[] = {
  { "open-quote", BYTES ("a,b\n1,\"2\n3\n"), RW_CSV_ERROR_QUOTE, "line 2: " },
  { "behind-quote", BYTES ("a,b\n\n\"1\"x,2\n"), RW_CSV_ERROR_QUOTE, "line 3: " },
  { "binary", BYTES ("\x7f" "ELF\0\0\0\1a,b\n"), RW_CSV_ERROR_BINARY, "table of text" },
};

static void
test_bad (gconstpointer data)
{
  const Bad *b = data;
  g_autoptr (GError) error = NULL;

  g_assert_null (rw_csv_parse (b->bytes, b->length, 0, RW_CSV_FILLED_ROWS, &error));
  g_assert_error (error, RW_CSV_ERROR, b->code);
  g_assert_nonnull (strstr (error->message, b->says));
}

static void
test_lines (void)
{
  g_autoptr (RwCsv) csv = rw_csv_parse (BYTES ("a\n\n\"b\nb\"\nc\n"), 0, RW_CSV_FILLED_ROWS, NULL);

  g_assert_cmpuint (csv->lines->len, ==, 3);
  g_assert_cmpuint (g_array_index (csv->lines, guint, 1), ==, 3);
  g_assert_cmpuint (g_array_index (csv->lines, guint, 2), ==, 5);
  g_assert_cmpuint (rw_csv_n_columns (csv), ==, 1);
  g_assert_null (rw_csv_get (csv, 0, 1));
}

static void
test_separator_line (void)
{
  g_autoptr (RwCsv) csv = rw_csv_parse (BYTES ("SEP=\t\na\tb\n"), 0, RW_CSV_FILLED_ROWS, NULL);

  g_assert_cmpuint (g_array_index (csv->lines, guint, 0), ==, 2);
}

/* Rows that are pasted stay apart as they were; only what follows the last line end is no row. */
static void
test_all_rows (void)
{
  static const struct { const char *text, *expected; guint n; } cases[] = {
    { "a\n\nb\n", "a//b", 3 }, { "\"\"\na\n\"\"\n", "/a/", 3 }, { "\n", "", 1 }, { "\"\"\n", "", 1 },
    { "a\r\n\r\n", "a/", 2 },  { "\t\na\tb", "|/a|b", 2 },        { "", "", 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RwCsv) csv = rw_csv_parse (cases[i].text, strlen (cases[i].text), '\t', RW_CSV_ALL_ROWS, NULL);
      g_autofree char *text = shown (csv);

      g_assert_cmpstr (text, ==, cases[i].expected);
      g_assert_cmpuint (csv->rows->len, ==, cases[i].n);
    }
}

/* Too big a table: how big it may be is said. */
static void
test_size (void)
{
  g_autofree char *row = g_strnfill (256, ',');
  g_autofree char *column = g_strnfill (2 * 100001, '\n');
  g_autoptr (GError) wide = NULL;
  g_autoptr (GError) tall = NULL;

  for (guint i = 0; column[i] != '\0'; i += 2)
    column[i] = 'x';
  g_assert_null (rw_csv_parse (row, 256, ',', RW_CSV_FILLED_ROWS, &wide));
  g_assert_error (wide, RW_CSV_ERROR, RW_CSV_ERROR_SIZE);
  g_assert_nonnull (strstr (wide->message, "256"));
  g_assert_null (rw_csv_parse (column, 2 * 100001, ',', RW_CSV_FILLED_ROWS, &tall));
  g_assert_error (tall, RW_CSV_ERROR, RW_CSV_ERROR_SIZE);
  g_assert_nonnull (strstr (tall->message, "100000"));
}

/* Headings as people write them (common practice), and what each means. */
static void
test_headings (void)
{
  static const struct { RwLineSide side; const char *heading; int column; } cases[] = {
    { RW_LINE_INPUT, "Ch", RW_LINE_STRIP },
    { RW_LINE_INPUT, "Channel #", RW_LINE_STRIP },
    { RW_LINE_INPUT, "Kanal-Nr.", RW_LINE_STRIP },
    { RW_LINE_INPUT, "INSTRUMENT", RW_LINE_NAME },
    { RW_LINE_INPUT, "Instrument / Source", RW_LINE_NAME },
    { RW_LINE_INPUT, "Mic / DI", RW_LINE_SOURCE },
    { RW_LINE_INPUT, "+48V", RW_LINE_PHANTOM },
    { RW_LINE_INPUT, "48 V", RW_LINE_PHANTOM },
    { RW_LINE_INPUT, "HPF", RW_LINE_HIGH_PASS },
    { RW_LINE_INPUT, "Stage Box", RW_LINE_STAGE },
    { RW_LINE_INPUT, "Bühne", RW_LINE_STAGE },
    { RW_LINE_INPUT, "Mic stand", RW_LINE_STAND },
    { RW_LINE_INPUT, "Remarks", RW_LINE_NOTES },
    { RW_LINE_INPUT, "Send", RW_LINE_SOCKET },
    { RW_LINE_INPUT, "Receive", RW_LINE_CHANNEL },
    { RW_LINE_OUTPUT, "Send", RW_LINE_CHANNEL },
    { RW_LINE_OUTPUT, "Receive", RW_LINE_SOCKET },
    { RW_LINE_OUTPUT, "Bus no.", RW_LINE_STRIP },
    { RW_LINE_OUTPUT, "To", RW_LINE_STAGE },
    { RW_LINE_INPUT, "Catering", -1 },
    { RW_LINE_INPUT, "", -1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (rw_csv_find_column (cases[i].side, cases[i].heading), ==, cases[i].column);
}

/* A list that we write ourselves is understood whole. */
static void
test_own_headings (void)
{
  for (guint side = 0; side < RW_N_LINE_SIDES; side++)
    for (guint column = 0; column < RW_LINE_N_COLUMNS; column++)
      g_assert_cmpint (rw_csv_find_column (side, rw_line_column_title (side, column)), ==, column);
}

static void
test_has_heading (void)
{
  g_autoptr (RwCsv) with = rw_csv_parse (BYTES ("Ch,Instrument,Mic\n1,Kick,dynamic\n"), 0, RW_CSV_FILLED_ROWS, NULL);
  g_autoptr (RwCsv) without = rw_csv_parse (BYTES ("1,Kick,dynamic\n2,Snare,dynamic\n"), 0, RW_CSV_FILLED_ROWS, NULL);

  g_assert_true (rw_csv_has_heading (with, RW_LINE_INPUT));
  g_assert_false (rw_csv_has_heading (without, RW_LINE_INPUT));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autofree char *path = g_strconcat ("/file/csv-read/good/", good[i].name, NULL);
      g_test_add_data_func (path, &good[i], test_good);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *path = g_strconcat ("/file/csv-read/bad/", bad[i].name, NULL);
      g_test_add_data_func (path, &bad[i], test_bad);
    }
  g_test_add_func ("/file/csv-read/lines", test_lines);
  g_test_add_func ("/file/csv-read/separator-line", test_separator_line);
  g_test_add_func ("/file/csv-read/all-rows", test_all_rows);
  g_test_add_func ("/file/csv-read/size", test_size);
  g_test_add_func ("/file/csv-read/headings", test_headings);
  g_test_add_func ("/file/csv-read/own-headings", test_own_headings);
  g_test_add_func ("/file/csv-read/has-heading", test_has_heading);
  return g_test_run ();
}
