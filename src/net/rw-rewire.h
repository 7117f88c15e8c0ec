/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

/* What a rewiring takes beside what its change says, to be said before it is done. The new cables have no length. */
typedef struct
{
  double metres;        /* that the new cables need at most, laid along the present ways */
  guint n_unmeasured;   /* new cables without a present way of known length: not in @metres */
  guint n_switch_ports; /* that the wiring uses, with those between switches */
  guint n_mismatched;   /* new cables between ports of different media: these need converters */
} RwRewireCost;

/**
 * RwRewireSwitches:
 * @part: of the primary and of the secondary plane's switches; a rig that lacks the part gets it
 * @at: of the first switch of each plane, mm on the sheet
 * @step: from one switch of a plane to the next, where one has not enough ports
 */
typedef struct
{
  const RwPart *part[2];
  RwPoint at[2];
  double step;
} RwRewireSwitches;

RwChange *rw_rewire_chain (const RwRig *rig, const RwNet *net, RwRewireCost *cost, GError **error);
RwChange *rw_rewire_redundant (const RwRig *rig, const RwNet *net, const RwRewireSwitches *switches,
                               RwRewireCost *cost, GError **error);
GPtrArray *rw_rewire_bare (const RwRig *rig, const RwChange *change);
guint rw_rewire_n_switches (const RwNet *net, const RwPart *part, guint plane);

G_END_DECLS
