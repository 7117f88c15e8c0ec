/* SPDX-License-Identifier: MIT */
#include "rw-out-json.h"

#include <math.h>

#include "rw-cli.h"

struct _RwOut
{
  GString *text;            /* not yet written */
  guint depth;              /* objects and arrays that are begun */
  gboolean is_empty;        /* the one begun last holds nothing yet */
  gboolean has_begun;
  gboolean failed;
  JsonGenerator *generator; /* for what is not plain */
  JsonNode *node;
};

RwOut *
rw_out_new (void)
{
  RwOut *out = g_new0 (RwOut, 1);

  out->text = g_string_sized_new (RW_CLI_BLOCK + 4096);
  out->generator = json_generator_new ();
  out->node = json_node_new (JSON_NODE_VALUE);
  return out;
}

gboolean
rw_out_finish (RwOut *out)
{
  gboolean done;

  g_return_val_if_fail (out != NULL && out->depth == 0, FALSE);
  if (out->has_begun)
    g_string_append_c (out->text, '\n');
  rw_cli_flush (out->text, &out->failed);
  done = !out->failed;
  g_string_free (out->text, TRUE);
  g_object_unref (out->generator);
  json_node_unref (out->node);
  g_free (out);
  return done;
}

static void
new_line (RwOut *out)
{
  g_string_append_c (out->text, '\n');
  for (guint i = 0; i < out->depth; i++)
    g_string_append (out->text, "  ");
}

/* @node as json-glib prints it, its lines as far in as the others. */
static void
append_node (RwOut *out, JsonNode *node)
{
  g_autoptr (GString) text = g_string_new (NULL);

  json_generator_set_pretty (out->generator, TRUE);
  json_generator_set_root (out->generator, node);
  json_generator_to_gstring (out->generator, text);
  for (const char *p = text->str; *p != '\0'; p++)
    if (*p == '\n') /* within a string it would be “\n” */
      new_line (out);
    else
      g_string_append_c (out->text, *p);
}

/* Whether JSON has nothing to escape in @text. */
static gboolean
is_plain (const char *text)
{
  for (; *text != '\0'; text++)
    if ((guchar) *text < 0x20 || *text == '"' || *text == '\\' || *text == 0x7f)
      return FALSE;
  return TRUE;
}

static void
append_string (RwOut *out, const char *text)
{
  if (!is_plain (text))
    {
      json_node_set_string (out->node, text);
      append_node (out, out->node);
      return;
    }
  g_string_append_c (out->text, '"');
  g_string_append (out->text, text);
  g_string_append_c (out->text, '"');
}

/* What comes before a value: the comma after the one before, and its name. */
static void
begin_value (RwOut *out, const char *name)
{
  if (out->text->len >= RW_CLI_BLOCK)
    rw_cli_flush (out->text, &out->failed);
  if (out->depth > 0)
    {
      if (!out->is_empty)
        g_string_append_c (out->text, ',');
      new_line (out);
    }
  out->is_empty = FALSE;
  out->has_begun = TRUE;
  if (name == NULL)
    return;
  append_string (out, name);
  g_string_append (out->text, " : ");
}

static void
begin (RwOut *out, const char *name, char bracket)
{
  begin_value (out, name);
  g_string_append_c (out->text, bracket);
  out->depth++;
  out->is_empty = TRUE;
}

static void
end (RwOut *out, char bracket)
{
  g_return_if_fail (out->depth > 0);

  out->depth--;
  if (!out->is_empty)
    new_line (out);
  out->is_empty = FALSE;
  g_string_append_c (out->text, bracket);
}

void
rw_out_begin_object (RwOut *out, const char *name)
{
  begin (out, name, '{');
}

void
rw_out_end_object (RwOut *out)
{
  end (out, '}');
}

void
rw_out_begin_array (RwOut *out, const char *name)
{
  begin (out, name, '[');
}

void
rw_out_end_array (RwOut *out)
{
  end (out, ']');
}

/* @text NULL gives null. */
void
rw_out_text (RwOut *out, const char *name, const char *text)
{
  begin_value (out, name);
  if (text != NULL)
    append_string (out, text);
  else
    g_string_append (out->text, "null");
}

void
rw_out_integer (RwOut *out, const char *name, gint64 number)
{
  begin_value (out, name);
  g_string_append_printf (out->text, "%" G_GINT64_FORMAT, number);
}

/* A real, rounded to so many decimals: what is computed is no better than that. */
void
rw_out_real (RwOut *out, const char *name, double number, int decimals)
{
  double factor = pow (10, decimals);

  begin_value (out, name);
  json_node_set_double (out->node, round (number * factor) / factor);
  append_node (out, out->node);
}

void
rw_out_boolean (RwOut *out, const char *name, gboolean value)
{
  begin_value (out, name);
  g_string_append (out->text, value ? "true" : "false");
}

void
rw_out_null (RwOut *out, const char *name)
{
  rw_out_text (out, name, NULL);
}

/* Any other value; @node is borrowed. */
void
rw_out_node (RwOut *out, const char *name, JsonNode *node)
{
  begin_value (out, name);
  append_node (out, node);
}

void
rw_out_ids (RwOut *out, const char *name, char *const *ids)
{
  rw_out_begin_array (out, name);
  for (; *ids != NULL; ids++)
    rw_out_text (out, NULL, *ids);
  rw_out_end_array (out);
}
