/* SPDX-License-Identifier: MIT */
/* The scanner and the writer of JSON by themselves: tokens, numbers, limits. */
#include <file/rw-file.h>
#include <file/rw-json.h>
#include <float.h>
#include <math.h>
#include <string.h>
#include <unistd.h>

static void
scan (RwJson *json, const char *text)
{
  g_autoptr (GError) error = NULL;

  rw_json_scan (json, text, strlen (text), &error);
  g_assert_no_error (error);
}

static void
test_tokens (void)
{
  g_auto (RwJson) json = { 0 };

  scan (&json, "{\"a\": [1, -2.5, {}], \"b\": \"x\\ty\", \"c\": [], \"d\": null}");
  g_assert_cmpuint (json.n, ==, 12);
  g_assert_cmpint (rw_json_type (&json, 0), ==, RW_JSON_OBJECT);
  g_assert_cmpuint (rw_json_next (&json, 0), ==, 12);
  g_assert_cmpuint (rw_json_count (&json, 0), ==, 8);
  g_assert_cmpuint (rw_json_member (&json, 0, "a"), ==, 2);
  g_assert_cmpuint (rw_json_count (&json, 2), ==, 3);
  g_assert_cmpuint (rw_json_next (&json, 2), ==, 6);
  g_assert_cmpuint (rw_json_member (&json, 0, "d"), ==, 11);
  g_assert_cmpuint (rw_json_member (&json, 0, "e"), ==, 0);
  g_assert_cmpuint (sizeof (RwJsonToken), ==, 8); /* the memory of large rigs stands on this */
}

static void
test_decode (void)
{
  static const struct { const char *json, *text; gsize length; } cases[] = {
    { "\"\"", "", 0 },
    { "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\"", "\"\\/\b\f\n\r\t", 8 },
    { "\"\\u0041\\u00e9\\u20AC\"", "A\xc3\xa9\xe2\x82\xac", 6 },
    { "\"\\ud834\\udd1e\"", "\xf0\x9d\x84\x9e", 4 }, /* the example of RFC 8259 7 */
    { "\"a\\u0000b\"", "a\0b", 3 },
    { "\"\\ud83c\\udf9ax\"", "\xf0\x9f\x8e\x9ax", 5 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (RwJson) json = { 0 };
      char to[32];
      gsize length;
      scan (&json, cases[i].json);
      length = rw_json_decode (&json, 0, to);
      g_assert_cmpmem (to, length, cases[i].text, cases[i].length);
    }
}

/* Against strtod() of the C library, digit for digit. */
static void
check_real (const char *text)
{
  g_auto (RwJson) json = { 0 };
  double value, referee = g_ascii_strtod (text, NULL);

  scan (&json, text);
  value = rw_json_real (&json, 0);
  g_assert_cmpmem (&value, sizeof value, &referee, sizeof referee);
}

static void
test_reals_read (void)
{
  static const char *const edges[] = {
    "0", "-0", "0.0", "-0.0", "1", "-1", "0.1", "-0.3", "123456789012345", "1234567890123456", "999999999999999",
    "0.000000000000001", "1.7976931348623157e308", "5e-324", "2.2250738585072014e-308", "2.2250738585072011e-308",
    "1e-400", "9007199254740993", "1E5", "1e+05", "100000.00000000001", "0.30000000000000004", "12.50",
  };

  for (guint i = 0; i < G_N_ELEMENTS (edges); i++)
    check_real (edges[i]);
  for (guint i = 0; i < 20000; i++)
    {
      const char *sign = g_random_boolean () ? "-" : "";
      g_autofree char *text = g_strdup_printf ("%s%d.%0*u", sign, g_random_int_range (0, 200000),
                                               g_random_int_range (1, 11), g_random_int_range (0, 10000));
      check_real (text);
    }
}

static char *
written (double value)
{
  RwJsonOut out = { .text = g_string_new (NULL) };

  rw_json_out_real (&out, value);
  return g_string_free (out.text, FALSE);
}

/* The expected digits are those of repr() in Python 3, which gives the shortest ones. */
static void
test_reals_written (void)
{
  static const struct { double value; const char *text; } cases[] = {
    { 0, "0" }, { -0.0, "0" }, { 1, "1" }, { -12, "-12" }, { 100000, "100000" }, { 0.1, "0.1" }, { 12.5, "12.5" },
    { 0.1 + 0.2, "0.30000000000000004" }, { 1.0 / 3, "0.3333333333333333" }, { 2.0 / 3, "0.6666666666666666" },
    { 1e-7, "1e-7" }, { 0.0001, "0.0001" }, { 5e-324, "5e-324" }, { 1e-323, "1e-323" }, { 1.5e-310, "1.5e-310" },
    { DBL_MIN, "2.2250738585072014e-308" }, { DBL_MAX, "1.7976931348623157e308" }, { 1e22, "1e22" },
    { 0x1p-44, "5.684341886080802e-14" }, { 0x1p-1074, "5e-324" }, { 0x1p-1022, "2.2250738585072014e-308" },
    { 0x1p-24, "5.960464477539063e-8" }, { 9007199254740993.0, "9007199254740992" },
    { 99999.99999999999, "99999.99999999999" }, { -60.000000000000007, "-60.00000000000001" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = written (cases[i].value);
      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

/* Whatever the bits: what is written reads back, and is JSON. */
static void
test_reals_both_ways (void)
{
  for (guint i = 0; i < 20000; i++)
    {
      guint64 bits = (guint64) g_random_int () << 32 | g_random_int ();
      double value;
      memcpy (&value, &bits, sizeof value);
      if (isfinite (value))
        {
          g_auto (RwJson) json = { 0 };
          g_autofree char *text = written (value);
          scan (&json, text);
          g_assert_true (rw_json_real (&json, 0) == value);
        }
    }
}

static void
assert_where (const char *text, gsize offset, guint line, guint column)
{
  guint l, c;

  rw_json_where (text, offset, &l, &c);
  g_assert_cmpuint (l, ==, line);
  g_assert_cmpuint (c, ==, column);
}

static void
test_where (void)
{
  assert_where ("abc", 0, 1, 1);
  assert_where ("abc", 2, 1, 3);
  assert_where ("a\nbc", 2, 2, 1);
  assert_where ("a\r\nbc", 4, 2, 2);
  assert_where ("\xc3\xa9x", 2, 1, 2); /* columns count characters */
}

static void
assert_refused (const char *text, gsize length, RwFileError code)
{
  RwJson json;
  g_autoptr (GError) error = NULL;

  g_assert_false (rw_json_scan (&json, text, length, &error));
  g_assert_error (error, RW_FILE_ERROR, (int) code);
}

/* The deepest that is allowed, one more, and so much that a parser that calls itself would run out of stack. */
static void
test_depth (void)
{
  g_auto (RwJson) json = { 0 };
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < RW_JSON_MAX_DEPTH; i++)
    g_string_append_c (text, '[');
  for (guint i = 0; i < RW_JSON_MAX_DEPTH; i++)
    g_string_append_c (text, ']');
  scan (&json, text->str);
  g_string_prepend_c (text, '[');
  g_string_append_c (text, ']');
  assert_refused (text->str, text->len, RW_FILE_ERROR_LIMIT);
  g_string_set_size (text, 1000000);
  memset (text->str, '[', text->len);
  assert_refused (text->str, text->len, RW_FILE_ERROR_LIMIT);
}

static void
test_size (void)
{
  gsize length = RW_JSON_MAX_BYTES;
  g_autofree char *text = g_malloc (length + 1);
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = NULL;

  memset (text, ' ', length + 1);
  memcpy (text + length - 15, "{\"rigwright\":1}", 15);
  rig = rw_file_read_bytes (text, length, "large", &error);
  g_assert_no_error (error);
  g_assert_nonnull (rig);
  g_assert_null (rw_file_read_bytes (text, length + 1, "large", &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_LIMIT);
  g_assert_true (g_str_has_prefix (error->message, "large: "));
}

/* Refused by its size before its content is looked at: it is sparse, and would be no JSON. */
static void
test_size_of_file (void)
{
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;
  int fd = g_file_open_tmp ("rw-large-XXXXXX.rig", &path, NULL);

  g_assert_cmpint (ftruncate (fd, (off_t) 1 << 40), ==, 0);
  g_assert_null (rw_file_read (path, &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_LIMIT);
  g_assert_true (g_str_has_prefix (error->message, path));
  close (fd);
  unlink (path);
}

/* 300,000 names in one object: found at once, not in the square of that. */
static void
test_many_names (void)
{
  g_autoptr (GString) text = g_string_new ("{\"rigwright\":1");
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (GString) back = NULL;

  for (guint i = 0; i < 300000; i++)
    g_string_append_printf (text, ",\"n%u\":%u", i, i);
  g_string_append_c (text, '}');
  rig = rw_file_read_bytes (text->str, text->len, "many", &error);
  g_assert_no_error (error);
  back = rw_file_write_bytes (rig);
  g_assert_nonnull (strstr (back->str, "\n  \"n299999\": 299999\n}\n"));
  g_string_truncate (text, text->len - 1);
  g_string_append (text, ",\"n77\":0}");
  g_assert_null (rw_file_read_bytes (text->str, text->len, "many", &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_SYNTAX);
}

/* 4,096 ports are read, one more is refused: work that grows with their square has a bound. */
static void
test_many_ports (void)
{
  g_autoptr (GString) text = g_string_new ("{\"rigwright\":1,\"parts\":[{\"id\":\"p\",\"kind\":\"switch\",\"ports\":[");
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = NULL;

  for (guint i = 1; i <= 4096; i++)
    g_string_append_printf (text, "{\"name\":\"%u\",\"side\":\"network\"}%s", i, i < 4096 ? "," : "]}]}");
  rig = rw_file_read_bytes (text->str, text->len, "ports", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (rw_part_n_ports (rw_rig_part (rig, "p")), ==, 4096);
  g_string_truncate (text, text->len - strlen ("]}]}"));
  g_string_append (text, ",{\"name\":\"x\",\"side\":\"network\"}]}]}");
  g_assert_null (rw_file_read_bytes (text->str, text->len, "ports", &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_STRUCTURE);
  g_assert_cmpstr (error->message, ==, "ports: parts[0].ports: must be an array of at most 4096");
}

static void
test_no_file (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (rw_file_read ("/nowhere/at/all.rig", &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_IO);
  g_assert_cmpstr (error->message, ==, "/nowhere/at/all.rig: cannot be read: No such file or directory");
  g_clear_error (&error);
  g_assert_null (rw_file_read ("/", &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_IO);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/file/json/tokens", test_tokens);
  g_test_add_func ("/file/json/decode", test_decode);
  g_test_add_func ("/file/json/reals-read", test_reals_read);
  g_test_add_func ("/file/json/reals-written", test_reals_written);
  g_test_add_func ("/file/json/reals-both-ways", test_reals_both_ways);
  g_test_add_func ("/file/json/where", test_where);
  g_test_add_func ("/file/json/depth", test_depth);
  g_test_add_func ("/file/json/size", test_size);
  g_test_add_func ("/file/json/size-of-file", test_size_of_file);
  g_test_add_func ("/file/json/many-names", test_many_names);
  g_test_add_func ("/file/json/many-ports", test_many_ports);
  g_test_add_func ("/file/json/no-file", test_no_file);
  return g_test_run ();
}
