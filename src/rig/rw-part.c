/* SPDX-License-Identifier: MIT */
#include "rw-part.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static const char *const kind_words[] = { "controller", "rack", "endpoint", "switch", "converter", NULL };
static const char *const kind_labels[] = { N_("Console"), N_("I/O rack"), N_("Endpoint"), N_("Switch"),
                                           N_("Converter"), NULL };
static const char *const side_words[] = { "primary", "secondary", "network", "aux", NULL };
static const char *const side_labels[] = { N_("Primary"), N_("Secondary"), N_("Network"), N_("Aux"), NULL };
static const char *const port_media_words[] = { "copper", "multimode", "singlemode", "cage", NULL };
static const char *const port_media_labels[] = { N_("Copper"), N_("Multimode fibre"), N_("Singlemode fibre"),
                                                 N_("Cage"), NULL };
const char *const rw_media_words[] = { "copper", "multimode", "singlemode", NULL };
const char *const rw_media_word_labels[] = { N_("Copper"), N_("Multimode fibre"), N_("Singlemode fibre"), NULL };
static const int speeds_mbps[] = { 10, 100, 1000, 2500, 5000, 10000, 25000, 40000, 100000, 0 };

static const RwField port_fields[] = {
  [RW_PORT_NAME] = { .name = "name", .label = N_("Name"), .help = N_("As it is printed beside the socket"),
    .kind = RW_FIELD_TEXT, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwPort, name) },
  [RW_PORT_SIDE] = { .name = "side", .label = N_("Side"),
    .help = N_("Which network the port belongs to; an aux port is never bridged"),
    .kind = RW_FIELD_WORD, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwPort, side),
    .words = side_words, .word_labels = side_labels },
  [RW_PORT_MEDIUM] = { .name = "medium", .label = N_("Medium"), .help = N_("What the socket takes; a cage takes any"),
    .kind = RW_FIELD_WORD, .offset = offsetof (RwPort, medium), .words = port_media_words,
    .word_labels = port_media_labels, .has_def = TRUE, .def = RW_MEDIUM_COPPER },
  [RW_PORT_SPEED_MBPS] = { .name = "speed_mbps", .label = N_("Speed"), .help = N_("The fastest that the port does"),
    .unit = "Mb/s", .kind = RW_FIELD_INTEGER, .offset = offsetof (RwPort, speed_mbps), .allowed = speeds_mbps,
    .has_def = TRUE, .def = 1000 },
};
G_STATIC_ASSERT (G_N_ELEMENTS (port_fields) == RW_PORT_N_FIELDS);

const RwTable rw_port_table = { "port", port_fields, RW_PORT_N_FIELDS, sizeof (RwPort) };

#define COUNT(member_, name_, label_, help_)                                                                 \
  {                                                                                                          \
    .name = name_, .label = label_, .group = N_("Channels"), .help = help_, .kind = RW_FIELD_INTEGER,        \
    .offset = offsetof (RwPart, member_), .min = 0, .max = 4096, .has_def = TRUE, .def = 0                   \
  }
#define WATTS(member_, name_, label_, help_)                                                                 \
  {                                                                                                          \
    .name = name_, .label = label_, .group = N_("Body"), .help = help_, .unit = "W", .kind = RW_FIELD_REAL,  \
    .offset = offsetof (RwPart, member_), .min = 0, .max = 100000, .has_def = TRUE, .def = 0                 \
  }

static const RwField part_fields[] = {
  [RW_PART_ID] = { .name = "id", .label = N_("Part ID"), .group = N_("Part"), .help = N_("Its name in the file"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwItem, key) },
  [RW_PART_NAME] = { .name = "name", .label = N_("Part name"), .group = N_("Part"),
    .help = N_("What the shelf and the papers call it"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwPart, name) },
  [RW_PART_KIND] = { .name = "kind", .label = N_("Kind"), .group = N_("Part"),
    .help = N_("What it is for in the network"), .kind = RW_FIELD_WORD, .flags = RW_FIELD_REQUIRED,
    .offset = offsetof (RwPart, kind), .words = kind_words, .word_labels = kind_labels },
  [RW_PART_PORTS] = { .name = "ports", .label = N_("Ports"), .group = N_("Part"), .help = N_("Its network sockets"),
    .kind = RW_FIELD_RECORDS, .flags = RW_FIELD_HIDDEN, .offset = offsetof (RwPart, ports), .sub = &rw_port_table },
  [RW_PART_SENDS] = COUNT (sends, "sends", N_("Sends"), N_("Network channels out of the device")),
  [RW_PART_RECEIVES] = COUNT (receives, "receives", N_("Receives"), N_("Network channels into the device")),
  [RW_PART_PREAMPS] = COUNT (preamps, "preamps", N_("Preamps"), N_("So many of the first sends have a remote preamp")),
  [RW_PART_STRIPS] = COUNT (strips, "strips", N_("Strips"), N_("Input channels of its mixer")),
  [RW_PART_BUSES] = COUNT (buses, "buses", N_("Buses"), N_("Mixes that it makes")),
  [RW_PART_LOCAL_INPUTS] = COUNT (local_inputs, "local_inputs", N_("Own inputs"), N_("Input sockets on the device itself")),
  [RW_PART_LOCAL_OUTPUTS] = COUNT (local_outputs, "local_outputs", N_("Own outputs"), N_("Output sockets on the device itself")),
  [RW_PART_SPANNING_TREE] = { .name = "spanning_tree", .label = N_("Spanning tree"), .group = N_("Network"),
    .help = N_("Takes part in the IEEE 802.1 spanning tree"),
    .kind = RW_FIELD_BOOLEAN, .offset = offsetof (RwPart, spanning_tree), .has_def = TRUE },
  [RW_PART_SNOOPING] = { .name = "snooping", .label = N_("Multicast snooping"), .group = N_("Network"),
    .help = N_("Sends multicast only where somebody listens"),
    .kind = RW_FIELD_BOOLEAN, .offset = offsetof (RwPart, snooping), .has_def = TRUE },
  [RW_PART_FABRIC_NS] = { .name = "fabric_ns", .label = N_("Forwarding delay"), .group = N_("Network"),
    .help = N_("From the end of a frame in to the start of it out"), .unit = "ns", .kind = RW_FIELD_INTEGER,
    .offset = offsetof (RwPart, fabric_ns), .min = 0, .max = 1000000, .has_def = TRUE, .def = 2000 },
  [RW_PART_WATTS] = WATTS (watts, "watts", N_("Power"), N_("What it draws from the mains")),
  [RW_PART_POE_SUPPLY_W] = WATTS (poe_supply_w, "poe_supply_w", N_("PoE supply"), N_("What it can feed over its ports in all")),
  [RW_PART_POE_DRAW_W] = WATTS (poe_draw_w, "poe_draw_w", N_("PoE draw"), N_("What it takes over its network port")),
  [RW_PART_RACK_UNITS] = { .name = "rack_units", .label = N_("Rack units"), .group = N_("Body"),
    .help = N_("Height in a 19-inch rack; 0 = stands free"), .unit = "U", .kind = RW_FIELD_REAL,
    .offset = offsetof (RwPart, rack_units), .min = 0, .max = 4096, .has_def = TRUE, .def = 0 },
};
G_STATIC_ASSERT (G_N_ELEMENTS (part_fields) == RW_PART_N_FIELDS);

const RwTable rw_part_table = { "part", part_fields, RW_PART_N_FIELDS, sizeof (RwPart) };

guint
rw_part_n_ports (const RwPart *part)
{
  return part->ports.n;
}

const RwPort *
rw_part_port (const RwPart *part, guint index)
{
  g_return_val_if_fail (index < part->ports.n, NULL);

  return (const RwPort *) part->ports.items + index;
}

/**
 * rw_part_find_port:
 *
 * Returns: index of the port called @name, -1 = none
 */
int
rw_part_find_port (const RwPart *part, const char *name)
{
  for (guint i = 0; i < part->ports.n; i++)
    if (strcmp (rw_part_port (part, i)->name, name) == 0)
      return (int) i;
  return -1;
}

/**
 * rw_part_find_side:
 *
 * Returns: index of the first port of @side, -1 = none
 */
int
rw_part_find_side (const RwPart *part, RwSide side)
{
  for (guint i = 0; i < part->ports.n; i++)
    if (rw_part_port (part, i)->side == (int) side)
      return (int) i;
  return -1;
}

/**
 * rw_part_forwards:
 *
 * Returns: %TRUE for switches and converters: they carry what others say, and have no mode
 */
gboolean
rw_part_forwards (const RwPart *part)
{
  return part->kind == RW_PART_SWITCH || part->kind == RW_PART_CONVERTER;
}

/**
 * rw_part_kind_heading:
 *
 * Returns: (transfer none): what stands over a list of parts of @kind: "Consoles"
 */
const char *
rw_part_kind_heading (RwPartKind kind)
{
  static const char *const headings[] = {
    [RW_PART_CONTROLLER] = N_("Consoles"),
    [RW_PART_RACK] = N_("I/O racks"),
    [RW_PART_ENDPOINT] = N_("Sources and loudspeakers"),
    [RW_PART_SWITCH] = N_("Switches"),
    [RW_PART_CONVERTER] = N_("Converters"),
  };
  G_STATIC_ASSERT (G_N_ELEMENTS (headings) == RW_N_PART_KINDS);

  g_return_val_if_fail ((guint) kind < RW_N_PART_KINDS, NULL);

  return _(headings[kind]);
}
