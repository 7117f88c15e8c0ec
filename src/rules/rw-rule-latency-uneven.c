/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-forecast.h>
#include <net/rw-rows.h>

#include "rw-rule.h"
#include "rw-rule-words.h"

/* A row within one device brings it nothing over the network, nor does one that makes no stream. */
static gboolean *
find_listeners (const RwNet *net)
{
  const RwRows *rows = rw_net_rows (net);
  const guint *row_stream = rw_net_forecast (net)->streams->row_stream;
  gboolean *listens = g_new0 (gboolean, net->n_devices + 1);

  for (guint i = 0; i < rows->n; i++)
    if (row_stream[i] != RW_NONE)
      listens[rows->to[i]] = TRUE;
  return listens;
}

/* The setting that most of @listeners have; of equal ones the first. */
static int
commonest (const RwNet *net, const GArray *listeners)
{
  g_autoptr (GHashTable) counts = g_hash_table_new (NULL, NULL);
  guint most = 0;
  int best = 0;

  for (guint i = 0; i < listeners->len; i++)
    {
      int us = net->devices[g_array_index (listeners, guint, i)].receive_latency_us;

      g_hash_table_insert (counts, GINT_TO_POINTER (us),
                           GUINT_TO_POINTER (GPOINTER_TO_UINT (g_hash_table_lookup (counts, GINT_TO_POINTER (us))) + 1));
    }
  for (guint i = 0; i < listeners->len; i++)
    {
      int us = net->devices[g_array_index (listeners, guint, i)].receive_latency_us;
      guint n = GPOINTER_TO_UINT (g_hash_table_lookup (counts, GINT_TO_POINTER (us)));

      if (n > most)
        {
          most = n;
          best = us;
        }
    }
  return best;
}

static void
check_listeners (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, const GArray *listeners)
{
  int usual = commonest (net, listeners);
  g_autoptr (GArray) odd = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree char *names = NULL;
  RwFinding *finding;

  for (guint i = 0; i < listeners->len; i++)
    if (net->devices[g_array_index (listeners, guint, i)].receive_latency_us != usual)
      g_array_append_val (odd, g_array_index (listeners, guint, i));
  if (odd->len == 0)
    return;
  names = rw_words_devices (net, (const guint *) (gpointer) odd->data, odd->len);
  finding = rw_findings_begin (findings, rule, rule->severity);
  rw_finding_add_devices (finding, net, (const guint *) (gpointer) odd->data, odd->len);
  /* Translators: a list of devices, a time in µs */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("%s does not wait %d µs like the other receivers of its network: "
                                                               "they do not play together",
                                                               "%s do not wait %d µs like the other receivers of their "
                                                               "network: they do not play together", odd->len), names, usual));
}

static void
find_listeners_in (RwSlice devices, const gboolean *listens, GArray *listeners)
{
  g_array_set_size (listeners, 0);
  for (guint i = 0; i < devices.n; i++)
    if (listens[devices.v[i]])
      g_array_append_val (listeners, devices.v[i]);
}

static gboolean
all_in (const RwNet *net, const GArray *listeners, guint network)
{
  for (guint i = 0; i < listeners->len; i++)
    if (rw_net_host_node (net, g_array_index (listeners, guint, i), network) == RW_NONE)
      return FALSE;
  return TRUE;
}

/*
 * Whether another network tells of the same listeners or more: as a rule those of the second plane are those of the
 * first. @counts: listeners by network.
 */
static gboolean
told_elsewhere (const RwNet *net, guint network, const GArray *listeners, const guint *counts)
{
  const RwNetDevice *first = &net->devices[g_array_index (listeners, guint, 0)];

  for (guint i = first->first_node; i < first->first_node + first->n_nodes; i++)
    {
      guint other = net->nodes[i].network;

      if (net->nodes[i].host && other != network
          && (counts[other] > counts[network] || (counts[other] == counts[network] && other < network))
          && all_in (net, listeners, other))
        return TRUE;
    }
  return FALSE;
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autofree gboolean *listens = find_listeners (net);
  g_autofree guint *counts = g_new0 (guint, net->n_networks + 1);
  g_autoptr (GArray) listeners = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < net->n_networks; i++)
    for (guint j = 0; j < net->networks[i].devices.n; j++)
      counts[i] += listens[net->networks[i].devices.v[j]];
  for (guint i = 0; i < net->n_networks; i++)
    {
      find_listeners_in (net->networks[i].devices, listens, listeners);
      if (listeners->len > 1 && !told_elsewhere (net, i, listeners, counts))
        check_listeners (rule, rig, net, findings, listeners);
    }
}

const RwRule rw_rule_latency_uneven = {
  .code = "latency-uneven",
  .severity = RW_SEVERITY_NOTE,
  .title = N_("Receivers that wait differently"),
  .why = N_("Receivers with one latency play one sample at one moment. With different ones, loudspeakers that belong together "
            "are apart in time, and what is mixed from two ways combs."),
  .remedy = N_("Set all receivers that play together to the longest latency that one of them needs."),
  .check = check,
};
