/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* What is read on the tape: the label without spaces around it; NULL where there is none. */
static char *
label_of (const RwNet *net, guint cable)
{
  const char *label = net->cables[cable].cable->label;
  char *stripped = label != NULL ? g_strstrip (g_strdup (label)) : NULL;

  if (stripped != NULL && *stripped == '\0')
    g_clear_pointer (&stripped, g_free);
  return stripped;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, const char *label, const GArray *cables)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_cables (finding, net, (const guint *) (gpointer) cables->data, cables->len);
  /* Translators: a number of cables, the label on them */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("%u cable is labelled %s: nobody can tell which is which",
                                                               "%u cables are labelled %s: nobody can tell which is which",
                                                               cables->len), cables->len, label));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GHashTable) by_label = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_array_unref);
  g_autoptr (GPtrArray) order = g_ptr_array_new ();

  for (guint i = 0; i < net->n_cables; i++)
    {
      char *label = label_of (net, i);
      GArray *cables = label != NULL ? g_hash_table_lookup (by_label, label) : NULL;

      if (label != NULL && cables == NULL)
        {
          cables = g_array_new (FALSE, FALSE, sizeof (guint));
          g_hash_table_insert (by_label, label, cables);
          g_ptr_array_add (order, label);
        }
      else
        g_free (label);
      if (cables != NULL)
        g_array_append_val (cables, i);
    }
  for (guint i = 0; i < order->len; i++)
    {
      const GArray *cables = g_hash_table_lookup (by_label, order->pdata[i]);

      if (cables->len > 1)
        report (rule, net, findings, order->pdata[i], cables);
    }
}

const RwRule rw_rule_label_clash = {
  .code = "label-clash",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Label used twice"),
  .why = N_("At the end of a run of cables the label is all there is to tell them apart. With one label on two, the wrong "
            "one is pulled in the dark."),
  .remedy = N_("Give each cable a label of its own."),
  .check = check,
};
