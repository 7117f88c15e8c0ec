/* SPDX-License-Identifier: MIT */
#include "rw-field-sheet.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-edit.h>

struct _RwFieldSheet
{
  char **keys;
  GArray *lines; /* of RwFieldLine */
};

/* Fields of devices that make sense on some parts only; all others make sense on all. */
typedef gboolean (*AppliesFunc) (const RwPart *part);

static gboolean
has_host (const RwPart *part)
{
  return !rw_part_forwards (part);
}

static gboolean
has_two_sides (const RwPart *part)
{
  return rw_part_find_side (part, RW_SIDE_SECONDARY) >= 0;
}

static gboolean
is_controller (const RwPart *part)
{
  return part->kind == RW_PART_CONTROLLER;
}

static gboolean
is_switch (const RwPart *part)
{
  return part->kind == RW_PART_SWITCH;
}

static gboolean
has_tree (const RwPart *part)
{
  return part->spanning_tree;
}

static gboolean
has_preamps (const RwPart *part)
{
  return part->preamps > 0;
}

static const struct { guint field; AppliesFunc applies; } device_fields[] = {
  { RW_DEVICE_MODE, has_two_sides },
  { RW_DEVICE_UNIT_ID, has_host },
  { RW_DEVICE_CONTROLLER_ID, is_controller },
  { RW_DEVICE_CLOCK, has_host },
  { RW_DEVICE_QUERIER, is_switch },
  { RW_DEVICE_SAMPLE_RATE_HZ, has_host },
  { RW_DEVICE_WORD_BITS, has_host },
  { RW_DEVICE_RECEIVE_LATENCY_US, has_host },
  { RW_DEVICE_BRIDGE_PRIORITY, has_tree },
  { RW_DEVICE_PORT_VLANS, is_switch },
  { RW_DEVICE_ADDRESSES, has_host },
  { RW_DEVICE_GAIN_COMPENSATION, has_preamps },
};

/* What a device says is always shown, even where it makes no sense: a rule may speak of it. */
static gboolean
applies (const RwRig *rig, const RwItem *item, guint field)
{
  const RwPart *part;

  if (rw_item_type (item) != RW_ITEM_DEVICE || rw_item_has (item, field))
    return TRUE;
  part = rw_rig_part_of (rig, (const RwDevice *) item);
  for (guint i = 0; i < G_N_ELEMENTS (device_fields); i++)
    if (device_fields[i].field == field)
      return part != NULL && device_fields[i].applies (part);
  return TRUE;
}

/* The index in @item's own table of a field that is called and kept as @like, or -1. */
static int
find_like (const RwItem *item, const RwField *like)
{
  const RwTable *table = rw_item_table (item);
  int index = rw_table_find (table, like->name, -1, 0);

  return index >= 0 && table->fields[index].kind == like->kind ? index : -1;
}

static gboolean
is_common (const RwFieldSheet *sheet, const RwRig *rig, const RwField *field)
{
  for (guint i = 0; sheet->keys[i] != NULL; i++)
    {
      const RwItem *item = rw_rig_find (rig, sheet->keys[i]);
      int index = item != NULL ? find_like (item, field) : -1;
      if (item != NULL && (index < 0 || !applies (rig, item, index)))
        return FALSE;
    }
  return TRUE;
}

static void
add_line (RwFieldSheet *sheet, const RwField *parent, const RwField *field)
{
  RwFieldLine line = { field, parent, NULL };

  line.path = parent != NULL ? g_strconcat (parent->name, ".", field->name, NULL)
                             : g_strdup (field->name);
  g_array_append_val (sheet->lines, line);
}

/* Port VLANs of a switch are shown with its ports, not as a line. */
static gboolean
is_line (const RwField *field)
{
  switch (field->kind)
    {
    case RW_FIELD_TEXT:
    case RW_FIELD_INTEGER:
    case RW_FIELD_REAL:
    case RW_FIELD_BOOLEAN:
    case RW_FIELD_WORD:
      return (field->flags & RW_FIELD_HIDDEN) == 0;
    case RW_FIELD_ID:
    case RW_FIELD_POINT:
    case RW_FIELD_POINTS:
    case RW_FIELD_END:
    case RW_FIELD_SLOT:
    case RW_FIELD_PLACE:
    case RW_FIELD_RECORD:
    case RW_FIELD_RECORDS:
    case RW_FIELD_VLANS:
    case RW_FIELD_STATE:
    default:
      return FALSE;
    }
}

static void
add_field (RwFieldSheet *sheet, const RwRig *rig, const RwField *field)
{
  if ((field->flags & RW_FIELD_HIDDEN) != 0 || !is_common (sheet, rig, field))
    return;
  if (is_line (field))
    add_line (sheet, NULL, field);
  if (field->kind == RW_FIELD_RECORD)
    for (guint i = 0; i < field->sub->n_fields; i++)
      if (is_line (&field->sub->fields[i]))
        add_line (sheet, field, &field->sub->fields[i]);
}

static void
clear_line (gpointer line)
{
  g_free (((RwFieldLine *) line)->path);
}

/**
 * rw_field_sheet_new:
 * @keys: of items of @rig, NULL-ended; copied
 *
 * The lines are in the order of the first item's table.
 */
RwFieldSheet *
rw_field_sheet_new (const RwRig *rig, const char *const *keys)
{
  RwFieldSheet *sheet = g_new0 (RwFieldSheet, 1);
  const RwItem *first;

  sheet->keys = g_strdupv ((char **) keys);
  sheet->lines = g_array_new (FALSE, FALSE, sizeof (RwFieldLine));
  g_array_set_clear_func (sheet->lines, clear_line);
  first = keys[0] != NULL ? rw_rig_find (rig, keys[0]) : NULL;
  if (first != NULL)
    for (guint i = 0; i < rw_item_table (first)->n_fields; i++)
      add_field (sheet, rig, &rw_item_table (first)->fields[i]);
  return sheet;
}

void
rw_field_sheet_free (RwFieldSheet *sheet)
{
  g_strfreev (sheet->keys);
  g_array_unref (sheet->lines);
  g_free (sheet);
}

guint
rw_field_sheet_n (const RwFieldSheet *sheet)
{
  return sheet->lines->len;
}

const RwFieldLine *
rw_field_sheet_line (const RwFieldSheet *sheet, guint index)
{
  g_return_val_if_fail (index < sheet->lines->len, NULL);
  return &g_array_index (sheet->lines, RwFieldLine, index);
}

/* The index of the line called @path ("clock.priority1"), or -1. */
int
rw_field_sheet_find (const RwFieldSheet *sheet, const char *path)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    if (g_str_equal (rw_field_sheet_line (sheet, i)->path, path))
      return i;
  return -1;
}

const char *const *
rw_field_sheet_keys (const RwFieldSheet *sheet)
{
  return (const char *const *) sheet->keys;
}

/* Whether the widgets made for @sheet will do for @other: same items, and no line that @sheet has not. What is emptied
 * while it is typed over, and made no sense on its part, keeps its line so. */
gboolean
rw_field_sheet_covers (const RwFieldSheet *sheet, const RwFieldSheet *other)
{
  if (!g_strv_equal (rw_field_sheet_keys (sheet), rw_field_sheet_keys (other)))
    return FALSE;
  for (guint i = 0; i < other->lines->len; i++)
    if (rw_field_sheet_find (sheet, rw_field_sheet_line (other, i)->path) < 0)
      return FALSE;
  return TRUE;
}

/* Gives NULL where @item does not say it. */
static GVariant *
get_value (const RwItem *item, const RwFieldLine *line)
{
  int index = find_like (item, line->parent != NULL ? line->parent : line->field);
  const RwField *own;
  gconstpointer record;

  if (index < 0 || !rw_item_has (item, index))
    return NULL;
  if (line->parent == NULL)
    return rw_item_get (item, index);
  own = &rw_item_table (item)->fields[index];
  record = RW_FIELD_PTR (item, own);
  index = rw_table_find (own->sub, line->field->name, -1, 0);
  if (index < 0 || !rw_record_has (record, index))
    return NULL;
  return rw_record_get (record, own->sub, index);
}

static gboolean
variants_equal (GVariant *a, GVariant *b)
{
  return a == NULL || b == NULL ? a == b : g_variant_equal (a, b);
}

RwShared
rw_field_sheet_get (const RwFieldSheet *sheet, const RwRig *rig, guint line, GVariant **value)
{
  const RwFieldLine *row = rw_field_sheet_line (sheet, line);
  g_autoptr (GVariant) common = NULL;

  *value = NULL;
  for (guint i = 0; sheet->keys[i] != NULL; i++)
    {
      const RwItem *item = rw_rig_find (rig, sheet->keys[i]);
      g_autoptr (GVariant) one = item != NULL ? get_value (item, row) : NULL;
      if (i > 0 && !variants_equal (common, one))
        return RW_SHARED_SEVERAL;
      if (i == 0)
        common = g_steal_pointer (&one);
    }
  *value = g_steal_pointer (&common);
  return *value != NULL ? RW_SHARED_SAME : RW_SHARED_ABSENT;
}

static char *
with_unit (const RwField *field, GVariant *value)
{
  int word;

  if (field->kind == RW_FIELD_WORD)
    {
      word = rw_field_find_word (field, g_variant_get_string (value, NULL), -1);
      return g_strdup (word >= 0 && field->word_labels != NULL ? _(field->word_labels[word])
                                                               : g_variant_get_string (value, NULL));
    }
  return rw_field_format_whole (field, value);
}

/* (transfer full) (nullable) */
static GVariant *
default_value (const RwField *field)
{
  if (!field->has_def)
    return NULL;
  if (field->kind == RW_FIELD_INTEGER)
    return g_variant_ref_sink (g_variant_new_int32 ((int) field->def));
  if (field->kind == RW_FIELD_REAL)
    return g_variant_ref_sink (g_variant_new_double (field->def));
  if (field->kind == RW_FIELD_BOOLEAN)
    return g_variant_ref_sink (g_variant_new_boolean (field->def != 0));
  if (field->kind == RW_FIELD_WORD && field->def >= 0)
    return g_variant_ref_sink (g_variant_new_string (rw_field_word (field, (int) field->def)));
  return NULL;
}

/* What the system says where @field leaves it to the system; (transfer full) (nullable). */
static GVariant *
system_value (const RwRig *rig, const RwField *field)
{
  const RwSystem *system = rw_rig_system (rig);
  int index = field->fallback != NULL ? rw_table_find (&rw_system_table, field->fallback, -1, 0) : -1;
  GVariant *value;

  if (index < 0)
    return NULL;
  value = rw_item_get (system, index);
  return value != NULL ? value : default_value (&rw_system_table.fields[index]);
}

GVariant *
rw_field_sheet_fallback_value (const RwFieldSheet *sheet, const RwRig *rig, guint line)
{
  const RwField *field = rw_field_sheet_line (sheet, line)->field;
  GVariant *value = system_value (rig, field);

  return value != NULL ? value : default_value (field);
}

char *
rw_field_sheet_fallback (const RwFieldSheet *sheet, const RwRig *rig, guint line)
{
  g_autoptr (GVariant) value = rw_field_sheet_fallback_value (sheet, rig, line);

  return value != NULL ? with_unit (rw_field_sheet_line (sheet, line)->field, value) : g_strdup ("");
}

/* @record as an a{sv} with member @name given @value or taken away; NULL when nothing is left. */
static GVariant *
record_with (gconstpointer record, const RwTable *table, const char *name, GVariant *value)
{
  g_autoptr (GVariantBuilder) builder = g_variant_builder_new (G_VARIANT_TYPE_VARDICT);
  guint n = 0;

  for (guint i = 0; i < table->n_fields; i++)
    {
      gboolean wanted = g_str_equal (table->fields[i].name, name);
      g_autoptr (GVariant) one = !wanted ? rw_record_get (record, table, i)
                               : value != NULL ? g_variant_ref (value) : NULL;
      if (one == NULL)
        continue;
      g_variant_builder_add (builder, "{sv}", table->fields[i].name, one);
      n++;
    }
  return n > 0 ? g_variant_builder_end (builder) : NULL;
}

static gboolean
set_value (RwEdit *edit, const char *key, const RwFieldLine *line, GVariant *value, GError **error)
{
  const RwItem *item = rw_edit_find (edit, key);
  int index = find_like (item, line->parent != NULL ? line->parent : line->field);
  const RwField *own;

  if (index < 0)
    return TRUE;
  if (line->parent == NULL)
    return rw_edit_set (edit, key, index, value, error);
  own = &rw_item_table (item)->fields[index];
  return rw_edit_set (edit, key, index,
                      record_with (RW_FIELD_PTR (item, own), own->sub, line->field->name, value), error);
}

RwChange *
rw_field_sheet_set (const RwFieldSheet *sheet, const RwRig *rig, guint line, GVariant *value, GError **error)
{
  const RwFieldLine *row = rw_field_sheet_line (sheet, line);
  g_autoptr (GVariant) held = value != NULL ? g_variant_ref_sink (value) : NULL;
  g_autofree char *name = NULL;
  g_autoptr (RwEdit) edit = NULL;

  /* Translators: reads after “Undo”; %s is the name of a field, as “Unit ID”. */
  name = g_strdup_printf (_("Set %s"), _(row->field->label));
  edit = rw_edit_new (rig, name);
  for (guint i = 0; sheet->keys[i] != NULL; i++)
    if (rw_edit_find (edit, sheet->keys[i]) != NULL
        && !set_value (edit, sheet->keys[i], row, held, error))
      return NULL;
  return rw_edit_finish (g_steal_pointer (&edit));
}
