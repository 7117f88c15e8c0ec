/* SPDX-License-Identifier: MIT */
#include "rw-channel.h"

#include <glib/gi18n-lib.h>

static const char *const side_words[] = { "send", "receive", "strip", "bus", NULL };
static const char *const side_labels[] = { N_("Send"), N_("Receive"), N_("Strip"), N_("Bus"), NULL };
static const char *const source_words[] = { "condenser", "dynamic", "ribbon", "di-active", "di-passive", "line", "radio", NULL };
static const char *const source_labels[] = { N_("Condenser microphone"), N_("Dynamic microphone"), N_("Ribbon microphone"),
                                             N_("Active DI"), N_("Passive DI"), N_("Line"), N_("Radio receiver"), NULL };

static const RwField channel_fields[] = {
  [RW_CHANNEL_DEVICE] = { .name = "device", .label = N_("Device"), .group = N_("Channel"), .help = N_("Whose channel it is"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwChannel, device) },
  [RW_CHANNEL_SIDE] = { .name = "side", .label = N_("Side"), .group = N_("Channel"), .help = N_("Which of the device's counts it is in"),
    .kind = RW_FIELD_WORD, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwChannel, side), .words = side_words,
    .word_labels = side_labels },
  [RW_CHANNEL_NUMBER] = { .name = "number", .label = N_("Number"), .group = N_("Channel"), .help = N_("Counted from 1"),
    .kind = RW_FIELD_INTEGER, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwChannel, number), .min = G_MININT,
    .max = G_MAXINT },
  [RW_CHANNEL_NAME] = { .name = "name", .label = N_("Name"), .group = N_("Channel"), .help = N_("What is heard on it"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwChannel, name) },
  [RW_CHANNEL_PHANTOM] = { .name = "phantom", .label = N_("Phantom power"), .group = N_("Channel"),
    .help = N_("48 V on the socket: mute first, and never into a ribbon or line source that is not rated for it"),
    .kind = RW_FIELD_BOOLEAN, .offset = offsetof (RwChannel, phantom), .has_def = TRUE },
  [RW_CHANNEL_SOURCE] = { .name = "source", .label = N_("Source"), .group = N_("Channel"), .help = N_("What is plugged in"),
    .kind = RW_FIELD_WORD, .offset = offsetof (RwChannel, source), .words = source_words, .word_labels = source_labels },
  [RW_CHANNEL_GAIN_DB] = { .name = "gain_db", .label = N_("Gain"), .group = N_("Channel"), .help = N_("Of its preamp"),
    .unit = "dB", .kind = RW_FIELD_REAL, .offset = offsetof (RwChannel, gain_db), .min = -60, .max = 90 },
  [RW_CHANNEL_HIGH_PASS_HZ] = { .name = "high_pass_hz", .label = N_("High-pass"), .group = N_("Channel"),
    .help = N_("Corner of its high-pass filter"), .unit = "Hz", .kind = RW_FIELD_REAL,
    .offset = offsetof (RwChannel, high_pass_hz), .min = 0, .max = 2000 },
  [RW_CHANNEL_STAND] = { .name = "stand", .label = N_("Stand"), .group = N_("Channel"), .help = N_("What holds the microphone"),
    .kind = RW_FIELD_TEXT, .offset = offsetof (RwChannel, stand) },
  [RW_CHANNEL_NOTES] = { .name = "notes", .label = N_("Notes"), .group = N_("Channel"), .help = N_("Whatever else the crew should know"),
    .kind = RW_FIELD_TEXT, .flags = RW_FIELD_LONG, .offset = offsetof (RwChannel, notes) },
};
G_STATIC_ASSERT (G_N_ELEMENTS (channel_fields) == RW_CHANNEL_N_FIELDS);

const RwTable rw_channel_table = { "channel", channel_fields, RW_CHANNEL_N_FIELDS, sizeof (RwChannel) };

/**
 * rw_channel_key:
 * @device: id of a device
 * @side: which of its counts
 * @number: from 1
 *
 * Returns: (transfer full): the key of that channel's item
 */
char *
rw_channel_key (const char *device, RwChannelSide side, int number)
{
  return g_strdup_printf ("/channel/%s/%s/%d", device, side_words[side], number);
}

/**
 * rw_change_turns_phantom_on:
 * @change: a change of any kind
 *
 * Returns: whether a channel has phantom power after it that had none before: then a caution is due
 */
gboolean
rw_change_turns_phantom_on (const RwChange *change)
{
  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *entry = rw_change_entry (change, i);
      const RwChannel *before = (const RwChannel *) entry->before, *after = (const RwChannel *) entry->after;

      if (entry->type == RW_ITEM_CHANNEL && after != NULL && after->phantom && (before == NULL || !before->phantom))
        return TRUE;
    }
  return FALSE;
}
