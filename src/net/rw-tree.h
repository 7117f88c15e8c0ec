/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

typedef enum
{
  RW_TREE_ROLE_NONE,       /* no switch with spanning tree, or nothing plugged in that carries */
  RW_TREE_ROLE_ROOT,
  RW_TREE_ROLE_DESIGNATED,
  RW_TREE_ROLE_BLOCKED,    /* alternate or backup */
} RwTreeRole;

typedef struct
{
  guint root;      /* device: root of the tree that this switch is in; RW_NONE = takes no part */
  guint root_port; /* port towards it; RW_NONE on the root itself */
  guint64 cost;    /* of the way to the root */
  guint depth;     /* spanning-tree bridges passed from the root, itself not counted */
  guint above;     /* device: the next bridge towards the root; RW_NONE on the root itself */
} RwTreeBridge;

/* The spanning trees of all switches that run it, one for each set of them that is wired together. */
typedef struct
{
  guint n_devices, n_ports;
  RwTreeBridge *bridges; /* by device */
  RwTreeRole *roles;     /* by port */
} RwTree;

RwTree *rw_tree_new (const RwNet *net);
RwTree *rw_tree_new_without (const RwNet *net, const gboolean *dead);
void rw_tree_free (RwTree *tree);
guint rw_tree_port_cost (int speed_mbps);

const RwTree *rw_net_tree (const RwNet *net);

G_END_DECLS
