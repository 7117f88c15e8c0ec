/* SPDX-License-Identifier: MIT */
#include "rw-order.h"

/* Devices whose tops lie within so many mm of the first of a row stand in that row: about half a small device. */
#define ROW_MM 15.0

static int
compare_doubles (double a, double b)
{
  return a < b ? -1 : a > b;
}

static int
compare_tops (gconstpointer a, gconstpointer b, gpointer user_data)
{
  const RwNet *net = user_data;
  guint x = *(const guint *) a, y = *(const guint *) b;
  int order = compare_doubles (net->devices[x].device->at.y, net->devices[y].device->at.y);

  return order != 0 ? order : x < y ? -1 : x > y;
}

static int
compare_lefts (gconstpointer a, gconstpointer b, gpointer user_data)
{
  const RwNet *net = user_data;
  guint x = *(const guint *) a, y = *(const guint *) b;
  int order = compare_doubles (net->devices[x].device->at.x, net->devices[y].device->at.x);

  return order != 0 ? order : compare_tops (a, b, user_data);
}

static GArray *
order_by_place (const RwNet *net)
{
  GArray *order = g_array_sized_new (FALSE, FALSE, sizeof (guint), net->n_devices);
  guint *v = (guint *) (gpointer) order->data;
  guint first = 0;

  g_array_set_size (order, net->n_devices);
  for (guint i = 0; i < net->n_devices; i++)
    v[i] = i;
  g_array_sort_with_data (order, compare_tops, (gpointer) net);
  while (first < order->len)
    {
      double bottom = net->devices[v[first]].device->at.y + ROW_MM;
      guint end = first + 1;

      while (end < order->len && net->devices[v[end]].device->at.y < bottom)
        end++;
      g_qsort_with_data (v + first, (int) (end - first), sizeof (guint), compare_lefts, (gpointer) net);
      first = end;
    }
  return order;
}

/* The device at the other end of what is in a port, or RW_NONE. */
static guint
neighbour (const RwNet *net, guint port)
{
  const RwNetCable *cable;

  if (net->ports[port].cable == RW_NONE)
    return RW_NONE;
  cable = &net->cables[net->ports[port].cable];
  if (!cable->carries)
    return RW_NONE;
  return net->ports[cable->port[cable->port[0] == port]].device;
}

/* Depth first with the ports in the order of the part, so that one arm of a chain is counted to its end before the next. */
static void
follow_cables (const RwNet *net, guint start, gboolean *seen, GArray *order)
{
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (guint));

  g_array_append_val (stack, start);
  while (stack->len > 0)
    {
      guint device = g_array_index (stack, guint, stack->len - 1);
      const RwNetDevice *d = &net->devices[device];

      g_array_set_size (stack, stack->len - 1);
      if (seen[device])
        continue;
      seen[device] = TRUE;
      g_array_append_val (order, device);
      for (guint i = d->first_port + d->n_ports; i-- > d->first_port;)
        {
          guint other = neighbour (net, i);
          if (other != RW_NONE && !seen[other])
            g_array_append_val (stack, other);
        }
    }
}

static int
controller_rank (const RwNetDevice *device)
{
  if (device->part->kind != RW_PART_CONTROLLER)
    return G_MAXINT;
  return rw_item_has (device->device, RW_DEVICE_CONTROLLER_ID) ? device->device->controller_id : G_MAXINT - 1;
}

static guint
first_controller (const RwNet *net, const GArray *by_place, const gboolean *seen)
{
  guint best = RW_NONE;

  for (guint i = 0; i < by_place->len; i++)
    {
      guint device = g_array_index (by_place, guint, i);
      if (seen[device] || net->devices[device].part->kind != RW_PART_CONTROLLER)
        continue;
      if (best == RW_NONE || controller_rank (&net->devices[device]) < controller_rank (&net->devices[best]))
        best = device;
    }
  return best;
}

static GArray *
order_by_chain (const RwNet *net)
{
  g_autoptr (GArray) by_place = order_by_place (net);
  g_autofree gboolean *seen = g_new0 (gboolean, net->n_devices);
  GArray *order = g_array_sized_new (FALSE, FALSE, sizeof (guint), net->n_devices);
  guint first = first_controller (net, by_place, seen);

  if (first != RW_NONE)
    follow_cables (net, first, seen, order);
  for (guint i = 0; i < by_place->len; i++)
    follow_cables (net, g_array_index (by_place, guint, i), seen, order);
  return order;
}

/**
 * rw_net_order:
 * @net: a net
 * @order: which
 *
 * Along the cables: from the controller with the lowest ID, each arm to its end, a device's ports in the order of its
 * part; then what cables do not reach, by place.
 *
 * Returns: (transfer full) (element-type guint): every device once
 */
GArray *
rw_net_order (const RwNet *net, RwOrder order)
{
  g_return_val_if_fail (net != NULL, NULL);

  return order == RW_ORDER_CHAIN ? order_by_chain (net) : order_by_place (net);
}
