/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-error.h>

#include "rw-rewire-private.h"

/* The switches of one plane: a row of them, each joined to the next. */
typedef struct
{
  const RwPart *part;
  GPtrArray *ids;
  GArray *free_ports; /* of Port: those that lead to devices */
} Plane;

typedef struct { guint box, port; } Port;

static void
plane_clear (Plane *plane)
{
  g_clear_pointer (&plane->ids, g_ptr_array_unref);
  g_clear_pointer (&plane->free_ports, g_array_unref);
}

static gboolean
has_side (const RwNetDevice *device, guint plane)
{
  return rw_part_find_side (device->part, plane == 0 ? RW_SIDE_PRIMARY : RW_SIDE_SECONDARY) >= 0;
}

static guint
count_hosts (const RwNet *net, const GArray *hosts, guint plane)
{
  guint n = 0;

  for (guint i = 0; i < hosts->len; i++)
    n += has_side (&net->devices[g_array_index (hosts, guint, i)], plane);
  return n;
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

/* So many boxes of @n_ports as hold @n_hosts, two ports lost at each joint; 0 = no number does. */
static guint
boxes_for (guint n_hosts, guint n_ports)
{
  if (n_hosts <= n_ports)
    return n_hosts > 0 ? 1 : 0;
  if (n_ports <= 2)
    return 0;
  return (n_hosts - 2 + n_ports - 3) / (n_ports - 2);
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
  g_autoptr (GArray) hosts = rw_rewire_hosts (net);
  g_autoptr (GArray) ports = network_ports (part);

  return boxes_for (count_hosts (net, hosts, plane), ports->len);
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
open_plane (RwEdit *edit, const RwNet *net, const GArray *hosts, const RwRewireSwitches *switches, guint which,
            Plane *plane, GArray *wishes, RwRewireCost *cost, GError **error)
{
  guint n_hosts = count_hosts (net, hosts, which), n_boxes = rw_rewire_n_switches (net, switches->part[which], which);

  plane->part = switches->part[which];
  plane->ids = g_ptr_array_new_with_free_func (g_free);
  plane->free_ports = g_array_new (FALSE, FALSE, sizeof (Port));
  if (n_hosts == 0)
    return TRUE;
  if (n_boxes == 0)
    {
      /* Translators: a part; a number of devices */
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE,
                   _("“%s” has too few network ports to join %u devices: choose a larger switch"), plane->part->name, n_hosts);
      return FALSE;
    }
  add_part (edit, plane->part);
  for (guint i = 0; i < n_boxes; i++)
    add_box (edit, plane, which, i, n_boxes, switches);
  share_ports (plane, n_boxes, wishes);
  cost->n_switches += n_boxes;
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
join_hosts (const RwNet *net, const GArray *hosts, Plane *plane, guint which, GArray *wishes)
{
  for (guint i = 0; i < hosts->len; i++)
    {
      guint device = g_array_index (hosts, guint, i);
      const RwNetDevice *d = &net->devices[device];
      int side = rw_part_find_side (d->part, which == 0 ? RW_SIDE_PRIMARY : RW_SIDE_SECONDARY);

      if (side >= 0)
        {
          RwWishEnd end = { rw_item_key (d->device), rw_part_port (d->part, (guint) side), device };
          Port port = take_port (plane, end.port);
          RwWish wish = { { end, box_end (plane, port.box, port.port) } };
          g_array_append_val (wishes, wish);
        }
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
 * them in a row where the ports do not suffice. What was a switch before loses its cables and stays on the sheet.
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
    ok = open_plane (edit, net, hosts, switches, i, &planes[i], wishes, cost, error);
  if (ok)
    {
      for (guint i = 0; i < 2; i++)
        join_hosts (net, hosts, &planes[i], i, wishes);
      for (guint i = 0; i < hosts->len; i++)
        if (has_side (&net->devices[g_array_index (hosts, guint, i)], 1))
          rw_rewire_set_mode (edit, &net->devices[g_array_index (hosts, guint, i)], RW_MODE_REDUNDANT);
      place_boxes (net, hosts, wishes);
      rw_rewire_apply (edit, net, wishes, cost);
    }
  for (guint i = 0; i < 2; i++)
    plane_clear (&planes[i]);
  return ok ? rw_edit_finish (g_steal_pointer (&edit)) : NULL;
}
