/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

typedef struct
{
  guint device;
  RwPlace from, to; /* kinds: RwInsideFrom, RwInsideTo */
} RwInsideEnds;

typedef struct
{
  guint device;
  int side, number, source; /* RwChannelSide, RwSource */
  gboolean phantom;
  gboolean named;
} RwChannelEnd;

/**
 * RwRows: where the rows of the patch and the channels of a rig are, looked up once for all who walk them. Each
 * array has one entry for each item of its list, in file order; devices are indices of the net.
 */
typedef struct
{
  guint n;             /* rows over the network */
  guint *from, *to;    /* the device that talks, that listens */
  int *send, *receive; /* their channels; the devices need not have so many */
  guint n_inside;
  RwInsideEnds *inside;
  guint n_channels;
  RwChannelEnd *channels;
} RwRows;

RwRows *rw_rows_new (const RwRig *rig, const RwNet *net);
void rw_rows_free (RwRows *rows);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwRows, rw_rows_free)
const RwRows *rw_net_rows (const RwNet *net);

G_END_DECLS
