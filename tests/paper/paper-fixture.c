/* SPDX-License-Identifier: MIT */
#include "paper-fixture.h"

#include <file/rw-file.h>
#include <glib/gstdio.h>
#include <math.h>

/* How much a picture may differ: a byte of a colour by STEP, and so by more in one pixel of PART. The rest is the
 * rounding of another version of cairo or FreeType. */
#define STEP 48
#define PART 400

static char *folder;

RwRig *
fixture_rig (const char *name)
{
  g_autofree char *path = g_path_is_absolute (name) ? g_strdup (name)
    : g_build_filename (g_getenv ("RIGWRIGHT_DATADIR"), "examples", name, NULL);
  g_autoptr (GError) error = NULL;
  RwRig *rig = rw_file_read (path, &error);

  g_assert_no_error (error);
  return rig;
}

RwScene *
fixture_scene (const RwRig *rig)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwFindings) findings = rw_findings_new (rig, net);

  return rw_scene_new (rig, net, findings);
}

char *
fixture_path (const char *name)
{
  if (folder == NULL)
    folder = g_dir_make_tmp ("rigwright-paper-XXXXXX", NULL);
  g_assert_nonnull (folder);
  return g_build_filename (folder, name, NULL);
}

void
fixture_clear (void)
{
  GDir *dir = folder != NULL ? g_dir_open (folder, 0, NULL) : NULL;
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  if (dir != NULL)
    {
      g_dir_close (dir);
      g_assert_cmpint (g_rmdir (folder), ==, 0);
    }
  g_clear_pointer (&folder, g_free);
}

cairo_t *
fixture_picture (double width, double height, double px_per_mm)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) lrint (width * px_per_mm),
                                                         (int) lrint (height * px_per_mm));
  cairo_t *cr = cairo_create (surface);

  cairo_surface_destroy (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, px_per_mm, px_per_mm);
  return cr;
}

static guint32 *
row_of (cairo_surface_t *surface, int y)
{
  return (gpointer) (cairo_image_surface_get_data (surface) + (gsize) y * cairo_image_surface_get_stride (surface));
}

static guint
difference (guint32 a, guint32 b)
{
  guint most = 0;

  for (guint shift = 0; shift < 24; shift += 8)
    most = MAX (most, (guint) abs ((int) ((a >> shift) & 255) - (int) ((b >> shift) & 255)));
  return most;
}

/* Pixels that differ too much; @marked shows them red on a paler copy of @ours. */
static guint
count (cairo_surface_t *ours, cairo_surface_t *reference, cairo_surface_t *marked)
{
  guint n = 0;

  for (int y = 0; y < cairo_image_surface_get_height (ours); y++)
    for (int x = 0; x < cairo_image_surface_get_width (ours); x++)
      {
        guint32 pixel = row_of (ours, y)[x];
        gboolean differs = difference (pixel, row_of (reference, y)[x]) > STEP;

        n += differs;
        row_of (marked, y)[x] = differs ? 0xff0000 : 0xc0c0c0 | ((pixel >> 2) & 0x3f3f3f);
      }
  return n;
}

static cairo_surface_t *
load (const char *path)
{
  cairo_surface_t *file = cairo_image_surface_create_from_png (path);
  cairo_surface_t *plain;
  cairo_t *cr;

  if (cairo_surface_status (file) != CAIRO_STATUS_SUCCESS)
    g_error ("%s: %s", path, cairo_status_to_string (cairo_surface_status (file)));
  plain = cairo_image_surface_create (CAIRO_FORMAT_RGB24, cairo_image_surface_get_width (file),
                                      cairo_image_surface_get_height (file));
  cr = cairo_create (plain);
  cairo_set_source_surface (cr, file, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (file);
  cairo_surface_flush (plain);
  return plain;
}

static void
keep (cairo_surface_t *surface, const char *name, const char *what)
{
  g_autofree char *file = g_strconcat (name, what, NULL);
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_BUILDDIR"), file, NULL);

  cairo_surface_mark_dirty (surface);
  g_assert_cmpint (cairo_surface_write_to_png (surface, path), ==, CAIRO_STATUS_SUCCESS);
  g_test_message ("see %s", path);
}

static void
compare (cairo_surface_t *ours, const char *path, const char *name)
{
  cairo_surface_t *reference = load (path);
  int w = cairo_image_surface_get_width (ours), h = cairo_image_surface_get_height (ours);
  cairo_surface_t *marked = cairo_image_surface_create (CAIRO_FORMAT_RGB24, w, h);
  gboolean same_size = w == cairo_image_surface_get_width (reference) && h == cairo_image_surface_get_height (reference);
  guint n = same_size ? count (ours, reference, marked) : 0;

  if (!same_size || n > (guint) (w * h) / PART)
    {
      keep (ours, name, ".out.png");
      if (same_size)
        keep (marked, name, ".diff.png");
      g_test_message ("%s: %u of %d pixels differ, %d may", name, n, w * h, w * h / PART);
      g_test_fail ();
    }
  cairo_surface_destroy (marked);
  cairo_surface_destroy (reference);
}

void
fixture_compare (cairo_t *cr, const char *name)
{
  g_autofree char *file = g_strconcat (name, ".ref.png", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("G_TEST_SRCDIR"), file, NULL);
  cairo_surface_t *ours = cairo_get_target (cr);

  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_flush (ours);
  if (g_getenv ("RIGWRIGHT_NEW_PICTURES") != NULL)
    g_assert_cmpint (cairo_surface_write_to_png (ours, path), ==, CAIRO_STATUS_SUCCESS);
  else
    compare (ours, path, name);
  cairo_destroy (cr);
}
