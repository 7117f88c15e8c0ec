/* SPDX-License-Identifier: MIT */
/*
 * Which ports a cable takes when the hand names only devices. The plane logic:
 * - two chain devices: secondary to primary, so that a sweep from the console out makes a chain;
 * - two devices of which one is redundant: same side to same side, so that planes stay apart;
 * - a device and a switch: the primary, unless the switch's network is already a plane: then that plane's side;
 * - two switches: ports whose networks are of one plane;
 * - a single device: its primary only; aux ports only with each other.
 * Among equals the first port in the order of the part wins.
 */
#include "rw-tool-wiring.h"

/* How much a pair of ports is to be preferred. Never = only where the hand points at both ports itself. */
enum { SCORE_NEVER, SCORE_WRONG_PLANE, SCORE_ODD, SCORE_SPARE, SCORE_FAIR, SCORE_GOOD, SCORE_RIGHT };

void
rw_wiring_init (RwWiring *wiring, const RwNet *net)
{
  wiring->net = net;
  wiring->taken = g_new0 (guint8, net->n_ports + 1);
  for (guint i = 0; i < net->n_ports; i++)
    wiring->taken[i] = net->ports[i].n_cables > 0;
}

void
rw_wiring_clear (RwWiring *wiring)
{
  g_clear_pointer (&wiring->taken, g_free);
}

gboolean
rw_wiring_is_free (const RwWiring *wiring, guint port)
{
  return !wiring->taken[port];
}

/**
 * rw_wiring_fits:
 *
 * Returns: %TRUE where a cable can be plugged into both ports, whatever comes of it: a cage takes any
 *   medium, else the two media must be the same; not twice the same port
 */
gboolean
rw_wiring_fits (const RwWiring *wiring, guint a, guint b)
{
  int medium_a = wiring->net->ports[a].port->medium;
  int medium_b = wiring->net->ports[b].port->medium;

  return a != b && (medium_a == medium_b || medium_a == RW_MEDIUM_CAGE || medium_b == RW_MEDIUM_CAGE);
}

static const RwNetDevice *
device_of (const RwWiring *wiring, guint port)
{
  return &wiring->net->devices[wiring->net->ports[port].device];
}

static int
score_hosts (const RwNetDevice *a, int side_a, const RwNetDevice *b, int side_b)
{
  if (a->mode == RW_MODE_CHAIN && b->mode == RW_MODE_CHAIN)
    {
      if (side_a == side_b)
        return SCORE_SPARE;
      return side_a == RW_SIDE_SECONDARY ? SCORE_RIGHT : SCORE_GOOD;
    }
  if (side_a != side_b)
    return SCORE_WRONG_PLANE;
  return side_a == RW_SIDE_PRIMARY ? SCORE_RIGHT : SCORE_GOOD;
}

static RwPlanes
planes_of (const RwWiring *wiring, guint port)
{
  guint node = rw_net_port_node (wiring->net, port, RW_UNTAGGED);

  if (node == RW_NONE || wiring->net->nodes[node].network == RW_NONE)
    return 0;
  return wiring->net->networks[wiring->net->nodes[node].network].planes & (RW_PLANE_PRIMARY | RW_PLANE_SECONDARY);
}

static int
score_host_and_switch (const RwNetDevice *host, int side, RwPlanes planes)
{
  RwPlanes own = side == RW_SIDE_PRIMARY ? RW_PLANE_PRIMARY : RW_PLANE_SECONDARY;

  if (host->mode == RW_MODE_REDUNDANT && planes == own)
    return SCORE_RIGHT;
  if (host->mode == RW_MODE_REDUNDANT && planes != 0)
    return SCORE_WRONG_PLANE;
  return side == RW_SIDE_PRIMARY ? SCORE_GOOD : SCORE_FAIR;
}

static int
score_switches (RwPlanes a, RwPlanes b)
{
  if (a == 0 || b == 0)
    return SCORE_GOOD;
  return a == b ? SCORE_RIGHT : SCORE_WRONG_PLANE;
}

static gboolean
is_dead (const RwNetDevice *device, int side)
{
  return !device->forwards && device->mode == RW_MODE_SINGLE && side == RW_SIDE_SECONDARY;
}

/**
 * rw_wiring_score:
 *
 * Returns: how well a cable from port @from to port @to would do; 0 = never without being told to
 */
int
rw_wiring_score (const RwWiring *wiring, guint from, guint to)
{
  const RwNetDevice *a = device_of (wiring, from), *b = device_of (wiring, to);
  int side_a = wiring->net->ports[from].port->side, side_b = wiring->net->ports[to].port->side;

  if (a == b || !rw_wiring_fits (wiring, from, to) || is_dead (a, side_a) || is_dead (b, side_b))
    return SCORE_NEVER;
  if (side_a == RW_SIDE_AUX || side_b == RW_SIDE_AUX)
    return side_a == side_b ? SCORE_ODD : SCORE_NEVER;
  if (a->forwards && b->forwards)
    return score_switches (planes_of (wiring, from), planes_of (wiring, to));
  if (a->forwards)
    return score_host_and_switch (b, side_b, planes_of (wiring, from));
  if (b->forwards)
    return score_host_and_switch (a, side_a, planes_of (wiring, to));
  return score_hosts (a, side_a, b, side_b);
}

/**
 * rw_wiring_choose:
 * @from_port: the port at which the cable starts, or RW_NONE: any of @from_device
 * @from: (out): the port chosen there
 * @to: (out): the free port of @to_device
 *
 * Returns: %FALSE where no two free ports go together
 */
gboolean
rw_wiring_choose (const RwWiring *wiring, guint from_device, guint from_port, guint to_device, guint *from, guint *to)
{
  const RwNetDevice *a = &wiring->net->devices[from_device], *b = &wiring->net->devices[to_device];
  int best = SCORE_NEVER;

  for (guint i = a->first_port; i < a->first_port + a->n_ports; i++)
    {
      if (from_port != RW_NONE ? i != from_port : wiring->taken[i])
        continue;
      for (guint j = b->first_port; j < b->first_port + b->n_ports; j++)
        if (!wiring->taken[j] && rw_wiring_score (wiring, i, j) > best)
          {
            best = rw_wiring_score (wiring, i, j);
            *from = i;
            *to = j;
          }
    }
  return best > SCORE_NEVER;
}

/**
 * rw_wiring_are_joined:
 *
 * Returns: %TRUE where an audio cable of the rig leads from device @a straight to device @b
 */
gboolean
rw_wiring_are_joined (const RwWiring *wiring, guint a, guint b)
{
  const RwNet *net = wiring->net;

  for (guint i = 0; i < net->n_cables; i++)
    {
      const RwNetPort *from = &net->ports[net->cables[i].port[0]], *to = &net->ports[net->cables[i].port[1]];

      if (from->port->side != RW_SIDE_AUX && to->port->side != RW_SIDE_AUX
          && ((from->device == a && to->device == b) || (from->device == b && to->device == a)))
        return TRUE;
    }
  return FALSE;
}

/**
 * rw_wiring_passes_on:
 *
 * Returns: %TRUE where frames that enter @device by one cable can leave it by another: what is swept after it
 *   can hang on it
 */
gboolean
rw_wiring_passes_on (const RwWiring *wiring, guint device)
{
  return wiring->net->devices[device].forwards || wiring->net->devices[device].mode == RW_MODE_CHAIN;
}

/* The medium that both ports take; between two cages, which take any, multimode fibre: that is what cages are bought for. */
static RwMedium
common_medium (int a, int b)
{
  if (a == RW_MEDIUM_CAGE && b == RW_MEDIUM_CAGE)
    return RW_MEDIUM_MULTIMODE;
  return a == RW_MEDIUM_CAGE ? b : a;
}

static GVariant *
end_value (const RwWiring *wiring, guint port)
{
  return g_variant_new ("(ss)", rw_item_key (device_of (wiring, port)->device), wiring->net->ports[port].port->name);
}

/**
 * rw_wiring_draw:
 * @edit: gets the new cable, after all others: a cable drawn last is the one that closes a loop
 *
 * The two ports are taken from now on.
 */
void
rw_wiring_draw (RwWiring *wiring, RwEdit *edit, guint from, guint to)
{
  RwMedium medium = common_medium (wiring->net->ports[from].port->medium, wiring->net->ports[to].port->medium);
  g_autofree char *id = rw_edit_fresh_id (edit, "c");
  RwCable *cable = rw_item_new (RW_ITEM_CABLE);

  rw_record_set (cable, &rw_cable_table, RW_CABLE_ID, g_variant_new_string (id), NULL);
  rw_record_set (cable, &rw_cable_table, RW_CABLE_FROM, end_value (wiring, from), NULL);
  rw_record_set (cable, &rw_cable_table, RW_CABLE_TO, end_value (wiring, to), NULL);
  if (medium != RW_MEDIUM_COPPER)
    rw_record_set (cable, &rw_cable_table, RW_CABLE_MEDIUM, g_variant_new_string (rw_media_words[medium]), NULL);
  rw_edit_put (edit, rw_item_seal (cable));
  wiring->taken[from] = wiring->taken[to] = TRUE;
}

static gboolean
takes (const RwWiring *wiring, guint port, int medium)
{
  int own = wiring->net->ports[port].port->medium;

  return own == medium || own == RW_MEDIUM_CAGE;
}

/**
 * rw_wiring_replug:
 * @end: 0 = the cable's from, 1 = its to
 *
 * Puts one end of a cable into port @to. The cable stays what it is but for its bends, which were made for the old
 * way, and its medium where that does not fit; @to is taken from now on.
 */
void
rw_wiring_replug (RwWiring *wiring, RwEdit *edit, guint cable, guint end, guint to)
{
  const RwNetCable *moved = &wiring->net->cables[cable];
  const char *key = rw_item_key (moved->cable);
  guint other = moved->port[!end];

  rw_edit_set (edit, key, end == 0 ? RW_CABLE_FROM : RW_CABLE_TO, end_value (wiring, to), NULL);
  rw_edit_set (edit, key, RW_CABLE_BENDS, NULL, NULL);
  if (!takes (wiring, to, moved->cable->medium) || !takes (wiring, other, moved->cable->medium))
    {
      RwMedium medium = common_medium (wiring->net->ports[other].port->medium, wiring->net->ports[to].port->medium);

      rw_edit_set (edit, key, RW_CABLE_MEDIUM, g_variant_new_string (rw_media_words[medium]), NULL);
      rw_edit_set (edit, key, RW_CABLE_GRADE, NULL, NULL);
      rw_edit_set (edit, key, RW_CABLE_CONDUCTOR, NULL, NULL);
    }
  wiring->taken[to] = TRUE;
}
