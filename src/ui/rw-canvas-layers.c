/* SPDX-License-Identifier: MIT */
/*
 * The picture of the sheet, from below:
 * - tiles: desk, paper, cables, devices, balloons; kept as images, drawn anew only where something changed;
 * - marks: veil, selection, lights of ports; one kept node, made anew when what they show changes;
 * - moved: devices that are dragged as sprites, and their cables: small nodes of each frame;
 * - overlay: what a tool shows: small nodes of each frame.
 * While a drag lasts, the tiles lack what moves, so that a frame repaints only the small nodes.
 */
#include "rw-canvas-private.h"

#include <math.h>
#include <paper/rw-sheet-parts.h>
#include <string.h>

#define HALO_MM 4.0 /* lines, halos and texts reach out of a thing's bounds by at most so much */

static const RwInk desk_light = { 0.835, 0.827, 0.804 };
static const RwInk desk_dark = { 0.090, 0.094, 0.102 };

RwDrawOptions
rw_canvas_options (RwCanvas *self)
{
  return (RwDrawOptions) {
    .dark = self->dark_sheet,
    .balloons = self->balloons,
    .px_per_mm = rw_canvas_scale (self) * gtk_widget_get_scale_factor (GTK_WIDGET (self)),
    .context = self->context,
    .lens = self->lens,
  };
}

/* A cairo node with tight bounds whose user space is the sheet in mm. Destroy the context to end it. */
cairo_t *
rw_canvas_node (RwCanvas *self, GtkSnapshot *snapshot, RwRect mm, double pad_px)
{
  RwRect px = rw_canvas_rect_px (self, mm);
  double x = floor (px.x - pad_px), y = floor (px.y - pad_px);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (x, y, ceil (px.x + px.w + pad_px) - x, ceil (px.y + px.h + pad_px) - y);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);

  cairo_translate (cr, self->origin.x, self->origin.y);
  cairo_scale (cr, rw_canvas_scale (self), rw_canvas_scale (self));
  return cr;
}

/* --- Tiles --- */

static void
draw_paper (RwCanvas *self, cairo_t *cr, RwRect area, const RwDrawOptions *options)
{
  const RwInk *desk = self->dark_desk ? &desk_dark : &desk_light;
  double shadow = 4 / options->px_per_mm;

  cairo_set_source_rgb (cr, desk->r, desk->g, desk->b);
  cairo_paint (cr);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.18);
  cairo_rectangle (cr, self->sheet.x + shadow, self->sheet.y + shadow, self->sheet.w, self->sheet.h);
  cairo_fill (cr);
  rw_ink_set (cr, RW_INK_SHEET, options);
  cairo_rectangle (cr, self->sheet.x, self->sheet.y, self->sheet.w, self->sheet.h);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_FAINT, options);
  cairo_set_line_width (cr, 1 / options->px_per_mm);
  cairo_stroke (cr);
  cairo_save (cr);
  cairo_translate (cr, self->sheet.x, self->sheet.y);
  rw_sheet_draw_frame (cr, self->sheet.w, self->sheet.h, options);
  cairo_restore (cr);
}

/* The bare sheet on its desk. */
static RwTilesGround
ground (gpointer canvas)
{
  RwCanvas *self = canvas;
  RwDrawOptions options = rw_canvas_options (self);
  RwInk sheet = rw_ink (RW_INK_SHEET, &options), desk = self->dark_desk ? desk_dark : desk_light;
  RwRect paper = rw_canvas_rect_px (self, self->sheet);

  return (RwTilesGround) { { desk.r, desk.g, desk.b, 1 }, { sheet.r, sheet.g, sheet.b, 1 },
                           GRAPHENE_RECT_INIT (paper.x, paper.y, paper.w, paper.h) };
}

static gboolean
is_hidden (const guint8 *hidden, guint index)
{
  return hidden != NULL && hidden[index];
}

static gboolean
meets (RwRect a, RwRect b)
{
  return a.x < b.x + b.w + HALO_MM && b.x < a.x + a.w + HALO_MM && a.y < b.y + b.h + HALO_MM && b.y < a.y + a.h + HALO_MM;
}

static RwRect
united (RwRect a, RwRect b)
{
  double x = MIN (a.x, b.x), y = MIN (a.y, b.y);

  return (RwRect) { x, y, MAX (a.x + a.w, b.x + b.w) - x, MAX (a.y + a.h, b.y + b.h) - y };
}

static RwRect
cable_area (const RwSceneCable *cable)
{
  return cable->label.w > 0 ? united (cable->bounds, cable->label) : cable->bounds;
}

static RwRect
balloon_area (const RwSceneBalloon *balloon)
{
  RwRect disc = { balloon->centre.x - balloon->radius, balloon->centre.y - balloon->radius, 2 * balloon->radius,
                  2 * balloon->radius };

  return united (disc, (RwRect) { balloon->foot.x, balloon->foot.y, 0, 0 });
}

typedef void (*DrawCable) (cairo_t *cr, const RwScene *scene, guint cable, const RwDrawOptions *options);

static void
draw_cables (RwCanvas *self, cairo_t *cr, RwRect area, const RwDrawOptions *options, DrawCable draw)
{
  RwScene *scene = self->shown_scene;

  for (int fault = 0; fault <= 1; fault++)
    for (guint i = 0; i < rw_scene_n_cables (scene); i++)
      {
        const RwSceneCable *cable = rw_scene_cable (scene, i);

        if (!cable->fault == !fault && !is_hidden (self->hidden_cables, i) && meets (cable_area (cable), area))
          draw (cr, scene, i, options);
      }
}

/* In the order of rw_draw_scene(), but without what is dragged. */
static void
draw_things (RwCanvas *self, cairo_t *cr, RwRect area, const RwDrawOptions *options)
{
  RwScene *scene = self->shown_scene;

  draw_cables (self, cr, area, options, rw_draw_cable_line);
  draw_cables (self, cr, area, options, rw_draw_cable_words);
  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    if (!is_hidden (self->hidden_devices, i) && meets (rw_draw_device_area (scene, i, options), area))
      rw_draw_device (cr, scene, i, options);
  for (guint i = 0; self->balloons && i < rw_scene_n_balloons (scene); i++)
    if (!is_hidden (self->hidden_balloons, i) && meets (balloon_area (rw_scene_balloon (scene, i)), area))
      rw_draw_balloon (cr, scene, i, options);
}

static void
draw_tile (cairo_t *cr, RwRect area, double px_per_mm, gpointer canvas)
{
  RwCanvas *self = canvas;
  RwDrawOptions options = rw_canvas_options (self);

  options.px_per_mm = px_per_mm;
  options.clip = (RwRect) { area.x - HALO_MM, area.y - HALO_MM, area.w + 2 * HALO_MM, area.h + 2 * HALO_MM };
  draw_paper (self, cr, area, &options);
  if (self->shown_scene != NULL)
    draw_things (self, cr, area, &options);
}

static void
touch (RwCanvas *self, RwRect area)
{
  rw_tiles_touch (self->tiles, (RwRect) { area.x - HALO_MM, area.y - HALO_MM, area.w + 2 * HALO_MM, area.h + 2 * HALO_MM });
}

/* --- What differs between two scenes --- */

static gboolean
same_rect (RwRect a, RwRect b)
{
  return a.x == b.x && a.y == b.y && a.w == b.w && a.h == b.h;
}

static gboolean
same_device (RwScene *a, RwScene *b, guint i)
{
  const RwNetDevice *da = &rw_scene_net (a)->devices[i], *db = &rw_scene_net (b)->devices[i];

  return (da->device == db->device || rw_scene_net (a) == rw_scene_net (b)) && da->part == db->part
         && same_rect (rw_scene_device (a, i)->box, rw_scene_device (b, i)->box);
}

static gboolean
same_cable (RwScene *a, RwScene *b, guint i)
{
  const RwSceneCable *ca = rw_scene_cable (a, i), *cb = rw_scene_cable (b, i);

  return ca->n_points == cb->n_points && ca->style == cb->style && ca->held == cb->held && !ca->fault == !cb->fault
         && same_rect (ca->label, cb->label) && g_strcmp0 (ca->text, cb->text) == 0
         && memcmp (ca->points, cb->points, ca->n_points * sizeof (RwPoint)) == 0;
}

static gboolean
same_balloon (RwScene *a, RwScene *b, guint i)
{
  const RwSceneBalloon *ba = rw_scene_balloon (a, i), *bb = rw_scene_balloon (b, i);

  return ba->finding == bb->finding && ba->severity == bb->severity && ba->centre.x == bb->centre.x
         && ba->centre.y == bb->centre.y && ba->foot.x == bb->foot.x && ba->foot.y == bb->foot.y;
}

static RwRect
device_area_at (RwScene *scene, guint i)
{
  return rw_scene_device (scene, i)->bounds;
}

static RwRect
cable_area_at (RwScene *scene, guint i)
{
  return cable_area (rw_scene_cable (scene, i));
}

static RwRect
balloon_area_at (RwScene *scene, guint i)
{
  return balloon_area (rw_scene_balloon (scene, i));
}

/* The three kinds of things of a scene. */
static const struct
{
  guint (*n) (const RwScene *scene);
  gboolean (*same) (RwScene *a, RwScene *b, guint i);
  RwRect (*area) (RwScene *scene, guint i);
} kinds[] = {
  { rw_scene_n_devices, same_device, device_area_at },
  { rw_scene_n_cables, same_cable, cable_area_at },
  { rw_scene_n_balloons, same_balloon, balloon_area_at },
};

/* Things are compared place by place: where one was taken out of the middle, all behind it count as changed. */
static void
touch_differences (RwCanvas *self, RwScene *old, RwScene *new)
{
  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      guint n_old = kinds[k].n (old), n_new = kinds[k].n (new);

      for (guint i = 0; i < MAX (n_old, n_new); i++)
        {
          if (i < n_old && i < n_new && kinds[k].same (old, new, i))
            continue;
          if (i < n_old)
            touch (self, kinds[k].area (old, i));
          if (i < n_new)
            touch (self, kinds[k].area (new, i));
        }
    }
}

void
rw_canvas_layers_scene_changed (RwCanvas *self)
{
  RwScene *scene = rw_document_scene (self->document);

  g_hash_table_remove_all (self->sprites);
  if (self->shown_scene != NULL)
    touch_differences (self, self->shown_scene, scene);
  else
    rw_tiles_touch_all (self->tiles);
  rw_scene_ref (scene);
  g_clear_pointer (&self->shown_scene, rw_scene_unref);
  self->shown_scene = scene;
  rw_canvas_lens_renew (self);
  rw_canvas_marks_changed (self);
}

/* --- While devices are dragged --- */

/* Of a device of the scene that is shown, a lens's badge included. */
static RwRect
drawn_area (RwCanvas *self, guint device)
{
  RwDrawOptions options = rw_canvas_options (self);

  return rw_draw_device_area (self->shown_scene, device, &options);
}

static void
touch_hidden (RwCanvas *self)
{
  const guint8 *hidden[] = { self->hidden_devices, self->hidden_cables, self->hidden_balloons };

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (guint i = 0; i < kinds[k].n (self->shown_scene); i++)
      if (hidden[k][i])
        touch (self, k == 0 ? drawn_area (self, i) : kinds[k].area (self->shown_scene, i));
}

static gboolean
contains (RwRect area, RwPoint point)
{
  return point.x >= area.x - HALO_MM && point.x <= area.x + area.w + HALO_MM && point.y >= area.y - HALO_MM
         && point.y <= area.y + area.h + HALO_MM;
}

/* A balloon goes with the dragged thing that it points to. */
static gboolean
balloon_moves (RwCanvas *self, const RwSceneBalloon *balloon)
{
  const RwNet *net = rw_scene_net (self->shown_scene);

  for (guint i = 0; i < net->n_devices; i++)
    if (self->hidden_devices[i] && contains (rw_scene_device (self->shown_scene, i)->bounds, balloon->foot))
      return TRUE;
  for (guint i = 0; i < net->n_cables; i++)
    if (self->hidden_cables[i] && contains (rw_scene_cable (self->shown_scene, i)->bounds, balloon->foot))
      return TRUE;
  return FALSE;
}

static void
hide_cables_of_moved (RwCanvas *self)
{
  const RwNet *net = rw_scene_net (self->shown_scene);

  for (guint i = 0; i < net->n_cables; i++)
    for (guint end = 0; end < 2; end++)
      if (self->hidden_devices[net->ports[net->cables[i].port[end]].device])
        self->hidden_cables[i] = TRUE;
}

/* Takes what the working tool moves out of the tiles. Call before it moves for the first time. */
void
rw_canvas_layers_hide_moved (RwCanvas *self)
{
  const RwOverlay *overlay = rw_canvas_overlay (self);
  const RwNet *net = rw_scene_net (self->shown_scene);
  guint n_balloons = rw_scene_n_balloons (self->shown_scene);

  self->hidden_devices = g_new0 (guint8, net->n_devices + 1);
  self->hidden_cables = g_new0 (guint8, net->n_cables + 1);
  self->hidden_balloons = g_new0 (guint8, n_balloons + 1);
  for (guint i = 0; i < overlay->moved->len; i++)
    self->hidden_devices[g_array_index (overlay->moved, guint, i)] = TRUE;
  if (overlay->bent_cable != RW_NONE)
    self->hidden_cables[overlay->bent_cable] = TRUE;
  hide_cables_of_moved (self);
  for (guint i = 0; i < n_balloons; i++)
    self->hidden_balloons[i] = balloon_moves (self, rw_scene_balloon (self->shown_scene, i));
  touch_hidden (self);
  rw_canvas_marks_changed (self);
}

/* Puts them back. Call when the scene has them at rest again. */
void
rw_canvas_layers_show_moved (RwCanvas *self)
{
  if (self->hidden_devices == NULL)
    return;
  touch_hidden (self);
  g_clear_pointer (&self->hidden_devices, g_free);
  g_clear_pointer (&self->hidden_cables, g_free);
  g_clear_pointer (&self->hidden_balloons, g_free);
  g_hash_table_remove_all (self->sprites);
  rw_canvas_marks_changed (self);
}

/* --- Sprites --- */

static cairo_surface_t *
sprite_of (RwCanvas *self, guint device)
{
  cairo_surface_t *sprite = g_hash_table_lookup (self->sprites, GUINT_TO_POINTER (device));
  RwDrawOptions options = rw_canvas_options (self);
  RwRect bounds = drawn_area (self, device);
  cairo_t *cr;

  if (sprite != NULL)
    return sprite;
  sprite = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, ceil ((bounds.w + 2) * options.px_per_mm),
                                       ceil ((bounds.h + 2) * options.px_per_mm));
  cr = cairo_create (sprite);
  cairo_scale (cr, options.px_per_mm, options.px_per_mm);
  cairo_translate (cr, 1 - bounds.x, 1 - bounds.y);
  rw_draw_device (cr, self->shown_scene, device, &options);
  cairo_destroy (cr);
  g_hash_table_insert (self->sprites, GUINT_TO_POINTER (device), sprite);
  return sprite;
}

static gboolean
is_seen (RwCanvas *self, RwRect mm)
{
  RwRect px = rw_canvas_rect_px (self, mm);

  return px.x < gtk_widget_get_width (GTK_WIDGET (self)) && px.x + px.w > 0
         && px.y < gtk_widget_get_height (GTK_WIDGET (self)) && px.y + px.h > 0;
}

static void
snapshot_sprite (RwCanvas *self, GtkSnapshot *snapshot, guint device)
{
  RwRect bounds = drawn_area (self, device);
  int factor = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  cairo_surface_t *sprite = sprite_of (self, device);
  RwPoint at = rw_canvas_from_sheet (self, (RwPoint) { bounds.x - 1, bounds.y - 1 });
  double x = round (at.x * factor) / factor, y = round (at.y * factor) / factor;
  graphene_rect_t place = GRAPHENE_RECT_INIT (x, y, (double) cairo_image_surface_get_width (sprite) / factor,
                                              (double) cairo_image_surface_get_height (sprite) / factor);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &place);

  cairo_translate (cr, x, y);
  cairo_scale (cr, 1.0 / factor, 1.0 / factor);
  cairo_set_source_surface (cr, sprite, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
}

void
rw_canvas_snapshot_moved (RwCanvas *self, GtkSnapshot *snapshot)
{
  RwDrawOptions options = rw_canvas_options (self);
  guint bent = rw_canvas_overlay (self)->bent_cable;

  if (self->hidden_devices == NULL)
    return;
  for (guint i = 0; i < rw_scene_n_cables (self->shown_scene); i++)
    if (self->hidden_cables[i] && i != bent && is_seen (self, cable_area_at (self->shown_scene, i)))
      {
        cairo_t *cr = rw_canvas_node (self, snapshot, cable_area_at (self->shown_scene, i), 2 + HALO_MM * rw_canvas_scale (self) / 2);

        rw_draw_cable (cr, self->shown_scene, i, &options);
        cairo_destroy (cr);
      }
  for (guint i = 0; i < rw_scene_n_devices (self->shown_scene); i++)
    if (self->hidden_devices[i] && is_seen (self, drawn_area (self, i)))
      snapshot_sprite (self, snapshot, i);
  for (guint i = 0; self->balloons && i < rw_scene_n_balloons (self->shown_scene); i++)
    if (self->hidden_balloons[i] && is_seen (self, balloon_area_at (self->shown_scene, i)))
      {
        cairo_t *cr = rw_canvas_node (self, snapshot, balloon_area_at (self->shown_scene, i), 4);

        rw_draw_balloon (cr, self->shown_scene, i, &options);
        cairo_destroy (cr);
      }
}

/* --- Life --- */

void
rw_canvas_layers_init (RwCanvas *self)
{
  self->context = rw_draw_context_new ();
  self->tiles = rw_tiles_new (draw_tile, ground, self);
  self->sprites = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) cairo_surface_destroy);
  self->arrow_pictures = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify) cairo_surface_destroy);
  self->arrows = g_array_new (FALSE, FALSE, sizeof (RwEdgeArrow));
}

void
rw_canvas_layers_clear (RwCanvas *self)
{
  g_clear_pointer (&self->hidden_devices, g_free);
  g_clear_pointer (&self->hidden_cables, g_free);
  g_clear_pointer (&self->hidden_balloons, g_free);
  g_clear_pointer (&self->shown_scene, rw_scene_unref);
  g_clear_pointer (&self->marks, gsk_render_node_unref);
  g_clear_pointer (&self->tiles, rw_tiles_free);
  g_clear_pointer (&self->context, rw_draw_context_free);
  g_clear_pointer (&self->sprites, g_hash_table_unref);
  g_clear_pointer (&self->arrow_pictures, g_hash_table_unref);
  g_clear_pointer (&self->arrows, g_array_unref);
}
