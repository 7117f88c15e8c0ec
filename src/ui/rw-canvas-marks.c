/* SPDX-License-Identifier: MIT */
/* What lies still over the tiles: the veil round a shown finding, the selection, the focus, the lights of ports. */
#include "rw-canvas-private.h"

#include <math.h>

#define TILE_BUDGET_US 8000
#define FEW 48 /* up to so many marks get a node each: only what changes is then repainted */

void
rw_canvas_marks_changed (RwCanvas *self)
{
  g_clear_pointer (&self->marks, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static RwRect
seen_area (RwCanvas *self)
{
  RwPoint a = rw_canvas_to_sheet (self, (RwPoint) { 0, 0 });
  double scale = rw_canvas_scale (self);

  return (RwRect) { a.x, a.y, gtk_widget_get_width (GTK_WIDGET (self)) / scale,
                    gtk_widget_get_height (GTK_WIDGET (self)) / scale };
}

static gboolean
meets (RwRect a, RwRect b)
{
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

/* --- A finding is shown: the rest fades --- */

static void
snapshot_veil (RwCanvas *self, GtkSnapshot *snapshot)
{
  RwDrawOptions options = rw_canvas_options (self);
  RwRect seen = seen_area (self), paper = self->sheet;
  RwInk ink = rw_ink (RW_INK_SHEET, &options);
  RwRect px = rw_canvas_rect_px (self, paper);

  if (!meets (seen, paper))
    return;
  gtk_snapshot_append_color (snapshot, &(GdkRGBA) { ink.r, ink.g, ink.b, 0.72 },
                             &GRAPHENE_RECT_INIT (px.x, px.y, px.w, px.h));
}

/* What is dragged is drawn with what moves. */
static void
snapshot_device (RwCanvas *self, GtkSnapshot *snapshot, guint device)
{
  RwDrawOptions options = rw_canvas_options (self);
  cairo_t *cr;

  if (self->hidden_devices != NULL && self->hidden_devices[device])
    return;
  cr = rw_canvas_node (self, snapshot, rw_scene_device (self->shown_scene, device)->bounds, 4);
  rw_draw_device (cr, self->shown_scene, device, &options);
  cairo_destroy (cr);
}

static void
snapshot_cable (RwCanvas *self, GtkSnapshot *snapshot, guint cable)
{
  RwDrawOptions options = rw_canvas_options (self);
  cairo_t *cr;

  if (self->hidden_cables != NULL && self->hidden_cables[cable])
    return;
  cr = rw_canvas_node (self, snapshot, rw_scene_cable (self->shown_scene, cable)->bounds, 24);
  rw_draw_cable (cr, self->shown_scene, cable, &options);
  cairo_destroy (cr);
}

static void
snapshot_balloons_of (RwCanvas *self, GtkSnapshot *snapshot, guint finding)
{
  RwDrawOptions options = rw_canvas_options (self);

  for (guint i = 0; self->balloons && i < rw_scene_n_balloons (self->shown_scene); i++)
    {
      const RwSceneBalloon *balloon = rw_scene_balloon (self->shown_scene, i);
      cairo_t *cr;

      if (balloon->finding != finding || (self->hidden_balloons != NULL && self->hidden_balloons[i]))
        continue;
      cr = rw_canvas_node (self, snapshot, (RwRect) { MIN (balloon->centre.x, balloon->foot.x), MIN (balloon->centre.y, balloon->foot.y), fabs (balloon->centre.x - balloon->foot.x), fabs (balloon->centre.y - balloon->foot.y) },
                           4 + balloon->radius * rw_canvas_scale (self));
      rw_draw_balloon (cr, self->shown_scene, i, &options);
      cairo_destroy (cr);
    }
}

static void
snapshot_finding (RwCanvas *self, GtkSnapshot *snapshot)
{
  const RwNet *net = rw_document_net (self->document);
  const RwFinding *finding = rw_findings_get (rw_document_findings (self->document), self->finding);

  snapshot_veil (self, snapshot);
  for (guint i = 0; finding->cables[i] != NULL; i++)
    if (rw_net_find_cable (net, finding->cables[i]) != RW_NONE)
      snapshot_cable (self, snapshot, rw_net_find_cable (net, finding->cables[i]));
  for (guint i = 0; finding->devices[i] != NULL; i++)
    if (rw_net_find_device (net, finding->devices[i]) != RW_NONE)
      snapshot_device (self, snapshot, rw_net_find_device (net, finding->devices[i]));
  for (guint i = 0; finding->ports[i] != NULL; i += 2)
    if (rw_net_find_device (net, finding->ports[i]) != RW_NONE)
      snapshot_device (self, snapshot, rw_net_find_device (net, finding->ports[i]));
  snapshot_balloons_of (self, snapshot, self->finding);
}

/* --- A way is lit: likewise --- */

static void
snapshot_way (RwCanvas *self, GtkSnapshot *snapshot)
{
  snapshot_veil (self, snapshot);
  for (guint i = 0; i < self->way_cables->len; i++)
    if (g_array_index (self->way_cables, guint, i) < rw_scene_n_cables (self->shown_scene))
      snapshot_cable (self, snapshot, g_array_index (self->way_cables, guint, i));
  for (guint i = 0; i < self->way_devices->len; i++)
    if (g_array_index (self->way_devices, guint, i) < rw_scene_n_devices (self->shown_scene))
      snapshot_device (self, snapshot, g_array_index (self->way_devices, guint, i));
}

/* --- The selection --- */

/* An outline round a box, clear of it by a hair at any zoom. */
static void
draw_outline (RwCanvas *self, cairo_t *cr, RwRect box)
{
  double px = 1 / rw_canvas_scale (self);

  cairo_set_line_width (cr, 2 * px);
  cairo_rectangle (cr, box.x - 3 * px, box.y - 3 * px, box.w + 6 * px, box.h + 6 * px);
  cairo_stroke (cr);
}

static void
draw_path (RwCanvas *self, cairo_t *cr, const RwSceneCable *cable)
{
  const RwPoint *points = cable->points;

  cairo_move_to (cr, points[0].x, points[0].y);
  for (guint i = 1; i < cable->n_points; i++)
    cairo_line_to (cr, points[i].x, points[i].y);
  cairo_set_line_width (cr, 6 / rw_canvas_scale (self));
  cairo_stroke (cr);
}

static void
selected_ink (RwCanvas *self, cairo_t *cr, double alpha)
{
  RwDrawOptions options = rw_canvas_options (self);
  RwInk ink = rw_ink (RW_INK_SELECTED, &options);

  cairo_set_source_rgba (cr, ink.r, ink.g, ink.b, alpha);
}

static void
mark_device (RwCanvas *self, cairo_t *cr, guint device)
{
  selected_ink (self, cr, 1);
  draw_outline (self, cr, rw_scene_device (self->shown_scene, device)->box);
}

static void
mark_cable (RwCanvas *self, cairo_t *cr, guint cable)
{
  selected_ink (self, cr, 0.45);
  draw_path (self, cr, rw_scene_cable (self->shown_scene, cable));
}

static RwRect
device_area (RwCanvas *self, guint device)
{
  return rw_scene_device (self->shown_scene, device)->box;
}

static RwRect
cable_area (RwCanvas *self, guint cable)
{
  return rw_scene_cable (self->shown_scene, cable)->bounds;
}

typedef struct
{
  RwItemType type;
  guint (*find) (const RwNet *net, const char *id);
  RwRect (*area) (RwCanvas *self, guint index);
  void (*mark) (RwCanvas *self, cairo_t *cr, guint index);
} Markable;

static const Markable markables[] = {
  { RW_ITEM_CABLE, rw_net_find_cable, cable_area, mark_cable },
  { RW_ITEM_DEVICE, rw_net_find_device, device_area, mark_device },
};

/* The selected things that are seen and lie still. */
static GArray *
selected_things (RwCanvas *self, const Markable *kind)
{
  const RwRig *rig = rw_document_rig (self->document);
  g_autofree const char **keys = rw_selection_keys (rw_document_selection (self->document), rig, kind->type);
  const guint8 *hidden = kind->type == RW_ITEM_DEVICE ? self->hidden_devices : self->hidden_cables;
  GArray *things = g_array_new (FALSE, FALSE, sizeof (guint));
  RwRect seen = seen_area (self);

  for (guint i = 0; keys[i] != NULL; i++)
    {
      guint index = kind->find (rw_document_net (self->document), keys[i]);

      if (index != RW_NONE && meets (kind->area (self, index), seen) && (hidden == NULL || !hidden[index]))
        g_array_append_val (things, index);
    }
  return things;
}

static void
snapshot_selection (RwCanvas *self, GtkSnapshot *snapshot)
{
  for (guint k = 0; k < G_N_ELEMENTS (markables); k++)
    {
      g_autoptr (GArray) things = selected_things (self, &markables[k]);
      cairo_t *cr = NULL;

      if (things->len > FEW)
        cr = rw_canvas_node (self, snapshot, seen_area (self), 0);
      for (guint i = 0; i < things->len; i++)
        {
          guint index = g_array_index (things, guint, i);

          if (things->len <= FEW)
            cr = rw_canvas_node (self, snapshot, markables[k].area (self, index), 6);
          markables[k].mark (self, cr, index);
          if (things->len <= FEW)
            cairo_destroy (cr);
        }
      if (things->len > FEW)
        cairo_destroy (cr);
    }
}

/* What is dragged is what is selected, and changes in each frame. */
void
rw_canvas_snapshot_moved_marks (RwCanvas *self, GtkSnapshot *snapshot)
{
  const GArray *moved = rw_canvas_overlay (self)->moved;
  RwRect seen = seen_area (self);

  for (guint i = 0; i < moved->len; i++)
    {
      guint device = g_array_index (moved, guint, i);
      cairo_t *cr;

      if (!meets (device_area (self, device), seen))
        continue;
      cr = rw_canvas_node (self, snapshot, device_area (self, device), 6);
      mark_device (self, cr, device);
      cairo_destroy (cr);
    }
}

/* A ring round the whole sheet while it has the keyboard and nothing is selected; a selected device shows it else. */
static void
snapshot_focus (RwCanvas *self, GtkSnapshot *snapshot)
{
  GtkWidget *widget = GTK_WIDGET (self);
  RwDrawOptions options = rw_canvas_options (self);
  RwInk ink = rw_ink (RW_INK_SELECTED, &options);
  GdkRGBA colour = { ink.r, ink.g, ink.b, 1 };
  GskRoundedRect ring;

  if (!gtk_widget_has_visible_focus (widget))
    return;
  gsk_rounded_rect_init_from_rect (
    &ring, &GRAPHENE_RECT_INIT (0, 0, gtk_widget_get_width (widget), gtk_widget_get_height (widget)), 0);
  gtk_snapshot_append_border (snapshot, &ring, (float[4]) { 2, 2, 2, 2 },
                              (GdkRGBA[4]) { colour, colour, colour, colour });
}

/* --- The lights of ports while a cable is in the air --- */

static void
snapshot_ports (RwCanvas *self, GtkSnapshot *snapshot)
{
  const RwOverlay *overlay = rw_canvas_overlay (self);
  RwDrawOptions options = rw_canvas_options (self);
  RwRect seen = seen_area (self);
  RwInk sheet = rw_ink (RW_INK_SHEET, &options);
  const RwNet *net = rw_document_net (self->document);
  g_autofree guint8 *lit = g_new0 (guint8, net->n_ports + 1);
  double px = 1 / rw_canvas_scale (self);
  cairo_t *cr;

  if (!overlay->dim_ports)
    return;
  for (guint i = 0; i < overlay->lit_ports->len; i++)
    lit[g_array_index (overlay->lit_ports, guint, i)] = TRUE;
  if (overlay->from_port != RW_NONE)
    lit[overlay->from_port] = TRUE;
  cr = rw_canvas_node (self, snapshot, seen, 0);
  for (guint i = 0; i < net->n_ports; i++)
    {
      RwRect tab = rw_scene_port (self->shown_scene, i)->tab;

      if (!meets (tab, seen))
        continue;
      if (lit[i])
        {
          selected_ink (self, cr, 0.3);
          cairo_rectangle (cr, tab.x - 2 * px, tab.y - 2 * px, tab.w + 4 * px, tab.h + 4 * px);
          cairo_fill_preserve (cr);
          selected_ink (self, cr, 1);
          cairo_set_line_width (cr, 1.5 * px);
          cairo_stroke (cr);
        }
      else
        {
          cairo_set_source_rgba (cr, sheet.r, sheet.g, sheet.b, 0.7);
          cairo_rectangle (cr, tab.x - px, tab.y - px, tab.w + 2 * px, tab.h + 2 * px);
          cairo_fill (cr);
        }
    }
  cairo_destroy (cr);
}

/* --- All together --- */

/* A veil would hide what has failed. */
static gboolean
way_is_lit (RwCanvas *self)
{
  return self->way_devices != NULL && (self->lens_kind != RW_LENS_FAILURE || rw_canvas_n_failed (self) == 0);
}

static void
make_marks (RwCanvas *self)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();

  if (self->finding >= 0)
    snapshot_finding (self, snapshot);
  else if (way_is_lit (self))
    snapshot_way (self, snapshot);
  snapshot_ports (self, snapshot);
  snapshot_selection (self, snapshot);
  snapshot_focus (self, snapshot);
  self->marks = gtk_snapshot_free_to_node (snapshot);
}

gboolean
rw_canvas_draws_in_software (RwCanvas *self)
{
  GtkNative *native = gtk_widget_get_native (GTK_WIDGET (self));
  GskRenderer *renderer = native != NULL ? gtk_native_get_renderer (native) : NULL;

  return renderer == NULL || g_str_equal (G_OBJECT_TYPE_NAME (renderer), "GskCairoRenderer");
}

static gboolean
draw_again (gpointer canvas)
{
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
  return G_SOURCE_REMOVE;
}

void
rw_canvas_snapshot_marks (RwCanvas *self, GtkSnapshot *snapshot)
{
  GtkWidget *widget = GTK_WIDGET (self);
  RwRect view = { 0, 0, gtk_widget_get_width (widget), gtk_widget_get_height (widget) };
  int factor = gtk_widget_get_scale_factor (widget);

  if (!rw_tiles_snapshot (self->tiles, snapshot, view, self->origin, rw_canvas_scale (self) * factor, factor,
                          rw_canvas_draws_in_software (self), TILE_BUDGET_US))
    g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, draw_again, g_object_ref (self), g_object_unref);
  if (self->marks == NULL)
    make_marks (self);
  if (self->marks != NULL)
    gtk_snapshot_append_node (snapshot, self->marks);
}
