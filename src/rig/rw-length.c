/* SPDX-License-Identifier: MIT */
#include "rw-length.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define METRES_AN_INCH 0.0254 /* exactly: international yard and pound agreement, 1959: a foot is 0.3048 m */
#define INCHES_A_FOOT 12

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
