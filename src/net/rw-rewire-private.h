/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-edit.h>

#include "rw-path.h"
#include "rw-rewire.h"

G_BEGIN_DECLS

/* One end of a wish: a port of a device that is in the rig, or of a switch that the change adds. */
typedef struct
{
  const char *device;
  const RwPort *port;
  guint known; /* net index of the device whose place the end has; RW_NONE = nobody knows where it will stand */
} RwWishEnd;

typedef struct { RwWishEnd end[2]; } RwWish;

/* rw-rewire.c: takes away every audio cable but those that were wished for, and draws the others. What serves other
 * networks than those stays. */
void rw_rewire_apply (RwEdit *edit, const RwNet *net, const GArray *wishes, RwRewireCost *cost);
void rw_rewire_set_mode (RwEdit *edit, const RwNetDevice *device, RwMode mode);
GArray *rw_rewire_hosts (const RwNet *net);
guint8 *rw_rewire_planes (const RwNet *net);
guint8 rw_rewire_guest (const RwNet *net, const guint8 *planes, const RwNetCable *cable, guint *port);

G_END_DECLS
