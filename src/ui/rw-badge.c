/* SPDX-License-Identifier: MIT */
#include "rw-badge.h"

#include <paper/rw-draw.h>

#define SIZE_PX 28
#define RADIUS_MM 3.0
/* The warning's corners stick out to 1.35 radii (rw-draw-balloon.c). */
#define SPAN_MM (2 * 1.45 * RADIUS_MM)

struct _RwBadge
{
  GtkWidget parent_instance;
  RwSeverity severity;
  guint number;
};

G_DEFINE_FINAL_TYPE (RwBadge, rw_badge, GTK_TYPE_WIDGET)

void
rw_badge_show (RwBadge *badge, RwSeverity severity, guint number)
{
  g_return_if_fail (RW_IS_BADGE (badge));
  badge->severity = severity;
  badge->number = number;
  gtk_widget_queue_draw (GTK_WIDGET (badge));
}

static void
rw_badge_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  RwBadge *badge = RW_BADGE (widget);
  double size = MIN (gtk_widget_get_width (widget), gtk_widget_get_height (widget));
  g_autofree char *text = badge->number > 0 ? g_strdup_printf ("%u", badge->number) : g_strdup ("?");
  RwDrawOptions options = { .px_per_mm = 0 };
  cairo_t *cr;

  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, gtk_widget_get_width (widget),
                                                                 gtk_widget_get_height (widget)));
  cairo_scale (cr, size / SPAN_MM, size / SPAN_MM);
  rw_draw_severity (cr, badge->severity, (RwPoint) { SPAN_MM / 2, SPAN_MM / 2 }, RADIUS_MM, text, &options);
  cairo_destroy (cr);
}

static void
rw_badge_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                  int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = SIZE_PX;
}

GtkWidget *
rw_badge_new (void)
{
  return g_object_new (RW_TYPE_BADGE, NULL);
}

static void
rw_badge_class_init (RwBadgeClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = rw_badge_snapshot;
  GTK_WIDGET_CLASS (klass)->measure = rw_badge_measure;
  /* The line's own name says the number and the kind. */
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
rw_badge_init (RwBadge *badge)
{
}
