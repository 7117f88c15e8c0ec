/* SPDX-License-Identifier: MIT */
#include "rw-canvas-tiles.h"

#include <math.h>
#include <string.h>

#define TILE_PX 256
#define MAX_TILES 400 /* 100 MiB: beyond that those out of sight go first */

typedef struct
{
  int column, row;          /* device pixels / TILE_PX from the sheet's (0, 0) */
  gboolean drawn, stale;
  cairo_surface_t *surface; /* (nullable): all of it has one colour */
  GdkRGBA colour;           /* without a surface */
  GskRenderNode *node;      /* (nullable): shows it at node_at */
  RwPoint node_at;
  guint64 seen;             /* serial of the frame that showed it last */
} Tile;

/* All images of one magnification. */
typedef struct
{
  double px_per_mm;
  GHashTable *tiles; /* of Tile, by place */
} Layer;

struct _RwTiles
{
  RwTilesDraw draw;
  RwTilesBackdrop backdrop;
  gpointer user_data;
  Layer now;
  Layer before; /* stands in while now is incomplete; px_per_mm 0 = nothing */
  guint64 frame;
};

static guint
tile_hash (gconstpointer key)
{
  const Tile *tile = key;

  return (guint) tile->column * 73856093u ^ (guint) tile->row * 19349663u;
}

static gboolean
tile_equal (gconstpointer a, gconstpointer b)
{
  const Tile *ta = a, *tb = b;

  return ta->column == tb->column && ta->row == tb->row;
}

static void
tile_free (gpointer data)
{
  Tile *tile = data;

  g_clear_pointer (&tile->node, gsk_render_node_unref);
  g_clear_pointer (&tile->surface, cairo_surface_destroy);
  g_free (tile);
}

static GHashTable *
new_table (void)
{
  return g_hash_table_new_full (tile_hash, tile_equal, NULL, tile_free);
}

RwTiles *
rw_tiles_new (RwTilesDraw draw, RwTilesBackdrop backdrop, gpointer user_data)
{
  RwTiles *self = g_new0 (RwTiles, 1);

  self->draw = draw;
  self->backdrop = backdrop;
  self->user_data = user_data;
  self->now.tiles = new_table ();
  self->before.tiles = new_table ();
  return self;
}

void
rw_tiles_free (RwTiles *self)
{
  g_hash_table_unref (self->now.tiles);
  g_hash_table_unref (self->before.tiles);
  g_free (self);
}

/**
 * rw_tiles_drop:
 *
 * Forgets every image: the colours or the document are others, so that an old image must not even stand in.
 */
void
rw_tiles_drop (RwTiles *self)
{
  g_hash_table_remove_all (self->now.tiles);
  g_hash_table_remove_all (self->before.tiles);
  self->before.px_per_mm = 0;
}

/**
 * rw_tiles_touch:
 * @area: sheet mm, in which something looks different now
 */
void
rw_tiles_touch (RwTiles *self, RwRect area)
{
  GHashTableIter iter;
  gpointer value;
  double size = TILE_PX / self->now.px_per_mm;

  g_hash_table_iter_init (&iter, self->now.tiles);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      Tile *tile = value;
      double x = tile->column * size, y = tile->row * size;

      if (x < area.x + area.w && area.x < x + size && y < area.y + area.h && area.y < y + size)
        tile->stale = TRUE;
    }
}

void
rw_tiles_touch_all (RwTiles *self)
{
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, self->now.tiles);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    ((Tile *) value)->stale = TRUE;
}

/*
 * At another magnification the images drawn so far become stand-ins, if they cover more than those they replace.
 * Returns: TRUE where it is another
 */
static gboolean
set_magnification (RwTiles *self, double px_per_mm)
{
  if (px_per_mm == self->now.px_per_mm)
    return FALSE;
  if (self->before.px_per_mm == 0)
    {
      Layer swap = self->before;

      self->before = self->now;
      self->now = swap;
    }
  g_hash_table_remove_all (self->now.tiles);
  self->now.px_per_mm = px_per_mm;
  return TRUE;
}

/* Much of a sheet is bare: a colour is shown several times faster than an image. */
static void
reduce_to_colour (Tile *tile)
{
  const guint8 *data = cairo_image_surface_get_data (tile->surface);
  gsize size = (gsize) cairo_image_surface_get_stride (tile->surface) * TILE_PX;
  guint32 pixel;

  if (memcmp (data, data + sizeof pixel, size - sizeof pixel) != 0)
    return;
  memcpy (&pixel, data, sizeof pixel);
  tile->colour = (GdkRGBA) { (pixel >> 16 & 0xff) / 255.f, (pixel >> 8 & 0xff) / 255.f, (pixel & 0xff) / 255.f, 1 };
  g_clear_pointer (&tile->surface, cairo_surface_destroy);
}

static void
tile_draw (RwTiles *self, Tile *tile)
{
  double size = TILE_PX / self->now.px_per_mm;
  RwRect area = { tile->column * size, tile->row * size, size, size };
  cairo_t *cr;

  /* A fresh image each time: the node of the old one may still be on its way to the screen. */
  g_clear_pointer (&tile->node, gsk_render_node_unref);
  g_clear_pointer (&tile->surface, cairo_surface_destroy);
  tile->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, TILE_PX, TILE_PX);
  cr = cairo_create (tile->surface);
  cairo_scale (cr, self->now.px_per_mm, self->now.px_per_mm);
  cairo_translate (cr, -area.x, -area.y);
  self->draw (cr, area, self->now.px_per_mm, self->user_data);
  cairo_destroy (cr);
  cairo_surface_flush (tile->surface);
  reduce_to_colour (tile);
  tile->drawn = TRUE;
  tile->stale = FALSE;
}

/*
 * The software renderer copies a texture each time it shows it, but paints a cairo image in place. It makes room for
 * all of a node, though: of an image that is stretched, only what lies within @seen (else NULL) goes into it.
 */
static GskRenderNode *
cairo_image_node (cairo_surface_t *surface, const graphene_rect_t *bounds, const graphene_rect_t *seen)
{
  graphene_rect_t part = *bounds;
  GskRenderNode *node;
  cairo_t *cr;
  double sx = bounds->size.width / cairo_image_surface_get_width (surface);

  if (seen != NULL)
    graphene_rect_intersection (bounds, seen, &part);
  node = gsk_cairo_node_new (&part);
  cr = gsk_cairo_node_get_draw_context (node);
  cairo_translate (cr, bounds->origin.x, bounds->origin.y);
  cairo_scale (cr, sx, bounds->size.height / cairo_image_surface_get_height (surface));
  cairo_set_source_surface (cr, surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), seen != NULL ? CAIRO_FILTER_FAST : CAIRO_FILTER_NEAREST);
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_rectangle (cr, 0, 0, cairo_image_surface_get_width (surface), cairo_image_surface_get_height (surface));
  cairo_fill (cr);
  cairo_destroy (cr);
  return node;
}

static GskRenderNode *
texture_node (cairo_surface_t *surface, const graphene_rect_t *bounds)
{
  int width = cairo_image_surface_get_width (surface), height = cairo_image_surface_get_height (surface);
  int stride = cairo_image_surface_get_stride (surface);
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GdkTexture) texture = NULL;

  cairo_surface_flush (surface);
  bytes = g_bytes_new_with_free_func (cairo_image_surface_get_data (surface), (gsize) stride * height,
                                      (GDestroyNotify) cairo_surface_destroy, cairo_surface_reference (surface));
  texture = gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, stride);
  return gsk_texture_node_new (texture, bounds);
}

static GskRenderNode *
tile_node (Tile *tile, const graphene_rect_t *bounds, const graphene_rect_t *seen, gboolean software)
{
  if (tile->surface == NULL)
    return gsk_color_node_new (&tile->colour, bounds);
  return software ? cairo_image_node (tile->surface, bounds, seen) : texture_node (tile->surface, bounds);
}

/* @seen: what is seen of all, where the tile is stretched, else %NULL */
static void
tile_show (Tile *tile, GtkSnapshot *snapshot, const graphene_rect_t *bounds, const graphene_rect_t *seen, gboolean software)
{
  if (tile->node == NULL || tile->node_at.x != bounds->origin.x || tile->node_at.y != bounds->origin.y || seen != NULL)
    {
      g_clear_pointer (&tile->node, gsk_render_node_unref);
      tile->node = tile_node (tile, bounds, seen, software);
      tile->node_at = (RwPoint) { bounds->origin.x, bounds->origin.y };
    }
  gtk_snapshot_append_node (snapshot, tile->node);
}

/* Where a tile of @size lies in the widget, to whole device pixels: so it meets its neighbour without a seam. */
static graphene_rect_t
tile_bounds (const Tile *tile, RwPoint origin, double size, int scale_factor)
{
  double x = round ((origin.x + tile->column * size) * scale_factor) / scale_factor;
  double y = round ((origin.y + tile->row * size) * scale_factor) / scale_factor;
  double right = round ((origin.x + (tile->column + 1) * size) * scale_factor) / scale_factor;
  double bottom = round ((origin.y + (tile->row + 1) * size) * scale_factor) / scale_factor;

  return GRAPHENE_RECT_INIT (x, y, right - x, bottom - y);
}

/* Shows what the layer before has of the view, stretched to the present magnification. */
static void
show_before (RwTiles *self, GtkSnapshot *snapshot, RwRect view, RwPoint origin, int scale_factor, gboolean software)
{
  double stretch = self->now.px_per_mm / self->before.px_per_mm;
  double size = TILE_PX * stretch / scale_factor;
  graphene_rect_t seen = GRAPHENE_RECT_INIT (view.x, view.y, view.w, view.h);
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, self->before.tiles);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      Tile *tile = value;
      graphene_rect_t bounds = tile_bounds (tile, origin, size, scale_factor);

      if (tile->drawn && graphene_rect_intersection (&bounds, &seen, NULL))
        tile_show (tile, snapshot, &bounds, &seen, software);
    }
}

static gboolean
is_unseen (gpointer key, gpointer value, gpointer frame)
{
  return ((Tile *) value)->seen != *(guint64 *) frame;
}

static Tile *
tile_at (RwTiles *self, int column, int row)
{
  Tile wanted = { .column = column, .row = row };
  Tile *tile = g_hash_table_lookup (self->now.tiles, &wanted);

  if (tile == NULL)
    {
      tile = g_new0 (Tile, 1);
      tile->column = column;
      tile->row = row;
      tile->stale = TRUE;
      g_hash_table_add (self->now.tiles, tile);
    }
  tile->seen = self->frame;
  return tile;
}

/* Whether the layer before has all that @tile is to show. */
static gboolean
has_stand_in (RwTiles *self, const Tile *tile)
{
  double stretch = self->before.px_per_mm / self->now.px_per_mm;
  Tile wanted;

  for (wanted.row = floor (tile->row * stretch); wanted.row < (tile->row + 1) * stretch; wanted.row++)
    for (wanted.column = floor (tile->column * stretch); wanted.column < (tile->column + 1) * stretch; wanted.column++)
      {
        const Tile *found = g_hash_table_lookup (self->before.tiles, &wanted);

        if (found == NULL || !found->drawn)
          return FALSE;
      }
  return TRUE;
}

/* Draws what the view lacks until the time is up. Returns FALSE where some is still missing. */
static gboolean
draw_missing (RwTiles *self, const int range[4], gint64 deadline, gboolean zooming)
{
  gboolean complete = TRUE;

  for (int row = range[1]; row < range[3]; row++)
    for (int column = range[0]; column < range[2]; column++)
      {
        Tile *tile = tile_at (self, column, row);

        if (!tile->stale)
          continue;
        if (!tile->drawn && deadline > 0
            && (g_get_monotonic_time () > deadline || (zooming && has_stand_in (self, tile))))
          complete = FALSE;
        else
          tile_draw (self, tile);
      }
  return complete;
}

/**
 * rw_tiles_snapshot:
 * @view_px: what is seen, in the widget's pixels
 * @origin_px: where the sheet's (0, 0) lies, in the widget's pixels, on a device pixel
 * @px_per_mm: device pixels per mm
 * @scale_factor: device pixels per widget pixel
 * @software: the renderer is cairo
 * @budget_us: time for drawing images that were never drawn at this magnification, as long as others can stand in;
 *   in the first frame at a magnification all that can stand in do, as the zoom may go on with the next
 *
 * Returns: %FALSE where the budget did not suffice: show another frame
 */
gboolean
rw_tiles_snapshot (RwTiles *self, GtkSnapshot *snapshot, RwRect view, RwPoint origin, double px_per_mm, int scale_factor,
                   gboolean software, gint64 budget_us)
{
  double size = (double) TILE_PX / scale_factor;
  int range[4] = {
    (int) floor ((view.x - origin.x) / size),
    (int) floor ((view.y - origin.y) / size),
    (int) ceil ((view.x + view.w - origin.x) / size),
    (int) ceil ((view.y + view.h - origin.y) / size),
  };
  gboolean complete, zooming;

  self->frame++;
  zooming = set_magnification (self, px_per_mm);
  complete = draw_missing (self, range, self->before.px_per_mm > 0 ? g_get_monotonic_time () + budget_us : 0, zooming);
  if (complete && self->before.px_per_mm > 0)
    {
      g_hash_table_remove_all (self->before.tiles);
      self->before.px_per_mm = 0;
    }
  if (!complete)
    {
      self->backdrop (snapshot, self->user_data);
      show_before (self, snapshot, view, origin, scale_factor, software);
    }
  for (int row = range[1]; row < range[3]; row++)
    for (int column = range[0]; column < range[2]; column++)
      {
        Tile *tile = tile_at (self, column, row);
        graphene_rect_t bounds = tile_bounds (tile, origin, size, scale_factor);

        if (tile->drawn)
          tile_show (tile, snapshot, &bounds, NULL, software);
      }
  if (g_hash_table_size (self->now.tiles) > MAX_TILES)
    g_hash_table_foreach_remove (self->now.tiles, is_unseen, &self->frame);
  return complete;
}
