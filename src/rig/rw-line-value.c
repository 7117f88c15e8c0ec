/* SPDX-License-Identifier: MIT */
/* What single cells of a line say. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-error.h"
#include "rw-line-target.h"

/**
 * rw_line_fold:
 * @text: what a person typed, or what it may mean
 *
 * Returns: (transfer full): how the two are compared: capitals do not matter, nor how wide a gap is, and the letter x
 *   stands for ×, which few keyboards have
 */
char *
rw_line_fold (const char *text)
{
  g_autofree char *whole = g_utf8_normalize (text, -1, G_NORMALIZE_ALL_COMPOSE);
  g_autofree char *small = g_utf8_casefold (whole != NULL ? whole : text, -1);
  GString *folded = g_string_new (NULL);
  gboolean gap = FALSE;

  for (const char *p = small; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar letter = g_utf8_get_char_validated (p, -1);

      if ((gint32) letter < 0) /* no text at all: as it is */
        {
          g_string_append (folded, p);
          break;
        }
      if (g_unichar_isspace (letter))
        {
          gap = folded->len > 0;
          continue;
        }
      if (gap)
        g_string_append_c (folded, ' ');
      gap = FALSE;
      g_string_append_unichar (folded, letter == 0xd7 ? 'x' : letter);
    }
  return g_string_free (folded, FALSE);
}

/* (transfer full): @folded without its gaps. */
char *
rw_line_squeeze (const char *folded)
{
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);

  return g_strjoinv ("", words);
}

/* Whether each word of @typed begins one of @name. */
static gboolean
matches_words (const char *typed, const char *name)
{
  g_auto (GStrv) words = g_strsplit (typed, " ", -1), parts = g_strsplit (name, " ", -1);

  for (guint i = 0; words[i] != NULL; i++)
    {
      gboolean found = FALSE;

      for (guint k = 0; parts[k] != NULL && !found; k++)
        found = g_str_has_prefix (parts[k], words[i]);
      if (!found)
        return FALSE;
    }
  return TRUE;
}

/**
 * rw_line_match:
 * @typed: what was typed so far
 * @name: what it may become
 *
 * Returns: how well it fits: 0 = not at all, 1 = each word begins a word of the name, 2 = it begins the name, 3 = it is
 *   the name
 */
guint
rw_line_match (const char *typed, const char *name)
{
  g_autofree char *t = rw_line_fold (typed);
  g_autofree char *n = rw_line_fold (name);
  g_autofree char *narrow_t = rw_line_squeeze (t);
  g_autofree char *narrow_n = rw_line_squeeze (n);

  if (strcmp (narrow_t, narrow_n) == 0)
    return 3;
  if (g_str_has_prefix (narrow_n, narrow_t))
    return 2;
  return matches_words (t, n);
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
