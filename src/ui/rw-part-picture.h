/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <rig/rw-rig.h>

G_BEGIN_DECLS

#define RW_TYPE_PART_PICTURE (rw_part_picture_get_type ())
G_DECLARE_FINAL_TYPE (RwPartPicture, rw_part_picture, RW, PART_PICTURE, GtkWidget)

/* RwPartPicture: a small drawing of a part, as the sheet would draw it, shrunk to fit. */
GtkWidget *rw_part_picture_new (const RwPart *part);

G_END_DECLS
