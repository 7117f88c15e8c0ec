/* SPDX-License-Identifier: MIT */
#include "rw-frame-memory.h"

#ifdef GDK_WINDOWING_X11
#include <cairo-xlib.h>
#include <gdk/x11/gdkx.h>

/* Of the largest screen, in device pixels. */
static void
largest_frame (GdkDisplay *display, int *width, int *height)
{
  GListModel *monitors = gdk_display_get_monitors (display);

  *width = *height = 1;
  for (guint i = 0; i < g_list_model_get_n_items (monitors); i++)
    {
      g_autoptr (GdkMonitor) monitor = g_list_model_get_item (monitors, i);
      int factor = gdk_monitor_get_scale_factor (monitor);
      GdkRectangle area;

      gdk_monitor_get_geometry (monitor, &area);
      *width = MAX (*width, area.width * factor);
      *height = MAX (*height, area.height * factor);
    }
}

/* The memory stays as long as any image lies in it, however small. */
static cairo_surface_t *
hold_x11 (GdkDisplay *display)
{
  Display *xdisplay = gdk_x11_display_get_xdisplay (display);
  cairo_surface_t *root = cairo_xlib_surface_create (xdisplay, gdk_x11_display_get_xrootwindow (display),
                                                     DefaultVisual (xdisplay, DefaultScreen (xdisplay)), 1, 1);
  cairo_surface_t *frame, *held;
  int width, height;

  largest_frame (display, &width, &height);
  frame = cairo_surface_create_similar_image (root, CAIRO_FORMAT_ARGB32, width, height);
  held = cairo_surface_create_similar_image (root, CAIRO_FORMAT_ARGB32, 32, 32);
  cairo_surface_destroy (frame);
  cairo_surface_destroy (root);
  return held;
}
#endif

cairo_surface_t *
rw_frame_memory_hold (GdkDisplay *display)
{
#ifdef GDK_WINDOWING_X11
  if (GDK_IS_X11_DISPLAY (display))
    return hold_x11 (display);
#endif
  return NULL;
}
