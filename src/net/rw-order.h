/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

/* In which order a person would count the devices of a rig. */
typedef enum
{
  RW_ORDER_CHAIN, /* along the cables, from the first controller on */
  RW_ORDER_PLACE, /* as one reads the sheet: row by row, each from left to right */
} RwOrder;

GArray *rw_net_order (const RwNet *net, RwOrder order);

G_END_DECLS
