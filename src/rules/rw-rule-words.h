/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-finding.h"

G_BEGIN_DECLS

/* How messages name things, and the pieces of findings that rules share. Indices are the net's. */
char *rw_words_join (const char *const *names, guint n);
char *rw_words_devices (const RwNet *net, const guint *devices, guint n);
char *rw_words_rig_cable (const RwRig *rig, const RwCable *cable);
char *rw_words_net_cable (const RwNet *net, guint cable);
char *rw_words_cables (const RwNet *net, const guint *cables, guint n);
char *rw_words_vlans (const RwNet *net, guint network);
char *rw_words_speed (int mbps);
char *rw_words_length (double length_m);
const char *rw_words_of_field (const RwTable *table, guint field, int word);

void rw_finding_add_devices (RwFinding *finding, const RwNet *net, const guint *devices, guint n);
void rw_finding_add_cables (RwFinding *finding, const RwNet *net, const guint *cables, guint n);
void rw_finding_add_net_port (RwFinding *finding, const RwNet *net, guint port);
void rw_finding_add_ends (RwFinding *finding, const RwNet *net, guint cable);

const char *rw_net_device_title (const RwNet *net, guint device);
const char *rw_net_port_name (const RwNet *net, guint port);
guint rw_net_cable_device (const RwNet *net, guint cable, guint end);
guint rw_net_device_cable_ends (const RwNet *net, guint device);
guint rw_net_device_side (const RwNet *net, guint device, RwSide side);

G_END_DECLS
