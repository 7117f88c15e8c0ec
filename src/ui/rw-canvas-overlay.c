/* SPDX-License-Identifier: MIT */
/* What a tool shows while it works, and the arrows to findings out of sight. */
#include "rw-canvas-private.h"

#include <math.h>

#define ARROW_PX 11.0
#define ARROW_REACH_PX 15 /* from its middle, the rim included */
#define ARROW_WAYS 64     /* directions that are told apart */
#define ARROW_APART_PX 26.0  /* arrows nearer than this become one */

static RwRect
rect_round (RwPoint a, RwPoint b)
{
  return (RwRect) { MIN (a.x, b.x), MIN (a.y, b.y), fabs (a.x - b.x), fabs (a.y - b.y) };
}

static RwRect
rect_of_points (const RwPoint *points, guint n)
{
  RwPoint low = points[0], high = points[0];

  for (guint i = 1; i < n; i++)
    {
      low = (RwPoint) { MIN (low.x, points[i].x), MIN (low.y, points[i].y) };
      high = (RwPoint) { MAX (high.x, points[i].x), MAX (high.y, points[i].y) };
    }
  return rect_round (low, high);
}

static void
snapshot_guides (RwCanvas *self, GtkSnapshot *snapshot, const RwOverlay *overlay)
{
  RwDrawOptions options = rw_canvas_options (self);

  for (guint i = 0; i < overlay->guides->len; i++)
    {
      const RwGuide *guide = &g_array_index (overlay->guides, RwGuide, i);
      cairo_t *cr = rw_canvas_node (self, snapshot, rect_round (guide->from, guide->to), 2);

      rw_ink_set (cr, RW_INK_SELECTED, &options);
      cairo_set_line_width (cr, 1 / rw_canvas_scale (self));
      cairo_move_to (cr, guide->from.x, guide->from.y);
      cairo_line_to (cr, guide->to.x, guide->to.y);
      cairo_stroke (cr);
      cairo_destroy (cr);
    }
}

static void
snapshot_loose (RwCanvas *self, GtkSnapshot *snapshot, const RwOverlay *overlay)
{
  RwDrawOptions options = rw_canvas_options (self);

  for (guint i = 0; i < overlay->loose->len; i++)
    {
      const RwLooseCable *cable = &g_array_index (overlay->loose, RwLooseCable, i);
      cairo_t *cr = rw_canvas_node (self, snapshot, rect_of_points (cable->points, cable->n_points),
                                    4 + 3 * rw_canvas_scale (self));

      rw_draw_loose_cable (cr, cable->points, cable->n_points, cable->bad, &options);
      cairo_destroy (cr);
    }
}

static void
snapshot_band (RwCanvas *self, GtkSnapshot *snapshot, const RwOverlay *overlay)
{
  RwDrawOptions options = rw_canvas_options (self);
  RwInk ink = rw_ink (RW_INK_SELECTED, &options);
  RwRect px = rw_canvas_rect_px (self, overlay->band);
  graphene_rect_t area = GRAPHENE_RECT_INIT (px.x, px.y, px.w, px.h);
  GdkRGBA line = { ink.r, ink.g, ink.b, 1 }, fill = { ink.r, ink.g, ink.b, 0.12 };
  GskRoundedRect outline;

  gtk_snapshot_append_color (snapshot, &fill, &area);
  gsk_rounded_rect_init_from_rect (&outline, &area, 0);
  gtk_snapshot_append_border (snapshot, &outline, (float[4]) { 1, 1, 1, 1 }, (GdkRGBA[4]) { line, line, line, line });
}

static void
snapshot_ghost (RwCanvas *self, GtkSnapshot *snapshot, const RwOverlay *overlay)
{
  RwDrawOptions options = rw_canvas_options (self);
  RwRect box = rw_scene_part_box (overlay->ghost, overlay->ghost_name);
  cairo_t *cr;

  box.x += overlay->ghost_at.x;
  box.y += overlay->ghost_at.y;
  cr = rw_canvas_node (self, snapshot, box, 2 + 6 * rw_canvas_scale (self));
  rw_draw_part_ghost (cr, overlay->ghost, overlay->ghost_name, overlay->ghost_at.x, overlay->ghost_at.y, &options);
  cairo_destroy (cr);
}

/* Rings round the devices that the verdict names, and round those that a thread goes through. */
static void
snapshot_rings (RwCanvas *self, GtkSnapshot *snapshot, const GArray *devices, RwInkRole role)
{
  RwDrawOptions options = rw_canvas_options (self);
  RwInk ink = rw_ink (role, &options);
  GdkRGBA colour = { ink.r, ink.g, ink.b, 1 };

  for (guint i = 0; i < devices->len; i++)
    {
      RwRect px = rw_canvas_rect_px (self, rw_scene_device (self->shown_scene, g_array_index (devices, guint, i))->box);
      GskRoundedRect ring;

      gsk_rounded_rect_init_from_rect (&ring, &GRAPHENE_RECT_INIT (px.x - 5, px.y - 5, px.w + 10, px.h + 10), 3);
      gtk_snapshot_append_border (snapshot, &ring, (float[4]) { 3, 3, 3, 3 },
                                  (GdkRGBA[4]) { colour, colour, colour, colour });
    }
}

void
rw_canvas_snapshot_overlay (RwCanvas *self, GtkSnapshot *snapshot)
{
  const RwOverlay *overlay = rw_canvas_overlay (self);

  snapshot_rings (self, snapshot, overlay->swept, RW_INK_SELECTED);
  snapshot_rings (self, snapshot, overlay->named, overlay->verdict == RW_VERDICT_ERROR ? RW_INK_FAULT : RW_INK_WARNING);
  snapshot_loose (self, snapshot, overlay);
  snapshot_guides (self, snapshot, overlay);
  if (overlay->ghost != NULL)
    snapshot_ghost (self, snapshot, overlay);
  if (overlay->has_band)
    snapshot_band (self, snapshot, overlay);
  rw_canvas_snapshot_verdict (self, snapshot);
}

/* --- Arrows to findings out of sight --- */

/* Where the way from the middle of the view to @px leaves it, a little inside. */
static RwEdgeArrow
arrow_toward (RwCanvas *self, RwPoint px)
{
  double half_w = gtk_widget_get_width (GTK_WIDGET (self)) / 2.0, half_h = gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
  double dx = px.x - half_w, dy = px.y - half_h, length = hypot (dx, dy), inset = ARROW_PX + 12;
  double reach = MIN (dx != 0 ? (half_w - inset) / fabs (dx) : G_MAXDOUBLE, dy != 0 ? (half_h - inset) / fabs (dy) : G_MAXDOUBLE);

  return (RwEdgeArrow) { .at = { half_w + dx * reach, half_h + dy * reach }, .way = { dx / length, dy / length } };
}

static void
add_arrow (RwCanvas *self, const RwSceneBalloon *balloon, RwPoint px)
{
  RwEdgeArrow arrow = arrow_toward (self, px);

  arrow.finding = balloon->finding;
  arrow.severity = balloon->severity;
  arrow.foot = balloon->foot;
  for (guint i = 0; i < self->arrows->len; i++)
    {
      RwEdgeArrow *other = &g_array_index (self->arrows, RwEdgeArrow, i);

      if (fabs (other->at.x - arrow.at.x) >= ARROW_APART_PX
          || hypot (other->at.x - arrow.at.x, other->at.y - arrow.at.y) >= ARROW_APART_PX)
        continue;
      if (arrow.severity < other->severity)
        {
          other->severity = arrow.severity;
          other->finding = arrow.finding;
          other->foot = arrow.foot;
        }
      return;
    }
  g_array_append_val (self->arrows, arrow);
}

static void
find_arrows (RwCanvas *self)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));

  g_array_set_size (self->arrows, 0);
  for (guint i = 0; self->balloons && i < rw_scene_n_balloons (self->shown_scene); i++)
    {
      const RwSceneBalloon *balloon = rw_scene_balloon (self->shown_scene, i);
      RwPoint px = rw_canvas_from_sheet (self, balloon->centre);

      if (px.x < 0 || px.y < 0 || px.x > width || px.y > height)
        add_arrow (self, balloon, px);
    }
}

static void
draw_arrow (cairo_t *cr, RwSeverity severity, double angle, const RwDrawOptions *options)
{
  static const RwInkRole roles[] = {
    [RW_SEVERITY_ERROR] = RW_INK_FAULT, [RW_SEVERITY_WARNING] = RW_INK_WARNING, [RW_SEVERITY_NOTE] = RW_INK_NOTE,
  };

  cairo_rotate (cr, angle);
  cairo_move_to (cr, ARROW_PX, 0);
  cairo_line_to (cr, -ARROW_PX * 0.7, -ARROW_PX * 0.8);
  cairo_line_to (cr, -ARROW_PX * 0.3, 0);
  cairo_line_to (cr, -ARROW_PX * 0.7, ARROW_PX * 0.8);
  cairo_close_path (cr);
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_set_line_width (cr, 3);
  cairo_stroke_preserve (cr);
  rw_ink_set (cr, roles[severity], options);
  cairo_fill (cr);
}

/* Its picture, kept: in a large rig there may be hundreds along the edge, and all move in each frame of a zoom. */
static cairo_surface_t *
arrow_picture (RwCanvas *self, const RwEdgeArrow *arrow, int factor)
{
  RwDrawOptions options = rw_canvas_options (self);
  guint way = (guint) lrint (atan2 (arrow->way.y, arrow->way.x) * ARROW_WAYS / (2 * G_PI) + ARROW_WAYS) % ARROW_WAYS;
  guint key = (((guint) arrow->severity * 2 + (options.dark != FALSE)) * ARROW_WAYS + way) * 8 + (guint) MIN (factor, 7);
  cairo_surface_t *picture = g_hash_table_lookup (self->arrow_pictures, GUINT_TO_POINTER (key));
  int size = 2 * ARROW_REACH_PX * factor;
  cairo_t *cr;

  if (picture != NULL)
    return picture;
  picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, size, size);
  cr = cairo_create (picture);
  cairo_scale (cr, factor, factor);
  cairo_translate (cr, ARROW_REACH_PX, ARROW_REACH_PX);
  draw_arrow (cr, arrow->severity, 2 * G_PI * way / ARROW_WAYS, &options);
  cairo_destroy (cr);
  g_hash_table_insert (self->arrow_pictures, GUINT_TO_POINTER (key), picture);
  return picture;
}

void
rw_canvas_snapshot_arrows (RwCanvas *self, GtkSnapshot *snapshot)
{
  int factor = gtk_widget_get_scale_factor (GTK_WIDGET (self));

  find_arrows (self);
  for (guint i = 0; i < self->arrows->len; i++)
    {
      const RwEdgeArrow *arrow = &g_array_index (self->arrows, RwEdgeArrow, i);
      double x = round ((arrow->at.x - ARROW_REACH_PX) * factor) / factor;
      double y = round ((arrow->at.y - ARROW_REACH_PX) * factor) / factor;
      cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (x, y, 2 * ARROW_REACH_PX, 2 * ARROW_REACH_PX));

      cairo_translate (cr, x, y);
      cairo_scale (cr, 1.0 / factor, 1.0 / factor);
      cairo_set_source_surface (cr, arrow_picture (self, arrow, factor), 0, 0);
      cairo_paint (cr);
      cairo_destroy (cr);
    }
}

const RwEdgeArrow *
rw_canvas_arrow_at (RwCanvas *self, double x, double y)
{
  for (guint i = 0; i < self->arrows->len; i++)
    {
      const RwEdgeArrow *arrow = &g_array_index (self->arrows, RwEdgeArrow, i);

      if (hypot (arrow->at.x - x, arrow->at.y - y) <= ARROW_PX + 2)
        return arrow;
    }
  return NULL;
}
