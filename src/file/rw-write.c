/* SPDX-License-Identifier: MIT */
#include "rw-file.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-json.h"
#include "rw-save.h"

static void out_record (RwJsonOut *out, gconstpointer record, const RwTable *table);
static void out_state (RwJsonOut *out, RwRig *state);

static void
out_text (RwJsonOut *out, const char *text)
{
  rw_json_out_string (out, text != NULL ? text : "", -1);
}

static void
out_point (RwJsonOut *out, const RwPoint *point)
{
  rw_json_out_open_line (out);
  rw_json_out_element (out);
  rw_json_out_real (out, point->x);
  rw_json_out_element (out);
  rw_json_out_real (out, point->y);
  rw_json_out_close (out, ']');
}

static void
out_points (RwJsonOut *out, const RwPoints *points)
{
  rw_json_out_open (out, '[');
  for (guint i = 0; i < points->n; i++)
    {
      rw_json_out_element (out);
      out_point (out, &points->points[i]);
    }
  rw_json_out_close (out, ']');
}

static void
out_end (RwJsonOut *out, const RwEnd *end)
{
  rw_json_out_open_line (out);
  rw_json_out_element (out);
  out_text (out, end->device);
  rw_json_out_element (out);
  out_text (out, end->port);
  rw_json_out_close (out, ']');
}

/* "[device, number]" and "[kind, number]". */
static void
out_numbered (RwJsonOut *out, const char *what, int number)
{
  rw_json_out_open_line (out);
  rw_json_out_element (out);
  out_text (out, what);
  rw_json_out_element (out);
  rw_json_out_integer (out, number);
  rw_json_out_close (out, ']');
}

static void
out_records (RwJsonOut *out, const RwRecords *records, const RwTable *table)
{
  rw_json_out_open (out, '[');
  for (guint i = 0; i < records->n; i++)
    {
      rw_json_out_element (out);
      out_record (out, (const char *) records->items + i * table->size, table);
    }
  rw_json_out_close (out, ']');
}

static void
out_vlans_of_port (RwJsonOut *out, const RwPortVlans *port)
{
  rw_json_out_name (out, port->port);
  if (!port->tagged)
    {
      rw_json_out_integer (out, port->vlans[0]);
      return;
    }
  rw_json_out_open_line (out);
  for (guint i = 0; i < port->n; i++)
    {
      rw_json_out_element (out);
      rw_json_out_integer (out, port->vlans[i]);
    }
  rw_json_out_close (out, ']');
}

static void
out_vlans (RwJsonOut *out, const RwVlans *vlans)
{
  rw_json_out_open (out, '{');
  for (guint i = 0; i < vlans->n; i++)
    out_vlans_of_port (out, &vlans->ports[i]);
  rw_json_out_close (out, '}');
}

static void
out_field (RwJsonOut *out, const RwField *field, gconstpointer place)
{
  switch (field->kind)
    {
    case RW_FIELD_ID:
    case RW_FIELD_TEXT:
      out_text (out, *(char *const *) place);
      break;
    case RW_FIELD_INTEGER:
      rw_json_out_integer (out, *(const int *) place);
      break;
    case RW_FIELD_REAL:
      rw_json_out_real (out, *(const double *) place);
      break;
    case RW_FIELD_BOOLEAN:
      rw_json_out_boolean (out, *(const gboolean *) place);
      break;
    case RW_FIELD_WORD:
      out_text (out, rw_field_word (field, *(const int *) place));
      break;
    case RW_FIELD_POINT:
      out_point (out, place);
      break;
    case RW_FIELD_POINTS:
      out_points (out, place);
      break;
    case RW_FIELD_END:
      out_end (out, place);
      break;
    case RW_FIELD_SLOT:
      out_numbered (out, ((const RwSlot *) place)->device, ((const RwSlot *) place)->number);
      break;
    case RW_FIELD_PLACE:
      out_numbered (out, rw_field_word (field, ((const RwPlace *) place)->kind), ((const RwPlace *) place)->number);
      break;
    case RW_FIELD_RECORD:
      out_record (out, place, field->sub);
      break;
    case RW_FIELD_RECORDS:
      out_records (out, place, field->sub);
      break;
    case RW_FIELD_VLANS:
      out_vlans (out, place);
      break;
    case RW_FIELD_STATE:
      out_state (out, *(RwRig *const *) place);
      break;
    }
}

/* The rule of presence: what was in the file stays there, what differs from its default must be. */
static gboolean
is_written (gconstpointer record, const RwTable *table, guint field)
{
  return rw_record_has (record, field) || !rw_record_is_default (record, table, field);
}

static void
out_extras (RwJsonOut *out, const RwRecord *record)
{
  for (char **extra = record->extras; extra != NULL && *extra != NULL; extra += 2)
    {
      g_auto (RwJson) json = { 0 };
      rw_json_out_name (out, extra[0]);
      if (rw_json_scan (&json, extra[1], strlen (extra[1]), NULL))
        rw_json_out_token (out, &json, 0);
      else
        g_return_if_reached (); /* only what rw_json_out_token() wrote is kept there */
    }
}

static void
out_record (RwJsonOut *out, gconstpointer record, const RwTable *table)
{
  rw_json_out_open (out, '{');
  for (guint i = 0; i < table->n_fields; i++)
    if (is_written (record, table, i))
      {
        rw_json_out_name (out, table->fields[i].name);
        out_field (out, &table->fields[i], RW_FIELD_PTR (record, &table->fields[i]));
      }
  out_extras (out, record);
  rw_json_out_close (out, '}');
}

/* The show and the system: an object, not a list. */
static void
out_single (RwJsonOut *out, const RwRig *rig, RwItemType type)
{
  RwItem *item = rw_rig_items (rig, type)[0];

  if (rw_item_is_blank (item) && !rw_rig_lists (rig, type))
    return;
  rw_json_out_name (out, rw_item_type_member (type));
  out_record (out, item, rw_item_type_table (type));
}

static void
out_list (RwJsonOut *out, const RwRig *rig, RwItemType type)
{
  guint n = rw_rig_n (rig, type);

  if (n == 0 && !rw_rig_lists (rig, type))
    return;
  rw_json_out_name (out, rw_item_type_member (type));
  rw_json_out_open (out, '[');
  for (guint i = 0; i < n; i++)
    {
      rw_json_out_element (out);
      out_record (out, rw_rig_items (rig, type)[i], rw_item_type_table (type));
    }
  rw_json_out_close (out, ']');
}

static void
out_members (RwJsonOut *out, RwRig *rig, guint n_types)
{
  for (RwItemType type = 0; type < n_types; type++)
    if (type == RW_ITEM_SHOW || type == RW_ITEM_SYSTEM)
      out_single (out, rig, type);
    else
      out_list (out, rig, type);
  out_extras (out, rw_rig_head (rig));
}

static void
out_state (RwJsonOut *out, RwRig *state)
{
  rw_json_out_open (out, '{');
  if (state != NULL)
    out_members (out, state, RW_N_STATE_TYPES);
  rw_json_out_close (out, '}');
}

/**
 * rw_file_write_bytes:
 * @rig: a rig
 *
 * Writes the canonical form: members in the order of the tables, those that nothing knows after them, two
 * spaces a level, one member or element a line, arrays of only numbers and strings (empty ones too) on one
 * line, an empty object as {}, one newline at the end. Reading it and writing again gives the same bytes.
 *
 * Returns: (transfer full): UTF-8 text
 */
GString *
rw_file_write_bytes (RwRig *rig)
{
  RwJsonOut out = { .text = g_string_new (NULL) };

  rw_json_out_open (&out, '{');
  rw_json_out_name (&out, "rigwright");
  rw_json_out_integer (&out, 1);
  out_members (&out, rig, RW_N_ITEM_TYPES);
  rw_json_out_close (&out, '}');
  g_string_append_c (out.text, '\n');
  return out.text;
}

/* Stored states make a file larger and nest deeper than the rig itself: it must not outgrow what is read. */
static gboolean
check_readable (const GString *text, const char *path, GError **error)
{
  g_auto (RwJson) json = { 0 };
  g_autofree char *where = NULL;

  if (rw_json_scan (&json, text->str, text->len, error))
    return TRUE;
  where = g_filename_display_name (path);
  /* Translators: a file; behind it stands the limit that it is over. */
  g_prefix_error (error, _("%s: cannot be saved, since it could not be opened again (delete stored revisions or patch sets): "), where);
  return FALSE;
}

/**
 * rw_file_write:
 * @rig: a rig
 * @path: the file, whether or not it is there
 * @error: RW_FILE_ERROR_IO, or RW_FILE_ERROR_LIMIT where the file could not be opened again
 *
 * Saves a rig as rw_save_bytes() does: after a failure the old file is as it was.
 */
gboolean
rw_file_write (RwRig *rig, const char *path, GError **error)
{
  g_autoptr (GString) text = rw_file_write_bytes (rig);

  return check_readable (text, path, error) && rw_save_bytes (path, text->str, text->len, error);
}

/**
 * rw_file_item_json:
 * @item: an item
 *
 * Returns: (transfer full): the object that the file would hold for it, without white space
 */
char *
rw_file_item_json (const RwItem *item)
{
  RwJsonOut out = { .text = g_string_new (NULL), .compact = TRUE };

  out_record (&out, item, rw_item_table (item));
  return g_string_free (out.text, FALSE);
}

/**
 * rw_file_field_json:
 * @record: a record
 * @table: its table
 * @field: index of a field
 *
 * Returns: (transfer full): the value that the file would hold for it, without white space; "null" where the
 * file would not hold the member
 */
char *
rw_file_field_json (gconstpointer record, const RwTable *table, guint field)
{
  RwJsonOut out = { .text = g_string_new (NULL), .compact = TRUE };

  if (is_written (record, table, field))
    out_field (&out, &table->fields[field], RW_FIELD_PTR (record, &table->fields[field]));
  else
    g_string_append (out.text, "null");
  return g_string_free (out.text, FALSE);
}
