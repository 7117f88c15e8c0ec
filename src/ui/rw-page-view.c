/* SPDX-License-Identifier: MIT */
#include "rw-page-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "rw-weak.h"

#define MARGIN 16.0 /* round the sheet, in pixels */

struct _RwPageView
{
  GtkBox parent_instance;
  RwPapersWorker *worker;
  GtkWidget *area, *label, *previous, *next, *spinner;
  guint n_pages, page;
  double width, height;       /* of the page, in mm */
  cairo_surface_t *picture;   /* (nullable) */
  guint picture_page;
  double picture_width, picture_height; /* of its page, in mm */
  GCancellable *drawing;      /* (nullable): while a picture is asked for */
  RwPapersOutline *outline;   /* (nullable) */
};

G_DEFINE_FINAL_TYPE (RwPageView, rw_page_view, GTK_TYPE_BOX)

static double
scale_for (RwPageView *view, double width, double height)
{
  double w = gtk_widget_get_width (view->area) - 2 * MARGIN, h = gtk_widget_get_height (view->area) - 2 * MARGIN;

  return width > 0 && height > 0 ? MIN (w / width, h / height) : 0;
}

static void
picture_drawn (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (RwPageView) view = rw_weak_take (user_data);
  cairo_surface_t *picture = rw_papers_worker_draw_finish (RW_PAPERS_WORKER (source), result, NULL);

  if (picture == NULL || view == NULL || view->worker == NULL)
    {
      g_clear_pointer (&picture, cairo_surface_destroy);
      return;
    }
  g_clear_object (&view->drawing);
  g_clear_pointer (&view->picture, cairo_surface_destroy);
  view->picture = picture;
  view->picture_page = view->page;
  view->picture_width = view->width;
  view->picture_height = view->height;
  gtk_widget_queue_draw (view->area);
}

static void
ask_for_picture (RwPageView *view)
{
  double scale = scale_for (view, view->width, view->height) * gtk_widget_get_scale_factor (view->area);

  if (view->drawing != NULL)
    g_cancellable_cancel (view->drawing);
  g_clear_object (&view->drawing);
  if (view->outline == NULL || view->n_pages == 0 || scale <= 0)
    return;
  view->drawing = g_cancellable_new ();
  rw_papers_worker_draw (view->worker, view->page, scale, view->drawing, picture_drawn, rw_weak_new (view));
}

static void
show_page (RwPageView *view)
{
  g_autofree char *text = NULL;

  view->page = view->n_pages > 0 ? MIN (view->page, view->n_pages - 1) : 0;
  if (view->n_pages > 0)
    {
      view->width = view->outline->sizes[view->page].width;
      view->height = view->outline->sizes[view->page].height;
    }
  else
    g_clear_pointer (&view->picture, cairo_surface_destroy);
  /* Translators: which page of how many. */
  text = view->n_pages > 0 ? g_strdup_printf (_("Page %u of %u"), view->page + 1, view->n_pages) : g_strdup (_("No page"));
  gtk_label_set_text (GTK_LABEL (view->label), text);
  gtk_widget_set_sensitive (view->previous, view->page > 0);
  gtk_widget_set_sensitive (view->next, view->page + 1 < view->n_pages);
  ask_for_picture (view);
  gtk_widget_queue_draw (view->area);
}

void
rw_page_view_set_outline (RwPageView *view, const RwPapersOutline *outline)
{
  g_return_if_fail (RW_IS_PAGE_VIEW (view));
  g_clear_pointer (&view->outline, rw_papers_outline_free);
  if (outline != NULL)
    {
      view->outline = g_memdup2 (outline, sizeof *outline);
      view->outline->sizes = g_memdup2 (outline->sizes, outline->n_pages * sizeof *outline->sizes);
    }
  view->n_pages = outline != NULL ? outline->n_pages : 0;
  show_page (view);
}

void
rw_page_view_set_busy (RwPageView *view, gboolean busy)
{
  g_return_if_fail (RW_IS_PAGE_VIEW (view));
  gtk_spinner_set_spinning (GTK_SPINNER (view->spinner), busy);
  gtk_widget_set_opacity (view->spinner, busy ? 1 : 0);
}

void
rw_page_view_go (RwPageView *view, guint page)
{
  g_return_if_fail (RW_IS_PAGE_VIEW (view));
  if (page == view->page || page >= view->n_pages)
    return;
  view->page = page;
  show_page (view);
}

guint
rw_page_view_get_page (RwPageView *view)
{
  return view->page;
}

gboolean
rw_page_view_is_settled (RwPageView *view)
{
  return view->drawing == NULL && view->picture != NULL && view->picture_page == view->page;
}

cairo_surface_t *
rw_page_view_get_picture (RwPageView *view)
{
  return view->picture;
}

static void
step (RwPageView *view, int by)
{
  if (by < 0 ? view->page > 0 : view->page + 1 < view->n_pages)
    rw_page_view_go (view, view->page + by);
}

static void
previous_clicked (GtkButton *button, gpointer user_data)
{
  step (user_data, -1);
}

static void
next_clicked (GtkButton *button, gpointer user_data)
{
  step (user_data, 1);
}

static gboolean
scrolled (GtkEventControllerScroll *controller, double dx, double dy, gpointer user_data)
{
  step (user_data, dy > 0 ? 1 : -1);
  return TRUE;
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, gpointer user_data)
{
  RwPageView *view = user_data;

  switch (keyval)
    {
    case GDK_KEY_Page_Up:
    case GDK_KEY_Up:
    case GDK_KEY_Left:
      step (view, -1);
      return TRUE;
    case GDK_KEY_Page_Down:
    case GDK_KEY_Down:
    case GDK_KEY_Right:
    case GDK_KEY_space:
      step (view, 1);
      return TRUE;
    case GDK_KEY_Home:
      rw_page_view_go (view, 0);
      return TRUE;
    case GDK_KEY_End:
      if (view->n_pages > 0)
        rw_page_view_go (view, view->n_pages - 1);
      return TRUE;
    default:
      return FALSE;
    }
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  RwPageView *view = user_data;
  double scale, w, h, x, y;

  if (view->picture == NULL)
    return;
  scale = scale_for (view, view->picture_width, view->picture_height);
  if (scale <= 0)
    return;
  w = round (view->picture_width * scale);
  h = round (view->picture_height * scale);
  x = round ((width - w) / 2);
  y = round ((height - h) / 2);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.25);
  cairo_rectangle (cr, x + 3, y + 3, w, h);
  cairo_fill (cr);
  cairo_rectangle (cr, x, y, w, h);
  cairo_clip (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, w / cairo_image_surface_get_width (view->picture), h / cairo_image_surface_get_height (view->picture));
  cairo_set_source_surface (cr, view->picture, 0, 0);
  cairo_paint (cr);
}

static void
resized (GtkDrawingArea *area, int width, int height, gpointer user_data)
{
  ask_for_picture (user_data);
}

static void
rw_page_view_dispose (GObject *object)
{
  RwPageView *view = RW_PAGE_VIEW (object);

  if (view->drawing != NULL)
    g_cancellable_cancel (view->drawing);
  g_clear_object (&view->drawing);
  g_clear_object (&view->worker);
  g_clear_pointer (&view->picture, cairo_surface_destroy);
  g_clear_pointer (&view->outline, rw_papers_outline_free);
  view->n_pages = 0;
  G_OBJECT_CLASS (rw_page_view_parent_class)->dispose (object);
}

static void
rw_page_view_class_init (RwPageViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_page_view_dispose;
}

static GtkWidget *
make_button (RwPageView *view, const char *icon, const char *name, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (button, "clicked", clicked, view);
  return button;
}

static GtkWidget *
make_foot (RwPageView *view)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *balance = gtk_spinner_new ();

  view->label = gtk_label_new ("");
  view->spinner = gtk_spinner_new ();
  gtk_label_set_width_chars (GTK_LABEL (view->label), 18);
  view->previous = make_button (view, "rw-up-symbolic", _("Previous page"), G_CALLBACK (previous_clicked));
  view->next = make_button (view, "rw-down-symbolic", _("Next page"), G_CALLBACK (next_clicked));
  gtk_widget_set_opacity (balance, 0);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->spinner), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Laying out the sheets"), -1);
  gtk_box_append (GTK_BOX (row), balance);
  gtk_box_append (GTK_BOX (row), view->previous);
  gtk_box_append (GTK_BOX (row), view->label);
  gtk_box_append (GTK_BOX (row), view->next);
  gtk_box_append (GTK_BOX (row), view->spinner);
  gtk_widget_set_halign (row, GTK_ALIGN_CENTER);
  gtk_widget_set_margin_bottom (row, 8);
  return row;
}

static void
rw_page_view_init (RwPageView *view)
{
  GtkEventController *wheel = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL | GTK_EVENT_CONTROLLER_SCROLL_DISCRETE);
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (view), GTK_ORIENTATION_VERTICAL);
  view->area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, "focusable", TRUE, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->area), GTK_ACCESSIBLE_PROPERTY_LABEL, _("The page as it will come out"), -1);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (view->area), draw, view, NULL);
  gtk_widget_set_hexpand (view->area, TRUE);
  gtk_widget_set_vexpand (view->area, TRUE);
  g_signal_connect (view->area, "resize", G_CALLBACK (resized), view);
  g_signal_connect (wheel, "scroll", G_CALLBACK (scrolled), view);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), view);
  gtk_widget_add_controller (view->area, wheel);
  gtk_widget_add_controller (view->area, keys);
  gtk_box_append (GTK_BOX (view), view->area);
  gtk_box_append (GTK_BOX (view), make_foot (view));
  gtk_widget_add_css_class (GTK_WIDGET (view), "rw-desk");
}

GtkWidget *
rw_page_view_new (RwPapersWorker *worker)
{
  RwPageView *view = g_object_new (RW_TYPE_PAGE_VIEW, NULL);

  view->worker = g_object_ref (worker);
  rw_page_view_set_busy (view, FALSE);
  show_page (view);
  return GTK_WIDGET (view);
}
