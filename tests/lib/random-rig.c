/* SPDX-License-Identifier: MIT */
#include "random-rig.h"

#include <rig/rw-state.h>
#include <string.h>

#include "random-fields.h"

typedef struct
{
  const RandomRig *want;
  GRand *rand;
  RwRig *rig;
  GArray *free_ports; /* of RwEnd that borrow from the rig */
} Maker;

/* What a part of the shelf is like; a port's side is told by its letter: p, s, n, a; capitals are cages. */
typedef struct
{
  const char *id;
  const char *kind;
  const char *ports;
  int sends, receives, preamps, strips, buses, local_inputs, local_outputs;
  gboolean spanning_tree;
} Template;

static const Template templates[] = {
  { "desk", "controller", "psa", 64, 128, 0, 96, 24, 16, 16, FALSE },
  { "desk-small", "controller", "p", 16, 32, 0, 32, 8, 8, 8, FALSE },
  { "stage-rack", "rack", "ps", 32, 16, 32, 0, 0, 32, 16, FALSE },
  { "wall-rack", "rack", "psa", 16, 8, 8, 0, 0, 16, 8, FALSE },
  { "speaker", "endpoint", "ps", 0, 2, 0, 0, 0, 0, 0, FALSE },
  { "computer", "endpoint", "p", 64, 64, 0, 0, 0, 0, 0, FALSE },
  { "switch-plain", "switch", "nnnnnnnn", 0, 0, 0, 0, 0, 0, 0, FALSE },
  { "switch-tree", "switch", "nnnnnnnnNN", 0, 0, 0, 0, 0, 0, 0, TRUE },
  { "converter", "converter", "nN", 0, 0, 0, 0, 0, 0, 0, FALSE },
};
#define N_AUDIO 6
#define N_FORWARDS (G_N_ELEMENTS (templates) - N_AUDIO)

static gboolean
chance (Maker *maker, guint percent)
{
  return (guint) g_rand_int_range (maker->rand, 0, 100) < percent;
}

static guint
pick (Maker *maker, guint n)
{
  return (guint) g_rand_int_range (maker->rand, 0, (gint32) n);
}

static void
mark (gpointer record, guint field)
{
  ((RwRecord *) record)->present |= G_GUINT64_CONSTANT (1) << field;
}

static void
put_integer (gpointer record, const RwTable *table, guint field, int value)
{
  *(int *) RW_FIELD_PTR (record, &table->fields[field]) = value;
  mark (record, field);
}

static void
put_text (gpointer record, const RwTable *table, guint field, const char *text)
{
  char **place = RW_FIELD_PTR (record, &table->fields[field]);

  g_free (*place);
  *place = g_strdup (text);
  mark (record, field);
}

static void
decorate (Maker *maker, gpointer record, const RwTable *table)
{
  if (maker->want->odd)
    random_fields_fill (maker->rand, record, table);
  if (maker->want->extras && chance (maker, 30))
    random_fields_add_extras (maker->rand, record);
}

static void
append (Maker *maker, gpointer item)
{
  g_autoptr (RwItem) sealed = rw_item_seal (item);
  g_autoptr (GError) error = NULL;

  rw_rig_append (maker->rig, sealed, &error);
  g_assert_no_error (error);
}

static void
fill_port (Maker *maker, RwPort *port, char code, guint index)
{
  static const char sides[] = "psna";
  static const char *const names[] = { "Primary", "Secondary", "Port", "Aux" };
  guint side = (guint) (strchr (sides, g_ascii_tolower (code)) - sides);
  g_autofree char *name = side == RW_SIDE_NETWORK ? g_strdup_printf ("%s %u", names[side], index + 1)
                                                  : g_strdup (names[side]);

  rw_record_init (port, &rw_port_table);
  decorate (maker, port, &rw_port_table);
  put_text (port, &rw_port_table, RW_PORT_NAME, name);
  put_integer (port, &rw_port_table, RW_PORT_SIDE, (int) side);
  if (g_ascii_isupper (code))
    put_integer (port, &rw_port_table, RW_PORT_MEDIUM, RW_MEDIUM_CAGE);
}

static void
add_part (Maker *maker, const Template *t)
{
  RwPart *part = rw_item_new (RW_ITEM_PART);
  const RwField *kind = &rw_part_table.fields[RW_PART_KIND];
  int counts[] = { t->sends, t->receives, t->preamps, t->strips, t->buses, t->local_inputs, t->local_outputs };

  decorate (maker, part, &rw_part_table);
  put_text (part, &rw_part_table, RW_PART_ID, t->id);
  put_integer (part, &rw_part_table, RW_PART_KIND, rw_field_find_word (kind, t->kind, -1));
  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    if (counts[i] > 0)
      put_integer (part, &rw_part_table, RW_PART_SENDS + i, counts[i]);
  if (t->spanning_tree)
    put_integer (part, &rw_part_table, RW_PART_SPANNING_TREE, TRUE);
  part->ports.n = (guint) strlen (t->ports);
  part->ports.items = g_new0 (RwPort, part->ports.n);
  mark (part, RW_PART_PORTS);
  for (guint i = 0; i < part->ports.n; i++)
    fill_port (maker, (RwPort *) part->ports.items + i, t->ports[i], i);
  append (maker, part);
}

static void
fill_port_vlans (Maker *maker, RwPortVlans *vlans, const char *port)
{
  static const int numbers[] = { 1, 10, 20, 4094 };
  guint first = pick (maker, G_N_ELEMENTS (numbers));

  vlans->port = g_strdup (port);
  vlans->tagged = chance (maker, 30);
  vlans->n = vlans->tagged ? 1 + pick (maker, G_N_ELEMENTS (numbers)) : 1;
  vlans->vlans = g_new (int, vlans->n);
  for (guint i = 0; i < vlans->n; i++)
    vlans->vlans[i] = numbers[(first + i) % G_N_ELEMENTS (numbers)];
}

static void
add_vlans (Maker *maker, RwDevice *device, const RwPart *part)
{
  device->port_vlans.ports = g_new0 (RwPortVlans, rw_part_n_ports (part));
  for (guint i = 0; i < rw_part_n_ports (part); i++)
    if (chance (maker, 50))
      fill_port_vlans (maker, &device->port_vlans.ports[device->port_vlans.n++], rw_part_port (part, i)->name);
  mark (device, RW_DEVICE_PORT_VLANS);
}

/* What an audio device of a likely rig says. */
static void
add_audio (Maker *maker, RwDevice *device, const RwPart *part)
{
  RwMode mode = maker->want->all_redundant ? RW_MODE_REDUNDANT : (RwMode) pick (maker, 3);

  put_integer (device, &rw_device_table, RW_DEVICE_MODE, (int) mode);
  if (maker->want->odd)
    return;
  if (part->kind == RW_PART_CONTROLLER && chance (maker, 80))
    put_integer (device, &rw_device_table, RW_DEVICE_CONTROLLER_ID, 1 + (int) pick (maker, 5));
  if (part->kind == RW_PART_RACK && chance (maker, 80))
    put_integer (device, &rw_device_table, RW_DEVICE_UNIT_ID, 1 + (int) pick (maker, 99));
  if (chance (maker, 20))
    {
      put_integer (&device->clock, &rw_clock_table, RW_CLOCK_PRIORITY1, (int) pick (maker, 256));
      mark (device, RW_DEVICE_CLOCK);
    }
}

static void
remember_ports (Maker *maker, const RwDevice *device, const RwPart *part)
{
  for (guint i = 0; i < rw_part_n_ports (part); i++)
    {
      RwEnd end = { device->item.key, rw_part_port (part, i)->name };
      g_array_append_val (maker->free_ports, end);
    }
}

static const RwPart *
pick_part (Maker *maker)
{
  guint index = chance (maker, maker->want->forwards_percent) ? N_AUDIO + pick (maker, N_FORWARDS)
                                                              : pick (maker, N_AUDIO);

  return rw_rig_part (maker->rig, templates[index].id);
}

static const RwDevice *
add_device (Maker *maker, guint index, const RwPart *part)
{
  RwDevice *device = rw_item_new (RW_ITEM_DEVICE);
  g_autofree char *id = g_strdup_printf ("d%u", index);
  g_autofree char *name = g_strdup_printf ("Device %u", index);

  decorate (maker, device, &rw_device_table);
  put_text (device, &rw_device_table, RW_DEVICE_ID, id);
  put_text (device, &rw_device_table, RW_DEVICE_PART, rw_item_key (part));
  if (!maker->want->odd)
    put_text (device, &rw_device_table, RW_DEVICE_NAME, name);
  device->at = (RwPoint){ 40.0 * (index % 100), 30.0 * (index / 100) };
  mark (device, RW_DEVICE_AT);
  if (rw_part_forwards (part))
    {
      if (maker->want->vlans && part->kind == RW_PART_SWITCH)
        add_vlans (maker, device, part);
    }
  else
    add_audio (maker, device, part);
  append (maker, device);
  return device;
}

static void
add_cable (Maker *maker, const RwEnd *from, const RwEnd *to)
{
  RwCable *cable = rw_item_new (RW_ITEM_CABLE);
  g_autofree char *id = g_strdup_printf ("c%u", rw_rig_n (maker->rig, RW_ITEM_CABLE));

  decorate (maker, cable, &rw_cable_table);
  put_text (cable, &rw_cable_table, RW_CABLE_ID, id);
  cable->from = (RwEnd){ g_strdup (from->device), g_strdup (from->port) };
  cable->to = (RwEnd){ g_strdup (to->device), g_strdup (to->port) };
  mark (cable, RW_CABLE_FROM);
  mark (cable, RW_CABLE_TO);
  if (!maker->want->odd && chance (maker, 70))
    {
      cable->length_m = 0.5 * (1 + pick (maker, 240));
      mark (cable, RW_CABLE_LENGTH_M);
    }
  append (maker, cable);
}

static RwEnd
take_free_port (Maker *maker, guint index)
{
  RwEnd end = g_array_index (maker->free_ports, RwEnd, index);

  g_array_remove_index_fast (maker->free_ports, index);
  return end;
}

/* Adds the devices; with @joined a cable from each to a free port of an earlier one. */
static void
add_devices (Maker *maker)
{
  for (guint i = 0; i < maker->want->devices; i++)
    {
      const RwPart *part = pick_part (maker);
      const RwDevice *device = add_device (maker, i, part);
      guint before = maker->free_ports->len;
      remember_ports (maker, device, part);
      if (maker->want->joined && before > 0 && rw_rig_n (maker->rig, RW_ITEM_CABLE) < maker->want->cables)
        {
          RwEnd own = take_free_port (maker, before); /* the last free port takes its place */
          RwEnd other = take_free_port (maker, pick (maker, before));
          add_cable (maker, &other, &own);
        }
    }
}

static RwEnd
any_port (Maker *maker)
{
  guint index = pick (maker, maker->want->devices);
  const RwDevice *device = (const RwDevice *) rw_rig_items (maker->rig, RW_ITEM_DEVICE)[index];
  const RwPart *part = rw_rig_part_of (maker->rig, device);

  return (RwEnd){ device->item.key, rw_part_port (part, pick (maker, rw_part_n_ports (part)))->name };
}

static RwEnd
next_port (Maker *maker, gboolean shared)
{
  if (shared || maker->free_ports->len == 0)
    return any_port (maker);
  return take_free_port (maker, pick (maker, maker->free_ports->len));
}

static void
add_cables (Maker *maker)
{
  while (maker->want->devices > 0 && rw_rig_n (maker->rig, RW_ITEM_CABLE) < maker->want->cables)
    {
      gboolean shared = chance (maker, maker->want->shared_percent);
      RwEnd from = next_port (maker, shared);
      RwEnd to = next_port (maker, shared);
      add_cable (maker, &from, &to);
    }
}

/* Devices whose part has a count of @field over 0. */
static GPtrArray *
devices_with (Maker *maker, guint field)
{
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; i < maker->want->devices; i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (maker->rig, RW_ITEM_DEVICE)[i];
      const RwPart *part = rw_rig_part_of (maker->rig, device);
      if (*(const int *) RW_FIELD_PTR (part, &rw_part_table.fields[field]) > 0)
        g_ptr_array_add (found, (gpointer) device);
    }
  return found;
}

static int
pick_number (Maker *maker, const RwDevice *device, guint field)
{
  const RwPart *part = rw_rig_part_of (maker->rig, device);
  int n = MAX (1, *(const int *) RW_FIELD_PTR (part, &rw_part_table.fields[field]));

  if (maker->want->odd && chance (maker, 10))
    return random_fields_integer (maker->rand);
  return 1 + (int) pick (maker, (guint) n);
}

static RwSlot
pick_slot (Maker *maker, GPtrArray *devices, guint field)
{
  const RwDevice *device = g_ptr_array_index (devices, pick (maker, devices->len));

  return (RwSlot){ g_strdup (device->item.key), pick_number (maker, device, field) };
}

static void
add_rows (Maker *maker)
{
  g_autoptr (GPtrArray) talkers = devices_with (maker, RW_PART_SENDS);
  g_autoptr (GPtrArray) listeners = devices_with (maker, RW_PART_RECEIVES);

  for (guint i = 0; talkers->len > 0 && listeners->len > 0 && i < maker->want->rows; i++)
    {
      RwPatchRow *row = rw_item_new (RW_ITEM_PATCH);
      g_autofree char *id = g_strdup_printf ("p%u", i);
      decorate (maker, row, &rw_patch_table);
      put_text (row, &rw_patch_table, RW_PATCH_ID, id);
      row->from = pick_slot (maker, talkers, RW_PART_SENDS);
      row->to = pick_slot (maker, listeners, RW_PART_RECEIVES);
      mark (row, RW_PATCH_FROM);
      mark (row, RW_PATCH_TO);
      append (maker, row);
    }
}

static void
add_inside (Maker *maker)
{
  g_autoptr (GPtrArray) desks = devices_with (maker, RW_PART_STRIPS);

  for (guint i = 0; desks->len > 0 && i < maker->want->inside; i++)
    {
      RwInsideRow *row = rw_item_new (RW_ITEM_INSIDE);
      const RwDevice *device = g_ptr_array_index (desks, pick (maker, desks->len));
      gboolean in = chance (maker, 60);
      g_autofree char *id = g_strdup_printf ("i%u", i);
      decorate (maker, row, &rw_inside_table);
      put_text (row, &rw_inside_table, RW_INSIDE_ID, id);
      put_text (row, &rw_inside_table, RW_INSIDE_DEVICE, rw_item_key (device));
      row->from = in ? (RwPlace){ (int) pick (maker, 2), pick_number (maker, device, RW_PART_LOCAL_INPUTS) }
                     : (RwPlace){ RW_INSIDE_BUS, pick_number (maker, device, RW_PART_BUSES) };
      row->to = in ? (RwPlace){ RW_INSIDE_TO_STRIP, pick_number (maker, device, RW_PART_STRIPS) }
                   : (RwPlace){ 1 + (int) pick (maker, 2), pick_number (maker, device, RW_PART_LOCAL_OUTPUTS) };
      mark (row, RW_INSIDE_FROM);
      mark (row, RW_INSIDE_TO);
      append (maker, row);
    }
}

static void
add_channel (Maker *maker, const RwDevice *device, RwChannelSide side, int number)
{
  RwChannel *channel = rw_item_new (RW_ITEM_CHANNEL);

  decorate (maker, channel, &rw_channel_table);
  put_text (channel, &rw_channel_table, RW_CHANNEL_DEVICE, rw_item_key (device));
  put_integer (channel, &rw_channel_table, RW_CHANNEL_SIDE, (int) side);
  put_integer (channel, &rw_channel_table, RW_CHANNEL_NUMBER, number);
  if (!maker->want->odd)
    {
      put_text (channel, &rw_channel_table, RW_CHANNEL_NAME, "Vocal");
      put_integer (channel, &rw_channel_table, RW_CHANNEL_PHANTOM, chance (maker, 30));
      put_integer (channel, &rw_channel_table, RW_CHANNEL_SOURCE, (int) pick (maker, RW_SOURCE_RADIO + 1));
    }
  append (maker, channel);
}

static void
add_channels (Maker *maker)
{
  g_autoptr (GPtrArray) devices = devices_with (maker, RW_PART_SENDS);

  for (guint i = 0; devices->len > 0 && i < maker->want->channels; i++)
    {
      const RwDevice *device = g_ptr_array_index (devices, pick (maker, devices->len));
      RwChannelSide side = pick (maker, 2) ? RW_CHANNEL_SEND : RW_CHANNEL_STRIP;
      int number = pick_number (maker, device, RW_PART_SENDS);
      g_autofree char *key = rw_channel_key (rw_item_key (device), side, number);
      if (rw_rig_find (maker->rig, key) == NULL) /* a taken one is left out: there may be too few for all */
        add_channel (maker, device, side, number);
    }
}

/* Another rig, which shares ids with the one that it is stored in. */
static RwRig *
some_state (Maker *maker)
{
  RandomRig want = random_rig_any (g_rand_int (maker->rand), 4);

  want.sets = want.revisions = 0;
  want.extras = maker->want->extras;
  want.odd = maker->want->odd;
  return rw_rig_seal (random_rig_new (&want));
}

static void
add_set (Maker *maker, guint i)
{
  RwPatchSet *set = rw_item_new (RW_ITEM_SET);
  g_autofree char *id = g_strdup_printf ("s%u", i);

  decorate (maker, set, &rw_set_table);
  put_text (set, &rw_set_table, RW_SET_ID, id);
  set->state = some_state (maker);
  mark (set, RW_SET_STATE);
  if (rw_rig_n (set->state, RW_ITEM_DEVICE) > 0 && chance (maker, 50))
    put_text (set, &rw_set_table, RW_SET_DEVICE, rw_item_key (rw_rig_items (set->state, RW_ITEM_DEVICE)[0]));
  append (maker, set);
}

static void
add_revision (Maker *maker, guint i)
{
  RwRevision *revision = rw_item_new (RW_ITEM_REVISION);
  g_autofree char *id = g_strdup_printf ("r%u", i);

  decorate (maker, revision, &rw_revision_table);
  put_text (revision, &rw_revision_table, RW_REVISION_ID, id);
  revision->state = some_state (maker);
  mark (revision, RW_REVISION_STATE);
  append (maker, revision);
}

static void
decorate_rig (Maker *maker)
{
  if (!maker->want->extras)
    return;
  random_fields_add_extras (maker->rand, rw_rig_head (maker->rig));
  for (RwItemType type = 0; type < RW_N_ITEM_TYPES; type++)
    if (chance (maker, 50))
      rw_rig_set_lists (maker->rig, type, TRUE);
}

/**
 * random_rig_any:
 * @seed: any number
 * @most: the most that there are of any kind of item
 *
 * Returns: a wish for some rig, everything about it drawn from @seed
 */
RandomRig
random_rig_any (guint32 seed, guint most)
{
  GRand *rand = g_rand_new_with_seed (seed);
  guint counts[5];
  RandomRig want;

  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    counts[i] = (guint) g_rand_int_range (rand, 0, (gint32) most + 1);
  want = (RandomRig){ .seed = seed, .devices = counts[0], .cables = counts[1], .rows = counts[2], .inside = counts[3],
                      .channels = counts[4] };
  want.forwards_percent = (guint) g_rand_int_range (rand, 0, 101);
  want.shared_percent = (guint) g_rand_int_range (rand, 0, 40);
  want.joined = g_rand_boolean (rand);
  want.all_redundant = g_rand_boolean (rand);
  want.vlans = g_rand_boolean (rand);
  want.extras = g_rand_boolean (rand);
  want.odd = g_rand_boolean (rand);
  want.sets = (guint) g_rand_int_range (rand, 0, 3);
  want.revisions = (guint) g_rand_int_range (rand, 0, 3);
  g_rand_free (rand);
  return want;
}

/**
 * random_rig_new:
 * @want: what it is to be
 *
 * Returns: (transfer full): a rig that a file may hold
 */
RwRig *
random_rig_new (const RandomRig *want)
{
  Maker maker = { .want = want, .rand = g_rand_new_with_seed (want->seed), .rig = rw_rig_new (),
                  .free_ports = g_array_new (FALSE, FALSE, sizeof (RwEnd)) };

  decorate_rig (&maker);
  for (guint i = 0; i < G_N_ELEMENTS (templates); i++)
    add_part (&maker, &templates[i]);
  add_devices (&maker);
  add_cables (&maker);
  add_rows (&maker);
  add_inside (&maker);
  add_channels (&maker);
  for (guint i = 0; i < want->sets; i++)
    add_set (&maker, i);
  for (guint i = 0; i < want->revisions; i++)
    add_revision (&maker, i);
  g_array_unref (maker.free_ports);
  g_rand_free (maker.rand);
  return maker.rig;
}
