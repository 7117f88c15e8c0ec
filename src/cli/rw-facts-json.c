/* SPDX-License-Identifier: MIT */
#include "rw-facts.h"
#include "rw-out-json.h"

static const char *
device_id (const RwFacts *facts, guint device)
{
  return device != RW_NONE ? rw_item_key (facts->net->devices[device].device) : NULL;
}

static void
begin_list (JsonBuilder *builder, const char *name)
{
  json_builder_set_member_name (builder, name);
  json_builder_begin_array (builder);
}

static void
add_slice (const RwFacts *facts, JsonBuilder *builder, const char *name, RwSlice indices, gboolean cables)
{
  g_auto (GStrv) ids = rw_facts_ids (facts, indices, cables);

  rw_out_ids (builder, name, ids);
}

static void
add_planes (JsonBuilder *builder, RwPlanes planes)
{
  static const struct { RwPlanes plane; const char *word; } words[] = {
    { RW_PLANE_CHAIN, "chain" }, { RW_PLANE_PRIMARY, "primary" }, { RW_PLANE_SECONDARY, "secondary" }
  };

  begin_list (builder, "planes");
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (planes & words[i].plane)
      json_builder_add_string_value (builder, words[i].word);
  json_builder_end_array (builder);
}

static void
add_tree (const RwFacts *facts, JsonBuilder *builder, guint network)
{
  g_autoptr (GArray) blocked = g_array_new (FALSE, FALSE, sizeof (guint));
  guint root, depth;

  json_builder_set_member_name (builder, "tree");
  if (!rw_facts_tree (facts, network, &root, &depth, blocked))
    {
      json_builder_add_null_value (builder);
      return;
    }
  json_builder_begin_object (builder);
  rw_out_text (builder, "root", device_id (facts, root));
  begin_list (builder, "blocked");
  for (guint i = 0; i < blocked->len; i++)
    {
      const RwNetPort *port = &facts->net->ports[g_array_index (blocked, guint, i)];
      json_builder_begin_array (builder);
      json_builder_add_string_value (builder, device_id (facts, port->device));
      json_builder_add_string_value (builder, port->port->name);
      json_builder_end_array (builder);
    }
  json_builder_end_array (builder);
  rw_out_integer (builder, "depth", depth);
  json_builder_end_object (builder);
}

static void
add_network (const RwFacts *facts, JsonBuilder *builder, guint index)
{
  const RwNetwork *network = &facts->net->networks[index];
  g_autofree char *id = rw_facts_network_id (facts, index);
  RwCuts cuts;

  json_builder_begin_object (builder);
  rw_out_text (builder, "id", id);
  begin_list (builder, "vlans");
  for (guint i = 0; i < network->vlans.n; i++)
    json_builder_add_int_value (builder, network->vlans.v[i]);
  json_builder_end_array (builder);
  add_slice (facts, builder, "devices", network->devices, FALSE);
  add_slice (facts, builder, "cables", network->cables, TRUE);
  add_planes (builder, network->planes);
  rw_out_integer (builder, "loops", network->n_loops);
  json_builder_set_member_name (builder, "storm");
  json_builder_add_boolean_value (builder, network->storm);
  add_tree (facts, builder, index);
  rw_out_text (builder, "clock_leader",
                device_id (facts, rw_clocks_network_leader (rw_net_forecast (facts->net)->clocks, index,
                                                            rw_rig_system (facts->rig)->clock_domain)));
  rw_net_cuts (facts->net, index, &cuts);
  add_slice (facts, builder, "cut_cables", (RwSlice){ (guint *) (gpointer) cuts.cables->data, cuts.cables->len }, TRUE);
  add_slice (facts, builder, "cut_devices", (RwSlice){ (guint *) (gpointer) cuts.devices->data, cuts.devices->len }, FALSE);
  rw_cuts_clear (&cuts);
  json_builder_end_object (builder);
}

static void
add_path (const RwFacts *facts, JsonBuilder *builder, const RwFactsPath *path)
{
  g_autofree char *network = rw_facts_network_id (facts, path->network);
  g_auto (GStrv) cables = rw_facts_cables_of (facts, path);

  json_builder_begin_object (builder);
  rw_out_text (builder, "network", network);
  rw_out_text (builder, "from", device_id (facts, path->from));
  rw_out_text (builder, "to", device_id (facts, path->to));
  rw_out_integer (builder, "hops", rw_facts_hops (facts, path));
  rw_out_ids (builder, "cables", cables);
  rw_out_real (builder, "delay_ns", path->delay_ns, 1);
  json_builder_end_object (builder);
}

static void
add_link (const RwFacts *facts, JsonBuilder *builder, guint index, guint direction)
{
  const RwNet *net = facts->net;
  const RwNetCable *cable = &net->cables[index];
  const RwLoads *loads = rw_net_forecast (net)->loads;

  json_builder_begin_object (builder);
  rw_out_text (builder, "cable", rw_item_key (cable->cable));
  rw_out_text (builder, "from", device_id (facts, net->ports[cable->port[direction]].device));
  rw_out_text (builder, "to", device_id (facts, net->ports[cable->port[1 - direction]].device));
  rw_out_real (builder, "mbps", loads->loads[2 * index + direction].mbps, 6);
  rw_out_real (builder, "percent", rw_load_percent (net, loads, index, direction), 6);
  json_builder_end_object (builder);
}

static void
add_failure (const RwFacts *facts, JsonBuilder *builder, guint device, guint cable)
{
  RwLoss loss = device != RW_NONE ? facts->survival->devices[device] : facts->survival->cables[cable];

  json_builder_begin_object (builder);
  if (device != RW_NONE)
    rw_out_text (builder, "device", device_id (facts, device));
  else
    rw_out_text (builder, "cable", rw_item_key (facts->net->cables[cable].cable));
  if (facts->list)
    {
      g_auto (GStrv) rows = NULL;
      g_auto (GStrv) devices = NULL;
      rw_facts_lost (facts, device, cable, &rows, &devices);
      rw_out_ids (builder, "rows_lost", rows);
      rw_out_ids (builder, "devices_lost", devices);
    }
  else
    {
      rw_out_integer (builder, "rows_lost", loss.rows);
      rw_out_integer (builder, "devices_lost", loss.devices);
    }
  json_builder_end_object (builder);
}

/**
 * rw_facts_to_json:
 *
 * Adds one object to @builder, of which other programs may rely on the names and the order of the members.
 */
void
rw_facts_to_json (const RwFacts *facts, JsonBuilder *builder)
{
  const RwNet *net = facts->net;

  json_builder_begin_object (builder);
  begin_list (builder, "networks");
  for (guint i = 0; i < facts->networks->len; i++)
    add_network (facts, builder, g_array_index (facts->networks, guint, i));
  json_builder_end_array (builder);
  begin_list (builder, "paths");
  for (guint i = 0; i < facts->paths->len; i++)
    add_path (facts, builder, &g_array_index (facts->paths, RwFactsPath, i));
  json_builder_end_array (builder);
  begin_list (builder, "links");
  for (guint i = 0; i < 2 * net->n_cables; i++)
    if (net->cables[i / 2].carries)
      add_link (facts, builder, i / 2, i % 2);
  json_builder_end_array (builder);
  begin_list (builder, "failures");
  for (guint i = 0; i < net->n_devices; i++)
    add_failure (facts, builder, i, RW_NONE);
  for (guint i = 0; i < net->n_cables; i++)
    if (net->cables[i].audio)
      add_failure (facts, builder, RW_NONE, i);
  json_builder_end_array (builder);
  json_builder_end_object (builder);
}
