/* SPDX-License-Identifier: MIT */
#include "rw-field.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "rw-error.h"
#include "rw-length.h"

static char *
number_format (double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (buffer, sizeof buffer, "%.10g", value));
}

static char *
word_format (const RwField *field, const char *word)
{
  int index = rw_field_find_word (field, word, -1);

  return g_strdup (index < 0 || field->word_labels == NULL ? word : _(field->word_labels[index]));
}

static char *
points_format (GVariant *value)
{
  GString *text = g_string_new (NULL);
  GVariantIter iter;
  double x, y;

  g_variant_iter_init (&iter, value);
  while (g_variant_iter_next (&iter, "(dd)", &x, &y))
    g_string_append_printf (text, "%s%.10g, %.10g", text->len > 0 ? "; " : "", x, y);
  return g_string_free (text, FALSE);
}

static char *
place_format (const RwField *field, GVariant *value)
{
  const char *word;
  int number;
  g_autofree char *label = NULL;

  g_variant_get (value, "(&si)", &word, &number);
  label = field->kind == RW_FIELD_PLACE ? word_format (field, word) : g_strdup (word);
  return g_strdup_printf ("%s %d", label, number);
}

static char *
vlans_format (GVariant *value)
{
  GString *text = g_string_new (NULL);
  GVariantIter iter;
  const char *port;
  GVariant *list;

  g_variant_iter_init (&iter, value);
  while (g_variant_iter_next (&iter, "{&sv}", &port, &list))
    {
      g_autoptr (GVariant) owned = list;
      gsize n;
      g_string_append_printf (text, "%s%s: ", text->len > 0 ? "; " : "", port);
      if (g_variant_is_of_type (owned, G_VARIANT_TYPE_INT32))
        {
          g_string_append_printf (text, "%d", g_variant_get_int32 (owned));
          continue;
        }
      const int *vlans = g_variant_get_fixed_array (owned, &n, sizeof (int));
      for (gsize i = 0; i < n; i++)
        g_string_append_printf (text, "%s%d", i > 0 ? "+" : "", vlans[i]);
    }
  return g_string_free (text, FALSE);
}

static char *
fields_format (const RwTable *table, GVariant *value)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < table->n_fields; i++)
    {
      g_autoptr (GVariant) child = g_variant_lookup_value (value, table->fields[i].name, NULL);
      g_autofree char *part = child != NULL ? rw_field_format (&table->fields[i], child) : NULL;
      if (part != NULL)
        g_string_append_printf (text, "%s%s %s", text->len > 0 ? ", " : "", _(table->fields[i].label), part);
    }
  return g_string_free (text, FALSE);
}

static char *
records_format (const RwTable *table, GVariant *value)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < g_variant_n_children (value); i++)
    {
      g_autoptr (GVariant) child = g_variant_get_child_value (value, i);
      g_autofree char *part = fields_format (table, child);
      g_string_append_printf (text, "%s%s", i > 0 ? "; " : "", part);
    }
  return g_string_free (text, FALSE);
}

/**
 * rw_field_format:
 * @field: a field
 * @value: a value of its type
 *
 * Returns: (transfer full): the value as a person reads it, without the unit
 */
char *
rw_field_format (const RwField *field, GVariant *value)
{
  const char *a, *b;
  double x, y;

  switch (field->kind)
    {
    case RW_FIELD_ID:
    case RW_FIELD_TEXT:
      return g_variant_dup_string (value, NULL);
    case RW_FIELD_INTEGER:
      return g_strdup_printf ("%d", g_variant_get_int32 (value));
    case RW_FIELD_REAL:
      return g_strcmp0 (field->unit, "m") == 0 ? rw_length_number (g_variant_get_double (value))
                                               : number_format (g_variant_get_double (value));
    case RW_FIELD_BOOLEAN:
      return g_strdup (g_variant_get_boolean (value) ? _("yes") : _("no"));
    case RW_FIELD_WORD:
      return word_format (field, g_variant_get_string (value, NULL));
    case RW_FIELD_POINT:
      g_variant_get (value, "(dd)", &x, &y);
      return g_strdup_printf ("%.10g, %.10g", x, y);
    case RW_FIELD_POINTS:
      return points_format (value);
    case RW_FIELD_END:
      g_variant_get (value, "(&s&s)", &a, &b);
      return g_strdup_printf ("%s %s", a, b);
    case RW_FIELD_SLOT:
    case RW_FIELD_PLACE:
      return place_format (field, value);
    case RW_FIELD_RECORD:
      return fields_format (field->sub, value);
    case RW_FIELD_RECORDS:
      return records_format (field->sub, value);
    case RW_FIELD_VLANS:
      return vlans_format (value);
    case RW_FIELD_STATE:
      return g_strdup (_("a stored state"));
    }
  g_return_val_if_reached (NULL);
}

/* rw_field_format_whole: the same with the unit behind it; a length in feet and inches brings its signs along. (transfer
 * full). */
char *
rw_field_format_whole (const RwField *field, GVariant *value)
{
  g_autofree char *text = rw_field_format (field, value);

  if (field->unit == NULL || *text == '\0' || (g_str_equal (field->unit, "m") && rw_length_units () == RW_UNITS_FEET))
    return g_steal_pointer (&text);
  return g_strdup_printf ("%s %s", text, field->unit);
}

static GVariant *
integer_parse (const RwField *field, const char *text, GError **error)
{
  char *end;
  /* Of too many digits it makes the greatest number there is, which no field may hold. */
  gint64 number = g_ascii_strtoll (text, &end, 10);

  if (end == text || *end != '\0')
    {
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, _("must be a whole number"));
      return NULL;
    }
  return rw_field_check_number (field, (double) number, error) ? g_variant_new_int32 ((gint32) number) : NULL;
}

static GVariant *
metres_parse (const RwField *field, const char *dotted, GError **error)
{
  double metres;
  g_autofree char *least = NULL, *most = NULL;

  if (!rw_length_parse (dotted, rw_length_units (), &metres, error))
    return NULL;
  if (metres >= field->min && metres <= field->max)
    return g_variant_new_double (metres);
  least = rw_length_text (field->min);
  most = rw_length_text (field->max);
  /* Translators: the shortest and the longest length that can be */
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("must be from %s to %s"), least, most);
  return NULL;
}

static GVariant *
real_parse (const RwField *field, const char *text, GError **error)
{
  g_autofree char *dotted = g_strdelimit (g_strdup (text), ",", '.');
  char *end;
  double number = g_ascii_strtod (dotted, &end);

  if (g_strcmp0 (field->unit, "m") == 0)
    return metres_parse (field, dotted, error);
  if (end == dotted || *end != '\0' || !isfinite (number))
    {
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, _("must be a number"));
      return NULL;
    }
  return rw_field_check_number (field, number, error) ? g_variant_new_double (number) : NULL;
}

static GVariant *
boolean_parse (const char *text, GError **error)
{
  if (g_ascii_strcasecmp (text, "yes") == 0 || g_ascii_strcasecmp (text, "true") == 0 || strcmp (text, "1") == 0
      || g_utf8_collate (text, _("yes")) == 0)
    return g_variant_new_boolean (TRUE);
  if (g_ascii_strcasecmp (text, "no") == 0 || g_ascii_strcasecmp (text, "false") == 0 || strcmp (text, "0") == 0
      || g_utf8_collate (text, _("no")) == 0)
    return g_variant_new_boolean (FALSE);
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, _("must be yes or no"));
  return NULL;
}

static GVariant *
word_parse (const RwField *field, const char *text, GError **error)
{
  g_autofree char *list = NULL;

  for (guint i = 0; field->words[i] != NULL; i++)
    if (g_ascii_strcasecmp (field->words[i], text) == 0
        || (field->word_labels != NULL && g_utf8_collate (_(field->word_labels[i]), text) == 0))
      return g_variant_new_string (field->words[i]);
  list = g_strjoinv (", ", (char **) field->words);
  /* Translators: %s is a list of words */
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("must be one of %s"), list);
  return NULL;
}

/**
 * rw_field_parse:
 * @field: a field of text, number, yes/no or word; others cannot be typed as one text
 * @text: what a person typed; blanks around it do not count, save in text
 * @error: RW_RIG_ERROR_TYPE or _RANGE; the message says what would be right
 *
 * Returns: (transfer full) (nullable): the value
 */
GVariant *
rw_field_parse (const RwField *field, const char *text, GError **error)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  GVariant *value = NULL;

  switch (field->kind)
    {
    case RW_FIELD_ID:
      if (rw_id_is_valid (stripped, -1))
        value = g_variant_new_string (stripped);
      else
        g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_ID, _("must be 1 to 64 characters from A-Z a-z 0-9 . _ -"));
      break;
    case RW_FIELD_TEXT:
      value = g_variant_new_string (text);
      break;
    case RW_FIELD_INTEGER:
      value = integer_parse (field, stripped, error);
      break;
    case RW_FIELD_REAL:
      value = real_parse (field, stripped, error);
      break;
    case RW_FIELD_BOOLEAN:
      value = boolean_parse (stripped, error);
      break;
    case RW_FIELD_WORD:
      value = word_parse (field, stripped, error);
      break;
    case RW_FIELD_POINT:
    case RW_FIELD_POINTS:
    case RW_FIELD_END:
    case RW_FIELD_SLOT:
    case RW_FIELD_PLACE:
    case RW_FIELD_RECORD:
    case RW_FIELD_RECORDS:
    case RW_FIELD_VLANS:
    case RW_FIELD_STATE:
      g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, _("cannot be typed as text"));
      break;
    }
  return value != NULL ? g_variant_ref_sink (value) : NULL;
}
