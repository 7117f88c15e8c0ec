/* SPDX-License-Identifier: MIT */
#include "rw-rows.h"

#include "rw-net-private.h"

static void
read_patch (RwRows *rows, const RwRig *rig, const RwNet *net)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_PATCH);
  RwNetGuess from = RW_NET_NO_GUESS, to = RW_NET_NO_GUESS;

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
      rows->from[i] = rw_net_guess_device (net, row->from.device, &from);
      rows->to[i] = rw_net_guess_device (net, row->to.device, &to);
      rows->send[i] = row->from.number;
      rows->receive[i] = row->to.number;
    }
}

static void
read_inside (RwRows *rows, const RwRig *rig, const RwNet *net)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_INSIDE);
  RwNetGuess guess = RW_NET_NO_GUESS;

  rows->n_inside = rw_rig_n (rig, RW_ITEM_INSIDE);
  rows->inside = g_new (RwInsideEnds, rows->n_inside);
  for (guint i = 0; i < rows->n_inside; i++)
    {
      const RwInsideRow *row = (const RwInsideRow *) items[i];
      const RwInsideRow *ahead = (const RwInsideRow *) rw_items_ahead (items, rows->n_inside, i);
      if (ahead != NULL)
        __builtin_prefetch (ahead->device);
      rows->inside[i] = (RwInsideEnds){ rw_net_guess_device (net, row->device, &guess), row->from, row->to };
    }
}

static void
read_channels (RwRows *rows, const RwRig *rig, const RwNet *net)
{
  RwItem *const *items = rw_rig_items (rig, RW_ITEM_CHANNEL);
  RwNetGuess guess = RW_NET_NO_GUESS;

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
      rows->channels[i] = (RwChannelEnd){ rw_net_guess_device (net, channel->device, &guess), channel->side, channel->number,
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
