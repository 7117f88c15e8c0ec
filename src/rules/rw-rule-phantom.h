/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rule.h"

G_BEGIN_DECLS

/* What is known of phantom power: what it does to a source, the name of a line, and its switch. */
char *rw_phantom_line (const RwNet *net, guint device, const RwChannel *channel);
void rw_phantom_propose (const RwFinding *finding, const RwRig *rig, gboolean on, GPtrArray *fixes);
gboolean rw_phantom_harms (int source);
gboolean rw_phantom_suits (int source);
gboolean rw_channel_has_preamp (const RwNet *net, guint device, int number);
void rw_finding_about_channel (RwFinding *finding, const RwChannel *channel);

G_END_DECLS
