/* SPDX-License-Identifier: MIT */
#include "rw-scope.h"

#include <string.h>

#include "rw-line.h"

/* What uses a send or receive, as the value in the index: bits; none = no row does. */
enum { USED_HERE = 1, USED_BY_OTHERS = 2 };

static gboolean
is_console (const RwRig *rig, const char *device)
{
  return rw_device_is_console (rig, rw_rig_device (rig, device));
}

static gboolean
is_wanted (const RwScopeIndex *index, const char *console)
{
  return index->console == NULL || strcmp (index->console, console) == 0;
}

static gboolean
row_is_input (const RwScopeIndex *index, const RwPatchRow *row)
{
  return index->inputs && is_console (index->rig, row->to.device) && is_wanted (index, row->to.device);
}

static gboolean
row_is_output (const RwScopeIndex *index, const RwPatchRow *row)
{
  if (!index->outputs || !is_wanted (index, row->from.device))
    return FALSE;
  return is_console (index->rig, row->from.device) || !is_console (index->rig, row->to.device);
}

static gboolean
has_inside (const RwScopeIndex *index, const RwInsideRow *row)
{
  return (row->to.kind == RW_INSIDE_TO_STRIP ? index->inputs : index->outputs) && is_wanted (index, row->device);
}

static char *
slot_key (const char *device, int number)
{
  return g_strdup_printf ("%s/%d", device, number);
}

static void
note_use (GHashTable *uses, const RwSlot *slot, gboolean here)
{
  char *key = slot_key (slot->device, slot->number);
  int known = GPOINTER_TO_INT (g_hash_table_lookup (uses, key));

  g_hash_table_insert (uses, key, GINT_TO_POINTER (known | (here ? USED_HERE : USED_BY_OTHERS)));
}

static int
find_use (GHashTable *uses, const RwChannel *channel)
{
  g_autofree char *key = slot_key (channel->device, channel->number);

  return GPOINTER_TO_INT (g_hash_table_lookup (uses, key));
}

/* Whether @channel is one of the console's own, whatever is patched to it. */
static gboolean
is_own (const RwScopeIndex *index, const RwChannel *channel)
{
  gboolean input = channel->side == RW_CHANNEL_STRIP || channel->side == RW_CHANNEL_RECEIVE;
  gboolean inner = channel->side == RW_CHANNEL_STRIP || channel->side == RW_CHANNEL_BUS;

  return (input ? index->inputs : index->outputs) && is_wanted (index, channel->device)
         && (inner || is_console (index->rig, channel->device));
}

/* The rows at the network end of @channel; NULL = it has none. */
static GHashTable *
uses_of (const RwScopeIndex *index, const RwChannel *channel)
{
  if (channel->side == RW_CHANNEL_SEND)
    return index->sends;
  return channel->side == RW_CHANNEL_RECEIVE ? index->receives : NULL;
}

/* A free socket on the stage: an input where it sends, an output where it receives. */
static gboolean
is_free_here (const RwScopeIndex *index, const RwChannel *channel)
{
  if (is_console (index->rig, channel->device) || !(channel->side == RW_CHANNEL_SEND ? index->inputs : index->outputs))
    return FALSE;
  return index->console == NULL || (index->involved != NULL && g_hash_table_contains (index->involved, channel->device));
}

static gboolean
has_channel (const RwScopeIndex *index, const RwChannel *channel)
{
  GHashTable *uses = uses_of (index, channel);
  int use = uses != NULL ? find_use (uses, channel) : 0;

  if (is_own (index, channel) || (use & USED_HERE))
    return TRUE;
  return uses != NULL && use == 0 && is_free_here (index, channel);
}

/**
 * rw_scope_index_has:
 * @index: an index
 * @item: an item of its rig
 *
 * Returns: whether @item is a row or a channel of the lines in question
 */
gboolean
rw_scope_index_has (const RwScopeIndex *index, const RwItem *item)
{
  if (item->type == RW_ITEM_PATCH)
    return row_is_input (index, (const RwPatchRow *) item) || row_is_output (index, (const RwPatchRow *) item);
  if (item->type == RW_ITEM_INSIDE)
    return has_inside (index, (const RwInsideRow *) item);
  return item->type == RW_ITEM_CHANNEL && has_channel (index, (const RwChannel *) item);
}

/**
 * rw_scope_index_goes:
 * @index: an index
 * @item: an item of its rig
 *
 * Returns: whether @item goes when other lines take the place of those in question: what lines of others use, too,
 *   keeps what is known of it; and so does a socket that none uses, unless all lines are in question
 */
gboolean
rw_scope_index_goes (const RwScopeIndex *index, const RwItem *item)
{
  const RwChannel *channel = (const RwChannel *) item;
  GHashTable *uses = item->type == RW_ITEM_CHANNEL ? uses_of (index, channel) : NULL;

  if (uses == NULL || is_own (index, channel) || (index->inputs && index->outputs && index->console == NULL))
    return rw_scope_index_has (index, item);
  return find_use (uses, channel) == USED_HERE;
}

static void
note_row (RwScopeIndex *index, const RwPatchRow *row, gboolean here)
{
  note_use (index->sends, &row->from, here);
  note_use (index->receives, &row->to, here);
}

/**
 * rw_scope_index_init:
 * @index: (out): end it with rw_scope_index_clear()
 * @rig, @console, @involved: are borrowed; the rig must not change meanwhile
 */
void
rw_scope_index_init (RwScopeIndex *index, const RwRig *rig, RwScope scope, const char *console, GHashTable *involved)
{
  *index = (RwScopeIndex) { .rig = rig, .inputs = scope != RW_SCOPE_OUTPUTS, .outputs = scope != RW_SCOPE_INPUTS,
                            .console = console, .involved = involved };
  index->sends = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  index->receives = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_PATCH); i++)
    {
      const RwPatchRow *row = (const RwPatchRow *) rw_rig_items (rig, RW_ITEM_PATCH)[i];

      note_row (index, row, row_is_input (index, row) || row_is_output (index, row));
    }
}

/**
 * rw_scope_index_add_row:
 * @row: between devices of the index' rig
 *
 * From here on the channels at the ends of @row belong with those lines, as if it were one of their rows.
 */
void
rw_scope_index_add_row (RwScopeIndex *index, const RwPatchRow *row)
{
  note_row (index, row, TRUE);
}

void
rw_scope_index_clear (RwScopeIndex *index)
{
  g_clear_pointer (&index->sends, g_hash_table_unref);
  g_clear_pointer (&index->receives, g_hash_table_unref);
}

/* Adds the ids of the devices that @item names. */
static void
add_devices (GHashTable *devices, const RwItem *item)
{
  const RwPatchRow *row = (const RwPatchRow *) item;

  if (item->type == RW_ITEM_PATCH)
    {
      g_hash_table_add (devices, row->from.device);
      g_hash_table_add (devices, row->to.device);
    }
  else if (item->type == RW_ITEM_INSIDE)
    g_hash_table_add (devices, ((const RwInsideRow *) item)->device);
  else
    g_hash_table_add (devices, ((const RwChannel *) item)->device);
}

static void
gather (const RwScopeIndex *index, RwItemType type, GPtrArray *items, GHashTable *devices)
{
  for (guint i = 0; i < rw_rig_n (index->rig, type); i++)
    {
      RwItem *item = rw_rig_items (index->rig, type)[i];

      if (!rw_scope_index_has (index, item))
        continue;
      g_ptr_array_add (items, item);
      add_devices (devices, item);
    }
}

static RwRig *
make_state (const RwRig *rig, GPtrArray *items, GHashTable *devices)
{
  RwRig *state = rw_rig_new ();

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      RwItem *device = rw_rig_items (rig, RW_ITEM_DEVICE)[i];
      RwItem *part = (RwItem *) rw_rig_part_of (rig, (RwDevice *) device);

      if (!g_hash_table_contains (devices, device->key))
        continue;
      if (rw_rig_find (state, part->key) == NULL)
        rw_rig_append (state, part, NULL);
      rw_rig_append (state, device, NULL);
    }
  for (guint i = 0; i < items->len; i++)
    rw_rig_append (state, items->pdata[i], NULL);
  return rw_rig_seal (state);
}

/**
 * rw_scope_gather:
 * @rig: a rig
 * @scope: which lines
 * @console: (nullable): id of a console of @rig, NULL = all
 *
 * Returns: (transfer full): a sealed rig of the rows and channels of those lines, with the devices and parts that
 *   they name: what a patch set stores
 */
RwRig *
rw_scope_gather (const RwRig *rig, RwScope scope, const char *console)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new ();
  g_autoptr (GHashTable) devices = g_hash_table_new (g_str_hash, g_str_equal);
  RwScopeIndex index;

  if (console != NULL)
    g_hash_table_add (devices, (gpointer) console);
  rw_scope_index_init (&index, rig, scope, console, devices);
  gather (&index, RW_ITEM_PATCH, items, devices);
  gather (&index, RW_ITEM_INSIDE, items, devices);
  gather (&index, RW_ITEM_CHANNEL, items, devices);
  rw_scope_index_clear (&index);
  return make_state (rig, items, devices);
}
