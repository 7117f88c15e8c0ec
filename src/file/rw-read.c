/* SPDX-License-Identifier: MIT */
#include "rw-read.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* The value of each member of a rig's object; token 0 is the outermost one: 0 = absent. */
typedef struct
{
  guint version;
  guint types[RW_N_ITEM_TYPES];
} Members;

static guint *
find_member (Members *members, const char *name)
{
  if (strcmp (name, "rigwright") == 0)
    return &members->version;
  for (RwItemType type = 0; type < RW_N_ITEM_TYPES; type++)
    if (strcmp (name, rw_item_type_member (type)) == 0)
      return &members->types[type];
  return NULL;
}

static gboolean
list_members (RwReader *reader, const RwPath *path, guint token, Members *members, GPtrArray **extras)
{
  const RwJson *json = &reader->json;

  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at + 1))
    {
      g_autofree char *name = rw_json_dup_text (json, at);
      guint *member = name != NULL ? find_member (members, name) : NULL;
      if (member != NULL)
        *member = at + 1;
      else if (!rw_reader_extra (reader, path, at, extras))
        return FALSE;
    }
  return TRUE;
}

static gboolean
fail_version (RwReader *reader, const char *what)
{
  RwPath path = { NULL, "rigwright", 0, FALSE };

  rw_reader_fail (reader, &path, "%s", what);
  if (reader->error != NULL)
    (*reader->error)->code = RW_FILE_ERROR_VERSION;
  return FALSE;
}

static gboolean
check_version (RwReader *reader, guint token)
{
  const RwJsonToken *t = &reader->json.tokens[token];

  if (token == 0)
    return fail_version (reader, _("is missing; a rig file has \"rigwright\": 1"));
  if (rw_json_type (&reader->json, token) != RW_JSON_NUMBER || t->extent != 1 || reader->json.data[t->offset] != '1')
    return fail_version (reader, _("must be 1, the only version that this program reads"));
  return TRUE;
}

/* The path of an item that cannot be put in since its key is taken. */
static gboolean
fail_taken (RwReader *reader, const RwPath *path, const RwItem *item)
{
  RwPath id = { path, "id", 0, FALSE };

  if (!rw_item_type_has_id (item->type))
    return rw_reader_fail (reader, path, _("this device, side and number stand twice; each channel may stand once"));
  /* Translators: an id of the file format. */
  return rw_reader_fail (reader, &id, _("“%s” is used twice; an id must be the only one in the whole file"), item->key);
}

static gboolean
append_item (RwReader *reader, const RwPath *path, RwRig *rig, RwItem *item)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *field = NULL;
  RwPath member = { path, NULL, 0, TRUE };

  if (!rw_rig_append (rig, item, NULL))
    return fail_taken (reader, path, item);
  if (rw_rig_check_item (rig, item, &field, &error))
    return TRUE;
  member.name = field;
  return rw_reader_fail (reader, field != NULL ? &member : path, "%s", error->message);
}

/* Reads an item on its own; what it refers to is not looked at. */
static RwItem *
read_item (RwReader *reader, const RwPath *path, RwItemType type, guint token)
{
  g_autoptr (RwItem) item = rw_item_new (type);

  if (!rw_reader_record (reader, path, rw_item_type_table (type), token, item))
    return NULL;
  rw_item_seal (item);
  return g_steal_pointer (&item);
}

static gboolean
read_into (RwReader *reader, const RwPath *path, RwRig *rig, RwItemType type, guint token)
{
  g_autoptr (RwItem) item = read_item (reader, path, type, token);

  return item != NULL && append_item (reader, path, rig, item);
}

static gboolean
read_list (RwReader *reader, const RwPath *path, RwRig *rig, RwItemType type, guint token)
{
  const RwJson *json = &reader->json;
  RwPath element = { path, NULL, 0, FALSE };

  if (!rw_reader_expect (reader, path, token, RW_JSON_ARRAY))
    return FALSE;
  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at), element.index++)
    if (!read_into (reader, &element, rig, type, at))
      return FALSE;
  return TRUE;
}

/* In the order of the types whatever the file's: so what an item refers to is there before it. */
static gboolean
read_types (RwReader *reader, const RwPath *up, RwRig *rig, const Members *members)
{
  for (RwItemType type = 0; type < RW_N_ITEM_TYPES; type++)
    {
      RwPath path = { up, rw_item_type_member (type), 0, FALSE };
      gboolean single = type == RW_ITEM_SHOW || type == RW_ITEM_SYSTEM;
      guint token = members->types[type];
      if (token == 0)
        continue;
      rw_rig_set_lists (rig, type, TRUE);
      if (!(single ? read_into : read_list) (reader, &path, rig, type, token))
        return FALSE;
    }
  return TRUE;
}

static gboolean
read_rig (RwReader *reader, RwRig *rig)
{
  Members members = { 0 };
  GPtrArray *extras = NULL;
  gboolean listed;

  if (!rw_reader_expect (reader, NULL, 0, RW_JSON_OBJECT))
    return FALSE;
  listed = list_members (reader, NULL, 0, &members, &extras);
  rw_reader_take_extras (rw_rig_head (rig), extras);
  return listed && check_version (reader, members.version) && read_types (reader, NULL, rig, &members);
}

static gboolean
fail_not_here (RwReader *reader, const RwPath *up, const char *member)
{
  RwPath path = { up, member, 0, FALSE };

  return rw_reader_fail (reader, &path, _("must not be there: only the file itself has it, a stored state does not"));
}

static gboolean
check_state_members (RwReader *reader, const RwPath *path, const Members *members)
{
  if (members->version != 0)
    return fail_not_here (reader, path, "rigwright");
  for (RwItemType type = RW_N_STATE_TYPES; type < RW_N_ITEM_TYPES; type++)
    if (members->types[type] != 0)
      return fail_not_here (reader, path, rw_item_type_member (type));
  return TRUE;
}

/**
 * rw_reader_state:
 *
 * Reads a stored state: a rig inside the file, which must stand alone as the file does. Its ids are its own.
 *
 * Returns: (transfer full) (nullable): the sealed rig
 */
RwRig *
rw_reader_state (RwReader *reader, const RwPath *path, guint token)
{
  g_autoptr (RwRig) state = NULL;
  Members members = { 0 };
  GPtrArray *extras = NULL;
  gboolean listed;

  if (!rw_reader_expect (reader, path, token, RW_JSON_OBJECT))
    return NULL;
  state = rw_rig_new ();
  listed = list_members (reader, path, token, &members, &extras);
  rw_reader_take_extras (rw_rig_head (state), extras);
  if (!listed || !check_state_members (reader, path, &members) || !read_types (reader, path, state, &members))
    return NULL;
  return rw_rig_seal (g_steal_pointer (&state));
}

static gboolean
scan (RwReader *reader, const char *data, gsize length)
{
  if (rw_json_scan (&reader->json, data, length, reader->error))
    return TRUE;
  if (reader->where != NULL)
    g_prefix_error (reader->error, "%s: ", reader->where);
  return FALSE;
}

/**
 * rw_file_read_bytes:
 * @data: a rig file's text, not ended by NUL
 * @length: bytes of @data
 * @where: (nullable): names the source in messages
 * @error: of RW_FILE_ERROR: the source, the line and column or the JSON path, and what would be right there
 *
 * Reads a rig or nothing. Structure is strict: whatever is not by the format is refused. Members that the
 * format does not know are kept. A byte order mark in front is ignored.
 *
 * Returns: (transfer full) (nullable): the rig
 */
RwRig *
rw_file_read_bytes (const char *data, gsize length, const char *where, GError **error)
{
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (GError) local = NULL;
  RwReader reader = { .where = where, .error = &local };
  gboolean read = FALSE;

  g_return_val_if_fail (data != NULL || length == 0, NULL);

  if (scan (&reader, data != NULL ? data : "", length))
    {
      rig = rw_rig_new ();
      read = read_rig (&reader, rig);
      rw_json_clear (&reader.json);
    }
  if (read)
    return g_steal_pointer (&rig);
  g_propagate_error (error, g_steal_pointer (&local));
  return NULL;
}

static gboolean
fail_io (GError **error, const char *where, const char *why)
{
  /* Translators: a file and the reason why it cannot be read. */
  g_set_error (error, RW_FILE_ERROR, RW_FILE_ERROR_IO, _("%s: cannot be read: %s"), where, why);
  return FALSE;
}

/* Reads one byte more than the limit at most: the file may be larger than it says, or grow. */
static gboolean
load_open (int fd, GByteArray *bytes, const char *where, GError **error)
{
  struct stat info;
  gsize room;
  gssize n = 1;

  if (fstat (fd, &info) != 0)
    return fail_io (error, where, g_strerror (errno));
  if (S_ISDIR (info.st_mode))
    return fail_io (error, where, g_strerror (EISDIR));
  room = (gsize) CLAMP (info.st_size, 4096, (goffset) RW_JSON_MAX_BYTES) + 1;
  while (n > 0 && bytes->len <= RW_JSON_MAX_BYTES)
    {
      gsize length = bytes->len;
      g_byte_array_set_size (bytes, (guint) (length + room));
      do
        n = read (fd, bytes->data + length, room);
      while (n < 0 && errno == EINTR);
      g_byte_array_set_size (bytes, (guint) (length + (gsize) MAX (n, 0)));
      room = 65536; /* that should have been all */
    }
  return n >= 0 || fail_io (error, where, g_strerror (errno));
}

static GByteArray *
load (const char *path, const char *where, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  int fd = g_open (path, O_RDONLY | O_CLOEXEC, 0);
  gboolean loaded;

  if (fd < 0)
    {
      fail_io (error, where, g_strerror (errno));
      return NULL;
    }
  loaded = load_open (fd, bytes, where, error);
  close (fd);
  return loaded ? g_steal_pointer (&bytes) : NULL;
}

/**
 * rw_file_read:
 * @path: a file
 * @error: as rw_file_read_bytes(), or RW_FILE_ERROR_IO
 *
 * Returns: (transfer full) (nullable): the rig in it
 */
RwRig *
rw_file_read (const char *path, GError **error)
{
  g_autofree char *where = NULL;
  g_autoptr (GByteArray) bytes = NULL;
  RwRig *rig;

  g_return_val_if_fail (path != NULL, NULL);

  where = g_filename_display_name (path);
  bytes = load (path, where, error);
  rig = bytes != NULL ? rw_file_read_bytes ((const char *) bytes->data, bytes->len, where, error) : NULL;
  if (rig != NULL)
    rw_rig_set_path (rig, path);
  return rig;
}

/**
 * rw_file_item_from_json:
 * @type: which kind of item
 * @json: the object that a file would hold for it
 * @error: of RW_FILE_ERROR, without the name of a file
 *
 * Reads one item. What it refers to is not looked at.
 *
 * Returns: (transfer full) (nullable): the sealed item
 */
RwItem *
rw_file_item_from_json (RwItemType type, const char *json, GError **error)
{
  g_autoptr (GError) local = NULL;
  RwReader reader = { .error = &local };
  RwItem *item = NULL;

  g_return_val_if_fail (json != NULL, NULL);

  if (scan (&reader, json, strlen (json)))
    {
      item = read_item (&reader, NULL, type, 0);
      rw_json_clear (&reader.json);
    }
  if (item == NULL)
    g_propagate_error (error, g_steal_pointer (&local));
  return item;
}
