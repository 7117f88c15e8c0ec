/* SPDX-License-Identifier: MIT */
/* json-glib as a second opinion: what it makes of a text, and whether two texts say the same. */
#include "referee.h"

#include <string.h>

/* Returns: (transfer full): what json-glib reads; a text that it refuses fails the test */
JsonNode *
referee_parse (const char *text, gsize length)
{
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  g_autoptr (GError) error = NULL;

  json_parser_load_from_data (parser, text, (gssize) length, &error);
  g_assert_no_error (error);
  return json_node_copy (json_parser_get_root (parser));
}

static gboolean
equal_objects (JsonObject *a, JsonObject *b)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *value;

  if (json_object_get_size (a) != json_object_get_size (b))
    return FALSE;
  json_object_iter_init (&iter, a);
  while (json_object_iter_next (&iter, &name, &value))
    if (!json_object_has_member (b, name) || !referee_equal (value, json_object_get_member (b, name)))
      return FALSE;
  return TRUE;
}

static gboolean
equal_arrays (JsonArray *a, JsonArray *b)
{
  if (json_array_get_length (a) != json_array_get_length (b))
    return FALSE;
  for (guint i = 0; i < json_array_get_length (a); i++)
    if (!referee_equal (json_array_get_element (a, i), json_array_get_element (b, i)))
      return FALSE;
  return TRUE;
}

/* Numbers are compared as such: 1.0 and 1 say the same. */
static gboolean
equal_values (JsonNode *a, JsonNode *b)
{
  gboolean text = json_node_get_value_type (a) == G_TYPE_STRING;
  gboolean boolean = json_node_get_value_type (a) == G_TYPE_BOOLEAN;

  if (text != (json_node_get_value_type (b) == G_TYPE_STRING)
      || boolean != (json_node_get_value_type (b) == G_TYPE_BOOLEAN))
    return FALSE;
  if (text)
    return strcmp (json_node_get_string (a), json_node_get_string (b)) == 0;
  if (boolean)
    return json_node_get_boolean (a) == json_node_get_boolean (b);
  return json_node_get_double (a) == json_node_get_double (b);
}

/* Returns: whether two texts say the same, whatever the order of members in an object */
gboolean
referee_equal (JsonNode *a, JsonNode *b)
{
  if (json_node_get_node_type (a) != json_node_get_node_type (b))
    return FALSE;
  switch (json_node_get_node_type (a))
    {
    case JSON_NODE_OBJECT:
      return equal_objects (json_node_get_object (a), json_node_get_object (b));
    case JSON_NODE_ARRAY:
      return equal_arrays (json_node_get_array (a), json_node_get_array (b));
    case JSON_NODE_VALUE:
      return equal_values (a, b);
    case JSON_NODE_NULL:
      return TRUE;
    }
  g_return_val_if_reached (FALSE);
}
