/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

static char *
say_doubtful (const RwRun *run, const char *title, const char *length, const char *limit, const char *speed, const char *grade)
{
  if (run->medium == RW_MEDIUM_COPPER)
    /* Translators: a cable, two lengths ("90 m") */
    return g_strdup_printf (_("Cable %s is %s long: from %s on it must have solid wires, and nothing says that it has"),
                            title, length, limit);
  /* Translators: a cable, a length ("400 m"), a speed ("1 Gb/s"), a grade ("OM1"), a length */
  return g_strdup_printf (_("Cable %s is %s long: %s over %s is planned up to %s; have the link measured"),
                          title, length, speed, grade, limit);
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint index, RwReachVerdict verdict, double limit_m)
{
  const RwRun *run = &net->cables[index].run;
  g_autofree char *title = rw_words_net_cable (net, index);
  g_autofree char *length = rw_words_length (run->length_m);
  g_autofree char *limit = rw_words_length (limit_m);
  g_autofree char *speed = rw_words_speed ((int) run->mbps);
  const char *grade = rw_words_of_field (&rw_cable_table, RW_CABLE_GRADE, run->grade);
  RwFinding *finding = rw_findings_begin (findings, rule, verdict == RW_REACH_TOO_LONG ? RW_SEVERITY_ERROR
                                                                                      : RW_SEVERITY_WARNING);

  rw_finding_add_cables (finding, net, &index, 1);
  if (verdict == RW_REACH_TOO_LONG)
    /* Translators: a cable, a length ("120 m"), a speed ("1 Gb/s"), a grade ("Cat 6"), a length */
    rw_finding_set_message (finding, _("Cable %s is %s long, but %s over %s reaches %s at most: the link fails, or drops "
                                       "frames"), title, length, speed, grade, limit);
  else
    rw_finding_take_message (finding, say_doubtful (run, title, length, limit, speed, grade));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_cables; i++)
    {
      double limit_m;
      RwReachVerdict verdict = rw_reach_judge (&net->cables[i].run, &limit_m);

      if (verdict != RW_REACH_FITS)
        report (rule, net, findings, i, verdict, limit_m);
    }
}

const RwRule rw_rule_too_long = {
  .code = "too-long",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Cable too long"),
  .why = N_("Each kind of cable carries each speed only so far. Beyond that the link does not come up, or worse: it comes "
            "up and drops frames when the cable is warm or wet, and the sound crackles."),
  .remedy = N_("Take a shorter way, put a switch in between, or lay fibre. Copper beyond 85 m should be solid."),
  .check = check,
};
