/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <paper/rw-papers.h>
#include "rw-settings.h"

G_BEGIN_DECLS

/* RwLabelChoices: the measures of a sheet of labels, and the grids to which a person gave names. */
typedef struct _RwLabelChoices RwLabelChoices;

RwLabelChoices *rw_label_choices_new (RwSettings *settings, void (*changed) (gpointer user_data), gpointer user_data);
void rw_label_choices_free (RwLabelChoices *choices);
GtkWidget *rw_label_choices_widget (RwLabelChoices *choices);
void rw_label_choices_get (RwLabelChoices *choices, RwLabelGrid *grid);
void rw_label_choices_set (RwLabelChoices *choices, const RwLabelGrid *grid);
void rw_label_choices_remember (RwLabelChoices *choices);
/* Gives the grid as it is the name @name, which another one loses. */
void rw_label_choices_keep (RwLabelChoices *choices, const char *name);
/* The names that a person gave, one a line. Free it. */
char *rw_label_choices_names (RwLabelChoices *choices);

G_END_DECLS
