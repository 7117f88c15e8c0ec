/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <rig/rw-rig.h>

G_BEGIN_DECLS

#define RW_TYPE_SHELF (rw_shelf_get_type ())
G_DECLARE_FINAL_TYPE (RwShelf, rw_shelf, RW, SHELF, GtkWidget)

/**
 * RwShelf: the parts that can be put on the sheet, by kind, with a search field. A part is dragged, or
 * picked with Enter or a double click.
 *
 * Signal "insert" (gpointer RwPart): the person wants one of this part on the sheet.
 */
GtkWidget *rw_shelf_new (void);
/* @catalogue: a rig whose parts are shown; (nullable). */
void rw_shelf_set_catalogue (RwShelf *shelf, RwRig *catalogue);
void rw_shelf_focus_search (RwShelf *shelf);
GtkWidget *rw_shelf_get_search (RwShelf *shelf);
/* The row of the part @id, for tests; (nullable). */
GtkWidget *rw_shelf_get_row (RwShelf *shelf, const char *id);
guint rw_shelf_n_shown (RwShelf *shelf);
/* Whether every word of @text is in the part's name, id or kind; case does not matter. */
gboolean rw_shelf_matches (const RwPart *part, const char *text);

G_END_DECLS
