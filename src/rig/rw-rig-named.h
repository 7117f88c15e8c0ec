/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

RwItem *rw_rig_find_named (const RwRig *rig, const char *text, gboolean cables, GError **error);

G_END_DECLS
