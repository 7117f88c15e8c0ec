/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define RW_TYPE_REMARK_LIST (rw_remark_list_get_type ())
G_DECLARE_FINAL_TYPE (RwRemarkList, rw_remark_list, RW, REMARK_LIST, GtkWidget)

/**
 * RwRemarkList: remarks under a title, to be read and copied, one or thousands.
 *
 * A button copies all of them, Ctrl+C those that are chosen.
 * Signal "picked" (guint position): Enter or a double click on one
 */
GtkWidget *rw_remark_list_new (void);
/* @remarks: (element-type utf8): copied; none of them ends with a new line */
void rw_remark_list_show (RwRemarkList *list, const char *title, const GPtrArray *remarks);
void rw_remark_list_set_title (RwRemarkList *list, const char *title);
const char *rw_remark_list_get_title (RwRemarkList *list);
/* All remarks, a line each; "" = there are none. */
const char *rw_remark_list_get_text (RwRemarkList *list);
/* Those that are chosen, likewise; all where none is (transfer full). */
char *rw_remark_list_chosen_text (RwRemarkList *list);
/* Puts the keyboard on the first one. */
void rw_remark_list_focus (RwRemarkList *list);

G_END_DECLS
