/* SPDX-License-Identifier: MIT */
#include "rw-device.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-show.h"

static const char *const mode_words[] = { "chain", "redundant", "single", NULL };
static const char *const mode_labels[] = { N_("Chain"), N_("Redundant"), N_("Single"), NULL };

#define CLOCK_NUMBER(member_, name_, label_, help_, max_, def_)                                              \
  {                                                                                                          \
    .name = name_, .label = label_, .group = N_("Clock"), .help = help_, .kind = RW_FIELD_INTEGER,           \
    .offset = offsetof (RwClock, member_), .min = 0, .max = max_, .has_def = TRUE, .def = def_               \
  }

/* Defaults: IEEE 1588-2008 Annex J and 7.6. */
static const RwField clock_fields[] = {
  [RW_CLOCK_PRIORITY1] = CLOCK_NUMBER (priority1, "priority1", N_("Priority 1"), N_("Compared first; the lower leads"), 255, 128),
  [RW_CLOCK_CLASS] = CLOCK_NUMBER (clock_class, "class", N_("Class"), N_("What the clock is locked to; 255 never leads"), 255, 248),
  [RW_CLOCK_ACCURACY] = CLOCK_NUMBER (accuracy, "accuracy", N_("Accuracy"), N_("Coded as IEEE 1588 says; 254 = unknown"), 255, 254),
  [RW_CLOCK_VARIANCE] = CLOCK_NUMBER (variance, "variance", N_("Variance"), N_("How steady the clock is; the lower leads"), 65535, 65535),
  [RW_CLOCK_PRIORITY2] = CLOCK_NUMBER (priority2, "priority2", N_("Priority 2"), N_("Decides between equal clocks"), 255, 128),
  [RW_CLOCK_IDENTITY] = { .name = "identity", .label = N_("Identity"), .group = N_("Clock"),
    .help = N_("16 hex digits; decides last"), .kind = RW_FIELD_TEXT, .offset = offsetof (RwClock, identity) },
  [RW_CLOCK_DOMAIN] = { .name = "domain", .label = N_("Domain"), .group = N_("Clock"),
    .help = N_("Devices of one domain follow one clock"), .kind = RW_FIELD_INTEGER,
    .offset = offsetof (RwClock, domain), .min = 0, .max = 127, .fallback = "clock_domain" },
  [RW_CLOCK_REFERENCE] = { .name = "reference", .label = N_("Reference"), .group = N_("Clock"),
    .help = N_("This device is meant to lead"), .kind = RW_FIELD_BOOLEAN, .offset = offsetof (RwClock, reference),
    .has_def = TRUE },
};
G_STATIC_ASSERT (G_N_ELEMENTS (clock_fields) == RW_CLOCK_N_FIELDS);

const RwTable rw_clock_table = { "clock", clock_fields, RW_CLOCK_N_FIELDS, sizeof (RwClock) };

static const RwField addresses_fields[] = {
  [RW_ADDRESSES_PRIMARY] = { .name = "primary", .label = N_("Primary address"), .group = N_("Addresses"),
    .help = N_("With its prefix length, as 10.0.0.5/24"), .kind = RW_FIELD_TEXT,
    .offset = offsetof (RwAddresses, primary) },
  [RW_ADDRESSES_SECONDARY] = { .name = "secondary", .label = N_("Secondary address"), .group = N_("Addresses"),
    .help = N_("In another subnet than the primary"), .kind = RW_FIELD_TEXT,
    .offset = offsetof (RwAddresses, secondary) },
};
G_STATIC_ASSERT (G_N_ELEMENTS (addresses_fields) == RW_ADDRESSES_N_FIELDS);

const RwTable rw_addresses_table = { "addresses", addresses_fields, RW_ADDRESSES_N_FIELDS, sizeof (RwAddresses) };

static const RwField device_fields[] = {
  [RW_DEVICE_ID] = { .name = "id", .label = N_("ID in the file"), .group = N_("Device"),
    .help = N_("Its name in the file"), .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN,
    .offset = offsetof (RwItem, key) },
  [RW_DEVICE_PART] = { .name = "part", .label = N_("Part"), .group = N_("Device"), .help = N_("What type of device it is"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwDevice, part) },
  [RW_DEVICE_NAME] = { .name = "name", .label = N_("Name"), .group = N_("Device"),
    .help = N_("What the crew calls it"), .kind = RW_FIELD_TEXT, .offset = offsetof (RwDevice, name) },
  [RW_DEVICE_AT] = { .name = "at", .label = N_("Place on the sheet"), .group = N_("Device"),
    .help = N_("Of its top left corner, x right, y down; absent: the program finds one"), .unit = "mm", .kind = RW_FIELD_POINT,
    .flags = RW_FIELD_HIDDEN, .offset = offsetof (RwDevice, at), .min = -100000, .max = 100000 },
  [RW_DEVICE_MODE] = { .name = "mode", .label = N_("Port mode"), .group = N_("Network"),
    .help = N_("What its primary and secondary ports do"), .kind = RW_FIELD_WORD,
    .offset = offsetof (RwDevice, mode), .words = mode_words, .word_labels = mode_labels, .has_def = TRUE,
    .def = RW_MODE_CHAIN },
  [RW_DEVICE_UNIT_ID] = { .name = "unit_id", .label = N_("Unit ID"), .group = N_("Numbering"),
    .help = N_("By which controllers tell racks apart"), .kind = RW_FIELD_INTEGER,
    .offset = offsetof (RwDevice, unit_id), .min = G_MININT, .max = G_MAXINT },
  [RW_DEVICE_CONTROLLER_ID] = { .name = "controller_id", .label = N_("Controller ID"), .group = N_("Numbering"),
    .help = N_("Absent = off; one controller must have 1"), .kind = RW_FIELD_INTEGER,
    .offset = offsetof (RwDevice, controller_id), .min = G_MININT, .max = G_MAXINT },
  [RW_DEVICE_CLOCK] = { .name = "clock", .label = N_("Clock"), .group = N_("Clock"),
    .help = N_("What it brings to the election of the clock leader"), .kind = RW_FIELD_RECORD,
    .offset = offsetof (RwDevice, clock), .sub = &rw_clock_table },
  [RW_DEVICE_MAC] = { .name = "mac", .label = N_("Hardware address"), .group = N_("Network"),
    .help = N_("Six pairs of hex digits; decides ties between switches"), .kind = RW_FIELD_TEXT,
    .offset = offsetof (RwDevice, mac) },
  [RW_DEVICE_QUERIER] = { .name = "querier", .label = N_("Multicast querier"), .group = N_("Network"),
    .help = N_("Asks who listens, so that snooping works"), .kind = RW_FIELD_BOOLEAN,
    .offset = offsetof (RwDevice, querier), .has_def = TRUE },
  [RW_DEVICE_SAMPLE_RATE_HZ] = { .name = "sample_rate_hz", .label = N_("Sample rate"), .group = N_("Audio"),
    .help = N_("Absent = the system's"), .unit = "Hz", .kind = RW_FIELD_INTEGER,
    .offset = offsetof (RwDevice, sample_rate_hz), .allowed = rw_sample_rates_hz, .fallback = "sample_rate_hz" },
  [RW_DEVICE_WORD_BITS] = { .name = "word_bits", .label = N_("Word length"), .group = N_("Audio"),
    .help = N_("Absent = the system's"), .unit = "bit", .kind = RW_FIELD_INTEGER,
    .offset = offsetof (RwDevice, word_bits), .allowed = rw_word_bits, .fallback = "word_bits" },
  [RW_DEVICE_RECEIVE_LATENCY_US] = { .name = "receive_latency_us", .label = N_("Receive latency"), .group = N_("Audio"),
    .help = N_("Absent = the system's"), .unit = "µs", .kind = RW_FIELD_INTEGER,
    .offset = offsetof (RwDevice, receive_latency_us), .min = 1, .max = 100000, .fallback = "receive_latency_us" },
  /* Default and steps: IEEE 802.1D-2004 17.14 (from memory). */
  [RW_DEVICE_BRIDGE_PRIORITY] = { .name = "bridge_priority", .label = N_("Bridge priority"), .group = N_("Network"),
    .help = N_("The lowest is the root of the spanning tree"), .kind = RW_FIELD_INTEGER,
    .offset = offsetof (RwDevice, bridge_priority), .min = 0, .max = 61440, .step = 4096, .has_def = TRUE,
    .def = 32768 },
  [RW_DEVICE_PORT_VLANS] = { .name = "port_vlans", .label = N_("VLANs of its ports"), .group = N_("Network"),
    .help = N_("One number = untagged member, a list = tagged trunk, absent = VLAN 1"), .kind = RW_FIELD_VLANS,
    .offset = offsetof (RwDevice, port_vlans), .min = 1, .max = 4094 },
  [RW_DEVICE_ADDRESSES] = { .name = "addresses", .label = N_("Addresses"), .group = N_("Addresses"),
    .help = N_("IPv4 addresses set by hand"), .kind = RW_FIELD_RECORD, .offset = offsetof (RwDevice, addresses),
    .sub = &rw_addresses_table },
  [RW_DEVICE_GAIN_COMPENSATION] = { .name = "gain_compensation", .label = N_("Gain compensation"), .group = N_("Audio"),
    .help = N_("Holds the level that leaves the rack when its gain is turned"), .kind = RW_FIELD_BOOLEAN,
    .offset = offsetof (RwDevice, gain_compensation), .has_def = TRUE },
  [RW_DEVICE_LOCATION] = { .name = "location", .label = N_("Location"), .group = N_("Device"),
    .help = N_("Where it stands"), .kind = RW_FIELD_TEXT, .offset = offsetof (RwDevice, location) },
  [RW_DEVICE_NOTES] = { .name = "notes", .label = N_("Notes"), .group = N_("Device"),
    .help = N_("Whatever else the crew should know"), .kind = RW_FIELD_TEXT, .flags = RW_FIELD_LONG,
    .offset = offsetof (RwDevice, notes) },
};
G_STATIC_ASSERT (G_N_ELEMENTS (device_fields) == RW_DEVICE_N_FIELDS);

const RwTable rw_device_table = { "device", device_fields, RW_DEVICE_N_FIELDS, sizeof (RwDevice) };

/**
 * rw_device_mode:
 * @device: a device that is no switch and no converter
 * @part: its part
 *
 * Returns: the mode that holds: single where the part has no secondary port, else what the device says
 */
RwMode
rw_device_mode (const RwDevice *device, const RwPart *part)
{
  return rw_part_find_side (part, RW_SIDE_SECONDARY) < 0 ? RW_MODE_SINGLE : (RwMode) device->mode;
}

/**
 * rw_device_title:
 *
 * Returns: (transfer none): what messages call it: its name, else its id
 */
const char *
rw_device_title (const RwDevice *device)
{
  return device->name != NULL && *device->name != '\0' ? device->name : rw_item_key (device);
}

/**
 * rw_device_port_vlans:
 *
 * Returns: (transfer none) (nullable): what the port belongs to, %NULL = untagged in VLAN 1
 */
const RwPortVlans *
rw_device_port_vlans (const RwDevice *device, const char *port)
{
  for (guint i = 0; i < device->port_vlans.n; i++)
    if (strcmp (device->port_vlans.ports[i].port, port) == 0)
      return &device->port_vlans.ports[i];
  return NULL;
}
