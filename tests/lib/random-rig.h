/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/**
 * RandomRig: what a random rig is to be. The same values give the same rig on every machine.
 * @seed: any number
 * @devices, @cables, @rows, @inside, @channels: how many of each. Cables need a device with a port, rows two
 *   channels: a rig of only switches has none
 * @forwards_percent: share of devices that are switches or converters
 * @shared_percent: share of cables that go into any port, also a taken one or one of the same device; the
 *   others take free ports while there are any
 * @joined: the first cables join each device to an earlier one, as far as free ports allow
 * @all_redundant: every device is `redundant` rather than of a random mode
 * @vlans: switch ports get VLANs 1, 10, 20 and trunks of them
 * @sets, @revisions: how many stored states of each kind; each is another random rig of at most four of a kind
 * @extras: members that the program does not know stand at every level
 * @odd: every field gets values from the ends of its range and texts that need escaping; else likely ones
 */
typedef struct
{
  guint32 seed;
  guint devices, cables, rows, inside, channels;
  guint sets, revisions;
  guint forwards_percent;
  guint shared_percent;
  gboolean joined;
  gboolean all_redundant;
  gboolean vlans;
  gboolean extras;
  gboolean odd;
} RandomRig;

RandomRig random_rig_any (guint32 seed, guint most);
RwRig *random_rig_new (const RandomRig *want);

G_END_DECLS
