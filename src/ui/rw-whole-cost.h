/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-rewire.h>

G_BEGIN_DECLS

char *rw_whole_cost_text (const RwRig *rig, const RwChange *change, const RwRewireCost *cost);

G_END_DECLS
