/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-document.h"

G_BEGIN_DECLS

#define RW_TYPE_THING_LIST (rw_thing_list_get_type ())
G_DECLARE_FINAL_TYPE (RwThingList, rw_thing_list, RW, THING_LIST, GtkWidget)

/**
 * RwThingList: every device and cable as a table: another way to the same selection, for hands and ears
 * that do not use the sheet.
 *
 * Signal "picked" (const char *key): Enter or a double click on it.
 */
GtkWidget *rw_thing_list_new (void);
void rw_thing_list_set_document (RwThingList *list, RwDocument *document);
GtkSelectionModel *rw_thing_list_get_model (RwThingList *list);

G_END_DECLS
