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

/* By network: bit p = something plays or listens in it that a rewiring takes to plane p (0 = primary). (transfer full). */
guint8 *
rw_rewire_planes (const RwNet *net)
{
  guint8 *planes = g_new0 (guint8, net->n_networks + 1);

  for (guint i = 0; i < net->n_nodes; i++)
    if (net->nodes[i].host)
      planes[net->nodes[i].network] |= net->nodes[i].kind == RW_NODE_INTERFACE && net->nodes[i].side == RW_SIDE_SECONDARY ? 2 : 1;
  return planes;
}

static gboolean
is_aux (const RwNet *net, const RwNetCable *cable, guint end)
{
  return net->ports[cable->port[end]].port->side == RW_SIDE_AUX;
}

/**
 * rw_rewire_guest: whether @cable leads a port apart from the audio networks, such as a tablet's, into one of them.
 * @planes: of rw_rewire_planes()
 * @port: (out): that port
 *
 * Returns: the planes of that network; 0 = it does not
 */
guint8
rw_rewire_guest (const RwNet *net, const guint8 *planes, const RwNetCable *cable, guint *port)
{
  guint end = is_aux (net, cable, 0) ? 0 : 1, node;

  if (is_aux (net, cable, 0) == is_aux (net, cable, 1))
    return 0;
  *port = cable->port[end];
  node = rw_net_port_node (net, cable->port[1 - end], RW_UNTAGGED);
  return node != RW_NONE ? planes[net->nodes[node].network] : 0;
}

/* Whether it serves something else than the audio networks, if beside them: it leads to a port apart from them, or
 * joins switches in a network in which nothing plays or listens, such as a VLAN for control. */
static gboolean
serves_others (const RwNet *net, const guint8 *planes, const RwNetCable *cable)
{
  guint port;

  for (guint e = 0; e < 2; e++)
    if (net->ports[cable->port[e]].port->side == RW_SIDE_PRIMARY || net->ports[cable->port[e]].port->side == RW_SIDE_SECONDARY)
      return FALSE;
  if (!cable->audio)
    return rw_rewire_guest (net, planes, cable, &port) == 0;
  for (guint i = cable->first_link; i < cable->first_link + cable->n_links; i++)
    if (planes[net->nodes[net->links[i].node[0]].network] == 0)
      return TRUE;
  return FALSE;
}

typedef struct
{
  GHashTable *wished; /* keys of pairs */
  GHashTable *there;  /* those of them that are drawn already */
  guint8 *planes;
  gboolean *plugged;  /* by port: a wish needs it, or a cable that serves others has it */
} Kept;

/* A cable that serves others is none of a rewiring's business, if it is the first of them in both its ports; of those
 * that are wished for, the first of each pair is right already. */
static gboolean
is_kept (const RwNet *net, const RwNetCable *cable, Kept *kept)
{
  const guint *port = cable->port;
  g_autofree char *key = NULL;

  if (serves_others (net, kept->planes, cable))
    {
      if (port[0] == port[1] || kept->plugged[port[0]] || kept->plugged[port[1]])
        return FALSE;
      kept->plugged[port[0]] = kept->plugged[port[1]] = TRUE;
      return TRUE;
    }
  key = cable_key (cable->cable);
  return g_hash_table_contains (kept->wished, key) && g_hash_table_add (kept->there, g_strdup (key));
}

static void
remove_cables (RwEdit *edit, const RwNet *net, Kept *kept)
{
  for (guint i = 0; i < net->n_cables; i++)
    if (!is_kept (net, &net->cables[i], kept))
      rw_edit_remove (edit, rw_item_key (net->cables[i].cable));
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
  cost->n_mismatched += !matches;
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

static void
plug_wish (const RwNet *net, const RwWish *wish, gboolean *plugged)
{
  for (guint e = 0; e < 2; e++)
    {
      guint port = rw_net_find_port (net, wish->end[e].device, wish->end[e].port->name);

      if (port != RW_NONE)
        plugged[port] = TRUE;
    }
}

void
rw_rewire_apply (RwEdit *edit, const RwNet *net, const GArray *wishes, RwRewireCost *cost)
{
  g_autoptr (RwPaths) paths = rw_paths_new (net);
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GHashTable) wished = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) there = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree guint8 *planes = rw_rewire_planes (net);
  g_autofree gboolean *plugged = g_new0 (gboolean, net->n_ports + 1);

  for (guint i = 0; i < wishes->len; i++)
    {
      g_hash_table_add (wished, wish_key (&g_array_index (wishes, RwWish, i)));
      plug_wish (net, &g_array_index (wishes, RwWish, i), plugged);
    }
  remove_cables (edit, net, &(Kept) { wished, there, planes, plugged });
  for (guint i = 0; i < wishes->len; i++)
    {
      const RwWish *wish = &g_array_index (wishes, RwWish, i);
      g_autofree char *key = wish_key (wish);

      if (g_hash_table_contains (there, key))
        continue;
      draw_cable (edit, wish, cost);
      add_metres (net, paths, wish, links, cost);
    }
  cost->n_switch_ports = count_switch_ports (wishes);
}

static void
count_ends (GHashTable *counts, const RwItem *item, int step)
{
  const RwCable *cable = (const RwCable *) item;
  const char *const ends[] = { item != NULL ? cable->from.device : NULL, item != NULL ? cable->to.device : NULL };

  for (guint e = 0; e < 2 && ends[e] != NULL; e++)
    {
      int n = GPOINTER_TO_INT (g_hash_table_lookup (counts, ends[e]));
      g_hash_table_insert (counts, (gpointer) ends[e], GINT_TO_POINTER (n + step));
    }
}

/**
 * rw_rewire_bare:
 * @rig: a rig
 * @change: a change that fits it
 *
 * Returns: (transfer container): the devices that have a cable now and none after @change, in file order
 */
GPtrArray *
rw_rewire_bare (const RwRig *rig, const RwChange *change)
{
  g_autoptr (GHashTable) counts = g_hash_table_new (g_str_hash, g_str_equal);
  GPtrArray *bare = g_ptr_array_new ();

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    count_ends (counts, rw_rig_items (rig, RW_ITEM_CABLE)[i], 1);
  for (guint i = 0; i < rw_change_n (change); i++)
    if (rw_change_entry (change, i)->type == RW_ITEM_CABLE)
      {
        count_ends (counts, rw_change_entry (change, i)->before, -1);
        count_ends (counts, rw_change_entry (change, i)->after, 1);
      }
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      RwItem *device = rw_rig_items (rig, RW_ITEM_DEVICE)[i];
      gpointer n;

      if (g_hash_table_lookup_extended (counts, rw_item_key (device), NULL, &n) && GPOINTER_TO_INT (n) == 0)
        g_ptr_array_add (bare, device);
    }
  return bare;
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
