/* SPDX-License-Identifier: MIT */
#include "rw-compare-view.h"

#include <glib/gi18n-lib.h>

#define MOST_SCALE 12.0  /* px per mm */
#define AROUND 40.0      /* mm round what is brought into sight */
#define ROOM 12.0        /* mm round the whole drawing: clouds and their triangles */

struct _RwCompareView
{
  GtkWidget parent_instance;
  RwScene *scene;         /* (nullable) */
  RwClouds *clouds;       /* (nullable) */
  RwDrawContext *context;
  RwRect wanted;          /* w = 0: moved by hand since */
  double scale;           /* px per mm */
  RwPoint corner;         /* of the drawing, in mm, at the top left corner of the widget */
  RwPoint drag_corner;
  double pointer_x, pointer_y;
};

G_DEFINE_FINAL_TYPE (RwCompareView, rw_compare_view, GTK_TYPE_WIDGET)

static RwRect
whole (RwCompareView *view)
{
  RwRect b = rw_scene_bounds (view->scene), c = view->clouds != NULL ? rw_clouds_bounds (view->clouds) : b;
  double x, y;

  if (c.w <= 0)
    c = b;
  x = MIN (b.x, c.x) - ROOM;
  y = MIN (b.y, c.y) - ROOM;
  return (RwRect) { x, y, MAX (b.x + b.w, c.x + c.w) + ROOM - x, MAX (b.y + b.h, c.y + c.h) + ROOM - y };
}

/* As long as nobody moved the drawing by hand, what is wanted stays in sight whatever the size. */
static void
arrange (RwCompareView *view)
{
  double width = gtk_widget_get_width (GTK_WIDGET (view)), height = gtk_widget_get_height (GTK_WIDGET (view));
  RwRect r = view->wanted;

  if (r.w <= 0 || width <= 0 || height <= 0)
    return;
  view->scale = MIN (MIN (width / r.w, height / r.h), MOST_SCALE);
  view->corner.x = r.x + r.w / 2 - width / view->scale / 2;
  view->corner.y = r.y + r.h / 2 - height / view->scale / 2;
}

void
rw_compare_view_show (RwCompareView *view, RwRect rect)
{
  g_return_if_fail (RW_IS_COMPARE_VIEW (view));
  if (view->scene == NULL)
    return;
  view->wanted = rect.w > 0 ? (RwRect) { rect.x - AROUND, rect.y - AROUND, rect.w + 2 * AROUND, rect.h + 2 * AROUND } : whole (view);
  arrange (view);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

void
rw_compare_view_set (RwCompareView *view, RwScene *scene, RwClouds *clouds)
{
  g_return_if_fail (RW_IS_COMPARE_VIEW (view));
  g_clear_pointer (&view->scene, rw_scene_unref);
  g_clear_pointer (&view->clouds, rw_clouds_unref);
  view->scene = scene != NULL ? rw_scene_ref (scene) : NULL;
  view->clouds = clouds != NULL ? rw_clouds_ref (clouds) : NULL;
  rw_compare_view_show (view, (RwRect) { 0 });
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

RwRect
rw_compare_view_seen (RwCompareView *view)
{
  double width = gtk_widget_get_width (GTK_WIDGET (view)), height = gtk_widget_get_height (GTK_WIDGET (view));

  return (RwRect) { view->corner.x, view->corner.y, width / view->scale, height / view->scale };
}

static void
rw_compare_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  RwCompareView *view = RW_COMPARE_VIEW (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  RwDrawOptions options = { .px_per_mm = view->scale, .context = view->context, .clouds = view->clouds };
  cairo_t *cr;

  if (view->scene == NULL || width <= 0 || height <= 0)
    return;
  options.clip = rw_compare_view_seen (view);
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  rw_ink_set (cr, RW_INK_SHEET, &options);
  cairo_paint (cr);
  cairo_scale (cr, view->scale, view->scale);
  cairo_translate (cr, -view->corner.x, -view->corner.y);
  rw_draw_scene (cr, view->scene, &options);
  cairo_destroy (cr);
}

static void
rw_compare_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  arrange (RW_COMPARE_VIEW (widget));
}

static void
zoom (RwCompareView *view, double factor, double x, double y)
{
  double scale = CLAMP (view->scale * factor, 0.05, MOST_SCALE);

  view->corner.x += x / view->scale - x / scale;
  view->corner.y += y / view->scale - y / scale;
  view->scale = scale;
  view->wanted.w = 0;
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

static gboolean
scrolled (GtkEventControllerScroll *controller, double dx, double dy, gpointer user_data)
{
  RwCompareView *view = user_data;

  zoom (view, dy < 0 ? 1.25 : 0.8, view->pointer_x, view->pointer_y);
  return TRUE;
}

static void
pointer_moved (GtkEventControllerMotion *controller, double x, double y, gpointer user_data)
{
  RwCompareView *view = user_data;

  view->pointer_x = x;
  view->pointer_y = y;
}

static void
drag_begun (GtkGestureDrag *gesture, double x, double y, gpointer user_data)
{
  RwCompareView *view = user_data;

  view->drag_corner = view->corner;
  gtk_widget_grab_focus (GTK_WIDGET (view));
}

static void
dragged (GtkGestureDrag *gesture, double dx, double dy, gpointer user_data)
{
  RwCompareView *view = user_data;

  view->corner = (RwPoint) { view->drag_corner.x - dx / view->scale, view->drag_corner.y - dy / view->scale };
  view->wanted.w = 0;
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, gpointer user_data)
{
  RwCompareView *view = user_data;
  double step = 40 / view->scale, w = gtk_widget_get_width (GTK_WIDGET (view)) / 2.0, h = gtk_widget_get_height (GTK_WIDGET (view)) / 2.0;

  switch (keyval)
    {
    case GDK_KEY_plus:
    case GDK_KEY_equal:
    case GDK_KEY_KP_Add:
      zoom (view, 1.25, w, h);
      return TRUE;
    case GDK_KEY_minus:
    case GDK_KEY_KP_Subtract:
      zoom (view, 0.8, w, h);
      return TRUE;
    case GDK_KEY_0:
      rw_compare_view_show (view, (RwRect) { 0 });
      return TRUE;
    case GDK_KEY_Left:
    case GDK_KEY_Right:
      view->corner.x += keyval == GDK_KEY_Left ? -step : step;
      break;
    case GDK_KEY_Up:
    case GDK_KEY_Down:
      view->corner.y += keyval == GDK_KEY_Up ? -step : step;
      break;
    default:
      return FALSE;
    }
  view->wanted.w = 0;
  gtk_widget_queue_draw (GTK_WIDGET (view));
  return TRUE;
}

static void
rw_compare_view_dispose (GObject *object)
{
  RwCompareView *view = RW_COMPARE_VIEW (object);

  g_clear_pointer (&view->scene, rw_scene_unref);
  g_clear_pointer (&view->clouds, rw_clouds_unref);
  g_clear_pointer (&view->context, rw_draw_context_free);
  G_OBJECT_CLASS (rw_compare_view_parent_class)->dispose (object);
}

static void
rw_compare_view_class_init (RwCompareViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_compare_view_dispose;
  GTK_WIDGET_CLASS (klass)->snapshot = rw_compare_view_snapshot;
  GTK_WIDGET_CLASS (klass)->size_allocate = rw_compare_view_size_allocate;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_IMG);
}

static void
rw_compare_view_init (RwCompareView *view)
{
  GtkEventController *wheel = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL | GTK_EVENT_CONTROLLER_SCROLL_DISCRETE);
  GtkEventController *pointer = gtk_event_controller_motion_new (), *keys = gtk_event_controller_key_new ();
  GtkGesture *drag = gtk_gesture_drag_new ();

  view->context = rw_draw_context_new ();
  view->scale = 1;
  gtk_widget_set_focusable (GTK_WIDGET (view), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (view), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL, _("The drawing, with clouds round what changed"), -1);
  g_signal_connect (wheel, "scroll", G_CALLBACK (scrolled), view);
  g_signal_connect (pointer, "motion", G_CALLBACK (pointer_moved), view);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), view);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begun), view);
  g_signal_connect (drag, "drag-update", G_CALLBACK (dragged), view);
  gtk_widget_add_controller (GTK_WIDGET (view), wheel);
  gtk_widget_add_controller (GTK_WIDGET (view), pointer);
  gtk_widget_add_controller (GTK_WIDGET (view), keys);
  gtk_widget_add_controller (GTK_WIDGET (view), GTK_EVENT_CONTROLLER (drag));
}

GtkWidget *
rw_compare_view_new (void)
{
  return g_object_new (RW_TYPE_COMPARE_VIEW, NULL);
}
