/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-lca.h"
#include "rw-net.h"

G_BEGIN_DECLS

/**
 * RwBlocks: the block-cut forest of all networks, one tree for each. Its vertices are the net's nodes, and behind
 * them the blocks: sets of nodes that no single node parts. A node and a block are neighbours where the node is
 * in the block. What stands between two nodes in the tree is what parts them when it fails: nodes, and the
 * links that are a block of their own.
 */
typedef struct
{
  guint n_vertices, n_nodes; /* vertices from n_nodes on are blocks */
  guint *parent;  /* by vertex; RW_NONE = root. Where a network has a controller, one is its root */
  guint *depth;
  guint *order;   /* vertices, each after its parent */
  guint *bridge;  /* by vertex: the link, where it is a block of one link; else RW_NONE */
  RwLca *lca;
} RwBlocks;

RwBlocks *rw_blocks_new (const RwNet *net);
void rw_blocks_free (RwBlocks *blocks);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwBlocks, rw_blocks_free)

G_END_DECLS
