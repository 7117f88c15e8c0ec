/* SPDX-License-Identifier: MIT */
#include "rw-patch.h"

#include <glib/gi18n-lib.h>

static const RwField patch_fields[] = {
  [RW_PATCH_ID] = { .name = "id", .label = N_("ID in the file"), .group = N_("Patch"), .help = N_("Its name in the file"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwItem, key) },
  [RW_PATCH_FROM] = { .name = "from", .label = N_("From"), .group = N_("Patch"), .help = N_("Device and number of the send"),
    .kind = RW_FIELD_SLOT, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwPatchRow, from), .min = G_MININT, .max = G_MAXINT },
  [RW_PATCH_TO] = { .name = "to", .label = N_("To"), .group = N_("Patch"), .help = N_("Device and number of the receive"),
    .kind = RW_FIELD_SLOT, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwPatchRow, to), .min = G_MININT, .max = G_MAXINT },
};
G_STATIC_ASSERT (G_N_ELEMENTS (patch_fields) == RW_PATCH_N_FIELDS);

const RwTable rw_patch_table = { "patch row", patch_fields, RW_PATCH_N_FIELDS, sizeof (RwPatchRow) };

static const char *const from_words[] = { "receive", "local", "bus", NULL };
static const char *const from_labels[] = { N_("Receive"), N_("Own input"), N_("Bus"), NULL };
static const char *const to_words[] = { "strip", "send", "local", NULL };
static const char *const to_labels[] = { N_("Strip"), N_("Send"), N_("Own output"), NULL };

static const RwField inside_fields[] = {
  [RW_INSIDE_ID] = { .name = "id", .label = N_("ID in the file"), .group = N_("Patch"), .help = N_("Its name in the file"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwItem, key) },
  [RW_INSIDE_DEVICE] = { .name = "device", .label = N_("Device"), .group = N_("Patch"), .help = N_("Inside which device"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwInsideRow, device) },
  [RW_INSIDE_FROM] = { .name = "from", .label = N_("From"), .group = N_("Patch"), .help = N_("Receive, own input or bus, and its number"),
    .kind = RW_FIELD_PLACE, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwInsideRow, from), .words = from_words,
    .word_labels = from_labels, .min = G_MININT, .max = G_MAXINT },
  [RW_INSIDE_TO] = { .name = "to", .label = N_("To"), .group = N_("Patch"), .help = N_("Strip, send or own output, and its number"),
    .kind = RW_FIELD_PLACE, .flags = RW_FIELD_REQUIRED, .offset = offsetof (RwInsideRow, to), .words = to_words,
    .word_labels = to_labels, .min = G_MININT, .max = G_MAXINT },
};
G_STATIC_ASSERT (G_N_ELEMENTS (inside_fields) == RW_INSIDE_N_FIELDS);

const RwTable rw_inside_table = { "inside row", inside_fields, RW_INSIDE_N_FIELDS, sizeof (RwInsideRow) };
