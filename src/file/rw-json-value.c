/* SPDX-License-Identifier: MIT */
#include "rw-json.h"

#include <string.h>

RwJsonType
rw_json_type (const RwJson *json, guint token)
{
  return (RwJsonType) json->tokens[token].type;
}

/**
 * rw_json_next:
 *
 * Returns: index of the first token after a value and all that it holds
 */
guint
rw_json_next (const RwJson *json, guint token)
{
  return rw_json_type (json, token) >= RW_JSON_ARRAY ? json->tokens[token].extent : token + 1;
}

/**
 * rw_json_count:
 *
 * Returns: how many elements an array has; of an object twice its members
 */
guint
rw_json_count (const RwJson *json, guint token)
{
  guint n = 0;

  for (guint at = token + 1; at < json->tokens[token].extent; at = rw_json_next (json, at))
    n++;
  return n;
}

/**
 * rw_json_member:
 * @object: index of an object
 * @name: ASCII that needs no escape
 *
 * Returns: index of the value of the member called so, 0 = there is none
 */
guint
rw_json_member (const RwJson *json, guint object, const char *name)
{
  gsize length = strlen (name);

  for (guint at = object + 1; at < json->tokens[object].extent; at = rw_json_next (json, at + 1))
    if (json->tokens[at].extent == length && memcmp (json->data + json->tokens[at].offset, name, length) == 0)
      return at + 1;
  return 0;
}

static gunichar
hex_unit (const char *digits)
{
  gunichar unit = 0;

  for (int i = 0; i < 4; i++)
    unit = unit * 16 + (gunichar) g_ascii_xdigit_value (digits[i]);
  return unit;
}

/* Decodes the escape at @from, of scanned text; *@to moves past what it stands for. */
static const char *
decode_escape (const char *from, char **to)
{
  static const char shorts[] = "b\bf\fn\nr\rt\t";
  const char *known;
  gunichar c;

  if (from[1] != 'u')
    {
      known = strchr (shorts, from[1]);
      *(*to)++ = known != NULL ? known[1] : from[1];
      return from + 2;
    }
  c = hex_unit (from + 2);
  from += 6;
  if (c >= 0xd800 && c <= 0xdbff)
    {
      c = 0x10000 + ((c - 0xd800) << 10) + (hex_unit (from + 2) - 0xdc00);
      from += 6;
    }
  *to += g_unichar_to_utf8 (c, *to);
  return from;
}

/**
 * rw_json_decode:
 * @json: tokens
 * @token: a string or member name
 * @to: room for as many bytes as the token's extent, which is always enough
 *
 * Undoes the escapes. The text may hold NUL and is not ended by one.
 *
 * Returns: bytes written
 */
gsize
rw_json_decode (const RwJson *json, guint token, char *to)
{
  const char *from = json->data + json->tokens[token].offset;
  const char *end = from + json->tokens[token].extent;
  char *start = to;

  while (from < end)
    if (*from == '\\')
      from = decode_escape (from, &to);
    else
      *to++ = *from++;
  return (gsize) (to - start);
}

/**
 * rw_json_dup_text:
 * @json: tokens
 * @token: a string or member name
 *
 * Returns: (transfer full) (nullable): its text; %NULL where it holds U+0000, which no C string can
 */
char *
rw_json_dup_text (const RwJson *json, guint token)
{
  const RwJsonToken *t = &json->tokens[token];
  char *text;
  gsize length;

  if (!t->escaped)
    return g_strndup (json->data + t->offset, t->extent);
  text = g_malloc (t->extent + 1);
  length = rw_json_decode (json, token, text);
  text[length] = '\0';
  if (strlen (text) < length)
    g_clear_pointer (&text, g_free);
  return text;
}

/* The value of digits with at most one point among them: exact, since both the digits as an integer
 * (under 2^53) and the power of ten (up to 10^22) are exact doubles and IEEE 754 rounds their quotient
 * once. FALSE = longer than that. */
static gboolean
short_real (const char *text, gsize length, double *value)
{
  static const double powers[] = { 1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15 };
  gint64 digits = 0;
  gsize point = length;
  gsize i = text[0] == '-';

  if (length > 16)
    return FALSE;
  for (; i < length; i++)
    if (g_ascii_isdigit (text[i]))
      digits = digits * 10 + (text[i] - '0');
    else if (text[i] == '.')
      point = i + 1;
    else
      return FALSE;
  if (digits > G_GINT64_CONSTANT (999999999999999))
    return FALSE;
  *value = (double) digits / powers[length - point];
  if (text[0] == '-')
    *value = -*value;
  return TRUE;
}

/**
 * rw_json_real:
 *
 * Returns: the double nearest to a number; infinite only while scanning
 */
double
rw_json_real (const RwJson *json, guint token)
{
  const RwJsonToken *t = &json->tokens[token];
  g_autofree char *copy = NULL;
  double value;

  if (short_real (json->data + t->offset, t->extent, &value))
    return value;
  copy = g_strndup (json->data + t->offset, t->extent);
  return g_ascii_strtod (copy, NULL);
}
