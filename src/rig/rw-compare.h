/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

RwChange *rw_compare (const RwRig *older, const RwRig *newer, const char *name);

G_END_DECLS
