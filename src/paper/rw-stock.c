/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <math.h>
#include <rig/rw-length.h>
#include <string.h>

#include "rw-papers.h"

/* Lengths that hire stock usually holds where it is told in metres and where in feet (common practice). 0 = no more. */
#define MOST_USUAL 12
static const double usual[RW_N_UNITS][RW_N_STOCK_MEDIA][MOST_USUAL] = {
  [RW_UNITS_METRES] = {
    [RW_MEDIUM_COPPER] = { 1, 2, 3, 5, 10, 15, 20, 30, 50, 75, 90 },
    [RW_MEDIUM_MULTIMODE] = { 5, 10, 20, 50, 100, 150, 200, 300 },
    [RW_MEDIUM_SINGLEMODE] = { 5, 10, 50, 100, 200, 300, 500, 1000 },
  },
  [RW_UNITS_FEET] = {
    [RW_MEDIUM_COPPER] = { 3, 6, 10, 15, 25, 50, 75, 100, 150, 200, 250, 300 },
    [RW_MEDIUM_MULTIMODE] = { 15, 25, 50, 100, 200, 300, 500, 1000 },
    [RW_MEDIUM_SINGLEMODE] = { 15, 25, 100, 300, 500, 1000, 2000, 3000 },
  },
};

static RwStock *
stock_empty (void)
{
  RwStock *stock = g_new0 (RwStock, 1);

  for (guint i = 0; i < G_N_ELEMENTS (stock->lengths); i++)
    stock->lengths[i] = g_array_new (FALSE, FALSE, sizeof (RwStockLength));
  stock->spares_percent = 10;
  return stock;
}

static void
add_usual (RwStock *stock, RwMedium medium, RwUnits units)
{
  double metres = units == RW_UNITS_FEET ? RW_METRES_A_FOOT : 1;

  for (guint i = 0; i < MOST_USUAL && usual[units][medium][i] > 0; i++)
    {
      RwStockLength length = { round (usual[units][medium][i] * metres * 1e5) / 1e5, RW_PULL_ANY };

      g_array_append_val (stock->lengths[medium], length);
    }
}

/**
 * rw_stock_new: the usual lengths in the units that lengths are shown in, as many of each as are asked for, and a tenth
 * of spares. (transfer full).
 */
RwStock *
rw_stock_new (void)
{
  RwStock *stock = stock_empty ();

  for (guint i = 0; i < RW_N_STOCK_MEDIA; i++)
    add_usual (stock, (RwMedium) i, rw_length_units ());
  return stock;
}

static gboolean
parse_medium (const char *item, const char **rest, int *medium)
{
  const char *colon = strchr (item, ':');

  *rest = colon != NULL ? colon + 1 : item;
  if (colon == NULL)
    return TRUE;
  for (guint i = 0; rw_media_words[i] != NULL; i++)
    if (strlen (rw_media_words[i]) == (gsize) (colon - item) && strncmp (rw_media_words[i], item, colon - item) == 0)
      {
        *medium = (int) i;
        return TRUE;
      }
  return FALSE;
}

/* "20x12", "20", "50 ftx4". */
static gboolean
parse_length (const char *text, RwStockLength *length)
{
  g_auto (GStrv) parts = g_strsplit (text, "x", 2);
  char *end;
  gint64 n;

  length->count = RW_PULL_ANY;
  if (parts[0] == NULL || !rw_length_parse (parts[0], RW_UNITS_METRES, &length->length_m, NULL)
      || !(length->length_m > 0 && length->length_m <= 100000))
    return FALSE;
  if (parts[1] == NULL)
    return TRUE;
  n = g_ascii_strtoll (parts[1], &end, 10);
  if (end == parts[1] || *end != '\0' || n < 0 || n > 100000)
    return FALSE;
  length->count = (int) n;
  return TRUE;
}

/**
 * rw_stock_parse: reads "copper:5x20,10x12,multimode:100x4": lengths, in metres where they have no other
 * unit, each with how many there are; without a count as many as are asked for. A medium holds for what follows it; copper comes first. What is not named is not in
 * stock.
 *
 * Returns: (transfer full) (nullable): NULL: @error says what cannot be read
 */
RwStock *
rw_stock_parse (const char *text, GError **error)
{
  g_auto (GStrv) items = g_strsplit (text, ",", -1);
  g_autoptr (RwStock) stock = stock_empty ();
  int medium = RW_MEDIUM_COPPER;

  for (guint i = 0; items[i] != NULL; i++)
    {
      const char *rest;
      RwStockLength length;

      g_strstrip (items[i]);
      if (!parse_medium (items[i], &rest, &medium) || !parse_length (rest, &length))
        {
          /* Translators: what was typed. */
          g_set_error (error, RW_PAPER_ERROR, RW_PAPER_ERROR_SIZE,
                       _("“%s” is no stock: write lengths in metres and counts, such as copper:5x20,10x12,multimode:100x4"), items[i]);
          return NULL;
        }
      g_array_append_val (stock->lengths[medium], length);
    }
  return g_steal_pointer (&stock);
}

/**
 * rw_stock_text: what rw_stock_parse() reads as @stock, but for the spares. Free with g_free().
 */
char *
rw_stock_text (const RwStock *stock)
{
  GString *text = g_string_new (NULL);

  for (guint medium = 0; medium < G_N_ELEMENTS (stock->lengths); medium++)
    for (guint i = 0; i < stock->lengths[medium]->len; i++)
      {
        const RwStockLength *length = &g_array_index (stock->lengths[medium], RwStockLength, i);
        char number[G_ASCII_DTOSTR_BUF_SIZE];

        g_string_append_printf (text, "%s%s%s%s", text->len > 0 ? "," : "", i == 0 ? rw_media_words[medium] : "", i == 0 ? ":" : "",
                                g_ascii_formatd (number, sizeof number, "%.10g", length->length_m));
        if (length->count != RW_PULL_ANY)
          g_string_append_printf (text, "x%d", length->count);
      }
  return g_string_free (text, FALSE);
}

RwStock *
rw_stock_copy (const RwStock *stock)
{
  RwStock *copy = g_new0 (RwStock, 1);

  for (guint i = 0; i < G_N_ELEMENTS (copy->lengths); i++)
    copy->lengths[i] = g_array_copy (stock->lengths[i]);
  copy->spares_percent = stock->spares_percent;
  return copy;
}

void
rw_stock_free (RwStock *stock)
{
  if (stock == NULL)
    return;
  for (guint i = 0; i < G_N_ELEMENTS (stock->lengths); i++)
    g_array_unref (stock->lengths[i]);
  g_free (stock);
}
