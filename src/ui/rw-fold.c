/* SPDX-License-Identifier: MIT */
#include "rw-fold.h"

struct _RwFold
{
  GtkWidget parent_instance;
  GtkWidget *wide;
  GtkWidget *narrow; /* (nullable) */
};

G_DEFINE_FINAL_TYPE (RwFold, rw_fold, GTK_TYPE_WIDGET)

/* As wide as the narrow one at least, as the wide one where it can; always as high as the higher. */
static void
rw_fold_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                 int *minimum_baseline, int *natural_baseline)
{
  RwFold *fold = RW_FOLD (widget);
  int least = 0, most = 0;

  gtk_widget_measure (fold->wide, orientation, -1, minimum, natural, NULL, NULL);
  if (fold->narrow != NULL)
    gtk_widget_measure (fold->narrow, orientation, -1, &least, &most, NULL, NULL);
  *natural = MAX (*natural, most);
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? MIN (*minimum, least) : MAX (*minimum, least);
}

static void
place (GtkWidget *child, gboolean shown, int width, int height)
{
  int least;

  gtk_widget_set_child_visible (child, shown);
  if (!shown)
    return;
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_size_allocate (child, &(GtkAllocation) { 0, 0, MAX (width, least), height }, -1);
}

static void
rw_fold_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  RwFold *fold = RW_FOLD (widget);
  int least;

  gtk_widget_measure (fold->wide, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  place (fold->wide, width >= least, width, height);
  if (fold->narrow != NULL)
    place (fold->narrow, width < least, width, height);
}

static void
rw_fold_dispose (GObject *object)
{
  RwFold *fold = RW_FOLD (object);

  g_clear_pointer (&fold->wide, gtk_widget_unparent);
  g_clear_pointer (&fold->narrow, gtk_widget_unparent);
  G_OBJECT_CLASS (rw_fold_parent_class)->dispose (object);
}

static void
rw_fold_class_init (RwFoldClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_fold_dispose;
  GTK_WIDGET_CLASS (klass)->measure = rw_fold_measure;
  GTK_WIDGET_CLASS (klass)->size_allocate = rw_fold_size_allocate;
}

static void
rw_fold_init (RwFold *fold)
{
}

GtkWidget *
rw_fold_new (GtkWidget *wide, GtkWidget *narrow)
{
  RwFold *fold = g_object_new (RW_TYPE_FOLD, NULL);

  fold->wide = wide;
  fold->narrow = narrow;
  gtk_widget_set_parent (wide, GTK_WIDGET (fold));
  if (narrow != NULL)
    gtk_widget_set_parent (narrow, GTK_WIDGET (fold));
  return GTK_WIDGET (fold);
}

/* Whether the narrow one is shown. */
gboolean
rw_fold_is_folded (RwFold *fold)
{
  return !gtk_widget_get_child_visible (fold->wide);
}
