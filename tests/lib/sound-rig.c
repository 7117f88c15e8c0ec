/* SPDX-License-Identifier: MIT */
#include "sound-rig.h"

#define AREA 25
#define SWITCHES 6       /* of a redundant area: of each plane one in the middle and two leaves */
#define AREAS_BELOW 14   /* that hang on the middle switches of another */
#define RACKS 2
#define RACK_SENDS 48
#define RACK_RECEIVES 32
#define DESK_CHANNELS 256

typedef struct
{
  RwRig *rig;
  guint area;
  gboolean chain;
  guint rows; /* that this area still gets */
  int receive, bus; /* of its desk: the last one used */
} Maker;

/* Each member as text, as a file might hold it. */
static void
set (gpointer item, const RwTable *table, const char *name, const char *format, ...)
{
  int field = rw_table_find (table, name, -1, 0);
  va_list args;
  g_autofree char *text = NULL;
  g_autoptr (GVariant) value = NULL;

  va_start (args, format);
  text = g_strdup_vprintf (format, args);
  va_end (args);
  g_assert (field >= 0);
  value = rw_field_parse (&table->fields[field], text, NULL);
  g_assert (value != NULL && rw_record_set (item, table, field, value, NULL));
}

#define SET(item, name, ...) set (item, rw_item_table (item), name, __VA_ARGS__)

static gpointer
item_new (RwItemType type, const char *format, ...) G_GNUC_PRINTF (2, 3);

static gpointer
item_new (RwItemType type, const char *format, ...)
{
  RwItem *item = rw_item_new (type);
  va_list args;

  va_start (args, format);
  if (rw_item_type_has_id (type))
    item->key = g_strdup_vprintf (format, args);
  va_end (args);
  return item;
}

static void
append (Maker *maker, gpointer item)
{
  g_autoptr (RwItem) sealed = rw_item_seal (item);

  g_assert (rw_rig_append (maker->rig, sealed, NULL) && rw_rig_check_item (maker->rig, sealed, NULL, NULL));
}

static void
add_ports (RwPart *part, guint n)
{
  static const char *const sides[] = { "primary", "secondary" };

  part->ports.n = part->kind == RW_PART_SWITCH ? n : 2;
  part->ports.items = g_new0 (RwPort, part->ports.n);
  for (guint i = 0; i < part->ports.n; i++)
    {
      RwPort *port = (RwPort *) part->ports.items + i;
      gboolean network = part->kind == RW_PART_SWITCH;

      rw_record_init (port, &rw_port_table);
      set (port, &rw_port_table, "name", network ? "p%u" : sides[i], i);
      set (port, &rw_port_table, "side", "%s", network ? "network" : sides[i]);
    }
}

static void
add_part (Maker *maker, const char *id, const char *kind, int sends, int receives, int preamps)
{
  RwPart *part = item_new (RW_ITEM_PART, "%s", id);

  SET (part, "kind", "%s", kind);
  SET (part, "sends", "%d", sends);
  SET (part, "receives", "%d", receives);
  SET (part, "preamps", "%d", preamps);
  if (part->kind == RW_PART_CONTROLLER)
    {
      SET (part, "strips", "%d", receives);
      SET (part, "buses", "%d", sends);
    }
  part->spanning_tree = part->kind == RW_PART_SWITCH;
  add_ports (part, 48);
  append (maker, part);
}

static void
add_device (Maker *maker, const char *kind, guint number, const char *mode)
{
  RwDevice *device = item_new (RW_ITEM_DEVICE, "%s%u-%u", kind, maker->area, number);

  SET (device, "part", "%s", kind);
  SET (device, "name", "%s %u-%u", kind, maker->area, number);
  if (mode != NULL)
    SET (device, "mode", "%s", mode);
  if (g_str_equal (kind, "desk"))
    {
      SET (device, "controller_id", "%u", maker->area + 1);
      set (&device->clock, &rw_clock_table, "priority1", maker->area == 0 ? "100" : "110");
      device->item.record.present |= G_GUINT64_CONSTANT (1) << RW_DEVICE_CLOCK;
    }
  if (g_str_equal (kind, "rack"))
    SET (device, "unit_id", "%u", maker->area * RACKS + number + 1);
  append (maker, device);
}

static void
add_cable (Maker *maker, char *from, const char *from_port, char *to, const char *to_port)
{
  guint n = rw_rig_n (maker->rig, RW_ITEM_CABLE) + 1;
  RwCable *cable = item_new (RW_ITEM_CABLE, "c%u", n);

  cable->from = (RwEnd){ from, g_strdup (from_port) };
  cable->to = (RwEnd){ to, g_strdup (to_port) };
  cable->item.record.present |= 1 << RW_CABLE_FROM | 1 << RW_CABLE_TO;
  SET (cable, "length_m", "%u", 2 + n % 70);
  SET (cable, "label", "N%u", n);
  append (maker, cable);
}

/* Switches of one plane are even, those of the other odd; the first two are in the middle. */
static void
join_switches (Maker *maker, guint area_a, guint switch_a, guint port_a, guint area_b, guint switch_b, guint port_b)
{
  g_autofree char *a = g_strdup_printf ("p%u", port_a), *b = g_strdup_printf ("p%u", port_b);

  add_cable (maker, g_strdup_printf ("switch%u-%u", area_a, switch_a), a,
             g_strdup_printf ("switch%u-%u", area_b, switch_b), b);
}

static void
add_switches (Maker *maker)
{
  guint own = maker->area / 2;

  for (guint i = 0; i < SWITCHES; i++)
    add_device (maker, "switch", i, NULL);
  for (guint plane = 0; plane < 2; plane++)
    {
      join_switches (maker, maker->area, plane, 1, maker->area, 2 + plane, 0);
      join_switches (maker, maker->area, plane, 2, maker->area, 4 + plane, 0);
      if (own > 0)
        join_switches (maker, maker->area, plane, 0, (own - 1) / AREAS_BELOW * 2, plane, 3 + (own - 1) % AREAS_BELOW);
    }
  /* here and there a ring that spanning tree holds open */
  if (own % 20 == 3)
    join_switches (maker, maker->area, 2, 1, maker->area, 4, 1);
}

static void
plug_device (Maker *maker, const char *kind, guint number, guint place, gboolean both)
{
  guint leaf = 2 + place % 2 * 2;

  for (guint plane = 0; plane < 1u + both; plane++)
    {
      g_autofree char *port = g_strdup_printf ("p%u", 2 + place / 2);

      add_cable (maker, g_strdup_printf ("%s%u-%u", kind, maker->area, number), plane == 0 ? "primary" : "secondary",
                 g_strdup_printf ("switch%u-%u", maker->area, leaf + plane), port);
    }
}

/* The desk stands in the middle of its chain, the racks beside it. */
static void
add_audio (Maker *maker, guint n)
{
  const char *last_kind = NULL;
  guint last_number = 0, n_speakers = n - 1 - RACKS;

  for (guint i = 0, speaker = 0; i < n; i++)
    {
      gboolean rack = i == n / 2 - 1 || i == n / 2 + 1;
      const char *kind = i == n / 2 ? "desk" : rack ? "rack" : "speaker";
      guint number = rack ? i > n / 2 : i == n / 2 ? 0 : speaker++;
      gboolean both = !g_str_equal (kind, "speaker") || number % 2 == 0 || number + 1 == n_speakers;

      add_device (maker, kind, number, maker->chain ? "chain" : both ? "redundant" : "single");
      if (!maker->chain)
        plug_device (maker, kind, number, i, both);
      else if (last_kind != NULL)
        add_cable (maker, g_strdup_printf ("%s%u-%u", last_kind, maker->area, last_number), "secondary",
                   g_strdup_printf ("%s%u-%u", kind, maker->area, number), "primary");
      last_kind = kind;
      last_number = number;
    }
}

static void
add_row (Maker *maker, const char *from, guint from_number, int send, const char *to, guint to_number, int receive)
{
  RwPatchRow *row = item_new (RW_ITEM_PATCH, "p%u", rw_rig_n (maker->rig, RW_ITEM_PATCH) + 1);

  row->from = (RwSlot){ g_strdup_printf ("%s%u-%u", from, maker->area, from_number), send };
  row->to = (RwSlot){ g_strdup_printf ("%s%u-%u", to, maker->area, to_number), receive };
  row->item.record.present |= 1 << RW_PATCH_FROM | 1 << RW_PATCH_TO;
  maker->rows--;
  append (maker, row);
}

static void
add_inside (Maker *maker, RwPlace from, RwPlace to)
{
  RwInsideRow *row = item_new (RW_ITEM_INSIDE, "i%u", rw_rig_n (maker->rig, RW_ITEM_INSIDE) + 1);

  row->device = g_strdup_printf ("desk%u-0", maker->area);
  row->from = from;
  row->to = to;
  row->item.record.present |= 1 << RW_INSIDE_DEVICE | 1 << RW_INSIDE_FROM | 1 << RW_INSIDE_TO;
  append (maker, row);
}

static void
add_channel (Maker *maker, guint rack, int send)
{
  static const char *const sources[] = { "condenser", "dynamic", "di-active", "line" };
  guint i = (guint) send % G_N_ELEMENTS (sources);
  RwChannel *channel = item_new (RW_ITEM_CHANNEL, "%s", "");

  SET (channel, "device", "rack%u-%u", maker->area, rack);
  SET (channel, "side", "send");
  SET (channel, "number", "%d", send);
  SET (channel, "name", "Line %d", send);
  SET (channel, "source", "%s", sources[i]);
  channel->phantom = i % 2 == 0;
  channel->item.record.present |= 1 << RW_CHANNEL_PHANTOM;
  append (maker, channel);
}

static void
add_inputs (Maker *maker)
{
  for (int send = 1; send <= RACK_SENDS; send++)
    for (guint rack = 0; rack < RACKS && maker->rows > 0; rack++)
      {
        add_channel (maker, rack, send);
        add_row (maker, "rack", rack, send, "desk", 0, ++maker->receive);
        add_inside (maker, (RwPlace){ RW_INSIDE_RECEIVE, maker->receive }, (RwPlace){ RW_INSIDE_TO_STRIP, maker->receive });
      }
}

static void
add_outputs (Maker *maker, const char *kind, guint n, int receives)
{
  for (int receive = 1; receive <= receives; receive++)
    for (guint i = 0; i < n && maker->rows > 0; i++)
      {
        maker->bus++;
        add_inside (maker, (RwPlace){ RW_INSIDE_BUS, maker->bus }, (RwPlace){ RW_INSIDE_TO_SEND, maker->bus });
        add_row (maker, "desk", 0, maker->bus, kind, i, receive);
      }
}

static void
add_area (Maker *maker, guint rows)
{
  guint n_audio = maker->chain ? AREA : AREA - SWITCHES;

  maker->rows = rows;
  maker->receive = maker->bus = 0;
  if (!maker->chain)
    add_switches (maker);
  add_audio (maker, n_audio);
  add_inputs (maker);
  add_outputs (maker, "speaker", n_audio - 1 - RACKS, 2);
  add_outputs (maker, "rack", RACKS, RACK_RECEIVES);
  g_assert (maker->rows == 0);
}

static void
add_system (Maker *maker)
{
  RwSystem *system = item_new (RW_ITEM_SYSTEM, "%s", "");

  SET (system, "unit_id_max", "999");
  SET (system, "controller_id_max", "999");
  append (maker, system);
}

RwRig *
sound_rig_new (guint devices, guint rows)
{
  guint n_areas = devices / AREA;
  Maker maker = { .rig = rw_rig_new () };

  add_system (&maker);
  add_part (&maker, "desk", "controller", DESK_CHANNELS, DESK_CHANNELS, 0);
  add_part (&maker, "rack", "rack", RACK_SENDS, RACK_RECEIVES, RACK_SENDS);
  add_part (&maker, "speaker", "endpoint", 0, 2, 0);
  add_part (&maker, "switch", "switch", 0, 0, 0);
  for (maker.area = 0; maker.area < n_areas; maker.area++)
    {
      maker.chain = maker.area % 2 == 1;
      add_area (&maker, rows * (maker.area + 1) / n_areas - rows * maker.area / n_areas);
    }
  return maker.rig;
}
