/* SPDX-License-Identifier: MIT */
#include "rw-rows.h"

#include <string.h>

#include "rw-net-private.h"

/* Rows that follow each other mostly name one device, or two by turns: the last two are looked at first. */
typedef struct
{
  const char *id[2];
  guint device[2];
} Last;

static guint
find_device (const RwNet *net, const char *id, Last *last)
{
  for (guint i = 0; i < 2; i++)
    if (last->id[i] != NULL && strcmp (last->id[i], id) == 0)
      return last->device[i];
  *last = (Last){ { id, last->id[0] }, { rw_net_find_device (net, id), last->device[0] } };
  return last->device[0];
}

static void
read_patch (RwRows *rows, const RwRig *rig, const RwNet *net)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_PATCH);
  Last last_from = { { NULL } }, last_to = { { NULL } };

  rows->n = rw_rig_n (rig, RW_ITEM_PATCH);
  rows->from = g_new (guint, rows->n);
  rows->to = g_new (guint, rows->n);
  rows->send = g_new (int, rows->n);
  rows->receive = g_new (int, rows->n);
  for (guint i = 0; i < rows->n; i++)
    {
      const RwPatchRow *row = (const RwPatchRow *) items[i];
      const RwPatchRow *ahead = (const RwPatchRow *) rw_items_ahead (items, rows->n, i);
      if (ahead != NULL)
        {
          __builtin_prefetch (ahead->from.device);
          __builtin_prefetch (ahead->to.device);
        }
      rows->from[i] = find_device (net, row->from.device, &last_from);
      rows->to[i] = find_device (net, row->to.device, &last_to);
      rows->send[i] = row->from.number;
      rows->receive[i] = row->to.number;
    }
}

static void
read_inside (RwRows *rows, const RwRig *rig, const RwNet *net)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_INSIDE);
  Last last = { { NULL } };

  rows->n_inside = rw_rig_n (rig, RW_ITEM_INSIDE);
  rows->inside = g_new (RwInsideEnds, rows->n_inside);
  for (guint i = 0; i < rows->n_inside; i++)
    {
      const RwInsideRow *row = (const RwInsideRow *) items[i];
      const RwInsideRow *ahead = (const RwInsideRow *) rw_items_ahead (items, rows->n_inside, i);
      if (ahead != NULL)
        __builtin_prefetch (ahead->device);
      rows->inside[i] = (RwInsideEnds){ find_device (net, row->device, &last), row->from, row->to };
    }
}

static void
read_channels (RwRows *rows, const RwRig *rig, const RwNet *net)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_CHANNEL);
  Last last = { { NULL } };

  rows->n_channels = rw_rig_n (rig, RW_ITEM_CHANNEL);
  rows->channels = g_new (RwChannelEnd, rows->n_channels);
  for (guint i = 0; i < rows->n_channels; i++)
    {
      const RwChannel *channel = (const RwChannel *) items[i];
      const RwChannel *ahead = (const RwChannel *) rw_items_ahead (items, rows->n_channels, i);
      if (ahead != NULL)
        {
          __builtin_prefetch (ahead->device);
          __builtin_prefetch (ahead->name);
        }
      rows->channels[i] = (RwChannelEnd){ find_device (net, channel->device, &last), channel->side, channel->number,
                                          channel->source, channel->phantom,
                                          channel->name != NULL && *channel->name != '\0' };
    }
}

/**
 * rw_rows_new:
 * @rig: a rig
 * @net: its net, which needs to have its devices only
 *
 * Returns: (transfer full): linear in rows and channels
 */
RwRows *
rw_rows_new (const RwRig *rig, const RwNet *net)
{
  RwRows *rows = g_new0 (RwRows, 1);

  read_patch (rows, rig, net);
  read_inside (rows, rig, net);
  read_channels (rows, rig, net);
  return rows;
}

void
rw_rows_free (RwRows *rows)
{
  g_free (rows->from);
  g_free (rows->to);
  g_free (rows->send);
  g_free (rows->receive);
  g_free (rows->inside);
  g_free (rows->channels);
  g_free (rows);
}

/**
 * rw_net_rows:
 *
 * Returns: (transfer none): the rows and channels of the rig of @net; lives as long as @net
 */
const RwRows *
rw_net_rows (const RwNet *net)
{
  return net->priv->rows;
}
