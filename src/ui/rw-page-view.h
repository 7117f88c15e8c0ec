/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-papers-worker.h"

G_BEGIN_DECLS

#define RW_TYPE_PAGE_VIEW (rw_page_view_get_type ())
G_DECLARE_FINAL_TYPE (RwPageView, rw_page_view, RW, PAGE_VIEW, GtkBox)

/**
 * RwPageView: one sheet of the papers as it will come out, and buttons and keys to leaf through them. The worker draws;
 * until a sheet is there, the one before it stays.
 */
GtkWidget *rw_page_view_new (RwPapersWorker *worker);
/* @outline: (nullable) (transfer none): of what the worker laid out last; NULL = nothing; the page stays where it can. */
void rw_page_view_set_outline (RwPageView *view, const RwPapersOutline *outline);
void rw_page_view_set_busy (RwPageView *view, gboolean busy);
void rw_page_view_go (RwPageView *view, guint page);
guint rw_page_view_get_page (RwPageView *view);
/* TRUE once the picture of the page is shown that was asked for last. */
gboolean rw_page_view_is_settled (RwPageView *view);
/* (transfer none) (nullable): what is shown. */
cairo_surface_t *rw_page_view_get_picture (RwPageView *view);

G_END_DECLS
