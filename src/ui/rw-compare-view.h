/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <paper/rw-draw.h>

G_BEGIN_DECLS

#define RW_TYPE_COMPARE_VIEW (rw_compare_view_get_type ())
G_DECLARE_FINAL_TYPE (RwCompareView, rw_compare_view, RW, COMPARE_VIEW, GtkWidget)

/* RwCompareView: a drawing to look at, with clouds round what changed. The wheel zooms, dragging moves it. */
GtkWidget *rw_compare_view_new (void);
/* Both (nullable); the whole drawing is shown. */
void rw_compare_view_set (RwCompareView *view, RwScene *scene, RwClouds *clouds);
/* Brings @rect into sight; w = 0: the whole drawing. */
void rw_compare_view_show (RwCompareView *view, RwRect rect);
/* What is seen, in mm of the drawing. */
RwRect rw_compare_view_seen (RwCompareView *view);

G_END_DECLS
