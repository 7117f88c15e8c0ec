/* SPDX-License-Identifier: MIT */
/* One image of the sheet, and what of it is bare. */
#include "rw-canvas-tile.h"

#include <math.h>

#define WASTE 1.3     /* so much more than their own area a rectangle over several rows of blocks may have */

void
rw_tile_free (gpointer data)
{
  RwTile *tile = data;

  g_clear_pointer (&tile->node, gsk_render_node_unref);
  g_clear_pointer (&tile->surface, cairo_surface_destroy);
  g_clear_pointer (&tile->images, g_array_unref);
  g_free (tile);
}

static gboolean
block_is (const guint32 *pixels, gsize stride, guint32 pixel)
{
  for (guint y = 0; y < RW_TILE_BLOCK_PX; y++, pixels += stride)
    for (guint x = 0; x < RW_TILE_BLOCK_PX; x++)
      if (pixels[x] != pixel)
        return FALSE;
  return TRUE;
}

/* The blocks of a row that are not bare, as one rectangle; empty = none. */
static cairo_rectangle_int_t
image_in_row (const RwTile *tile, int row)
{
  cairo_rectangle_int_t image = { 0, row * RW_TILE_BLOCK_PX, 0, RW_TILE_BLOCK_PX };
  int left = RW_TILE_BLOCKS, right = -1;

  for (int i = 0; i < RW_TILE_BLOCKS; i++)
    if (tile->bare[row][i] == 0)
      {
        left = MIN (left, i);
        right = i;
      }
  if (right >= 0)
    {
      image.x = left * RW_TILE_BLOCK_PX;
      image.width = (right - left + 1) * RW_TILE_BLOCK_PX;
    }
  return image;
}

/* Makes @a cover @b, which lies right below, unless that is a waste. */
static gboolean
join_image (cairo_rectangle_int_t *a, const cairo_rectangle_int_t *b)
{
  int x = MIN (a->x, b->x), width = MAX (a->x + a->width, b->x + b->width) - x, height = a->height + b->height;

  if (a->y + a->height != b->y || width * height > WASTE * (a->width * a->height + b->width * b->height))
    return FALSE;
  *a = (cairo_rectangle_int_t) { x, a->y, width, height };
  return TRUE;
}

static void
cover (RwTile *tile, const cairo_rectangle_int_t *image)
{
  for (int row = image->y / RW_TILE_BLOCK_PX; row < (image->y + image->height) / RW_TILE_BLOCK_PX; row++)
    for (int i = image->x / RW_TILE_BLOCK_PX; i < (image->x + image->width) / RW_TILE_BLOCK_PX; i++)
      tile->bare[row][i] = 0;
}

/*
 * Much of a sheet is bare: a colour is shown several times faster than an image, and not at all where the frame before
 * had it too. Finds which blocks are, and few rectangles that hold the others.
 */
static void
find_images (RwTile *tile)
{
  const guint32 *pixels = (const guint32 *) (gconstpointer) cairo_image_surface_get_data (tile->surface);
  gsize stride = cairo_image_surface_get_stride (tile->surface) / sizeof *pixels;

  tile->images = g_array_new (FALSE, FALSE, sizeof (cairo_rectangle_int_t));
  for (int row = 0; row < RW_TILE_BLOCKS; row++)
    {
      cairo_rectangle_int_t image, *last = NULL;

      for (int i = 0; i < RW_TILE_BLOCKS; i++)
        {
          const guint32 *block = pixels + row * RW_TILE_BLOCK_PX * stride + i * RW_TILE_BLOCK_PX;

          tile->bare[row][i] = block_is (block, stride, *block) ? *block | 0xff000000 : 0;
        }
      image = image_in_row (tile, row);
      if (tile->images->len > 0)
        last = &g_array_index (tile->images, cairo_rectangle_int_t, tile->images->len - 1);
      if (image.width > 0 && (last == NULL || !join_image (last, &image)))
        g_array_append_val (tile->images, image);
    }
  for (guint i = 0; i < tile->images->len; i++)
    cover (tile, &g_array_index (tile->images, cairo_rectangle_int_t, i));
}

static gboolean
has_one_colour (const RwTile *tile)
{
  for (int i = 0; i < RW_TILE_BLOCKS * RW_TILE_BLOCKS; i++)
    if (tile->bare[i / RW_TILE_BLOCKS][i % RW_TILE_BLOCKS] != tile->bare[0][0])
      return FALSE;
  return tile->bare[0][0] != 0;
}

/* Of a pixel of an image. */
GdkRGBA
rw_tile_colour (guint32 pixel)
{
  return (GdkRGBA) { (pixel >> 16 & 0xff) / 255.f, (pixel >> 8 & 0xff) / 255.f, (pixel & 0xff) / 255.f, 1 };
}

/* To draw all of it, in device pixels from its corner; rw_tile_end() when that is done. */
cairo_t *
rw_tile_begin (RwTile *tile)
{
  /* A fresh image each time: the node of the old one may still be on its way to the screen. */
  g_clear_pointer (&tile->node, gsk_render_node_unref);
  g_clear_pointer (&tile->surface, cairo_surface_destroy);
  g_clear_pointer (&tile->images, g_array_unref);
  tile->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, RW_TILE_PX, RW_TILE_PX);
  return cairo_create (tile->surface);
}

void
rw_tile_end (RwTile *tile)
{
  cairo_surface_flush (tile->surface);
  find_images (tile);
  if (has_one_colour (tile))
    g_clear_pointer (&tile->surface, cairo_surface_destroy);
  tile->drawn = TRUE;
  tile->stale = FALSE;
}

/*
 * The software renderer copies a texture each time it shows it, but paints a cairo image in place. It makes room for
 * all of a node, though: only what lies within @seen goes into it.
 */
static GskRenderNode *
cairo_image_node (cairo_surface_t *surface, const graphene_rect_t *bounds, const graphene_rect_t *seen, cairo_filter_t filter)
{
  graphene_rect_t part;
  GskRenderNode *node;
  cairo_t *cr;

  graphene_rect_intersection (bounds, seen, &part);
  node = gsk_cairo_node_new (&part);
  cr = gsk_cairo_node_get_draw_context (node);
  cairo_translate (cr, bounds->origin.x, bounds->origin.y);
  cairo_scale (cr, bounds->size.width / cairo_image_surface_get_width (surface),
               bounds->size.height / cairo_image_surface_get_height (surface));
  cairo_set_source_surface (cr, surface, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), filter);
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

/* The part of @bounds that @image is of the whole tile, to whole pixels outwards. */
static graphene_rect_t
part_of (const graphene_rect_t *bounds, const cairo_rectangle_int_t *image)
{
  double sx = bounds->size.width / RW_TILE_PX, sy = bounds->size.height / RW_TILE_PX;
  double x = floor (bounds->origin.x + image->x * sx), y = floor (bounds->origin.y + image->y * sy);

  return GRAPHENE_RECT_INIT (x, y, ceil (bounds->origin.x + (image->x + image->width) * sx) - x,
                             ceil (bounds->origin.y + (image->y + image->height) * sy) - y);
}

/* Its images, without what is bare, at @bounds. Free with gsk_render_node_unref(). */
GskRenderNode *
rw_tile_node (const RwTile *tile, const graphene_rect_t *bounds, gboolean software)
{
  g_autoptr (GPtrArray) nodes = g_ptr_array_new_with_free_func ((GDestroyNotify) gsk_render_node_unref);

  if (!software)
    return texture_node (tile->surface, bounds);
  for (guint i = 0; i < tile->images->len; i++)
    {
      graphene_rect_t part = part_of (bounds, &g_array_index (tile->images, cairo_rectangle_int_t, i));

      g_ptr_array_add (nodes, cairo_image_node (tile->surface, bounds, &part, CAIRO_FILTER_NEAREST));
    }
  return gsk_container_node_new ((GskRenderNode **) nodes->pdata, nodes->len);
}

/* The pixel that all its bare blocks are, else 0. */
static guint32
common_bare (const RwTile *tile)
{
  guint32 pixel = 0;

  for (int i = 0; i < RW_TILE_BLOCKS * RW_TILE_BLOCKS; i++)
    {
      guint32 bare = tile->bare[i / RW_TILE_BLOCKS][i % RW_TILE_BLOCKS];

      if (pixel != 0 && bare != 0 && bare != pixel)
        return 0;
      pixel = pixel != 0 ? pixel : bare;
    }
  return pixel;
}

static gboolean
is_colour (const GdkRGBA *a, const GdkRGBA *b)
{
  return fabsf (a->red - b->red) < 0.005f && fabsf (a->green - b->green) < 0.005f && fabsf (a->blue - b->blue) < 0.005f;
}

/* Shows the tile stretched to @bounds; of its images what lies within @seen. What is bare and one of the @ground colours is there already. */
void
rw_tile_stretch (const RwTile *tile, GtkSnapshot *snapshot, const graphene_rect_t *bounds, const graphene_rect_t *seen, gboolean software,
                 const GdkRGBA *ground, guint n_ground)
{
  gboolean is_there = FALSE;
  guint32 bare = common_bare (tile);
  GdkRGBA colour = rw_tile_colour (bare);
  g_autoptr (GskRenderNode) whole = NULL;

  for (guint i = 0; i < n_ground; i++)
    is_there |= is_colour (&colour, &ground[i]);
  if (bare != 0 && !is_there)
    gtk_snapshot_append_color (snapshot, &colour, bounds);
  if (tile->surface == NULL)
    return;
  if (bare == 0 || !software)
    {
      whole = software ? cairo_image_node (tile->surface, bounds, seen, CAIRO_FILTER_FAST) : texture_node (tile->surface, bounds);
      gtk_snapshot_append_node (snapshot, whole);
      return;
    }
  for (guint i = 0; i < tile->images->len; i++)
    {
      graphene_rect_t part = part_of (bounds, &g_array_index (tile->images, cairo_rectangle_int_t, i));
      g_autoptr (GskRenderNode) node = NULL;

      if (!graphene_rect_intersection (&part, seen, &part))
        continue;
      node = cairo_image_node (tile->surface, bounds, &part, CAIRO_FILTER_FAST);
      gtk_snapshot_append_node (snapshot, node);
    }
}
