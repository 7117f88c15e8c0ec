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
  g_clear_pointer (&self->legend, rw_legend_free);
  if (self->lens != NULL)
    self->legend = rw_legend_new (self->context, NULL, self->lens, NULL, FALSE);
  tell (self);
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

void
rw_canvas_snapshot_legend (RwCanvas *self, GtkSnapshot *snapshot)
{
  RwDrawOptions options = legend_options (self);
  int bottom = gtk_widget_get_height (GTK_WIDGET (self));
  double width, w, h, x, y;
  cairo_t *cr;

  if (self->legend == NULL || !self->legend_shown || rw_legend_n (self->legend) == 0)
    return;
  width = choose_width (self->legend, rw_lens_heading (self->lens), self->context);
  w = ceil (width * PX_PER_MM + 2 * PAD);
  h = ceil (rw_legend_height (self->legend, width) * PX_PER_MM + 2 * PAD);
  if (gtk_widget_get_child_visible (self->bars[0]))
    bottom -= gtk_widget_get_height (self->bars[0]);
  x = MARGIN;
  y = bottom - MARGIN - h;
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (x, y, w, h));
  cairo_translate (cr, x, y);
  draw_card (cr, w, h, &options);
  cairo_translate (cr, PAD, PAD);
  cairo_scale (cr, PX_PER_MM, PX_PER_MM);
  rw_legend_draw (self->legend, cr, (RwRect) { 0, 0, width, h / PX_PER_MM }, &options);
  cairo_destroy (cr);
}
