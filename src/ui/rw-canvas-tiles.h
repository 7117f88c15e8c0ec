/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <paper/rw-scene.h>

G_BEGIN_DECLS

/**
 * RwTiles: the still picture of the sheet, kept as square images of a fixed size in device pixels.
 *
 * Panning shows the same images elsewhere, a local change draws only the images that it touches anew, and while the
 * zoom changes the old images stand in, stretched, for those that are not drawn yet.
 */
typedef struct _RwTiles RwTiles;

/* Draws on @cr, in sheet mm, all that meets @area. @px_per_mm: device pixels. */
typedef void (*RwTilesDraw) (cairo_t *cr, RwRect area, double px_per_mm, gpointer user_data);

/* The colours of the desk and of the paper, and where that lies, in the widget's pixels: what shows where no image is there yet. */
typedef struct { GdkRGBA desk, sheet; graphene_rect_t paper; } RwTilesGround;
typedef RwTilesGround (*RwTilesBackdrop) (gpointer user_data);

RwTiles *rw_tiles_new (RwTilesDraw draw, RwTilesBackdrop backdrop, gpointer user_data);
void rw_tiles_free (RwTiles *tiles);
void rw_tiles_drop (RwTiles *tiles);
void rw_tiles_touch (RwTiles *tiles, RwRect area);
void rw_tiles_touch_all (RwTiles *tiles);
gboolean rw_tiles_snapshot (RwTiles *tiles, GtkSnapshot *snapshot, RwRect view_px, RwPoint origin_px, double px_per_mm,
                            int scale_factor, gboolean software, gint64 budget_us);

G_END_DECLS
