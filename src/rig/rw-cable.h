/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-part.h"

G_BEGIN_DECLS

/* The conductor of a copper cable. */
typedef enum
{
  RW_CONDUCTOR_UNKNOWN = -1,
  RW_CONDUCTOR_SOLID,
  RW_CONDUCTOR_STRANDED,
} RwConductor;

typedef enum
{
  RW_GRADE_CAT5,
  RW_GRADE_CAT5E,
  RW_GRADE_CAT6,
  RW_GRADE_CAT6A,
  RW_GRADE_OM1,
  RW_GRADE_OM2,
  RW_GRADE_OM3,
  RW_GRADE_OM4,
  RW_GRADE_OM5,
  RW_GRADE_OS2,
} RwGrade;

enum
{
  RW_CABLE_ID,
  RW_CABLE_FROM,
  RW_CABLE_TO,
  RW_CABLE_MEDIUM,
  RW_CABLE_GRADE,
  RW_CABLE_CONDUCTOR,
  RW_CABLE_LENGTH_M,
  RW_CABLE_LABEL,
  RW_CABLE_COLOUR,
  RW_CABLE_BENDS,
  RW_CABLE_NOTES,
  RW_CABLE_N_FIELDS
};

struct _RwCable
{
  RwItem item;
  RwEnd from;
  RwEnd to;
  int medium;      /* RwMedium, never the cage */
  int grade;       /* RwGrade or -1; ask rw_cable_grade() for the one that holds */
  int conductor;   /* RwConductor */
  double length_m; /* 0 = not known yet */
  char *label;
  char *colour;    /* of the jacket, IEC 60757 code; any text opens */
  RwPoints bends;  /* between the two ends, from @from to @to */
  char *notes;
};

extern const RwTable rw_cable_table;

RwGrade rw_cable_grade (const RwCable *cable);
gboolean rw_cable_has_label (const RwCable *cable);
const char *rw_cable_title (const RwCable *cable);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwCable, rw_item_unref)

G_END_DECLS
