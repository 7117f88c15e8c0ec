/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-survival.h>

#include "rw-rule.h"
#include "rw-rule-words.h"

/* As many as a person looks at. What costs one line or a few devices hangs on every cable that ends somewhere. */
#define MOST_NAMED 5
#define LEAST_LINES 2
#define LEAST_DEVICES 4

typedef struct
{
  gboolean cable;
  guint index;
  RwLoss loss;
} Failure;

/* Lines count before devices; a device falls less often than a cable is pulled. */
static int
compare_failures (const Failure *x, const Failure *y)
{
  if (x->loss.rows != y->loss.rows)
    return x->loss.rows > y->loss.rows ? -1 : 1;
  if (x->loss.devices != y->loss.devices)
    return x->loss.devices > y->loss.devices ? -1 : 1;
  if (x->cable != y->cable)
    return x->cable ? -1 : 1;
  return x->index < y->index ? -1 : x->index > y->index;
}

/* The worst so far, worst first. */
typedef struct
{
  Failure v[MOST_NAMED];
  guint n;
} Failures;

static void
add_failure (Failures *worst, const Failure *failure)
{
  guint i = worst->n < MOST_NAMED ? worst->n++ : MOST_NAMED - 1;

  for (; i > 0 && compare_failures (failure, &worst->v[i - 1]) < 0; i--)
    worst->v[i] = worst->v[i - 1];
  worst->v[i] = *failure;
}

static void
collect (Failures *worst, gboolean cable, const RwLoss *losses, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      Failure failure = { cable, i, losses[i] };

      if ((losses[i].rows >= LEAST_LINES || losses[i].devices >= LEAST_DEVICES)
          && (worst->n < MOST_NAMED || compare_failures (&failure, &worst->v[MOST_NAMED - 1]) < 0))
        add_failure (worst, &failure);
    }
}

/* (transfer full). */
static char *
title_of (const RwNet *net, const Failure *failure)
{
  return failure->cable ? rw_words_net_cable (net, failure->index)
                        : g_strdup (rw_net_device_title (net, failure->index));
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, const Failures *failures)
{
  const Failure *worst = &failures->v[0];
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  g_auto (GStrv) names = g_new0 (char *, MOST_NAMED + 1);
  guint n = failures->n;
  g_autofree char *list = NULL;

  for (guint i = 0; i < n; i++)
    {
      const Failure *failure = &failures->v[i];

      names[i] = title_of (net, failure);
      if (failure->cable)
        rw_finding_add_cables (finding, net, &failure->index, 1);
      else
        rw_finding_add_devices (finding, net, &failure->index, 1);
    }
  list = rw_words_join ((const char *const *) names, n);
  if (n == 1)
    /* Translators: a cable or device, a number of lines, a number of devices */
    rw_finding_set_message (finding, _("One failure that costs most: %s (lines lost: %u, devices that reach no console: %u)"),
                            list, worst->loss.rows, worst->loss.devices);
  else
    /* Translators: cables and devices, the first of them, a number of lines, a number of devices */
    rw_finding_set_message (finding, _("Single failures that cost most, worst first: %s (%s alone: lines lost: %u, devices that "
                                       "reach no console: %u)"), list, names[0], worst->loss.rows, worst->loss.devices);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  RwSurvival *survival = rw_survival_new (net);
  Failures worst = { .n = 0 };

  collect (&worst, TRUE, survival->cables, survival->n_cables);
  collect (&worst, FALSE, survival->devices, survival->n_devices);
  rw_survival_free (survival);
  if (worst.n > 0)
    report (rule, net, findings, &worst);
}

const RwRule rw_rule_single_point = {
  .code = "single-point",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Single failures that cost most"),
  .why = N_("These are the cables and devices on which most hangs: what they carry has no other way. What survives by spanning "
            "tree is back after up to 50 s; only two planes play on without a gap."),
  .remedy = N_("Lay a second way round the worst of them, or run the devices redundant, and keep a spare at hand."),
  .can_wait = TRUE,
  .check = check,
};
