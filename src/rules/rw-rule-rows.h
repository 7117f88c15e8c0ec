/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-forecast.h>
#include <net/rw-rows.h>

#include "rw-rule.h"

G_BEGIN_DECLS

/* Rows of the patch, or of the inside patch, gathered under keys: @report is told of each key, with its rows. */
typedef struct
{
  guint64 key;
  guint row; /* index in the rig's list */
} RwKeyedRow;

typedef void (*RwRowsFunc) (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key,
                            const guint *rows, guint n);
GArray *rw_keyed_rows_new (void);
void rw_keyed_rows_add (GArray *keyed, guint64 key, guint row);
void rw_keyed_rows_report (GArray *keyed, const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings,
                           RwRowsFunc report);
#define RW_PAIR_KEY(a, b) ((guint64) (a) << 32 | (b))
#define RW_KEY_FIRST(key) ((guint) ((key) >> 32))
#define RW_KEY_SECOND(key) ((guint) (key))

/* Pairs of devices that the patch joins and that differ, the lower index first. */
typedef gboolean (*RwPairFunc) (const RwNet *net, guint from, guint to);
void rw_pairs_check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, RwPairFunc differ,
                     RwRowsFunc report);

/* All channels of one sort in the rig, numbered: @field is RW_PART_SENDS or another count of a part. */
typedef struct
{
  guint *start; /* by device; one more at the end */
  guint n;
} RwSlots;
void rw_slots_init (RwSlots *slots, const RwNet *net, guint field);
void rw_slots_clear (RwSlots *slots);

/* The number of a channel among all, or RW_NONE where the device has no such channel. */
static inline guint
rw_slots_find (const RwSlots *slots, guint device, int number)
{
  guint first = slots->start[device];

  return number >= 1 && (guint) number <= slots->start[device + 1] - first ? first + (guint) number - 1 : RW_NONE;
}

int rw_part_count (const RwPart *part, guint field);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (RwSlots, rw_slots_clear)

RwFinding *rw_findings_begin_pair (RwFindings *findings, const RwRule *rule, const RwRig *rig, const RwNet *net, guint64 key,
                                   const guint *rows, guint n);
void rw_finding_add_rows (RwFinding *finding, const RwRig *rig, RwItemType type, const guint *rows, guint n);
void rw_finding_add_slot (RwFinding *finding, const RwNet *net, guint device, RwChannelSide side, int number);

G_END_DECLS
