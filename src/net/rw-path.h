/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-tree.h"

G_BEGIN_DECLS

/**
 * RwPaths: the ways that frames take: each network's links without those that a spanning tree blocks, and
 * without those that close a loop which nothing opens. What is left has no loops, so each way is the only one.
 */
typedef struct
{
  guint n_nodes;
  guint *parent_link; /* by node: link towards the root of its part; RW_NONE at the root */
  guint *parent;      /* by node */
  guint *depth;       /* by node: links to the root of its part */
  guint *part;        /* by node: nodes of one part reach each other */
  guint n_parts;
  guint *order;       /* nodes, each after its parent */
  gboolean *active;   /* by link */
} RwPaths;

RwPaths *rw_paths_new (const RwNet *net);
void rw_paths_free (RwPaths *paths);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwPaths, rw_paths_free)

gboolean rw_paths_find (const RwNet *net, const RwPaths *paths, guint from, guint to, GArray *links);
guint rw_net_host_node (const RwNet *net, guint device, guint network);
gboolean rw_net_has_host (const RwNet *net, guint device);
guint rw_paths_hops (const RwNet *net, guint from, const GArray *links);
GArray *rw_paths_distances (const RwNet *net, const RwPaths *paths, guint from);

/* rw-frame.c: what one packet is on the wire. */
typedef struct
{
  double packet_time_ns;
  guint frame_bytes; /* destination address to frame check sequence, untagged */
} RwFrame;
RwFrame rw_frame_of (int sample_rate_hz, int word_bits, int packet_time_us, guint channels);
guint rw_payload_bytes (int sample_rate_hz, int word_bits, int packet_time_us, guint channels);
guint rw_frame_bits (guint frame_bytes);
guint rw_frame_slot_bits (guint frame_bytes);
double rw_frame_mbps (RwFrame frame);
#define RW_MAX_FRAME_BYTES 1518
#define RW_VLAN_TAG_BYTES 4

G_END_DECLS
