/* SPDX-License-Identifier: MIT */
/* What the two rewirings share: old cables out, wished ones in, and the cost. */
#include "rw-rewire-private.h"

#include "rw-order.h"

/* Room for one end of a cable as the key of a table. */
static char *
end_key (const char *device, const char *port)
{
  return g_strconcat (device, "\t", port, NULL);
}

/* What is drawn already between the two ends, whichever way round: a cable's keys. */
static char *
pair_key (const char *a, const char *b)
{
  return g_strcmp0 (a, b) <= 0 ? g_strconcat (a, "\n", b, NULL) : g_strconcat (b, "\n", a, NULL);
}

static char *
cable_key (const RwCable *cable)
{
  g_autofree char *a = end_key (cable->from.device, cable->from.port);
  g_autofree char *b = end_key (cable->to.device, cable->to.port);

  return pair_key (a, b);
}

static char *
wish_key (const RwWish *wish)
{
  g_autofree char *a = end_key (wish->end[0].device, wish->end[0].port->name);
  g_autofree char *b = end_key (wish->end[1].device, wish->end[1].port->name);

  return pair_key (a, b);
}

/* Between two ports apart from the network, and the first in both: such a cable is none of a rewiring's business. */
static gboolean
stays_apart (const RwNet *net, const RwNetCable *cable, gboolean *plugged)
{
  const guint *port = cable->port;

  if (net->ports[port[0]].port->side != RW_SIDE_AUX || net->ports[port[1]].port->side != RW_SIDE_AUX || port[0] == port[1]
      || plugged[port[0]] || plugged[port[1]])
    return FALSE;
  plugged[port[0]] = plugged[port[1]] = TRUE;
  return TRUE;
}

/* Takes all cables but those between two ports apart from the network, and the first of each wished pair. */
static void
remove_cables (RwEdit *edit, const RwNet *net, GHashTable *wished, GHashTable *there, RwRewireCost *cost)
{
  g_autofree gboolean *plugged = g_new0 (gboolean, net->n_ports);

  for (guint i = 0; i < net->n_cables; i++)
    {
      g_autofree char *key = cable_key (net->cables[i].cable);

      if (stays_apart (net, &net->cables[i], plugged))
        continue;
      if (g_hash_table_contains (wished, key) && g_hash_table_add (there, g_strdup (key)))
        {
          cost->n_kept++;
          continue;
        }
      rw_edit_remove (edit, rw_item_key (net->cables[i].cable));
      cost->n_removed++;
    }
}

/* Metres of cable on the way that frames now take between two devices; negative = none, or a length is not known. */
static double
present_metres (const RwNet *net, const RwPaths *paths, guint from, guint to, GArray *links)
{
  const RwNetDevice *d = &net->devices[from];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    {
      guint other = rw_net_host_node (net, to, net->nodes[i].network);
      double metres = 0;

      if (!net->nodes[i].host || other == RW_NONE || !rw_paths_find (net, paths, i, other, links))
        continue;
      for (guint k = 0; k < links->len && metres >= 0; k++)
        {
          double length = net->cables[net->links[g_array_index (links, guint, k)].cable].cable->length_m;
          metres = length > 0 ? metres + length : -1;
        }
      if (metres >= 0)
        return metres;
    }
  return -1;
}

static void
add_metres (const RwNet *net, const RwPaths *paths, const RwWish *wish, GArray *links, RwRewireCost *cost)
{
  double metres = -1;

  if (wish->end[0].known != RW_NONE && wish->end[1].known != RW_NONE)
    metres = present_metres (net, paths, wish->end[0].known, wish->end[1].known, links);
  if (metres > 0)
    cost->metres += metres;
  else
    cost->n_unmeasured++;
}

/* The medium of a new cable: what the ends take; a cage takes any. Copper where both do. */
static RwMedium
medium_of (const RwWish *wish, gboolean *matches)
{
  int a = wish->end[0].port->medium, b = wish->end[1].port->medium;

  *matches = a == b || a == RW_MEDIUM_CAGE || b == RW_MEDIUM_CAGE;
  if (a == RW_MEDIUM_CAGE)
    a = b;
  return a == RW_MEDIUM_CAGE ? RW_MEDIUM_COPPER : (RwMedium) a;
}

static void
set_end (RwItem *item, guint field, const RwWishEnd *end)
{
  rw_record_set (item, &rw_cable_table, field, g_variant_new ("(ss)", end->device, end->port->name), NULL);
}

static void
draw_cable (RwEdit *edit, const RwWish *wish, RwRewireCost *cost)
{
  g_autofree char *id = rw_edit_fresh_id (edit, "cable");
  RwItem *item = rw_item_new (RW_ITEM_CABLE);
  gboolean matches;
  RwMedium medium = medium_of (wish, &matches);

  rw_record_set (item, &rw_cable_table, RW_CABLE_ID, g_variant_new_string (id), NULL);
  set_end (item, RW_CABLE_FROM, &wish->end[0]);
  set_end (item, RW_CABLE_TO, &wish->end[1]);
  if (medium != RW_MEDIUM_COPPER)
    rw_record_set (item, &rw_cable_table, RW_CABLE_MEDIUM, g_variant_new_string (rw_media_words[medium]), NULL);
  rw_edit_put (edit, rw_item_seal (item));
  cost->n_new++;
  cost->n_mismatched += !matches;
}

static guint
count_idle (const RwNet *net, const GArray *wishes)
{
  g_autoptr (GHashTable) used = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = 0;

  for (guint i = 0; i < wishes->len; i++)
    for (guint e = 0; e < 2; e++)
      g_hash_table_add (used, (gpointer) g_array_index (wishes, RwWish, i).end[e].device);
  for (guint i = 0; i < net->n_devices; i++)
    n += net->devices[i].forwards && !g_hash_table_contains (used, rw_item_key (net->devices[i].device));
  return n;
}

static guint
count_switch_ports (const GArray *wishes)
{
  guint n = 0;

  for (guint i = 0; i < wishes->len; i++)
    for (guint e = 0; e < 2; e++)
      n += g_array_index (wishes, RwWish, i).end[e].port->side == RW_SIDE_NETWORK;
  return n;
}

void
rw_rewire_apply (RwEdit *edit, const RwNet *net, const GArray *wishes, RwRewireCost *cost)
{
  g_autoptr (RwPaths) paths = rw_paths_new (net);
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GHashTable) wished = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) there = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < wishes->len; i++)
    g_hash_table_add (wished, wish_key (&g_array_index (wishes, RwWish, i)));
  remove_cables (edit, net, wished, there, cost);
  for (guint i = 0; i < wishes->len; i++)
    {
      const RwWish *wish = &g_array_index (wishes, RwWish, i);
      g_autofree char *key = wish_key (wish);

      if (g_hash_table_contains (there, key))
        continue;
      draw_cable (edit, wish, cost);
      add_metres (net, paths, wish, links, cost);
    }
  cost->n_idle = count_idle (net, wishes);
  cost->n_switch_ports = count_switch_ports (wishes);
}

/* The word alone is written, and only where it says something new. */
void
rw_rewire_set_mode (RwEdit *edit, const RwNetDevice *device, RwMode mode)
{
  if (device->mode != mode)
    rw_edit_set (edit, rw_item_key (device->device), RW_DEVICE_MODE,
                 g_variant_new_string (rw_field_word (&rw_device_table.fields[RW_DEVICE_MODE], mode)), NULL);
}

/* What plays or listens and has a port on the network, by place. */
GArray *
rw_rewire_hosts (const RwNet *net)
{
  GArray *hosts = rw_net_order (net, RW_ORDER_PLACE);
  guint n = 0;

  for (guint i = 0; i < hosts->len; i++)
    {
      guint device = g_array_index (hosts, guint, i);
      const RwNetDevice *d = &net->devices[device];

      if (!d->forwards && rw_part_find_side (d->part, RW_SIDE_PRIMARY) >= 0)
        g_array_index (hosts, guint, n++) = device;
    }
  g_array_set_size (hosts, n);
  return hosts;
}
