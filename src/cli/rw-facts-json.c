/* SPDX-License-Identifier: MIT */
#include "rw-facts.h"
#include "rw-out-json.h"

static const char *
device_id (const RwFacts *facts, guint device)
{
  return device != RW_NONE ? rw_item_key (facts->net->devices[device].device) : NULL;
}

static void
add_slice (const RwFacts *facts, RwOut *out, const char *name, RwSlice indices, gboolean cables)
{
  g_auto (GStrv) ids = rw_facts_ids (facts, indices, cables);

  rw_out_ids (out, name, ids);
}

static void
add_planes (RwOut *out, RwPlanes planes)
{
  static const struct { RwPlanes plane; const char *word; } words[] = {
    { RW_PLANE_CHAIN, "chain" }, { RW_PLANE_PRIMARY, "primary" }, { RW_PLANE_SECONDARY, "secondary" }
  };

  rw_out_begin_array (out, "planes");
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (planes & words[i].plane)
      rw_out_text (out, NULL, words[i].word);
  rw_out_end_array (out);
}

static void
add_tree (const RwFacts *facts, RwOut *out, guint network)
{
  g_autoptr (GArray) blocked = g_array_new (FALSE, FALSE, sizeof (guint));
  guint root, depth;

  if (!rw_facts_tree (facts, network, &root, &depth, blocked))
    {
      rw_out_null (out, "tree");
      return;
    }
  rw_out_begin_object (out, "tree");
  rw_out_text (out, "root", device_id (facts, root));
  rw_out_begin_array (out, "blocked");
  for (guint i = 0; i < blocked->len; i++)
    {
      const RwNetPort *port = &facts->net->ports[g_array_index (blocked, guint, i)];
      rw_out_begin_array (out, NULL);
      rw_out_text (out, NULL, device_id (facts, port->device));
      rw_out_text (out, NULL, port->port->name);
      rw_out_end_array (out);
    }
  rw_out_end_array (out);
  rw_out_integer (out, "depth", depth);
  rw_out_end_object (out);
}

static void
add_network (const RwFacts *facts, RwOut *out, guint index)
{
  const RwNetwork *network = &facts->net->networks[index];
  g_autofree char *id = rw_facts_network_id (facts, index);
  RwCuts cuts;

  rw_out_begin_object (out, NULL);
  rw_out_text (out, "id", id);
  rw_out_begin_array (out, "vlans");
  for (guint i = 0; i < network->vlans.n; i++)
    rw_out_integer (out, NULL, network->vlans.v[i]);
  rw_out_end_array (out);
  add_slice (facts, out, "devices", network->devices, FALSE);
  add_slice (facts, out, "cables", network->cables, TRUE);
  add_planes (out, network->planes);
  rw_out_integer (out, "loops", network->n_loops);
  rw_out_boolean (out, "storm", network->storm);
  add_tree (facts, out, index);
  rw_out_text (out, "clock_leader",
                device_id (facts, rw_clocks_network_leader (rw_net_forecast (facts->net)->clocks, index,
                                                            rw_rig_system (facts->rig)->clock_domain)));
  rw_net_cuts (facts->net, index, &cuts);
  add_slice (facts, out, "cut_cables", (RwSlice){ (guint *) (gpointer) cuts.cables->data, cuts.cables->len }, TRUE);
  add_slice (facts, out, "cut_devices", (RwSlice){ (guint *) (gpointer) cuts.devices->data, cuts.devices->len }, FALSE);
  rw_cuts_clear (&cuts);
  rw_out_end_object (out);
}

static void
add_path (const RwFacts *facts, RwOut *out, const RwFactsPath *path)
{
  g_autofree char *network = rw_facts_network_id (facts, path->network);
  g_auto (GStrv) cables = rw_facts_cables_of (facts, path);

  rw_out_begin_object (out, NULL);
  rw_out_text (out, "network", network);
  rw_out_text (out, "from", device_id (facts, path->from));
  rw_out_text (out, "to", device_id (facts, path->to));
  rw_out_integer (out, "hops", rw_facts_hops (facts, path));
  rw_out_ids (out, "cables", cables);
  rw_out_real (out, "delay_ns", path->delay_ns, 1);
  rw_out_end_object (out);
}

static void
add_link (const RwFacts *facts, RwOut *out, guint index, guint direction)
{
  const RwNet *net = facts->net;
  const RwNetCable *cable = &net->cables[index];
  const RwLoads *loads = rw_net_forecast (net)->loads;

  rw_out_begin_object (out, NULL);
  rw_out_text (out, "cable", rw_item_key (cable->cable));
  rw_out_text (out, "from", device_id (facts, net->ports[cable->port[direction]].device));
  rw_out_text (out, "to", device_id (facts, net->ports[cable->port[1 - direction]].device));
  rw_out_real (out, "mbps", loads->loads[2 * index + direction].mbps, 6);
  rw_out_real (out, "percent", rw_load_percent (net, loads, index, direction), 6);
  rw_out_end_object (out);
}

static void
add_failure (const RwFacts *facts, RwOut *out, guint device, guint cable)
{
  RwLoss loss = device != RW_NONE ? facts->survival->devices[device] : facts->survival->cables[cable];

  rw_out_begin_object (out, NULL);
  if (device != RW_NONE)
    rw_out_text (out, "device", device_id (facts, device));
  else
    rw_out_text (out, "cable", rw_item_key (facts->net->cables[cable].cable));
  if (facts->list)
    {
      g_auto (GStrv) rows = NULL;
      g_auto (GStrv) devices = NULL;
      rw_facts_lost (facts, device, cable, &rows, &devices);
      rw_out_ids (out, "rows_lost", rows);
      rw_out_ids (out, "devices_lost", devices);
    }
  else
    {
      rw_out_integer (out, "rows_lost", loss.rows);
      rw_out_integer (out, "devices_lost", loss.devices);
    }
  rw_out_end_object (out);
}

/**
 * rw_facts_to_json:
 *
 * Writes one object, of which other programs may rely on the names and the order of the members.
 */
void
rw_facts_to_json (const RwFacts *facts, RwOut *out)
{
  const RwNet *net = facts->net;

  rw_out_begin_object (out, NULL);
  rw_out_begin_array (out, "networks");
  for (guint i = 0; i < facts->networks->len; i++)
    add_network (facts, out, g_array_index (facts->networks, guint, i));
  rw_out_end_array (out);
  rw_out_begin_array (out, "paths");
  for (guint i = 0; i < facts->paths->len; i++)
    add_path (facts, out, &g_array_index (facts->paths, RwFactsPath, i));
  rw_out_end_array (out);
  rw_out_begin_array (out, "links");
  for (guint i = 0; i < 2 * net->n_cables; i++)
    if (net->cables[i / 2].carries)
      add_link (facts, out, i / 2, i % 2);
  rw_out_end_array (out);
  rw_out_begin_array (out, "failures");
  for (guint i = 0; i < net->n_devices; i++)
    add_failure (facts, out, i, RW_NONE);
  for (guint i = 0; i < net->n_cables; i++)
    if (net->cables[i].audio)
      add_failure (facts, out, RW_NONE, i);
  rw_out_end_array (out);
  rw_out_end_object (out);
}
