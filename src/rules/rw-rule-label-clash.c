/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-id-map.h>
#include <string.h>

#include "rw-rule-words.h"

/* What is read on the tape: the label without spaces around it; NULL where there is none. Those that need to be cut
 * are kept in @cut. */
static const char *
label_of (const RwNet *net, guint cable, GPtrArray *cut)
{
  const char *label = net->cables[cable].cable->label;
  gsize n = label != NULL ? strlen (label) : 0;

  if (n > 0 && (g_ascii_isspace (label[0]) || g_ascii_isspace (label[n - 1])))
    {
      g_ptr_array_add (cut, g_strstrip (g_strdup (label)));
      label = cut->pdata[cut->len - 1];
    }
  return label != NULL && *label != '\0' ? label : NULL;
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

/* By cable: where those with its label go on, if it is the first of them; and to where. */
typedef struct
{
  const char *label;
  guint next, last;
} Chain;

static void
add_cable (Chain *chains, RwIdMap *firsts, guint cable, const char *label)
{
  guint first = label != NULL ? GPOINTER_TO_UINT (rw_id_map_find (firsts, label)) : 0;

  chains[cable] = (Chain){ label, RW_NONE, cable };
  if (first > 0)
    {
      chains[chains[first - 1].last].next = cable;
      chains[first - 1].last = cable;
    }
  else if (label != NULL)
    rw_id_map_put (firsts, label, GUINT_TO_POINTER (cable + 1));
}

/* Items and their texts lie all over the heap. */
static void
fetch_ahead (const RwNet *net, guint cable)
{
  if (cable + RW_AHEAD_ITEM < net->n_cables)
    __builtin_prefetch (&net->cables[cable + RW_AHEAD_ITEM].cable->label);
  if (cable + RW_AHEAD_TEXT < net->n_cables)
    __builtin_prefetch (net->cables[cable + RW_AHEAD_TEXT].cable->label);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autofree Chain *chains = g_new (Chain, net->n_cables);
  g_autoptr (GPtrArray) cut = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GArray) cables = g_array_new (FALSE, FALSE, sizeof (guint));
  g_auto (RwIdMap) firsts;

  rw_id_map_init (&firsts, net->n_cables);
  for (guint i = 0; i < net->n_cables; i++)
    {
      fetch_ahead (net, i);
      add_cable (chains, &firsts, i, label_of (net, i, cut));
    }
  for (guint i = 0; i < net->n_cables; i++)
    if (chains[i].last != i)
      {
        g_array_set_size (cables, 0);
        for (guint k = i; k != RW_NONE; k = chains[k].next)
          g_array_append_val (cables, k);
        report (rule, net, findings, chains[i].label, cables);
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
