/* SPDX-License-Identifier: MIT */
#include "rw-json.h"

#include <float.h>
#include <math.h>
#include <string.h>

static void
new_line (RwJsonOut *out)
{
  if (out->compact)
    return;
  g_string_append_c (out->text, '\n');
  for (guint i = 0; i < out->depth; i++)
    g_string_append_len (out->text, "  ", 2);
}

/**
 * rw_json_out_open:
 * @bracket: '[' or '{'
 *
 * Begins an array or object that gets a line for each element or member. An empty one is "[]" or "{}".
 */
void
rw_json_out_open (RwJsonOut *out, char bracket)
{
  g_string_append_c (out->text, bracket);
  out->depth++;
  out->empty = TRUE;
}

/* Begins an array that stays on one line: one of only numbers and strings. */
void
rw_json_out_open_line (RwJsonOut *out)
{
  rw_json_out_open (out, '[');
  out->inside = TRUE;
}

void
rw_json_out_close (RwJsonOut *out, char bracket)
{
  out->depth--;
  if (!out->empty && !out->inside)
    new_line (out);
  g_string_append_c (out->text, bracket);
  out->empty = FALSE;
  out->inside = FALSE;
}

/* Goes to where the next element stands. */
void
rw_json_out_element (RwJsonOut *out)
{
  if (!out->empty)
    g_string_append_c (out->text, ',');
  if (!out->inside)
    new_line (out);
  else if (!out->empty && !out->compact)
    g_string_append_c (out->text, ' ');
  out->empty = FALSE;
}

/* Goes to where the next member stands and writes its name. */
void
rw_json_out_name (RwJsonOut *out, const char *name)
{
  rw_json_out_element (out);
  rw_json_out_string (out, name, -1);
  g_string_append (out->text, out->compact ? ":" : ": ");
}

static void
append_escape (GString *text, guchar c)
{
  static const char shorts[] = "\bb\ff\nn\rr\tt\"\"\\\\";
  const char *known = c != '\0' ? strchr (shorts, c) : NULL;

  if (known != NULL)
    g_string_append_printf (text, "\\%c", known[1]);
  else
    g_string_append_printf (text, "\\u%04x", c);
}

/**
 * rw_json_out_string:
 * @bytes: valid UTF-8, NUL allowed where @length is given
 * @length: bytes, or -1
 *
 * Writes a string in quotes: only what RFC 8259 7 says must be escaped is.
 */
void
rw_json_out_string (RwJsonOut *out, const char *bytes, gssize length)
{
  const char *end = bytes + (length < 0 ? strlen (bytes) : (gsize) length);

  g_string_append_c (out->text, '"');
  for (const char *from = bytes; from < end;)
    {
      const char *p = from;
      while (p < end && (guchar) *p >= 0x20 && *p != '"' && *p != '\\')
        p++;
      g_string_append_len (out->text, from, p - from);
      if (p < end)
        append_escape (out->text, (guchar) *p++);
      from = p;
    }
  g_string_append_c (out->text, '"');
}

void
rw_json_out_integer (RwJsonOut *out, int value)
{
  char digits[16];

  g_snprintf (digits, sizeof digits, "%d", value);
  g_string_append (out->text, digits);
}

/* Writes "1e-07" as "1e-7" and "1e+22" as "1e22". */
static void
append_short_exponent (GString *text, const char *number)
{
  const char *e = strchr (number, 'e');

  if (e == NULL)
    {
      g_string_append (text, number);
      return;
    }
  g_string_append_len (text, number, e - number + 1);
  e++;
  if (*e == '-')
    g_string_append_c (text, '-');
  e++;
  e += strspn (e, "0");
  g_string_append (text, e);
}

static gboolean
reads_back (const char *number, double value)
{
  return g_ascii_strtod (number, NULL) == value;
}

/* Counts the last digit of "1.23e-4" up. */
static void
count_up (char *number)
{
  for (char *p = strchr (number, 'e') - 1; p >= number && *p != '-'; p--)
    {
      if (*p == '.')
        continue;
      if (*p != '9')
        {
          ++*p;
          return;
        }
      *p = '0';
    }
}

/* Below a power of two doubles lie twice as dense as above it: there the decimal nearest to it may read back
 * as its neighbour, and the next one up as itself. */
static gboolean
format_power_of_two (char *number, int digits, double value)
{
  char format[8];
  int exponent;

  if (fabs (frexp (value, &exponent)) != 0.5)
    return FALSE;
  g_snprintf (format, sizeof format, "%%.%de", digits - 1);
  g_ascii_formatd (number, G_ASCII_DTOSTR_BUF_SIZE, format, value);
  count_up (number);
  return reads_back (number, value);
}

static gboolean
format_real (char *number, int digits, double value)
{
  char format[8];

  g_snprintf (format, sizeof format, "%%.%dg", digits);
  g_ascii_formatd (number, G_ASCII_DTOSTR_BUF_SIZE, format, value);
  return reads_back (number, value);
}

/**
 * rw_json_out_real:
 * @value: finite
 *
 * Writes the fewest digits that read back as @value; a whole number has no point, and zero no sign.
 */
void
rw_json_out_real (RwJsonOut *out, double value)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  int digits = DBL_DIG; /* shortest for nearly all, as %g leaves out zeros at the end */

  g_return_if_fail (isfinite (value));

  if (value == 0)
    value = 0; /* drops the sign of −0: to a person it is the same place, gain and length */
  if (fabs (value) < DBL_MIN)
    digits = 1; /* fewer bits there: fewer digits may do */
  while (!format_real (number, digits, value) && !format_power_of_two (number, digits, value))
    digits++;
  append_short_exponent (out->text, number);
}

void
rw_json_out_boolean (RwJsonOut *out, gboolean value)
{
  g_string_append (out->text, value ? "true" : "false");
}

static gboolean
fits_line (const RwJson *json, guint array)
{
  for (guint at = array + 1; at < json->tokens[array].extent; at++)
    if (rw_json_type (json, at) != RW_JSON_NUMBER && rw_json_type (json, at) != RW_JSON_STRING)
      return FALSE;
  return TRUE;
}

static void
out_array (RwJsonOut *out, const RwJson *json, guint token)
{
  if (fits_line (json, token))
    rw_json_out_open_line (out);
  else
    rw_json_out_open (out, '[');
  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at))
    {
      rw_json_out_element (out);
      rw_json_out_token (out, json, at);
    }
  rw_json_out_close (out, ']');
}

static void
out_text (RwJsonOut *out, const RwJson *json, guint token)
{
  g_autofree char *decoded = NULL;

  if (!json->tokens[token].escaped)
    {
      rw_json_out_string (out, json->data + json->tokens[token].offset, json->tokens[token].extent);
      return;
    }
  decoded = g_malloc (json->tokens[token].extent);
  rw_json_out_string (out, decoded, (gssize) rw_json_decode (json, token, decoded));
}

static void
out_object (RwJsonOut *out, const RwJson *json, guint token)
{
  rw_json_out_open (out, '{');
  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at + 1))
    {
      rw_json_out_element (out);
      out_text (out, json, at);
      g_string_append (out->text, out->compact ? ":" : ": ");
      rw_json_out_token (out, json, at + 1);
    }
  rw_json_out_close (out, '}');
}

/**
 * rw_json_out_token:
 * @json: tokens
 * @token: a value
 *
 * Writes a value and all that it holds; numbers as they stand in the text.
 */
void
rw_json_out_token (RwJsonOut *out, const RwJson *json, guint token)
{
  switch (rw_json_type (json, token))
    {
    case RW_JSON_ARRAY:
      out_array (out, json, token);
      break;
    case RW_JSON_OBJECT:
      out_object (out, json, token);
      break;
    case RW_JSON_STRING:
      out_text (out, json, token);
      break;
    case RW_JSON_NULL:
    case RW_JSON_FALSE:
    case RW_JSON_TRUE:
    case RW_JSON_NUMBER:
      g_string_append_len (out->text, json->data + json->tokens[token].offset, json->tokens[token].extent);
      break;
    }
}
