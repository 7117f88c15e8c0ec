/* SPDX-License-Identifier: MIT */
/*
 * One test case for each file of corpus/: y_* must be read, n_* must be refused, i_* is what RFC 8259 or the
 * format leaves open: our choice. Beside each refused file stands NAME.error: the word for the error's code
 * and the place that the message must begin with ("-" = none). y_canonical_* must come back byte for byte;
 * all that is read must say the same to json-glib before and after.
 */
#include <file/rw-file.h>
#include <string.h>

#include "referee.h"

#define FEWEST_FILES 200 /* so that a folder that went missing is noticed */

static void
check_same_values (const char *text, gsize length, const GString *written)
{
  g_autoptr (JsonNode) before = referee_parse (text, length);
  g_autoptr (JsonNode) after = referee_parse (written->str, written->len);

  g_assert_true (referee_equal (before, after));
}

static void
check_read (const char *name, const char *text, gsize length, RwRig *rig)
{
  g_autoptr (GString) written = rw_file_write_bytes (rig);
  g_autoptr (RwRig) again = NULL;
  g_autoptr (GString) second = NULL;
  g_autoptr (GError) error = NULL;

  if (g_str_has_prefix (name, "y_canonical_"))
    g_assert_cmpstr (text, ==, written->str);
  check_same_values (text, length, written);
  again = rw_file_read_bytes (written->str, written->len, name, &error);
  g_assert_no_error (error);
  second = rw_file_write_bytes (again);
  g_assert_cmpstr (written->str, ==, second->str);
}

static RwFileError
find_code (const char *word)
{
  static const struct { const char *word; RwFileError code; } codes[] = {
    { "syntax", RW_FILE_ERROR_SYNTAX }, { "limit", RW_FILE_ERROR_LIMIT }, { "version", RW_FILE_ERROR_VERSION },
    { "structure", RW_FILE_ERROR_STRUCTURE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (codes); i++)
    if (strcmp (word, codes[i].word) == 0)
      return codes[i].code;
  g_error ("“%s” is no word for a code", word);
}

/* The message is "FILE: PLACE: what would be right". */
static void
check_refused (const char *name, char *expected, const GError *error)
{
  g_auto (GStrv) words = g_strsplit (g_strchomp (expected), " ", 2);
  g_autofree char *start = strcmp (words[1], "-") == 0 ? g_strdup_printf ("%s: ", name)
                                                       : g_strdup_printf ("%s: %s: ", name, words[1]);

  g_assert_error (error, RW_FILE_ERROR, (int) find_code (words[0]));
  g_assert_null (strchr (error->message, '\n'));
  if (!g_str_has_prefix (error->message, start) || strlen (error->message) <= strlen (start))
    g_error ("expected “%s…”, the message is “%s”", start, error->message);
}

static void
test_file (gconstpointer data)
{
  const char *path = data;
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *stem = g_strndup (path, strlen (path) - strlen (".rig"));
  g_autofree char *error_path = g_strconcat (stem, ".error", NULL);
  g_autofree char *text = NULL;
  g_autofree char *expected = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  g_file_get_contents (error_path, &expected, NULL, NULL);
  if (name[0] != 'i')
    g_assert_true ((name[0] == 'n') == (expected != NULL));
  rig = rw_file_read_bytes (text, length, name, &error);
  g_test_message ("%s", error != NULL ? error->message : "read");
  if (expected == NULL)
    {
      g_assert_no_error (error);
      check_read (name, text, length, rig);
      return;
    }
  g_assert_null (rig);
  check_refused (name, expected, error);
}

static void
test_there_are_many (gconstpointer count)
{
  g_assert_cmpuint (GPOINTER_TO_UINT (count), >=, FEWEST_FILES);
}

static void
add_file (const char *folder, const char *file)
{
  g_autofree char *test = g_strdup_printf ("/file/corpus/%.*s", (int) (strlen (file) - strlen (".rig")), file);

  g_test_add_data_func_full (test, g_build_filename (folder, file, NULL), test_file, g_free);
}

int
main (int argc, char **argv)
{
  g_autofree char *folder = NULL;
  g_autoptr (GDir) dir = NULL;
  const char *file;
  guint n = 0;

  g_test_init (&argc, &argv, NULL);
  folder = g_test_build_filename (G_TEST_DIST, "file", "corpus", NULL);
  dir = g_dir_open (folder, 0, NULL);
  while (dir != NULL && (file = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (file, ".rig"))
      {
        add_file (folder, file);
        n++;
      }
  g_test_add_data_func ("/file/corpus/there-are-many", GUINT_TO_POINTER (n), test_there_are_many);
  return g_test_run ();
}
