/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <rig/rw-field.h>

G_BEGIN_DECLS

#define RW_TILE_PX 256
#define RW_TILE_BLOCK_PX 32 /* side of the squares of a tile that are bare or not */
#define RW_TILE_BLOCKS (RW_TILE_PX / RW_TILE_BLOCK_PX)

/* One square image of the sheet. */
typedef struct
{
  int column, row;          /* device pixels / RW_TILE_PX from the sheet's (0, 0) */
  gboolean drawn, stale;
  guint32 bare[RW_TILE_BLOCKS][RW_TILE_BLOCKS]; /* pixel of which all of a block is; 0 = of no single one */
  GArray *images;           /* (nullable): of cairo_rectangle_int_t: device pixels from its corner in which all such blocks lie */
  cairo_surface_t *surface; /* (nullable): all of it is one pixel */
  GskRenderNode *node;      /* (nullable): shows it at node_at */
  RwPoint node_at;
  guint64 seen;             /* serial of the frame that showed it last */
} RwTile;

void rw_tile_free (gpointer tile);
cairo_t *rw_tile_begin (RwTile *tile);
void rw_tile_end (RwTile *tile);
GdkRGBA rw_tile_colour (guint32 pixel);
GskRenderNode *rw_tile_node (const RwTile *tile, const graphene_rect_t *bounds, gboolean software);
void rw_tile_stretch (const RwTile *tile, GtkSnapshot *snapshot, const graphene_rect_t *bounds, const graphene_rect_t *seen, gboolean software,
                      const GdkRGBA *ground, guint n_ground);

G_END_DECLS
