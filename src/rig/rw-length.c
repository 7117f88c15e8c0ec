/* SPDX-License-Identifier: MIT */
#include "rw-length.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "rw-error.h"

#define INCHES_A_FOOT 12
#define METRES_AN_INCH (RW_METRES_A_FOOT / INCHES_A_FOOT)

static const char *const words[RW_N_UNITS] = { [RW_UNITS_METRES] = "m", [RW_UNITS_FEET] = "ft" };

static int chosen = RW_UNITS_METRES;

void
rw_length_set_units (RwUnits units)
{
  g_return_if_fail ((guint) units < RW_N_UNITS);

  g_atomic_int_set (&chosen, (int) units);
}

RwUnits
rw_length_units (void)
{
  return (RwUnits) g_atomic_int_get (&chosen);
}

/* rw_units_word: on the command line and in settings: "m", "ft". */
const char *
rw_units_word (RwUnits units)
{
  return words[units];
}

/* rw_units_find: by its word; FALSE = there is none. */
gboolean
rw_units_find (const char *word, RwUnits *units)
{
  for (guint i = 0; i < RW_N_UNITS; i++)
    if (g_strcmp0 (words[i], word) == 0)
      {
        *units = (RwUnits) i;
        return TRUE;
      }
  return FALSE;
}

/* To the nearest inch: "41′", "8′ 6″", "8″". */
static char *
feet_text (double metres)
{
  gint64 all = (gint64) round (fabs (metres) / METRES_AN_INCH);
  gint64 feet = all / INCHES_A_FOOT, inches = all % INCHES_A_FOOT;
  const char *sign = metres < 0 && all > 0 ? "−" : "";

  if (feet == 0)
    return g_strdup_printf ("%s%" G_GINT64_FORMAT "″", sign, inches);
  if (inches == 0)
    return g_strdup_printf ("%s%" G_GINT64_FORMAT "′", sign, feet);
  return g_strdup_printf ("%s%" G_GINT64_FORMAT "′ %" G_GINT64_FORMAT "″", sign, feet, inches);
}

/**
 * rw_length_number:
 *
 * Returns: (transfer full): a length under a heading of rw_length_heading(): "12.5", "41′"
 */
char *
rw_length_number (double metres)
{
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (rw_length_units () == RW_UNITS_FEET)
    return feet_text (metres);
  return g_strdup (g_ascii_formatd (number, sizeof number, "%.10g", metres));
}

/**
 * rw_length_text:
 *
 * Returns: (transfer full): a length with its unit, in those that the person chose: "12.5 m", "41′"
 */
char *
rw_length_text (double metres)
{
  g_autofree char *number = rw_length_number (metres);

  if (rw_length_units () == RW_UNITS_FEET)
    return g_steal_pointer (&number);
  /* Translators: a length in metres. */
  return g_strdup_printf (_("%s m"), number);
}

/* rw_length_heading: "Length, m", or "Length" where each length shows its unit. */
const char *
rw_length_heading (const char *in_metres, const char *bare)
{
  return rw_length_units () == RW_UNITS_FEET ? bare : in_metres;
}

/* The signs that may stand behind a number: of those that begin alike the longest first. @metres: of one of them. */
static const struct { const char *sign; double metres; } signs[] = {
  { "metres", 1 }, { "meters", 1 }, { "metre", 1 }, { "meter", 1 }, { "mm", 0.001 }, { "m", 1 }, { "cm", 0.01 },
  { "feet", RW_METRES_A_FOOT }, { "foot", RW_METRES_A_FOOT }, { "ft", RW_METRES_A_FOOT },
  { "'", RW_METRES_A_FOOT }, { "′", RW_METRES_A_FOOT }, { "’", RW_METRES_A_FOOT },
  { "inches", METRES_AN_INCH }, { "inch", METRES_AN_INCH }, { "in", METRES_AN_INCH },
  { "\"", METRES_AN_INCH }, { "″", METRES_AN_INCH }, { "”", METRES_AN_INCH },
};

static double
take_sign (const char **at)
{
  for (guint i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_ascii_strncasecmp (*at, signs[i].sign, strlen (signs[i].sign)) == 0)
      {
        *at += strlen (signs[i].sign);
        return signs[i].metres;
      }
  return 0;
}

static gboolean
no_length (GError **error)
{
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_TYPE, _("must be a length, such as 70, 70 m, 229 ft 8 in or 229' 8\""));
  return FALSE;
}

/* More likely a slip of the hand than 11′ 1″. */
static gboolean
too_many_inches (GError **error)
{
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("must have fewer than 12 inches behind the feet"));
  return FALSE;
}

static const char *
skip_blanks (const char *at)
{
  while (g_ascii_isspace (*at))
    at++;
  return at;
}

static gboolean
is_imperial (double unit)
{
  return unit == RW_METRES_A_FOOT || unit == METRES_AN_INCH;
}

/* Of very many digits strtod makes infinity, which is longer than any cable; the word for it is no length. */
static gboolean
is_counted (const char *end, double number)
{
  return isfinite (number) || (isinf (number) && g_ascii_isdigit (end[-1]));
}

/* What a number without a unit is; 0 behind another number, which says what it is itself. */
static double
take_unit (const char **at, double before, RwUnits bare)
{
  if (**at != '\0')
    return take_sign (at);
  if (before != 0)
    return 0;
  return bare == RW_UNITS_FEET ? RW_METRES_A_FOOT : 1;
}

/**
 * rw_length_parse:
 * @text: "70", "70 m", "229 ft 8 in", "229' 8\"": behind feet inches may stand, fewer than make a foot; behind nothing
 *   else another number. A minus before feet is one before their inches
 * @bare: what a number without a unit is
 * @metres: (out): the length. What was typed in feet or inches is rounded to a hundredth of a millimetre, so that it
 *   comes back as it was typed
 * @error: RW_RIG_ERROR_TYPE where @text is no length, _RANGE where the inches behind feet make a foot or more
 *
 * Returns: FALSE with @error set
 */
gboolean
rw_length_parse (const char *text, RwUnits bare, double *metres, GError **error)
{
  const char *at = text;
  double before = 0, way = 1;

  *metres = 0;
  while (*(at = skip_blanks (at)) != '\0')
    {
      char *end;
      double number = g_ascii_strtod (at, &end), unit;

      if (end == at || !is_counted (end, number) || (before != 0 && signbit (number)))
        return no_length (error);
      at = skip_blanks (end);
      unit = take_unit (&at, before, bare);
      if (unit == 0 || (before != 0 && !(before == RW_METRES_A_FOOT && unit == METRES_AN_INCH)))
        return no_length (error);
      if (before != 0 && number >= INCHES_A_FOOT)
        return too_many_inches (error);
      if (before == 0 && signbit (number))
        way = -1;
      *metres += fabs (number) * unit;
      before = unit;
    }
  if (before == 0)
    return no_length (error);
  *metres = way * (is_imperial (before) ? round (*metres * 1e5) / 1e5 : *metres);
  return TRUE;
}
