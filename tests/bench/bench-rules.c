/* SPDX-License-Identifier: MIT */
/*
 * How long a rig takes to analyse and to judge by all rules: medians, and how that grows. Most of each rig hangs
 * together like a tree; the cables beyond that close loops. It reports and judges nothing.
 */
#include <rules/rw-rule.h>
#include <stdlib.h>

#include "random-rig.h"

#define ROUNDS 25

typedef struct
{
  double net_ms, rules_ms;
  guint n_findings;
} Timing;

static int
compare_times (const void *a, const void *b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return (x > y) - (x < y);
}

static double
median_ms (gint64 *times)
{
  qsort (times, ROUNDS, sizeof *times, compare_times);
  return times[ROUNDS / 2] / 1000.0;
}

static Timing
measure (const RwRig *rig)
{
  gint64 net_times[ROUNDS], rules_times[ROUNDS];
  Timing timing = { 0 };

  for (guint i = 0; i < ROUNDS; i++)
    {
      gint64 start = g_get_monotonic_time ();
      g_autoptr (RwNet) net = rw_net_new (rig);
      gint64 between = g_get_monotonic_time ();
      g_autoptr (RwFindings) findings = rw_findings_new (rig, net);

      net_times[i] = between - start;
      rules_times[i] = g_get_monotonic_time () - between;
      timing.n_findings = rw_findings_n (findings);
    }
  timing.net_ms = median_ms (net_times);
  timing.rules_ms = median_ms (rules_times);
  return timing;
}

/* Each rule's share, so that a slow one is seen. */
static void
report_rules (const RwRig *rig)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwRig) empty = rw_rig_new ();
  g_autoptr (RwNet) empty_net = rw_net_new (empty);

  for (guint rule = 0; rule < rw_n_rules (); rule++)
    {
      gint64 times[ROUNDS];
      guint n = 0;

      for (guint i = 0; i < ROUNDS; i++)
        {
          g_autoptr (RwFindings) findings = rw_findings_new (empty, empty_net);
          gint64 start = g_get_monotonic_time ();

          rw_rule (rule)->check (rw_rule (rule), rig, net, findings);
          times[i] = g_get_monotonic_time () - start;
          n = rw_findings_n (findings);
        }
      g_print ("  %-20s %8.3f ms %6u findings\n", rw_rule (rule)->code, median_ms (times), n);
    }
}

static RwRig *
make_rig (guint devices, guint cables, guint rows)
{
  RandomRig want = {
    .seed = 1,
    .devices = devices,
    .cables = cables,
    .rows = rows,
    .forwards_percent = 20,
    .joined = TRUE,
  };

  return random_rig_new (&want);
}

int
main (int argc, char **argv)
{
  static const struct { guint devices, cables, rows; } sizes[] = {
    { 200, 240, 1500 },
    { 1000, 1200, 5000 },
    { 10000, 12000, 50000 },
  };
  double whole[G_N_ELEMENTS (sizes)];

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (RwRig) rig = make_rig (sizes[i].devices, sizes[i].cables, sizes[i].rows);
      Timing timing = measure (rig);

      whole[i] = timing.net_ms + timing.rules_ms;
      g_print ("%5u devices %5u cables %5u rows: net %7.3f ms, rules %7.3f ms (%u findings), whole %7.3f ms\n",
               rw_rig_n (rig, RW_ITEM_DEVICE), rw_rig_n (rig, RW_ITEM_CABLE), rw_rig_n (rig, RW_ITEM_PATCH),
               timing.net_ms, timing.rules_ms, timing.n_findings, whole[i]);
      if (i + 1 == G_N_ELEMENTS (sizes))
        report_rules (rig);
    }
  /* n log n from 1,000 to 10,000 is 10 × 4 / 3. */
  g_print ("growth from 1000 to 10000 devices: %.1f times (n log n: 13.3)\n", whole[2] / whole[1]);
  return 0;
}
