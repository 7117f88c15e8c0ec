/* SPDX-License-Identifier: MIT */
/*
 * Any bytes are the journal of a crash: each line is a change that leaves a rig which comes back from its file, or
 * is refused with one error and changes nothing. Undoing all gives the first rig back, byte for byte.
 */
#include <file/rw-file.h>
#include <file/rw-journal-line.h>
#include <rig/rw-error.h>
#include <rig/rw-history.h>
#include <string.h>

#include "fuzz.h"

static void
check_head (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *document = NULL;
  g_autofree char *base = NULL;

  if (!rw_journal_line_parse_head (text, "FILE", &document, &base, &error))
    g_assert_true (error != NULL && g_str_has_prefix (error->message, "FILE: "));
}

static void
replay (RwHistory *history, const char *line, gsize length)
{
  RwRig *rig = rw_history_rig (history);
  g_autoptr (GString) before = rw_file_write_bytes (rig);
  g_autoptr (GString) after = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (RwChange) change = rw_journal_line_parse (line, length, rig, &error);

  g_assert_true ((change == NULL) == (error != NULL));
  if (change != NULL && rw_history_do (history, change, &error))
    {
      fuzz_rig_comes_back (rig);
      return;
    }
  g_assert_true (error->domain == RW_FILE_ERROR || error->domain == RW_RIG_ERROR);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  after = rw_file_write_bytes (rig);
  g_assert_cmpstr (after->str, ==, before->str);
}

void
fuzz_journal (const guint8 *data, gsize size)
{
  g_autofree char *text = g_strndup (size > 0 ? (const char *) data : "", size);
  g_autoptr (RwRig) rig = fuzz_some_rig ();
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autoptr (GString) before = rw_file_write_bytes (rig);
  g_autoptr (GString) after = NULL;

  check_head (text);
  for (const char *line = text; *line != '\0'; line += strcspn (line, "\n"), line += *line == '\n')
    replay (history, line, strcspn (line, "\n"));
  while (rw_history_undo (history))
    ;
  after = rw_file_write_bytes (rig);
  g_assert_cmpstr (after->str, ==, before->str);
}
