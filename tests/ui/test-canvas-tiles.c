/* SPDX-License-Identifier: MIT */
/* The images of the sheet by themselves: they show what was drawn, and bare paper is the same node in every frame of a pan. */
#include <ui/rw-canvas-tiles.h>

#define WIDTH 900
#define HEIGHT 700

/* A desk, a paper from (100, 100) on without end, and a few dark things, one in a colour of its own that fills whole tiles; 1 px per mm. */
static const RwRect things[] = { { 150, 160, 60, 20 }, { 500, 160, 45, 20 }, { 290, 300, 60, 3 }, { 700, 500, 500, 400 } };

static void
draw (cairo_t *cr, RwRect area, double px_per_mm, gpointer user_data)
{
  cairo_set_source_rgb (cr, 0.8, 0.8, 0.7);
  cairo_paint (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_rectangle (cr, 100, 100, 1e5, 1e5);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0.2, 0.3, 0.4);
  for (guint i = 0; i < G_N_ELEMENTS (things); i++)
    {
      cairo_rectangle (cr, things[i].x, things[i].y, things[i].w, things[i].h);
      cairo_fill (cr);
    }
}

static RwTilesGround
ground (gpointer corner)
{
  const RwPoint *at = corner;

  return (RwTilesGround) { { 0.8, 0.8, 0.7, 1 }, { 1, 1, 1, 1 }, GRAPHENE_RECT_INIT (at->x, at->y, 1e4, 1e4) };
}

static GskRenderNode *
frame (RwTiles *tiles, double x, double y, double px_per_mm)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();

  rw_tiles_snapshot (tiles, snapshot, (RwRect) { 0, 0, WIDTH, HEIGHT }, (RwPoint) { x, y }, px_per_mm, 1, TRUE, G_MAXINT32);
  return gtk_snapshot_free_to_node (snapshot);
}

/* Pixels that differ from what is drawn without tiles. */
static guint
n_wrong (GskRenderNode *node, double x, double y, double px_per_mm)
{
  cairo_surface_t *shown = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cairo_surface_t *meant = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (shown);
  guint n = 0;

  gsk_render_node_draw (node, cr);
  cairo_destroy (cr);
  cr = cairo_create (meant);
  cairo_translate (cr, x, y);
  cairo_scale (cr, px_per_mm, px_per_mm);
  draw (cr, (RwRect) { 0, 0, 0, 0 }, px_per_mm, NULL);
  cairo_destroy (cr);
  cairo_surface_flush (shown);
  cairo_surface_flush (meant);
  for (int row = 0; row < HEIGHT; row++)
    for (int column = 0; column < WIDTH; column++)
      {
        gsize at = (gsize) row * cairo_image_surface_get_stride (shown) + column * sizeof (guint32);
        guint32 a = *(guint32 *) (gpointer) (cairo_image_surface_get_data (shown) + at);
        guint32 b = *(guint32 *) (gpointer) (cairo_image_surface_get_data (meant) + at);

        n += (a & 0xffffff) != (b & 0xffffff);
      }
  cairo_surface_destroy (shown);
  cairo_surface_destroy (meant);
  return n;
}

/* Wherever the sheet lies, also where a tile begins or ends within a square of the view. */
static void
test_picture (void)
{
  static const RwPoint origins[] = { { 0, 0 }, { 9, 4 }, { -37, -211 }, { 63, 64 }, { -500, 300 }, { -3000, -2000 }, { 32, -255 } };
  RwPoint corner = { 100, 100 };
  RwTiles *tiles = rw_tiles_new (draw, ground, &corner);

  for (guint i = 0; i < G_N_ELEMENTS (origins); i++)
    {
      g_autoptr (GskRenderNode) node = frame (tiles, origins[i].x, origins[i].y, 1);

      g_assert_cmpuint (n_wrong (node, origins[i].x, origins[i].y, 1), ==, 0);
    }
  rw_tiles_free (tiles);
}

static gboolean
is_same (GskRenderNode *a, GskRenderNode *b)
{
  graphene_rect_t p, q;

  if (gsk_render_node_get_node_type (a) != GSK_COLOR_NODE || gsk_render_node_get_node_type (b) != GSK_COLOR_NODE)
    return FALSE;
  gsk_render_node_get_bounds (a, &p);
  gsk_render_node_get_bounds (b, &q);
  return p.size.width > 0 && graphene_rect_equal (&p, &q) && gdk_rgba_equal (gsk_color_node_get_color (a), gsk_color_node_get_color (b));
}

/* The renderer paints only where the nodes of two frames differ, place by place. */
static void
test_pan (void)
{
  RwPoint corner = { 100, 100 };
  RwTiles *tiles = rw_tiles_new (draw, ground, &corner);
  g_autoptr (GskRenderNode) first = frame (tiles, 0, 0, 1), second = frame (tiles, -9, -4, 1);
  guint n = gsk_container_node_get_n_children (first), n_same = 0;

  g_assert_cmpuint (gsk_container_node_get_n_children (second), ==, n);
  for (guint i = 0; i < n; i++)
    n_same += is_same (gsk_container_node_get_child (first, i), gsk_container_node_get_child (second, i));
  g_assert_cmpuint (n_same, >, n / 3);
  rw_tiles_free (tiles);
}

/* A frame that shows the same is the same node, so that a drag over it costs nothing; one after a change is not. */
static void
test_still (void)
{
  RwPoint corner = { 100, 100 };
  RwTiles *tiles = rw_tiles_new (draw, ground, &corner);
  g_autoptr (GskRenderNode) first = frame (tiles, 0, 0, 1), second = frame (tiles, 0, 0, 1), third = NULL;

  g_assert_true (first == second);
  rw_tiles_touch (tiles, (RwRect) { 150, 160, 60, 20 });
  third = frame (tiles, 0, 0, 1);
  g_assert_true (third != second);
  g_assert_cmpuint (n_wrong (third, 0, 0, 1), ==, 0);
  rw_tiles_free (tiles);
}

/* While the zoom changes: stretched, but each thing in its place, and its colour. */
static void
test_zoom (void)
{
  RwPoint corner = { 100, 100 };
  RwTiles *tiles = rw_tiles_new (draw, ground, &corner);
  g_autoptr (GskRenderNode) first = frame (tiles, 0, 0, 1), stretched = NULL;
  guint rim = 4 * 2 * (WIDTH + HEIGHT); /* edges of what is stretched may be a pixel off */

  corner = (RwPoint) { 100 * 1.5 - 700, 100 * 1.5 - 500 };
  stretched = frame (tiles, -700, -500, 1.5);
  g_assert_cmpuint (n_wrong (stretched, -700, -500, 1.5), <, rim);
  rw_tiles_free (tiles);
}

int
main (int argc, char *argv[])
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/canvas-tiles/picture", test_picture);
  g_test_add_func ("/canvas-tiles/pan", test_pan);
  g_test_add_func ("/canvas-tiles/still", test_still);
  g_test_add_func ("/canvas-tiles/zoom", test_zoom);
  return g_test_run ();
}
