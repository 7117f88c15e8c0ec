/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

static gboolean
is_low (const RwNet *net, guint index, RwGrade *least)
{
  const RwRun *run = &net->cables[index].run;

  return run->medium == RW_MEDIUM_COPPER && rw_grade_is_of (run->grade, RW_MEDIUM_COPPER)
         && rw_reach_least_grade ((int) run->mbps, least) && run->grade < *least;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint index, RwGrade least)
{
  const RwRun *run = &net->cables[index].run;
  g_autofree char *title = rw_words_net_cable (net, index);
  g_autofree char *speed = rw_words_speed ((int) run->mbps);
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_cables (finding, net, &index, 1);
  /* Translators: a cable, its grade ("Cat 5"), a speed ("1 Gb/s"), the grade that it needs ("Cat 5e") */
  rw_finding_set_message (finding, _("Cable %s is %s, but %s needs %s: the link falls back to a lower speed, or drops "
                                     "frames"),
                          title,
                          rw_words_of_field (&rw_cable_table, RW_CABLE_GRADE, run->grade), speed,
                          rw_words_of_field (&rw_cable_table, RW_CABLE_GRADE, least));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_cables; i++)
    {
      RwGrade least;

      if (is_low (net, i, &least))
        report (rule, net, findings, i, least);
    }
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  RwGrade least;

  if (is_low (net, rw_net_find_cable (net, finding->cables[0]), &least))
    rw_fix_set_grade (rig, finding->cables[0], RW_MEDIUM_COPPER, least, fixes);
}

const RwRule rw_rule_grade_low = {
  .code = "grade-low",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Cable of too low a grade"),
  .why = N_("Faster links need better cable: 1 Gb/s uses all four pairs, and asks more of each. A cable of a lower grade "
            "may light the lamps and still lose frames, which is heard as clicks."),
  .remedy = N_("Use a cable of the grade that the link needs: Cat 5e at least for 1 Gb/s."),
  .check = check,
  .fix = fix,
};
