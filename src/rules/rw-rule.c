/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-list.h"

#define RULE_ROW(name) &rw_rule_##name,
static const RwRule *const rules[] = { RW_RULES (RULE_ROW) };
#undef RULE_ROW

guint
rw_n_rules (void)
{
  return G_N_ELEMENTS (rules);
}

const RwRule *
rw_rule (guint index)
{
  g_return_val_if_fail (index < G_N_ELEMENTS (rules), NULL);

  return rules[index];
}

/* The rule with this code ("loop-held"), or NULL. */
const RwRule *
rw_rule_find (const char *code)
{
  g_return_val_if_fail (code != NULL, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    if (g_str_equal (rules[i]->code, code))
      return rules[i];
  return NULL;
}

const char *
rw_severity_word (RwSeverity severity)
{
  static const char *const words[] = { "error", "warning", "note" };

  g_return_val_if_fail (severity < G_N_ELEMENTS (words), NULL);

  return words[severity];
}

const char *
rw_severity_title (RwSeverity severity)
{
  static const char *const titles[] = { N_("Error"), N_("Warning"), N_("Note") };

  g_return_val_if_fail (severity < G_N_ELEMENTS (titles), NULL);

  return _(titles[severity]);
}
