/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-error.h>

#include "rw-rewire-private.h"

/* The switches of one plane: a row of them, each joined to the next. */
typedef struct
{
  const RwPart *part;
  GPtrArray *ids;
  GArray *joined;     /* of guint: ports of the net that it joins */
  GArray *free_ports; /* of Port: those that lead to devices */
} Plane;

typedef struct { guint box, port; } Port;

static void
plane_clear (Plane *plane)
{
  g_clear_pointer (&plane->ids, g_ptr_array_unref);
  g_clear_pointer (&plane->joined, g_array_unref);
  g_clear_pointer (&plane->free_ports, g_array_unref);
}

/* Ports apart from the audio networks that hear the plane by a cable now, and shall go on doing so. */
static void
add_guests (const RwNet *net, guint plane, GArray *ports)
{
  g_autofree guint8 *planes = rw_rewire_planes (net);

  for (guint i = 0; i < net->n_cables; i++)
    {
      guint port;
      guint8 heard = rw_rewire_guest (net, planes, &net->cables[i], &port);

      /* What hears both, as where they are joined, goes to the primary one. */
      if (heard != 0 && (plane == 0) == ((heard & 1) != 0) && net->ports[port].cable == i)
        g_array_append_val (ports, port);
    }
}

/* The ports (of the net) that one plane's switches join: those of all that plays or listens, by place, then guests. */
static GArray *
ports_to_join (const RwNet *net, guint plane)
{
  g_autoptr (GArray) hosts = rw_rewire_hosts (net);
  GArray *ports = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < hosts->len; i++)
    {
      const RwNetDevice *device = &net->devices[g_array_index (hosts, guint, i)];
      int side = rw_part_find_side (device->part, plane == 0 ? RW_SIDE_PRIMARY : RW_SIDE_SECONDARY);
      guint port = device->first_port + (guint) side;

      if (side >= 0)
        g_array_append_val (ports, port);
    }
  add_guests (net, plane, ports);
  return ports;
}

/* Its ports that are on the network, in the order of the part. */
static GArray *
network_ports (const RwPart *part)
{
  GArray *ports = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < rw_part_n_ports (part); i++)
    if (rw_part_port (part, i)->side == RW_SIDE_NETWORK)
      g_array_append_val (ports, i);
  return ports;
}

/* So many boxes of @n_ports as hold @n_joined ports, two lost at each joint; 0 = no number does. */
static guint
boxes_for (guint n_joined, guint n_ports)
{
  if (n_joined <= n_ports)
    return n_joined > 0 ? 1 : 0;
  if (n_ports <= 2)
    return 0;
  return (n_joined - 2 + n_ports - 3) / (n_ports - 2);
}

/**
 * rw_rewire_n_switches:
 * @net: a net
 * @part: a switch
 * @plane: 0 = primary, 1 = secondary
 *
 * Returns: how many of them the plane takes; 0 = nobody is in it, or it cannot be done with these
 */
guint
rw_rewire_n_switches (const RwNet *net, const RwPart *part, guint plane)
{
  g_autoptr (GArray) joined = ports_to_join (net, plane);
  g_autoptr (GArray) ports = network_ports (part);

  return boxes_for (joined->len, ports->len);
}

static void
add_part (RwEdit *edit, const RwPart *part)
{
  if (rw_edit_find (edit, rw_item_key (part)) == NULL)
    rw_edit_put (edit, rw_item_ref ((gpointer) part));
}

static void
add_box (RwEdit *edit, Plane *plane, guint which, guint box, guint n_boxes, const RwRewireSwitches *switches)
{
  /* Translators: name of a new device */
  const char *name = which == 0 ? _("Primary switch") : _("Secondary switch");
  g_autofree char *numbered = n_boxes > 1 ? g_strdup_printf ("%s %u", name, box + 1) : g_strdup (name);
  char *id = rw_edit_fresh_id (edit, which == 0 ? "switch-primary" : "switch-secondary");
  RwItem *device = rw_item_new (RW_ITEM_DEVICE);
  RwPoint at = switches->at[which];

  rw_record_set (device, &rw_device_table, RW_DEVICE_ID, g_variant_new_string (id), NULL);
  rw_record_set (device, &rw_device_table, RW_DEVICE_PART, g_variant_new_string (rw_item_key (plane->part)), NULL);
  rw_record_set (device, &rw_device_table, RW_DEVICE_NAME, g_variant_new_string (numbered), NULL);
  rw_record_set (device, &rw_device_table, RW_DEVICE_AT, g_variant_new ("(dd)", at.x + box * switches->step, at.y), NULL);
  rw_edit_put (edit, rw_item_seal (device));
  g_ptr_array_add (plane->ids, id);
}

static RwWishEnd
box_end (const Plane *plane, guint box, guint port)
{
  return (RwWishEnd) { g_ptr_array_index (plane->ids, box), rw_part_port (plane->part, port), RW_NONE };
}

/* Joints take the last two ports, which is where uplinks sit: the last leads on, the one before it comes from the
 * box before. */
static void
share_ports (Plane *plane, guint n_boxes, GArray *wishes)
{
  g_autoptr (GArray) ports = network_ports (plane->part);

  for (guint box = 0; box < n_boxes; box++)
    {
      guint n = ports->len - (n_boxes > 1) - (box > 0 && box + 1 < n_boxes);

      for (guint i = 0; i < n; i++)
        {
          Port port = { box, g_array_index (ports, guint, i) };
          g_array_append_val (plane->free_ports, port);
        }
      if (box > 0)
        {
          /* the last box of a row has its last port free for the way in */
          guint in = g_array_index (ports, guint, box + 1 < n_boxes ? ports->len - 2 : ports->len - 1);
          RwWish wish = { { box_end (plane, box - 1, g_array_index (ports, guint, ports->len - 1)), box_end (plane, box, in) } };
          g_array_append_val (wishes, wish);
        }
    }
}

static gboolean
open_plane (RwEdit *edit, const RwNet *net, const RwRewireSwitches *switches, guint which, Plane *plane, GArray *wishes,
            GError **error)
{
  guint n_boxes = rw_rewire_n_switches (net, switches->part[which], which);

  plane->part = switches->part[which];
  plane->joined = ports_to_join (net, which);
  plane->ids = g_ptr_array_new_with_free_func (g_free);
  plane->free_ports = g_array_new (FALSE, FALSE, sizeof (Port));
  if (plane->joined->len == 0)
    return TRUE;
  if (n_boxes == 0)
    {
      /* Translators: a part; a number of cables */
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE,
                   _("“%s” has too few network ports for %u cables: choose a larger switch"), plane->part->name,
                   plane->joined->len);
      return FALSE;
    }
  add_part (edit, plane->part);
  for (guint i = 0; i < n_boxes; i++)
    add_box (edit, plane, which, i, n_boxes, switches);
  share_ports (plane, n_boxes, wishes);
  return TRUE;
}

/* How badly a switch's port suits a device's. */
static int
misfit (const RwPort *device, const RwPort *box)
{
  if (device->medium == box->medium)
    return 0;
  return device->medium == RW_MEDIUM_CAGE || box->medium == RW_MEDIUM_CAGE ? 1 : 2;
}

static Port
take_port (Plane *plane, const RwPort *device)
{
  guint best = 0;
  Port port;

  for (guint i = 1; i < plane->free_ports->len; i++)
    if (misfit (device, rw_part_port (plane->part, g_array_index (plane->free_ports, Port, i).port))
        < misfit (device, rw_part_port (plane->part, g_array_index (plane->free_ports, Port, best).port)))
      best = i;
  port = g_array_index (plane->free_ports, Port, best);
  g_array_remove_index (plane->free_ports, best);
  return port;
}

static void
join_ports (const RwNet *net, Plane *plane, GArray *wishes)
{
  for (guint i = 0; i < plane->joined->len; i++)
    {
      const RwNetPort *joined = &net->ports[g_array_index (plane->joined, guint, i)];
      RwWishEnd end = { rw_item_key (net->devices[joined->device].device), joined->port, joined->device };
      Port port = take_port (plane, end.port);
      RwWish wish = { { end, box_end (plane, port.box, port.port) } };

      g_array_append_val (wishes, wish);
    }
}

/* The new switches are taken to stand beside the first controller: from there the metres count. */
static void
place_boxes (const RwNet *net, const GArray *hosts, GArray *wishes)
{
  guint beside = RW_NONE;

  for (guint i = 0; i < hosts->len && beside == RW_NONE; i++)
    if (net->devices[g_array_index (hosts, guint, i)].part->kind == RW_PART_CONTROLLER)
      beside = g_array_index (hosts, guint, i);
  for (guint i = 0; i < wishes->len; i++)
    for (guint e = 0; e < 2; e++)
      if (g_array_index (wishes, RwWish, i).end[e].known == RW_NONE)
        g_array_index (wishes, RwWish, i).end[e].known = beside;
}

/**
 * rw_rewire_redundant:
 * @rig: a rig
 * @net: its net
 * @switches: which, and where
 * @cost: (out): what it takes; metres count from the first controller, beside which the switches are taken to stand
 * @error: RW_RIG_ERROR_RANGE: no devices, or switches with too few ports
 *
 * Joins the primary port of all that plays or listens to one new switch and the secondary ports to another, more of
 * them in a row where the ports do not suffice. What hears an audio network by a port apart from it, as a tablet's access
 * point does, is joined to that plane too. What was a switch before loses its audio cables and stays on the sheet, with
 * those cables that serve a network in which nothing plays or listens, such as a VLAN for control.
 *
 * Returns: (transfer full) (nullable): the change
 */
RwChange *
rw_rewire_redundant (const RwRig *rig, const RwNet *net, const RwRewireSwitches *switches, RwRewireCost *cost,
                     GError **error)
{
  g_autoptr (GArray) hosts = rw_rewire_hosts (net);
  g_autoptr (GArray) wishes = g_array_new (FALSE, FALSE, sizeof (RwWish));
  g_autoptr (RwEdit) edit = rw_edit_new (rig, _("Make This Redundant"));
  Plane planes[2] = { { .part = NULL }, { .part = NULL } };
  gboolean ok = TRUE;

  *cost = (RwRewireCost) { 0 };
  if (hosts->len == 0)
    {
      g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("There is no device with a network port to join"));
      return NULL;
    }
  for (guint i = 0; i < 2 && ok; i++)
    ok = open_plane (edit, net, switches, i, &planes[i], wishes, error);
  if (ok)
    {
      for (guint i = 0; i < 2; i++)
        join_ports (net, &planes[i], wishes);
      for (guint i = 0; i < hosts->len; i++)
        if (rw_part_find_side (net->devices[g_array_index (hosts, guint, i)].part, RW_SIDE_SECONDARY) >= 0)
          rw_rewire_set_mode (edit, &net->devices[g_array_index (hosts, guint, i)], RW_MODE_REDUNDANT);
      place_boxes (net, hosts, wishes);
      rw_rewire_apply (edit, net, wishes, cost);
    }
  for (guint i = 0; i < 2; i++)
    plane_clear (&planes[i]);
  return ok ? rw_edit_finish (g_steal_pointer (&edit)) : NULL;
}
