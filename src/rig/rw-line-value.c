/* SPDX-License-Identifier: MIT */
/* What single cells of a line say. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-error.h"
#include "rw-line-target.h"

/* How words that a person types are compared: without outer blanks and the difference of capitals. */
char *
rw_line_fold (const char *text)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  g_autofree char *whole = g_utf8_normalize (stripped, -1, G_NORMALIZE_ALL_COMPOSE);

  return g_utf8_casefold (whole != NULL ? whole : stripped, -1);
}

/* @words: as they are in the file; each counts in the person's language as well. */
gboolean
rw_line_is_one_of (const char *folded, const char *const *words)
{
  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *word = rw_line_fold (_(words[i]));
      if (strcmp (folded, words[i]) == 0 || strcmp (folded, word) == 0)
        return TRUE;
    }
  return FALSE;
}

/* What people write into a phantom column. */
static const char *const on_words[] = { N_("yes"), N_("on"), "y", "x", "✓", "✔", "true", "1", "48", "+48", "48v", "48 v", "+48v", "+48 v", NULL };
static const char *const off_words[] = { N_("no"), N_("off"), "n", "-", "–", "false", "0", NULL };

static gboolean
read_phantom (const char *text, GVariant **value, GError **error)
{
  g_autofree char *folded = rw_line_fold (text);

  *value = NULL;
  if (rw_line_is_one_of (folded, on_words))
    *value = g_variant_ref_sink (g_variant_new_boolean (TRUE));
  else if (!rw_line_is_one_of (folded, off_words))
    g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, _("must be yes or no"));
  return *error == NULL;
}

static char *
list_labels (const RwField *field)
{
  GString *list = g_string_new (NULL);

  for (guint i = 0; field->words[i] != NULL; i++)
    g_string_append_printf (list, "%s%s", i > 0 ? ", " : "", _(field->word_labels[i]));
  return g_string_free (list, FALSE);
}

/* Words and labels alike, whole or their beginning where only one begins so. */
static gboolean
read_word (const RwField *field, const char *text, GVariant **value, GError **error)
{
  g_autofree char *folded = rw_line_fold (text);
  g_autofree char *list = NULL;
  int found = -1;
  guint n = 0;

  for (int i = 0; field->words[i] != NULL; i++)
    {
      g_autofree char *word = rw_line_fold (field->words[i]);
      g_autofree char *label = rw_line_fold (_(field->word_labels[i]));
      if (strcmp (word, folded) == 0 || strcmp (label, folded) == 0)
        {
          found = i;
          n = 1;
          break;
        }
      if (g_str_has_prefix (word, folded) || g_str_has_prefix (label, folded))
        {
          found = i;
          n++;
        }
    }
  if (n == 1)
    {
      *value = g_variant_ref_sink (g_variant_new_string (field->words[found]));
      return TRUE;
    }
  list = list_labels (field);
  /* Translators: %s is a list of words */
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("must be one of %s"), list);
  return FALSE;
}

/* A number may have its unit behind it: "80 Hz". */
static gboolean
read_number (const RwField *field, const char *text, GVariant **value, GError **error)
{
  g_autofree char *number = g_strstrip (g_strdup (text));
  gsize unit = field->unit != NULL ? strlen (field->unit) : 0;
  gsize length = strlen (number);

  if (unit > 0 && length > unit && g_ascii_strcasecmp (number + length - unit, field->unit) == 0)
    number[length - unit] = '\0';
  if (g_str_has_prefix (number, "−")) /* a typeset minus */
    {
      g_autofree char *rest = g_strdup (number + strlen ("−"));
      g_free (number);
      number = g_strconcat ("-", rest, NULL);
    }
  *value = rw_field_parse (field, number, error);
  return *value != NULL;
}

/**
 * rw_line_read_value:
 * @column: one that shows a channel's field
 * @text: what was typed
 * @value: (out) (nullable) (transfer full): the field's value, %NULL = absent
 *
 * Returns: %FALSE and @error where it was not understood
 */
gboolean
rw_line_read_value (RwLineColumn column, const char *text, GVariant **value, GError **error)
{
  const RwField *field = &rw_channel_table.fields[rw_line_column_field (column)];
  g_autofree char *stripped = g_strstrip (g_strdup (text));

  *value = NULL;
  if (*stripped == '\0')
    return TRUE;
  if (field->kind == RW_FIELD_BOOLEAN)
    return read_phantom (text, value, error);
  if (field->kind == RW_FIELD_WORD)
    return read_word (field, text, value, error);
  if (field->kind == RW_FIELD_REAL)
    return read_number (field, text, value, error);
  *value = rw_field_parse (field, field->flags & RW_FIELD_LONG ? text : stripped, error);
  return *value != NULL;
}
