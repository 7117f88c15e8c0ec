/* SPDX-License-Identifier: MIT */
/* What becomes of each row and device when several things fail at once, by hand and against a plain flood. */
#include <net/rw-rows.h>
#include <net/rw-survival.h>
#include <random-rig.h>

#include "net-assert.h"

/* A ring of three switches that run spanning tree and two planes: what is cut with and without another way. Roots and
 * blocked ports by hand: S is the first in the file, so T–U is held open (IEEE 802.1D-2004 17.6). */
#define FATES "console A mode=redundant; rack B mode=redundant; computer L; computer M; switch S stp; switch T stp; switch U stp\n" \
              "A.p-S.p1; S.p2-T.p2; T.p3-U.p3; U.p2-S.p3; B.p-T.p1; L.p-U.p1; A.s-B.s; M.p-T.p4"

static RwOutcome *
outcome_of (const RwNet *net, const char *const *ids)
{
  g_autoptr (RwFailed) failed = rw_failed_new (net, ids);

  return rw_outcome_new (net, failed);
}

static void
test_fates (void)
{
  g_autoptr (RwRig) rig = rw_test_rig (FATES);
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwOutcome) nothing = NULL, link = NULL, both = NULL, tree = NULL, device = NULL;

  rw_test_rig_patch (rig, "B", 1, "A", 1, 1);
  rw_test_rig_patch (rig, "M", 1, "L", 1, 1);
  net = rw_net_new (rig);
  nothing = outcome_of (net, NULL);
  g_assert_cmpint (nothing->rows[0], ==, RW_FATE_UNTOUCHED);
  g_assert_cmpint (nothing->devices[1], ==, RW_FATE_UNTOUCHED);
  g_assert_cmpint (nothing->devices[0], ==, RW_FATE_UNTOUCHED);
  link = outcome_of (net, (const char *[]){ "c5", NULL });
  g_assert_cmpint (link->rows[0], ==, RW_FATE_OTHER_PLANE);
  g_assert_cmpint (link->devices[1], ==, RW_FATE_OTHER_PLANE);
  g_assert_cmpint (link->planes[1], ==, RW_PLANE_SECONDARY);
  g_assert_cmpint (link->rows[1], ==, RW_FATE_UNTOUCHED);
  both = outcome_of (net, (const char *[]){ "c5", "c7", NULL });
  g_assert_cmpint (both->rows[0], ==, RW_FATE_LOST);
  g_assert_cmpint (both->devices[1], ==, RW_FATE_LOST);
  tree = outcome_of (net, (const char *[]){ "c4", NULL });
  g_assert_cmpint (tree->rows[1], ==, RW_FATE_GAP);
  g_assert_cmpint (tree->devices[2], ==, RW_FATE_GAP);
  g_assert_cmpint (tree->devices[3], ==, RW_FATE_GAP); /* M reaches the desk, but its only line waits */
  g_assert_cmpuint (tree->row_counts[RW_FATE_GAP], ==, 1);
  device = outcome_of (net, (const char *[]){ "B", "no such", NULL });
  g_assert_cmpint (device->rows[0], ==, RW_FATE_FAILED);
  g_assert_cmpint (device->devices[1], ==, RW_FATE_FAILED);
}

/* A desk that loses every cable, or all behind its switches, is marked as well as what it served; so are a desk that is
 * left with one plane, and a switch. By hand. */
static void
test_cut_off (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A mode=redundant; rack B mode=redundant; switch S; switch T; switch U; switch V\n"
                                       "A.p-S.p1; S.p2-T.p2; B.p-T.p1; A.s-U.p1; U.p2-V.p2; B.s-V.p1");
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwOutcome) one = outcome_of (net, (const char *[]){ "c2", NULL });
  g_autoptr (RwOutcome) both = outcome_of (net, (const char *[]){ "c2", "c5", NULL });
  g_autoptr (RwOutcome) switches = outcome_of (net, (const char *[]){ "S", "U", NULL });
  g_autoptr (RwOutcome) end = outcome_of (net, (const char *[]){ "c1", "c2", NULL });

  g_assert_cmpint (one->devices[0], ==, RW_FATE_OTHER_PLANE);
  g_assert_cmpint (one->planes[0], ==, RW_PLANE_SECONDARY);
  g_assert_cmpint (one->devices[2], ==, RW_FATE_UNTOUCHED); /* S still serves A */
  g_assert_cmpint (both->devices[0], ==, RW_FATE_CUT_OFF);
  g_assert_cmpint (both->devices[1], ==, RW_FATE_LOST);
  g_assert_cmpuint (both->device_counts[RW_FATE_CUT_OFF], ==, 1);
  g_assert_cmpint (switches->devices[0], ==, RW_FATE_CUT_OFF);
  g_assert_cmpint (switches->devices[1], ==, RW_FATE_LOST);
  g_assert_cmpint (switches->devices[2], ==, RW_FATE_FAILED);
  g_assert_cmpint (end->devices[2], ==, RW_FATE_CUT_OFF); /* S has no cable left */
}

/* Two boxes without a host, one without a cable, and two that only a cable apart from the audio network joins: only what
 * had company can lose it. */
static void
test_cut_off_switches (void)
{
  g_autoptr (RwNet) net = net_of ("switch S; switch T; switch U; rack B; rack C; S.p1-T.p1; B.a-C.a");
  g_autoptr (RwOutcome) apart = outcome_of (net, (const char *[]){ "c2", NULL });
  g_autoptr (RwOutcome) cut = outcome_of (net, (const char *[]){ "c1", NULL });
  g_autoptr (RwOutcome) whole = outcome_of (net, NULL);

  g_assert_cmpint (cut->devices[0], ==, RW_FATE_CUT_OFF);
  g_assert_cmpint (cut->devices[1], ==, RW_FATE_CUT_OFF);
  g_assert_cmpint (cut->devices[2], ==, RW_FATE_NONE);
  g_assert_cmpint (cut->devices[3], ==, RW_FATE_NONE);
  g_assert_cmpint (apart->devices[3], ==, RW_FATE_CUT_OFF);
  g_assert_cmpint (apart->devices[0], ==, RW_FATE_UNTOUCHED);
  g_assert_cmpuint (whole->device_counts[RW_FATE_CUT_OFF], ==, 0);
}

static gboolean
is_among (const GArray *indices, guint index)
{
  for (guint i = 0; i < indices->len; i++)
    if (g_array_index (indices, guint, i) == index)
      return TRUE;
  return FALSE;
}

/* B still reaches a desk, but not the one that its only line leads to; C has another. By hand. */
static void
test_no_line (void)
{
  g_autoptr (RwRig) rig = rw_test_rig ("console A; console D; rack B; rack C; switch S; A.p-S.p1; D.p-S.p2; B.p-S.p3; C.p-S.p4; rack E");
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwOutcome) cable = NULL, device = NULL, both = NULL;

  rw_test_rig_patch (rig, "B", 1, "A", 1, 2);
  rw_test_rig_patch (rig, "C", 1, "A", 5, 1);
  rw_test_rig_patch (rig, "C", 1, "D", 1, 1);
  rw_test_rig_patch (rig, "E", 1, "A", 9, 1); /* has no cable: nothing to lose */
  net = rw_net_new (rig);
  cable = outcome_of (net, (const char *[]){ "c1", NULL });
  device = outcome_of (net, (const char *[]){ "A", NULL });
  both = outcome_of (net, (const char *[]){ "c1", "c3", NULL });
  g_assert_cmpint (cable->devices[2], ==, RW_FATE_NO_LINE);
  g_assert_cmpint (cable->devices[3], ==, RW_FATE_UNTOUCHED);
  g_assert_cmpint (cable->devices[0], ==, RW_FATE_CUT_OFF);
  g_assert_cmpuint (cable->row_counts[RW_FATE_LOST], ==, 3);
  g_assert_cmpint (device->devices[2], ==, RW_FATE_NO_LINE);
  g_assert_cmpint (device->devices[0], ==, RW_FATE_FAILED);
  g_assert_cmpint (device->devices[5], ==, RW_FATE_NONE);
  g_assert_cmpint (both->devices[2], ==, RW_FATE_LOST);
}

/* Plain: by device, those that a flood from the nodes of @from meets; @hosts: from its own hosts, and only those met at
 * their hosts. */
static gboolean *
flood (const RwNet *net, guint from, const RwFailed *failed, gboolean from_hosts, gboolean hosts)
{
  gboolean *met = g_new0 (gboolean, net->n_devices + 1);
  g_autofree gboolean *seen = g_new0 (gboolean, net->n_nodes + 1);
  gboolean grown = TRUE;

  for (guint i = 0; i < net->n_nodes; i++)
    seen[i] = net->nodes[i].device == from && (net->nodes[i].host || !from_hosts);
  while (grown)
    {
      grown = FALSE;
      for (guint i = 0; i < net->n_links; i++)
        {
          guint a = net->links[i].node[0], b = net->links[i].node[1];

          if (failed->cable[net->links[i].cable] || failed->device[net->nodes[a].device] || failed->device[net->nodes[b].device]
              || seen[a] == seen[b])
            continue;
          seen[a] = seen[b] = grown = TRUE;
        }
    }
  for (guint i = 0; i < net->n_nodes; i++)
    met[net->nodes[i].device] |= seen[i] && (net->nodes[i].host || !hosts);
  return met;
}

static gboolean
is_host (const RwNet *net, guint device)
{
  gboolean host = FALSE;

  for (guint i = 0; i < net->n_nodes; i++)
    host |= net->nodes[i].device == device && net->nodes[i].host;
  return host;
}

static guint
n_met (const RwNet *net, guint device, const RwFailed *failed, gboolean hosts)
{
  g_autofree gboolean *met = flood (net, device, failed, is_host (net, device), hosts);
  guint n = 0;

  for (guint i = 0; i < net->n_devices; i++)
    n += i != device && met[i];
  return n;
}

static gboolean
meets_controller (const RwNet *net, guint device, const RwFailed *failed)
{
  g_autofree gboolean *met = flood (net, device, failed, TRUE, TRUE);
  gboolean any = FALSE;

  for (guint i = 0; i < net->n_devices; i++)
    any |= met[i] && net->devices[i].part->kind == RW_PART_CONTROLLER;
  return any;
}

static guint
n_neighbours (const RwNet *net, guint device, const RwFailed *failed)
{
  guint n = 0;

  for (guint p = 0; p < net->n_ports; p++)
    for (guint i = 0; net->ports[p].device == device && i < net->n_cables; i++)
      {
        guint end = net->cables[i].port[0] == p ? net->cables[i].port[1] : net->cables[i].port[1] == p ? net->cables[i].port[0] : p;

        n += net->ports[end].device != device && !failed->cable[i] && !failed->device[net->ports[end].device];
      }
  return n;
}

/* Whether it lost all company that it had: of those that send or receive, else of any, else at the ends of its cables. */
static gboolean
is_cut_off (const RwNet *net, guint device, const RwFailed *failed)
{
  g_autoptr (RwFailed) nothing = rw_failed_new (net, NULL);
  gboolean hosts;

  if (failed->device[device]
      || (net->devices[device].part->kind != RW_PART_CONTROLLER && meets_controller (net, device, nothing)
          && is_host (net, device)))
    return FALSE;
  hosts = n_met (net, device, nothing, TRUE) > 0;
  if (n_met (net, device, nothing, FALSE) == 0)
    return n_neighbours (net, device, nothing) > 0 && n_neighbours (net, device, failed) == 0;
  return n_met (net, device, nothing, hosts) > 0 && n_met (net, device, failed, hosts) == 0;
}

/* What is lost is what rw_fail() says, whatever fails together; it is compared with a flood elsewhere. What is cut off is
 * compared here. */
static void
test_fates_random (void)
{
  guint lost = 0, cut_off = 0;

  for (guint seed = 0; seed < 400; seed++)
    {
      RandomRig want = { .seed = seed, .devices = 3 + seed % 9, .cables = 3 + seed % 12, .rows = 8, .forwards_percent = 20 + seed % 60,
                         .joined = seed % 3 != 0, .all_redundant = seed % 5 < 2, .vlans = seed % 2 == 0 };
      g_autoptr (RwRig) rig = random_rig_new (&want);
      g_autoptr (RwNet) net = rw_net_new (rig);
      g_autoptr (RwFailed) failed = rw_failed_new (net, NULL);
      g_autoptr (RwOutcome) outcome = NULL;
      g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (guint));
      g_autoptr (GArray) devices = g_array_new (FALSE, FALSE, sizeof (guint));

      failed->device[seed % net->n_devices] = seed % 4 == 0;
      for (guint i = 0; i < net->n_cables; i++)
        failed->cable[i] = (seed + i) % 4 == 0;
      outcome = rw_outcome_new (net, failed);
      rw_fail (net, failed, rows, devices);
      for (guint i = 0; i < outcome->n_rows; i++)
        g_assert_cmpint (outcome->rows[i] == RW_FATE_LOST, ==, is_among (rows, i));
      for (guint i = 0; i < net->n_devices; i++)
        {
          g_assert_cmpint (outcome->devices[i] == RW_FATE_LOST, ==, is_among (devices, i));
          g_assert_cmpint (outcome->devices[i] == RW_FATE_CUT_OFF, ==, is_cut_off (net, i, failed));
        }
      lost += rows->len;
      cut_off += outcome->device_counts[RW_FATE_CUT_OFF];
    }
  g_assert_cmpuint (lost, >, 100); /* the rigs are worth the trouble */
  g_assert_cmpuint (cut_off, >, 100);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/net/outcome/fates", test_fates);
  g_test_add_func ("/net/outcome/cut-off", test_cut_off);
  g_test_add_func ("/net/outcome/cut-off-switches", test_cut_off_switches);
  g_test_add_func ("/net/outcome/no-line", test_no_line);
  g_test_add_func ("/net/outcome/fates-random", test_fates_random);
  return g_test_run ();
}
