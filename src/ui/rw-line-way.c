/* SPDX-License-Identifier: MIT */
#include "rw-line-way.h"

#include <net/rw-path.h>

static void
add_once (GArray *indices, guint index)
{
  for (guint i = 0; i < indices->len; i++)
    if (g_array_index (indices, guint, i) == index)
      return;
  g_array_append_val (indices, index);
}

static void
add_links (RwLineWay *way, const RwNet *net, const GArray *links)
{
  for (guint i = 0; i < links->len; i++)
    {
      const RwNetLink *link = &net->links[g_array_index (links, guint, i)];
      add_once (way->cables, link->cable);
      for (guint end = 0; end < 2; end++)
        add_once (way->devices, net->nodes[link->node[end]].device);
    }
}

/* The ways in every network that both are in: one, or one on each plane. */
static void
add_ways (RwLineWay *way, const RwNet *net, guint stage, guint console)
{
  g_autoptr (RwPaths) paths = rw_paths_new (net);
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint network = 0; network < net->n_networks; network++)
    {
      guint from = rw_net_host_node (net, stage, network), to = rw_net_host_node (net, console, network);

      g_array_set_size (links, 0);
      if (from != RW_NONE && to != RW_NONE && rw_paths_find (net, paths, from, to, links))
        add_links (way, net, links);
    }
}

/**
 * rw_line_way_new:
 *
 * Returns: (transfer full): what the line passes on its way; of half a line the device that it has
 */
RwLineWay *
rw_line_way_new (RwDocument *document, const RwLine *line)
{
  RwLineWay *way = g_new0 (RwLineWay, 1);
  const RwNet *net = rw_document_net (document);
  guint stage = line->stage != NULL ? rw_net_find_device (net, rw_item_key (line->stage)) : RW_NONE;
  guint console = line->console != NULL ? rw_net_find_device (net, rw_item_key (line->console)) : RW_NONE;

  way->devices = g_array_new (FALSE, FALSE, sizeof (guint));
  way->cables = g_array_new (FALSE, FALSE, sizeof (guint));
  if (stage != RW_NONE)
    add_once (way->devices, stage);
  if (console != RW_NONE)
    add_once (way->devices, console);
  if (line->patch != NULL && stage != RW_NONE && console != RW_NONE)
    add_ways (way, net, stage, console);
  return way;
}

void
rw_line_way_free (RwLineWay *way)
{
  g_array_unref (way->devices);
  g_array_unref (way->cables);
  g_free (way);
}
