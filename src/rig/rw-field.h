/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-types.h"

G_BEGIN_DECLS

/**
 * RwFieldKind:
 *
 * What a field holds, how it lies in its struct, and how rw_record_get() gives it.
 *
 * kind                 in the struct       as a GVariant   in the file
 * RW_FIELD_ID          char *              s               string of [A-Za-z0-9._-]{1,64}
 * RW_FIELD_TEXT        char * or NULL      s               string
 * RW_FIELD_INTEGER     int                 i               integer
 * RW_FIELD_REAL        double              d               number
 * RW_FIELD_BOOLEAN     gboolean            b               true, false
 * RW_FIELD_WORD        int, -1 = absent    s               one of the field's words
 * RW_FIELD_POINT       RwPoint             (dd)            [x, y]
 * RW_FIELD_POINTS      RwPoints            a(dd)           [[x, y], …]
 * RW_FIELD_END         RwEnd               (ss)            [device, port]
 * RW_FIELD_SLOT        RwSlot              (si)            [device, number]
 * RW_FIELD_PLACE       RwPlace             (si)            [kind, number]
 * RW_FIELD_RECORD      a record inline     a{sv}           object with the sub-table's members
 * RW_FIELD_RECORDS     RwRecords           aa{sv}          array of such objects
 * RW_FIELD_VLANS       RwVlans             a{sv}, v: i|ai  object PORT: number or [numbers]
 * RW_FIELD_STATE       RwRig * or NULL     a{sv}           object with a rig's members, as rw_state_get() says
 */
typedef enum
{
  RW_FIELD_ID,
  RW_FIELD_TEXT,
  RW_FIELD_INTEGER,
  RW_FIELD_REAL,
  RW_FIELD_BOOLEAN,
  RW_FIELD_WORD,
  RW_FIELD_POINT,
  RW_FIELD_POINTS,
  RW_FIELD_END,
  RW_FIELD_SLOT,
  RW_FIELD_PLACE,
  RW_FIELD_RECORD,
  RW_FIELD_RECORDS,
  RW_FIELD_VLANS,
  RW_FIELD_STATE,
} RwFieldKind;

/* A point on the sheet, in millimetres from its top left corner, x right, y down. */
typedef struct { double x, y; } RwPoint;
typedef struct { RwPoint *points; guint n; } RwPoints;
/* One end of a cable. */
typedef struct { char *device; char *port; } RwEnd;
/* A network channel of a device, counted from 1. */
typedef struct { char *device; int number; } RwSlot;
/* A place inside a device: @kind is an index into the field's words. */
typedef struct { int kind; int number; } RwPlace;
/* @items is one block of @n structs of the sub-table's size. */
typedef struct { gpointer items; guint n; } RwRecords;
/* What one switch port belongs to. @n VLAN numbers; untagged iff !tagged, then n = 1. */
typedef struct { char *port; gboolean tagged; guint n; int *vlans; } RwPortVlans;
typedef struct { RwPortVlans *ports; guint n; } RwVlans;

typedef enum
{
  RW_FIELD_REQUIRED = 1 << 0, /* refused when absent in a file */
  RW_FIELD_HIDDEN = 1 << 1,   /* not offered in Particulars (position, ends, bends…) */
  RW_FIELD_LONG = 1 << 2,     /* text of several lines */
} RwFieldFlags;

/**
 * RwField: one row of an item type's table: the only place where a field is described.
 * @name: member name in the file
 * @label: (translatable) what a person reads
 * @group: (translatable) heading under which Particulars shows it
 * @help: (translatable) one line
 * @unit: (nullable): a unit symbol ("mm", "Hz", "µs", "%"), not translated
 * @min, @max: inclusive range of INTEGER, REAL and of each coordinate of POINT(S)
 * @def: value that an absent member stands for (INTEGER, REAL, BOOLEAN, WORD as an index);
 *   meaningful only with @has_def
 * @allowed: (nullable): the only integers allowed, ended by 0
 * @step: integers must be multiples of it when > 1
 * @words: (nullable): the words of WORD and PLACE, NULL-ended; @word_labels likewise, translatable
 * @sub: (nullable): table of RECORD and RECORDS
 * @fallback: (nullable): name of the member of the system that an absent value falls back on
 */
struct _RwField
{
  const char *name;
  const char *label;
  const char *group;
  const char *help;
  RwFieldKind kind;
  RwFieldFlags flags;
  gsize offset;
  const char *unit;
  double min, max;
  gboolean has_def;
  double def;
  const int *allowed;
  int step;
  const char *const *words;
  const char *const *word_labels;
  const RwTable *sub;
  const char *fallback;
};

/* The fields of one kind of record, in the order in which the file writes them; at most 64. */
struct _RwTable
{
  const char *name;  /* how messages call such a record: "device" */
  const RwField *fields;
  guint n_fields;
  gsize size;        /* of the struct */
};

/**
 * RwRecord: head of every struct that a table describes.
 * @present: bit i = field i was in the file, or was set since
 * @extras: (nullable): members that the program does not know, as name, value, name, value, …, NULL;
 *   a value is canonical compact JSON text, its numbers verbatim
 */
struct _RwRecord
{
  guint64 present;
  char **extras;
};

void rw_record_init (gpointer record, const RwTable *table);
void rw_record_clear (gpointer record, const RwTable *table);
void rw_record_copy (gpointer to, gconstpointer from, const RwTable *table);
gboolean rw_record_equal (gconstpointer a, gconstpointer b, const RwTable *table);
static inline gboolean
rw_record_has (gconstpointer record, guint field)
{
  return (((const RwRecord *) record)->present >> field) & 1;
}
void rw_record_unset (gpointer record, const RwTable *table, guint field);
gboolean rw_record_is_default (gconstpointer record, const RwTable *table, guint field);
void rw_record_add_extra (gpointer record, const char *name, const char *json);
GVariant *rw_record_get (gconstpointer record, const RwTable *table, guint field);
gboolean rw_record_set (gpointer record, const RwTable *table, guint field, GVariant *value,
                        GError **error);
GVariant *rw_record_get_all (gconstpointer record, const RwTable *table);
gboolean rw_record_set_all (gpointer record, const RwTable *table, GVariant *dict, GError **error);

int rw_table_find (const RwTable *table, const char *name, gssize length, guint hint);
const char *rw_field_word (const RwField *field, int index);
int rw_field_find_word (const RwField *field, const char *word, gssize length);
gboolean rw_field_check_number (const RwField *field, double value, GError **error);
gboolean rw_id_is_valid (const char *id, gssize length);

char *rw_field_format (const RwField *field, GVariant *value);
char *rw_field_format_whole (const RwField *field, GVariant *value);
GVariant *rw_field_parse (const RwField *field, const char *text, GError **error);

#define RW_FIELD_PTR(record, field) ((gpointer) ((char *) (record) + (field)->offset))

G_END_DECLS
