/* SPDX-License-Identifier: MIT */
#include "rw-ring.h"

/*
 * Over switches and converters as boxes, whatever their VLANs. A forest of cables is grown; each cable that closes
 * a ring merges all sets on the way in the forest between its ends. A set's head is its highest box, so that its
 * parent leads on upwards, and no way is walked twice.
 */
typedef struct
{
  const RwNet *net;
  guint *parent; /* by device; RW_NONE = root */
  guint *depth;
  guint *cable;  /* by device: the one to its parent */
  guint *head;
} Rings;

static guint
find (Rings *rings, guint device)
{
  while (rings->head[device] != device)
    device = rings->head[device] = rings->head[rings->head[device]];
  return device;
}

static gboolean
is_between_boxes (const RwNet *net, guint cable)
{
  const guint *port = net->cables[cable].port;

  return net->cables[cable].carries && net->devices[net->ports[port[0]].device].forwards
         && net->devices[net->ports[port[1]].device].forwards;
}

static void
grow (Rings *rings, guint root, guint *queue, gboolean *seen)
{
  const RwNet *net = rings->net;
  guint n = 1;

  queue[0] = root;
  seen[root] = TRUE;
  for (guint i = 0; i < n; i++)
    {
      const RwNetDevice *device = &net->devices[queue[i]];

      for (guint port = device->first_port; port < device->first_port + device->n_ports; port++)
        {
          guint cable = net->ports[port].cable, other;

          if (cable == RW_NONE || !is_between_boxes (net, cable))
            continue;
          other = net->ports[net->cables[cable].port[net->cables[cable].port[0] == port ? 1 : 0]].device;
          if (seen[other])
            continue;
          seen[other] = TRUE;
          rings->parent[other] = queue[i];
          rings->depth[other] = rings->depth[queue[i]] + 1;
          rings->cable[other] = cable;
          queue[n++] = other;
        }
    }
}

static void
close_ring (Rings *rings, guint a, guint b)
{
  for (a = find (rings, a), b = find (rings, b); a != b; a = find (rings, a))
    {
      if (rings->depth[a] < rings->depth[b])
        {
          guint swap = a;

          a = b;
          b = swap;
        }
      rings->head[a] = rings->parent[a];
    }
}

/**
 * rw_rings_new:
 * @net: a net
 *
 * Which switches and converters are joined by more than one way: no single cable parts them. Near-linear.
 *
 * Returns: (transfer full): by device: the set that it is in, named by one of the set; free with g_free()
 */
guint *
rw_rings_new (const RwNet *net)
{
  guint n = net->n_devices + 1;
  g_autofree guint *parent = g_new (guint, n), *depth = g_new0 (guint, n), *cable = g_new (guint, n);
  g_autofree guint *queue = g_new (guint, n);
  g_autofree gboolean *seen = g_new0 (gboolean, n);
  Rings rings = { net, parent, depth, cable, g_new (guint, n) };

  for (guint i = 0; i < net->n_devices; i++)
    {
      parent[i] = cable[i] = RW_NONE;
      rings.head[i] = i;
    }
  for (guint i = 0; i < net->n_devices; i++)
    if (net->devices[i].forwards && !seen[i])
      grow (&rings, i, queue, seen);
  for (guint i = 0; i < net->n_cables; i++)
    {
      const guint *port = net->cables[i].port;
      guint a = net->ports[port[0]].device, b = net->ports[port[1]].device;

      if (is_between_boxes (net, i) && cable[a] != i && cable[b] != i)
        close_ring (&rings, a, b);
    }
  for (guint i = 0; i < net->n_devices; i++)
    rings.head[i] = find (&rings, i);
  return rings.head;
}
