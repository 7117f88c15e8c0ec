/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-forecast.h>

#include "rw-rule.h"

G_BEGIN_DECLS

/* What the rules on the clock share. */
gboolean *rw_clock_groups_that_count (const RwClocks *clocks);
void rw_clock_propose_leader (const RwRig *rig, const char *leader, GPtrArray *fixes);

G_END_DECLS
