/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-history.h>

G_BEGIN_DECLS

/**
 * RwJournal: the changes made since a rig was saved, on the disk as they are made, so that a crash of the
 * program loses none. One for each document, in the user's state folder. A window
 *
 * - opens it with the document; where rw_journal_n_left() is not 0, asks whether to recover, then calls
 *   rw_journal_recover() or rw_journal_restart(); where rw_journal_comes_back(), the latter without asking;
 * - gives it each change that the rig's "changed" tells of, undone and redone ones too;
 * - restarts it after each save, and closes it when the document closes.
 *
 * Rigs that were never saved have no document; those left of a crash are found by rw_journal_list_left().
 */
typedef struct _RwJournal RwJournal;

RwJournal *rw_journal_open (const char *document, GError **error);
char **rw_journal_list_left (void);
RwJournal *rw_journal_open_left (const char *path, GError **error);
void rw_journal_close (RwJournal *journal);

const char *rw_journal_document (const RwJournal *journal);
guint rw_journal_n_left (const RwJournal *journal);
gint64 rw_journal_left_at (const RwJournal *journal);
gboolean rw_journal_comes_back (RwJournal *journal, const RwRig *rig);
gboolean rw_journal_recover (RwJournal *journal, RwHistory *history, GError **error);
gboolean rw_journal_append (RwJournal *journal, const RwChange *change, GError **error);
gboolean rw_journal_restart (RwJournal *journal, const char *document, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwJournal, rw_journal_close)

G_END_DECLS
