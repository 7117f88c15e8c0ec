/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-forecast.h"

G_BEGIN_DECLS

/* How far devices are from each other, over whichever of their networks is the shortest. */
guint rw_net_lead_device (const RwNet *net);
guint rw_net_first_controller (const RwNet *net);
guint *rw_net_hops_from (const RwNet *net, guint device);
guint rw_net_device_hops (const RwNet *net, const guint *hops, guint device, RwSide side);
guint rw_net_controller_of (const RwNet *net, guint device);
double rw_net_delay_ns (const RwRig *rig, const RwNet *net, guint from_node, guint to_node);
double rw_net_device_delay_ns (const RwRig *rig, const RwNet *net, guint from, guint to);
guint rw_net_device_way (const RwNet *net, guint from, guint to, GArray *cables);

G_END_DECLS
