/* SPDX-License-Identifier: MIT */
#include "rw-json.h"

/* Longer ones help nobody: they stand in files that are nested without end. */
#define MAX_PATH 120

static gboolean
is_word (const char *name)
{
  for (const char *p = name; *p != '\0'; p++)
    if (!g_ascii_isalnum (*p) && *p != '_')
      return FALSE;
  return *name != '\0';
}

/**
 * rw_json_path_add_name:
 * @path: a path as in messages: "devices[12].part"
 * @name: name of a member
 *
 * Makes @path that of a member of what it led to; odd names stand in brackets and quotes.
 */
void
rw_json_path_add_name (GString *path, const char *name)
{
  RwJsonOut out = { .text = path, .compact = TRUE };

  if (is_word (name))
    {
      g_string_append_printf (path, "%s%s", path->len > 0 ? "." : "", name);
      return;
    }
  g_string_append_c (path, '[');
  rw_json_out_string (&out, name, -1);
  g_string_append_c (path, ']');
}

void
rw_json_path_add_index (GString *path, guint index)
{
  g_string_append_printf (path, "[%u]", index);
}

/* An array or object whose end was not come to. */
static gboolean
is_open (const RwJson *json, guint token)
{
  return rw_json_type (json, token) >= RW_JSON_ARRAY && json->tokens[token].extent == 0;
}

/* A value or name that ends before the byte @at. */
static gboolean
is_over (const RwJson *json, guint token, gsize at)
{
  const RwJsonToken *t = &json->tokens[token];

  if (t->type >= RW_JSON_ARRAY)
    return t->extent > 0;
  if (t->extent == 0) /* not read to its end; or an empty string */
    return t->type == RW_JSON_STRING && at > t->offset && json->data[t->offset] == '"';
  return at >= t->offset + t->extent;
}

static void
add_name_token (const RwJson *json, guint name, GString *path)
{
  g_autofree char *text = rw_json_dup_text (json, name);

  if (text != NULL)
    rw_json_path_add_name (path, text);
}

/* Goes into the member that the byte @at is in. Returns its value; json->n = no further. */
static guint
enter_member (const RwJson *json, guint object, gsize at, GString *path)
{
  for (guint name = object + 1; name < json->n; name = rw_json_next (json, name + 1))
    {
      gboolean is_last = name + 1 == json->n;
      if (is_last && !is_over (json, name, at))
        return json->n;
      if (is_last || json->tokens[name].offset == at + 1 || !is_over (json, name + 1, at))
        {
          add_name_token (json, name, path);
          return is_last || !is_open (json, name + 1) ? json->n : name + 1;
        }
    }
  return json->n;
}

static guint
enter_element (const RwJson *json, guint array, gsize at, GString *path)
{
  guint index = 0;

  for (guint element = array + 1; element < json->n; element = rw_json_next (json, element), index++)
    if (!is_over (json, element, at))
      {
        rw_json_path_add_index (path, index);
        return is_open (json, element) ? element : json->n;
      }
  return json->n;
}

/**
 * rw_json_path_of_error:
 * @json: tokens up to where reading ended
 * @at: the byte that is wrong
 *
 * Returns: (transfer full): path of the innermost value that @at stands in; empty for the outermost one
 */
char *
rw_json_path_of_error (const RwJson *json, gsize at)
{
  GString *path = g_string_new (NULL);
  guint token = 0;

  while (token < json->n && is_open (json, token) && path->len < MAX_PATH)
    if (rw_json_type (json, token) == RW_JSON_OBJECT)
      token = enter_member (json, token, at, path);
    else
      token = enter_element (json, token, at, path);
  if (path->len >= MAX_PATH)
    g_string_append (path, "…");
  return g_string_free (path, FALSE);
}
