/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rule-rows.h"

G_BEGIN_DECLS

/* Tells @report of each rack with preamps that consoles use: key = the rack, rows = indices of these consoles. */
void rw_gain_check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, RwRowsFunc report);

G_END_DECLS
