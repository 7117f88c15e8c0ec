/* SPDX-License-Identifier: MIT */
#include "rw-read.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static void
append_path (GString *text, const RwPath *path)
{
  if (path->up != NULL)
    append_path (text, path->up);
  if (path->name == NULL)
    rw_json_path_add_index (text, path->index);
  else if (path->ready)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "." : "", path->name);
  else
    rw_json_path_add_name (text, path->name);
}

/* A message is one line, whatever a name in the file holds. */
static void
flatten (char *text)
{
  for (char *p = text; *p != '\0'; p++)
    if ((guchar) *p < 0x20)
      *p = ' ';
}

/**
 * rw_reader_fail:
 * @reader: a reader whose error is not set
 * @path: (nullable): the value that is wrong, %NULL = the outermost one
 * @format: what would be right; reads on after the path and a colon
 *
 * Returns: %FALSE, with RW_FILE_ERROR_STRUCTURE "FILE: PATH: what would be right"
 */
gboolean
rw_reader_fail (RwReader *reader, const RwPath *path, const char *format, ...)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *what = NULL;
  va_list args;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  if (path != NULL)
    append_path (text, path);
  flatten (what);
  flatten (text->str);
  g_set_error (reader->error, RW_FILE_ERROR, RW_FILE_ERROR_STRUCTURE, "%s%s%s%s%s",
               reader->where != NULL ? reader->where : "", reader->where != NULL ? ": " : "", text->str,
               text->len > 0 ? ": " : "", what);
  return FALSE;
}

/* Both boolean types are called the same. */
static const char *
type_name (RwJsonType type)
{
  static const char *const names[] = {
    [RW_JSON_NULL] = N_("null"),     [RW_JSON_FALSE] = N_("true or false"), [RW_JSON_TRUE] = N_("true or false"),
    [RW_JSON_NUMBER] = N_("a number"), [RW_JSON_STRING] = N_("a string"),     [RW_JSON_ARRAY] = N_("an array"),
    [RW_JSON_OBJECT] = N_("an object"),
  };

  return _(names[type]);
}

static gboolean
is_type (const RwReader *reader, guint token, RwJsonType type)
{
  RwJsonType found = rw_json_type (&reader->json, token);

  return found == type || (type == RW_JSON_TRUE && found == RW_JSON_FALSE);
}

/**
 * rw_reader_expect:
 *
 * Returns: %TRUE where the value is of @type (RW_JSON_TRUE stands for both booleans), else fails
 */
gboolean
rw_reader_expect (RwReader *reader, const RwPath *path, guint token, RwJsonType type)
{
  if (is_type (reader, token, type))
    return TRUE;
  /* Translators: both are kinds of JSON value: “must be a string, not a number”. */
  return rw_reader_fail (reader, path, _("must be %s, not %s"), type_name (type),
                         type_name (rw_json_type (&reader->json, token)));
}

static gboolean
read_text (RwReader *reader, const RwPath *path, guint token, char **text)
{
  if (!rw_reader_expect (reader, path, token, RW_JSON_STRING))
    return FALSE;
  *text = rw_json_dup_text (&reader->json, token);
  return *text != NULL || rw_reader_fail (reader, path, _("must not hold the character U+0000"));
}

static gboolean
read_id (RwReader *reader, const RwPath *path, guint token, char **id)
{
  if (!read_text (reader, path, token, id))
    return FALSE;
  return rw_id_is_valid (*id, -1)
         || rw_reader_fail (reader, path, _("must be an id: 1 to 64 characters from A–Z a–z 0–9 . _ -"));
}

/* What the field's row says of the range, with the path in front. */
static gboolean
check_number (RwReader *reader, const RwPath *path, const RwField *field, double value)
{
  g_autoptr (GError) error = NULL;

  return rw_field_check_number (field, value, &error) || rw_reader_fail (reader, path, "%s", error->message);
}

static gboolean
read_integer (RwReader *reader, const RwPath *path, const RwField *field, guint token, int *integer)
{
  double value;

  if (!rw_reader_expect (reader, path, token, RW_JSON_NUMBER))
    return FALSE;
  if (reader->json.tokens[token].real)
    return rw_reader_fail (reader, path, _("must be a whole number, written without a point or exponent"));
  value = rw_json_real (&reader->json, token);
  if (!check_number (reader, path, field, value))
    return FALSE;
  *integer = (int) value; /* no field's range is wider than an int */
  return TRUE;
}

static gboolean
read_real (RwReader *reader, const RwPath *path, const RwField *field, guint token, double *value)
{
  if (!rw_reader_expect (reader, path, token, RW_JSON_NUMBER))
    return FALSE;
  *value = rw_json_real (&reader->json, token);
  return check_number (reader, path, field, *value);
}

static gboolean
read_boolean (RwReader *reader, const RwPath *path, guint token, gboolean *value)
{
  if (!rw_reader_expect (reader, path, token, RW_JSON_TRUE))
    return FALSE;
  *value = rw_json_type (&reader->json, token) == RW_JSON_TRUE;
  return TRUE;
}

static char *
dup_words (const RwField *field)
{
  GString *list = g_string_new (NULL);

  for (const char *const *word = field->words; *word != NULL; word++)
    g_string_append_printf (list, "%s\"%s\"", word == field->words ? "" : ", ", *word);
  return g_string_free (list, FALSE);
}

static gboolean
read_word (RwReader *reader, const RwPath *path, const RwField *field, guint token, int *index)
{
  g_autofree char *word = NULL;
  g_autofree char *words = NULL;

  if (!read_text (reader, path, token, &word))
    return FALSE;
  *index = rw_field_find_word (field, word, -1);
  if (*index >= 0)
    return TRUE;
  words = dup_words (field);
  /* Translators: a list of words of the file format. */
  return rw_reader_fail (reader, path, _("must be one of %s"), words);
}

/* Checks that the value is an array of two; @what says of which. */
static gboolean
expect_pair (RwReader *reader, const RwPath *path, guint token, const char *what)
{
  return (rw_json_type (&reader->json, token) == RW_JSON_ARRAY && rw_json_count (&reader->json, token) == 2)
         /* Translators: what the elements of an array stand for: “[device, port]”. */
         || rw_reader_fail (reader, path, _("must be an array of two: %s"), _(what));
}

static gboolean
read_point (RwReader *reader, const RwPath *path, const RwField *field, guint token, RwPoint *point)
{
  RwPath x = { path, NULL, 0 }, y = { path, NULL, 1 };

  return expect_pair (reader, path, token, "[x, y]") && read_real (reader, &x, field, token + 1, &point->x)
         && read_real (reader, &y, field, token + 2, &point->y);
}

static gboolean
read_points (RwReader *reader, const RwPath *path, const RwField *field, guint token, RwPoints *points)
{
  const RwJson *json = &reader->json;
  RwPath element = { path, NULL, 0 };

  if (!rw_reader_expect (reader, path, token, RW_JSON_ARRAY))
    return FALSE;
  points->points = g_new0 (RwPoint, rw_json_count (json, token));
  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at))
    {
      element.index = points->n;
      if (!read_point (reader, &element, field, at, &points->points[points->n]))
        return FALSE;
      points->n++;
    }
  return TRUE;
}

static gboolean
read_end (RwReader *reader, const RwPath *path, guint token, RwEnd *end)
{
  RwPath device = { path, NULL, 0 }, port = { path, NULL, 1 };

  return expect_pair (reader, path, token, N_("[device, port]")) && read_id (reader, &device, token + 1, &end->device)
         && read_text (reader, &port, token + 2, &end->port);
}

static gboolean
read_slot (RwReader *reader, const RwPath *path, const RwField *field, guint token, RwSlot *slot)
{
  RwPath device = { path, NULL, 0 }, number = { path, NULL, 1 };

  return expect_pair (reader, path, token, N_("[device, number]"))
         && read_id (reader, &device, token + 1, &slot->device)
         && read_integer (reader, &number, field, token + 2, &slot->number);
}

static gboolean
read_place (RwReader *reader, const RwPath *path, const RwField *field, guint token, RwPlace *place)
{
  RwPath kind = { path, NULL, 0 }, number = { path, NULL, 1 };

  return expect_pair (reader, path, token, N_("[kind, number]"))
         && read_word (reader, &kind, field, token + 1, &place->kind)
         && read_integer (reader, &number, field, token + 2, &place->number);
}

/* So that looking for a port by its name stays cheap whatever a file holds: as many as the counts of a part. */
#define MAX_RECORDS 4096

static gboolean
read_records (RwReader *reader, const RwPath *path, const RwField *field, guint token, RwRecords *records)
{
  const RwJson *json = &reader->json;
  RwPath element = { path, NULL, 0 };
  char *record;

  if (!rw_reader_expect (reader, path, token, RW_JSON_ARRAY))
    return FALSE;
  if (rw_json_count (json, token) > MAX_RECORDS)
    return rw_reader_fail (reader, path, _("must be an array of at most %d"), MAX_RECORDS);
  record = records->items = g_malloc0_n (rw_json_count (json, token), field->sub->size);
  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at))
    {
      rw_record_init (record, field->sub);
      element.index = records->n++;
      if (!rw_reader_record (reader, &element, field->sub, at, record))
        return FALSE;
      record += field->sub->size;
    }
  return TRUE;
}

static gboolean
read_vlan_list (RwReader *reader, const RwPath *path, const RwField *field, guint token, RwPortVlans *port)
{
  const RwJson *json = &reader->json;
  RwPath element = { path, NULL, 0 };
  g_autofree guint8 *seen = g_new0 (guint8, (gsize) field->max + 1);

  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at))
    {
      int *vlan = &port->vlans[port->n];
      element.index = port->n;
      if (!read_integer (reader, &element, field, at, vlan))
        return FALSE;
      if (seen[*vlan]++)
        return rw_reader_fail (reader, &element, _("VLAN %d stands twice; each may stand once"), *vlan);
      port->n++;
    }
  return TRUE;
}

static gboolean
read_vlans_of_port (RwReader *reader, const RwPath *path, const RwField *field, guint token, RwPortVlans *port)
{
  port->tagged = rw_json_type (&reader->json, token) == RW_JSON_ARRAY;
  port->vlans = g_new0 (int, port->tagged ? rw_json_count (&reader->json, token) : 1);
  if (!port->tagged)
    {
      port->n = 1;
      if (rw_json_type (&reader->json, token) == RW_JSON_NUMBER)
        return read_integer (reader, path, field, token, port->vlans);
    }
  else if (rw_json_count (&reader->json, token) > 0)
    return read_vlan_list (reader, path, field, token, port);
  return rw_reader_fail (reader, path, _("must be a VLAN number, or an array of at least one for a tagged trunk"));
}

static gboolean
read_vlans (RwReader *reader, const RwPath *path, const RwField *field, guint token, RwVlans *vlans)
{
  const RwJson *json = &reader->json;
  RwPath member = { path, NULL, 0 };

  if (!rw_reader_expect (reader, path, token, RW_JSON_OBJECT))
    return FALSE;
  vlans->ports = g_new0 (RwPortVlans, rw_json_count (json, token) / 2);
  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at + 1))
    {
      RwPortVlans *port = &vlans->ports[vlans->n++];
      if (!read_text (reader, path, at, &port->port))
        return FALSE;
      member.name = port->port;
      if (!read_vlans_of_port (reader, &member, field, at + 1, port))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_field (RwReader *reader, const RwPath *path, const RwField *field, guint token, gpointer place)
{
  switch (field->kind)
    {
    case RW_FIELD_ID:
      return read_id (reader, path, token, place);
    case RW_FIELD_TEXT:
      return read_text (reader, path, token, place);
    case RW_FIELD_INTEGER:
      return read_integer (reader, path, field, token, place);
    case RW_FIELD_REAL:
      return read_real (reader, path, field, token, place);
    case RW_FIELD_BOOLEAN:
      return read_boolean (reader, path, token, place);
    case RW_FIELD_WORD:
      return read_word (reader, path, field, token, place);
    case RW_FIELD_POINT:
      return read_point (reader, path, field, token, place);
    case RW_FIELD_POINTS:
      return read_points (reader, path, field, token, place);
    case RW_FIELD_END:
      return read_end (reader, path, token, place);
    case RW_FIELD_SLOT:
      return read_slot (reader, path, field, token, place);
    case RW_FIELD_PLACE:
      return read_place (reader, path, field, token, place);
    case RW_FIELD_RECORD:
      return rw_reader_record (reader, path, field->sub, token, place);
    case RW_FIELD_RECORDS:
      return read_records (reader, path, field, token, place);
    case RW_FIELD_VLANS:
      return read_vlans (reader, path, field, token, place);
    case RW_FIELD_STATE:
      *(RwRig **) place = rw_reader_state (reader, path, token);
      return *(RwRig **) place != NULL;
    }
  g_return_val_if_reached (FALSE);
}

/**
 * rw_reader_extra:
 * @path: (nullable): the record
 * @name: token of a member name that nothing knows
 * @extras: (inout): list of such names and their values; made when first needed
 *
 * Keeps the member with its value as compact JSON.
 */
gboolean
rw_reader_extra (RwReader *reader, const RwPath *path, guint name, GPtrArray **extras)
{
  RwJsonOut out = { .compact = TRUE };
  char *text = rw_json_dup_text (&reader->json, name);

  if (text == NULL)
    return rw_reader_fail (reader, path, _("a member name must not hold the character U+0000"));
  if (*extras == NULL)
    *extras = g_ptr_array_new ();
  out.text = g_string_new (NULL);
  rw_json_out_token (&out, &reader->json, name + 1);
  g_ptr_array_add (*extras, text);
  g_ptr_array_add (*extras, g_string_free (out.text, FALSE));
  return TRUE;
}

/* Gives the record what rw_reader_extra() kept; @extras (nullable) is consumed. */
void
rw_reader_take_extras (RwRecord *record, GPtrArray *extras)
{
  if (extras == NULL)
    return;
  g_ptr_array_add (extras, NULL);
  record->extras = (char **) g_ptr_array_free (extras, FALSE);
}

static int
find_field (const RwReader *reader, const RwTable *table, guint name, guint hint)
{
  const RwJsonToken *t = &reader->json.tokens[name];
  g_autofree char *decoded = NULL;

  if (!t->escaped)
    return rw_table_find (table, reader->json.data + t->offset, t->extent, hint);
  decoded = rw_json_dup_text (&reader->json, name);
  return decoded != NULL ? rw_table_find (table, decoded, -1, hint) : -1;
}

static gboolean
check_required (RwReader *reader, const RwPath *path, const RwTable *table, gconstpointer record)
{
  for (guint i = 0; i < table->n_fields; i++)
    if ((table->fields[i].flags & RW_FIELD_REQUIRED) != 0 && !rw_record_has (record, i))
      {
        RwPath member = { path, table->fields[i].name, 0 };
        /* Translators: the name of a kind of thing in the file format: “device”, “patch row”. */
        return rw_reader_fail (reader, &member, _("is missing; every %s must have it"), table->name);
      }
  return TRUE;
}

static gboolean
read_members (RwReader *reader, const RwPath *path, const RwTable *table, guint token, RwRecord *record,
              GPtrArray **extras)
{
  const RwJson *json = &reader->json;
  guint hint = 0;

  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at + 1))
    {
      int field = find_field (reader, table, at, hint);
      if (field < 0)
        {
          if (!rw_reader_extra (reader, path, at, extras))
            return FALSE;
          continue;
        }
      RwPath member = { path, table->fields[field].name, 0 };
      if (!read_field (reader, &member, &table->fields[field], at + 1, RW_FIELD_PTR (record, &table->fields[field])))
        return FALSE;
      record->present |= G_GUINT64_CONSTANT (1) << field;
      hint = (guint) field + 1;
    }
  return TRUE;
}

/**
 * rw_reader_record:
 * @path: (nullable): where it stands
 * @table: its table
 * @token: a value
 * @record: an empty record; after a failure it may be filled in part
 *
 * Reads an object by a table.
 */
gboolean
rw_reader_record (RwReader *reader, const RwPath *path, const RwTable *table, guint token, gpointer record)
{
  GPtrArray *extras = NULL;
  gboolean read;

  if (!rw_reader_expect (reader, path, token, RW_JSON_OBJECT))
    return FALSE;
  read = read_members (reader, path, table, token, record, &extras);
  rw_reader_take_extras (record, extras);
  return read && check_required (reader, path, table, record);
}
