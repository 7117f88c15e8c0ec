/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-forecast.h>

#include "rw-rule.h"

G_BEGIN_DECLS

/* How long a receiver waits before it plays: the device's own setting, else the system's. */
static inline int
rw_device_receive_latency_us (const RwRig *rig, const RwDevice *device)
{
  return rw_item_has (device, RW_DEVICE_RECEIVE_LATENCY_US) ? device->receive_latency_us
                                                            : rw_rig_system (rig)->receive_latency_us;
}

G_END_DECLS
