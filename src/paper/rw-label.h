/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-route.h"

G_BEGIN_DECLS

/* RwLabeller: finds room for the labels of cables and for balloons, among boxes, lines and one another. */
typedef struct _RwLabeller RwLabeller;

typedef struct
{
  char *text;  /* (nullable) '\n' parts two lines */
  RwRect rect; /* w = 0: no room */
  double em;
} RwLabel;

RwLabeller *rw_labeller_new (RwRouter *router);
void rw_labeller_free (RwLabeller *labeller);

char *rw_label_text (const RwCable *cable);
void rw_labeller_place (RwLabeller *labeller, guint cable, const char *text, const RwPoint *points, guint n_points, RwLabel *label);
void rw_labeller_forget (RwLabeller *labeller, guint cable);

/* Room for a circle near one of @feet, earlier ones first; @foot: (out): which. */
RwPoint rw_labeller_place_balloon (RwLabeller *labeller, guint balloon, const RwPoint *feet, guint n_feet, double radius, RwPoint *foot);
void rw_labeller_forget_balloon (RwLabeller *labeller, guint balloon);

/* How many labels and balloons touch @rect; how many balloons alone. */
guint rw_labeller_n_words (RwLabeller *labeller, RwRect rect);
guint rw_labeller_n_balloons (RwLabeller *labeller, RwRect rect);

/* What it would cost to put a lens's mark of @cable, which lies on its line, at @rect. From RW_MARK_ON_BOX on: it would
 * stand on a device. */
double rw_labeller_mark_cost (RwLabeller *labeller, guint cable, RwRect rect);
#define RW_MARK_ON_BOX 1000.0

G_END_DECLS
