/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-table.h"

G_BEGIN_DECLS

/* How a column is marked on paper; in CSV it is empty or left out. */
typedef enum
{
  RW_MARK_NONE,
  RW_MARK_TICK,     /* a box to tick in each row; only on paper */
  RW_MARK_BLANK,    /* room to write; only on paper */
  RW_MARK_BALLOON,  /* the number of a finding, drawn as its balloon */
} RwMark;

typedef struct
{
  RwColumn column; /* its head is translated already and static */
  RwMark mark;
} RwListingColumn;

typedef struct
{
  char **cells;
  char *link;  /* (nullable): place in the papers to which the row leads */
  char *place; /* (nullable): name of this row as a place */
  int grade;   /* RW_MARK_BALLOON: RwSeverity */
  gboolean without_ticks; /* RW_MARK_TICK: there is nothing to do in this row */
  gboolean warned;        /* whoever does this needs the caution of its block on the same sheet */
} RwListingRow;

/**
 * RwListing: a table of the papers as plain data: what is printed and what is written as CSV.
 * @name: of its CSV file, without ".csv"; NULL = it is none
 * @title: (nullable): stands over it
 * @empty: (nullable): said instead where it has no rows
 */
typedef struct
{
  char *name;
  char *title;
  const char *empty;
  guint n_columns;
  RwListingColumn *columns;
  GPtrArray *rows; /* of RwListingRow */
} RwListing;

RwListing *rw_listing_new (const char *name, const char *title, const RwListingColumn *columns, guint n_columns);
void rw_listing_free (RwListing *listing);
/* Takes one newly made text a column, in their order, NULL = empty; ended by RW_LISTING_END. */
RwListingRow *rw_listing_take (RwListing *listing, ...);
#define RW_LISTING_END ((char *) -1)
gboolean rw_listing_warns (const RwListing *listing, guint first, guint n);
RwTableLayout *rw_listing_layout (const RwListing *listing, RwDrawContext *context, double em);
char *rw_listing_csv (const RwListing *listing);

G_END_DECLS
