/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-forecast.h>
#include <net/rw-rows.h>
#include <net/rw-survival.h>

#include "rw-out-json.h"

G_BEGIN_DECLS

/* One way of frames between two devices, in one network. */
typedef struct
{
  guint network, from, to; /* from, to: devices */
  guint from_node, to_node;
  double delay_ns;
} RwFactsPath;

/* What the command tells of a rig, gathered; JSON and text are made from it. */
typedef struct
{
  RwRig *rig;
  RwNet *net;
  RwSurvival *survival;
  GArray *networks; /* of guint: those that a cable joins */
  GArray *paths;    /* of RwFactsPath: by talker, listener, network */
  guint from, to;   /* devices between which the path was asked for; RW_NONE = those of the patch */
  gboolean list;    /* name what each failure costs, rather than count it */
} RwFacts;

RwFacts *rw_facts_new (RwRig *rig, const char *from, const char *to);
void rw_facts_free (RwFacts *facts);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwFacts, rw_facts_free)

char *rw_facts_network_id (const RwFacts *facts, guint network);
char **rw_facts_ids (const RwFacts *facts, RwSlice indices, gboolean cables);
GArray *rw_facts_way (const RwFacts *facts, const RwFactsPath *path);
guint rw_facts_hops (const RwFacts *facts, const RwFactsPath *path);
char **rw_facts_cables_of (const RwFacts *facts, const RwFactsPath *path);
void rw_facts_lost (const RwFacts *facts, guint device, guint cable, char ***rows, char ***devices);

/* Root and depth of the spanning tree in a network; FALSE = no switch of it takes part in one. */
gboolean rw_facts_tree (const RwFacts *facts, guint network, guint *root, guint *depth, GArray *blocked);

void rw_facts_to_json (const RwFacts *facts, RwOut *out);
void rw_facts_to_text (const RwFacts *facts, GString *text);

G_END_DECLS
