/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>
#include <net/rw-tree.h>

#include "rw-rule-words.h"

/* IEEE 802.1D-1998 8.10: bridges in a row that the default timers are made for. */
#define MOST_IN_A_ROW 7

/* The longest ways down from each bridge of the trees, and the bridge where the longest way of all turns. */
typedef struct
{
  const RwTree *tree;
  guint *length[2]; /* by bridge: bridges on the longest and the second longest way down, itself not counted */
  guint *next[2];   /* by bridge: the first bridge on those ways */
} Ways;

/* Bridges by falling depth, so that each comes after all below it. */
static GArray *
bridges_upwards (const RwTree *tree)
{
  g_autofree guint *start = g_new0 (guint, tree->n_devices + 1);
  GArray *order = g_array_new (FALSE, FALSE, sizeof (guint));
  guint n = 0;

  for (guint i = 0; i < tree->n_devices; i++)
    if (tree->bridges[i].root != RW_NONE)
      {
        start[tree->n_devices - 1 - tree->bridges[i].depth]++;
        n++;
      }
  for (guint i = 0, sum = 0; i < tree->n_devices; i++)
    {
      guint here = start[i];

      start[i] = sum;
      sum += here;
    }
  g_array_set_size (order, n);
  for (guint i = 0; i < tree->n_devices; i++)
    if (tree->bridges[i].root != RW_NONE)
      g_array_index (order, guint, start[tree->n_devices - 1 - tree->bridges[i].depth]++) = i;
  return order;
}

static void
offer (Ways *ways, guint bridge, guint below, guint length)
{
  guint place = length > ways->length[0][bridge] ? 0 : length > ways->length[1][bridge] ? 1 : 2;

  if (place == 0)
    {
      ways->length[1][bridge] = ways->length[0][bridge];
      ways->next[1][bridge] = ways->next[0][bridge];
    }
  if (place < 2)
    {
      ways->length[place][bridge] = length;
      ways->next[place][bridge] = below;
    }
}

static void
append_down (const Ways *ways, guint bridge, guint way, GArray *list)
{
  for (guint next = ways->next[way][bridge]; next != RW_NONE; next = ways->next[0][next])
    g_array_append_val (list, next);
}

/* The longest way that turns at @bridge, from one end to the other. */
static GArray *
longest_way (const Ways *ways, guint bridge)
{
  GArray *way = g_array_new (FALSE, FALSE, sizeof (guint));

  append_down (ways, bridge, 0, way);
  for (guint i = 0; i < way->len / 2; i++)
    {
      guint swap = g_array_index (way, guint, i);

      g_array_index (way, guint, i) = g_array_index (way, guint, way->len - 1 - i);
      g_array_index (way, guint, way->len - 1 - i) = swap;
    }
  g_array_append_val (way, bridge);
  append_down (ways, bridge, 1, way);
  return way;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, const Ways *ways, guint turn)
{
  g_autoptr (GArray) way = longest_way (ways, turn);
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_devices (finding, net, (const guint *) (gpointer) way->data, way->len);
  /* Translators: a number of switches (8 or more), the first and the last of them, the number of switches that is allowed */
  rw_finding_set_message (finding, _("%u switches with spanning tree stand in a row from %s to %s: beyond %d, the tree may "
                                     "not settle after a failure"),
                          way->len, rw_net_device_title (net, g_array_index (way, guint, 0)),
                          rw_net_device_title (net, g_array_index (way, guint, way->len - 1)), MOST_IN_A_ROW);
}

/* By root, the bridge where its tree's longest way turns. */
static void
check_trees (const RwRule *rule, const RwNet *net, RwFindings *findings, Ways *ways)
{
  const RwTree *tree = ways->tree;
  g_autoptr (GArray) order = bridges_upwards (tree);
  g_autofree guint *turn = g_new (guint, net->n_devices);

  for (guint i = 0; i < net->n_devices; i++)
    turn[i] = i;
  for (guint i = 0; i < order->len; i++)
    {
      guint bridge = g_array_index (order, guint, i), above = tree->bridges[bridge].above;
      guint *best = &turn[tree->bridges[bridge].root];

      if (ways->length[0][bridge] + ways->length[1][bridge] > ways->length[0][*best] + ways->length[1][*best])
        *best = bridge;
      if (above != RW_NONE)
        offer (ways, above, bridge, ways->length[0][bridge] + 1);
    }
  for (guint i = 0; i < net->n_devices; i++)
    if (tree->bridges[i].root == i && ways->length[0][turn[i]] + ways->length[1][turn[i]] + 1 > MOST_IN_A_ROW)
      report (rule, net, findings, ways, turn[i]);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  guint n = net->n_devices;
  g_autofree guint *first = g_new0 (guint, n), *second = g_new0 (guint, n);
  g_autofree guint *first_next = g_new (guint, n), *second_next = g_new (guint, n);
  Ways ways = { rw_net_tree (net), { first, second }, { first_next, second_next } };

  for (guint i = 0; i < n; i++)
    first_next[i] = second_next[i] = RW_NONE;
  check_trees (rule, net, findings, &ways);
}

const RwRule rw_rule_deep_tree = {
  .code = "deep-tree",
  .severity = RW_SEVERITY_WARNING,
  .title = N_("Too many switches in a row"),
  .why = N_("Spanning tree tells the switches of a failure by messages that age with every switch they pass. With more than "
            "seven in a row the default timers are too short, and the network may take long to settle, or form a loop."),
  .remedy = N_("Join the switches to one in the middle rather than in a row."),
  .check = check,
};
