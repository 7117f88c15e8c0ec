/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Cables of one length in stock; all of one medium. */
typedef struct
{
  double length_m; /* above 0 */
  int count;       /* RW_PULL_ANY = as many as are asked for */
} RwStockLength;
#define RW_PULL_ANY (-1)
#define RW_PULL_NONE G_MAXUINT

/* A cable that is wanted. */
typedef struct
{
  double length_m; /* above 0 */
  double reach_m;  /* two cables that are joined may not be longer together; 0 = never join */
} RwPullNeed;

/* What is taken for a need: indices into the stock; @first RW_PULL_NONE = nothing is there, @second RW_PULL_NONE = one
 * cable is enough. */
typedef struct
{
  guint first, second;
} RwPullChoice;

/**
 * RwPull: which stock cables to take.
 * @choices: one a need
 * @n_met: needs that are served
 * @waste_m: what the cables taken are longer than the needs that they serve, in all
 * @exact: no other choice serves as many needs with less waste; FALSE only where so many joined cables have to be found
 *   that the search was cut short
 */
typedef struct
{
  RwPullChoice *choices;
  guint n_needs;
  guint n_met;
  double waste_m;
  gboolean exact;
} RwPull;

RwPull *rw_pull_new (const RwStockLength *stock, guint n_stock, const RwPullNeed *needs, guint n_needs);
void rw_pull_free (RwPull *pull);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwPull, rw_pull_free)

G_END_DECLS
