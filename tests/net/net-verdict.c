/* SPDX-License-Identifier: MIT */
/*
 * What the net says of a rig, for tests that drive real bridges. Reads the rig as rw_test_rig() takes it
 * from standard input; writes one line for each fact:
 *   network N loops L storm yes|no
 *   root DEVICE ROOT COST
 *   blocked DEVICE PORT
 *   path DEVICE DEVICE CABLE…      for each pair of computers
 */
#include <net/rw-forecast.h>
#include <rig-builder.h>

#include <stdio.h>

static char *
read_all (FILE *file)
{
  GString *text = g_string_new (NULL);
  char buffer[4096];
  gsize n;

  while ((n = fread (buffer, 1, sizeof buffer, file)) > 0)
    g_string_append_len (text, buffer, n);
  return g_string_free (text, FALSE);
}

static const char *
device_id (const RwNet *net, guint device)
{
  return rw_item_key (net->devices[device].device);
}

static void
tell_tree (const RwNet *net)
{
  const RwTree *tree = rw_net_tree (net);

  for (guint d = 0; d < tree->n_devices; d++)
    if (tree->bridges[d].root != RW_NONE)
      printf ("root %s %s %" G_GUINT64_FORMAT "\n", device_id (net, d),
              device_id (net, tree->bridges[d].root), tree->bridges[d].cost);
  for (guint p = 0; p < tree->n_ports; p++)
    if (tree->roles[p] == RW_TREE_ROLE_BLOCKED)
      printf ("blocked %s %s\n", device_id (net, net->ports[p].device), net->ports[p].port->name);
}

static void
tell_path (const RwNet *net, guint from, guint to, GArray *links)
{
  const RwNetDevice *a = &net->devices[from], *b = &net->devices[to];

  if (!rw_paths_find (net, rw_net_forecast (net)->paths, a->first_node, b->first_node, links))
    return;
  printf ("path %s %s", device_id (net, from), device_id (net, to));
  for (guint i = 0; i < links->len; i++)
    printf (" %s", rw_item_key (net->cables[net->links[g_array_index (links, guint, i)].cable].cable));
  printf ("\n");
}

static void
tell_paths (const RwNet *net)
{
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint a = 0; a < net->n_devices; a++)
    for (guint b = 0; b < net->n_devices; b++)
      if (a != b && net->devices[a].part->kind == RW_PART_ENDPOINT && net->devices[b].part->kind == RW_PART_ENDPOINT)
        tell_path (net, a, b, links);
}

int
main (void)
{
  g_autofree char *text = read_all (stdin);
  g_autoptr (RwRig) rig = rw_test_rig (text);
  g_autoptr (RwNet) net = rw_net_new (rig);

  for (guint k = 0; k < net->n_networks; k++)
    printf ("network %u loops %u storm %s\n", k, net->networks[k].n_loops,
            net->networks[k].storm ? "yes" : "no");
  tell_tree (net);
  tell_paths (net);
  return 0;
}
