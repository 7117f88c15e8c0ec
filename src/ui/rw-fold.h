/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* RwFold: shows one widget where there is room for it, else another that needs less. */
#define RW_TYPE_FOLD (rw_fold_get_type ())
G_DECLARE_FINAL_TYPE (RwFold, rw_fold, RW, FOLD, GtkWidget)

/* @wide: (transfer floating); @narrow: (transfer floating) (nullable): NULL = nothing. */
GtkWidget *rw_fold_new (GtkWidget *wide, GtkWidget *narrow);
gboolean rw_fold_is_folded (RwFold *fold);

G_END_DECLS
