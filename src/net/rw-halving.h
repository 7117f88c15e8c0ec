/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

/* A link falls with whichever of its owners fails. */
typedef struct
{
  guint node[2];
  guint owner[3]; /* RW_NONE = none */
} RwHalvingLink;

typedef struct _RwHalving RwHalving;

/* Whether @need, a number of the asker's, is met by the sets as they are. */
typedef gboolean (*RwHalvingMetFunc) (const RwHalving *halving, guint need);
/* Told of each owner once, when all links but its own are joined, with the @needs that are not met. */
typedef void (*RwHalvingJudgeFunc) (const RwHalving *halving, guint owner, const guint *needs, guint n);

/**
 * RwHalving: for each of some owners in turn, what still hangs together when all its links are gone. The owners are
 * halved again and again, and on the way to one half the links go in that nobody there owns. A link is handed down
 * at most three ways, and a need only until it is met, so the work is n log² n.
 */
struct _RwHalving
{
  guint n_nodes, n_links, n_owners, n_needs;
  const RwHalvingLink *links;
  const guint *needs;
  RwHalvingMetFunc is_met;
  RwHalvingJudgeFunc judge;
  gpointer data;   /* the asker's */
  guint n_sets;    /* that the nodes are in at present */
  guint *parents;  /* sets without path halving, so that joins can be undone, last first */
  guint *sizes;
  guint *joins;    /* heads that came under another */
};

void rw_halving_run (RwHalving *halving);
guint rw_halving_find (const RwHalving *halving, guint node);

G_END_DECLS
