/* SPDX-License-Identifier: MIT */
#include "rw-facts.h"

#include <net/rw-hops.h>

static const RwForecast *
forecast_of (const RwFacts *facts)
{
  return rw_net_forecast (facts->net);
}

static void
add_paths (RwFacts *facts, guint from, guint to)
{
  const RwNet *net = facts->net;
  const RwForecast *f = forecast_of (facts);

  for (guint i = net->devices[from].first_node; i < net->devices[from].first_node + net->devices[from].n_nodes; i++)
    {
      RwFactsPath path = { net->nodes[i].network, from, to, i, RW_NONE, 0 };
      if (!net->nodes[i].host)
        continue;
      path.to_node = rw_net_host_node (net, to, path.network);
      if (path.to_node == RW_NONE || f->paths->part[i] != f->paths->part[path.to_node])
        continue;
      path.delay_ns = rw_net_delay_ns (facts->rig, net, i, path.to_node);
      g_array_append_val (facts->paths, path);
    }
}

static int
compare_pairs (gconstpointer a, gconstpointer b)
{
  guint64 i = *(const guint64 *) a, j = *(const guint64 *) b;

  return (i > j) - (i < j);
}

static void
add_patched_paths (RwFacts *facts)
{
  const RwStreams *streams = forecast_of (facts)->streams;
  const RwRows *rows = rw_net_rows (facts->net);
  g_autoptr (GArray) pairs = g_array_new (FALSE, FALSE, sizeof (guint64));

  for (guint i = 0; i < rows->n; i++)
    {
      guint64 pair = (guint64) rows->from[i] << 32 | rows->to[i];
      if (streams->row_stream[i] != RW_NONE)
        g_array_append_val (pairs, pair);
    }
  g_array_sort (pairs, compare_pairs);
  for (guint i = 0; i < pairs->len; i++)
    if (i == 0 || g_array_index (pairs, guint64, i) != g_array_index (pairs, guint64, i - 1))
      add_paths (facts, (guint) (g_array_index (pairs, guint64, i) >> 32), (guint) g_array_index (pairs, guint64, i));
}

/**
 * rw_facts_new:
 * @rig: (transfer full): a rig
 * @from: (nullable): id of a device of @rig; with @to asks for the path between the two instead of the patch's own
 * @to: (nullable): id of another
 *
 * Returns: (transfer full): the facts
 */
RwFacts *
rw_facts_new (RwRig *rig, const char *from, const char *to)
{
  RwFacts *facts = g_new0 (RwFacts, 1);

  facts->rig = rig;
  facts->net = rw_net_new (rig);
  facts->networks = g_array_new (FALSE, FALSE, sizeof (guint));
  facts->paths = g_array_new (FALSE, FALSE, sizeof (RwFactsPath));
  facts->from = facts->to = RW_NONE;
  for (guint i = 0; i < facts->net->n_networks; i++)
    if (facts->net->networks[i].links.n > 0)
      g_array_append_val (facts->networks, i);
  if (from == NULL)
    add_patched_paths (facts);
  else
    {
      facts->from = rw_net_find_device (facts->net, from);
      facts->to = rw_net_find_device (facts->net, to);
      add_paths (facts, facts->from, facts->to);
    }
  facts->survival = rw_survival_new (facts->net);
  return facts;
}

void
rw_facts_free (RwFacts *facts)
{
  g_clear_pointer (&facts->survival, rw_survival_free);
  g_array_unref (facts->networks);
  g_array_unref (facts->paths);
  rw_net_unref (facts->net);
  g_object_unref (facts->rig);
  g_free (facts);
}

/* Networks are named by their place among those that a cable joins: "net-1". */
char *
rw_facts_network_id (const RwFacts *facts, guint network)
{
  for (guint i = 0; i < facts->networks->len; i++)
    if (g_array_index (facts->networks, guint, i) == network)
      return g_strdup_printf ("net-%u", i + 1);
  return NULL; /* a device without cables is a network of its own, which has no name */
}

static const char *
id_of (const RwFacts *facts, guint index, gboolean cable)
{
  return cable ? rw_item_key (facts->net->cables[index].cable) : rw_item_key (facts->net->devices[index].device);
}

char **
rw_facts_ids (const RwFacts *facts, RwSlice indices, gboolean cables)
{
  char **ids = g_new0 (char *, indices.n + 1);

  for (guint i = 0; i < indices.n; i++)
    ids[i] = g_strdup (id_of (facts, indices.v[i], cables));
  return ids;
}

GArray *
rw_facts_way (const RwFacts *facts, const RwFactsPath *path)
{
  GArray *links = g_array_new (FALSE, FALSE, sizeof (guint));

  rw_paths_find (facts->net, forecast_of (facts)->paths, path->from_node, path->to_node, links);
  return links;
}

guint
rw_facts_hops (const RwFacts *facts, const RwFactsPath *path)
{
  g_autoptr (GArray) links = rw_facts_way (facts, path);

  return rw_paths_hops (facts->net, path->from_node, links);
}

char **
rw_facts_cables_of (const RwFacts *facts, const RwFactsPath *path)
{
  g_autoptr (GArray) links = rw_facts_way (facts, path);
  char **ids = g_new0 (char *, links->len + 1);

  for (guint i = 0; i < links->len; i++)
    ids[i] = g_strdup (id_of (facts, facts->net->links[g_array_index (links, guint, i)].cable, TRUE));
  return ids;
}

gboolean
rw_facts_tree (const RwFacts *facts, guint network, guint *root, guint *depth, GArray *blocked)
{
  const RwNet *net = facts->net;
  const RwTree *tree = rw_net_tree (net);
  RwSlice devices = net->networks[network].devices, links = net->networks[network].links;

  *root = RW_NONE;
  *depth = 0;
  for (guint i = 0; i < devices.n; i++)
    if (tree->bridges[devices.v[i]].root != RW_NONE)
      {
        *root = *root != RW_NONE ? *root : tree->bridges[devices.v[i]].root;
        *depth = MAX (*depth, tree->bridges[devices.v[i]].depth);
      }
  for (guint i = 0; i < links.n; i++)
    for (guint end = 0; end < 2; end++)
      {
        guint port = net->cables[net->links[links.v[i]].cable].port[end];
        gboolean again = i > 0 && net->links[links.v[i]].cable == net->links[links.v[i - 1]].cable;
        if (tree->roles[port] == RW_TREE_ROLE_BLOCKED && !again)
          g_array_append_val (blocked, port);
      }
  return *root != RW_NONE;
}

static char **
names_of_rows (const RwFacts *facts, const GArray *rows)
{
  char **ids = g_new0 (char *, rows->len + 1);

  for (guint i = 0; i < rows->len; i++)
    ids[i] = g_strdup (rw_item_key (rw_rig_items (facts->rig, RW_ITEM_PATCH)[g_array_index (rows, guint, i)]));
  return ids;
}

/* What the failure of one device or (device = RW_NONE) one cable costs, by name. */
void
rw_facts_lost (const RwFacts *facts, guint device, guint cable, char ***rows, char ***devices)
{
  g_autofree gboolean *dead_devices = g_new0 (gboolean, facts->net->n_devices + 1);
  g_autofree gboolean *dead_cables = g_new0 (gboolean, facts->net->n_cables + 1);
  g_autoptr (GArray) lost_rows = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) lost_devices = g_array_new (FALSE, FALSE, sizeof (guint));
  RwFailed failed = { dead_devices, dead_cables };
  RwSlice slice;

  *(device != RW_NONE ? &dead_devices[device] : &dead_cables[cable]) = TRUE;
  rw_fail (facts->net, &failed, lost_rows, lost_devices);
  *rows = names_of_rows (facts, lost_rows);
  slice = (RwSlice){ (const guint *) (gpointer) lost_devices->data, lost_devices->len };
  *devices = rw_facts_ids (facts, slice, FALSE);
}
