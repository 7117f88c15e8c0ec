/* SPDX-License-Identifier: MIT */
#include "rw-rule-addresses.h"

#include "rw-rule-words.h"

static void
add_use (GArray *uses, const RwNet *net, guint device, guint node)
{
  const RwNetDevice *d = &net->devices[device];
  RwAddressUse use = { .network = net->nodes[node].network, .device = device, .side = RW_SIDE_PRIMARY };

  if (d->mode == RW_MODE_REDUNDANT)
    use.side = net->nodes[node].side;
  use.text = use.side == RW_SIDE_SECONDARY ? d->device->addresses.secondary : d->device->addresses.primary;
  if (use.text == NULL || *use.text == '\0')
    return;
  use.good = rw_address_parse (use.text, &use.address);
  g_array_append_val (uses, use);
}

static int
compare_uses (gconstpointer a, gconstpointer b)
{
  const RwAddressUse *x = a, *y = b;

  if (x->network != y->network)
    return x->network < y->network ? -1 : 1;
  if (x->device != y->device)
    return x->device < y->device ? -1 : 1;
  return (x->side > y->side) - (x->side < y->side);
}

/**
 * rw_address_uses: the addresses that are set and in use, by network, device and side. What a device's mode leaves
 * without a network of its own is not in use. (transfer full) (element-type RwAddressUse).
 */
GArray *
rw_address_uses (const RwNet *net)
{
  GArray *uses = g_array_new (FALSE, FALSE, sizeof (RwAddressUse));

  for (guint i = 0; i < net->n_devices; i++)
    {
      rw_net_fetch_ahead (net, i, G_STRUCT_OFFSET (RwDevice, addresses));
      for (guint k = net->devices[i].first_node; k < net->devices[i].first_node + net->devices[i].n_nodes; k++)
        if (net->nodes[k].host)
          add_use (uses, net, i, k);
    }
  g_array_sort (uses, compare_uses);
  return uses;
}

/* The device, unless it was the last that was added, and the port that has the address. */
void
rw_finding_add_address (RwFinding *finding, const RwNet *net, const RwAddressUse *use)
{
  guint port = rw_net_device_side (net, use->device, use->side);
  guint n = g_strv_length (finding->devices);

  if (n == 0 || !g_str_equal (finding->devices[n - 1], rw_item_key (net->devices[use->device].device)))
    rw_finding_add_devices (finding, net, &use->device, 1);
  if (port != RW_NONE)
    rw_finding_add_net_port (finding, net, port);
}
