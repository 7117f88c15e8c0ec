/* SPDX-License-Identifier: MIT */
/* What must hold of every rig's findings and fixes, on rigs of chance. */
#include <file/rw-file.h>
#include <rig/rw-history.h>

#include "random-rig.h"
#include "rules-fixtures.h"

#define N_RIGS 400
#define MOST_ITEMS 14

static char *
bytes_of (RwRig *rig)
{
  return g_string_free (rw_file_write_bytes (rig), FALSE);
}

static guint
count (const RwFindings *findings, const RwRule *rule, const RwFinding *equal_to)
{
  guint n = 0;

  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get (findings, i);

      n += finding->rule == rule && (equal_to == NULL || rw_finding_equal (finding, equal_to));
    }
  return n;
}

static guint
count_errors (const RwFindings *findings, const RwRule *rule)
{
  guint n = 0;

  for (guint i = 0; i < rw_findings_n (findings); i++)
    n += rw_findings_get (findings, i)->rule == rule && rw_findings_get (findings, i)->severity == RW_SEVERITY_ERROR;
  return n;
}

static void
assert_ids_are_there (const RwFinding *finding, const RwRig *rig)
{
  for (char **id = finding->devices; *id != NULL; id++)
    g_assert_nonnull (rw_rig_device (rig, *id));
  for (char **id = finding->cables; *id != NULL; id++)
    g_assert_nonnull (rw_rig_cable (rig, *id));
  for (char **port = finding->ports; *port != NULL; port += 2)
    {
      const RwDevice *device = rw_rig_device (rig, port[0]);

      g_assert_nonnull (device);
      g_assert_cmpint (rw_part_find_port (rw_rig_part_of (rig, device), port[1]), >=, 0);
    }
}

static void
assert_mends (RwRig *rig, const RwFindings *before, const RwFinding *finding, RwChange *fix)
{
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autofree char *bytes = bytes_of (rig);
  g_autoptr (RwFindings) after = NULL;
  g_autofree char *undone = NULL;
  g_autoptr (GError) error = NULL;

  rw_history_do (history, fix, &error);
  g_assert_no_error (error);
  after = analyse (rig);
  g_assert_cmpuint (count (after, finding->rule, finding), ==, 0);
  g_assert_cmpuint (count (after, finding->rule, NULL), <, count (before, finding->rule, NULL));
  for (guint i = 0; i < rw_n_rules (); i++)
    g_assert_cmpuint (count_errors (after, rw_rule (i)), <=, count_errors (before, rw_rule (i)));
  g_assert_true (rw_history_undo (history));
  undone = bytes_of (rig);
  g_assert_cmpstr (undone, ==, bytes);
}

static void
test_findings_name_what_is_there (void)
{
  for (guint seed = 0; seed < N_RIGS; seed++)
    {
      RandomRig want = random_rig_any (seed, MOST_ITEMS);
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autoptr (RwFindings) findings = analyse (rig);

      for (guint i = 0; i < rw_findings_n (findings); i++)
        {
          const RwFinding *finding = rw_findings_get (findings, i);

          assert_ids_are_there (finding, rig);
          g_assert_true (g_utf8_validate (finding->message, -1, NULL));
          g_assert_cmpstr (finding->message, !=, "");
          if (i > 0) /* the worst stands first */
            g_assert_cmpint (rw_findings_get (findings, i - 1)->severity, <=, finding->severity);
        }
    }
}

static void
test_every_fix_mends (void)
{
  guint n = 0;

  for (guint seed = 0; seed < N_RIGS; seed++)
    {
      RandomRig want = random_rig_any (seed, MOST_ITEMS);
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autoptr (RwFindings) findings = analyse (rig);

      for (guint i = 0; i < rw_findings_n (findings); i++)
        {
          const RwFinding *finding = rw_findings_get (findings, i);
          g_autoptr (GPtrArray) fixes = rw_finding_fixes (finding, rig);

          for (guint j = 0; j < fixes->len; j++)
            assert_mends (rig, findings, finding, fixes->pdata[j]);
          n += fixes->len;
        }
    }
  g_assert_cmpuint (n, >, N_RIGS / 4);
}

/* A rig that was written and read again, and a copy of it, are judged alike. */
static void
test_same_after_reading_back (void)
{
  for (guint seed = 0; seed < N_RIGS; seed++)
    {
      RandomRig want = random_rig_any (seed, MOST_ITEMS);
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autofree char *bytes = bytes_of (rig);
      g_autoptr (GError) error = NULL;
      g_autoptr (RwRig) read_back = rw_file_read_bytes (bytes, strlen (bytes), "rig", &error);
      g_autoptr (RwFindings) a = analyse (rig);
      g_autoptr (RwFindings) b = NULL;

      g_assert_no_error (error);
      b = analyse (read_back);
      g_assert_cmpuint (rw_findings_n (a), ==, rw_findings_n (b));
      for (guint i = 0; i < rw_findings_n (a); i++)
        {
          g_assert_true (rw_finding_equal (rw_findings_get (a, i), rw_findings_get (b, i)));
          g_assert_cmpstr (rw_findings_get (a, i)->message, ==, rw_findings_get (b, i)->message);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rules/random/findings-name-what-is-there", test_findings_name_what_is_there);
  g_test_add_func ("/rules/random/every-fix-mends", test_every_fix_mends);
  g_test_add_func ("/rules/random/same-after-reading-back", test_same_after_reading_back);
  return g_test_run ();
}
