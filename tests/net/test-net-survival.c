/* SPDX-License-Identifier: MIT */
/* What each failure costs, against failing everything one at a time by a plain flood. */
#include <net/rw-rows.h>
#include <net/rw-survival.h>
#include <random-rig.h>

#include "net-assert.h"

/* Plain: whether a flood from any host node of @from reaches any host node of @to without what failed. */
static gboolean
reaches (const RwNet *net, guint from, guint to, guint dead_device, guint dead_cable)
{
  g_autofree gboolean *seen = g_new0 (gboolean, net->n_nodes + 1);
  g_autofree guint *stack = g_new (guint, net->n_nodes + 1);

  for (guint start = 0; start < net->n_nodes; start++)
    {
      guint n = 0;
      if (net->nodes[start].device != from || !net->nodes[start].host || from == dead_device)
        continue;
      seen[start] = TRUE;
      stack[n++] = start;
      while (n > 0)
        {
          guint node = stack[--n];
          if (net->nodes[node].device == to && net->nodes[node].host)
            return TRUE;
          for (guint l = 0; l < net->n_links; l++)
            {
              const RwNetLink *link = &net->links[l];
              guint other = link->node[0] == node ? link->node[1] : link->node[1] == node ? link->node[0] : RW_NONE;
              if (other == RW_NONE || seen[other] || link->cable == dead_cable || net->nodes[other].device == dead_device)
                continue;
              seen[other] = TRUE;
              stack[n++] = other;
            }
        }
    }
  return FALSE;
}

static gboolean
controlled (const RwNet *net, guint device, guint dead_device, guint dead_cable)
{
  for (guint i = 0; i < net->n_devices; i++)
    if (net->devices[i].part->kind == RW_PART_CONTROLLER && i != dead_device && reaches (net, device, i, dead_device, dead_cable))
      return TRUE;
  return FALSE;
}

static RwLoss
plain_loss (const RwNet *net, guint dead_device, guint dead_cable)
{
  const RwRows *rows = rw_net_rows (net);
  RwLoss loss = { 0, 0 };

  for (guint r = 0; r < rows->n; r++)
    {
      guint a = rows->from[r], b = rows->to[r];
      if (a != b && a != dead_device && b != dead_device && reaches (net, a, b, RW_NONE, RW_NONE)
          && !reaches (net, a, b, dead_device, dead_cable))
        loss.rows++;
    }
  for (guint i = 0; i < net->n_devices; i++)
    if (net->devices[i].part->kind != RW_PART_CONTROLLER && i != dead_device && controlled (net, i, RW_NONE, RW_NONE)
        && !controlled (net, i, dead_device, dead_cable))
      loss.devices++;
  return loss;
}

typedef struct { guint rows, devices; } Seen;

static void
check_rig (RwRig *rig, Seen *seen)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwSurvival) survival = rw_survival_new (net);

  for (guint i = 0; i < net->n_devices + net->n_cables; i++)
    {
      gboolean is_device = i < net->n_devices;
      RwLoss loss = is_device ? survival->devices[i] : survival->cables[i - net->n_devices];
      RwLoss plain = plain_loss (net, is_device ? i : RW_NONE, is_device ? RW_NONE : i - net->n_devices);
      g_assert_cmpuint (loss.rows, ==, plain.rows);
      g_assert_cmpuint (loss.devices, ==, plain.devices);
      seen->rows += plain.rows;
      seen->devices += plain.devices;
    }
}

static void
test_random (void)
{
  Seen seen = { 0 };

  for (guint seed = 0; seed < 2500; seed++)
    {
      RandomRig want = { .seed = seed, .devices = 2 + seed % 11, .cables = seed % 15, .rows = 8, .forwards_percent = 20 + seed % 60,
                         .joined = seed % 3 != 0, .all_redundant = seed % 5 < 2, .vlans = seed % 2 == 0, .shared_percent = seed % 7 == 0 ? 30 : 0 };
      g_autoptr (RwRig) rig = random_rig_new (&want);
      check_rig (rig, &seen);
    }
  g_assert_cmpuint (seen.rows, >, 2000); /* the rigs are worth the trouble */
  g_assert_cmpuint (seen.devices, >, 2000);
}

/* @net: set to the net of the rig, with a row from B to A and, where there is one, from C to A.
 *
 * Returns: (transfer full): what each failure in it costs */
static RwSurvival *
survival_of (const char *text, RwNet **net)
{
  g_autoptr (RwRig) rig = rw_test_rig (text);

  rw_test_rig_patch (rig, "B", 1, "A", 1, 1);
  if (rw_rig_device (rig, "C") != NULL)
    rw_test_rig_patch (rig, "C", 1, "A", 1, 1);
  *net = rw_net_new (rig);
  return rw_survival_new (*net);
}

/* Each is worth its own look: what the plane structure does to the cost of a failure. */
static void
test_chain (void)
{
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwSurvival) survival = survival_of ("console A; rack B; rack C; A.s-B.p; B.s-C.p", &net);

  g_assert_cmpuint (survival->cables[0].rows, ==, 2);
  g_assert_cmpuint (survival->cables[0].devices, ==, 2);
  g_assert_cmpuint (survival->cables[1].rows, ==, 1);
  g_assert_cmpuint (survival->devices[1].rows, ==, 1); /* C's; B's own row goes with B */
  g_assert_cmpuint (survival->devices[1].devices, ==, 1);
  g_assert_cmpuint (survival->devices[0].rows, ==, 0);
  g_assert_cmpuint (survival->devices[0].devices, ==, 2); /* the only controller */
}

static void
test_two_planes (void)
{
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwSurvival) survival = survival_of ("console A mode=redundant; rack B mode=redundant; switch S; switch T;"
                                                 "A.p-S.p1; B.p-S.p2; A.s-T.p1; B.s-T.p2", &net);

  for (guint i = 0; i < net->n_cables; i++)
    g_assert_cmpuint (survival->cables[i].rows + survival->cables[i].devices, ==, 0);
  g_assert_cmpuint (survival->devices[2].rows, ==, 0);
  g_assert_cmpuint (survival->devices[3].rows, ==, 0);
}

/* Both planes through one box, as two VLANs of it: the box is a single point after all. */
static void
test_two_planes_through_one_switch (void)
{
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwSurvival) survival = survival_of ("console A mode=redundant; rack B mode=redundant; switch S p1=10 p2=10 p3=20 p4=20;"
                                                 "A.p-S.p1; B.p-S.p2; A.s-S.p3; B.s-S.p4", &net);

  g_assert_cmpuint (survival->devices[2].rows, ==, 1);
  g_assert_cmpuint (survival->devices[2].devices, ==, 1);
  for (guint i = 0; i < net->n_cables; i++)
    g_assert_cmpuint (survival->cables[i].rows, ==, 0);
}

/* Both planes over one trunk: so is the trunk. */
static void
test_two_planes_over_one_trunk (void)
{
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwSurvival) survival = survival_of ("console A mode=redundant; rack B mode=redundant; switch S p1=10 p2=20 p8=[10,20];"
                                                 "switch T p1=10 p2=20 p8=[10,20]; A.p-S.p1; A.s-S.p2; B.p-T.p1; B.s-T.p2; S.p8-T.p8", &net);

  g_assert_cmpuint (survival->cables[4].rows, ==, 1);
  g_assert_cmpuint (survival->cables[0].rows, ==, 0);
  g_assert_cmpuint (survival->devices[2].rows, ==, 1);
}

static void
test_several_at_once (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A mode=redundant; rack B mode=redundant; A.p-B.p; A.s-B.s");
  g_autoptr (RwNet) net = NULL;
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) devices = g_array_new (FALSE, FALSE, sizeof (guint));
  gboolean dead_devices[] = { FALSE, FALSE }, dead_cables[] = { TRUE, FALSE };
  RwFailed failed = { dead_devices, dead_cables };

  rw_test_rig_patch (rig, "B", 1, "A", 1, 1);
  net = rw_net_new (rig);
  rw_fail (net, &failed, rows, devices);
  g_assert_cmpuint (rows->len, ==, 0);
  dead_cables[1] = TRUE;
  rw_fail (net, &failed, rows, devices);
  g_assert_cmpuint (rows->len, ==, 1);
  g_assert_cmpuint (devices->len, ==, 1);
  g_assert_cmpuint (g_array_index (devices, guint, 0), ==, 1);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/survival/chain", test_chain);
  g_test_add_func ("/net/survival/two-planes", test_two_planes);
  g_test_add_func ("/net/survival/one-switch", test_two_planes_through_one_switch);
  g_test_add_func ("/net/survival/one-trunk", test_two_planes_over_one_trunk);
  g_test_add_func ("/net/survival/several-at-once", test_several_at_once);
  g_test_add_func ("/net/survival/random", test_random);
  return g_test_run ();
}
