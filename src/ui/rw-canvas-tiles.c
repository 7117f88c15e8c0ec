/* SPDX-License-Identifier: MIT */
#include "rw-canvas-tiles.h"

#include <math.h>
#include <string.h>

#include "rw-canvas-tile.h"

#define CELL_PX 128   /* side of the squares of the view that are shown as one colour where all in them is bare */
#define MAX_TILES 400 /* 100 MiB: beyond that those out of sight go first */

/* All images of one magnification. */
typedef struct
{
  double px_per_mm;
  GHashTable *tiles; /* of RwTile, by place */
} Layer;

/* What a frame shows. */
typedef struct
{
  RwRect seen;    /* px */
  RwPoint origin; /* px, of the sheet */
  int factor;     /* device pixels per px */
  gboolean software;
  int range[4];   /* of tiles: first column and row, those behind the last */
} View;

struct _RwTiles
{
  RwTilesDraw draw;
  RwTilesBackdrop backdrop;
  gpointer user_data;
  Layer now;
  Layer before; /* stands in while now is incomplete; px_per_mm 0 = nothing */
  guint64 frame;
  GskRenderNode *still; /* (nullable): all that the frame before showed of now, with still_view; gone when a tile is drawn */
  View still_view;
};

static guint
tile_hash (gconstpointer key)
{
  const RwTile *tile = key;

  return (guint) tile->column * 73856093u ^ (guint) tile->row * 19349663u;
}

static gboolean
tile_equal (gconstpointer a, gconstpointer b)
{
  const RwTile *ta = a, *tb = b;

  return ta->column == tb->column && ta->row == tb->row;
}

static GHashTable *
new_table (void)
{
  return g_hash_table_new_full (tile_hash, tile_equal, NULL, rw_tile_free);
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
  g_clear_pointer (&self->still, gsk_render_node_unref);
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
  g_clear_pointer (&self->still, gsk_render_node_unref);
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
  double size = RW_TILE_PX / self->now.px_per_mm;

  g_hash_table_iter_init (&iter, self->now.tiles);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      RwTile *tile = value;
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
    ((RwTile *) value)->stale = TRUE;
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
  g_clear_pointer (&self->still, gsk_render_node_unref);
  g_hash_table_remove_all (self->now.tiles);
  self->now.px_per_mm = px_per_mm;
  return TRUE;
}

static void
tile_draw (RwTiles *self, RwTile *tile)
{
  double size = RW_TILE_PX / self->now.px_per_mm;
  RwRect area = { tile->column * size, tile->row * size, size, size };
  cairo_t *cr = rw_tile_begin (tile);

  cairo_scale (cr, self->now.px_per_mm, self->now.px_per_mm);
  cairo_translate (cr, -area.x, -area.y);
  self->draw (cr, area, self->now.px_per_mm, self->user_data);
  cairo_destroy (cr);
  rw_tile_end (tile);
  g_clear_pointer (&self->still, gsk_render_node_unref);
}

/* Where a tile of @size lies in the widget, to whole device pixels: so it meets its neighbour without a seam. */
static graphene_rect_t
tile_bounds (const RwTile *tile, RwPoint origin, double size, int scale_factor)
{
  double x = round ((origin.x + tile->column * size) * scale_factor) / scale_factor;
  double y = round ((origin.y + tile->row * size) * scale_factor) / scale_factor;
  double right = round ((origin.x + (tile->column + 1) * size) * scale_factor) / scale_factor;
  double bottom = round ((origin.y + (tile->row + 1) * size) * scale_factor) / scale_factor;

  return GRAPHENE_RECT_INIT (x, y, right - x, bottom - y);
}

/* Shows the bare sheet on its desk, and what the layer before has of the view, stretched to the present magnification. */
static void
show_before (RwTiles *self, GtkSnapshot *snapshot, const View *v)
{
  double stretch = self->now.px_per_mm / self->before.px_per_mm;
  double size = RW_TILE_PX * stretch / v->factor;
  graphene_rect_t seen = GRAPHENE_RECT_INIT (v->seen.x, v->seen.y, v->seen.w, v->seen.h);
  RwTilesGround ground = self->backdrop (self->user_data);
  const GdkRGBA colours[] = { ground.desk, ground.sheet };
  GHashTableIter iter;
  gpointer value;

  gtk_snapshot_append_color (snapshot, &ground.desk, &seen);
  gtk_snapshot_append_color (snapshot, &ground.sheet, &ground.paper);
  g_hash_table_iter_init (&iter, self->before.tiles);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      RwTile *tile = value;
      graphene_rect_t bounds = tile_bounds (tile, v->origin, size, v->factor);

      if (tile->drawn && graphene_rect_intersection (&bounds, &seen, NULL))
        rw_tile_stretch (tile, snapshot, &bounds, &seen, v->software, colours, G_N_ELEMENTS (colours));
    }
}

static gboolean
is_unseen (gpointer key, gpointer value, gpointer frame)
{
  return ((RwTile *) value)->seen != *(guint64 *) frame;
}

static RwTile *
tile_at (RwTiles *self, int column, int row)
{
  RwTile wanted = { .column = column, .row = row };
  RwTile *tile = g_hash_table_lookup (self->now.tiles, &wanted);

  if (tile == NULL)
    {
      tile = g_new0 (RwTile, 1);
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
has_stand_in (RwTiles *self, const RwTile *tile)
{
  double stretch = self->before.px_per_mm / self->now.px_per_mm;
  RwTile wanted;

  for (wanted.row = floor (tile->row * stretch); wanted.row < (tile->row + 1) * stretch; wanted.row++)
    for (wanted.column = floor (tile->column * stretch); wanted.column < (tile->column + 1) * stretch; wanted.column++)
      {
        const RwTile *found = g_hash_table_lookup (self->before.tiles, &wanted);

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
        RwTile *tile = tile_at (self, column, row);

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

/* --- What is bare --- */

static graphene_rect_t
device_rect (const View *v, double x, double y, double w, double h)
{
  return GRAPHENE_RECT_INIT (x / v->factor, y / v->factor, w / v->factor, h / v->factor);
}

/* The blocks that are seen, as they lie in the view. */
typedef struct
{
  int x, y;          /* device pixels, of the first one's corner */
  int columns, rows;
  guint32 *bare;     /* by row and column: the pixel, 0 = shown by an image or not at all */
  guint8 *covered;   /* likewise: all of it is shown by squares of the view */
} Field;

static void
field_init (Field *field, RwTiles *self, const View *v)
{
  field->x = (int) round (v->origin.x * v->factor) + v->range[0] * RW_TILE_PX;
  field->y = (int) round (v->origin.y * v->factor) + v->range[1] * RW_TILE_PX;
  field->columns = (v->range[2] - v->range[0]) * RW_TILE_BLOCKS;
  field->rows = (v->range[3] - v->range[1]) * RW_TILE_BLOCKS;
  field->bare = g_new0 (guint32, field->columns * field->rows);
  field->covered = g_new (guint8, field->columns * field->rows);
  memset (field->covered, 1, field->columns * field->rows);
  for (int row = 0; row < field->rows; row += RW_TILE_BLOCKS)
    for (int column = 0; column < field->columns; column += RW_TILE_BLOCKS)
      {
        const RwTile *tile = tile_at (self, v->range[0] + column / RW_TILE_BLOCKS, v->range[1] + row / RW_TILE_BLOCKS);

        for (int i = 0; tile->drawn && i < RW_TILE_BLOCKS; i++)
          memcpy (field->bare + (row + i) * field->columns + column, tile->bare[i], sizeof tile->bare[i]);
      }
}

static void
field_clear (Field *field)
{
  g_free (field->bare);
  g_free (field->covered);
}

static GskRenderNode *
colour_node (const View *v, guint32 pixel, int x, int y, int w, int h)
{
  GdkRGBA colour = rw_tile_colour (pixel);
  graphene_rect_t bounds = device_rect (v, x, y, w, h);

  return gsk_color_node_new (&colour, &bounds);
}

/* The pixel of which all is from (@x, @y) to (@right, @bottom), else 0; the blocks there are then not covered. */
static guint32
bare_in (Field *field, int x, int y, int right, int bottom)
{
  int c0 = (x - field->x) / RW_TILE_BLOCK_PX, c1 = (right - 1 - field->x) / RW_TILE_BLOCK_PX;
  int r0 = (y - field->y) / RW_TILE_BLOCK_PX, r1 = (bottom - 1 - field->y) / RW_TILE_BLOCK_PX;
  guint32 pixel = field->bare[r0 * field->columns + c0];

  for (int row = r0; row <= r1; row++)
    for (int column = c0; column <= c1; column++)
      if (field->bare[row * field->columns + column] != pixel)
        pixel = 0;
  for (int row = r0; pixel == 0 && row <= r1; row++)
    memset (field->covered + row * field->columns + c0, 0, c1 - c0 + 1);
  return pixel;
}

/*
 * Squares that lie still in the view while the sheet moves: the renderer compares the nodes of two frames place by place, and paints
 * nothing where they are the same. So there is one for each, be it empty.
 */
static void
show_squares (Field *field, GtkSnapshot *snapshot, const View *v)
{
  int width = (int) ceil (v->seen.w * v->factor), height = (int) ceil (v->seen.h * v->factor);

  for (int y = 0; y < height; y += CELL_PX)
    for (int x = 0; x < width; x += CELL_PX)
      {
        int right = MIN (x + CELL_PX, width), bottom = MIN (y + CELL_PX, height);
        guint32 pixel = bare_in (field, x, y, right, bottom);
        g_autoptr (GskRenderNode) node = colour_node (v, pixel, x, y, pixel != 0 ? right - x : 0, pixel != 0 ? bottom - y : 0);

        gtk_snapshot_append_node (snapshot, node);
      }
}

/* Appends a node that holds all of @nodes, so that those after it keep their place; takes them. */
static void
append_together (GtkSnapshot *snapshot, GPtrArray *nodes)
{
  g_autoptr (GskRenderNode) all = gsk_container_node_new ((GskRenderNode **) nodes->pdata, nodes->len);

  gtk_snapshot_append_node (snapshot, all);
  g_ptr_array_unref (nodes);
}

/* What is bare and lies in squares that are not. */
static void
show_rest (const Field *field, GtkSnapshot *snapshot, const View *v)
{
  GPtrArray *nodes = g_ptr_array_new_with_free_func ((GDestroyNotify) gsk_render_node_unref);

  for (int row = 0; row < field->rows; row++)
    for (int column = 0, end; column < field->columns; column = end)
      {
        const guint32 *bare = field->bare + row * field->columns;
        const guint8 *covered = field->covered + row * field->columns;

        for (end = column + 1; end < field->columns && bare[end] == bare[column] && covered[end] == covered[column];)
          end++;
        if (bare[column] != 0 && !covered[column])
          g_ptr_array_add (nodes, colour_node (v, bare[column], field->x + column * RW_TILE_BLOCK_PX, field->y + row * RW_TILE_BLOCK_PX,
                                               (end - column) * RW_TILE_BLOCK_PX, RW_TILE_BLOCK_PX));
      }
  append_together (snapshot, nodes);
}

static void
show_images (RwTiles *self, GtkSnapshot *snapshot, const View *v)
{
  double size = (double) RW_TILE_PX / v->factor;
  GPtrArray *nodes = g_ptr_array_new ();

  for (int row = v->range[1]; row < v->range[3]; row++)
    for (int column = v->range[0]; column < v->range[2]; column++)
      {
        RwTile *tile = tile_at (self, column, row);
        graphene_rect_t bounds = tile_bounds (tile, v->origin, size, v->factor);

        if (!tile->drawn || tile->images->len == 0)
          continue;
        if (tile->node == NULL || tile->node_at.x != bounds.origin.x || tile->node_at.y != bounds.origin.y)
          {
            g_clear_pointer (&tile->node, gsk_render_node_unref);
            tile->node = rw_tile_node (tile, &bounds, v->software);
            tile->node_at = (RwPoint) { bounds.origin.x, bounds.origin.y };
          }
        g_ptr_array_add (nodes, tile->node);
      }
  append_together (snapshot, nodes);
}

/* A frame in which nothing of it moved or changed, as in a drag, shows the same node as the one before. */
static GskRenderNode *
still_node (RwTiles *self, const View *v)
{
  GtkSnapshot *snapshot;
  Field field;

  if (self->still != NULL && memcmp (&self->still_view, v, sizeof *v) == 0)
    return self->still;
  snapshot = gtk_snapshot_new ();
  field_init (&field, self, v);
  show_squares (&field, snapshot, v);
  show_rest (&field, snapshot, v);
  show_images (self, snapshot, v);
  field_clear (&field);
  g_clear_pointer (&self->still, gsk_render_node_unref);
  self->still = gtk_snapshot_free_to_node (snapshot);
  self->still_view = *v;
  return self->still;
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
  double size = (double) RW_TILE_PX / scale_factor;
  const View v = { view, origin, scale_factor, software, {
    (int) floor ((view.x - origin.x) / size),
    (int) floor ((view.y - origin.y) / size),
    (int) ceil ((view.x + view.w - origin.x) / size),
    (int) ceil ((view.y + view.h - origin.y) / size),
  } };
  gboolean complete, zooming;

  self->frame++;
  zooming = set_magnification (self, px_per_mm);
  complete = draw_missing (self, v.range, self->before.px_per_mm > 0 ? g_get_monotonic_time () + budget_us : 0, zooming);
  if (complete && self->before.px_per_mm > 0)
    {
      g_hash_table_remove_all (self->before.tiles);
      self->before.px_per_mm = 0;
    }
  if (!complete)
    show_before (self, snapshot, &v);
  if (still_node (self, &v) != NULL)
    gtk_snapshot_append_node (snapshot, self->still);
  if (g_hash_table_size (self->now.tiles) > MAX_TILES)
    g_hash_table_foreach_remove (self->now.tiles, is_unseen, &self->frame);
  return complete;
}
