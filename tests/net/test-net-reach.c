/* SPDX-License-Identifier: MIT */
/* How far cables reach and what grade they need, against the figures of the standards; where boxes stand in rings. */
#include <net/rw-reach.h>
#include <net/rw-ring.h>

#include "net-assert.h"

typedef struct
{
  RwMedium medium;
  RwGrade grade;
  RwConductor conductor;
  int mbps;
  double length_m;
  RwReachVerdict verdict;
  double limit_m;
} Case;

#define COPPER RW_MEDIUM_COPPER
#define MULTI RW_MEDIUM_MULTIMODE
#define SINGLE RW_MEDIUM_SINGLEMODE
#define SOLID RW_CONDUCTOR_SOLID
#define UNKNOWN RW_CONDUCTOR_UNKNOWN
#define FITS RW_REACH_FITS
#define DOUBTFUL RW_REACH_DOUBTFUL
#define TOO_LONG RW_REACH_TOO_LONG

static const Case cases[] = {
  /* IEEE 802.3 clause 24, 100BASE-TX: 100 m (from memory) */
  { COPPER, RW_GRADE_CAT5, SOLID, 100, 100, FITS, 0 },
  { COPPER, RW_GRADE_CAT5, SOLID, 100, 100.5, TOO_LONG, 100 },
  /* IEEE 802.3 clause 40, 1000BASE-T: 100 m (from memory); TIA-568: 90 m and 10 m of cords */
  { COPPER, RW_GRADE_CAT5E, SOLID, 1000, 100, FITS, 0 },
  { COPPER, RW_GRADE_CAT5E, SOLID, 1000, 101, TOO_LONG, 100 },
  { COPPER, RW_GRADE_CAT6A, UNKNOWN, 1000, 101, TOO_LONG, 100 },
  /* IEEE 802.3 clause 126, 2.5GBASE-T and 5GBASE-T: 100 m (from memory) */
  { COPPER, RW_GRADE_CAT5E, SOLID, 2500, 100, FITS, 0 },
  { COPPER, RW_GRADE_CAT6, SOLID, 5000, 101, TOO_LONG, 100 },
  /* IEEE 802.3 clause 55 and TSB-155, 10GBASE-T: 100 m on Cat 6A, 55 m on Cat 6 */
  { COPPER, RW_GRADE_CAT6A, SOLID, 10000, 100, FITS, 0 },
  { COPPER, RW_GRADE_CAT6, SOLID, 10000, 55, FITS, 0 },
  { COPPER, RW_GRADE_CAT6, SOLID, 10000, 56, TOO_LONG, 55 },
  { COPPER, RW_GRADE_CAT6, SOLID, 10000, 120, TOO_LONG, 55 },
  /* TIA-568 cords, all stranded 24 AWG: 102 / 1.2 = 85 m (from memory, so a doubt) */
  { COPPER, RW_GRADE_CAT5E, UNKNOWN, 1000, 84.5, FITS, 0 },
  { COPPER, RW_GRADE_CAT5E, UNKNOWN, 1000, 85, DOUBTFUL, 85 },
  { COPPER, RW_GRADE_CAT5E, RW_CONDUCTOR_STRANDED, 1000, 100, DOUBTFUL, 85 },
  /* IEEE 802.3 clause 38, 1000BASE-SX: 275 m on OM1 (from memory); 1000BASE-LX and OM2 to OM4: 550 m */
  { MULTI, RW_GRADE_OM1, UNKNOWN, 1000, 275, FITS, 0 },
  { MULTI, RW_GRADE_OM1, UNKNOWN, 1000, 276, DOUBTFUL, 275 },
  { MULTI, RW_GRADE_OM1, UNKNOWN, 1000, 551, TOO_LONG, 550 },
  { MULTI, RW_GRADE_OM2, UNKNOWN, 1000, 550, FITS, 0 },
  { MULTI, RW_GRADE_OM4, UNKNOWN, 1000, 551, TOO_LONG, 550 },
  /* IEEE 802.3 clause 52, 10GBASE-SR: 33, 82, 300, 400 m (from memory) */
  { MULTI, RW_GRADE_OM1, UNKNOWN, 10000, 33, FITS, 0 },
  { MULTI, RW_GRADE_OM1, UNKNOWN, 10000, 34, DOUBTFUL, 33 },
  { MULTI, RW_GRADE_OM2, UNKNOWN, 10000, 83, DOUBTFUL, 82 },
  { MULTI, RW_GRADE_OM3, UNKNOWN, 10000, 300, FITS, 0 },
  { MULTI, RW_GRADE_OM3, UNKNOWN, 10000, 301, DOUBTFUL, 300 },
  { MULTI, RW_GRADE_OM4, UNKNOWN, 10000, 401, DOUBTFUL, 400 },
  /* no figure: nothing is said */
  { MULTI, RW_GRADE_OM5, UNKNOWN, 10000, 5000, FITS, 0 },
  { MULTI, RW_GRADE_OM3, UNKNOWN, 100, 5000, FITS, 0 },
  { SINGLE, RW_GRADE_OS2, UNKNOWN, 40000, 50000, FITS, 0 },
  /* IEEE 802.3 clauses 38 and 52, 1000BASE-LX: 5 km, 10GBASE-LR: 10 km */
  { SINGLE, RW_GRADE_OS2, UNKNOWN, 1000, 5000, FITS, 0 },
  { SINGLE, RW_GRADE_OS2, UNKNOWN, 1000, 5001, TOO_LONG, 5000 },
  { SINGLE, RW_GRADE_OS2, UNKNOWN, 10000, 10000, FITS, 0 },
  { SINGLE, RW_GRADE_OS2, UNKNOWN, 10000, 10001, TOO_LONG, 10000 },
  /* a length that is not known yet */
  { COPPER, RW_GRADE_CAT5E, UNKNOWN, 1000, 0, FITS, 0 },
};

static RwRun
run_of (guint i, double length_m)
{
  return (RwRun){ .medium = cases[i].medium, .grade = cases[i].grade, .conductor = cases[i].conductor,
                  .mbps = (guint) cases[i].mbps, .length_m = length_m };
}

static void
test_reach (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const RwRun run = run_of (i, cases[i].length_m);
      double limit_m = -1;

      g_assert_cmpint (rw_reach_judge (&run, &limit_m), ==, cases[i].verdict);
      g_assert_cmpfloat (limit_m, ==, cases[i].limit_m);
    }
}

/* What may be is what is not objected to. */
static void
test_most (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      RwRun run = run_of (i, 0);
      double limit_m, most = rw_reach_most_m (&run);

      run.length_m = most;
      g_assert_cmpint (rw_reach_judge (&run, &limit_m), ==, FITS);
      run.length_m = most + 0.01;
      if (most > 0)
        g_assert_cmpint (rw_reach_judge (&run, &limit_m), !=, FITS);
    }
}

/* IEEE 802.3 clauses 24, 40 and 126 (from memory), 55: 10GBASE-T runs on Cat 6, if not far. */
static void
test_least_grade (void)
{
  static const struct { int mbps; RwGrade grade; } least[] = {
    { 10, RW_GRADE_CAT5 },    { 100, RW_GRADE_CAT5 },   { 1000, RW_GRADE_CAT5E },
    { 2500, RW_GRADE_CAT5E }, { 5000, RW_GRADE_CAT5E }, { 10000, RW_GRADE_CAT6 },
  };
  RwGrade grade;

  for (guint i = 0; i < G_N_ELEMENTS (least); i++)
    {
      g_assert_true (rw_reach_least_grade (least[i].mbps, &grade));
      g_assert_cmpint (grade, ==, least[i].grade);
    }
  g_assert_false (rw_reach_least_grade (25000, &grade));
}

static void
test_grades_of_media (void)
{
  for (RwGrade grade = RW_GRADE_CAT5; grade <= RW_GRADE_OS2; grade++)
    {
      RwMedium medium = grade <= RW_GRADE_CAT6A ? COPPER : grade <= RW_GRADE_OM5 ? MULTI : SINGLE;

      for (RwMedium other = COPPER; other <= SINGLE; other++)
        g_assert_true (rw_grade_is_of (grade, other) == (other == medium));
    }
}

static gboolean
are_ringed (const RwNet *net, const guint *rings, const char *a, const char *b)
{
  return rings[net_device (net, a)] == rings[net_device (net, b)];
}

/* A ring of three with a tail, two cables side by side, and a ring that a console closes, which is no box. */
static void
test_rings (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("switch A; switch B; switch C; switch D; switch E; switch F; console K; "
                                       "A.p1-B.p1; B.p2-C.p1; C.p2-A.p2; C.p3-D.p1; D.p2-E.p1; D.p3-E.p2; E.p3-F.p1; F.p2-K.p; K.s-A.p3");
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autofree guint *rings = rw_rings_new (net);

  g_assert_true (are_ringed (net, rings, "A", "B"));
  g_assert_true (are_ringed (net, rings, "B", "C"));
  g_assert_false (are_ringed (net, rings, "C", "D"));
  g_assert_true (are_ringed (net, rings, "D", "E"));
  g_assert_false (are_ringed (net, rings, "E", "F"));
  g_assert_false (are_ringed (net, rings, "A", "K"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/reach/published-figures", test_reach);
  g_test_add_func ("/net/reach/published-figures/most", test_most);
  g_test_add_func ("/net/reach/least-grade", test_least_grade);
  g_test_add_func ("/net/reach/grades-of-media", test_grades_of_media);
  g_test_add_func ("/net/ring/boxes", test_rings);
  return g_test_run ();
}
