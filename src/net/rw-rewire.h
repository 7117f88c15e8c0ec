/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

/* What a rewiring takes, to be said before it is done. */
typedef struct
{
  guint n_removed;      /* cables that go */
  guint n_kept;         /* cables that stay where they are */
  guint n_new;
  double metres;        /* that the new ones need at most, laid along the present ways */
  guint n_unmeasured;   /* new ones without a present way of known length: not in @metres */
  guint n_switch_ports; /* used, with those between switches */
  guint n_switches;     /* new ones */
  guint n_idle;         /* switches and converters left without an audio cable */
  guint n_mismatched;   /* new ones between ports of different media: these need converters */
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
guint rw_rewire_n_switches (const RwNet *net, const RwPart *part, guint plane);

G_END_DECLS
