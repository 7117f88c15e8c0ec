/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include "rw-finding-private.h"

struct _RwFindings
{
  gatomicrefcount refs;
  GPtrArray *list; /* of RwFinding */
  guint count[RW_SEVERITY_NOTE + 1];
};

/* Who reads the first ones only has to read the worst. */
static void
put_worst_first (RwFindings *findings)
{
  GPtrArray *sorted = g_ptr_array_new_full (findings->list->len, (GDestroyNotify) rw_finding_unref);

  for (guint severity = 0; severity <= RW_SEVERITY_NOTE; severity++)
    for (guint i = 0; i < findings->list->len; i++)
      if (rw_findings_get (findings, i)->severity == severity)
        g_ptr_array_add (sorted, rw_finding_ref (rw_findings_get (findings, i)));
  g_ptr_array_unref (findings->list);
  findings->list = sorted;
}

/**
 * rw_findings_new: runs every rule over @rig.
 * @net: what rw_net_new() made of this same rig
 *
 * The same rig always gives the same list: errors before warnings before notes, in each by rule in the order
 * of the registry, then in the order in which the rule found them. Near-linear in the size of the rig.
 * (transfer full).
 */
RwFindings *
rw_findings_new (const RwRig *rig, const RwNet *net)
{
  RwFindings *findings;

  g_return_val_if_fail (rig != NULL && net != NULL, NULL);

  findings = g_new0 (RwFindings, 1);
  g_atomic_ref_count_init (&findings->refs);
  findings->list = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_finding_unref);
  for (guint i = 0; i < rw_n_rules (); i++)
    rw_rule (i)->check (rw_rule (i), rig, net, findings);
  put_worst_first (findings);
  return findings;
}

RwFindings *
rw_findings_ref (RwFindings *findings)
{
  g_return_val_if_fail (findings != NULL, NULL);

  g_atomic_ref_count_inc (&findings->refs);
  return findings;
}

void
rw_findings_unref (RwFindings *findings)
{
  g_return_if_fail (findings != NULL);

  if (!g_atomic_ref_count_dec (&findings->refs))
    return;
  g_ptr_array_unref (findings->list);
  g_free (findings);
}

guint
rw_findings_n (const RwFindings *findings)
{
  g_return_val_if_fail (findings != NULL, 0);

  return findings->list->len;
}

/* (transfer none). */
RwFinding *
rw_findings_get (const RwFindings *findings, guint index)
{
  g_return_val_if_fail (findings != NULL && index < findings->list->len, NULL);

  return g_ptr_array_index (findings->list, index);
}

guint
rw_findings_count (const RwFindings *findings, RwSeverity severity)
{
  g_return_val_if_fail (findings != NULL && severity <= RW_SEVERITY_NOTE, 0);

  return findings->count[severity];
}

/* Every subject that the findings of the rule and severity of @like name. */
static GHashTable *
subjects_of_rule (const RwFindings *findings, const RwFinding *like)
{
  GHashTable *subjects = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < findings->list->len; i++)
    {
      const RwFinding *finding = g_ptr_array_index (findings->list, i);

      if (finding->rule == like->rule && finding->severity == like->severity)
        rw_finding_add_subjects (finding, subjects);
    }
  return subjects;
}

/* What the findings of one rule and severity named before the change. */
typedef struct
{
  const RwFindings *before;
  const RwRule *rule;
  RwSeverity severity;
  GHashTable *subjects;
} RwKnown;

/* A finding that shrank, or that is two old ones in one, says nothing that was not said before. */
static gboolean
says_nothing_new (RwKnown *known, const RwFinding *finding)
{
  if (known->subjects == NULL || known->rule != finding->rule || known->severity != finding->severity)
    {
      g_clear_pointer (&known->subjects, g_hash_table_unref);
      known->rule = finding->rule;
      known->severity = finding->severity;
      known->subjects = subjects_of_rule (known->before, finding);
    }
  return g_hash_table_size (known->subjects) > 0 && rw_finding_is_within (finding, known->subjects);
}

/**
 * rw_findings_new_ones: what a change brought: the findings of @after that name a thing which no finding of
 * their rule and severity in @before names, in the order of @after; and of several equal ones, as many as
 * there are more of.
 * (transfer full) (element-type RwFinding): the array holds references.
 */
GPtrArray *
rw_findings_new_ones (const RwFindings *before, const RwFindings *after)
{
  g_autoptr (GHashTable) left = NULL;
  RwKnown known = { .before = before };
  GPtrArray *new_ones;

  g_return_val_if_fail (before != NULL && after != NULL, NULL);

  left = g_hash_table_new (rw_finding_hash, (GEqualFunc) rw_finding_equal);
  for (guint i = 0; i < before->list->len; i++)
    {
      gpointer finding = g_ptr_array_index (before->list, i);
      guint n = GPOINTER_TO_UINT (g_hash_table_lookup (left, finding));

      g_hash_table_insert (left, finding, GUINT_TO_POINTER (n + 1));
    }
  new_ones = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_finding_unref);
  for (guint i = 0; i < after->list->len; i++)
    {
      RwFinding *finding = g_ptr_array_index (after->list, i);
      guint n = GPOINTER_TO_UINT (g_hash_table_lookup (left, finding));

      if (n > 0)
        g_hash_table_insert (left, finding, GUINT_TO_POINTER (n - 1));
      else if (g_hash_table_contains (left, finding) || !says_nothing_new (&known, finding))
        g_ptr_array_add (new_ones, rw_finding_ref (finding));
    }
  g_clear_pointer (&known.subjects, g_hash_table_unref);
  return new_ones;
}

/**
 * rw_findings_begin: adds an empty finding of @rule for the rule to fill.
 * Returns: (transfer none): to be filled before the rule's check returns
 */
RwFinding *
rw_findings_begin (RwFindings *findings, const RwRule *rule, RwSeverity severity)
{
  RwFinding *finding;

  g_return_val_if_fail (findings != NULL && rule != NULL && severity <= RW_SEVERITY_NOTE, NULL);

  finding = rw_finding_new (rule, severity);
  g_ptr_array_add (findings->list, finding);
  findings->count[severity]++;
  return finding;
}
