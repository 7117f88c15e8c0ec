/* SPDX-License-Identifier: MIT */
/* Where devices stand that the rig has no place for, and that a heap of things does not take for ever. */
#include "scene-rigs.h"

#include <math.h>
#include <paper/rw-route.h>
#include <rig/rw-edit.h>

static void
apply (RwRig *rig, RwEdit *edit)
{
  g_autoptr (RwChange) change = rw_edit_finish (edit);
  g_autoptr (GError) error = NULL;

  rw_rig_apply (rig, change, &error);
  g_assert_no_error (error);
}

/* Puts all devices from the @first on at @at: (nullable): NULL = nowhere. */
static void
put_at (RwRig *rig, guint first, const RwPoint *at)
{
  RwEdit *edit = rw_edit_new (rig, "");

  for (guint i = first; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    rw_edit_set (edit, rw_item_key (rw_rig_items (rig, RW_ITEM_DEVICE)[i]), RW_DEVICE_AT,
                 at != NULL ? g_variant_new ("(dd)", at->x, at->y) : NULL, NULL);
  apply (rig, edit);
}

static gboolean
is_on_grid (double mm)
{
  return fabs (mm / 5.0 - round (mm / 5.0)) < 1e-9;
}

static void
check_apart (const RwScene *scene, guint first)
{
  for (guint i = first; i < rw_scene_n_devices (scene); i++)
    {
      RwRect bounds = rw_scene_device (scene, i)->bounds;

      g_assert_true (is_on_grid (rw_scene_place (scene, i).x) && is_on_grid (rw_scene_place (scene, i).y));
      for (guint k = 0; k < i; k++)
        if (rw_rects_overlap (bounds, rw_scene_device (scene, k)->bounds))
          g_error ("devices %u and %u of %u overlap", k, i, rw_scene_n_devices (scene));
    }
}

static void
check_same (const RwScene *a, const RwScene *b)
{
  for (guint i = 0; i < rw_scene_n_devices (a); i++)
    g_assert_cmpfloat (hypot (rw_scene_place (a, i).x - rw_scene_place (b, i).x, rw_scene_place (a, i).y - rw_scene_place (b, i).y), <, 1e-9);
}

/* All in one row or column, or none joined to any other, or a sheet's worth of switches: no two lie on one another, twice alike. */
static void
check_rig (RwRig *rig)
{
  g_autoptr (RwScene) scene = NULL, again = NULL;
  RwRect all;

  put_at (rig, 0, NULL);
  scene = scene_of (rig);
  again = scene_of (rig);
  check_apart (scene, 0);
  check_same (scene, again);
  all = rw_scene_bounds (scene);
  if (rw_scene_n_devices (scene) >= 20) /* it fits on a sheet without most of that left empty */
    g_assert_true (all.w < 4.0 * all.h && all.h < 4.0 * all.w);
}

static RwRig *
alone (guint n)
{
  SceneRig *rig = scene_rig_begin ();

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("d%u", i);

      scene_rig_device (rig, id, i % 5 == 0 ? "switch24" : "amp", id, 0, 0);
    }
  return scene_rig_end (rig);
}

static RwRig *
chain (guint n)
{
  SceneRig *rig = scene_rig_begin ();

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("d%u", i), *before = g_strdup_printf ("d%u", i - 1);

      scene_rig_device (rig, id, "rack", id, 0, 0);
      if (i > 0)
        scene_rig_cable (rig, before, "Secondary", id, "Primary", NULL);
    }
  return scene_rig_end (rig);
}

static void
test_apart (void)
{
  static const char *const demos[] = { "small-chain", "redundant", "festival-60", "trip-loop", "trip-not-cabled", "trip-planes-joined" };
  g_autoptr (RwRig) large = scene_rig_large (200);
  g_autoptr (RwRig) many = alone (200);
  g_autoptr (RwRig) line = chain (200);

  for (guint i = 0; i < G_N_ELEMENTS (demos); i++)
    {
      g_autoptr (RwRig) rig = scene_rig_demo (demos[i]);

      check_rig (rig);
    }
  check_rig (large);
  check_rig (many);
  check_rig (line);
}

/* A chain reads as a text does. */
static void
test_chain (void)
{
  g_autoptr (RwRig) rig = chain (40);
  g_autoptr (RwScene) scene = NULL;

  put_at (rig, 0, NULL);
  scene = scene_of (rig);
  for (guint i = 1; i < 40; i++)
    {
      RwPoint before = rw_scene_place (scene, i - 1), at = rw_scene_place (scene, i);

      g_assert_true (at.y > before.y ? at.x < before.x : at.x > before.x);
      g_assert_cmpfloat (at.y, >=, before.y);
    }
}

/* What hangs on a switch stands on the side to which its port looks. */
static void
test_sides (void)
{
  SceneRig *text = scene_rig_begin ();
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwScene) scene = NULL;

  scene_rig_device (text, "hub", "switch24", "Hub", 0, 0);
  for (guint i = 1; i <= 24; i++)
    {
      g_autofree char *id = g_strdup_printf ("d%u", i), *port = g_strdup_printf ("%u", i);

      scene_rig_device (text, id, "amp", id, 0, 0);
      scene_rig_cable (text, "hub", port, id, "Primary", NULL);
    }
  rig = scene_rig_end (text);
  put_at (rig, 0, NULL);
  scene = scene_of (rig);
  for (guint i = 1; i <= 24; i++)
    {
      gboolean above = rw_scene_port (scene, i - 1)->edge == RW_EDGE_TOP;

      g_assert_true (above == (rw_scene_place (scene, i).y < rw_scene_place (scene, 0).y));
    }
}

/* What has a place keeps it, and the others stay off it, at the sheet's end too. */
static void
test_beside (void)
{
  g_autoptr (RwRig) rig = scene_rig_demo ("festival-60");
  g_autoptr (RwScene) scene = NULL, low = NULL;
  RwPoint end = { 40, 99900 };

  put_at (rig, 30, NULL);
  scene = scene_of (rig);
  for (guint i = 0; i < 30; i++)
    {
      RwPoint at = ((const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i])->at, place = rw_scene_place (scene, i);

      g_assert_cmpfloat (hypot (at.x - place.x, at.y - place.y), <, 1e-9);
    }
  check_apart (scene, 30);
  put_at (rig, 0, &end);
  put_at (rig, 1, NULL);
  low = scene_of (rig);
  check_apart (low, 1);
  for (guint i = 0; i < rw_scene_n_devices (low); i++)
    g_assert_cmpfloat (rw_scene_place (low, i).y, <=, 100000);
}

/* The change that writes the places down changes nothing that is seen. */
static void
test_settle (void)
{
  g_autoptr (RwRig) rig = scene_rig_demo ("redundant");
  g_autoptr (RwScene) before = NULL, after = NULL;
  g_autoptr (RwChange) change = NULL;

  put_at (rig, 0, NULL);
  before = scene_of (rig);
  change = rw_scene_settle (before, rig);
  g_assert_cmpuint (rw_change_n (change), ==, rw_rig_n (rig, RW_ITEM_DEVICE));
  g_assert_true (rw_rig_apply (rig, change, NULL));
  after = scene_of (rig);
  check_same (before, after);
  g_assert_null (rw_scene_settle (after, rig));
}

/* Pushed aside and put back, they stand where they stood. */
static void
test_shift (void)
{
  g_autoptr (RwRig) rig = scene_rig_demo ("redundant");
  g_autoptr (RwScene) scene = NULL;
  const guint device = 2;
  RwRect box;

  put_at (rig, 0, NULL);
  scene = scene_of (rig);
  box = rw_scene_device (scene, device)->box;
  rw_scene_shift (scene, &device, 1, 12, 7);
  g_assert_cmpfloat (hypot (rw_scene_device (scene, device)->box.x - box.x - 12, rw_scene_device (scene, device)->box.y - box.y - 7), <, 1e-9);
  rw_scene_shift (scene, &device, 1, 0, 0);
  g_assert_cmpfloat (hypot (rw_scene_device (scene, device)->box.x - box.x, rw_scene_device (scene, device)->box.y - box.y), <, 1e-9);
}

/* Lines in one heap: once its looks are taken, the router takes only those few that do not go by what lies there. */
static void
test_heap (void)
{
  const guint n = 400;
  g_autoptr (GArray) none = NULL;
  RwRouter *router = rw_router_new (n);
  RwRect box = { 0, 0, 50, 20 };
  RwRouteJob job = { { 55, 15 }, { -5, 15 }, RW_EDGE_RIGHT, RW_EDGE_LEFT, box, box, NULL, 0 };
  guint64 limit = 50000, most;
  guint all[400];

  for (guint i = 0; i < n; i++)
    {
      all[i] = i;
      rw_router_set_box (router, i, box, box);
    }
  rw_router_set_budget (router, 1000, limit);
  most = limit + 40 * n; /* a query is not broken off */
  for (guint i = 0; i < n; i++)
    {
      guint n_points;
      g_autofree RwPoint *points = rw_router_find (router, i, &job, &n_points);

      g_assert_cmpuint (n_points, >=, 2);
      rw_router_take (router, i, points, n_points);
      most += 2 * 8 * n; /* how far it runs straight at its two ends is still asked */
    }
  g_assert_true (rw_router_is_spent (router));
  g_assert_cmpuint (rw_router_looks (router)->n, <, most);
  most = rw_router_looks (router)->n;
  none = rw_router_crossings (router, all, n);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_cmpuint (rw_router_looks (router)->n, ==, most);
  rw_router_free (router);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene-place/apart", test_apart);
  g_test_add_func ("/scene-place/chain", test_chain);
  g_test_add_func ("/scene-place/sides", test_sides);
  g_test_add_func ("/scene-place/beside", test_beside);
  g_test_add_func ("/scene-place/settle", test_settle);
  g_test_add_func ("/scene-place/shift", test_shift);
  g_test_add_func ("/scene-place/heap", test_heap);
  return g_test_run ();
}
