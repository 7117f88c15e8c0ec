/* SPDX-License-Identifier: MIT */
#include "rw-show.h"

#include <glib/gi18n-lib.h>

static const RwField show_fields[] = {
  [RW_SHOW_TITLE] = { .name = "title", .label = N_("Title"), .group = N_("Show"),
    .help = N_("What the show is called; heads every paper"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwShow, title) },
  [RW_SHOW_VENUE] = { .name = "venue", .label = N_("Venue"), .group = N_("Show"),
    .help = N_("Where it plays"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwShow, venue) },
  [RW_SHOW_DATE] = { .name = "date", .label = N_("Date"), .group = N_("Show"),
    .help = N_("Day of the show, as YYYY-MM-DD"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwShow, date) },
  [RW_SHOW_DRAWN_BY] = { .name = "drawn_by", .label = N_("Drawn by"), .group = N_("Show"),
    .help = N_("Who answers for this drawing"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwShow, drawn_by) },
  [RW_SHOW_REVISION] = { .name = "revision", .label = N_("Revision"), .group = N_("Show"),
    .help = N_("Letter or number of this issue of the drawing"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwShow, revision) },
  [RW_SHOW_NOTES] = { .name = "notes", .label = N_("Notes"), .group = N_("Show"),
    .help = N_("Whatever else the crew should know"),
    .kind = RW_FIELD_TEXT, .flags = RW_FIELD_LONG, .offset = offsetof (RwShow, notes) },
};
G_STATIC_ASSERT (G_N_ELEMENTS (show_fields) == RW_SHOW_N_FIELDS);

const RwTable rw_show_table = { "show", show_fields, RW_SHOW_N_FIELDS, sizeof (RwShow) };

const int rw_sample_rates_hz[] = { 44100, 48000, 88200, 96000, 176400, 192000, 0 };
const int rw_word_bits[] = { 16, 24, 32, 0 };
/* AES67-2018 7.2: 125 µs, 250 µs, 333 1/3 µs, 1 ms, 4 ms (from memory); the file cuts 333 1/3 to 333. */
static const int packet_times_us[] = { 125, 250, 333, 1000, 4000, 0 };

static const RwField system_fields[] = {
  [RW_SYSTEM_SAMPLE_RATE_HZ] = { .name = "sample_rate_hz", .label = N_("Sample rate"), .group = N_("Audio"),
    .help = N_("Of every device that does not say otherwise"), .unit = "Hz",
    .kind = RW_FIELD_INTEGER, .offset = offsetof (RwSystem, sample_rate_hz),
    .allowed = rw_sample_rates_hz, .has_def = TRUE, .def = 48000 },
  [RW_SYSTEM_WORD_BITS] = { .name = "word_bits", .label = N_("Word length"), .group = N_("Audio"),
    .help = N_("Bits in one sample of one channel"), .unit = "bit",
    .kind = RW_FIELD_INTEGER, .offset = offsetof (RwSystem, word_bits),
    .allowed = rw_word_bits, .has_def = TRUE, .def = 24 },
  [RW_SYSTEM_PACKET_TIME_US] = { .name = "packet_time_us", .label = N_("Packet time"), .group = N_("Audio"),
    .help = N_("How much sound one packet holds"), .unit = "µs",
    .kind = RW_FIELD_INTEGER, .offset = offsetof (RwSystem, packet_time_us),
    .allowed = packet_times_us, .has_def = TRUE, .def = 125 },
  [RW_SYSTEM_RECEIVE_LATENCY_US] = { .name = "receive_latency_us", .label = N_("Receive latency"),
    .group = N_("Audio"), .help = N_("How long a receiver waits before it plays a packet"), .unit = "µs",
    .kind = RW_FIELD_INTEGER, .offset = offsetof (RwSystem, receive_latency_us),
    .min = 1, .max = 100000, .has_def = TRUE, .def = 1000 },
  [RW_SYSTEM_LINK_CEILING_PERCENT] = { .name = "link_ceiling_percent", .label = N_("Link ceiling"),
    .group = N_("Network"), .help = N_("Share of a link's rate that planned audio may fill"), .unit = "%",
    .kind = RW_FIELD_INTEGER, .offset = offsetof (RwSystem, link_ceiling_percent),
    .min = 1, .max = 100, .has_def = TRUE, .def = 75 },
  [RW_SYSTEM_UNIT_ID_MAX] = { .name = "unit_id_max", .label = N_("Highest unit ID"), .group = N_("Numbering"),
    .help = N_("Unit IDs count from 1 to this"),
    .kind = RW_FIELD_INTEGER, .offset = offsetof (RwSystem, unit_id_max),
    .min = 1, .max = 999, .has_def = TRUE, .def = 99 },
  [RW_SYSTEM_CONTROLLER_ID_MAX] = { .name = "controller_id_max", .label = N_("Highest controller ID"),
    .group = N_("Numbering"), .help = N_("Controller IDs count from 1 to this"),
    .kind = RW_FIELD_INTEGER, .offset = offsetof (RwSystem, controller_id_max),
    .min = 1, .max = 999, .has_def = TRUE, .def = 9 },
  [RW_SYSTEM_CLOCK_DOMAIN] = { .name = "clock_domain", .label = N_("Clock domain"), .group = N_("Network"),
    .help = N_("Devices of one domain follow one clock"),
    .kind = RW_FIELD_INTEGER, .offset = offsetof (RwSystem, clock_domain),
    .min = 0, .max = 127, .has_def = TRUE, .def = 0 },
  [RW_SYSTEM_MULTICAST] = { .name = "multicast", .label = N_("Multicast"), .group = N_("Network"),
    .help = N_("Send once what several devices listen to"),
    .kind = RW_FIELD_BOOLEAN, .offset = offsetof (RwSystem, multicast), .has_def = TRUE, .def = TRUE },
};
G_STATIC_ASSERT (G_N_ELEMENTS (system_fields) == RW_SYSTEM_N_FIELDS);

const RwTable rw_system_table = { "system", system_fields, RW_SYSTEM_N_FIELDS, sizeof (RwSystem) };
