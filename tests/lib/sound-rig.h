/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/**
 * A rig as a festival draws it, in areas of 25 devices: by turns a redundant one on two planes of switches, whose
 * areas hang together like a tree, and one in a chain that stands alone. Every line goes somewhere in both layers of
 * the patch; where something is found, a person would draw it so too.
 * @devices: a multiple of 50; cables come to 1.2 for each
 * @rows: over the network; at most 7.6 for each device
 */
RwRig *sound_rig_new (guint devices, guint rows);

G_END_DECLS
