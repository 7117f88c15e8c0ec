/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

gboolean rw_rig_check_change (const RwRig *rig, const RwChange *change, GError **error);

G_END_DECLS
