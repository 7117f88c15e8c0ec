/* SPDX-License-Identifier: MIT */
/* How long the sheet takes to lay out, and to follow a drag: medians, and each size as a ratio to the first. */
#include "bench-time.h"
#include "scene-rigs.h"

#include <file/rw-file.h>
#include <rig/rw-edit.h>

#define ROUNDS 15

static double
time_whole (const RwRig *rig, const RwNet *net, const RwFindings *findings)
{
  double times[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++)
    {
      double start = bench_now_ms ();
      g_autoptr (RwScene) scene = rw_scene_new (rig, net, findings);

      times[i] = bench_now_ms () - start;
    }
  return bench_median (times, ROUNDS);
}

static double
time_shift (const RwRig *rig, const RwNet *net, const RwFindings *findings)
{
  g_autoptr (RwScene) scene = rw_scene_new (rig, net, findings);
  guint device = net->n_devices / 2 + 1;
  double times[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++)
    {
      double start = bench_now_ms ();

      for (guint k = 0; k < 20; k++)
        rw_scene_shift (scene, &device, 1, 1.0 * i, 0.5 * k);
      times[i] = bench_now_ms () - start;
    }
  return bench_median (times, ROUNDS) / 20.0;
}

static void
report (const char *name, const RwRig *rig, double *first)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwFindings) findings = rw_findings_new (rig, net);
  double whole = time_whole (rig, net, findings), shift = time_shift (rig, net, findings);

  if (*first <= 0.0)
    *first = whole;
  g_print ("%-12s %5u devices %5u cables: whole %8.3f ms (%6.1f times the first), shift of one device %7.4f ms\n", name, net->n_devices, net->n_cables, whole,
           whole / *first, shift);
}

/* All devices nowhere, for the program to lay out, or in one heap, where every cable crosses every other. */
static RwRig *
put_all (const RwRig *rig, const RwPoint *at)
{
  RwRig *copy = rw_rig_copy (rig);
  RwEdit *edit = rw_edit_new (copy, "");
  g_autoptr (RwChange) change = NULL;

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    rw_edit_set (edit, rw_item_key (rw_rig_items (rig, RW_ITEM_DEVICE)[i]), RW_DEVICE_AT,
                 at != NULL ? g_variant_new ("(dd)", at->x, at->y) : NULL, NULL);
  change = rw_edit_finish (edit);
  if (!rw_rig_apply (copy, change, NULL))
    g_error ("not put");
  return copy;
}

int
main (int argc, char **argv)
{
  static const guint sizes[] = { 60, 200, 2000 };
  double first = 0.0;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (RwRig) rig = scene_rig_large (sizes[i]);

      g_autoptr (RwRig) nowhere = put_all (rig, NULL);
      g_autoptr (RwRig) heap = put_all (rig, &(RwPoint) { 0, 0 });

      report ("rows", rig, &first);
      report ("no places", nowhere, &first);
      report ("one heap", heap, &first);
    }
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (RwRig) rig = rw_file_read (argv[i], &error);

      if (rig == NULL)
        g_error ("%s", error->message);
      report (argv[i], rig, &first);
    }
  return EXIT_SUCCESS;
}
