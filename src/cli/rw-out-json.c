/* SPDX-License-Identifier: MIT */
#include "rw-out-json.h"

#include <math.h>

/* @text NULL gives null. */
void
rw_out_text (JsonBuilder *builder, const char *name, const char *text)
{
  json_builder_set_member_name (builder, name);
  if (text != NULL)
    json_builder_add_string_value (builder, text);
  else
    json_builder_add_null_value (builder);
}

void
rw_out_integer (JsonBuilder *builder, const char *name, gint64 number)
{
  json_builder_set_member_name (builder, name);
  json_builder_add_int_value (builder, number);
}

/* A real, rounded to so many decimals: what is computed is no better than that. */
void
rw_out_real (JsonBuilder *builder, const char *name, double number, int decimals)
{
  double factor = pow (10, decimals);

  json_builder_set_member_name (builder, name);
  json_builder_add_double_value (builder, round (number * factor) / factor);
}

void
rw_out_ids (JsonBuilder *builder, const char *name, char *const *ids)
{
  json_builder_set_member_name (builder, name);
  json_builder_begin_array (builder);
  for (; *ids != NULL; ids++)
    json_builder_add_string_value (builder, *ids);
  json_builder_end_array (builder);
}

/**
 * rw_out_print:
 * @builder: a builder whose root is ended, or that holds nothing
 *
 * Returns: (transfer full): its text with a newline, or nothing
 */
char *
rw_out_print (JsonBuilder *builder)
{
  g_autoptr (JsonNode) root = json_builder_get_root (builder);
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  GString *text = g_string_new (NULL);

  if (root != NULL)
    {
      json_generator_set_pretty (generator, TRUE);
      json_generator_set_root (generator, root);
      json_generator_to_gstring (generator, text);
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}
