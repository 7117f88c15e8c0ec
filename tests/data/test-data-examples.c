/* SPDX-License-Identifier: MIT */
/* The examples trip the rules that they are named for, and nothing else that is wrong; each rule has one, and a help page. */
#include <file/rw-file.h>
#include <rules/rw-rule.h>
#include <string.h>

#include "data-files.h"

static RwFindings *
find (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_file_read (path, &error);
  g_autoptr (RwNet) net = NULL;

  g_assert_no_error (error);
  net = rw_net_new (rig);
  return rw_findings_new (rig, net);
}

/*
 * What cannot be without its companion: more units than IDs means that one number is taken twice or out of range;
 * devices that reach no controller have none that could lead their clock; a patch without a way leads to one without a cable.
 */
static gboolean
is_companion (const char *code, const char *found)
{
  static const char *const pairs[][2] = {
    { "too-many-units", "id-range" },
    { "cut-off", "clock-astray" },
    { "no-path", "not-cabled" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    if (strcmp (code, pairs[i][0]) == 0 && strcmp (found, pairs[i][1]) == 0)
      return TRUE;
  return FALSE;
}

/* Notes on other things are no mistakes. */
static void
test_trip (gconstpointer path)
{
  g_autofree char *name = data_name (path);
  const char *code = name + strlen ("trip-");
  g_autoptr (RwFindings) findings = find (path);
  guint n = 0;

  g_assert_nonnull (rw_rule_find (code));
  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get (findings, i);
      const char *found = finding->rule->code;

      n += strcmp (found, code) == 0;
      if (strcmp (found, code) != 0 && finding->severity != RW_SEVERITY_NOTE && !is_companion (code, found))
        g_error ("%s also trips %s: %s", name, found, finding->message);
    }
  g_assert_cmpuint (n, >, 0);
}

/* An example without “trip” in its name shows how it should be. */
static void
test_sound (gconstpointer path)
{
  g_autoptr (RwFindings) findings = find (path);

  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get (findings, i);

      if (finding->severity != RW_SEVERITY_NOTE)
        g_error ("%s: %s", finding->rule->code, finding->message);
    }
}

static void
test_rule_has_example (gconstpointer data)
{
  const RwRule *rule = data;
  g_autofree char *name = g_strdup_printf ("trip-%s.rig", rule->code);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", "examples", name, NULL);

  g_assert_true (g_file_test (path, G_FILE_TEST_IS_REGULAR));
}

/* The page says the rule's severity and code in its first words, and stands under that severity in the guide. */
static void
test_rule_has_page (gconstpointer data)
{
  static const char *const words[] = { "Error", "Warning", "Note" };
  const RwRule *rule = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_strdup_printf ("rule-%s.page", rule->code);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "help", "C", file, NULL);
  g_autofree char *head = g_strdup_printf ("<p>%s <code>%s</code>.", words[rule->severity], rule->code);
  g_autofree char *guide = g_strdup_printf ("xref=\"rules#%ss\"", rw_severity_word (rule->severity));
  g_autofree char *page = NULL;

  g_file_get_contents (path, &page, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (strstr (page, head));
  g_assert_nonnull (strstr (page, guide));
  g_assert_nonnull (strstr (page, "<section id=\"why\">"));
  g_assert_nonnull (strstr (page, "<section id=\"mend\">"));
  g_assert_nonnull (strstr (page, "<section id=\"example\">"));
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) examples = NULL;

  g_test_init (&argc, &argv, NULL);
  examples = data_examples ();
  for (guint i = 0; i < examples->len; i++)
    {
      g_autofree char *name = data_name (examples->pdata[i]);
      gboolean trips = g_str_has_prefix (name, "trip-");
      g_autofree char *test = g_strdup_printf ("/data/%s/%s", trips ? "trips" : "sound", name);

      g_test_add_data_func (test, examples->pdata[i], trips ? test_trip : test_sound);
    }
  for (guint i = 0; i < rw_n_rules (); i++)
    {
      g_autofree char *example = g_strdup_printf ("/data/rule-has-example/%s", rw_rule (i)->code);
      g_autofree char *page = g_strdup_printf ("/data/rule-has-page/%s", rw_rule (i)->code);

      g_test_add_data_func (example, rw_rule (i), test_rule_has_example);
      g_test_add_data_func (page, rw_rule (i), test_rule_has_page);
    }
  return g_test_run ();
}
