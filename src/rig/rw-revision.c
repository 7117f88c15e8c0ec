/* SPDX-License-Identifier: MIT */
#include "rw-revision.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

#include "rw-edit.h"
#include "rw-error.h"

static gboolean
is_empty (const char *text)
{
  return text == NULL || *text == '\0';
}

/* "9" → "10", "P2" → "P3", "A" → "B", "Z" → "AA", "AZ" → "BA"; what does not count gets a number. */
char *
rw_revision_letter_after (const char *letter)
{
  g_autofree char *next = g_strdup (letter);
  gsize n = strlen (next), at = n;

  while (at > 0 && g_ascii_isdigit (next[at - 1]))
    at--;
  if (at < n && n - at <= 9)
    return g_strdup_printf ("%.*s%0*d", (int) at, next, (int) (n - at), atoi (next + at) + 1);
  for (at = n; at > 0 && next[at - 1] == 'Z'; at--)
    next[at - 1] = 'A';
  if (at > 0 && next[at - 1] >= 'A' && next[at - 1] < 'Z')
    {
      next[at - 1]++;
      return g_steal_pointer (&next);
    }
  if (at < n)
    return g_strdup_printf ("%.*sA%s", (int) at, next, next + at);
  return n > 0 ? g_strdup_printf ("%s 2", letter) : g_strdup ("A");
}

/* (transfer none) (nullable): the one that was issued last. */
const RwRevision *
rw_revision_last (const RwRig *rig)
{
  guint n = rw_rig_n (rig, RW_ITEM_REVISION);

  return n > 0 ? (const RwRevision *) rw_rig_items (rig, RW_ITEM_REVISION)[n - 1] : NULL;
}

/* (transfer none) (nullable): the last one that is called @letter. */
const RwRevision *
rw_revision_find (const RwRig *rig, const char *letter)
{
  for (guint i = rw_rig_n (rig, RW_ITEM_REVISION); i-- > 0;)
    {
      const RwRevision *revision = (const RwRevision *) rw_rig_items (rig, RW_ITEM_REVISION)[i];

      if (g_strcmp0 (revision->letter, letter) == 0)
        return revision;
    }
  return NULL;
}

/**
 * rw_revision_next_letter: what the next issue would be called: after the last one's; before the first, what stands in
 * the title block, else "A". Free with g_free().
 */
char *
rw_revision_next_letter (const RwRig *rig)
{
  const RwRevision *last = rw_revision_last (rig);
  g_autofree char *letter = NULL;

  if (last == NULL)
    return g_strdup (is_empty (rw_rig_show (rig)->revision) ? "A" : rw_rig_show (rig)->revision);
  letter = rw_revision_letter_after (is_empty (last->letter) ? "" : last->letter);
  while (rw_revision_find (rig, letter) != NULL)
    {
      char *next = rw_revision_letter_after (letter);

      g_free (letter);
      letter = next;
    }
  return g_steal_pointer (&letter);
}

static gboolean
set_letter (RwEdit *edit, const char *letter, GError **error)
{
  return rw_edit_set (edit, RW_SHOW_KEY, RW_SHOW_REVISION, g_variant_new_string (letter), error);
}

/* The state bears its own letter, as its drawing does. */
static RwRig *
lettered (const RwRig *rig, const char *letter, GError **error)
{
  g_autoptr (RwRig) copy = rw_rig_copy (rig);
  g_autoptr (RwEdit) edit = rw_edit_new (copy, "letter");
  g_autoptr (RwChange) change = NULL;

  if (!set_letter (edit, letter, error))
    return NULL;
  change = rw_edit_finish (g_steal_pointer (&edit));
  if (!rw_rig_apply (copy, change, error))
    return NULL;
  return g_steal_pointer (&copy);
}

/**
 * rw_revision_issue: a change that stores the state of @rig as revision @letter and writes the letter into the title
 * block, as one step.
 * @date, @by, @what: (nullable)
 *
 * Returns: (transfer full) (nullable): NULL: @letter is empty, or a revision is called so already
 */
RwChange *
rw_revision_issue (const RwRig *rig, const char *letter, const char *date, const char *by, const char *what, GError **error)
{
  g_autofree char *id = NULL;
  /* Translators: the name of an edit; the letter of a revision. */
  g_autofree char *name = g_strdup_printf (_("Issue Revision %s"), letter);
  g_autoptr (RwEdit) edit = rw_edit_new (rig, name);
  g_autoptr (RwRig) state = NULL;

  if (is_empty (letter))
    g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("A revision needs a letter or a number"));
  else if (rw_revision_find (rig, letter) != NULL)
    /* Translators: the letter of a revision. */
    g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_ID, _("Revision %s was issued already: take another letter"), letter);
  else if ((state = lettered (rig, letter, error)) != NULL && set_letter (edit, letter, error))
    {
      id = rw_edit_fresh_id (edit, "revision");
      rw_edit_put (edit, rw_revision_new (id, letter, date, by, what, state));
      return rw_edit_finish (g_steal_pointer (&edit));
    }
  return NULL;
}

/* A change that takes the revision with the id @id out. (transfer full). */
RwChange *
rw_revision_forget (const RwRig *rig, const char *id)
{
  const RwItem *item = rw_rig_find (rig, id);
  g_autofree char *name = g_strdup_printf (_("Delete Revision %s"), rw_revision_title ((const RwRevision *) item));
  g_autoptr (RwEdit) edit = rw_edit_new (rig, name);

  rw_edit_remove (edit, id);
  return rw_edit_finish (g_steal_pointer (&edit));
}
