/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-survival.h>

G_BEGIN_DECLS

/* A device or a line that a failure touches, named as the line list names it. */
typedef struct
{
  RwFate fate;
  gboolean is_device;
  char *name; /* (nullable) */
  char *from; /* (nullable): of a line */
  char *to;
  char *key;  /* of the device, or of the line's stage device: where to look at it on the sheet */
} RwFailureRow;

GPtrArray *rw_failure_rows (const RwRig *rig, const RwOutcome *outcome);
char *rw_failure_costs (const RwOutcome *outcome, guint lost, const char *between);
const char *rw_failure_word (RwFate fate, gboolean is_device);

G_END_DECLS
