/* SPDX-License-Identifier: MIT */
#include "rw-field.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "rw-error.h"
#include "rw-state.h"

static void
clear_pointer (gpointer place)
{
  g_clear_pointer ((gpointer *) place, g_free);
}

static void
vlans_clear (RwVlans *vlans)
{
  for (guint i = 0; i < vlans->n; i++)
    {
      g_free (vlans->ports[i].port);
      g_free (vlans->ports[i].vlans);
    }
  g_free (vlans->ports);
  *vlans = (RwVlans){ 0 };
}

static void
records_clear (RwRecords *records, const RwTable *table)
{
  for (guint i = 0; i < records->n; i++)
    rw_record_clear ((char *) records->items + i * table->size, table);
  g_free (records->items);
  *records = (RwRecords){ 0 };
}

static void
field_clear (const RwField *field, gpointer place)
{
  switch (field->kind)
    {
    case RW_FIELD_ID:
    case RW_FIELD_TEXT:
      clear_pointer (place);
      break;
    case RW_FIELD_POINTS:
      g_free (((RwPoints *) place)->points);
      *(RwPoints *) place = (RwPoints){ 0 };
      break;
    case RW_FIELD_END:
      g_free (((RwEnd *) place)->device);
      g_free (((RwEnd *) place)->port);
      *(RwEnd *) place = (RwEnd){ 0 };
      break;
    case RW_FIELD_SLOT:
      g_free (((RwSlot *) place)->device);
      *(RwSlot *) place = (RwSlot){ 0 };
      break;
    case RW_FIELD_RECORD:
      rw_record_clear (place, field->sub);
      break;
    case RW_FIELD_RECORDS:
      records_clear (place, field->sub);
      break;
    case RW_FIELD_VLANS:
      vlans_clear (place);
      break;
    case RW_FIELD_STATE:
      g_clear_object ((RwRig **) place);
      break;
    case RW_FIELD_INTEGER:
    case RW_FIELD_REAL:
    case RW_FIELD_BOOLEAN:
    case RW_FIELD_WORD:
    case RW_FIELD_POINT:
    case RW_FIELD_PLACE:
      break;
    }
}

/* Puts what an absent member stands for at @place, which holds nothing that needs freeing. */
static void
field_init (const RwField *field, gpointer place)
{
  switch (field->kind)
    {
    case RW_FIELD_INTEGER:
    case RW_FIELD_BOOLEAN:
      *(int *) place = (int) field->def;
      break;
    case RW_FIELD_REAL:
      *(double *) place = field->def;
      break;
    case RW_FIELD_WORD:
      *(int *) place = field->has_def ? (int) field->def : -1;
      break;
    case RW_FIELD_RECORD:
      rw_record_init (place, field->sub);
      break;
    case RW_FIELD_POINT:
      *(RwPoint *) place = (RwPoint){ 0 };
      break;
    case RW_FIELD_PLACE:
      *(RwPlace *) place = (RwPlace){ 0 };
      break;
    case RW_FIELD_ID:
    case RW_FIELD_TEXT:
    case RW_FIELD_POINTS:
    case RW_FIELD_END:
    case RW_FIELD_SLOT:
    case RW_FIELD_RECORDS:
    case RW_FIELD_VLANS:
    case RW_FIELD_STATE:
      break;
    }
}

/**
 * rw_record_init:
 * @record: zeroed memory of @table's size
 * @table: its table
 *
 * Makes @record an empty one: every field absent and at its default.
 */
void
rw_record_init (gpointer record, const RwTable *table)
{
  ((RwRecord *) record)->present = 0;
  ((RwRecord *) record)->extras = NULL;
  for (guint i = 0; i < table->n_fields; i++)
    field_init (&table->fields[i], RW_FIELD_PTR (record, &table->fields[i]));
}

/**
 * rw_record_clear:
 * @record: a record
 * @table: its table
 *
 * Frees what the fields own; the memory of the record itself stays the caller's.
 */
void
rw_record_clear (gpointer record, const RwTable *table)
{
  for (guint i = 0; i < table->n_fields; i++)
    field_clear (&table->fields[i], RW_FIELD_PTR (record, &table->fields[i]));
  g_clear_pointer (&((RwRecord *) record)->extras, g_strfreev);
}

static void
vlans_copy (RwVlans *to, const RwVlans *from)
{
  to->n = from->n;
  to->ports = g_new0 (RwPortVlans, from->n);
  for (guint i = 0; i < from->n; i++)
    {
      to->ports[i] = from->ports[i];
      to->ports[i].port = g_strdup (from->ports[i].port);
      to->ports[i].vlans = g_memdup2 (from->ports[i].vlans, from->ports[i].n * sizeof (int));
    }
}

static void
records_copy (RwRecords *to, const RwRecords *from, const RwTable *table)
{
  to->n = from->n;
  to->items = g_malloc0_n (from->n, table->size);
  for (guint i = 0; i < from->n; i++)
    rw_record_copy ((char *) to->items + i * table->size, (const char *) from->items + i * table->size, table);
}

static void
field_copy (const RwField *field, gpointer to, gconstpointer from)
{
  switch (field->kind)
    {
    case RW_FIELD_ID:
    case RW_FIELD_TEXT:
      *(char **) to = g_strdup (*(char *const *) from);
      break;
    case RW_FIELD_INTEGER:
    case RW_FIELD_BOOLEAN:
    case RW_FIELD_WORD:
      *(int *) to = *(const int *) from;
      break;
    case RW_FIELD_REAL:
      *(double *) to = *(const double *) from;
      break;
    case RW_FIELD_POINT:
      *(RwPoint *) to = *(const RwPoint *) from;
      break;
    case RW_FIELD_PLACE:
      *(RwPlace *) to = *(const RwPlace *) from;
      break;
    case RW_FIELD_POINTS:
      ((RwPoints *) to)->n = ((const RwPoints *) from)->n;
      ((RwPoints *) to)->points = g_memdup2 (((const RwPoints *) from)->points,
                                             ((const RwPoints *) from)->n * sizeof (RwPoint));
      break;
    case RW_FIELD_END:
      ((RwEnd *) to)->device = g_strdup (((const RwEnd *) from)->device);
      ((RwEnd *) to)->port = g_strdup (((const RwEnd *) from)->port);
      break;
    case RW_FIELD_SLOT:
      ((RwSlot *) to)->device = g_strdup (((const RwSlot *) from)->device);
      ((RwSlot *) to)->number = ((const RwSlot *) from)->number;
      break;
    case RW_FIELD_RECORD:
      rw_record_copy (to, from, field->sub);
      break;
    case RW_FIELD_RECORDS:
      records_copy (to, from, field->sub);
      break;
    case RW_FIELD_VLANS:
      vlans_copy (to, from);
      break;
    case RW_FIELD_STATE:
      g_set_object ((RwRig **) to, *(RwRig *const *) from);
      break;
    }
}

/**
 * rw_record_copy:
 * @to: memory of @table's size that holds nothing that needs freeing
 * @from: a record
 * @table: their table
 *
 * Makes @to a deep copy of @from.
 */
void
rw_record_copy (gpointer to, gconstpointer from, const RwTable *table)
{
  ((RwRecord *) to)->present = ((const RwRecord *) from)->present;
  ((RwRecord *) to)->extras = g_strdupv (((const RwRecord *) from)->extras);
  for (guint i = 0; i < table->n_fields; i++)
    field_copy (&table->fields[i], RW_FIELD_PTR (to, &table->fields[i]), RW_FIELD_PTR (from, &table->fields[i]));
}

static gboolean
vlans_equal (const RwVlans *a, const RwVlans *b)
{
  if (a->n != b->n)
    return FALSE;
  for (guint i = 0; i < a->n; i++)
    {
      const RwPortVlans *p = &a->ports[i], *q = &b->ports[i];
      if (g_strcmp0 (p->port, q->port) != 0 || p->tagged != q->tagged || p->n != q->n
          || memcmp (p->vlans, q->vlans, p->n * sizeof (int)) != 0)
        return FALSE;
    }
  return TRUE;
}

static gboolean
points_equal (const RwPoints *a, const RwPoints *b)
{
  if (a->n != b->n)
    return FALSE;
  for (guint i = 0; i < a->n; i++)
    if (a->points[i].x != b->points[i].x || a->points[i].y != b->points[i].y)
      return FALSE;
  return TRUE;
}

static gboolean
records_equal (const RwRecords *a, const RwRecords *b, const RwTable *table)
{
  if (a->n != b->n)
    return FALSE;
  for (guint i = 0; i < a->n; i++)
    if (!rw_record_equal ((const char *) a->items + i * table->size, (const char *) b->items + i * table->size,
                          table))
      return FALSE;
  return TRUE;
}

static gboolean
field_equal (const RwField *field, gconstpointer a, gconstpointer b)
{
  switch (field->kind)
    {
    case RW_FIELD_ID:
    case RW_FIELD_TEXT:
      return g_strcmp0 (*(char *const *) a, *(char *const *) b) == 0;
    case RW_FIELD_INTEGER:
    case RW_FIELD_BOOLEAN:
    case RW_FIELD_WORD:
      return *(const int *) a == *(const int *) b;
    case RW_FIELD_REAL:
      return *(const double *) a == *(const double *) b;
    case RW_FIELD_POINT:
      return ((const RwPoint *) a)->x == ((const RwPoint *) b)->x && ((const RwPoint *) a)->y == ((const RwPoint *) b)->y;
    case RW_FIELD_PLACE:
      return ((const RwPlace *) a)->kind == ((const RwPlace *) b)->kind
             && ((const RwPlace *) a)->number == ((const RwPlace *) b)->number;
    case RW_FIELD_POINTS:
      return points_equal (a, b);
    case RW_FIELD_END:
      return g_strcmp0 (((const RwEnd *) a)->device, ((const RwEnd *) b)->device) == 0
             && g_strcmp0 (((const RwEnd *) a)->port, ((const RwEnd *) b)->port) == 0;
    case RW_FIELD_SLOT:
      return g_strcmp0 (((const RwSlot *) a)->device, ((const RwSlot *) b)->device) == 0
             && ((const RwSlot *) a)->number == ((const RwSlot *) b)->number;
    case RW_FIELD_RECORD:
      return rw_record_equal (a, b, field->sub);
    case RW_FIELD_RECORDS:
      return records_equal (a, b, field->sub);
    case RW_FIELD_VLANS:
      return vlans_equal (a, b);
    case RW_FIELD_STATE:
      return rw_state_equal (*(RwRig *const *) a, *(RwRig *const *) b);
    }
  g_return_val_if_reached (FALSE);
}

static gboolean
extras_equal (char *const *a, char *const *b)
{
  if (a == NULL || b == NULL)
    return (a == NULL || *a == NULL) && (b == NULL || *b == NULL);
  return g_strv_equal ((const char *const *) a, (const char *const *) b);
}

/**
 * rw_record_equal:
 * @a: a record
 * @b: a record of the same table
 * @table: their table
 *
 * Returns: %TRUE where a file would hold the same bytes for both
 */
gboolean
rw_record_equal (gconstpointer a, gconstpointer b, const RwTable *table)
{
  if (((const RwRecord *) a)->present != ((const RwRecord *) b)->present
      || !extras_equal (((const RwRecord *) a)->extras, ((const RwRecord *) b)->extras))
    return FALSE;
  for (guint i = 0; i < table->n_fields; i++)
    if (!field_equal (&table->fields[i], RW_FIELD_PTR (a, &table->fields[i]), RW_FIELD_PTR (b, &table->fields[i])))
      return FALSE;
  return TRUE;
}

/**
 * rw_record_unset:
 * @record: a record that nobody else holds yet
 * @table: its table
 * @field: index of a field
 *
 * Makes the field absent: back to its default.
 */
void
rw_record_unset (gpointer record, const RwTable *table, guint field)
{
  gpointer place = RW_FIELD_PTR (record, &table->fields[field]);

  field_clear (&table->fields[field], place);
  field_init (&table->fields[field], place);
  ((RwRecord *) record)->present &= ~(G_GUINT64_CONSTANT (1) << field);
}

/**
 * rw_record_is_default:
 *
 * Returns: %TRUE where the field's value is what an absent member stands for
 */
gboolean
rw_record_is_default (gconstpointer record, const RwTable *table, guint field)
{
  const RwField *f = &table->fields[field];
  union { RwEnd end; RwSlot slot; RwPlace place; RwPoint point; RwPoints points; RwVlans vlans; RwRecords records;
          double real; int integer; char *text; RwRig *state; } blank = { 0 };
  gpointer sub;
  gboolean equal;

  if (f->kind != RW_FIELD_RECORD)
    {
      field_init (f, &blank);
      return field_equal (f, RW_FIELD_PTR (record, f), &blank);
    }
  sub = g_malloc0 (f->sub->size);
  rw_record_init (sub, f->sub);
  equal = rw_record_equal (RW_FIELD_PTR (record, f), sub, f->sub);
  g_free (sub);
  return equal;
}

/**
 * rw_record_add_extra:
 * @record: a record that nobody else holds yet
 * @name: name of a member that the table does not know
 * @json: its value as canonical compact JSON
 *
 * Keeps an unknown member, after those already kept.
 */
void
rw_record_add_extra (gpointer record, const char *name, const char *json)
{
  RwRecord *r = record;
  guint n = r->extras != NULL ? g_strv_length (r->extras) : 0;

  r->extras = g_renew (char *, r->extras, n + 3);
  r->extras[n] = g_strdup (name);
  r->extras[n + 1] = g_strdup (json);
  r->extras[n + 2] = NULL;
}

/**
 * rw_table_find:
 * @table: a table
 * @name: name of a member, not ended by NUL where @length is given
 * @length: bytes of @name, or -1
 * @hint: index of the field that is likely the one; any number will do
 *
 * Returns: index of the field, -1 = unknown
 */
int
rw_table_find (const RwTable *table, const char *name, gssize length, guint hint)
{
  gsize n = length < 0 ? strlen (name) : (gsize) length;

  for (guint i = 0; i < table->n_fields; i++)
    {
      guint at = (hint + i) % table->n_fields;
      const char *candidate = table->fields[at].name;
      if (strncmp (candidate, name, n) == 0 && candidate[n] == '\0')
        return (int) at;
    }
  return -1;
}

/**
 * rw_field_word:
 * @field: a field with words
 * @index: which; -1 = absent
 *
 * Returns: (nullable): the word as the file holds it
 */
const char *
rw_field_word (const RwField *field, int index)
{
  return index < 0 ? NULL : field->words[index];
}

int
rw_field_find_word (const RwField *field, const char *word, gssize length)
{
  gsize n = length < 0 ? strlen (word) : (gsize) length;

  for (int i = 0; field->words[i] != NULL; i++)
    if (strncmp (field->words[i], word, n) == 0 && field->words[i][n] == '\0')
      return i;
  return -1;
}

static char *
allowed_list (const int *allowed)
{
  GString *list = g_string_new (NULL);

  for (const int *a = allowed; *a != 0; a++)
    g_string_append_printf (list, "%s%d", a == allowed ? "" : a[1] == 0 ? " or " : ", ", *a);
  return g_string_free (list, FALSE);
}

static gboolean
is_allowed (const int *allowed, double value)
{
  for (const int *a = allowed; *a != 0; a++)
    if (*a == value)
      return TRUE;
  return FALSE;
}

/**
 * rw_field_check_number:
 * @field: a field of numbers
 * @value: a number in the field's unit
 * @error: RW_RIG_ERROR_RANGE says what would be right
 *
 * Returns: %TRUE where the field may hold @value
 */
gboolean
rw_field_check_number (const RwField *field, double value, GError **error)
{
  if (field->allowed != NULL && !is_allowed (field->allowed, value))
    {
      g_autofree char *list = allowed_list (field->allowed);
      /* Translators: %s is a list of numbers */
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("must be %s"), list);
      return FALSE;
    }
  if (field->allowed == NULL && !(value >= field->min && value <= field->max))
    {
      /* Translators: the least and the greatest number */
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("must be from %.10g to %.10g"), field->min, field->max);
      return FALSE;
    }
  if (field->step > 1 && fmod (value, field->step) != 0)
    {
      /* Translators: %d is a number */
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("must be a multiple of %d"), field->step);
      return FALSE;
    }
  return TRUE;
}

/**
 * rw_id_is_valid:
 * @id: text, not ended by NUL where @length is given
 * @length: bytes, or -1
 *
 * Returns: %TRUE for 1 to 64 characters of A-Z a-z 0-9 . _ -
 */
gboolean
rw_id_is_valid (const char *id, gssize length)
{
  gsize n = length < 0 ? strlen (id) : (gsize) length;

  if (n < 1 || n > 64)
    return FALSE;
  for (gsize i = 0; i < n; i++)
    if (!g_ascii_isalnum (id[i]) && strchr ("._-", id[i]) == NULL)
      return FALSE;
  return memchr (id, '\0', n) == NULL;
}
