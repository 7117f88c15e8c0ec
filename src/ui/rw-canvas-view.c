/* SPDX-License-Identifier: MIT */
/* Which part of the sheet is seen, how large: coordinates, zoom, scrolling. */
#include "rw-canvas-private.h"

#include <math.h>
#include <paper/rw-sheet-parts.h>

#define ZOOM_STEP 1.25
#define MARGIN_PX 32.0    /* of desk that can be scrolled to round the paper */
#define ROOM_MM 15.0      /* left between the drawing and the frame */
#define SHIFT_MM 10.0     /* the paper's corner moves in such steps where the drawing would touch the frame */

double
rw_canvas_scale (RwCanvas *self)
{
  return self->zoom * RW_CANVAS_PX_PER_MM;
}

RwPoint
rw_canvas_from_sheet (RwCanvas *self, RwPoint mm)
{
  return (RwPoint) { self->origin.x + mm.x * rw_canvas_scale (self), self->origin.y + mm.y * rw_canvas_scale (self) };
}

RwPoint
rw_canvas_to_sheet (RwCanvas *self, RwPoint px)
{
  return (RwPoint) { (px.x - self->origin.x) / rw_canvas_scale (self), (px.y - self->origin.y) / rw_canvas_scale (self) };
}

RwRect
rw_canvas_rect_px (RwCanvas *self, RwRect mm)
{
  RwPoint at = rw_canvas_from_sheet (self, (RwPoint) { mm.x, mm.y });

  return (RwRect) { at.x, at.y, mm.w * rw_canvas_scale (self), mm.h * rw_canvas_scale (self) };
}

gboolean
rw_canvas_sheet_to_window (RwCanvas *self, RwPoint mm, RwPoint *window_px)
{
  RwPoint px = rw_canvas_from_sheet (self, mm);
  graphene_point_t at = GRAPHENE_POINT_INIT (px.x, px.y), there;
  GtkNative *native = gtk_widget_get_native (GTK_WIDGET (self));
  double x, y;

  if (native == NULL || !gtk_widget_compute_point (GTK_WIDGET (self), GTK_WIDGET (native), &at, &there))
    return FALSE;
  gtk_native_get_surface_transform (native, &x, &y);
  *window_px = (RwPoint) { there.x + x, there.y + y };
  return TRUE;
}

/* --- The paper --- */

/* Where the drawing comes too near to the frame on the left or at the top, the corner of the paper gives way. */
static double
corner_for (double drawing, double frame)
{
  return MIN (0, floor ((drawing - ROOM_MM - frame) / SHIFT_MM) * SHIFT_MM);
}

/* The smallest of the usual papers, landscape, that holds the drawing; beyond the largest, as much as it needs. */
static RwRect
paper_for (RwRect drawing)
{
  static const char *const names[] = { "a4", "a3", "a2", "a1", "a0" };
  RwRect paper = { 0, 0, 297, 210 }, frame = rw_sheet_frame (paper.w, paper.h);
  double right = drawing.x + drawing.w + ROOM_MM + paper.w - frame.x - frame.w;
  double bottom = drawing.y + drawing.h + ROOM_MM + paper.h - frame.y - frame.h;

  if (drawing.w <= 0)
    return paper;
  paper.x = corner_for (drawing.x, frame.x);
  paper.y = corner_for (drawing.y, frame.y);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      const RwPaper *size = rw_paper_find (names[i]);

      paper.w = size->height_mm;
      paper.h = size->width_mm;
      if (paper.x + paper.w >= right && paper.y + paper.h >= bottom)
        return paper;
    }
  paper.w = MAX (paper.w, right - paper.x);
  paper.h = MAX (paper.h, bottom - paper.y);
  return paper;
}

static void update_adjustments (RwCanvas *self);

static gboolean
is_whole (RwCanvas *self)
{
  RwRect px = rw_canvas_rect_px (self, self->sheet);

  return px.x >= 0 && px.y >= 0 && px.x + px.w <= gtk_widget_get_width (GTK_WIDGET (self))
         && px.y + px.h <= gtk_widget_get_height (GTK_WIDGET (self));
}

void
rw_canvas_view_sheet_changed (RwCanvas *self)
{
  RwRect paper = paper_for (rw_scene_bounds (rw_document_scene (self->document)));
  gboolean other_size = paper.w != self->sheet.w || paper.h != self->sheet.h;

  if (paper.x != self->sheet.x || paper.y != self->sheet.y || paper.w != self->sheet.w || paper.h != self->sheet.h)
    {
      gboolean was_whole = is_whole (self);

      self->sheet = paper;
      rw_tiles_touch_all (self->tiles);
      /* who looked at the whole sheet goes on doing so, at whatever zoom; it does not move for less */
      if ((self->fitted && other_size) || ((self->fitted || was_whole) && !is_whole (self)))
        rw_canvas_zoom_fit (self);
    }
  update_adjustments (self);
  rw_canvas_marks_changed (self);
}

/* --- Scrolling --- */

/* What can be scrolled over, in px relative to the view: the paper with a margin, and what is seen now. */
static void
scroll_range (RwCanvas *self, int axis, double view, double *low, double *high)
{
  RwRect paper = rw_canvas_rect_px (self, self->sheet);
  double at = axis == 0 ? paper.x : paper.y, size = axis == 0 ? paper.w : paper.h;

  *low = MIN (at - MARGIN_PX, 0);
  *high = MAX (at + size + MARGIN_PX, view);
}

static void
update_adjustments (RwCanvas *self)
{
  self->adjusting = TRUE;
  for (int axis = 0; axis < 2; axis++)
    {
      double view = axis == 0 ? gtk_widget_get_width (GTK_WIDGET (self)) : gtk_widget_get_height (GTK_WIDGET (self));
      double low, high;

      scroll_range (self, axis, view, &low, &high);
      gtk_adjustment_configure (self->adjustments[axis], -low, 0, high - low, 40, view * 0.9, view);
      gtk_widget_set_visible (self->bars[axis], high - low > view + 0.5);
    }
  self->adjusting = FALSE;
}

static void
adjusted_cb (GtkAdjustment *adjustment, RwCanvas *self)
{
  int axis = adjustment == self->adjustments[1];
  double view = axis == 0 ? gtk_widget_get_width (GTK_WIDGET (self)) : gtk_widget_get_height (GTK_WIDGET (self));
  double low, high, shift;

  if (self->adjusting)
    return;
  scroll_range (self, axis, view, &low, &high);
  shift = -low - gtk_adjustment_get_value (adjustment);
  rw_canvas_set_origin (self, self->origin.x + (axis == 0 ? shift : 0), self->origin.y + (axis == 1 ? shift : 0));
}

/* How far @delta may move the paper at @at along one axis: what is seen whole stays, and beyond the paper's edge
   there is a margin of desk to be seen and no more. */
static double
scroll_axis (double at, double size, double view, double delta)
{
  if (at >= 0 && at + size <= view)
    return 0;
  if (delta > 0)
    return MIN (delta, MAX (MARGIN_PX - at, 0));
  return MAX (delta, MIN (view - MARGIN_PX - at - size, 0));
}

/**
 * rw_canvas_scroll:
 * @dx: px by which the sheet moves to the right, as far as there is more of it to see
 * @dy: px by which it moves down, likewise
 */
void
rw_canvas_scroll (RwCanvas *self, double dx, double dy)
{
  RwRect paper = rw_canvas_rect_px (self, self->sheet);

  dx = scroll_axis (paper.x, paper.w, gtk_widget_get_width (GTK_WIDGET (self)), dx);
  dy = scroll_axis (paper.y, paper.h, gtk_widget_get_height (GTK_WIDGET (self)), dy);
  if (dx != 0 || dy != 0)
    rw_canvas_set_origin (self, self->origin.x + dx, self->origin.y + dy);
}

/* Half of the paper stays in sight, or of what the view holds of it. */
static double
keep_in_sight (double origin, double low_px, double size_px, double view)
{
  double least = MIN (view, size_px) / 2;

  if (view <= 0)
    return origin;
  return CLAMP (origin, least - size_px - low_px, view - least - low_px);
}

void
rw_canvas_set_origin (RwCanvas *self, double x, double y)
{
  int factor = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  double scale = rw_canvas_scale (self);

  self->fitted = FALSE;
  x = keep_in_sight (x, self->sheet.x * scale, self->sheet.w * scale, gtk_widget_get_width (GTK_WIDGET (self)));
  y = keep_in_sight (y, self->sheet.y * scale, self->sheet.h * scale, gtk_widget_get_height (GTK_WIDGET (self)));
  /* on a whole device pixel, so that the tiles are shown as they were drawn */
  self->origin = (RwPoint) { round (x * factor) / factor, round (y * factor) / factor };
  update_adjustments (self);
  rw_canvas_marks_changed (self);
  rw_canvas_access_changed (self);
}

/* --- Zoom --- */

/**
 * rw_canvas_zoom_at:
 * @zoom: 1 = true size; kept within the limits
 * @px: the point that stays where it is
 */
void
rw_canvas_zoom_at (RwCanvas *self, double zoom, RwPoint px)
{
  RwPoint mm = rw_canvas_to_sheet (self, px);

  self->fit_pending = FALSE;
  self->zoom = CLAMP (zoom, RW_CANVAS_MIN_ZOOM, RW_CANVAS_MAX_ZOOM);
  rw_canvas_set_origin (self, px.x - mm.x * rw_canvas_scale (self), px.y - mm.y * rw_canvas_scale (self));
  g_object_notify (G_OBJECT (self), "zoom");
}

static RwPoint
view_middle (RwCanvas *self)
{
  return (RwPoint) { gtk_widget_get_width (GTK_WIDGET (self)) / 2.0, gtk_widget_get_height (GTK_WIDGET (self)) / 2.0 };
}

void
rw_canvas_zoom_in (RwCanvas *self)
{
  rw_canvas_zoom_at (self, self->zoom * ZOOM_STEP, view_middle (self));
}

void
rw_canvas_zoom_out (RwCanvas *self)
{
  rw_canvas_zoom_at (self, self->zoom / ZOOM_STEP, view_middle (self));
}

void
rw_canvas_zoom_actual (RwCanvas *self)
{
  rw_canvas_zoom_at (self, 1, view_middle (self));
}

/* The whole paper in the middle of the view. */
void
rw_canvas_zoom_fit (RwCanvas *self)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  double scale;

  if (width <= 0 || height <= 0)
    {
      self->fit_pending = TRUE;
      return;
    }
  self->fit_pending = FALSE;
  scale = MIN ((width - 2 * MARGIN_PX) / self->sheet.w, (height - 2 * MARGIN_PX) / self->sheet.h);
  self->zoom = CLAMP (scale / RW_CANVAS_PX_PER_MM, RW_CANVAS_MIN_ZOOM, RW_CANVAS_MAX_ZOOM);
  scale = rw_canvas_scale (self);
  rw_canvas_set_origin (self, (width - self->sheet.w * scale) / 2 - self->sheet.x * scale,
                        (height - self->sheet.h * scale) / 2 - self->sheet.y * scale);
  self->fitted = TRUE;
  rw_canvas_legend_settle (self);
  g_object_notify (G_OBJECT (self), "zoom");
}

/* --- Going to a thing --- */

/* Scrolls just so far that @mm is well within the view. */
void
rw_canvas_show_point (RwCanvas *self, RwPoint mm)
{
  RwPoint px = rw_canvas_from_sheet (self, mm);
  double width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  double pad_x = MIN (120, width / 4), pad_y = MIN (90, height / 4);

  if (width <= 0)
    return;
  rw_canvas_set_origin (self, self->origin.x + CLAMP (px.x, pad_x, width - pad_x) - px.x,
                        self->origin.y + CLAMP (px.y, pad_y, height - pad_y) - px.y);
}

/* How far a stretch from @from on, @length px long, must move to lie within @room px. */
static double
way_into (double from, double length, double room)
{
  return from < 0 ? -from : from + length > room ? room - from - length : 0;
}

/* Scrolls just so far that all of @mm is seen; where it is too large for that, shows the whole sheet. */
void
rw_canvas_show_area (RwCanvas *self, RwRect mm)
{
  RwRect px = rw_canvas_rect_px (self, mm);
  double width = gtk_widget_get_width (GTK_WIDGET (self)), height = gtk_widget_get_height (GTK_WIDGET (self));
  double dx = way_into (px.x, px.w, width), dy = way_into (px.y, px.h, height);

  if (width <= 0 || (dx == 0 && dy == 0))
    return;
  if (px.w > width || px.h > height)
    rw_canvas_zoom_fit (self);
  else
    rw_canvas_set_origin (self, self->origin.x + dx, self->origin.y + dy);
}

void
rw_canvas_reveal (RwCanvas *self, const char *key)
{
  RwScene *scene = rw_document_scene (self->document);
  const RwNet *net = rw_document_net (self->document);
  guint device = rw_net_find_device (net, key), cable = rw_net_find_cable (net, key);
  RwRect box;

  if (device != RW_NONE)
    box = rw_scene_device (scene, device)->box;
  else if (cable != RW_NONE)
    box = rw_scene_cable (scene, cable)->bounds;
  else
    return;
  rw_canvas_show_point (self, (RwPoint) { box.x + box.w / 2, box.y + box.h / 2 });
}

/* --- Life --- */

void
rw_canvas_view_allocate (RwCanvas *self, int width, int height)
{
  if (self->fit_pending || self->fitted)
    rw_canvas_zoom_fit (self);
  else
    rw_canvas_set_origin (self, self->origin.x, self->origin.y);
  rw_canvas_legend_settle (self);
}

void
rw_canvas_view_init (RwCanvas *self)
{
  static const GtkOrientation orientations[] = { GTK_ORIENTATION_HORIZONTAL, GTK_ORIENTATION_VERTICAL };

  self->zoom = 1;
  self->fit_pending = TRUE;
  self->sheet = paper_for ((RwRect) { 0, 0, 0, 0 });
  for (int axis = 0; axis < 2; axis++)
    {
      self->adjustments[axis] = g_object_ref_sink (gtk_adjustment_new (0, 0, 1, 1, 1, 1));
      self->bars[axis] = gtk_scrollbar_new (orientations[axis], self->adjustments[axis]);
      gtk_widget_add_css_class (self->bars[axis], "overlay-indicator");
      gtk_widget_set_parent (self->bars[axis], GTK_WIDGET (self));
      g_signal_connect (self->adjustments[axis], "value-changed", G_CALLBACK (adjusted_cb), self);
    }
}

void
rw_canvas_view_clear (RwCanvas *self)
{
  for (int axis = 0; axis < 2; axis++)
    {
      if (self->adjustments[axis] != NULL)
        g_signal_handlers_disconnect_by_data (self->adjustments[axis], self);
      g_clear_object (&self->adjustments[axis]);
    }
}
