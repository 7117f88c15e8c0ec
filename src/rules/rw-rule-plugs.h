/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rule.h"

G_BEGIN_DECLS

/* For rules about ports and all that is plugged into them: @wanted picks ports, @report is told of their cables. */
typedef gboolean (*RwPortFunc) (const RwNet *net, guint port);
typedef void (*RwPlugsFunc) (const RwRule *rule, const RwNet *net, RwFindings *findings, guint port,
                             const guint *cables, guint n);
void rw_plugs_check (const RwRule *rule, const RwNet *net, RwFindings *findings, RwPortFunc wanted,
                     RwPlugsFunc report);

G_END_DECLS
