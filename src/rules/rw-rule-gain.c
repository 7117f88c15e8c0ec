/* SPDX-License-Identifier: MIT */
#include "rw-rule-gain.h"

static gboolean
is_preamp_row (const RwNet *net, guint from, guint to, int send)
{
  return net->devices[from].part->kind == RW_PART_RACK && net->devices[to].part->kind == RW_PART_CONTROLLER && send >= 1
         && send <= net->devices[from].part->preamps;
}

static int
compare_keys (gconstpointer a, gconstpointer b)
{
  guint64 x = *(const guint64 *) a, y = *(const guint64 *) b;

  return (x > y) - (x < y);
}

/* Pairs of rack and console, sorted, each once. A rack's rows mostly stand together, so most are seen at once. */
static GArray *
collect_pairs (const RwNet *net)
{
  const RwRows *rows = rw_net_rows (net);
  g_autofree guint *last = g_new0 (guint, net->n_devices + 1);
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (guint64));

  for (guint i = 0; i < rows->n; i++)
    {
      guint from = rows->from[i], to = rows->to[i];
      guint64 pair = RW_PAIR_KEY (from, to);

      if (!is_preamp_row (net, from, to, rows->send[i]) || last[from] == to + 1)
        continue;
      last[from] = to + 1;
      g_array_append_val (pairs, pair);
    }
  g_array_sort (pairs, compare_keys);
  return pairs;
}

void
rw_gain_check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, RwRowsFunc report)
{
  g_autoptr (GArray) pairs = collect_pairs (net);
  g_autofree guint *consoles = g_new (guint, pairs->len + 1);
  guint n = 0;

  for (guint i = 0; i < pairs->len; i++)
    {
      guint64 pair = g_array_index (pairs, guint64, i);
      guint console = RW_KEY_SECOND (pair);

      if (n == 0 || consoles[n - 1] != console)
        consoles[n++] = console;
      if (i + 1 < pairs->len && RW_KEY_FIRST (g_array_index (pairs, guint64, i + 1)) == RW_KEY_FIRST (pair))
        continue;
      report (rule, rig, net, findings, RW_KEY_FIRST (pair), consoles, n);
      n = 0;
    }
}
