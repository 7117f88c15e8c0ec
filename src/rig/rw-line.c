/* SPDX-License-Identifier: MIT */
#include "rw-line.h"

#include <stdlib.h>
#include <string.h>

#include "rw-ahead.h"

/* An item by a place on a device: found by binary search, in file order where several share it. @far: the device at
 * the other end of a patch row. */
typedef struct { guint64 key; gconstpointer item; guint far; } Entry;

/* A line and the places of its devices in the file; NOWHERE = it has none. */
#define NOWHERE G_MAXUINT
typedef struct { RwLine line; guint stage, console; } Placed;

/* A set of places on devices. What was put in since they were last sorted is not looked at: each step puts in a place
 * once. */
typedef struct { GArray *keys; guint n_sorted; } Marks;

/* Rows that follow each other mostly name one device: the last one is looked at first. */
typedef struct { const char *id; guint device; } Last;

typedef struct
{
  const RwRig *rig;
  RwLineSide side;
  const RwDevice *const *devices; /* in file order: what they are is looked up once */
  gboolean *consoles;  /* by device */
  GArray *lines;       /* of Placed */
  GArray *inside;      /* of Entry: inside rows by their end at the network: (device, receive or send) */
  GArray *own;         /* of Entry, in file order: inside rows at the console's own sockets */
  GArray *patch;       /* of Entry: patch rows of this side by their end at the console */
  GArray *channels;    /* of Entry */
  Marks stages;        /* ends on the stage that have a line; likewise the next two */
  Marks owns;
  Marks strips;
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
end_key (guint device, int number)
{
  return (guint64) device << 32 | (guint32) number;
}

/* Sides take the four bits above the number. */
static guint64
channel_key (guint device, RwChannelSide side, int number)
{
  return (guint64) device << 36 | (guint64) side << 32 | (guint32) number;
}

static guint
find_device (const Build *b, const char *id, Last *last)
{
  if (last->id == NULL || strcmp (last->id, id) != 0)
    *last = (Last){ id, (guint) rw_rig_index (b->rig, id) };
  return last->device;
}

static guint
device_of_key (guint64 key)
{
  return (guint) (key >> 32);
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
add_entry (GArray *entries, guint64 key, gconstpointer item, guint far)
{
  Entry entry = { key, item, far };

  g_array_append_val (entries, entry);
}

/* What stands in its order already, as most does, is left alone. */
static void
sort_entries (GArray *entries)
{
  for (guint i = 1; i < entries->len; i++)
    if (g_array_index (entries, Entry, i).key < g_array_index (entries, Entry, i - 1).key)
      {
        g_array_sort (entries, compare_entries);
        return;
      }
}

static int
compare_keys (gconstpointer a, gconstpointer b)
{
  guint64 x = *(const guint64 *) a, y = *(const guint64 *) b;

  return (x > y) - (x < y);
}

static void
mark (Marks *marks, guint64 key)
{
  g_array_append_val (marks->keys, key);
}

static void
sort_marks (Marks *marks)
{
  g_array_sort (marks->keys, compare_keys);
  marks->n_sorted = marks->keys->len;
}

static gboolean
is_marked (const Marks *marks, guint64 key)
{
  return marks->n_sorted > 0
         && bsearch (&key, marks->keys->data, marks->n_sorted, sizeof key, compare_keys) != NULL;
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
is_of_side (const Build *b, guint from, guint to)
{
  return b->side == RW_LINE_INPUT ? b->consoles[to] : b->consoles[from] || !b->consoles[to];
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

/* The channel that a line is known by: see rw_line_about_key(). */
typedef struct { const RwDevice *device; RwChannelSide side; int number; } About;

static About
about_of (const RwLine *line)
{
  gboolean input = line->side == RW_LINE_INPUT;

  if (input && line->stage != NULL && !line->own)
    return (About){ line->stage, RW_CHANNEL_SEND, line->socket };
  if (line->has_strip)
    return (About){ line->console, input ? RW_CHANNEL_STRIP : RW_CHANNEL_BUS, line->strip };
  if (line->has_channel)
    return (About){ line->console, input ? RW_CHANNEL_RECEIVE : RW_CHANNEL_SEND, line->channel };
  /* a free input of a console has no channel of its own until a strip takes it */
  if (line->stage == NULL || input)
    return (About){ NULL, RW_CHANNEL_SEND, 0 };
  return (About){ line->stage, RW_CHANNEL_RECEIVE, line->socket };
}

static const RwChannel *
find_about (const Build *b, const Placed *placed)
{
  About about = about_of (&placed->line);
  guint64 key = channel_key (about.device == placed->line.stage ? placed->stage : placed->console, about.side, about.number);
  guint i = about.device != NULL ? first_of (b->channels, key) : 0;

  return about.device != NULL && is_of (b->channels, i, key) ? g_array_index (b->channels, Entry, i).item : NULL;
}

/* Takes the line into the list: its devices, its references, its particulars, its marks. */
static void
add_line (Build *b, RwLine line, guint stage, guint console)
{
  Placed placed = { .stage = stage, .console = console };
  guint64 stage_key = end_key (stage, line.socket), strip_key = end_key (console, line.strip);

  line.side = b->side;
  line.stage = stage != NOWHERE ? b->devices[stage] : NULL;
  line.console = console != NOWHERE ? b->devices[console] : NULL;
  placed.line = line;
  line.about = find_about (b, &placed);
  if (line.stage != NULL)
    mark (line.own ? &b->owns : &b->stages, stage_key);
  if (line.has_strip)
    mark (&b->strips, strip_key);
  rw_line_copy (&placed.line, &line);
  g_array_append_val (b->lines, placed);
}

static void
set_inside (const Build *b, RwLine *line, const RwInsideRow *row)
{
  line->inside = row;
  line->strip = inner_place (b, row)->number;
  line->has_strip = TRUE;
}

static void
add_patch (Build *b, const Entry *entry)
{
  const RwPatchRow *row = entry->item;
  RwLine line = { .patch = row, .socket = stage_end (b, row)->number, .channel = console_end (b, row)->number,
                  .has_channel = TRUE };
  guint i = first_of (b->inside, entry->key);

  if (!is_of (b->inside, i, entry->key))
    add_line (b, line, entry->far, device_of_key (entry->key));
  for (; is_of (b->inside, i, entry->key); i++)
    {
      set_inside (b, &line, g_array_index (b->inside, Entry, i).item);
      add_line (b, line, entry->far, device_of_key (entry->key));
    }
}

/* An inside row whose far side is not patched. */
static void
add_inside (Build *b, const Entry *entry)
{
  RwLine line = { .channel = outer_place (b, entry->item)->number, .has_channel = TRUE };

  if (is_of (b->patch, first_of (b->patch, entry->key), entry->key))
    return;
  set_inside (b, &line, entry->item);
  add_line (b, line, NOWHERE, device_of_key (entry->key));
}

static void
add_own (Build *b, const Entry *entry)
{
  RwLine line = { .own = TRUE, .socket = outer_place (b, entry->item)->number };

  set_inside (b, &line, entry->item);
  add_line (b, line, device_of_key (entry->key), device_of_key (entry->key));
}

static void
add_free_stage (Build *b, guint device, int number, gboolean own)
{
  if (!is_marked (own ? &b->owns : &b->stages, end_key (device, number)))
    add_line (b, (RwLine) { .socket = number, .own = own }, device, own ? device : NOWHERE);
}

static void
add_free_strip (Build *b, guint device, int number)
{
  if (!is_marked (&b->strips, end_key (device, number)))
    add_line (b, (RwLine) { .strip = number, .has_strip = TRUE }, NOWHERE, device);
}

/* What has a name but no line yet must not be out of sight. */
static void
add_named (Build *b)
{
  for (guint i = 0; i < b->channels->len; i++)
    {
      const Entry *entry = &g_array_index (b->channels, Entry, i);
      const RwChannel *channel = entry->item;

      if (channel->side == (b->side == RW_LINE_INPUT ? RW_CHANNEL_STRIP : RW_CHANNEL_BUS))
        add_free_strip (b, entry->far, channel->number);
      else if (channel->side == (b->side == RW_LINE_INPUT ? RW_CHANNEL_SEND : RW_CHANNEL_RECEIVE)
               && !b->consoles[entry->far])
        add_free_stage (b, entry->far, channel->number, FALSE);
    }
}

static void
add_free (Build *b)
{
  for (guint i = 0; i < rw_rig_n (b->rig, RW_ITEM_DEVICE); i++)
    {
      const RwPart *part = rw_rig_part_of (b->rig, b->devices[i]);
      gboolean console = b->consoles[i], input = b->side == RW_LINE_INPUT;
      int n = console ? (input ? part->local_inputs : part->buses) : input ? part->sends : part->receives;

      for (int number = 1; number <= n; number++)
        if (console && !input)
          add_free_strip (b, i, number);
        else
          add_free_stage (b, i, number, console);
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

static void
look_at_devices (Build *b)
{
  guint n = rw_rig_n (b->rig, RW_ITEM_DEVICE);

  b->devices = (const RwDevice *const *) (gpointer) rw_rig_items (b->rig, RW_ITEM_DEVICE);
  b->consoles = g_new (gboolean, n + 1);
  for (guint i = 0; i < n; i++)
    b->consoles[i] = rw_device_is_console (b->rig, b->devices[i]);
}

static void
build_begin (Build *b, const RwRig *rig, RwLineSide side)
{
  Marks *marks[] = { &b->stages, &b->owns, &b->strips };

  *b = (Build){ .rig = rig, .side = side };
  b->lines = g_array_new (FALSE, FALSE, sizeof (Placed));
  b->inside = g_array_new (FALSE, FALSE, sizeof (Entry));
  b->own = g_array_new (FALSE, FALSE, sizeof (Entry));
  b->patch = g_array_new (FALSE, FALSE, sizeof (Entry));
  b->channels = g_array_new (FALSE, FALSE, sizeof (Entry));
  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    marks[i]->keys = g_array_new (FALSE, FALSE, sizeof (guint64));
  look_at_devices (b);
}

static void
index_inside (Build *b)
{
  RwItem *const *items = rw_rig_items (b->rig, RW_ITEM_INSIDE);
  Last last = { NULL, 0 };

  for (guint i = 0, n = rw_rig_n (b->rig, RW_ITEM_INSIDE); i < n; i++)
    {
      const RwInsideRow *row = (const RwInsideRow *) items[i], *ahead = (const RwInsideRow *) rw_items_ahead (items, n, i);
      if (ahead != NULL)
        __builtin_prefetch (ahead->device);
      guint device = find_device (b, row->device, &last);

      if (inside_is_of_side (b, row))
        add_entry (is_own (b, row) ? b->own : b->inside, end_key (device, outer_place (b, row)->number), row, device);
    }
  sort_entries (b->inside);
}

static void
index_patch (Build *b)
{
  RwItem *const *items = rw_rig_items (b->rig, RW_ITEM_PATCH);
  Last last_from = { NULL, 0 }, last_to = { NULL, 0 };

  for (guint i = 0, n = rw_rig_n (b->rig, RW_ITEM_PATCH); i < n; i++)
    {
      const RwPatchRow *row = (const RwPatchRow *) items[i], *ahead = (const RwPatchRow *) rw_items_ahead (items, n, i);
      if (ahead != NULL)
        {
          __builtin_prefetch (ahead->from.device);
          __builtin_prefetch (ahead->to.device);
        }
      guint from = find_device (b, row->from.device, &last_from), to = find_device (b, row->to.device, &last_to);
      gboolean input = b->side == RW_LINE_INPUT;

      if (is_of_side (b, from, to))
        add_entry (b->patch, end_key (input ? to : from, console_end (b, row)->number), row, input ? from : to);
    }
  sort_entries (b->patch);
}

static void
index_channels (Build *b)
{
  RwItem *const *items = rw_rig_items (b->rig, RW_ITEM_CHANNEL);
  Last last = { NULL, 0 };

  for (guint i = 0, n = rw_rig_n (b->rig, RW_ITEM_CHANNEL); i < n; i++)
    {
      const RwChannel *channel = (const RwChannel *) items[i], *ahead = (const RwChannel *) rw_items_ahead (items, n, i);
      if (ahead != NULL)
        __builtin_prefetch (ahead->device);
      guint device = find_device (b, channel->device, &last);

      add_entry (b->channels, channel_key (device, channel->side, channel->number), channel, device);
    }
  sort_entries (b->channels);
}

static void
sort_all_marks (Build *b)
{
  sort_marks (&b->stages);
  sort_marks (&b->owns);
  sort_marks (&b->strips);
}

/* Returns: (transfer full): the lines in their order */
static GArray *
build_end (Build *b)
{
  GArray *lines = g_array_sized_new (FALSE, FALSE, sizeof (RwLine), b->lines->len);
  GArray *arrays[] = { b->lines, b->inside, b->own, b->patch, b->channels, b->stages.keys, b->owns.keys, b->strips.keys };

  g_array_sort (b->lines, compare_lines);
  g_array_set_clear_func (lines, (GDestroyNotify) rw_line_clear);
  for (guint i = 0; i < b->lines->len; i++)
    g_array_append_val (lines, g_array_index (b->lines, Placed, i).line);
  for (guint i = 0; i < G_N_ELEMENTS (arrays); i++)
    g_array_unref (arrays[i]);
  g_free (b->consoles);
  return lines;
}

static void
add_all (Build *b, const GArray *entries, void (*add) (Build *b, const Entry *entry))
{
  for (guint i = 0; i < entries->len; i++)
    add (b, &g_array_index (entries, Entry, i));
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
  index_inside (&b);
  index_patch (&b);
  index_channels (&b);
  add_all (&b, b.patch, add_patch);
  add_all (&b, b.inside, add_inside);
  add_all (&b, b.own, add_own);
  sort_all_marks (&b);
  add_named (&b);
  sort_all_marks (&b);
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
  About about = about_of (line);

  return about.device != NULL ? rw_channel_key (rw_item_key (about.device), about.side, about.number) : g_strdup ("");
}
