/* SPDX-License-Identifier: MIT */
#include "random-fields.h"

#include <string.h>

static guint
pick (GRand *rand, guint n)
{
  return (guint) g_rand_int_range (rand, 0, (gint32) n);
}

/* Any int, most of all those at which programs go wrong. */
int
random_fields_integer (GRand *rand)
{
  static const int edges[] = { 0, -1, 1, G_MAXINT, G_MININT, 4096, -4096, 99, 100 };

  return pick (rand, 2) == 0 ? edges[pick (rand, G_N_ELEMENTS (edges))] : (int) g_rand_int (rand);
}

static const char *
random_text (GRand *rand)
{
  static const char *const texts[] = {
    "", "plain", "two words", "quote \" backslash \\ slash /", "line\nbreak\ttab\r", "\x01\x1f control", "\x7f delete",
    "Bühne links — 48 V", "日本語", "مرحبا", "e\xcc\x81 combining", "\xf0\x9f\x8e\x9a beyond the first plane",
    "\xe2\x80\xa8 line separator", "\xef\xbb\xbf mark", "{\"not\": [1, 2]}", "0", "null", " space at both ends ",
  };

  return texts[pick (rand, G_N_ELEMENTS (texts))];
}

static int
allowed_integer (GRand *rand, const int *allowed)
{
  guint n = 0;

  while (allowed[n] != 0)
    n++;
  return allowed[pick (rand, n)];
}

static int
fitting_integer (GRand *rand, const RwField *field)
{
  int step = MAX (field->step, 1);

  if (field->allowed != NULL)
    return allowed_integer (rand, field->allowed);
  switch (pick (rand, 4))
    {
    case 0:
      return (int) field->min;
    case 1:
      return (int) field->max;
    default:
      return (int) (g_rand_double_range (rand, field->min, field->max) / step) * step;
    }
}

static double
fitting_real (GRand *rand, const RwField *field)
{
  static const double edges[] = { 0, 0.1, 1.0 / 3, 1e-5, 5e-324, 2.2250738585072014e-308, 12.5, 5.684341886080801e-14 };

  switch (pick (rand, 4))
    {
    case 0:
      return field->min;
    case 1:
      return field->max;
    case 2:
      return edges[pick (rand, G_N_ELEMENTS (edges))];
    default:
      return g_rand_double_range (rand, field->min, field->max);
    }
}

static RwPoint
fitting_point (GRand *rand, const RwField *field)
{
  double x = fitting_real (rand, field);

  return (RwPoint){ x, fitting_real (rand, field) };
}

static void
fill_points (GRand *rand, const RwField *field, RwPoints *points)
{
  points->n = pick (rand, 4);
  points->points = points->n > 0 ? g_new (RwPoint, points->n) : NULL;
  for (guint i = 0; i < points->n; i++)
    points->points[i] = fitting_point (rand, field);
}

static int
pick_word (GRand *rand, const RwField *field)
{
  return (int) pick (rand, g_strv_length ((char **) field->words));
}

/* Returns whether the field was filled. */
static gboolean
fill_field (GRand *rand, const RwField *field, gpointer place)
{
  switch (field->kind)
    {
    case RW_FIELD_TEXT:
      *(char **) place = g_strdup (strcmp (field->name, "identity") == 0 ? "00a0defffe01c2d3" : random_text (rand));
      return TRUE;
    case RW_FIELD_INTEGER:
      *(int *) place = fitting_integer (rand, field);
      return TRUE;
    case RW_FIELD_REAL:
      *(double *) place = fitting_real (rand, field);
      return TRUE;
    case RW_FIELD_BOOLEAN:
      *(int *) place = (int) pick (rand, 2);
      return TRUE;
    case RW_FIELD_WORD:
      *(int *) place = pick_word (rand, field);
      return TRUE;
    case RW_FIELD_POINT:
      *(RwPoint *) place = fitting_point (rand, field);
      return TRUE;
    case RW_FIELD_POINTS:
      fill_points (rand, field, place);
      return TRUE;
    case RW_FIELD_RECORD:
      random_fields_fill (rand, place, field->sub);
      return TRUE;
    case RW_FIELD_ID:
    case RW_FIELD_END:
    case RW_FIELD_SLOT:
    case RW_FIELD_PLACE:
    case RW_FIELD_RECORDS:
    case RW_FIELD_VLANS:
    case RW_FIELD_STATE:
      return FALSE; /* what refers to other things is the caller's */
    }
  g_return_val_if_reached (FALSE);
}

/**
 * random_fields_fill:
 * @rand: where chance comes from
 * @record: an empty record
 * @table: its table
 *
 * Gives about half of the fields that refer to nothing a value from all over their range.
 */
void
random_fields_fill (GRand *rand, gpointer record, const RwTable *table)
{
  for (guint i = 0; i < table->n_fields; i++)
    if (pick (rand, 2) == 0 && fill_field (rand, &table->fields[i], RW_FIELD_PTR (record, &table->fields[i])))
      ((RwRecord *) record)->present |= G_GUINT64_CONSTANT (1) << i;
}

/**
 * random_fields_add_extras:
 *
 * Adds one to three members that no table knows, of every JSON type, nested ones too.
 */
void
random_fields_add_extras (GRand *rand, gpointer record)
{
  static const char *const values[] = {
    "null", "true", "[]", "{}", "1.0", "-0", "1E+2", "12345678901234567890", "\"te\\u0000xt\\n\"", "[1,\"a\",2.50]",
    "[1,null]", "{\"a\":{\"b\":[[],[1],{\"c\":\"d\"}]}}", "0.1e-7",
  };
  guint n = 1 + pick (rand, 3);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *name = g_strdup_printf (i == 1 ? "x \"%u\" é" : "x-extra-%u", i);
      rw_record_add_extra (record, name, values[pick (rand, G_N_ELEMENTS (values))]);
    }
}
