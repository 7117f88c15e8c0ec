/* SPDX-License-Identifier: MIT */
/* What the lens explains, on a card in the corner of the sheet's view; a hand reaches through it. */
#include "rw-canvas-private.h"

#include <math.h>
#include <paper/rw-sheet-parts.h>

#define PX_PER_MM 4.6   /* its lettering is about as large as that of the window */
#define PAD 10.0        /* px */
#define MARGIN 12.0
#define TALL_MM 45.0    /* one that would be taller in one column has two */
#define WIDEN_MM 4.0
#define CABLE_MM 2.0     /* what a cable counts for: its line and the air that it needs */
#define LITTLE_MM2 20.0  /* one that covers no more than this beyond the least stays in its corner */

static RwDrawOptions
legend_options (RwCanvas *self)
{
  RwDrawOptions options = rw_canvas_options (self);

  options.px_per_mm = PX_PER_MM * gtk_widget_get_scale_factor (GTK_WIDGET (self));
  return options;
}

static double
choose_width (const RwLegend *legend, const char *heading, RwDrawContext *context)
{
  double column = rw_legend_width (legend) + WIDEN_MM;
  double title = rw_draw_text_width (context, heading, (RwTextStyle) { RW_EM_LEAST, FALSE });

  if (rw_legend_height (legend, column) > TALL_MM)
    return MAX (2 * column + WIDEN_MM, title + WIDEN_MM);
  return MAX (column, MIN (title, 2 * column) + WIDEN_MM);
}

/* The texts for who cannot see them. */
static void
tell (RwCanvas *self)
{
  GString *text = g_string_new (NULL);

  if (rw_lens_n_samples (self->lens) > 0)
    g_string_append (text, rw_lens_heading (self->lens));
  for (guint i = 0; i < rw_lens_n_samples (self->lens); i++)
    {
      const RwLensSample *sample = rw_lens_sample (self->lens, i);

      g_string_append_printf (text, "\n%s%s%s", sample->mark != NULL ? sample->mark : "", sample->mark != NULL ? ": " : "", sample->text);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text->str, -1);
  g_string_free (text, TRUE);
}

/* The lens is another one. */
void
rw_canvas_legend_changed (RwCanvas *self)
{
  if (self->legend == NULL)
    self->legend_corner = 0;
  g_clear_pointer (&self->legend, rw_legend_free);
  if (self->lens != NULL)
    self->legend = rw_legend_new (self->context, NULL, self->lens, NULL, FALSE);
  tell (self);
  rw_canvas_legend_settle (self);
}

void
rw_canvas_legend_clear (RwCanvas *self)
{
  g_clear_pointer (&self->legend, rw_legend_free);
}

static void
draw_card (cairo_t *cr, double w, double h, const RwDrawOptions *options)
{
  RwInk sheet = rw_ink (RW_INK_SHEET, options);

  cairo_rectangle (cr, 0.5, 0.5, w - 1, h - 1);
  cairo_set_source_rgba (cr, sheet.r, sheet.g, sheet.b, 0.94);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_FAINT, options);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
}

/* --- Where it lies: in one of the corners --- */

static const struct { gboolean right, top; } corners[] = { { FALSE, FALSE }, { TRUE, FALSE }, { TRUE, TRUE }, { FALSE, TRUE } };

/* Of a bar that is shown, px. */
static double
bar_width (RwCanvas *self, int axis)
{
  GtkWidget *bar = self->bars[axis];

  if (!gtk_widget_get_visible (bar))
    return 0;
  return axis == 0 ? gtk_widget_get_height (bar) : gtk_widget_get_width (bar);
}

/* The legend's own width, mm; FALSE = there is nothing to show. */
static gboolean
measure (RwCanvas *self, double *width, RwRect *card)
{
  if (self->legend == NULL || !self->legend_shown || rw_legend_n (self->legend) == 0)
    return FALSE;
  *width = choose_width (self->legend, rw_lens_heading (self->lens), self->context);
  card->w = ceil (*width * PX_PER_MM + 2 * PAD);
  card->h = ceil (rw_legend_height (self->legend, *width) * PX_PER_MM + 2 * PAD);
  return TRUE;
}

static RwRect
in_corner (RwCanvas *self, RwRect card, guint corner)
{
  double right = gtk_widget_get_width (GTK_WIDGET (self)) - bar_width (self, 1) - MARGIN - card.w;
  double bottom = gtk_widget_get_height (GTK_WIDGET (self)) - bar_width (self, 0) - MARGIN - card.h;

  return (RwRect) { corners[corner].right ? right : MARGIN, corners[corner].top ? MARGIN : bottom, card.w, card.h };
}

static double
common_length (double a, double a_length, double b, double b_length)
{
  return MAX (MIN (a + a_length, b + b_length) - MAX (a, b), 0);
}

/* mm² of devices and cables below @card. */
static double
covered (RwCanvas *self, RwRect card)
{
  RwPoint at = rw_canvas_to_sheet (self, (RwPoint) { card.x, card.y });
  RwRect mm = { at.x, at.y, card.w / rw_canvas_scale (self), card.h / rw_canvas_scale (self) };
  double sum = 0;

  for (guint i = 0; i < rw_scene_n_devices (self->shown_scene); i++)
    {
      RwRect box = rw_scene_device (self->shown_scene, i)->bounds;

      sum += common_length (box.x, box.w, mm.x, mm.w) * common_length (box.y, box.h, mm.y, mm.h);
    }
  for (guint i = 0; i < rw_scene_n_cables (self->shown_scene); i++)
    {
      const RwSceneCable *cable = rw_scene_cable (self->shown_scene, i);

      for (guint k = 1; k < cable->n_points; k++)
        {
          RwPoint a = cable->points[k - 1], b = cable->points[k];

          sum += common_length (MIN (a.x, b.x) - CABLE_MM / 2, fabs (a.x - b.x) + CABLE_MM, mm.x, mm.w)
                 * common_length (MIN (a.y, b.y) - CABLE_MM / 2, fabs (a.y - b.y) + CABLE_MM, mm.y, mm.h);
        }
    }
  return sum;
}

/* Puts it where it covers least of the drawing. It does not leave its corner for little, nor while the view is moved. */
void
rw_canvas_legend_settle (RwCanvas *self)
{
  double cost[G_N_ELEMENTS (corners)], width;
  RwRect card = { 0 };
  guint best = 0;

  if (gtk_widget_get_width (GTK_WIDGET (self)) <= 0 || self->shown_scene == NULL || !measure (self, &width, &card))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      cost[i] = covered (self, in_corner (self, card, i));
      if (cost[i] < cost[best])
        best = i;
    }
  if (cost[self->legend_corner] <= cost[best] + LITTLE_MM2)
    return;
  self->legend_corner = best;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* px; of no size while there is none. */
RwRect
rw_canvas_legend_box (RwCanvas *self)
{
  RwRect card = { 0 };
  double width;

  return measure (self, &width, &card) ? in_corner (self, card, self->legend_corner) : card;
}

void
rw_canvas_snapshot_legend (RwCanvas *self, GtkSnapshot *snapshot)
{
  RwDrawOptions options = legend_options (self);
  RwRect card = { 0 };
  double width;
  cairo_t *cr;

  if (!measure (self, &width, &card))
    return;
  card = in_corner (self, card, self->legend_corner);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (card.x, card.y, card.w, card.h));
  cairo_translate (cr, card.x, card.y);
  draw_card (cr, card.w, card.h, &options);
  cairo_translate (cr, PAD, PAD);
  cairo_scale (cr, PX_PER_MM, PX_PER_MM);
  rw_legend_draw (self->legend, cr, (RwRect) { 0, 0, width, card.h / PX_PER_MM }, &options);
  cairo_destroy (cr);
}
