/* SPDX-License-Identifier: MIT */
#include "rw-line.h"

#include <string.h>

/* Rows by one of their ends: found by binary search, in file order where several share it. */
typedef struct { guint64 key; gconstpointer row; } Entry;

/* A line and the places of its devices in the file, looked up once. */
typedef struct { RwLine line; gint64 stage, console; } Placed;

typedef struct
{
  const RwRig *rig;
  RwLineSide side;
  GArray *lines;       /* of Placed */
  GArray *inside;      /* of Entry: inside rows by their end at the network: (device, receive or send) */
  GArray *patch;       /* of Entry: patch rows of this side by their end at the console */
  GHashTable *stages;  /* ends on the stage that have a line; likewise the next two */
  GHashTable *owns;
  GHashTable *strips;
} Build;

/**
 * rw_device_is_console:
 *
 * Returns: whether lines end in the device's strips and begin at its buses
 */
gboolean
rw_device_is_console (const RwRig *rig, const RwDevice *device)
{
  const RwPart *part = rw_rig_part_of (rig, device);

  return part->kind == RW_PART_CONTROLLER || part->strips > 0 || part->buses > 0;
}

static guint64
end_key (const RwRig *rig, const char *device, int number)
{
  return (guint64) (guint) rw_rig_index (rig, device) << 32 | (guint32) number;
}

static int
compare_entries (gconstpointer a, gconstpointer b)
{
  guint64 x = ((const Entry *) a)->key, y = ((const Entry *) b)->key;

  return (x > y) - (x < y);
}

/* Index of the first entry with @key, or of where it would stand. */
static guint
first_of (const GArray *entries, guint64 key)
{
  guint low = 0, high = entries->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;
      if (g_array_index (entries, Entry, middle).key < key)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static gboolean
is_of (const GArray *entries, guint index, guint64 key)
{
  return index < entries->len && g_array_index (entries, Entry, index).key == key;
}

static void
add_entry (GArray *entries, guint64 key, gconstpointer row)
{
  Entry entry = { key, row };

  g_array_append_val (entries, entry);
}

static void
mark (GHashTable *set, guint64 key)
{
  g_hash_table_add (set, g_memdup2 (&key, sizeof key));
}

static gboolean
is_marked (GHashTable *set, guint64 key)
{
  return g_hash_table_contains (set, &key);
}

static const RwSlot *
stage_end (const Build *b, const RwPatchRow *row)
{
  return b->side == RW_LINE_INPUT ? &row->from : &row->to;
}

static const RwSlot *
console_end (const Build *b, const RwPatchRow *row)
{
  return b->side == RW_LINE_INPUT ? &row->to : &row->from;
}

/* A row between two consoles is an output of one and an input of the other; one between none is an output. */
static gboolean
is_of_side (const Build *b, const RwPatchRow *row)
{
  gboolean to = rw_device_is_console (b->rig, rw_rig_device (b->rig, row->to.device));
  gboolean from = rw_device_is_console (b->rig, rw_rig_device (b->rig, row->from.device));

  return b->side == RW_LINE_INPUT ? to : from || !to;
}

static gboolean
inside_is_of_side (const Build *b, const RwInsideRow *row)
{
  return (b->side == RW_LINE_INPUT) == (row->to.kind == RW_INSIDE_TO_STRIP);
}

static const RwPlace *
outer_place (const Build *b, const RwInsideRow *row)
{
  return b->side == RW_LINE_INPUT ? &row->from : &row->to;
}

static const RwPlace *
inner_place (const Build *b, const RwInsideRow *row)
{
  return b->side == RW_LINE_INPUT ? &row->to : &row->from;
}

static gboolean
is_own (const Build *b, const RwInsideRow *row)
{
  return b->side == RW_LINE_INPUT ? row->from.kind == RW_INSIDE_LOCAL : row->to.kind == RW_INSIDE_TO_LOCAL;
}

static gint64
place_of (const RwRig *rig, const RwDevice *device)
{
  return device != NULL ? rw_rig_index (rig, rw_item_key (device)) : G_MAXINT64;
}

/* Takes the line into the list: its references, its particulars, its place in the sets. */
static void
add_line (Build *b, RwLine line)
{
  g_autofree char *key = NULL;
  Placed placed = { .stage = place_of (b->rig, line.stage), .console = place_of (b->rig, line.console) };

  line.side = b->side;
  key = rw_line_about_key (&line);
  line.about = (const RwChannel *) rw_rig_find (b->rig, key);
  if (line.stage != NULL)
    mark (line.own ? b->owns : b->stages, (guint64) placed.stage << 32 | (guint32) line.socket);
  if (line.has_strip)
    mark (b->strips, (guint64) placed.console << 32 | (guint32) line.strip);
  rw_line_copy (&placed.line, &line);
  g_array_append_val (b->lines, placed);
}

static void
set_inside (const Build *b, RwLine *line, const RwInsideRow *row)
{
  line->inside = row;
  line->console = rw_rig_device (b->rig, row->device);
  line->strip = inner_place (b, row)->number;
  line->has_strip = TRUE;
}

static void
add_patch (Build *b, const RwPatchRow *row)
{
  const RwSlot *stage = stage_end (b, row), *console = console_end (b, row);
  guint64 key = end_key (b->rig, console->device, console->number);
  RwLine line = { .patch = row, .socket = stage->number, .channel = console->number, .has_channel = TRUE };
  guint i = first_of (b->inside, key);

  line.stage = rw_rig_device (b->rig, stage->device);
  line.console = rw_rig_device (b->rig, console->device);
  if (!is_of (b->inside, i, key))
    add_line (b, line);
  for (; is_of (b->inside, i, key); i++)
    {
      set_inside (b, &line, g_array_index (b->inside, Entry, i).row);
      add_line (b, line);
    }
}

/* An inside row at the console's own socket, or one whose far side is not patched. */
static void
add_inside (Build *b, const RwInsideRow *row)
{
  RwLine line = { .own = is_own (b, row) };
  guint64 key = end_key (b->rig, row->device, outer_place (b, row)->number);

  if (!line.own && is_of (b->patch, first_of (b->patch, key), key))
    return;
  set_inside (b, &line, row);
  if (line.own)
    line.stage = line.console;
  line.socket = line.own ? outer_place (b, row)->number : 0;
  line.channel = line.own ? 0 : outer_place (b, row)->number;
  line.has_channel = !line.own;
  add_line (b, line);
}

static void
add_free_stage (Build *b, const RwDevice *device, int number, gboolean own)
{
  if (is_marked (own ? b->owns : b->stages, end_key (b->rig, rw_item_key (device), number)))
    return;
  add_line (b, (RwLine) { .stage = device, .socket = number, .own = own, .console = own ? device : NULL });
}

static void
add_free_strip (Build *b, const RwDevice *device, int number)
{
  if (is_marked (b->strips, end_key (b->rig, rw_item_key (device), number)))
    return;
  add_line (b, (RwLine) { .console = device, .strip = number, .has_strip = TRUE });
}

/* What has a name but no line yet must not be out of sight. */
static void
add_named (Build *b)
{
  for (guint i = 0; i < rw_rig_n (b->rig, RW_ITEM_CHANNEL); i++)
    {
      const RwChannel *channel = (const RwChannel *) rw_rig_items (b->rig, RW_ITEM_CHANNEL)[i];
      const RwDevice *device = rw_rig_device (b->rig, channel->device);
      gboolean console = rw_device_is_console (b->rig, device);

      if (channel->side == (b->side == RW_LINE_INPUT ? RW_CHANNEL_STRIP : RW_CHANNEL_BUS))
        add_free_strip (b, device, channel->number);
      else if (channel->side == (b->side == RW_LINE_INPUT ? RW_CHANNEL_SEND : RW_CHANNEL_RECEIVE) && !console)
        add_free_stage (b, device, channel->number, FALSE);
    }
}

static void
add_free (Build *b)
{
  for (guint i = 0; i < rw_rig_n (b->rig, RW_ITEM_DEVICE); i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (b->rig, RW_ITEM_DEVICE)[i];
      const RwPart *part = rw_rig_part_of (b->rig, device);
      gboolean console = rw_device_is_console (b->rig, device), input = b->side == RW_LINE_INPUT;
      int n = console ? (input ? part->local_inputs : part->buses) : input ? part->sends : part->receives;

      for (int number = 1; number <= n; number++)
        if (console && !input)
          add_free_strip (b, device, number);
        else
          add_free_stage (b, device, number, console);
    }
}

static int
compare (gint64 a, gint64 b)
{
  return (a > b) - (a < b);
}

static int
compare_lines (gconstpointer x, gconstpointer y)
{
  const RwLine *a = &((const Placed *) x)->line, *b = &((const Placed *) y)->line;
  int stage = compare (((const Placed *) x)->stage, ((const Placed *) y)->stage);
  int console = compare (((const Placed *) x)->console, ((const Placed *) y)->console);
  int orders[] = { stage, compare (a->socket, b->socket), console, compare (!a->has_strip, !b->has_strip),
                   compare (a->strip, b->strip), compare (a->channel, b->channel) };
  static const guint8 by_side[][6] = { { 0, 1, 2, 5, 3, 4 }, { 2, 3, 4, 5, 0, 1 } };

  for (guint i = 0; i < G_N_ELEMENTS (orders); i++)
    if (orders[by_side[a->side][i]] != 0)
      return orders[by_side[a->side][i]];
  return 0;
}

/* GLib's own looks at the lower half only, where all devices have the same numbers. */
static guint
key_hash (gconstpointer key)
{
  guint64 k = *(const guint64 *) key;

  return (guint) (k >> 32) * 2654435761u ^ (guint) k;
}

static GHashTable *
set_new (void)
{
  return g_hash_table_new_full (key_hash, g_int64_equal, g_free, NULL);
}

static void
build_begin (Build *b, const RwRig *rig, RwLineSide side)
{
  b->rig = rig;
  b->side = side;
  b->lines = g_array_new (FALSE, FALSE, sizeof (Placed));
  b->inside = g_array_new (FALSE, FALSE, sizeof (Entry));
  b->patch = g_array_new (FALSE, FALSE, sizeof (Entry));
  b->stages = set_new ();
  b->owns = set_new ();
  b->strips = set_new ();
}

static void
index_rows (Build *b)
{
  for (guint i = 0; i < rw_rig_n (b->rig, RW_ITEM_INSIDE); i++)
    {
      const RwInsideRow *row = (const RwInsideRow *) rw_rig_items (b->rig, RW_ITEM_INSIDE)[i];
      if (inside_is_of_side (b, row) && !is_own (b, row))
        add_entry (b->inside, end_key (b->rig, row->device, outer_place (b, row)->number), row);
    }
  for (guint i = 0; i < rw_rig_n (b->rig, RW_ITEM_PATCH); i++)
    {
      const RwPatchRow *row = (const RwPatchRow *) rw_rig_items (b->rig, RW_ITEM_PATCH)[i];
      if (is_of_side (b, row))
        add_entry (b->patch, end_key (b->rig, console_end (b, row)->device, console_end (b, row)->number), row);
    }
  g_array_sort (b->inside, compare_entries);
  g_array_sort (b->patch, compare_entries);
}

/* Returns: (transfer full): the lines in their order */
static GArray *
build_end (Build *b)
{
  GArray *lines = g_array_sized_new (FALSE, FALSE, sizeof (RwLine), b->lines->len);

  g_array_sort (b->lines, compare_lines);
  g_array_set_clear_func (lines, (GDestroyNotify) rw_line_clear);
  for (guint i = 0; i < b->lines->len; i++)
    g_array_append_val (lines, g_array_index (b->lines, Placed, i).line);
  g_array_unref (b->lines);
  g_array_unref (b->inside);
  g_array_unref (b->patch);
  g_hash_table_unref (b->stages);
  g_hash_table_unref (b->owns);
  g_hash_table_unref (b->strips);
  return lines;
}

/**
 * rw_lines_new:
 * @rig: a rig
 * @side: inputs or outputs
 * @with_free: also one line for each send, receive, own input and bus that is not patched; what has a
 *   name has a line in any case
 *
 * Near-linear in the rig's rows and channels.
 *
 * Returns: (transfer full): the lines, as the rig is now
 */
RwLines *
rw_lines_new (const RwRig *rig, RwLineSide side, gboolean with_free)
{
  RwLines *lines = g_new0 (RwLines, 1);
  Build b;

  build_begin (&b, rig, side);
  index_rows (&b);
  for (guint i = 0; i < b.patch->len; i++)
    add_patch (&b, g_array_index (b.patch, Entry, i).row);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_INSIDE); i++)
    {
      const RwInsideRow *row = (const RwInsideRow *) rw_rig_items (rig, RW_ITEM_INSIDE)[i];
      if (inside_is_of_side (&b, row))
        add_inside (&b, row);
    }
  add_named (&b);
  if (with_free)
    add_free (&b);
  lines->lines = build_end (&b);
  return lines;
}

void
rw_lines_free (RwLines *lines)
{
  g_array_unref (lines->lines);
  g_free (lines);
}

static gpointer
ref_or_null (gconstpointer item)
{
  return item != NULL ? rw_item_ref ((gpointer) item) : NULL;
}

/**
 * rw_line_copy:
 * @to: (out): need not be initialised; end it with rw_line_clear()
 */
void
rw_line_copy (RwLine *to, const RwLine *from)
{
  *to = *from;
  to->stage = ref_or_null (from->stage);
  to->console = ref_or_null (from->console);
  to->patch = ref_or_null (from->patch);
  to->inside = ref_or_null (from->inside);
  to->about = ref_or_null (from->about);
}

void
rw_line_clear (RwLine *line)
{
  gconstpointer items[] = { line->stage, line->console, line->patch, line->inside, line->about };

  for (guint i = 0; i < G_N_ELEMENTS (items); i++)
    if (items[i] != NULL)
      rw_item_unref ((gpointer) items[i]);
  memset (line, 0, sizeof *line);
}

/* Whether both show the same; items are values, so the same item is the same text. */
gboolean
rw_line_equal (const RwLine *a, const RwLine *b)
{
  return a->side == b->side && a->stage == b->stage && a->console == b->console && a->socket == b->socket
         && a->channel == b->channel && a->strip == b->strip && a->own == b->own && a->has_channel == b->has_channel
         && a->has_strip == b->has_strip && a->patch == b->patch && a->inside == b->inside && a->about == b->about;
}

/**
 * rw_line_about_key:
 *
 * An input is known by the send that it comes from, an output by its bus; where there is none, by the next
 * place along the line.
 *
 * Returns: (transfer full): key of the channel that holds the line's name and particulars; "" = none can
 */
char *
rw_line_about_key (const RwLine *line)
{
  gboolean input = line->side == RW_LINE_INPUT;

  if (input && line->stage != NULL && !line->own)
    return rw_channel_key (rw_item_key (line->stage), RW_CHANNEL_SEND, line->socket);
  if (line->has_strip)
    return rw_channel_key (rw_item_key (line->console), input ? RW_CHANNEL_STRIP : RW_CHANNEL_BUS, line->strip);
  if (line->has_channel)
    return rw_channel_key (rw_item_key (line->console), input ? RW_CHANNEL_RECEIVE : RW_CHANNEL_SEND, line->channel);
  /* a free input of a console has no channel of its own until a strip takes it */
  if (line->stage == NULL || input)
    return g_strdup ("");
  return rw_channel_key (rw_item_key (line->stage), RW_CHANNEL_RECEIVE, line->socket);
}
