/* SPDX-License-Identifier: MIT */
#include "rw-cli.h"

#include <errno.h>
#include <fcntl.h>
#include <file/rw-file.h>
#include <gio/gio.h>
#include <glib/gi18n-lib.h>
#include <rig/rw-length.h>
#include <rig/rw-revision.h>
#include <rig/rw-rig-named.h>
#include <stdio.h>
#include <unistd.h>

/* One byte more than a rig file may have, so that a longer one is refused by the reader and not cut. */
#define MOST_BYTES_READ (64 * 1024 * 1024 + 1)

/**
 * rw_cli_hold_standard_files: if the program was started with standard input, output or error closed, holds
 * their places with something that fails when it is used, so that no file opened later takes them.
 */
void
rw_cli_hold_standard_files (void)
{
  for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++)
    if (fcntl (fd, F_GETFD) == -1 && errno == EBADF)
      /* The lowest free number is @fd; it is opened for what it is not used for. */
      if (open ("/dev/null", fd == STDIN_FILENO ? O_WRONLY : O_RDONLY) != fd)
        _exit (RW_EXIT_FAILED);
}

/* Writes "rigwright-cli: MESSAGE" and a newline to standard error. */
void
rw_cli_error (const char *format, ...)
{
  va_list args;
  g_autofree char *message = NULL;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  fprintf (stderr, RW_CLI_NAME ": %s\n", message);
}

/**
 * rw_cli_write: writes results to standard output, as UTF-8.
 * @length: in bytes; -1 if @text ends with NUL
 *
 * Returns: FALSE if they did not all get there; the reason was then told on standard error
 */
gboolean
rw_cli_write (const char *text, gssize length)
{
  gsize n = length < 0 ? strlen (text) : (gsize) length;

  if (fwrite (text, 1, n, stdout) == n && fflush (stdout) == 0)
    return TRUE;
  /* Translators: the reason, from the system */
  rw_cli_error (_("standard output: cannot be written: %s"), g_strerror (errno));
  return FALSE;
}

/**
 * rw_cli_flush: writes what was gathered, which may be larger than all that it came from.
 * @text: is empty afterwards
 * @failed: (inout): set where it could not be written; once it is, nothing more is
 */
void
rw_cli_flush (GString *text, gboolean *failed)
{
  if (!*failed && text->len > 0)
    *failed = !rw_cli_write (text->str, (gssize) text->len);
  g_string_truncate (text, 0);
}

static GByteArray *
read_standard_input (GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 block[65536];

  while (bytes->len < MOST_BYTES_READ)
    {
      gssize n = read (STDIN_FILENO, block, MIN (sizeof block, MOST_BYTES_READ - bytes->len));

      if (n == 0)
        break;
      if (n < 0 && errno == EINTR)
        continue;
      if (n < 0)
        {
          g_set_error (error, G_IO_ERROR, g_io_error_from_errno (errno), _("standard input: cannot be read: %s"),
                       g_strerror (errno));
          return NULL;
        }
      g_byte_array_append (bytes, block, n);
    }
  return g_steal_pointer (&bytes);
}

/**
 * rw_cli_read_rig: reads the rig file @name, or standard input where that is "-".
 * The error's message begins with what was read. (transfer full).
 */
RwRig *
rw_cli_read_rig (const char *name, GError **error)
{
  g_autoptr (GByteArray) bytes = NULL;

  if (!g_str_equal (name, "-"))
    return rw_file_read (name, error);
  bytes = read_standard_input (error);
  return bytes == NULL ? NULL : rw_file_read_bytes ((const char *) bytes->data, bytes->len, _("standard input"), error);
}

/* The letters of the revisions of @rig, for a message. */
static char *
list_letters (const RwRig *rig)
{
  GString *letters = g_string_new (NULL);

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_REVISION); i++)
    g_string_append_printf (letters, "%s%s", i > 0 ? ", " : "", rw_revision_title ((const RwRevision *) rw_rig_items (rig, RW_ITEM_REVISION)[i]));
  if (letters->len == 0)
    g_string_append (letters, _("none"));
  return g_string_free (letters, FALSE);
}

/**
 * rw_cli_read_since: an older state of @rig: that of its revision @word, else the rig in the file @word.
 *
 * Returns: (transfer full) (nullable): NULL was told of on standard error
 */
RwRig *
rw_cli_read_since (const RwRig *rig, const char *rig_name, const char *word)
{
  const RwRevision *revision = rw_revision_find (rig, word);
  g_autoptr (GError) error = NULL;
  g_autofree char *letters = NULL;
  RwRig *state;

  if (revision != NULL)
    return g_object_ref (revision->state);
  if (g_file_test (word, G_FILE_TEST_EXISTS))
    {
      state = rw_cli_read_rig (word, &error);
      if (state == NULL)
        rw_cli_error ("%s", error->message);
      return state;
    }
  letters = list_letters (rig);
  /* Translators: a file; what was typed; the letters that there are. */
  rw_cli_error (_("%s: “%s” is neither a revision of it nor a file; its revisions: %s"), rig_name, word, letters);
  return NULL;
}

/* What was typed, as UTF-8: that is taken as it is in every locale, as all that is written is UTF-8 too. */
static char *
typed_text (const char *word)
{
  char *text = g_utf8_validate (word, -1, NULL) ? g_strdup (word) : g_locale_to_utf8 (word, -1, NULL, NULL, NULL);

  return text != NULL ? text : g_utf8_make_valid (word, -1);
}

/**
 * rw_cli_find: the device of @rig that the @word after an @option means: its id or its name.
 * @option: as it is typed: "--from"
 * @word: as it came: ask for G_OPTION_ARG_FILENAME, which leaves it so
 * @cables: a cable may be meant too, by id or label
 *
 * Returns: (transfer none) (nullable): the id; NULL was told of on standard error
 */
const char *
rw_cli_find (const RwRig *rig, const char *rig_name, const char *option, const char *word, gboolean cables)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = typed_text (word);
  const RwItem *item = rw_rig_find_named (rig, text, cables, &error);

  if (item != NULL)
    return rw_item_key (item);
  rw_cli_error ("%s: %s: %s", rig_name, option, error->message);
  return NULL;
}

/**
 * rw_cli_parse: takes the options of @command out of @words, whose first is the command itself.
 * @entries: the command's own options; "--help" is added to them
 * @status: (out): the exit status, where the command has not to run
 *
 * Returns: TRUE if the command is to run
 */
gboolean
rw_cli_parse (const RwCommand *command, const GOptionEntry *entries, char ***words, int *status)
{
  gboolean help = FALSE;
  const GOptionEntry common[] = {
    { "help", 'h', 0, G_OPTION_ARG_NONE, &help, N_("Show this help and end"), NULL },
    { NULL },
  };
  g_autoptr (GOptionContext) context = g_option_context_new (_(command->arguments));
  g_autofree char *usage_name = g_strdup_printf (RW_CLI_NAME " %s", command->name);
  g_autoptr (GError) error = NULL;

  g_set_prgname (usage_name);
  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  g_option_context_set_help_enabled (context, FALSE);
  g_option_context_set_summary (context, command->summary);
  g_option_context_set_description (context, command->description);
  g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_option_context_add_main_entries (context, common, GETTEXT_PACKAGE);
  if (!g_option_context_parse_strv (context, words, &error))
    {
      /* Translators: the command, what is wrong with its options, the command again */
      rw_cli_error (_("%s: %s (see “rigwright-cli %s --help”)"), command->name, error->message, command->name);
      *status = RW_EXIT_FAILED;
      return FALSE;
    }
  if (help)
    {
      g_autofree char *text = g_option_context_get_help (context, TRUE, NULL);

      *status = rw_cli_write (text, -1) ? RW_EXIT_OK : RW_EXIT_FAILED;
    }
  return !help;
}

const char rw_cli_units_help[] = N_("Lengths in metres or in feet and inches: m or ft (m)");
const char rw_cli_units_argument[] = N_("UNITS");

gboolean
rw_cli_choose_units (const char *command, const char *word, gboolean json)
{
  RwUnits units;

  if (word == NULL)
    return TRUE;
  if (rw_units_find (word, &units))
    {
      rw_length_set_units (json ? RW_UNITS_METRES : units);
      return TRUE;
    }
  /* Translators: a command; what was typed */
  rw_cli_error (_("%s: lengths cannot be shown in “%s”: take m or ft"), command, word);
  return FALSE;
}
