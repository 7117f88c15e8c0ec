/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include <paper/rw-papers.h>
#include "rw-label-choices.h"
#include "rw-settings.h"
#include "rw-stock-choices.h"

G_BEGIN_DECLS

/* RwPapersChoices: what the papers shall hold and look like: the controls, and what was chosen last time. */
typedef struct _RwPapersChoices RwPapersChoices;

typedef struct
{
  void (*changed) (gpointer user_data);
  void (*go_to) (RwPapersSection section, gpointer user_data); /* to its first sheet */
  gpointer user_data;
} RwPapersChoicesCalls;

RwPapersChoices *rw_papers_choices_new (const RwRig *rig, RwSettings *settings, const RwPapersChoicesCalls *calls);
void rw_papers_choices_free (RwPapersChoices *choices);
GtkWidget *rw_papers_choices_widget (RwPapersChoices *choices);
/* @stock: (out) (transfer full): what @options points to. FALSE: @error says what does not work. */
gboolean rw_papers_choices_get (RwPapersChoices *choices, RwPapersOptions *options, RwStock **stock, GError **error);
/* @pages: (nullable): of each section */
void rw_papers_choices_show_pages (RwPapersChoices *choices, const guint *pages);
void rw_papers_choices_remember (RwPapersChoices *choices);

/* For tests, as a hand would. */
void rw_papers_choices_tick (RwPapersChoices *choices, RwPapersSection section, gboolean in);
void rw_papers_choices_set_paper (RwPapersChoices *choices, const char *name, gboolean portrait, gboolean mono);
/* FALSE: it is not offered. */
gboolean rw_papers_choices_set_lens (RwPapersChoices *choices, RwLensKind kind);
/* Clouds since the revision number @index of the rig; -1 = none. */
void rw_papers_choices_set_since (RwPapersChoices *choices, int index);
RwLabelChoices *rw_papers_choices_labels (RwPapersChoices *choices);
RwStockChoices *rw_papers_choices_stock (RwPapersChoices *choices);

G_END_DECLS
