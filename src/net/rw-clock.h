/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-net.h"

G_BEGIN_DECLS

/* What decided between two clocks, in the order in which it is compared. */
typedef enum
{
  RW_CLOCK_BY_NOTHING, /* there was nobody to compare with */
  RW_CLOCK_BY_PRIORITY1,
  RW_CLOCK_BY_CLASS,
  RW_CLOCK_BY_ACCURACY,
  RW_CLOCK_BY_VARIANCE,
  RW_CLOCK_BY_PRIORITY2,
  RW_CLOCK_BY_IDENTITY,
} RwClockDecision;

/* The devices that share one network and one clock domain, and elect one leader. */
typedef struct
{
  guint network;
  int domain;
  RwSlice voters; /* in file order; those that never lead (class 255) are among them */
  RwSlice order;  /* those that may lead, best first: who follows when the first fails, and so on */
  RwClockDecision decided; /* what set the first before the second */
} RwClockGroup;

typedef struct
{
  guint n_groups;
  RwClockGroup *groups; /* by network, then domain */
  guint n_devices;
  guint *leader;        /* by device: whom it follows, itself when it leads; RW_NONE = nobody */
  guint *group;         /* by device: where it follows that leader; RW_NONE */
  guint *indices;       /* behind the slices */
  guint n_indices;
} RwClocks;

RwClocks *rw_clocks_new (const RwNet *net);
void rw_clocks_free (RwClocks *clocks);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwClocks, rw_clocks_free)
RwClockDecision rw_clock_compare (const RwClock *a, const RwClock *b, int *order);
guint rw_clocks_network_leader (const RwClocks *clocks, guint network, int domain);
const char *rw_clock_decision_label (RwClockDecision decision);

G_END_DECLS
