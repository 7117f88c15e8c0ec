/* SPDX-License-Identifier: MIT */
/* Issuing a revision: its letter, the state that it keeps, and that it is one step. */
#include "rig-builder.h"

#include <rig/rw-difference.h>
#include <rig/rw-edit.h>
#include <rig/rw-error.h>
#include <rig/rw-history.h>
#include <rig/rw-revision.h>

static const char two[] = "rack left id=1 name='Stage left'\nrack right id=2\nleft.s-right.p length_m=20 label=N-04\n";

static void
do_change (RwHistory *history, RwChange *change)
{
  g_autoptr (RwChange) owned = change;
  g_autoptr (GError) error = NULL;

  rw_history_do (history, change, &error);
  g_assert_no_error (error);
}

static void
issue (RwRig *rig, RwHistory *history, const char *letter)
{
  g_autoptr (GError) error = NULL;
  RwChange *change = rw_revision_issue (rig, letter, "2031-06-01", "Ada", "For the venue", &error);

  g_assert_no_error (error);
  do_change (history, change);
}

/* As columns of a spreadsheet are counted (from memory of any of them), and as pages are. */
static void
test_letters (void)
{
  static const char *const cases[][2] = {
    { "A", "B" }, { "Y", "Z" }, { "Z", "AA" }, { "AZ", "BA" }, { "ZZ", "AAA" }, { "1", "2" }, { "9", "10" }, { "09", "10" },
    { "P2", "P3" }, { "draft", "draft 2" }, { "draft 2", "draft 3" }, { "xZ", "xAA" }, { "", "A" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *next = rw_revision_letter_after (cases[i][0]);

      g_assert_cmpstr (next, ==, cases[i][1]);
    }
}

static void
test_next (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (two);
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autofree char *first = rw_revision_next_letter (rig);
  g_autofree char *second = NULL;
  g_autofree char *third = NULL;

  g_assert_cmpstr (first, ==, "A");
  issue (rig, history, "B");
  issue (rig, history, "A");
  /* B was there before */
  second = rw_revision_next_letter (rig);
  g_assert_cmpstr (second, ==, "C");
  issue (rig, history, "R1");
  third = rw_revision_next_letter (rig);
  g_assert_cmpstr (third, ==, "R2");
}

/* A drawing that bears a letter and was never issued is issued as that. */
static void
test_next_of_a_title (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (two);
  g_autoptr (RwHistory) history = rw_history_new (rig);
  RwEdit *edit = rw_edit_new (rig, "");
  g_autofree char *letter = NULL;

  rw_edit_set (edit, RW_SHOW_KEY, RW_SHOW_REVISION, g_variant_new_string ("D"), NULL);
  do_change (history, rw_edit_finish (edit));
  letter = rw_revision_next_letter (rig);
  g_assert_cmpstr (letter, ==, "D");
}

static void
test_issue (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (two);
  g_autoptr (RwHistory) history = rw_history_new (rig);
  const RwRevision *revision;
  g_autoptr (GPtrArray) same = NULL;
  g_autoptr (GPtrArray) differences = NULL;
  RwEdit *edit;

  issue (rig, history, "A");
  g_assert_cmpstr (rw_history_undo_name (history), ==, "Issue Revision A");
  revision = rw_revision_find (rig, "A");
  g_assert_true (revision == rw_revision_last (rig));
  g_assert_cmpstr (revision->date, ==, "2031-06-01");
  g_assert_cmpstr (rw_rig_show (rig)->revision, ==, "A");
  /* nothing has changed since, not even the letter */
  g_assert_cmpstr (rw_rig_show (revision->state)->revision, ==, "A");
  same = rw_differences_new (revision->state, rig);
  g_assert_cmpuint (same->len, ==, 0);
  edit = rw_edit_new (rig, "");
  rw_edit_set (edit, "c1", RW_CABLE_LENGTH_M, g_variant_new_double (50), NULL);
  do_change (history, rw_edit_finish (edit));
  differences = rw_differences_new (revision->state, rig);
  g_assert_cmpuint (differences->len, ==, 1);
  g_assert_cmpstr (((RwDifference *) differences->pdata[0])->message, ==, "Cable N-04 now 50 m, was 20 m");
  g_assert_true (rw_history_undo (history));
  g_assert_true (rw_history_undo (history));
  g_assert_null (rw_revision_last (rig));
  g_assert_null (rw_rig_show (rig)->revision);
}

static void
test_refused (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (two);
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autoptr (GError) empty = NULL;
  g_autoptr (GError) twice = NULL;

  issue (rig, history, "A");
  g_assert_null (rw_revision_issue (rig, "", NULL, NULL, NULL, &empty));
  g_assert_error (empty, RW_RIG_ERROR, RW_RIG_ERROR_RANGE);
  g_assert_null (rw_revision_issue (rig, "A", NULL, NULL, NULL, &twice));
  g_assert_error (twice, RW_RIG_ERROR, RW_RIG_ERROR_ID);
}

static void
test_forget (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (two);
  g_autoptr (RwHistory) history = rw_history_new (rig);

  issue (rig, history, "A");
  issue (rig, history, "B");
  do_change (history, rw_revision_forget (rig, rw_item_key ((gconstpointer) rw_revision_find (rig, "A"))));
  g_assert_cmpstr (rw_history_undo_name (history), ==, "Delete Revision A");
  g_assert_null (rw_revision_find (rig, "A"));
  g_assert_nonnull (rw_revision_find (rig, "B"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rig/revision/letters", test_letters);
  g_test_add_func ("/rig/revision/next", test_next);
  g_test_add_func ("/rig/revision/next-of-a-title", test_next_of_a_title);
  g_test_add_func ("/rig/revision/issue", test_issue);
  g_test_add_func ("/rig/revision/refused", test_refused);
  g_test_add_func ("/rig/revision/forget", test_forget);
  return g_test_run ();
}
