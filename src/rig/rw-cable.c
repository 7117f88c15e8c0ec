/* SPDX-License-Identifier: MIT */
#include "rw-cable.h"

#include <glib/gi18n-lib.h>

static const char *const grade_words[] = { "cat5", "cat5e", "cat6", "cat6a", "om1", "om2", "om3", "om4", "om5", "os2", NULL };
static const char *const grade_labels[] = { "Cat 5", "Cat 5e", "Cat 6", "Cat 6A", "OM1", "OM2", "OM3", "OM4", "OM5", "OS2", NULL };
static const char *const conductor_words[] = { "solid", "stranded", NULL };
static const char *const conductor_labels[] = { N_("Solid"), N_("Stranded"), NULL };

static const RwField cable_fields[] = {
  [RW_CABLE_ID] = { .name = "id", .label = N_("ID in the file"), .group = N_("Cable"), .help = N_("Its name in the file"),
    .kind = RW_FIELD_ID, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwItem, key) },
  [RW_CABLE_FROM] = { .name = "from", .label = N_("From"), .group = N_("Cable"), .help = N_("Device and port at its start"),
    .kind = RW_FIELD_END, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwCable, from) },
  [RW_CABLE_TO] = { .name = "to", .label = N_("To"), .group = N_("Cable"), .help = N_("Device and port at its end"),
    .kind = RW_FIELD_END, .flags = RW_FIELD_REQUIRED | RW_FIELD_HIDDEN, .offset = offsetof (RwCable, to) },
  [RW_CABLE_MEDIUM] = { .name = "medium", .label = N_("Medium"), .group = N_("Cable"), .help = N_("Copper or which fibre"),
    .kind = RW_FIELD_WORD, .offset = offsetof (RwCable, medium), .words = rw_media_words,
    .word_labels = rw_media_word_labels, .has_def = TRUE, .def = RW_MEDIUM_COPPER },
  [RW_CABLE_GRADE] = { .name = "grade", .label = N_("Grade"), .group = N_("Cable"),
    .help = N_("Absent = Cat 5e on copper, OM3 on multimode, OS2 on singlemode"), .kind = RW_FIELD_WORD,
    .offset = offsetof (RwCable, grade), .words = grade_words, .word_labels = grade_labels },
  [RW_CABLE_CONDUCTOR] = { .name = "conductor", .label = N_("Conductor"), .group = N_("Cable"),
    .help = N_("Stranded copper reaches less far than solid"), .kind = RW_FIELD_WORD,
    .offset = offsetof (RwCable, conductor), .words = conductor_words, .word_labels = conductor_labels },
  [RW_CABLE_LENGTH_M] = { .name = "length_m", .label = N_("Length"), .group = N_("Cable"),
    .help = N_("0 = not known yet"), .unit = "m", .kind = RW_FIELD_REAL, .offset = offsetof (RwCable, length_m),
    .min = 0, .max = 100000, .has_def = TRUE, .def = 0 },
  [RW_CABLE_LABEL] = { .name = "label", .label = N_("Label"), .group = N_("Cable"),
    .help = N_("What is written on both its ends"), .kind = RW_FIELD_TEXT, .offset = offsetof (RwCable, label) },
  [RW_CABLE_COLOUR] = { .name = "colour", .label = N_("Jacket colour"), .group = N_("Cable"),
    .help = N_("IEC 60757 code: BK BN RD OG YE GN BU VT GY WH PK TQ"), .kind = RW_FIELD_TEXT,
    .offset = offsetof (RwCable, colour) },
  [RW_CABLE_BENDS] = { .name = "bends", .label = N_("Bends"), .group = N_("Cable"),
    .help = N_("Points that its line passes on the sheet"), .unit = "mm", .kind = RW_FIELD_POINTS,
    .flags = RW_FIELD_HIDDEN, .offset = offsetof (RwCable, bends), .min = -100000, .max = 100000 },
  [RW_CABLE_NOTES] = { .name = "notes", .label = N_("Notes"), .group = N_("Cable"),
    .help = N_("Whatever else the crew should know"), .kind = RW_FIELD_TEXT, .flags = RW_FIELD_LONG,
    .offset = offsetof (RwCable, notes) },
};
G_STATIC_ASSERT (G_N_ELEMENTS (cable_fields) == RW_CABLE_N_FIELDS);

const RwTable rw_cable_table = { "cable", cable_fields, RW_CABLE_N_FIELDS, sizeof (RwCable) };

/**
 * rw_cable_grade:
 *
 * Returns: the grade that holds: as written, else Cat 5e on copper, OM3 on multimode, OS2 on singlemode
 */
RwGrade
rw_cable_grade (const RwCable *cable)
{
  static const RwGrade by_medium[] = {
    [RW_MEDIUM_COPPER] = RW_GRADE_CAT5E,
    [RW_MEDIUM_MULTIMODE] = RW_GRADE_OM3,
    [RW_MEDIUM_SINGLEMODE] = RW_GRADE_OS2,
  };

  return cable->grade >= 0 ? (RwGrade) cable->grade : by_medium[cable->medium];
}

gboolean
rw_cable_has_label (const RwCable *cable)
{
  return cable->label != NULL && *cable->label != '\0';
}

/**
 * rw_cable_title:
 *
 * Returns: (transfer none): what messages call it: its label, else its id
 */
const char *
rw_cable_title (const RwCable *cable)
{
  return rw_cable_has_label (cable) ? cable->label : rw_item_key (cable);
}
