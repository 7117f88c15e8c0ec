/* SPDX-License-Identifier: MIT */
#include "rw-reach.h"

/* How far one kind of cable reaches at some speeds. What is not @sure waits to be read again in the standard. */
typedef struct
{
  RwMedium medium;
  RwGrade first_grade, last_grade;
  guint least_mbps, most_mbps;
  double limit_m;
  gboolean sure;
} Reach;

static const Reach reaches[] = {
  /* IEEE 802.3 clauses 24, 40 and 126 (from memory); the channel of TIA-568: 90 m installed and 10 m of cords */
  { RW_MEDIUM_COPPER, RW_GRADE_CAT5, RW_GRADE_CAT6A, 10, 10000, 100, TRUE },
  /* IEEE 802.3 clause 55: 10GBASE-T on Cat 6 */
  { RW_MEDIUM_COPPER, RW_GRADE_CAT6, RW_GRADE_CAT6, 10000, 10000, 55, TRUE },
  /* IEEE 802.3 clause 38 (from memory): 1000BASE-SX on OM1 */
  { RW_MEDIUM_MULTIMODE, RW_GRADE_OM1, RW_GRADE_OM1, 1000, 1000, 275, FALSE },
  /* IEEE 802.3 clause 38: 1000BASE-LX, and 1000BASE-SX on OM2 and better */
  { RW_MEDIUM_MULTIMODE, RW_GRADE_OM1, RW_GRADE_OM5, 1000, 1000, 550, TRUE },
  /* IEEE 802.3 clause 52 (from memory): 10GBASE-SR */
  { RW_MEDIUM_MULTIMODE, RW_GRADE_OM1, RW_GRADE_OM1, 10000, 10000, 33, FALSE },
  { RW_MEDIUM_MULTIMODE, RW_GRADE_OM2, RW_GRADE_OM2, 10000, 10000, 82, FALSE },
  { RW_MEDIUM_MULTIMODE, RW_GRADE_OM3, RW_GRADE_OM3, 10000, 10000, 300, FALSE },
  { RW_MEDIUM_MULTIMODE, RW_GRADE_OM4, RW_GRADE_OM4, 10000, 10000, 400, FALSE },
  /* IEEE 802.3 clauses 38 and 52: 1000BASE-LX and 10GBASE-LR */
  { RW_MEDIUM_SINGLEMODE, RW_GRADE_OS2, RW_GRADE_OS2, 1000, 1000, 5000, TRUE },
  { RW_MEDIUM_SINGLEMODE, RW_GRADE_OS2, RW_GRADE_OS2, 10000, 10000, 10000, TRUE },
};

/* TIA-568, the rule for cords (from memory): all of stranded 24 AWG, (102 − 0) / 1.2 m. */
#define STRANDED_M 85

static gboolean
is_for (const Reach *reach, const RwRun *run)
{
  return reach->medium == run->medium && run->grade >= reach->first_grade && run->grade <= reach->last_grade
         && run->mbps >= reach->least_mbps && run->mbps <= reach->most_mbps;
}

/**
 * rw_reach_judge:
 * @run: a cable
 * @limit_m: (out): the length that it exceeds, m; 0 where it fits
 *
 * Copper that is not known to be solid is doubtful from 85 m on: cords of stranded wire reach less far.
 *
 * Returns: whether the cable is longer than it may be; a length that is not known yet fits
 */
RwReachVerdict
rw_reach_judge (const RwRun *run, double *limit_m)
{
  RwReachVerdict verdict = RW_REACH_FITS;

  *limit_m = 0;
  for (guint i = 0; i < G_N_ELEMENTS (reaches); i++)
    {
      RwReachVerdict found = reaches[i].sure ? RW_REACH_TOO_LONG : RW_REACH_DOUBTFUL;

      if (!is_for (&reaches[i], run) || run->length_m <= reaches[i].limit_m || found < verdict)
        continue;
      if (found > verdict || reaches[i].limit_m < *limit_m)
        *limit_m = reaches[i].limit_m;
      verdict = found;
    }
  if (verdict == RW_REACH_FITS && run->medium == RW_MEDIUM_COPPER && run->conductor != RW_CONDUCTOR_SOLID
      && run->length_m >= STRANDED_M)
    {
      *limit_m = STRANDED_M;
      return RW_REACH_DOUBTFUL;
    }
  return verdict;
}

/**
 * rw_reach_most_m: the greatest length, m, at which rw_reach_judge() still says that a cable like @run fits; 0 = nothing
 * is known of such a cable
 */
double
rw_reach_most_m (const RwRun *run)
{
  double most = 0;

  for (guint i = 0; i < G_N_ELEMENTS (reaches); i++)
    if (is_for (&reaches[i], run) && (most == 0 || reaches[i].limit_m < most))
      most = reaches[i].limit_m;
  if (run->medium == RW_MEDIUM_COPPER && run->conductor != RW_CONDUCTOR_SOLID)
    most = MIN (most, STRANDED_M - 0.001); /* from there on it is doubtful */
  return most;
}

/**
 * rw_reach_least_grade:
 * @speed_mbps: Mb/s
 * @grade: (out): the least grade of copper that carries it
 *
 * Source: IEEE 802.3 clauses 24, 40, 126 (from memory) and 55. Cables of a chain must be Cat 5e at least: common
 * practice.
 *
 * Returns: %FALSE where there is no figure
 */
gboolean
rw_reach_least_grade (int speed_mbps, RwGrade *grade)
{
  static const struct { int most_mbps; RwGrade grade; } least[] = {
    { 100, RW_GRADE_CAT5 },
    { 5000, RW_GRADE_CAT5E },
    { 10000, RW_GRADE_CAT6 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (least); i++)
    if (speed_mbps <= least[i].most_mbps)
      {
        *grade = least[i].grade;
        return TRUE;
      }
  return FALSE;
}

/**
 * rw_grade_is_of:
 *
 * Returns: whether there are cables of @medium with @grade
 */
gboolean
rw_grade_is_of (RwGrade grade, RwMedium medium)
{
  if (medium == RW_MEDIUM_COPPER)
    return grade <= RW_GRADE_CAT6A;
  if (medium == RW_MEDIUM_MULTIMODE)
    return grade >= RW_GRADE_OM1 && grade <= RW_GRADE_OM5;
  return grade == RW_GRADE_OS2;
}
