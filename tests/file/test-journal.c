/* SPDX-License-Identifier: MIT */
/* The crash journal: what a crash leaves is what recovery brings back. A crash is a journal that nobody
 * closes: a child process that ends without a word. */
#include <file/rw-file.h>
#include <file/rw-journal.h>
#include <glib/gstdio.h>
#include <rig/rw-edit.h>
#include <rig/rw-error.h>
#include <rig/rw-state.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "random-rig.h"

#define N_EDITS 30

typedef struct
{
  char *folder;
  char *path;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  RandomRig want = { .seed = 11, .devices = 12, .cables = 12, .rows = 10, .channels = 10, .sets = 1, .revisions = 1, .extras = TRUE, .odd = TRUE };
  g_autoptr (RwRig) rig = random_rig_new (&want);
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("rw-journal-XXXXXX", NULL);
  fixture->path = g_build_filename (fixture->folder, "show \xff.rig", NULL); /* a name that is no UTF-8 */
  rw_file_write (rig, fixture->path, &error);
  g_assert_no_error (error);
}

static void
remove_journals (void)
{
  g_autofree char *folder = g_build_filename (g_get_user_state_dir (), "rigwright", "journal", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_unlink (path);
    }
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  remove_journals ();
  g_unlink (fixture->path);
  g_assert_cmpint (g_rmdir (fixture->folder), ==, 0);
  g_free (fixture->folder);
  g_free (fixture->path);
}

static RwHistory *
open_rig (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = path != NULL ? rw_file_read (path, &error) : rw_rig_new ();

  g_assert_no_error (error);
  return rw_history_new (rig);
}

static RwJournal *
open_journal (const char *path)
{
  g_autoptr (GError) error = NULL;
  RwJournal *journal = rw_journal_open (path, &error);

  g_assert_no_error (error);
  return journal;
}

static void
on_changed (RwRig *rig, RwChange *change, gpointer journal)
{
  g_autoptr (GError) error = NULL;

  rw_journal_append (journal, change, &error);
  g_assert_no_error (error);
}

static void
follow (RwHistory *history, RwJournal *journal)
{
  g_signal_connect (rw_history_rig (history), "changed", G_CALLBACK (on_changed), journal);
}

static char *
text_of (RwHistory *history)
{
  return g_string_free (rw_file_write_bytes (rw_history_rig (history)), FALSE);
}

static void
add_part (RwEdit *edit)
{
  g_autofree char *id = rw_edit_fresh_id (edit, "part");
  g_autofree char *json = g_strdup_printf ("{\"id\":\"%s\",\"kind\":\"rack\",\"x-\\u00e9\":[1.0,{}],"
                                           "\"ports\":[{\"name\":\"A\\n\\\"\",\"side\":\"primary\"}]}", id);

  rw_edit_put (edit, rw_file_item_from_json (RW_ITEM_PART, json, NULL));
}

static void
add_device (RwEdit *edit)
{
  g_autofree char *id = rw_edit_fresh_id (edit, "dev");
  g_autofree char *json = g_strdup_printf ("{\"id\":\"%s\",\"part\":\"%s\"}", id, rw_edit_first (edit, RW_ITEM_PART));

  rw_edit_insert_after (edit, rw_file_item_from_json (RW_ITEM_DEVICE, json, NULL), NULL);
}

static void
issue (RwEdit *edit, const RwRig *rig)
{
  g_autofree char *id = rw_edit_fresh_id (edit, "issue");

  rw_edit_put (edit, rw_revision_new (id, "A", "2031-06-14", NULL, NULL, rig));
}

static void
rename_show (RwEdit *edit, guint number)
{
  g_autofree char *title = g_strdup_printf ("Night %u", number);

  rw_edit_set (edit, RW_SHOW_KEY, RW_SHOW_TITLE, g_variant_new_string (title), NULL);
}

/* A change of its own kind for each @number, undone ones among them. */
static void
make_change (RwHistory *history, guint number)
{
  RwEdit *edit = rw_edit_new (rw_history_rig (history), "Try");
  g_autoptr (RwChange) change = NULL;
  const char *device = rw_edit_first (edit, RW_ITEM_DEVICE);

  if (number % 7 == 6)
    issue (edit, rw_history_rig (history));
  else if (number % 5 == 0)
    add_part (edit);
  else if (number % 5 == 1)
    add_device (edit);
  else if (number % 5 == 2 && device != NULL)
    rw_edit_remove_device (edit, device);
  else
    rename_show (edit, number);
  change = rw_edit_finish (edit);
  g_assert_true (rw_history_do (history, change, NULL));
  if (number % 5 == 4)
    rw_history_undo (history);
}

static void
make_changes (RwHistory *history, guint n)
{
  for (guint i = 0; i < n; i++)
    make_change (history, i);
}

/* Opens the document (NULL = a new one), makes changes and ends without closing anything. */
static void
crash (const char *path, guint n)
{
  pid_t child = fork ();
  int status;

  if (child == 0)
    {
      RwHistory *history = open_rig (path);
      follow (history, open_journal (path));
      make_changes (history, n);
      _exit (0);
    }
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
}

/* What the rig of @path is after the changes, made without a crash. */
static char *
expected_text (const char *path, guint n)
{
  g_autoptr (RwHistory) history = open_rig (path);

  make_changes (history, n);
  return text_of (history);
}

static char *
only_journal (void)
{
  g_auto (GStrv) left = rw_journal_list_left ();

  g_assert_cmpuint (g_strv_length (left), ==, 1);
  return g_strdup (left[0]);
}

static void
assert_recovers (RwJournal *journal, RwHistory *history, const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *recovered = NULL;

  rw_journal_recover (journal, history, &error);
  g_assert_no_error (error);
  recovered = text_of (history);
  g_assert_cmpstr (recovered, ==, text);
  g_assert_cmpuint (rw_journal_n_left (journal), ==, 0);
}

static void
assert_holds (const char *path, const char *text)
{
  g_autofree char *found = NULL;

  g_assert_true (g_file_get_contents (path, &found, NULL, NULL));
  g_assert_cmpstr (found, ==, text);
}

static void
test_recover (Fixture *fixture, gconstpointer data)
{
  g_autofree char *expected = expected_text (fixture->path, N_EDITS);
  g_autofree char *before = expected_text (fixture->path, 0);
  g_autofree char *left = NULL;
  g_autofree char *lines = NULL;
  g_autoptr (RwHistory) history = NULL;
  g_autoptr (RwJournal) journal = NULL;

  crash (fixture->path, N_EDITS);
  left = only_journal ();
  g_assert_true (g_file_get_contents (left, &lines, NULL, NULL));
  history = open_rig (fixture->path);
  journal = open_journal (fixture->path);
  follow (history, journal);
  g_assert_cmpuint (rw_journal_n_left (journal), >=, N_EDITS);
  assert_recovers (journal, history, expected);
  assert_holds (left, lines); /* what was read is not written down again */
  g_assert_false (rw_history_is_saved (history));
  while (rw_history_undo (history))
    ;
  {
    g_autofree char *undone = text_of (history);
    g_assert_cmpstr (undone, ==, before);
  }
}

/* A second crash after a recovery loses neither what was recovered nor what came after it. */
static void
test_crash_twice (Fixture *fixture, gconstpointer data)
{
  g_autofree char *expected = NULL;
  g_autoptr (RwHistory) history = NULL;
  g_autoptr (RwJournal) journal = NULL;
  pid_t child;

  crash (fixture->path, 7);
  child = fork ();
  if (child == 0)
    {
      RwHistory *second = open_rig (fixture->path);
      RwJournal *left = open_journal (fixture->path);
      follow (second, left);
      _exit (rw_journal_recover (left, second, NULL) ? (make_change (second, 3), 0) : 1);
    }
  {
    int status;
    g_assert_cmpint (waitpid (child, &status, 0), ==, child);
    g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
  }
  {
    g_autoptr (RwHistory) same = open_rig (fixture->path);
    make_changes (same, 7);
    make_change (same, 3);
    expected = text_of (same);
  }
  history = open_rig (fixture->path);
  journal = open_journal (fixture->path);
  assert_recovers (journal, history, expected);
}

/* Ends without a word after @n changes, of which @n_undone were undone. */
static void
crash_undone (const char *path, guint n, guint n_undone)
{
  pid_t child = fork ();
  int status;

  if (child == 0)
    {
      RwHistory *history = open_rig (path);
      follow (history, open_journal (path));
      make_changes (history, n);
      while (n_undone-- > 0 && rw_history_undo (history))
        ;
      _exit (0);
    }
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
}

/* Changes that were all undone lead back to the file; where one still holds they do not, nor where the file is another. */
static void
test_comes_back (Fixture *fixture, gconstpointer data)
{
  static const struct { guint n_undone; gboolean saved, back; } cases[] = {
    { G_MAXUINT, FALSE, TRUE }, { 3, FALSE, FALSE }, { 0, FALSE, FALSE }, { G_MAXUINT, TRUE, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RwHistory) history = open_rig (fixture->path);
      g_autofree char *before = text_of (history);
      g_autofree char *after = NULL;
      g_autoptr (RwJournal) journal = NULL;

      remove_journals ();
      crash_undone (fixture->path, 10, cases[i].n_undone);
      if (cases[i].saved)
        g_assert_true (g_file_set_contents (fixture->path, "{\"rigwright\": 1}", -1, NULL));
      journal = open_journal (fixture->path);
      g_assert_cmpuint (rw_journal_n_left (journal), >, 0);
      g_assert_true (rw_journal_comes_back (journal, rw_history_rig (history)) == cases[i].back);
      after = text_of (history);
      g_assert_cmpstr (after, ==, before);
    }
}

/* Cut off at every byte of its last line: the changes before it come back. */
static void
test_torn (Fixture *fixture, gconstpointer data)
{
  g_autofree char *expected = expected_text (fixture->path, 6);
  g_autofree char *left = NULL;
  g_autofree char *text = NULL;
  gsize length, line;

  crash (fixture->path, 7);
  left = only_journal ();
  g_assert_true (g_file_get_contents (left, &text, &length, NULL));
  line = (gsize) (g_strrstr_len (text, (gssize) length - 1, "\n") - text) + 1;
  for (gsize cut = line; cut < length; cut += 5)
    {
      g_autoptr (RwHistory) history = open_rig (fixture->path);
      RwJournal *journal;
      g_assert_true (g_file_set_contents (left, text, (gssize) cut, NULL));
      journal = open_journal (fixture->path);
      assert_recovers (journal, history, expected);
      rw_journal_close (journal);
    }
}

/* Zeros that a failure of the power left behind the last line: the changes before them come back, and later ones follow these. */
static void
test_zeros (Fixture *fixture, gconstpointer data)
{
  static const char zeros[512];
  g_autofree char *expected = expected_text (fixture->path, 7);
  g_autofree char *left = NULL;
  g_autofree char *text = NULL;
  g_autofree char *again = NULL;
  g_autoptr (RwHistory) history = open_rig (fixture->path);
  g_autoptr (RwJournal) journal = NULL;
  gsize length, length_again;
  FILE *file;

  crash (fixture->path, 7);
  left = only_journal ();
  g_assert_true (g_file_get_contents (left, &text, &length, NULL));
  file = g_fopen (left, "a");
  g_assert_cmpuint (fwrite (zeros, 1, sizeof zeros, file), ==, sizeof zeros);
  fclose (file);
  journal = open_journal (fixture->path);
  assert_recovers (journal, history, expected);
  g_assert_true (g_file_get_contents (left, &again, &length_again, NULL));
  g_assert_cmpmem (again, length_again, text, length);
}

/* A line that fits no more: what came before it is kept, the rest dropped, and the error says where. */
static void
test_damaged (Fixture *fixture, gconstpointer data)
{
  g_autofree char *expected = expected_text (fixture->path, 6);
  g_autofree char *left = NULL;
  g_autofree char *recovered = NULL;
  g_autofree char *text = NULL;
  g_autoptr (RwHistory) history = open_rig (fixture->path);
  g_autoptr (RwJournal) journal = NULL;
  g_autoptr (GError) error = NULL;
  FILE *file;

  crash (fixture->path, 6);
  left = only_journal ();
  file = g_fopen (left, "a");
  fputs ("{\"name\":\"x\",\"entries\":[{\"type\":\"devices\",\"key\":\"nobody\",\"after\":null,\"place\":null}]}\n",
         file);
  fclose (file);
  journal = open_journal (fixture->path);
  g_assert_false (rw_journal_recover (journal, history, &error));
  g_assert_error (error, RW_RIG_ERROR, RW_RIG_ERROR_STALE);
  g_assert_nonnull (strstr (error->message, ": line "));
  recovered = text_of (history);
  g_assert_cmpstr (recovered, ==, expected);
  g_assert_true (g_file_get_contents (left, &text, NULL, NULL));
  g_assert_null (strstr (text, "nobody"));
}

/* The file was saved, or changed by another program, after the changes were made: they are not mixed in. */
static void
test_newer_file (Fixture *fixture, gconstpointer data)
{
  g_autoptr (RwHistory) history = NULL;
  g_autoptr (RwRig) rig = rw_rig_new ();
  g_autoptr (RwJournal) journal = NULL;
  g_autoptr (GError) error = NULL;

  crash (fixture->path, 5);
  g_assert_true (rw_file_write (rig, fixture->path, NULL));
  history = open_rig (fixture->path);
  journal = open_journal (fixture->path);
  g_assert_false (rw_journal_recover (journal, history, &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_STRUCTURE);
  g_assert_true (rw_history_is_saved (history));
  g_assert_cmpuint (rw_journal_n_left (journal), >, 0); /* until the window drops them */
  g_assert_true (rw_journal_restart (journal, fixture->path, NULL));
  g_assert_cmpuint (rw_journal_n_left (journal), ==, 0);
}

static void
test_never_saved (Fixture *fixture, gconstpointer data)
{
  g_autofree char *expected = expected_text (NULL, N_EDITS);
  g_autofree char *left = NULL;
  g_autoptr (RwHistory) history = open_rig (NULL);
  g_autoptr (RwJournal) journal = NULL;
  g_autoptr (GError) error = NULL;

  crash (NULL, N_EDITS);
  left = only_journal ();
  journal = rw_journal_open_left (left, &error);
  g_assert_no_error (error);
  g_assert_null (rw_journal_document (journal));
  assert_recovers (journal, history, expected);
}

static void
test_left_names_document (Fixture *fixture, gconstpointer data)
{
  g_autofree char *left = NULL;
  g_autoptr (RwJournal) journal = NULL;

  crash (fixture->path, 1);
  left = only_journal ();
  journal = rw_journal_open_left (left, NULL);
  g_assert_cmpstr (rw_journal_document (journal), ==, fixture->path);
}

/* Only one window at a time; and what is open is not offered for recovery. */
static void
test_held (Fixture *fixture, gconstpointer data)
{
  g_autoptr (RwHistory) history = open_rig (fixture->path);
  g_autoptr (RwJournal) journal = open_journal (fixture->path);
  g_auto (GStrv) left = NULL;
  g_autoptr (GError) error = NULL;

  follow (history, journal);
  make_changes (history, 3);
  g_assert_null (rw_journal_open (fixture->path, &error));
  g_assert_error (error, RW_FILE_ERROR, RW_FILE_ERROR_IO);
  left = rw_journal_list_left ();
  g_assert_cmpuint (g_strv_length (left), ==, 0);
}

static guint
count_journals (void)
{
  g_autofree char *folder = g_build_filename (g_get_user_state_dir (), "rigwright", "journal", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
test_close_and_save (Fixture *fixture, gconstpointer data)
{
  g_autofree char *other = g_build_filename (fixture->folder, "other.rig", NULL);
  g_autoptr (RwHistory) history = open_rig (fixture->path);
  RwJournal *journal = open_journal (fixture->path);

  follow (history, journal);
  make_changes (history, 3);
  g_assert_true (rw_file_write (rw_history_rig (history), other, NULL));
  g_assert_true (rw_journal_restart (journal, other, NULL));
  g_assert_cmpstr (rw_journal_document (journal), ==, other);
  g_assert_cmpuint (count_journals (), ==, 1);
  g_signal_handlers_disconnect_by_func (rw_history_rig (history), on_changed, journal);
  rw_journal_close (journal);
  g_assert_cmpuint (count_journals (), ==, 0);
  g_unlink (other);
}

/* What was left and not decided on outlasts a window that only looked. */
static void
test_undecided (Fixture *fixture, gconstpointer data)
{
  g_autofree char *left = NULL;

  crash (fixture->path, 2);
  rw_journal_close (open_journal (fixture->path));
  left = only_journal ();
  g_assert_nonnull (left);
}

static void
add (const char *path, void (*test) (Fixture *, gconstpointer))
{
  g_test_add (path, Fixture, NULL, set_up, test, tear_down);
}

/* As G_TEST_OPTION_ISOLATE_DIRS would, which leaks. */
static void
remove_state (const char *state)
{
  g_autofree char *folder = g_build_filename (state, "rigwright", NULL);
  g_autofree char *journals = g_build_filename (folder, "journal", NULL);

  g_assert_cmpint (g_rmdir (journals), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_assert_cmpint (g_rmdir (state), ==, 0);
}

int
main (int argc, char **argv)
{
  g_autofree char *state = g_dir_make_tmp ("rw-state-XXXXXX", NULL);
  int result;

  g_setenv ("XDG_STATE_HOME", state, TRUE);
  g_test_init (&argc, &argv, NULL);
  add ("/file/journal/recover", test_recover);
  add ("/file/journal/crash-twice", test_crash_twice);
  add ("/file/journal/comes-back", test_comes_back);
  add ("/file/journal/torn", test_torn);
  add ("/file/journal/zeros", test_zeros);
  add ("/file/journal/damaged", test_damaged);
  add ("/file/journal/newer-file", test_newer_file);
  add ("/file/journal/never-saved", test_never_saved);
  add ("/file/journal/left-names-document", test_left_names_document);
  add ("/file/journal/held", test_held);
  add ("/file/journal/close-and-save", test_close_and_save);
  add ("/file/journal/undecided", test_undecided);
  result = g_test_run ();
  remove_state (state);
  return result;
}
