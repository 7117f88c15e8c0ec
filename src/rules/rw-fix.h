/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-address.h>

#include "rw-finding.h"

G_BEGIN_DECLS

/*
 * For rules: proposals for mending a finding, added to @fixes as named changes. A rule may propose
 * freely: rw_finding_fixes() offers only what it has tried on a copy of the rig and found to help.
 */
void rw_fix_remove_cable (const RwRig *rig, const char *cable, GPtrArray *fixes);
void rw_fix_set_grade (const RwRig *rig, const char *cable, int medium, int grade, GPtrArray *fixes);
void rw_fix_lead_clock (const RwRig *rig, const RwDevice *device, int priority1, GPtrArray *fixes);
void rw_fix_set_latency (const RwRig *rig, const RwDevice *device, int latency_us, GPtrArray *fixes);
void rw_fix_set_compensation (const RwRig *rig, const RwDevice *device, gboolean on, GPtrArray *fixes);
void rw_fix_set_phantom (const RwRig *rig, const RwChannel *channel, gboolean on, GPtrArray *fixes);
void rw_fix_set_address (const RwRig *rig, const RwDevice *device, RwSide side, RwAddress address, GPtrArray *fixes);
void rw_fix_clear_address (const RwRig *rig, const RwDevice *device, RwSide side, GPtrArray *fixes);
void rw_fix_set_mode (const RwRig *rig, const char *const *devices, guint n, RwMode mode, GPtrArray *fixes);
void rw_fix_set_id (const RwRig *rig, const RwDevice *device, guint field, int id, GPtrArray *fixes);
void rw_fix_give_ids (const RwRig *rig, const char *const *devices, guint field, GPtrArray *fixes);
void rw_fix_mend_ids (const RwRig *rig, const RwDevice *device, int unit_id, int controller_id,
                      gboolean drop_controller_id, GPtrArray *fixes);
void rw_fix_move_to_side (const RwRig *rig, const char *cable, const char *device, const char *port, RwSide side,
                          GPtrArray *fixes);
void rw_fix_move_to_like_port (const RwRig *rig, const char *cable, const char *device, const char *port,
                               GPtrArray *fixes);

G_END_DECLS
