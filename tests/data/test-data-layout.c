/* SPDX-License-Identifier: MIT */
/* The examples are drawn tidily: on the grid, with room between the devices, and no label upon one. */
#include <file/rw-file.h>
#include <math.h>
#include <paper/rw-scene.h>

#include "data-files.h"

#define GRID_MM 5.0

static RwScene *
lay_out (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwRig) rig = rw_file_read (path, &error);
  g_autoptr (RwNet) net = NULL;
  g_autoptr (RwFindings) findings = NULL;

  g_assert_no_error (error);
  net = rw_net_new (rig);
  findings = rw_findings_new (rig, net);
  return rw_scene_new (rig, net, findings);
}

static gboolean
meet (RwRect a, RwRect b, double gap)
{
  return a.x < b.x + b.w + gap && b.x < a.x + a.w + gap && a.y < b.y + b.h + gap && b.y < a.y + a.h + gap;
}

static void
test_grid (gconstpointer path)
{
  g_autoptr (RwScene) scene = lay_out (path);

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      RwRect box = rw_scene_device (scene, i)->box;

      g_assert_cmpfloat (fmod (box.x, GRID_MM), ==, 0);
      g_assert_cmpfloat (fmod (box.y, GRID_MM), ==, 0);
    }
}

static void
test_apart (gconstpointer path)
{
  g_autoptr (RwScene) scene = lay_out (path);

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    for (guint j = 0; j < i; j++)
      if (meet (rw_scene_device (scene, i)->box, rw_scene_device (scene, j)->box, GRID_MM - 1e-6))
        g_error ("devices %u and %u are less than %g mm apart", j, i, GRID_MM);
}

/* Every cable is labelled, and its label lies on no device. */
static void
test_labels (gconstpointer path)
{
  g_autoptr (RwScene) scene = lay_out (path);

  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    {
      const RwSceneCable *cable = rw_scene_cable (scene, i);

      g_assert_nonnull (cable->text);
      if (cable->label.w <= 0)
        g_error ("there is no room for the label “%s”", cable->text);
      for (guint j = 0; j < rw_scene_n_devices (scene); j++)
        if (meet (cable->label, rw_scene_device (scene, j)->box, 0))
          g_error ("the label “%s” lies on device %u", cable->text, j);
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) examples = NULL;

  g_test_init (&argc, &argv, NULL);
  examples = data_examples ();
  data_add_tests ("/data/layout/grid", examples, test_grid);
  data_add_tests ("/data/layout/apart", examples, test_apart);
  data_add_tests ("/data/layout/labels", examples, test_labels);
  return g_test_run ();
}
