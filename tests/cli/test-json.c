/* SPDX-License-Identifier: MIT */
/* The JSON of the command line, which is written piece by piece, against json-glib: parsed by it and printed again it is the same to the byte. */
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <json-glib/json-glib.h>

/* Names with all that JSON escapes, and what it does not: a solidus, DEL, letters beyond ASCII, none at all. */
#define ODD "{\"rigwright\": 1, \"parts\": [{\"id\": \"rack\", \"name\": \"\\\"Rack\\\" \\\\ / \\u007f\", \"kind\": \"rack\", \"sends\": 8, \"ports\": " \
            "[{\"name\": \"\\t1\\b\\f\", \"side\": \"primary\"}, {\"name\": \"2\\u001f\", \"side\": \"secondary\"}]}]," \
            "\"devices\": [{\"id\": \"a\", \"part\": \"rack\", \"name\": \"Bühne\\n\\\"links\\\" 台\", \"location\": \"\"}, " \
            "{\"id\": \"b\", \"part\": \"rack\", \"name\": \"\", \"location\": \"x\\r\\u0001\"}]," \
            "\"cables\": [{\"id\": \"c1\", \"from\": [\"a\", \"\\t1\\b\\f\"], \"to\": [\"b\", \"\\t1\\b\\f\"], \"label\": \"N\\\\1\"}, " \
            "{\"id\": \"c2\", \"from\": [\"a\", \"2\\u001f\"], \"to\": [\"b\", \"2\\u001f\"], \"length_m\": 0.1, \"bends\": [[1.5, 2], [3, 1e5]]}]}"

static GPtrArray *examples; /* of paths, by name */
static char *odd, *empty;

static void
check_bytes (const char *output)
{
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *again = NULL, *text = NULL;

  json_parser_load_from_data (parser, output, -1, &error);
  g_assert_no_error (error);
  json_generator_set_pretty (generator, TRUE);
  json_generator_set_root (generator, json_parser_get_root (parser));
  text = json_generator_to_data (generator, NULL);
  again = g_strconcat (text, "\n", NULL);
  g_assert_cmpstr (output, ==, again);
}

/* Runs the program with the words, NULL-terminated. (transfer full). */
static char *
output_of (const char *const *words, int most_status)
{
  g_autoptr (GStrvBuilder) argv = g_strv_builder_new ();
  g_auto (GStrv) all = NULL;
  g_autoptr (GSubprocess) process = NULL;
  g_autoptr (GError) error = NULL;
  char *output;

  g_strv_builder_add (argv, g_getenv ("RIGWRIGHT_CLI"));
  for (guint i = 0; words[i] != NULL; i++)
    g_strv_builder_add (argv, words[i]);
  all = g_strv_builder_end (argv);
  process = g_subprocess_newv ((const char *const *) all, G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_SILENCE, &error);
  g_assert_no_error (error);
  g_subprocess_communicate_utf8 (process, NULL, NULL, &output, NULL, &error);
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_if_exited (process));
  g_assert_cmpint (g_subprocess_get_exit_status (process), <=, most_status);
  return output;
}

#define check(most_status, ...) G_STMT_START { \
  const char *const words_[] = { __VA_ARGS__, NULL }; \
  g_autofree char *output_ = output_of (words_, most_status); \
  check_bytes (output_); } G_STMT_END

static void
test_check (void)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new ();
  g_autofree char *output = NULL;

  for (guint i = 0; i < examples->len; i++)
    check (1, "check", "--json", g_ptr_array_index (examples, i));
  check (1, "check", "--json", odd);
  check (1, "check", "--json", empty);
  g_ptr_array_add (all, (gpointer) "check");
  g_ptr_array_add (all, (gpointer) "--json");
  g_ptr_array_extend (all, examples, NULL, NULL);
  g_ptr_array_add (all, (gpointer) "/nowhere/at all.rig");
  g_ptr_array_add (all, odd);
  g_ptr_array_add (all, NULL);
  output = output_of ((const char *const *) all->pdata, 2);
  check_bytes (output);
}

static void
test_facts (void)
{
  for (guint i = 0; i < examples->len; i++)
    {
      check (0, "facts", "--json", g_ptr_array_index (examples, i));
      check (0, "facts", "--json", "--list", g_ptr_array_index (examples, i));
    }
  check (0, "facts", "--json", "--from", "a", "--to", "b", odd);
  check (0, "facts", "--json", empty);
}

static void
test_compare (void)
{
  for (guint i = 1; i < examples->len; i++)
    check (1, "compare", "--json", g_ptr_array_index (examples, i - 1), g_ptr_array_index (examples, i));
  check (1, "compare", "--json", odd, g_ptr_array_index (examples, 0));
  check (1, "compare", "--json", g_ptr_array_index (examples, 0), odd);
  check (0, "compare", "--json", odd, odd);
}

/* A single rig that cannot be read gives no JSON at all, not half of one. */
static void
test_nothing (void)
{
  const char *const words[] = { "check", "--json", "/nowhere/at all.rig", NULL };
  g_autofree char *output = output_of (words, 2);

  g_assert_cmpstr (output, ==, "");
}

static char *
written (const char *folder, const char *name, const char *text)
{
  char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  return path;
}

static int
compare_paths (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *) a, *(char *const *) b);
}

static void
find_examples (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("RIGWRIGHT_DATADIR"), "examples", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  g_assert_nonnull (dir);
  examples = g_ptr_array_new_with_free_func (g_free);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".rig"))
      g_ptr_array_add (examples, g_build_filename (folder, name, NULL));
  g_assert_cmpuint (examples->len, >, 10);
  g_ptr_array_sort (examples, compare_paths);
}

int
main (int argc, char *argv[])
{
  g_autofree char *folder = NULL;
  int status;

  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("cli-json-XXXXXX", NULL);
  find_examples ();
  odd = written (folder, "odd \"name\".rig", ODD);
  empty = written (folder, "empty.rig", "{\"rigwright\": 1}");
  g_test_add_func ("/cli-json/check", test_check);
  g_test_add_func ("/cli-json/facts", test_facts);
  g_test_add_func ("/cli-json/compare", test_compare);
  g_test_add_func ("/cli-json/nothing", test_nothing);
  status = g_test_run ();
  g_remove (odd);
  g_remove (empty);
  g_rmdir (folder);
  g_free (odd);
  g_free (empty);
  g_ptr_array_unref (examples);
  return status;
}
