/* SPDX-License-Identifier: MIT */
#include "rw-listing.h"

#include <file/rw-csv-write.h>

static void
row_free (gpointer data)
{
  RwListingRow *row = data;

  g_strfreev (row->cells);
  g_free (row->link);
  g_free (row->place);
  g_free (row);
}

/**
 * rw_listing_new: a table without rows. @name, @title: (nullable), copied.
 */
RwListing *
rw_listing_new (const char *name, const char *title, const RwListingColumn *columns, guint n_columns)
{
  RwListing *listing = g_new0 (RwListing, 1);

  listing->name = g_strdup (name);
  listing->title = g_strdup (title);
  listing->n_columns = n_columns;
  listing->columns = g_memdup2 (columns, n_columns * sizeof *columns);
  listing->rows = g_ptr_array_new_with_free_func (row_free);
  return listing;
}

void
rw_listing_free (RwListing *listing)
{
  if (listing == NULL)
    return;
  g_free (listing->name);
  g_free (listing->title);
  g_free (listing->columns);
  g_ptr_array_unref (listing->rows);
  g_free (listing);
}

/**
 * rw_listing_take: adds a row. (transfer none): for a link and a place to be put into it.
 */
RwListingRow *
rw_listing_take (RwListing *listing, ...)
{
  RwListingRow *row = g_new0 (RwListingRow, 1);
  va_list args;

  row->cells = g_new0 (char *, listing->n_columns + 1);
  va_start (args, listing);
  for (guint i = 0; i < listing->n_columns; i++)
    {
      char *cell = va_arg (args, char *);

      g_assert (cell != RW_LISTING_END);
      row->cells[i] = cell != NULL ? cell : g_strdup ("");
    }
  g_assert (va_arg (args, char *) == RW_LISTING_END);
  va_end (args);
  g_ptr_array_add (listing->rows, row);
  return row;
}

/**
 * rw_listing_warns: whether one of the @n rows from @first on needs the caution of its block; rows behind the last count for nothing.
 */
gboolean
rw_listing_warns (const RwListing *listing, guint first, guint n)
{
  for (guint r = first; r < listing->rows->len && r - first < n; r++)
    if (((const RwListingRow *) listing->rows->pdata[r])->warned)
      return TRUE;
  return FALSE;
}

/**
 * rw_listing_layout: the table for paper; ticks and balloons are drawn into its empty cells. (transfer full).
 */
RwTableLayout *
rw_listing_layout (const RwListing *listing, RwDrawContext *context, double em)
{
  g_autofree RwColumn *columns = g_new (RwColumn, listing->n_columns);
  RwTableLayout *table;

  for (guint i = 0; i < listing->n_columns; i++)
    columns[i] = listing->columns[i].column;
  table = rw_table_layout_new (context, em, columns, listing->n_columns);
  for (guint r = 0; r < listing->rows->len; r++)
    {
      const RwListingRow *row = listing->rows->pdata[r];
      g_autofree const char **cells = g_new0 (const char *, listing->n_columns + 1);

      for (guint i = 0; i < listing->n_columns; i++)
        cells[i] = listing->columns[i].mark == RW_MARK_BALLOON ? "" : row->cells[i];
      rw_table_layout_add (table, cells, row->link);
    }
  return table;
}

static gboolean
in_csv (const RwListingColumn *column)
{
  return column->mark != RW_MARK_TICK && column->mark != RW_MARK_BLANK;
}

static void
append (GString *text, const RwListing *listing, char *const *cells)
{
  g_autoptr (GPtrArray) row = g_ptr_array_new ();

  for (guint i = 0; i < listing->n_columns; i++)
    if (in_csv (&listing->columns[i]))
      g_ptr_array_add (row, cells != NULL ? cells[i] : (gpointer) listing->columns[i].column.head);
  g_ptr_array_add (row, NULL);
  rw_csv_append_row (text, (const char *const *) row->pdata, ',');
}

/**
 * rw_listing_csv: the table with its head as RFC 4180 text in UTF-8. Free with g_free().
 */
char *
rw_listing_csv (const RwListing *listing)
{
  GString *text = g_string_new (NULL);

  append (text, listing, NULL);
  for (guint i = 0; i < listing->rows->len; i++)
    append (text, listing, ((const RwListingRow *) listing->rows->pdata[i])->cells);
  return g_string_free (text, FALSE);
}
