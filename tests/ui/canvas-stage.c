/* SPDX-License-Identifier: MIT */
#include "canvas-stage.h"

#include "rig-builder.h"

#include <math.h>
#include <stdlib.h>

#define SETTLE_FRAMES 200

void
stage_open (Stage *stage, RwDocument *document, int width, int height)
{
  stage->document = g_object_ref (document);
  stage->window = GTK_WINDOW (gtk_window_new ());
  stage->canvas = RW_CANVAS (rw_canvas_new (document));
  gtk_window_set_decorated (stage->window, FALSE);
  gtk_window_set_default_size (stage->window, width, height);
  gtk_window_set_child (stage->window, GTK_WIDGET (stage->canvas));
  gtk_window_present (stage->window);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (stage->canvas));
}

void
stage_open_text (Stage *stage, const char *text)
{
  g_autoptr (RwRig) rig = rw_test_rig (text);
  g_autoptr (RwDocument) document = rw_document_new_for_rig (rig);

  stage_open (stage, document, 1000, 700);
}

void
stage_close (Stage *stage)
{
  gtk_window_destroy (stage->window);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  g_clear_object (&stage->document);
}

void
stage_settle (Stage *stage)
{
  while (g_main_context_iteration (NULL, FALSE))
    ;
  gtk_widget_queue_draw (GTK_WIDGET (stage->canvas));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (stage->canvas));
}

cairo_surface_t *
stage_glance (Stage *stage)
{
  GtkWidget *widget = GTK_WIDGET (stage->canvas);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (picture);
  GskRenderNode *node;

  gdk_paintable_snapshot (paintable, snapshot, width, height);
  node = gtk_snapshot_free_to_node (snapshot);
  gsk_render_node_draw (node, cr);
  gsk_render_node_unref (node);
  cairo_destroy (cr);
  return picture;
}

cairo_surface_t *
stage_picture (Stage *stage)
{
  cairo_surface_t *before = NULL, *now = NULL;

  for (guint i = 0; i < SETTLE_FRAMES; i++)
    {
      stage_settle (stage);
      now = stage_glance (stage);
      if (before != NULL && stage_difference (before, now, 0) == 0)
        break;
      g_clear_pointer (&before, cairo_surface_destroy);
      before = g_steal_pointer (&now);
    }
  g_clear_pointer (&before, cairo_surface_destroy);
  g_assert_nonnull (now);
  return now;
}

static const guint8 *
row_of (cairo_surface_t *picture, int y)
{
  return cairo_image_surface_get_data (picture) + (gsize) y * cairo_image_surface_get_stride (picture);
}

double
stage_difference (cairo_surface_t *a, cairo_surface_t *b, int tolerance)
{
  int width = cairo_image_surface_get_width (a), height = cairo_image_surface_get_height (a);
  gsize n = 0;

  g_assert_cmpint (width, ==, cairo_image_surface_get_width (b));
  g_assert_cmpint (height, ==, cairo_image_surface_get_height (b));
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      for (int channel = 0; channel < 3; channel++)
        if (abs (row_of (a, y)[4 * x + channel] - row_of (b, y)[4 * x + channel]) > tolerance)
          {
            n++;
            break;
          }
  return (double) n / ((double) width * height);
}

double
stage_share_of (cairo_surface_t *picture, double r, double g, double b)
{
  int width = cairo_image_surface_get_width (picture), height = cairo_image_surface_get_height (picture);
  const double wanted[3] = { b * 255, g * 255, r * 255 }; /* little endian */
  gsize n = 0;

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        const guint8 *pixel = row_of (picture, y) + 4 * x;

        n += abs (pixel[0] - (int) wanted[0]) <= 3 && abs (pixel[1] - (int) wanted[1]) <= 3
             && abs (pixel[2] - (int) wanted[2]) <= 3;
      }
  return (double) n / ((double) width * height);
}

static RwPoint
middle_px (Stage *stage, RwRect mm)
{
  return rw_canvas_from_sheet (stage->canvas, (RwPoint) { mm.x + mm.w / 2, mm.y + mm.h / 2 });
}

RwPoint
stage_device (Stage *stage, const char *device)
{
  guint index = rw_net_find_device (rw_document_net (stage->document), device);

  g_assert_cmpuint (index, !=, RW_NONE);
  return middle_px (stage, rw_scene_device (rw_document_scene (stage->document), index)->box);
}

RwPoint
stage_port (Stage *stage, const char *device, const char *port)
{
  guint index = rw_net_find_port (rw_document_net (stage->document), device, port);

  g_assert_cmpuint (index, !=, RW_NONE);
  return middle_px (stage, rw_scene_port (rw_document_scene (stage->document), index)->tab);
}

void
stage_drag (Stage *stage, RwPoint from, RwPoint to, GdkModifierType state)
{
  rw_canvas_press (stage->canvas, GDK_BUTTON_PRIMARY, 1, from.x, from.y, state);
  for (guint i = 1; i <= 5; i++)
    {
      rw_canvas_motion (stage->canvas, from.x + (to.x - from.x) * i / 5, from.y + (to.y - from.y) * i / 5, state);
      stage_settle (stage);
    }
  rw_canvas_release (stage->canvas, GDK_BUTTON_PRIMARY, to.x, to.y, state);
}

GtkEventController *
stage_controller (Stage *stage, GType type)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (GTK_WIDGET (stage->canvas));

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (all, i);

      if (G_OBJECT_TYPE (controller) == type)
        return controller;
    }
  g_assert_not_reached ();
}

void
stage_assert_near (RwPoint a, RwPoint b, double px)
{
  g_assert_cmpfloat_with_epsilon (a.x, b.x, px);
  g_assert_cmpfloat_with_epsilon (a.y, b.y, px);
}
