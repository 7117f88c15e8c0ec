/* SPDX-License-Identifier: MIT */
/* What every rule must keep, walked over the registry. */
#include <file/rw-file.h>
#include <rig/rw-history.h>
#include <string.h>

#include "rules-fixtures.h"

static char *
bytes_of (RwRig *rig)
{
  return g_string_free (rw_file_write_bytes (rig), FALSE);
}

static void
assert_reads_well (const char *text, guint most_sentences)
{
  guint sentences = 0;

  g_assert_nonnull (text);
  g_assert_cmpuint (strlen (text), >, 20);
  g_assert_true (g_ascii_isupper (text[0]));
  g_assert_true (g_str_has_suffix (text, "."));
  for (const char *stop = text; (stop = strchr (stop, '.')) != NULL; stop++)
    sentences++;
  g_assert_cmpuint (sentences, <=, most_sentences);
}

static void
test_texts (gconstpointer data)
{
  const RwRule *rule = data;

  g_assert_cmpuint (strlen (rule->title), >, 3);
  g_assert_false (g_str_has_suffix (rule->title, "."));
  assert_reads_well (rule->why, 3);
  assert_reads_well (rule->remedy, 2);
  g_assert_nonnull (rule->check);
  g_assert_true (rw_rule_find (rule->code) == rule);
}

static void
test_has_fixtures (gconstpointer data)
{
  g_autoptr (GPtrArray) paths = fixtures_of (data);
  guint bad = 0, good = 0;

  for (guint i = 0; i < paths->len; i++)
    if (fixture_is_bad (paths->pdata[i]))
      bad++;
    else
      good++;
  g_assert_cmpuint (bad, >=, 1);
  g_assert_cmpuint (good, >=, 1);
}

/* A message is one sentence's worth without its stop, as lists and balloons show it. */
static void
assert_message_reads_well (const RwFinding *finding)
{
  g_assert_true (g_utf8_validate (finding->message, -1, NULL));
  g_assert_cmpuint (strlen (finding->message), >, 20);
  g_assert_false (g_str_has_suffix (finding->message, "."));
  g_assert_null (strstr (finding->message, "  "));
}

static gboolean
holds (const RwFindings *findings, const RwFinding *wanted)
{
  for (guint i = 0; i < rw_findings_n (findings); i++)
    if (rw_finding_equal (rw_findings_get (findings, i), wanted))
      return TRUE;
  return FALSE;
}

static void
assert_no_new_error (const RwFindings *before, const RwFindings *after)
{
  g_autoptr (GPtrArray) brought = rw_findings_new_ones (before, after);

  for (guint i = 0; i < brought->len; i++)
    g_assert_cmpint (((RwFinding *) brought->pdata[i])->severity, !=, RW_SEVERITY_ERROR);
}

/* The fix takes the finding away, brings no new error, and is undone to the same bytes. */
static void
assert_mends (RwRig *rig, const RwFindings *before, const RwFinding *finding, RwChange *fix)
{
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autofree char *bytes = bytes_of (rig);
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (strlen (fix->name), >, 5);
  rw_history_do (history, fix, &error);
  g_assert_no_error (error);
  {
    g_autoptr (RwFindings) after = analyse (rig);
    g_autofree char *mended = bytes_of (rig);

    g_assert_cmpstr (mended, !=, bytes);
    g_assert_false (holds (after, finding));
    assert_no_new_error (before, after);
  }
  g_assert_true (rw_history_undo (history));
  {
    g_autofree char *undone = bytes_of (rig);

    g_assert_cmpstr (undone, ==, bytes);
  }
}

static guint
mend_all (const char *path, const RwRule *rule)
{
  g_autoptr (RwRig) rig = fixture_read (path);
  g_autoptr (RwFindings) before = analyse (rig);
  guint n = 0;

  for (guint i = 0; i < rw_findings_n (before); i++)
    {
      const RwFinding *finding = rw_findings_get (before, i);
      g_autoptr (GPtrArray) fixes = rw_finding_fixes (finding, rig);

      assert_message_reads_well (finding);
      for (guint j = 0; j < fixes->len; j++)
        assert_mends (rig, before, finding, fixes->pdata[j]);
      if (finding->rule == rule)
        n += fixes->len;
    }
  return n;
}

/* A rule that says that it has fixes offers one in at least one of its fixtures, and each one that is offered holds. */
static void
test_fixes (gconstpointer data)
{
  const RwRule *rule = data;
  g_autoptr (GPtrArray) paths = fixtures_of (rule);
  guint n = 0;

  for (guint i = 0; i < paths->len; i++)
    n += mend_all (paths->pdata[i], rule);
  g_assert_true ((n > 0) == (rule->fix != NULL));
}

/* No fixture is left over that no test reads: each folder is a rule's, each file a rig or a rig's expectation. */
static void
test_no_stray_fixture (void)
{
  g_autofree char *top = g_test_build_filename (G_TEST_DIST, "rules", NULL);
  g_autoptr (GDir) dir = g_dir_open (top, 0, NULL);
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *folder = g_build_filename (top, name, NULL);
      g_autoptr (GDir) files = g_dir_open (folder, 0, NULL);
      const char *file;

      if (files == NULL)
        continue;
      if (rw_rule_find (name) == NULL)
        g_error ("%s: no rule has this code", folder);
      while ((file = g_dir_read_name (files)) != NULL)
        {
          const char *dot = strrchr (file, '.');
          g_autofree char *stem = g_strndup (file, dot != NULL ? (gsize) (dot - file) : strlen (file));
          g_autofree char *rig = g_strconcat (folder, "/", stem, ".rig", NULL);
          g_autofree char *json = g_strconcat (folder, "/", stem, ".json", NULL);

          if (!g_file_test (rig, G_FILE_TEST_EXISTS) || !g_file_test (json, G_FILE_TEST_EXISTS))
            g_error ("%s/%s: a fixture is a .rig and a .json of one name", folder, file);
        }
    }
}

static char *
help_page (const char *code)
{
  return g_strdup_printf ("%s/../help/C/rule-%s.page", g_test_get_dir (G_TEST_DIST), code);
}

static void
test_has_help_page (gconstpointer data)
{
  g_autofree char *path = help_page (((const RwRule *) data)->code);

  if (!g_file_test (path, G_FILE_TEST_IS_REGULAR))
    g_error ("%s: the rule has no help page", path);
}

/* No help page tells of a rule that is not there. */
static void
test_no_stray_help_page (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "..", "help", "C", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_prefix (name, "rule-") && g_str_has_suffix (name, ".page"))
      {
        g_autofree char *code = g_strndup (name + strlen ("rule-"),
                                           strlen (name) - strlen ("rule-") - strlen (".page"));

        if (rw_rule_find (code) == NULL)
          g_error ("%s/%s: no rule has this code", folder, name);
      }
}

static void
test_codes_are_unique (void)
{
  g_autoptr (GHashTable) codes = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < rw_n_rules (); i++)
    g_assert_true (g_hash_table_add (codes, (gpointer) rw_rule (i)->code));
  g_assert_null (rw_rule_find ("no-such-rule"));
}

static void
add_rule_tests (const RwRule *rule)
{
  const struct { const char *name; GTestDataFunc func; } tests[] = {
    { "texts", test_texts },
    { "has-fixtures", test_has_fixtures },
    { "fixes", test_fixes },
    { "has-help-page", test_has_help_page },
  };

  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strdup_printf ("/rules/%s/%s", tests[i].name, rule->code);

      g_test_add_data_func (path, rule, tests[i].func);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rules/codes-are-unique", test_codes_are_unique);
  g_test_add_func ("/rules/no-stray-fixture", test_no_stray_fixture);
  g_test_add_func ("/rules/no-stray-help-page", test_no_stray_help_page);
  for (guint i = 0; i < rw_n_rules (); i++)
    add_rule_tests (rw_rule (i));
  return g_test_run ();
}
