/* SPDX-License-Identifier: MIT */
#include "rw-field.h"

#include <string.h>

#include "rw-error.h"
#include "rw-state.h"

static GVariant *
points_get (const RwPoints *points)
{
  GVariantBuilder builder;

  g_variant_builder_init (&builder, G_VARIANT_TYPE ("a(dd)"));
  for (guint i = 0; i < points->n; i++)
    g_variant_builder_add (&builder, "(dd)", points->points[i].x, points->points[i].y);
  return g_variant_builder_end (&builder);
}

/**
 * rw_record_get_all:
 *
 * Returns: (transfer none): floating a{sv} of every field that is there; unknown members are left out
 */
GVariant *
rw_record_get_all (gconstpointer record, const RwTable *table)
{
  GVariantBuilder builder;

  g_variant_builder_init (&builder, G_VARIANT_TYPE_VARDICT);
  for (guint i = 0; i < table->n_fields; i++)
    {
      g_autoptr (GVariant) value = rw_record_get (record, table, i);
      if (value != NULL)
        g_variant_builder_add (&builder, "{sv}", table->fields[i].name, value);
    }
  return g_variant_builder_end (&builder);
}

static GVariant *
records_get (const RwRecords *records, const RwTable *table)
{
  GVariantBuilder builder;

  g_variant_builder_init (&builder, G_VARIANT_TYPE ("aa{sv}"));
  for (guint i = 0; i < records->n; i++)
    g_variant_builder_add_value (&builder, rw_record_get_all ((const char *) records->items + i * table->size, table));
  return g_variant_builder_end (&builder);
}

static GVariant *
vlans_get (const RwVlans *vlans)
{
  GVariantBuilder builder;

  g_variant_builder_init (&builder, G_VARIANT_TYPE_VARDICT);
  for (guint i = 0; i < vlans->n; i++)
    {
      const RwPortVlans *p = &vlans->ports[i];
      GVariant *value = p->tagged ? g_variant_new_fixed_array (G_VARIANT_TYPE_INT32, p->vlans, p->n, sizeof (int))
                                  : g_variant_new_int32 (p->vlans[0]);
      g_variant_builder_add (&builder, "{sv}", p->port, value);
    }
  return g_variant_builder_end (&builder);
}

static GVariant *
value_get (const RwField *field, gconstpointer place)
{
  switch (field->kind)
    {
    case RW_FIELD_ID:
    case RW_FIELD_TEXT:
      return g_variant_new_string (*(char *const *) place != NULL ? *(char *const *) place : "");
    case RW_FIELD_INTEGER:
      return g_variant_new_int32 (*(const int *) place);
    case RW_FIELD_REAL:
      return g_variant_new_double (*(const double *) place);
    case RW_FIELD_BOOLEAN:
      return g_variant_new_boolean (*(const int *) place);
    case RW_FIELD_WORD:
      return g_variant_new_string (rw_field_word (field, *(const int *) place));
    case RW_FIELD_POINT:
      return g_variant_new ("(dd)", ((const RwPoint *) place)->x, ((const RwPoint *) place)->y);
    case RW_FIELD_POINTS:
      return points_get (place);
    case RW_FIELD_END:
      return g_variant_new ("(ss)", ((const RwEnd *) place)->device, ((const RwEnd *) place)->port);
    case RW_FIELD_SLOT:
      return g_variant_new ("(si)", ((const RwSlot *) place)->device, ((const RwSlot *) place)->number);
    case RW_FIELD_PLACE:
      return g_variant_new ("(si)", rw_field_word (field, ((const RwPlace *) place)->kind),
                            ((const RwPlace *) place)->number);
    case RW_FIELD_RECORD:
      return rw_record_get_all (place, field->sub);
    case RW_FIELD_RECORDS:
      return records_get (place, field->sub);
    case RW_FIELD_VLANS:
      return vlans_get (place);
    case RW_FIELD_STATE:
      return rw_state_get (*(RwRig *const *) place);
    }
  g_return_val_if_reached (NULL);
}

/**
 * rw_record_get:
 * @record: a record
 * @table: its table
 * @field: index of a field
 *
 * Returns: (transfer full) (nullable): the value, of the type that #RwFieldKind names; %NULL = absent
 */
GVariant *
rw_record_get (gconstpointer record, const RwTable *table, guint field)
{
  g_return_val_if_fail (field < table->n_fields, NULL);

  if (!rw_record_has (record, field))
    return NULL;
  return g_variant_ref_sink (value_get (&table->fields[field], RW_FIELD_PTR (record, &table->fields[field])));
}

static const char *
value_type (const RwField *field)
{
  static const char *const types[] = {
    [RW_FIELD_ID] = "s",      [RW_FIELD_TEXT] = "s",       [RW_FIELD_INTEGER] = "i",  [RW_FIELD_REAL] = "d",
    [RW_FIELD_BOOLEAN] = "b", [RW_FIELD_WORD] = "s",       [RW_FIELD_POINT] = "(dd)", [RW_FIELD_POINTS] = "a(dd)",
    [RW_FIELD_END] = "(ss)",  [RW_FIELD_SLOT] = "(si)",    [RW_FIELD_PLACE] = "(si)", [RW_FIELD_RECORD] = "a{sv}",
    [RW_FIELD_RECORDS] = "aa{sv}", [RW_FIELD_VLANS] = "a{sv}",
    [RW_FIELD_STATE] = "a{sv}",
  };

  return types[field->kind];
}

static gboolean
word_set (const RwField *field, int *place, const char *word, GError **error)
{
  int index = rw_field_find_word (field, word, -1);

  if (index < 0)
    {
      g_autofree char *list = g_strjoinv (", ", (char **) field->words);
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, "must be one of %s", list);
      return FALSE;
    }
  *place = index;
  return TRUE;
}

static gboolean
id_check (const char *id, GError **error)
{
  if (rw_id_is_valid (id, -1))
    return TRUE;
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_ID, "must be 1 to 64 characters from A-Z a-z 0-9 . _ -");
  return FALSE;
}

static gboolean
points_set (const RwField *field, RwPoints *points, GVariant *value, GError **error)
{
  gsize n = g_variant_n_children (value);

  points->points = g_new0 (RwPoint, n);
  points->n = (guint) n;
  for (guint i = 0; i < n; i++)
    {
      RwPoint *p = &points->points[i];
      g_variant_get_child (value, i, "(dd)", &p->x, &p->y);
      if (!rw_field_check_number (field, p->x, error) || !rw_field_check_number (field, p->y, error))
        return FALSE;
    }
  return TRUE;
}

/**
 * rw_record_set_all:
 * @record: a record that nobody else holds yet
 * @table: its table
 * @dict: a{sv} as rw_record_get_all() gives it
 * @error: as rw_record_set()
 */
gboolean
rw_record_set_all (gpointer record, const RwTable *table, GVariant *dict, GError **error)
{
  GVariantIter iter;
  const char *name;
  GVariant *value;

  g_variant_iter_init (&iter, dict);
  while (g_variant_iter_next (&iter, "{&sv}", &name, &value))
    {
      g_autoptr (GVariant) owned = value;
      int field = rw_table_find (table, name, -1, 0);
      if (field < 0)
        {
          g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, "a %s has no “%s”", table->name, name);
          return FALSE;
        }
      if (!rw_record_set (record, table, (guint) field, owned, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
records_set (const RwField *field, RwRecords *records, GVariant *value, GError **error)
{
  gsize n = g_variant_n_children (value);

  records->items = g_malloc0_n (n, field->sub->size);
  records->n = (guint) n;
  for (guint i = 0; i < n; i++)
    rw_record_init ((char *) records->items + i * field->sub->size, field->sub);
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GVariant) child = g_variant_get_child_value (value, i);
      if (!rw_record_set_all ((char *) records->items + i * field->sub->size, field->sub, child, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
vlan_list_set (const RwField *field, RwPortVlans *port, GVariant *value, GError **error)
{
  gsize n = 1;
  int single;
  const int *numbers = &single;

  port->tagged = g_variant_is_of_type (value, G_VARIANT_TYPE ("ai"));
  if (port->tagged)
    numbers = g_variant_get_fixed_array (value, &n, sizeof (int));
  else if (g_variant_is_of_type (value, G_VARIANT_TYPE_INT32))
    single = g_variant_get_int32 (value);
  else
    n = 0;
  if (n == 0)
    {
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, "must be a VLAN or a list of at least one");
      return FALSE;
    }
  port->n = (guint) n;
  port->vlans = g_memdup2 (numbers, n * sizeof (int));
  for (guint i = 0; i < n; i++)
    {
      if (!rw_field_check_number (field, port->vlans[i], error))
        return FALSE;
      for (guint j = 0; j < i; j++)
        if (port->vlans[i] == port->vlans[j])
          {
            g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, "names VLAN %d twice", port->vlans[i]);
            return FALSE;
          }
    }
  return TRUE;
}

static gboolean
vlans_set (const RwField *field, RwVlans *vlans, GVariant *value, GError **error)
{
  GVariantIter iter;
  char *port;
  GVariant *list;

  vlans->ports = g_new0 (RwPortVlans, g_variant_n_children (value));
  g_variant_iter_init (&iter, value);
  while (g_variant_iter_next (&iter, "{sv}", &port, &list))
    {
      g_autoptr (GVariant) owned = list;
      vlans->ports[vlans->n].port = port;
      vlans->n++;
      if (!vlan_list_set (field, &vlans->ports[vlans->n - 1], owned, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
end_set (RwEnd *end, GVariant *value, GError **error)
{
  g_variant_get (value, "(ss)", &end->device, &end->port);
  return id_check (end->device, error);
}

static gboolean
slot_set (const RwField *field, RwSlot *slot, GVariant *value, GError **error)
{
  g_variant_get (value, "(si)", &slot->device, &slot->number);
  return id_check (slot->device, error) && rw_field_check_number (field, slot->number, error);
}

static gboolean
place_set (const RwField *field, RwPlace *p, GVariant *value, GError **error)
{
  const char *word;

  g_variant_get (value, "(&si)", &word, &p->number);
  return word_set (field, &p->kind, word, error) && rw_field_check_number (field, p->number, error);
}

static gboolean
point_set (const RwField *field, RwPoint *p, GVariant *value, GError **error)
{
  g_variant_get (value, "(dd)", &p->x, &p->y);
  return rw_field_check_number (field, p->x, error) && rw_field_check_number (field, p->y, error);
}

/* @place is at the field's default and owns nothing. */
static gboolean
value_set (const RwField *field, gpointer place, GVariant *value, GError **error)
{
  switch (field->kind)
    {
    case RW_FIELD_ID:
      *(char **) place = g_variant_dup_string (value, NULL);
      return id_check (*(char **) place, error);
    case RW_FIELD_TEXT:
      *(char **) place = g_variant_dup_string (value, NULL);
      return TRUE;
    case RW_FIELD_INTEGER:
      *(int *) place = g_variant_get_int32 (value);
      return rw_field_check_number (field, *(int *) place, error);
    case RW_FIELD_REAL:
      *(double *) place = g_variant_get_double (value);
      return rw_field_check_number (field, *(double *) place, error);
    case RW_FIELD_BOOLEAN:
      *(int *) place = g_variant_get_boolean (value);
      return TRUE;
    case RW_FIELD_WORD:
      return word_set (field, place, g_variant_get_string (value, NULL), error);
    case RW_FIELD_POINT:
      return point_set (field, place, value, error);
    case RW_FIELD_POINTS:
      return points_set (field, place, value, error);
    case RW_FIELD_END:
      return end_set (place, value, error);
    case RW_FIELD_SLOT:
      return slot_set (field, place, value, error);
    case RW_FIELD_PLACE:
      return place_set (field, place, value, error);
    case RW_FIELD_RECORD:
      return rw_record_set_all (place, field->sub, value, error);
    case RW_FIELD_RECORDS:
      return records_set (field, place, value, error);
    case RW_FIELD_VLANS:
      return vlans_set (field, place, value, error);
    case RW_FIELD_STATE:
      *(RwRig **) place = rw_state_new_from_variant (value, error);
      return *(RwRig **) place != NULL;
    }
  g_return_val_if_reached (FALSE);
}

/**
 * rw_record_set:
 * @record: a record that nobody else holds yet
 * @table: its table
 * @field: index of a field
 * @value: the new value, of the type that #RwFieldKind names; a floating reference is consumed
 * @error: RW_RIG_ERROR_TYPE, _RANGE or _ID; the message names the field and what would be right
 *
 * Returns: %FALSE where the value was refused; the field is then absent
 */
gboolean
rw_record_set (gpointer record, const RwTable *table, guint field, GVariant *value, GError **error)
{
  const RwField *f = &table->fields[field];
  g_autoptr (GVariant) owned = g_variant_ref_sink (value);

  g_return_val_if_fail (field < table->n_fields, FALSE);

  rw_record_unset (record, table, field);
  if (!g_variant_is_of_type (owned, G_VARIANT_TYPE (value_type (f))))
    {
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, "%s: wrong type of value", f->name);
      return FALSE;
    }
  if (!value_set (f, RW_FIELD_PTR (record, f), owned, error))
    {
      g_prefix_error (error, "%s: ", f->name);
      rw_record_unset (record, table, field);
      return FALSE;
    }
  ((RwRecord *) record)->present |= G_GUINT64_CONSTANT (1) << field;
  return TRUE;
}
