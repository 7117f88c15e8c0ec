/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-survival.h>

G_BEGIN_DECLS

typedef enum { RW_FAILURE_CABLE, RW_FAILURE_DEVICE, RW_FAILURE_LINE } RwFailureKind;

/* What a failure touches, a line named as the line list names it. */
typedef struct
{
  RwFate fate;
  RwFailureKind kind;
  char *name; /* (nullable) */
  char *from; /* (nullable): of a cable or line */
  char *to;
  char *key;  /* of the cable or device, or of the line's stage device: where to look at it on the sheet */
} RwFailureRow;

GPtrArray *rw_failure_rows (const RwRig *rig, const RwOutcome *outcome);
char *rw_failure_costs (const RwOutcome *outcome, const guint *lines, const char *between);
const char *rw_failure_word (const RwFailureRow *row);

G_END_DECLS
