/* SPDX-License-Identifier: MIT */
#include "rw-journal.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "rw-file.h"
#include "rw-journal-line.h"

#define SUFFIX ".journal"

struct _RwJournal
{
  char *path;
  char *document; /* absolute; NULL = a rig that was never saved */
  int fd;         /* holds the lock */
  guint n_left;
  gint64 last_change; /* of the file, before it was opened here; seconds since 1970 */
  gboolean recovering;
};

static gboolean
fail (const char *path, const char *what, GError **error)
{
  int code = errno;
  g_autofree char *name = g_filename_display_name (path);

  /* Translators: the file of the crash journal, what failed, and the system's reason. */
  g_set_error (error, RW_FILE_ERROR, RW_FILE_ERROR_IO, _("%s: %s: %s"), name, what, g_strerror (code));
  return FALSE;
}

static char *
journal_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "rigwright", "journal", NULL);
}

/* One name for each document, whatever characters its path has; a name of its own for a rig without. */
static char *
journal_path (const char *document)
{
  g_autofree char *folder = journal_folder ();
  g_autofree char *stem = document != NULL ? g_compute_checksum_for_string (G_CHECKSUM_SHA256, document, -1)
                                           : g_uuid_string_random ();
  g_autofree char *name = g_strconcat (stem, SUFFIX, NULL);

  return g_build_filename (folder, name, NULL);
}

static RwJournal *
journal_new (char *path, const char *document)
{
  RwJournal *journal = g_new0 (RwJournal, 1);

  journal->path = path;
  journal->document = g_strdup (document);
  journal->fd = -1;
  return journal;
}

static void
journal_free (RwJournal *journal)
{
  if (journal->fd >= 0)
    close (journal->fd);
  g_free (journal->path);
  g_free (journal->document);
  g_free (journal);
}

/* Opens the file and holds it against other windows and programs, until it is closed or the program ends. */
static gboolean
take (RwJournal *journal, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (journal->path);
  struct stat status;

  if (g_mkdir_with_parents (folder, 0700) != 0)
    return fail (folder, _("the folder of the crash journal cannot be made"), error);
  journal->fd = g_open (journal->path, O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
  if (journal->fd < 0)
    return fail (journal->path, _("the crash journal cannot be opened"), error);
  if (flock (journal->fd, LOCK_EX | LOCK_NB) != 0)
    return fail (journal->path, _("this rig is open already"), error);
  if (fstat (journal->fd, &status) == 0)
    journal->last_change = status.st_mtime;
  return TRUE;
}

static gboolean
write_all (RwJournal *journal, const char *data, gsize length, GError **error)
{
  while (length > 0)
    {
      gssize n = write (journal->fd, data, length);
      if (n < 0 && errno != EINTR)
        return fail (journal->path, _("the crash journal cannot be written"), error);
      data += MAX (n, 0);
      length -= (gsize) MAX (n, 0);
    }
  return TRUE;
}

/* All or nothing, so that what follows a failed line does not become part of it. */
static gboolean
write_line (RwJournal *journal, GString *line, GError **error)
{
  goffset end = lseek (journal->fd, 0, SEEK_END);

  g_string_append_c (line, '\n');
  if (write_all (journal, line->str, line->len, error))
    return TRUE;
  if (ftruncate (journal->fd, end) != 0)
    g_warning ("%s: a torn line stays: %s", journal->path, g_strerror (errno));
  return FALSE;
}

static gboolean
begin (RwJournal *journal, GError **error)
{
  g_autofree char *base = rw_journal_line_digest (journal->document);
  g_autoptr (GString) line = rw_journal_line_head (journal->document, base);

  journal->n_left = 0;
  if (ftruncate (journal->fd, 0) != 0)
    return fail (journal->path, _("the crash journal cannot be emptied"), error);
  return write_line (journal, line, error);
}

/* Cuts off what stands after the first @keep lines. */
static gboolean
cut (RwJournal *journal, const char *text, guint keep, GError **error)
{
  const char *p = text;

  for (guint i = 0; i < keep; i++)
    p = strchr (p, '\n') + 1;
  return ftruncate (journal->fd, p - text) == 0 || fail (journal->path, _("the crash journal cannot be cut"), error);
}

/* @length: (out) (optional): of the whole file; its text ends at the first zero byte */
static char *
load (RwJournal *journal, gsize *length, GError **error)
{
  char *text = NULL;
  GError *local = NULL;

  if (!g_file_get_contents (journal->path, &text, length, &local))
    {
      g_set_error (error, RW_FILE_ERROR, RW_FILE_ERROR_IO, "%s", local->message);
      g_error_free (local);
    }
  return text;
}

static guint
count_lines (const char *text)
{
  guint n = 0;

  for (const char *p = strchr (text, '\n'); p != NULL; p = strchr (p + 1, '\n'))
    n++;
  return n;
}

/* What an earlier session left, without the line that it was at when it crashed. */
static gboolean
adopt (RwJournal *journal, GError **error)
{
  gsize length = 0;
  g_autofree char *text = load (journal, &length, error);
  guint lines;

  if (text == NULL)
    return FALSE;
  lines = count_lines (text);
  if (lines < 2)
    return begin (journal, error);
  journal->n_left = lines - 1;
  /* Whole as it is, it keeps its date. Where the power failed, zeros may stand behind the last line. */
  return (strlen (text) == length && text[length - 1] == '\n') || cut (journal, text, lines, error);
}

/**
 * rw_journal_open:
 * @document: (nullable): path of the rig's file, %NULL = it was never saved
 * @error: RW_FILE_ERROR_IO, also where another window or program has this journal open
 *
 * Opens a document's journal and keeps what a crashed session left in it; see rw_journal_n_left().
 *
 * Returns: (transfer full) (nullable): the journal
 */
RwJournal *
rw_journal_open (const char *document, GError **error)
{
  g_autofree char *full = document != NULL ? g_canonicalize_filename (document, NULL) : NULL;
  RwJournal *journal = journal_new (journal_path (full), full);

  if (take (journal, error) && adopt (journal, error))
    return journal;
  journal_free (journal);
  return NULL;
}

static gboolean
is_left (const char *path)
{
  g_autofree char *text = NULL;
  int fd = g_open (path, O_RDONLY | O_CLOEXEC, 0);
  gboolean left;

  if (fd < 0)
    return FALSE;
  left = flock (fd, LOCK_EX | LOCK_NB) == 0 && g_file_get_contents (path, &text, NULL, NULL) && count_lines (text) > 1;
  close (fd);
  return left;
}

static int
compare_paths (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/**
 * rw_journal_list_left:
 *
 * Returns: (transfer full): paths of the journals in which a crashed session left changes, for
 * rw_journal_open_left(); in the order of their names
 */
char **
rw_journal_list_left (void)
{
  g_autofree char *folder = journal_folder ();
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  GPtrArray *found = g_ptr_array_new ();
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      char *path = g_build_filename (folder, name, NULL);
      if (g_str_has_suffix (name, SUFFIX) && is_left (path))
        g_ptr_array_add (found, path);
      else
        g_free (path);
    }
  g_ptr_array_sort (found, compare_paths);
  g_ptr_array_add (found, NULL);
  return (char **) g_ptr_array_free (found, FALSE);
}

/**
 * rw_journal_open_left:
 * @path: one of rw_journal_list_left()
 * @error: as rw_journal_open(), or RW_FILE_ERROR_STRUCTURE where it is no journal
 *
 * Returns: (transfer full) (nullable): the journal; rw_journal_document() says which rig it belongs to
 */
RwJournal *
rw_journal_open_left (const char *path, GError **error)
{
  RwJournal *journal = journal_new (g_strdup (path), NULL);
  g_autofree char *text = NULL;
  g_autofree char *base = NULL;

  if (take (journal, error) && (text = load (journal, NULL, error)) != NULL
      && rw_journal_line_parse_head (text, path, &journal->document, &base, error) && adopt (journal, error))
    return journal;
  journal_free (journal);
  return NULL;
}

/**
 * rw_journal_close:
 * @journal: (transfer full): a journal
 *
 * Ends a journal and removes its file: the document was closed as its user wished. Changes that were left and
 * neither recovered nor dropped stay for another time.
 */
void
rw_journal_close (RwJournal *journal)
{
  if (journal->n_left == 0)
    g_unlink (journal->path);
  journal_free (journal);
}

/* The absolute path of the rig's file; NULL = it was never saved. */
const char *
rw_journal_document (const RwJournal *journal)
{
  return journal->document;
}

/**
 * rw_journal_n_left:
 *
 * Returns: how many changes a crashed session left that were neither recovered nor dropped
 */
guint
rw_journal_n_left (const RwJournal *journal)
{
  return journal->n_left;
}

/**
 * rw_journal_left_at:
 *
 * Returns: when the last of the changes that a crashed session left was made, in seconds since 1970, UTC
 */
gint64
rw_journal_left_at (const RwJournal *journal)
{
  return journal->last_change;
}

static gboolean
check_base (RwJournal *journal, const char *text, GError **error)
{
  g_autofree char *document = NULL;
  g_autofree char *then = NULL;
  g_autofree char *now = rw_journal_line_digest (journal->document);
  g_autofree char *name = NULL;

  if (!rw_journal_line_parse_head (text, journal->path, &document, &then, error))
    return FALSE;
  if (g_strcmp0 (then, now) == 0)
    return TRUE;
  name = g_filename_display_name (journal->document != NULL ? journal->document : journal->path);
  /* Translators: a rig file. */
  g_set_error (error, RW_FILE_ERROR, RW_FILE_ERROR_STRUCTURE,
               _("%s: the changes cannot be recovered: the file was saved or changed after they were made"), name);
  return FALSE;
}

static gboolean
replay (RwJournal *journal, RwHistory *history, const char *text, guint *done, GError **error)
{
  const char *line = strchr (text, '\n') + 1;

  for (*done = 0; *done < journal->n_left; ++*done)
    {
      const char *end = strchr (line, '\n');
      g_autoptr (RwChange) change = rw_journal_line_parse (line, (gsize) (end - line), rw_history_rig (history), error);
      if (change == NULL || !rw_history_do (history, change, error))
        {
          g_prefix_error (error, "%s: line %u: ", journal->path, *done + 2);
          return FALSE;
        }
      line = end + 1;
    }
  return TRUE;
}

/**
 * rw_journal_comes_back:
 * @journal: a journal with changes left
 * @rig: the rig just as its file holds it (a new one where there is no file); stays as it is
 *
 * Returns: whether the changes that were left lead back to @rig, as where all were undone: none is worth recovering
 */
gboolean
rw_journal_comes_back (RwJournal *journal, const RwRig *rig)
{
  g_autofree char *text = load (journal, NULL, NULL);
  g_autoptr (RwRig) copy = rw_rig_copy (rig);
  g_autoptr (RwHistory) history = rw_history_new (copy);
  g_autofree char *before = g_string_free (rw_file_write_bytes (copy), FALSE);
  g_autofree char *after = NULL;
  guint done;

  if (text == NULL || !check_base (journal, text, NULL) || !replay (journal, history, text, &done, NULL))
    return FALSE;
  after = g_string_free (rw_file_write_bytes (copy), FALSE);
  return g_str_equal (before, after);
}

/**
 * rw_journal_recover:
 * @journal: a journal with changes left
 * @history: an empty history of the rig just as its file holds it (a new rig where there is no file)
 * @error: of RW_FILE_ERROR or RW_RIG_ERROR, where not all could be recovered
 *
 * Carries the changes out on the rig; they can be undone, and stay in the journal for the next crash. Where
 * one does not fit, those before it stay done and the rest is dropped.
 *
 * Returns: %TRUE where all were recovered
 */
gboolean
rw_journal_recover (RwJournal *journal, RwHistory *history, GError **error)
{
  g_autofree char *text = load (journal, NULL, error);
  guint done;
  gboolean all;

  if (text == NULL || !check_base (journal, text, error))
    return FALSE;
  journal->recovering = TRUE;
  all = replay (journal, history, text, &done, error);
  journal->recovering = FALSE;
  journal->n_left = 0;
  return all || (cut (journal, text, done + 1, NULL) && FALSE);
}

/**
 * rw_journal_append:
 * @journal: a journal
 * @change: what was just done to the rig
 * @error: RW_FILE_ERROR_IO
 *
 * Puts a change into the journal, where it outlasts a crash of the program (a loss of power may cost the
 * last seconds: that is not waited for here). Does nothing while rw_journal_recover() runs.
 */
gboolean
rw_journal_append (RwJournal *journal, const RwChange *change, GError **error)
{
  g_autoptr (GString) line = NULL;

  if (journal->recovering)
    return TRUE;
  line = rw_journal_line_change (change);
  return write_line (journal, line, error);
}

/* The journal of the document's new name takes the place of the old one. */
static gboolean
move (RwJournal *journal, const char *document, GError **error)
{
  RwJournal *next = journal_new (journal_path (document), document);
  RwJournal old = *journal;

  if (!take (next, error))
    {
      journal_free (next);
      return FALSE;
    }
  *journal = *next;
  *next = old;
  g_unlink (next->path);
  journal_free (next);
  return TRUE;
}

/**
 * rw_journal_restart:
 * @journal: a journal
 * @document: (nullable): path of the rig's file, which may be another one than before
 * @error: RW_FILE_ERROR_IO
 *
 * Forgets all changes: the rig was just saved to @document, or what a crash left is not wanted.
 */
gboolean
rw_journal_restart (RwJournal *journal, const char *document, GError **error)
{
  g_autofree char *full = document != NULL ? g_canonicalize_filename (document, NULL) : NULL;

  if (g_strcmp0 (full, journal->document) != 0 && !move (journal, full, error))
    return FALSE;
  return begin (journal, error);
}
