/* SPDX-License-Identifier: MIT */
#include "rw-part-picture.h"

#include <paper/rw-draw.h>

#define WIDTH_PX 64
#define HEIGHT_PX 40

/* One scale for all, so that a large part looks larger; those that would not fit are shrunk. */
#define PX_PER_MM 1.1

struct _RwPartPicture
{
  GtkWidget parent_instance;
  RwPart *part;
};

G_DEFINE_FINAL_TYPE (RwPartPicture, rw_part_picture, GTK_TYPE_WIDGET)

/* The panel's own colour tells whether it is dark: its text is then light. */
static gboolean
is_dark (GtkWidget *widget)
{
  GdkRGBA colour;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  return colour.red + colour.green + colour.blue > 1.5;
}

/* A mark in the middle of the box tells the kinds apart at a glance; 20 × 10 px round (0, 0). */
static void
mark_bars (cairo_t *cr, const double *heights, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      double x = ((double) i - (n - 1) / 2.0) * 4;
      cairo_rectangle (cr, x - 0.5, -5, 1, 10);
      cairo_rectangle (cr, x - 1.5, 4 - heights[i] - 1.5, 3, 2.5);
    }
  cairo_fill (cr);
}

static void
mark_controller (cairo_t *cr)
{
  static const double faders[] = { 2, 5, 7, 4, 6 };

  mark_bars (cr, faders, G_N_ELEMENTS (faders));
}

static void
mark_rack (cairo_t *cr)
{
  for (int row = 0; row < 2; row++)
    for (int i = -2; i <= 2; i++)
      {
        cairo_new_sub_path (cr);
        cairo_arc (cr, i * 4.6, row * 5.6 - 2.8, 1.7, 0, 2 * G_PI);
      }
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
}

static void
mark_endpoint (cairo_t *cr)
{
  cairo_rectangle (cr, -5, -2, 3, 4);
  cairo_move_to (cr, -2, -2);
  cairo_line_to (cr, 4, -5);
  cairo_line_to (cr, 4, 5);
  cairo_line_to (cr, -2, 2);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
mark_switch (cairo_t *cr)
{
  for (int i = -2; i <= 2; i++)
    cairo_rectangle (cr, i * 5 - 1.5, 0, 3, 3);
  cairo_rectangle (cr, -10, -3, 20, 1);
  cairo_fill (cr);
}

static void
mark_converter (cairo_t *cr)
{
  cairo_rectangle (cr, -9, -1.5, 6, 3);
  cairo_move_to (cr, -3, -4);
  cairo_line_to (cr, 2, 0);
  cairo_line_to (cr, -3, 4);
  cairo_close_path (cr);
  cairo_rectangle (cr, 3, -0.5, 6, 1);
  cairo_fill (cr);
}

static void (*const marks[]) (cairo_t *) = {
  [RW_PART_CONTROLLER] = mark_controller,
  [RW_PART_RACK] = mark_rack,
  [RW_PART_ENDPOINT] = mark_endpoint,
  [RW_PART_SWITCH] = mark_switch,
  [RW_PART_CONVERTER] = mark_converter,
};
G_STATIC_ASSERT (G_N_ELEMENTS (marks) == RW_N_PART_KINDS);

static void
rw_part_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  RwPartPicture *picture = RW_PART_PICTURE (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  RwRect box = rw_scene_part_box (picture->part, "");
  RwDrawOptions options = { .dark = is_dark (widget) };
  /* The tabs stick out of the box by a few millimetres. */
  double margin = 4;
  double scale = MIN (PX_PER_MM, MIN (width / (box.w + 2 * margin), height / (box.h + 2 * margin)));
  RwInk text;
  cairo_t *cr;

  if (box.w <= 0 || box.h <= 0)
    return;
  options.px_per_mm = scale;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  cairo_translate (cr, width / 2.0, height / 2.0);
  cairo_save (cr);
  cairo_scale (cr, scale, scale);
  rw_draw_part_ghost (cr, picture->part, "", -box.w / 2, -box.h / 2, &options);
  cairo_restore (cr);
  text = rw_ink (RW_INK_TEXT, &options);
  cairo_set_source_rgb (cr, text.r, text.g, text.b);
  marks[picture->part->kind] (cr);
  cairo_destroy (cr);
}

static void
rw_part_picture_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                         int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH_PX : HEIGHT_PX;
}

GtkWidget *
rw_part_picture_new (const RwPart *part)
{
  RwPartPicture *picture = g_object_new (RW_TYPE_PART_PICTURE, NULL);

  picture->part = rw_item_ref ((gpointer) part);
  return GTK_WIDGET (picture);
}

static void
rw_part_picture_finalize (GObject *object)
{
  rw_item_unref (RW_PART_PICTURE (object)->part);
  G_OBJECT_CLASS (rw_part_picture_parent_class)->finalize (object);
}

static void
rw_part_picture_class_init (RwPartPictureClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_part_picture_finalize;
  GTK_WIDGET_CLASS (klass)->snapshot = rw_part_picture_snapshot;
  GTK_WIDGET_CLASS (klass)->measure = rw_part_picture_measure;
  /* The name beside it says all. */
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
rw_part_picture_init (RwPartPicture *picture)
{
}
