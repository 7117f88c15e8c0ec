/* SPDX-License-Identifier: MIT */
/*
 * The text of a crash journal. The first line says what the changes begin from:
 *   {"journal":1,"document":PATH or null,"base":SHA-256 of that file or null}
 * each further line is one change, its entries in order:
 *   {"name":TEXT,"entries":[{"type":"devices","key":KEY,"after":ITEM or null,"place":KEY or null}…]}
 * What an entry's item was before is not there: replaying finds it in the rig. Paths are URIs, since a path
 * need not be UTF-8.
 */
#include "rw-journal-line.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-read.h"

/**
 * rw_journal_line_digest:
 * @document: (nullable): absolute path of a file
 *
 * Returns: (transfer full) (nullable): SHA-256 of its content; %NULL where there is none
 */
char *
rw_journal_line_digest (const char *document)
{
  g_autofree char *text = NULL;
  gsize length;

  if (document == NULL || !g_file_get_contents (document, &text, &length, NULL))
    return NULL;
  return g_compute_checksum_for_data (G_CHECKSUM_SHA256, (const guchar *) text, length);
}

static void
out_text_or_null (RwJsonOut *out, const char *name, const char *text)
{
  rw_json_out_name (out, name);
  if (text != NULL)
    rw_json_out_string (out, text, -1);
  else
    g_string_append (out->text, "null");
}

/**
 * rw_journal_line_head:
 * @document: (nullable): absolute path of the rig's file
 * @base: (nullable): its digest
 *
 * Returns: (transfer full): the first line of a journal, without its end
 */
GString *
rw_journal_line_head (const char *document, const char *base)
{
  RwJsonOut out = { .text = g_string_new (NULL), .compact = TRUE };
  g_autofree char *uri = document != NULL ? g_filename_to_uri (document, NULL, NULL) : NULL;

  rw_json_out_open (&out, '{');
  rw_json_out_name (&out, "journal");
  rw_json_out_integer (&out, 1);
  out_text_or_null (&out, "document", uri);
  out_text_or_null (&out, "base", base);
  rw_json_out_close (&out, '}');
  return out.text;
}

/* The text of a member of @object; NULL = there is none, or it is no string. */
static char *
dup_member (const RwJson *json, guint object, const char *name)
{
  guint value = rw_json_member (json, object, name);

  return value != 0 && rw_json_type (json, value) == RW_JSON_STRING ? rw_json_dup_text (json, value) : NULL;
}

static gboolean
refuse (GError **error, const char *what)
{
  g_set_error_literal (error, RW_FILE_ERROR, RW_FILE_ERROR_STRUCTURE, what);
  return FALSE;
}

/**
 * rw_journal_line_parse_head:
 * @text: a journal
 * @where: names it in messages
 * @document: (out) (nullable): absolute path of the rig's file
 * @base: (out) (nullable): digest of that file when the journal was begun
 * @error: of RW_FILE_ERROR
 */
gboolean
rw_journal_line_parse_head (const char *text, const char *where, char **document, char **base, GError **error)
{
  g_auto (RwJson) json = { 0 };
  g_autofree char *uri = NULL;
  gboolean read;

  read = rw_json_scan (&json, text, strcspn (text, "\n"), error)
         && ((rw_json_type (&json, 0) == RW_JSON_OBJECT && rw_json_member (&json, 0, "journal") != 0)
             || refuse (error, _("this is no crash journal")));
  if (!read)
    {
      g_prefix_error (error, "%s: ", where);
      return FALSE;
    }
  uri = dup_member (&json, 0, "document");
  *document = uri != NULL ? g_filename_from_uri (uri, NULL, NULL) : NULL;
  *base = dup_member (&json, 0, "base");
  return TRUE;
}

static void
out_entry (RwJsonOut *out, const RwChangeEntry *entry)
{
  g_autofree char *after = entry->after != NULL ? rw_file_item_json (entry->after) : NULL;

  rw_json_out_element (out);
  rw_json_out_open (out, '{');
  out_text_or_null (out, "type", rw_item_type_member (entry->type));
  out_text_or_null (out, "key", entry->key);
  rw_json_out_name (out, "after");
  g_string_append (out->text, after != NULL ? after : "null");
  out_text_or_null (out, "place", entry->after_place);
  rw_json_out_close (out, '}');
}

/**
 * rw_journal_line_change:
 *
 * Returns: (transfer full): the line for a change, without its end
 */
GString *
rw_journal_line_change (const RwChange *change)
{
  RwJsonOut out = { .text = g_string_new (NULL), .compact = TRUE };

  rw_json_out_open (&out, '{');
  out_text_or_null (&out, "name", change->name);
  rw_json_out_name (&out, "entries");
  rw_json_out_open (&out, '[');
  for (guint i = 0; i < rw_change_n (change); i++)
    out_entry (&out, rw_change_entry (change, i));
  rw_json_out_close (&out, ']');
  rw_json_out_close (&out, '}');
  return out.text;
}

static int
find_type (const char *member)
{
  for (RwItemType type = 0; member != NULL && type < RW_N_ITEM_TYPES; type++)
    if (strcmp (member, rw_item_type_member (type)) == 0)
      return (int) type;
  return -1;
}

/* Reads the item of an entry; *item stays NULL where the entry takes it away. */
static gboolean
parse_after (RwReader *reader, guint entry, RwItemType type, RwItem **item)
{
  guint value = rw_json_member (&reader->json, entry, "after");

  if (value == 0)
    return refuse (reader->error, _("an entry has no “after”"));
  if (rw_json_type (&reader->json, value) == RW_JSON_NULL)
    return TRUE;
  *item = rw_item_new (type);
  if (!rw_reader_record (reader, NULL, rw_item_type_table (type), value, *item))
    return FALSE;
  rw_item_seal (*item);
  return TRUE;
}

static gboolean
parse_entry (RwReader *reader, guint entry, const RwRig *rig, RwChange *change)
{
  g_autofree char *member = NULL;
  g_autofree char *key = NULL;
  g_autofree char *place = NULL;
  g_autoptr (RwItem) after = NULL;
  int type;

  if (rw_json_type (&reader->json, entry) != RW_JSON_OBJECT)
    return refuse (reader->error, _("an entry must be an object"));
  member = dup_member (&reader->json, entry, "type");
  key = dup_member (&reader->json, entry, "key");
  place = dup_member (&reader->json, entry, "place");
  type = find_type (member);
  if (type < 0 || key == NULL)
    return refuse (reader->error, _("an entry has no type or key"));
  if (!parse_after (reader, entry, (RwItemType) type, &after))
    return FALSE;
  if (after != NULL && strcmp (after->key, key) != 0)
    return refuse (reader->error, _("an entry's item has another key than the entry"));
  rw_change_add (change, (RwItemType) type, key, rw_rig_find (rig, key), rw_rig_place (rig, key), after, place);
  return TRUE;
}

static RwChange *
parse_change (RwReader *reader, const RwRig *rig)
{
  const RwJson *json = &reader->json;
  g_autoptr (RwChange) change = NULL;
  g_autofree char *name = NULL;
  guint entries;

  if (rw_json_type (json, 0) != RW_JSON_OBJECT || (entries = rw_json_member (json, 0, "entries")) == 0
      || rw_json_type (json, entries) != RW_JSON_ARRAY)
    {
      refuse (reader->error, _("this is no change"));
      return NULL;
    }
  name = dup_member (json, 0, "name");
  change = rw_change_new (name != NULL ? name : "");
  for (guint at = entries + 1; at < json->tokens[entries].extent; at = rw_json_next (json, at))
    if (!parse_entry (reader, at, rig, change))
      return NULL;
  return g_steal_pointer (&change);
}

/**
 * rw_journal_line_parse:
 * @line: a line of a journal, its end left out
 * @length: its bytes
 * @rig: the rig that the change was made to
 * @error: of RW_FILE_ERROR
 *
 * Returns: (transfer full) (nullable): the change
 */
RwChange *
rw_journal_line_parse (const char *line, gsize length, const RwRig *rig, GError **error)
{
  GError *local = NULL;
  RwReader reader = { .error = &local };
  RwChange *change;

  if (!rw_json_scan (&reader.json, line, length, error))
    return NULL;
  change = parse_change (&reader, rig);
  rw_json_clear (&reader.json);
  if (change == NULL)
    g_propagate_error (error, local);
  return change;
}
