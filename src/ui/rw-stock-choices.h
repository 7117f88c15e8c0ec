/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <paper/rw-papers.h>
#include "rw-settings.h"

G_BEGIN_DECLS

/* RwStockChoices: the cables in stock, and how many spares go along. */
typedef struct _RwStockChoices RwStockChoices;

RwStockChoices *rw_stock_choices_new (RwSettings *settings, void (*changed) (gpointer user_data), gpointer user_data);
void rw_stock_choices_free (RwStockChoices *choices);
GtkWidget *rw_stock_choices_widget (RwStockChoices *choices);
RwStock *rw_stock_choices_get (RwStockChoices *choices, GError **error);
void rw_stock_choices_remember (RwStockChoices *choices);
/* For tests: types @text where the lengths of @medium stand. */
void rw_stock_choices_type (RwStockChoices *choices, RwMedium medium, const char *text);

G_END_DECLS
