/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-ahead.h>

#include "rw-reach.h"

G_BEGIN_DECLS

typedef struct _RwNet RwNet;

/* No such device, port, cable, node, network…: the null of every index here. */
#define RW_NONE G_MAXUINT

/* Tag of frames that carry no VLAN tag. */
#define RW_UNTAGGED 0

typedef struct
{
  const RwDevice *device;
  const RwPart *part;
  RwMode mode;          /* the one that holds; meaningless where @forwards */
  gboolean forwards;    /* a switch or converter: has no host that plays or listens */
  guint first_port, n_ports;
  guint first_node, n_nodes;
  guint n_audio_cables; /* with an end at it, each once, carrying or not */
  guint system;         /* its host's; RW_NONE without nodes, or where what forwards is in several */
  /* those that hold: its own, else the system's */
  int sample_rate_hz, word_bits, receive_latency_us, clock_domain;
  gboolean querier;
} RwNetDevice;

typedef struct
{
  guint device;
  const RwPort *port;
  guint cable;    /* the first in file order: the one that carries; RW_NONE = empty */
  guint n_cables; /* cable ends in this port */
} RwNetPort;

typedef struct
{
  const RwCable *cable;
  guint port[2];    /* [0] = from, [1] = to */
  gboolean audio;   /* neither end aux */
  gboolean carries; /* audio, first at both its ports, and these are two */
  gboolean twin;    /* it has no label, and others without one join the same two devices */
  guint first_link, n_links;
  RwRun run;        /* at the speed of its slower port */
} RwNetCable;

typedef enum
{
  RW_NODE_BRIDGE,    /* forwards between its ports, for one tag or one VLAN of a switch */
  RW_NODE_INTERFACE, /* of a redundant or single device: does not forward */
} RwNodeKind;

typedef struct
{
  guint device;
  RwNodeKind kind;
  int tag;       /* VLAN of a switch's node; tag of a chain device's or converter's; RW_UNTAGGED */
  RwSide side;   /* of an interface */
  gboolean host; /* a device's own host sits on it: interfaces, and untagged nodes in chain mode */
  guint network;
} RwNetNode;

/* A cable as one tag sees it: joins two nodes. */
typedef struct
{
  guint cable;
  guint node[2]; /* at the cable's from, at its to */
  int tag;       /* on the wire */
} RwNetLink;

typedef enum
{
  RW_PLANE_CHAIN = 1 << 0,
  RW_PLANE_PRIMARY = 1 << 1,
  RW_PLANE_SECONDARY = 1 << 2,
} RwPlanes;

/* A slice of one of the net's shared arrays of indices. */
typedef struct { const guint *v; guint n; } RwSlice;

typedef struct
{
  RwSlice nodes;   /* in order of device, then tag */
  RwSlice links;   /* in file order of their cables */
  RwSlice devices; /* each once, in file order */
  RwSlice cables;  /* each once, in file order */
  RwSlice vlans;   /* as int-in-guint: VLANs of its switches' nodes and tags, ascending, without untagged */
  RwPlanes planes;
  guint n_loops;   /* E − V + C over its bridging nodes and the links between them */
  gboolean storm;  /* one loop at least is not held open */
  guint system;
} RwNetwork;

/* One for each (network, closing cable). */
typedef struct
{
  guint network;
  guint cable;     /* the closing one */
  /* Cables drawn before it, from its from to its to, over the fewest links, each once; empty = two ports
     of one node. It holds @cable itself only where a trunk closes a loop with its own other VLANs. */
  RwSlice way;
  RwSlice devices; /* on the way from its from to its to, each once */
  gboolean held;   /* a spanning tree surely opens it */
  guint open_cable; /* held: the cable that the tree leaves blocked; else RW_NONE */
} RwLoop;

typedef struct
{
  RwSlice networks;
  RwSlice devices; /* with a node in one of its networks, in file order */
} RwNetSystem;

/**
 * RwNet: what layer 2 makes of a rig: computed whole by rw_net_new(), then only read. Indices are
 * dense; devices and cables have the index of their place in the file.
 * Networks are the sets of nodes that links join; a node without links is a network by itself. They are
 * ordered by their first node, and systems by their first network. It speaks of the rig as it was: it holds
 * references to the items, so that it stays readable, but is of no use after a change.
 */
struct _RwNet
{
  guint n_devices, n_ports, n_cables, n_nodes, n_links, n_networks, n_systems, n_loops;
  RwNetDevice *devices;
  RwNetPort *ports;
  RwNetCable *cables;
  RwNetNode *nodes;
  RwNetLink *links;
  RwNetwork *networks;
  RwNetSystem *systems;
  RwLoop *loops;     /* by network, then file order of the closing cable */
  /* compressed adjacency over nodes: links of node i, ascending, a link to itself once, are
     adjacency[adjacency_start[i] … adjacency_start[i + 1] - 1] */
  guint *adjacency_start;
  guint *adjacency;
  struct _RwNetPrivate *priv;
};

/* For each step of a walk over all devices that reads the member at @offset of their items: see rw_items_ahead(). */
static inline void
rw_net_fetch_ahead (const RwNet *net, guint device, gsize offset)
{
  if (device + RW_AHEAD_ITEM < net->n_devices)
    __builtin_prefetch ((const char *) net->devices[device + RW_AHEAD_ITEM].device + offset);
}

RwNet *rw_net_new (const RwRig *rig);
RwNet *rw_net_ref (RwNet *net);
void rw_net_unref (RwNet *net);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwNet, rw_net_unref)

guint rw_net_find_device (const RwNet *net, const char *id);
guint rw_net_find_cable (const RwNet *net, const char *id);
guint rw_net_find_port (const RwNet *net, const char *device, const char *port);
guint rw_net_port_node (const RwNet *net, guint port, int tag);
guint rw_net_other_node (const RwNet *net, guint link, guint node);
gboolean rw_net_shares_network (const RwNet *net, guint device_a, guint device_b);

/* Fewest links from @from to any node for which @is_goal: indices of links, or empty. */
typedef gboolean (*RwNetNodeFunc) (const RwNet *net, guint node, gpointer user_data);
GArray *rw_net_shortest_way (const RwNet *net, guint from, RwNetNodeFunc is_goal, gpointer user_data);

/* rw-cut.c: cables and devices whose loss parts what is left of a network (one depth-first search). */
typedef struct { GArray *cables; GArray *devices; } RwCuts;
void rw_net_cuts (const RwNet *net, guint network, RwCuts *cuts);
void rw_cuts_clear (RwCuts *cuts);

G_END_DECLS
