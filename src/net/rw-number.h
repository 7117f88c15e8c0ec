/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-order.h"

G_BEGIN_DECLS

/**
 * RwNumberOptions:
 * @order: in which the units are counted
 * @first: the lowest ID to give
 * @keep: units that have an ID already keep it
 * @devices: (nullable): ids, NULL-ended: only these; all = NULL
 */
typedef struct
{
  RwOrder order;
  int first;
  gboolean keep;
  const char *const *devices;
} RwNumberOptions;

RwChange *rw_number_units (const RwRig *rig, const RwNet *net, const RwNumberOptions *options, GError **error);

G_END_DECLS
