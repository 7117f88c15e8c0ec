/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

/* All of a cable that says how far it reaches. */
typedef struct
{
  RwMedium medium;
  RwGrade grade; /* the one that holds */
  RwConductor conductor;
  guint mbps;
  double length_m; /* 0 = not known yet */
} RwRun;

typedef enum
{
  RW_REACH_FITS,     /* or nothing is known of such a cable */
  RW_REACH_DOUBTFUL, /* over a figure that is not sure */
  RW_REACH_TOO_LONG,
} RwReachVerdict;

RwReachVerdict rw_reach_judge (const RwRun *run, double *limit_m);
double rw_reach_most_m (const RwRun *run);
gboolean rw_reach_least_grade (int speed_mbps, RwGrade *grade);
gboolean rw_grade_is_of (RwGrade grade, RwMedium medium);

G_END_DECLS
