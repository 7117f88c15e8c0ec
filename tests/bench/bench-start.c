/* SPDX-License-Identifier: MIT */
/* From the start of the real program with a rig of 200 devices to its first frame on the display: bench-start RIGWRIGHT. */
#include "scene-rigs.h"

#include <X11/Xlib.h>
#include <X11/Xutil.h>
#include <file/rw-file.h>
#include <glib/gstdio.h>
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

int
main (int argc, char *argv[])
{
  g_autofree char *folder = g_dir_make_tmp ("rigwright-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "start.rig", NULL);
  g_autoptr (RwRig) rig = scene_rig_large (200);
  g_autoptr (GError) error = NULL;
  char *command[] = { argc == 2 ? argv[1] : NULL, path, NULL };
  Display *display = XOpenDisplay (NULL);
  Start starts[RUNS];

  g_assert_nonnull (display);
  g_assert_nonnull (command[0]);
  rw_file_write (rig, path, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < RUNS; i++)
    starts[i] = start (display, command);
  qsort (starts, RUNS, sizeof *starts, compare_starts);
  g_print ("start to the first frame, %u devices: %.2f s (from %.2f to %.2f), of the processor %.2f s\n",
           rw_rig_n (rig, RW_ITEM_DEVICE), starts[RUNS / 2].wall, starts[0].wall, starts[RUNS - 1].wall, starts[RUNS / 2].processor);
  XCloseDisplay (display);
  g_unlink (path);
  g_rmdir (folder);
  return 0;
}
