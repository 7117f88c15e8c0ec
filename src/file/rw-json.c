/* SPDX-License-Identifier: MIT */
#include "rw-json.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "rw-file.h"

/* A number of fewer characters and without an exponent cannot be over the largest double (1.8e308). */
#define SAFE_NUMBER_LENGTH 300

typedef struct
{
  RwJson *json;
  const char *start;
  const char *p;
  const char *end;
  guint room; /* tokens that the block of memory can hold */
  guint depth;
  GError **error;
} Scan;

static gboolean scan_value (Scan *s);

/**
 * rw_json_where:
 * @data: a text of at least @offset bytes
 * @offset: a byte in it
 * @line: (out): its line, from 1
 * @column: (out): its character in that line, from 1
 */
void
rw_json_where (const char *data, gsize offset, guint *line, guint *column)
{
  *line = 1;
  *column = 1;
  for (gsize i = 0; i < offset; i++)
    if (data[i] == '\n')
      {
        ++*line;
        *column = 1;
      }
    else if (((guchar) data[i] & 0xc0) != 0x80) /* not the rest of a character */
      ++*column;
}

static gboolean fail (Scan *s, const char *at, RwFileError code, const char *format, ...) G_GNUC_PRINTF (4, 5);

static gboolean
fail (Scan *s, const char *at, RwFileError code, const char *format, ...)
{
  va_list args;
  guint line, column;
  g_autofree char *what = NULL;
  g_autofree char *path = rw_json_path_of_error (s->json, (gsize) (at - s->start));
  g_autofree char *told = NULL;

  va_start (args, format);
  what = g_strdup_vprintf (format, args);
  va_end (args);
  rw_json_where (s->start, (gsize) (at - s->start), &line, &column);
  if (*path != '\0')
    told = g_strdup_printf ("%s: %s", path, what);
  /* Translators: a place in a text file, then what is wrong there. */
  g_set_error (s->error, RW_FILE_ERROR, code, _("line %u, column %u: %s"), line, column, told != NULL ? told : what);
  return FALSE;
}

static char *
dup_found (const Scan *s)
{
  gunichar c;

  if (s->p == s->end)
    return g_strdup (_("the end of the file"));
  c = g_utf8_get_char_validated (s->p, s->end - s->p);
  if (c == (gunichar) -1 || c == (gunichar) -2 || !g_unichar_isprint (c))
    /* Translators: a byte as two hexadecimal digits. */
    return g_strdup_printf (_("the byte %02X"), (guchar) *s->p);
  /* Translators: some character of a file. */
  return g_strdup_printf (_("“%.*s”"), g_utf8_skip[(guchar) *s->p], s->p);
}

/* @expected is looked up here and not by the callers, most of which never fail. */
static gboolean
fail_expected (Scan *s, const char *expected)
{
  g_autofree char *found = dup_found (s);

  /* Translators: what JSON asks for at some place of a file, then what stands there. */
  return fail (s, s->p, RW_FILE_ERROR_SYNTAX, _("expected %s, found %s"), _(expected), found);
}

static guint
push (Scan *s, RwJsonType type, const char *at)
{
  RwJson *json = s->json;

  if (json->n == s->room)
    {
      s->room *= 2;
      json->tokens = g_renew (RwJsonToken, json->tokens, s->room);
    }
  json->tokens[json->n] = (RwJsonToken){ .offset = (guint32) (at - s->start), .type = type };
  return json->n++;
}

static void
end_token (Scan *s, guint token)
{
  s->json->tokens[token].extent = (guint32) (s->p - s->start) - s->json->tokens[token].offset;
}

static void
skip_space (Scan *s)
{
  while (s->p < s->end && (*s->p == ' ' || *s->p == '\n' || *s->p == '\r' || *s->p == '\t'))
    s->p++;
}

static gboolean
at (const Scan *s, char c)
{
  return s->p < s->end && *s->p == c;
}

static gboolean
at_digit (const Scan *s)
{
  return s->p < s->end && g_ascii_isdigit (*s->p);
}

/* Reads the four digits after \u; -1 = they are not there. */
static int
scan_hex (Scan *s)
{
  int unit = 0;

  for (int i = 0; i < 4; i++, s->p++)
    {
      int digit = s->p < s->end ? g_ascii_xdigit_value (*s->p) : -1;
      if (digit < 0)
        return -1;
      unit = unit * 16 + digit;
    }
  return unit;
}

static gboolean
scan_unicode_escape (Scan *s, const char *backslash)
{
  int unit = scan_hex (s);

  if (unit < 0)
    return fail_expected (s, N_("four hexadecimal digits after \\u"));
  if (unit < 0xd800 || unit > 0xdfff)
    return TRUE;
  if (unit < 0xdc00 && s->end - s->p >= 6 && s->p[0] == '\\' && s->p[1] == 'u')
    {
      s->p += 2;
      unit = scan_hex (s);
      if (unit >= 0xdc00 && unit <= 0xdfff)
        return TRUE;
    }
  return fail (s, backslash, RW_FILE_ERROR_SYNTAX,
               _("half of a surrogate pair; both halves must stand together (\\uD800–\\uDBFF, then \\uDC00–\\uDFFF)"));
}

static gboolean
scan_escape (Scan *s)
{
  const char *backslash = s->p++;

  if (s->p == s->end || *s->p == '\0' || strchr ("\"\\/bfnrtu", *s->p) == NULL)
    return fail_expected (s, N_("one of \" \\ / b f n r t u after a backslash"));
  return *s->p++ != 'u' || scan_unicode_escape (s, backslash);
}

static gboolean
scan_wide (Scan *s)
{
  gunichar c = g_utf8_get_char_validated (s->p, s->end - s->p);

  if (c == (gunichar) -1 || c == (gunichar) -2)
    return fail (s, s->p, RW_FILE_ERROR_SYNTAX, _("the byte %02X is not UTF-8; a rig file must be UTF-8 text"),
                 (guchar) *s->p);
  s->p += g_utf8_skip[(guchar) *s->p];
  return TRUE;
}

static gboolean
is_plain (guchar c)
{
  return c >= 0x20 && c < 0x80 && c != '"' && c != '\\';
}

/* What stands in a string and is neither plain ASCII nor its end. */
static gboolean
scan_special (Scan *s)
{
  if (*s->p == '\\')
    return scan_escape (s);
  if ((guchar) *s->p < 0x20)
    return fail (s, s->p, RW_FILE_ERROR_SYNTAX, _("a control character in a string; it must be written as \\u%04x"),
                 (guchar) *s->p);
  return scan_wide (s);
}

static gboolean
scan_string (Scan *s)
{
  const char *quote = s->p++;
  guint token = push (s, RW_JSON_STRING, s->p);

  for (;;)
    {
      while (s->p < s->end && is_plain ((guchar) *s->p))
        s->p++;
      if (s->p == s->end)
        return fail (s, quote, RW_FILE_ERROR_SYNTAX, _("a string begins here and has no closing quote"));
      if (*s->p == '"')
        break;
      s->json->tokens[token].escaped |= *s->p == '\\';
      if (!scan_special (s))
        return FALSE;
    }
  end_token (s, token);
  s->p++;
  return TRUE;
}

static gboolean
scan_digits (Scan *s, const char *expected)
{
  if (!at_digit (s))
    return fail_expected (s, expected);
  while (at_digit (s))
    s->p++;
  return TRUE;
}

static gboolean
scan_whole (Scan *s)
{
  const char *first = s->p;

  if (!scan_digits (s, N_("a digit")))
    return FALSE;
  if (*first == '0' && s->p - first > 1)
    return fail (s, first, RW_FILE_ERROR_SYNTAX, _("a number that begins with 0; leave out the zeros in front"));
  return TRUE;
}

static gboolean
scan_exponent (Scan *s)
{
  if (!at (s, 'e') && !at (s, 'E'))
    return TRUE;
  s->p++;
  if (at (s, '+') || at (s, '-'))
    s->p++;
  return scan_digits (s, N_("the digits of an exponent"));
}

static gboolean
check_finite (Scan *s, guint token)
{
  const RwJsonToken *t = &s->json->tokens[token];

  if ((t->extent < SAFE_NUMBER_LENGTH && !t->real) || isfinite (rw_json_real (s->json, token)))
    return TRUE;
  return fail (s, s->start + t->offset, RW_FILE_ERROR_LIMIT,
               _("a number too large to be held; it must be under 1.8e308"));
}

static gboolean
scan_number (Scan *s)
{
  guint token = push (s, RW_JSON_NUMBER, s->p);
  const char *whole_end;

  if (at (s, '-'))
    s->p++;
  if (!scan_whole (s))
    return FALSE;
  whole_end = s->p;
  if (at (s, '.'))
    {
      s->p++;
      if (!scan_digits (s, N_("a digit after the decimal point")))
        return FALSE;
    }
  if (!scan_exponent (s))
    return FALSE;
  s->json->tokens[token].real = s->p > whole_end;
  end_token (s, token);
  return check_finite (s, token);
}

static gboolean
scan_literal (Scan *s, const char *word, RwJsonType type)
{
  gsize length = strlen (word);

  if ((gsize) (s->end - s->p) < length || memcmp (s->p, word, length) != 0)
    return fail_expected (s, N_("a value: an object, an array, a string, a number, true, false or null"));
  push (s, type, s->p);
  s->p += length;
  end_token (s, s->json->n - 1);
  return TRUE;
}

static gboolean
scan_member (Scan *s)
{
  skip_space (s);
  if (!at (s, '"'))
    return fail_expected (s, N_("a member name in double quotes"));
  if (!scan_string (s))
    return FALSE;
  skip_space (s);
  if (!at (s, ':'))
    return fail_expected (s, N_("“:” after a member name"));
  s->p++;
  return scan_value (s);
}

static gboolean
check_names (Scan *s, guint object)
{
  gsize repeated = rw_json_repeated_name (s->json, object);

  if (repeated == 0)
    return TRUE;
  s->json->tokens[object].extent = 0; /* open again, for the path */
  return fail (s, s->start + repeated - 1, RW_FILE_ERROR_SYNTAX,
               _("this name stands twice in one object; each name may stand once"));
}

/* Reads "one, one, one]" after the opening bracket. */
static gboolean
scan_list (Scan *s, char close, gboolean (*one) (Scan *), const char *expected)
{
  skip_space (s);
  if (at (s, close))
    return TRUE;
  for (;;)
    {
      if (!one (s))
        return FALSE;
      skip_space (s);
      if (at (s, close))
        return TRUE;
      if (!at (s, ','))
        return fail_expected (s, expected);
      s->p++;
    }
}

static gboolean
scan_container (Scan *s)
{
  gboolean is_object = *s->p == '{';
  guint token = push (s, is_object ? RW_JSON_OBJECT : RW_JSON_ARRAY, s->p);

  if (s->depth == RW_JSON_MAX_DEPTH)
    return fail (s, s->p, RW_FILE_ERROR_LIMIT, _("arrays and objects may stand at most %d deep"), RW_JSON_MAX_DEPTH);
  s->depth++;
  s->p++;
  if (!scan_list (s, is_object ? '}' : ']', is_object ? scan_member : scan_value,
                  is_object ? N_("“,” or “}” after a member") : N_("“,” or “]” after an element")))
    return FALSE;
  s->p++;
  s->depth--;
  s->json->tokens[token].extent = s->json->n;
  return !is_object || check_names (s, token);
}

static gboolean
scan_value (Scan *s)
{
  skip_space (s);
  switch (s->p < s->end ? *s->p : '\0')
    {
    case '{':
    case '[':
      return scan_container (s);
    case '"':
      return scan_string (s);
    case 't':
      return scan_literal (s, "true", RW_JSON_TRUE);
    case 'f':
      return scan_literal (s, "false", RW_JSON_FALSE);
    case 'n':
      return scan_literal (s, "null", RW_JSON_NULL);
    default:
      if (at (s, '-') || at_digit (s))
        return scan_number (s);
      return scan_literal (s, "a value", RW_JSON_NULL); /* which never stands there: says what would */
    }
}

static gboolean
scan_text (Scan *s)
{
  /* RFC 8259 8.1: a parser may ignore a byte order mark; some editors write one unasked. */
  if (s->end - s->p >= 3 && memcmp (s->p, "\xef\xbb\xbf", 3) == 0)
    s->p += 3;
  if (!scan_value (s))
    return FALSE;
  skip_space (s);
  return s->p == s->end || fail_expected (s, N_("the end of the file after the outermost value"));
}

/**
 * rw_json_scan:
 * @json: (out caller-allocates): becomes the tokens of the text; to be cleared only where this succeeds
 * @data: a text, not ended by NUL; it must outlive @json
 * @length: its bytes
 * @error: RW_FILE_ERROR_SYNTAX or RW_FILE_ERROR_LIMIT, with line and column
 *
 * Checks that a text is JSON by RFC 8259, without any of the liberties that parsers commonly take:
 * its grammar, valid UTF-8, no name twice in an object, no half surrogate pair, no number beyond a
 * double, nesting and size within the limits above. A byte order mark in front is ignored.
 */
gboolean
rw_json_scan (RwJson *json, const char *data, gsize length, GError **error)
{
  Scan s = { .json = json, .start = data, .p = data, .end = data + length, .error = error };

  g_return_val_if_fail (data != NULL, FALSE);

  *json = (RwJson){ .data = data };
  if (length > RW_JSON_MAX_BYTES)
    {
      g_set_error (error, RW_FILE_ERROR, RW_FILE_ERROR_LIMIT, _("larger than %u MiB, the most that a rig file may be"),
                   RW_JSON_MAX_BYTES / 1024 / 1024);
      return FALSE;
    }
  s.room = (guint) (length / 12 + 16); /* typical of rigs: grown once at most */
  json->tokens = g_new (RwJsonToken, s.room);
  if (scan_text (&s))
    return TRUE;
  rw_json_clear (json);
  return FALSE;
}

void
rw_json_clear (RwJson *json)
{
  g_clear_pointer (&json->tokens, g_free);
  json->n = 0;
}
