/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-id-map.h>

#include "rw-forecast.h"
#include "rw-net.h"
#include "rw-rows.h"
#include "rw-tree.h"

G_BEGIN_DECLS

/* What frames with @tag on the wire meet behind a port. */
typedef struct
{
  int tag;
  guint node;
} RwNetMember;

/* A run of the members array, by ascending tag. Ports of one chain device or converter share theirs. */
typedef struct
{
  guint first, n;
} RwNetMembers;

struct _RwNetPrivate
{
  gatomicrefcount refs;
  RwIdMap device_ids;          /* id → index + 1 */
  RwIdMap cable_ids;
  RwIdMap *port_names;         /* by part: name → index + 1 */
  guint *device_part;          /* by device */
  RwNetMembers *port_members;  /* by port */
  RwNetMember *members;
  guint *node_place;           /* by node: where it stands in its network's nodes */
  guint *link_place;           /* by link: likewise */
  RwRows *rows;
  RwTree *tree;
  RwForecast *forecast;
  GPtrArray *parts;            /* of RwPart */
  GPtrArray *indices;           /* the arrays behind the slices */
};

/* What was looked for last, and before that: items that follow each other mostly name one device, two by turns, or one
 * after the other, so that nearly all are found without their ids being hashed. */
typedef struct
{
  const char *ids[2]; /* the last first; borrowed from the items */
  guint devices[2];
} RwNetGuess;
#define RW_NET_NO_GUESS { { "", "" }, { RW_NONE, RW_NONE } }

/* rw-net.c */
guint rw_net_guess_device (const RwNet *net, const char *id, RwNetGuess *guess);
int rw_net_port_index (const RwNet *net, guint device, const char *port);
const guint *rw_net_keep_indices (RwNet *net, GArray *indices);

static inline void
rw_slice_place (RwSlice *slice, const guint **next)
{
  slice->v = *next;
  *next += slice->n;
}

static inline const RwNetMember *
rw_net_port_members (const RwNet *net, guint port, guint *n)
{
  const RwNetMembers *run = &net->priv->port_members[port];

  *n = run->n;
  return net->priv->members + run->first;
}

/* Passes every tag on unchanged. */
static inline gboolean
rw_net_device_passes (const RwNetDevice *device)
{
  return device->forwards ? device->part->kind == RW_PART_CONVERTER : device->mode == RW_MODE_CHAIN;
}

/* rw-net-networks.c */
guint rw_net_find_components (const RwNet *net, guint *numbers);

/* The steps of rw_net_new(), in their order. */
void rw_net_add_nodes (RwNet *net);
void rw_net_add_links (RwNet *net);
void rw_net_add_networks (RwNet *net);
void rw_net_add_loops (RwNet *net);

G_END_DECLS
