/* SPDX-License-Identifier: MIT */
/*
 * How long a rig takes to analyse and to judge by all rules, what the survival of every single failure takes of
 * that, and how it grows: medians of processor time, on two sorts of rig of the same sizes.
 *
 * The sound rig is one as people draw it: planes and chains, switches in trees, lines patched in both layers, few
 * findings. What is to hold (the whole of 200 devices in 2 ms, of 10,000 in 60 ms; survival of every failure of the
 * latter in 120 ms; growth of n log n) is to hold for it. The random rig is the stress case: it hangs together like
 * a tree, the cables beyond that close loops, its lines go from anywhere to anywhere, and nearly all of it is wrong;
 * much of its time goes into saying so. It reports and judges nothing.
 */
#include <net/rw-survival.h>
#include <rules/rw-rule.h>

#include "bench-time.h"
#include "random-rig.h"
#include "sound-rig.h"

#define ROUNDS 25

typedef struct
{
  double net_ms, rules_ms, survival_ms;
  guint n_findings;
} Timing;

static Timing
measure (const RwRig *rig)
{
  double net_times[ROUNDS], rules_times[ROUNDS], survival_times[ROUNDS];
  Timing timing = { 0 };

  for (guint i = 0; i < ROUNDS; i++)
    {
      double start = bench_now_ms ();
      g_autoptr (RwNet) net = rw_net_new (rig);
      double with_net = bench_now_ms ();
      g_autoptr (RwFindings) findings = rw_findings_new (rig, net);
      double with_rules = bench_now_ms ();
      g_autoptr (RwSurvival) survival = rw_survival_new (net);

      survival_times[i] = bench_now_ms () - with_rules;
      rules_times[i] = with_rules - with_net;
      net_times[i] = with_net - start;
      timing.n_findings = rw_findings_n (findings);
    }
  timing.net_ms = bench_median (net_times, ROUNDS);
  timing.rules_ms = bench_median (rules_times, ROUNDS);
  timing.survival_ms = bench_median (survival_times, ROUNDS);
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
      double times[ROUNDS];
      guint n = 0;

      for (guint i = 0; i < ROUNDS; i++)
        {
          g_autoptr (RwFindings) findings = rw_findings_new (empty, empty_net);
          double start = bench_now_ms ();

          rw_rule (rule)->check (rw_rule (rule), rig, net, findings);
          times[i] = bench_now_ms () - start;
          n = rw_findings_n (findings);
        }
      g_print ("  %-20s %8.3f ms %6u findings\n", rw_rule (rule)->code, bench_median (times, ROUNDS), n);
    }
}

static RwRig *
make_random (guint devices, guint rows)
{
  RandomRig want = {
    .seed = 1,
    .devices = devices,
    .cables = devices * 6 / 5,
    .rows = rows,
    .forwards_percent = 20,
    .joined = TRUE,
  };

  return random_rig_new (&want);
}

static void
report (const char *name, RwRig *(*make) (guint devices, guint rows))
{
  static const struct { guint devices, rows; } sizes[] = { { 200, 1500 }, { 1000, 5000 }, { 10000, 50000 } };
  double whole[G_N_ELEMENTS (sizes)];

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (RwRig) rig = make (sizes[i].devices, sizes[i].rows);
      Timing timing = measure (rig);

      whole[i] = timing.net_ms + timing.rules_ms;
      g_print ("%-6s %5u devices %5u cables %5u rows: net %7.3f ms, rules %7.3f ms (%u findings), whole %7.3f ms; "
               "survival %7.3f ms\n", name, rw_rig_n (rig, RW_ITEM_DEVICE), rw_rig_n (rig, RW_ITEM_CABLE),
               rw_rig_n (rig, RW_ITEM_PATCH), timing.net_ms, timing.rules_ms, timing.n_findings, whole[i],
               timing.survival_ms);
      if (i + 1 == G_N_ELEMENTS (sizes))
        report_rules (rig);
    }
  /* n log n from 1,000 to 10,000 is 10 × 4 / 3. */
  g_print ("%-6s growth from 1000 to 10000 devices: %.1f times (n log n: 13.3)\n", name, whole[2] / whole[1]);
}

int
main (void)
{
  report ("sound", sound_rig_new);
  report ("random", make_random);
  return 0;
}
