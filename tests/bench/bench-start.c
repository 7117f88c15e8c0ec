/* SPDX-License-Identifier: MIT */
/* From the start of the real program with a rig of 200 devices to its first frame on the display: bench-start RIGWRIGHT.
   Twice: with a sound rig, of which the rules have next to nothing to say, and with one full of findings. */
#include "scene-rigs.h"
#include "sound-rig.h"

#include <X11/Xlib.h>
#include <X11/Xutil.h>
#include <file/rw-file.h>
#include <glib/gstdio.h>
#include <rules/rw-finding.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>

#define RUNS 7
#define LONGEST_US (30 * G_USEC_PER_SEC)
#define POLL_US 2000

typedef struct { double wall, processor; } Start;

/* Whether a row across the display shows more than bare ground, as soon as the window has drawn its first frame. */
static gboolean
is_drawn (Display *display)
{
  int screen = DefaultScreen (display), width = DisplayWidth (display, screen), n = 0;
  XImage *row = XGetImage (display, RootWindow (display, screen), 0, DisplayHeight (display, screen) / 3, (unsigned) width, 1,
                           AllPlanes, ZPixmap);

  for (int x = 1; x < width; x++)
    n += XGetPixel (row, x, 0) != XGetPixel (row, x - 1, 0);
  XDestroyImage (row);
  return n > 8;
}

static void
wait_until (Display *display, gboolean drawn)
{
  gint64 began = g_get_monotonic_time ();

  while (is_drawn (display) != drawn && g_get_monotonic_time () - began < LONGEST_US)
    g_usleep (POLL_US);
  g_assert_cmpint (is_drawn (display), ==, drawn);
}

static Start
start (Display *display, char **argv)
{
  g_autoptr (GError) error = NULL;
  gint64 began = g_get_monotonic_time ();
  struct rusage used;
  GPid pid;
  Start result;

  g_spawn_async (NULL, argv, NULL, G_SPAWN_DO_NOT_REAP_CHILD, NULL, NULL, &pid, &error);
  g_assert_no_error (error);
  wait_until (display, TRUE);
  result.wall = (double) (g_get_monotonic_time () - began) / 1e6;
  kill (pid, SIGKILL);
  wait4 (pid, NULL, 0, &used);
  result.processor = used.ru_utime.tv_sec + used.ru_stime.tv_sec + (used.ru_utime.tv_usec + used.ru_stime.tv_usec) / 1e6;
  wait_until (display, FALSE);
  return result;
}

static int
compare_starts (gconstpointer a, gconstpointer b)
{
  double x = ((const Start *) a)->wall, y = ((const Start *) b)->wall;

  return (x > y) - (x < y);
}

/* An area beside the other, each in rows to and fro, so that a chain goes on at its own end. */
static void
place (RwRig *rig)
{
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      gpointer device = rw_rig_items (rig, RW_ITEM_DEVICE)[i];
      guint area = i / 25, row = i % 25 / 5, column = row % 2 == 0 ? i % 5 : 4 - i % 5;
      double x = 20.0 + (area % 4) * 520.0 + column * 95.0, y = 20.0 + (area / 4) * 400.0 + row * 70.0;

      rw_record_set (device, &rw_device_table, RW_DEVICE_AT, g_variant_new ("(dd)", x, y), NULL);
    }
}

static void
measure (Display *display, const char *what, RwRig *rig, char **command)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwFindings) findings = rw_findings_new (rig, net);
  g_autoptr (GError) error = NULL;
  Start starts[RUNS];

  rw_file_write (rig, command[1], &error);
  g_assert_no_error (error);
  for (guint i = 0; i < RUNS; i++)
    starts[i] = start (display, command);
  qsort (starts, RUNS, sizeof *starts, compare_starts);
  g_print ("start to the first frame, %s, %u devices, %u findings: %.2f s (from %.2f to %.2f), of the processor %.2f s\n",
           what, rw_rig_n (rig, RW_ITEM_DEVICE), rw_findings_n (findings), starts[RUNS / 2].wall, starts[0].wall,
           starts[RUNS - 1].wall, starts[RUNS / 2].processor);
}

int
main (int argc, char *argv[])
{
  g_autofree char *folder = g_dir_make_tmp ("rigwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "start.rig", NULL);
  g_autoptr (RwRig) sound = sound_rig_new (200, 400);
  g_autoptr (RwRig) unsound = scene_rig_large (200);
  char *command[] = { argc == 2 ? argv[1] : NULL, path, NULL };
  Display *display = XOpenDisplay (NULL);

  g_assert_nonnull (display);
  g_assert_nonnull (command[0]);
  place (sound);
  measure (display, "sound", sound, command);
  measure (display, "unsound", unsound, command);
  XCloseDisplay (display);
  g_unlink (path);
  g_rmdir (folder);
  return 0;
}
