/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autofree guint *cables = g_new (guint, net->n_cables);
  g_autofree char *names = NULL;
  RwFinding *finding;
  guint n = 0;

  for (guint i = 0; i < net->n_cables; i++)
    if (net->cables[i].run.length_m <= 0)
      cables[n++] = i;
  if (n == 0)
    return;
  names = rw_words_cables (net, cables, n);
  finding = rw_findings_begin (findings, rule, rule->severity);
  rw_finding_add_cables (finding, net, cables, n);
  /* Translators: a list of cables */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("Cable %s has no length yet: its reach is not checked, and the "
                                                               "lists do not count it",
                                                               "Cables %s have no length yet: their reach is not checked, "
                                                               "and the lists do not count them", n), names));
}

const RwRule rw_rule_no_length = {
  .code = "no-length",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Cable without a length"),
  .why = N_("Whether a cable reaches, how many metres to load and how long sound takes on its way all rest on its "
            "length. Without one it is taken for nothing."),
  .remedy = N_("Enter the length, with what it takes to go round and down, and a reserve at both ends."),
  .can_wait = TRUE,
  .check = check,
};
