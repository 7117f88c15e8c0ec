/* SPDX-License-Identifier: MIT */
#include "rw-window-private.h"

#include <glib/gi18n-lib.h>
#include "rw-question.h"

/* The journal is a second net: where it cannot be written the work goes on, and the person is told once. */
static void
tell (RwWindow *window, GError *error)
{
  if (window->told_of_journal)
    return;
  window->told_of_journal = TRUE;
  rw_window_show_message (window, error->message);
}

static gboolean
open_journal (RwWindow *window)
{
  g_autoptr (GError) error = NULL;

  if (window->journal == NULL && !window->told_of_journal)
    window->journal = rw_journal_open (rw_document_path (window->document), &error);
  if (error != NULL)
    tell (window, error);
  return window->journal != NULL;
}

static void
recover_answered (const char *answer, gpointer user_data)
{
  g_autoptr (RwWindow) window = user_data;
  g_autoptr (GError) error = NULL;

  window->asking = FALSE;
  if (window->journal == NULL)
    return;
  if (g_str_equal (answer, "recover"))
    rw_journal_recover (window->journal, rw_document_history (window->document), &error);
  else if (g_str_equal (answer, "drop"))
    rw_journal_restart (window->journal, rw_journal_document (window->journal), &error);
  if (error != NULL)
    rw_window_show_message (window, error->message);
}

static char *
recover_text (RwWindow *window, guint n)
{
  const char *path = rw_journal_document (window->journal);
  g_autofree char *name = path != NULL ? g_filename_display_basename (path) : rw_rig_title (rw_document_rig (window->document));
  g_autoptr (GDateTime) at = g_date_time_new_from_unix_local (rw_journal_left_at (window->journal));
  g_autofree char *time = at != NULL ? g_date_time_format (at, "%Y-%m-%d %H:%M") : g_strdup ("—");

  /* Translators: a number of edits; the rig's file; a date and time */
  return g_strdup_printf (ngettext ("Rigwright ended before %u edit of “%s” was saved, made on %s. "
                                    "It can be put back, and then be undone.",
                                    "Rigwright ended before %u edits of “%s” were saved, the last made on %s. "
                                    "They can be put back, and then each be undone.", n), n, name, time);
}

static void
ask_recover (RwWindow *window)
{
  guint n = rw_journal_n_left (window->journal);
  g_autofree char *text = recover_text (window, n);
  g_autofree char *drop = g_strdup_printf (ngettext ("_Drop %u edit", "_Drop %u edits", n), n);
  g_autofree char *recover = g_strdup_printf (ngettext ("_Recover %u edit", "_Recover %u edits", n), n);
  const RwAnswer answers[] = {
    { "cancel", _("Ask _later"), RW_ANSWER_PLAIN },
    { "drop", drop, RW_ANSWER_DESTRUCTIVE },
    { "recover", recover, RW_ANSWER_SUGGESTED },
  };

  window->asking = TRUE;
  rw_question_ask (GTK_WINDOW (window), _("Recover what was not saved?"), text, answers, G_N_ELEMENTS (answers),
                   recover_answered, g_object_ref (window));
}

/* Whether a crash left what a person may want in the journal of @document; what was all taken back goes without a word. */
static gboolean
is_worth_asking (RwJournal *journal, RwDocument *document)
{
  if (rw_journal_n_left (journal) == 0)
    return FALSE;
  return !rw_journal_comes_back (journal, rw_document_rig (document))
         || !rw_journal_restart (journal, rw_journal_document (journal), NULL);
}

/* After a rig was opened: its journal begins, or what a crash left in it is offered. */
void
rw_window_journal_loaded (RwWindow *window)
{
  rw_window_journal_close (window);
  window->told_of_journal = FALSE;
  if (rw_document_path (window->document) == NULL || !open_journal (window))
    return;
  if (is_worth_asking (window->journal, window->document))
    ask_recover (window);
}

void
rw_window_recover (RwWindow *window, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwDocument) document = NULL;
  RwJournal *journal;

  g_return_if_fail (RW_IS_WINDOW (window));
  journal = rw_journal_open_left (path, &error);
  document = rw_document_new ();
  if (journal != NULL && rw_journal_document (journal) != NULL
      && !rw_document_load (document, rw_journal_document (journal), &error))
    g_clear_pointer (&journal, rw_journal_close);
  if (journal == NULL)
    {
      rw_window_show_message (window, error->message);
      return;
    }
  if (!is_worth_asking (journal, document))
    {
      rw_journal_close (journal);
      return;
    }
  rw_window_set_document (window, document);
  window->journal = journal;
  ask_recover (window);
}

void
rw_window_journal_saved (RwWindow *window)
{
  g_autoptr (GError) error = NULL;

  if (open_journal (window) && !rw_journal_restart (window->journal, rw_document_path (window->document), &error))
    tell (window, error);
}

void
rw_window_journal_changed (RwWindow *window, RwChange *change)
{
  g_autoptr (GError) error = NULL;

  /* Edits over what a crash left would not fit behind it: until the answer they are not kept. */
  if (!open_journal (window) || rw_journal_n_left (window->journal) > 0)
    return;
  if (rw_journal_append (window->journal, change, &error))
    return;
  tell (window, error);
  g_clear_pointer (&window->journal, rw_journal_close);
}

void
rw_window_journal_close (RwWindow *window)
{
  g_clear_pointer (&window->journal, rw_journal_close);
}
