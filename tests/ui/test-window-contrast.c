/* SPDX-License-Identifier: MIT */
/* What tells a control's state stands out by 3:1 at least (WCAG 2.1, 1.4.11), in either style, as it is drawn. */
#include "window-hand.h"

#include <math.h>
#include <ui/rw-line-view-private.h>

#define LEAST 3.0

/* What is drawn of @widget as it is now: until a frame has drawn it there is nothing. */
static GskRenderNode *
draw (GtkWidget *widget, GdkPaintable *paintable)
{
  GskRenderNode *node;

  do
    {
      GtkSnapshot *snapshot = gtk_snapshot_new ();

      gtk_widget_queue_draw (widget);
      gtk_test_widget_wait_for_draw (widget);
      gdk_paintable_snapshot (paintable, snapshot, gtk_widget_get_width (widget), gtk_widget_get_height (widget));
      node = gtk_snapshot_free_to_node (snapshot);
    }
  while (node == NULL);
  return node;
}

/* Where a widget lies in its window's picture is where it lies in the window, without its frame. */
static cairo_surface_t *
picture_of (GtkWidget *widget)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  GskRenderNode *node = draw (widget, paintable);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (picture);

  gsk_render_node_draw (node, cr);
  gsk_render_node_unref (node);
  cairo_destroy (cr);
  return picture;
}

/* @c: 0 to 1. */
static double
linear (double c)
{
  return c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4);
}

/* Relative luminance, WCAG 2.1. */
static double
luminance (cairo_surface_t *picture, int x, int y)
{
  const guint8 *p = cairo_image_surface_get_data (picture) + (gsize) y * cairo_image_surface_get_stride (picture) + 4 * x;

  return 0.2126 * linear (p[2] / 255.0) + 0.7152 * linear (p[1] / 255.0) + 0.0722 * linear (p[0] / 255.0);
}

static double
contrast (double a, double b)
{
  return (MAX (a, b) + 0.05) / (MIN (a, b) + 0.05);
}

static graphene_rect_t
bounds_of (Hand *hand, GtkWidget *widget)
{
  graphene_rect_t bounds;

  g_assert_true (gtk_widget_compute_bounds (widget, gtk_window_get_child (GTK_WINDOW (hand->window)), &bounds));
  return bounds;
}

/* The strongest contrast to @ground of what is drawn down a line at @x, from @y on. */
static double
strongest (cairo_surface_t *picture, int x, int y, int length, double ground)
{
  double most = 1;

  for (int i = 0; i < length; i++)
    most = MAX (most, contrast (luminance (picture, x, y + i), ground));
  return most;
}

/* A chosen button beside one that is not: down a line left of the words, against the other's ground there. */
static void
assert_chosen_stands_out (Hand *hand, cairo_surface_t *picture, const char *chosen, const char *other)
{
  graphene_rect_t a = bounds_of (hand, hand_find_button (chosen)), b = bounds_of (hand, hand_find_button (other));
  double ground = luminance (picture, (int) (b.origin.x + 5), (int) (b.origin.y + b.size.height / 2));

  g_test_message ("%s beside %s: %.2f", chosen, other,
                  strongest (picture, (int) (a.origin.x + 5), (int) a.origin.y + 1, (int) a.size.height - 2, ground));
  g_assert_cmpfloat (strongest (picture, (int) (a.origin.x + 5), (int) a.origin.y + 1, (int) a.size.height - 2, ground), >=,
                     LEAST);
}

static void
assert_box_is_seen (Hand *hand, cairo_surface_t *picture, GtkWidget *check_button)
{
  graphene_rect_t box = bounds_of (hand, gtk_widget_get_first_child (check_button));
  int middle = (int) (box.origin.y + box.size.height / 2);
  double ground = luminance (picture, (int) box.origin.x - 3, middle), most = 1;

  for (int x = (int) box.origin.x - 1; x < (int) box.origin.x + 4; x++)
    most = MAX (most, contrast (luminance (picture, x, middle), ground));
  g_test_message ("box: %.2f", most);
  g_assert_cmpfloat (most, >=, LEAST);
}

static GtkWidget *
find (GtkWidget *widget, const char *type, const char *text)
{
  GtkWidget *found = NULL;

  if (g_str_equal (G_OBJECT_TYPE_NAME (widget), type)
      && (text == NULL || g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), text)))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find (child, type, text);
  return found;
}

/* The box of phantom power in the second line, below its heading. */
static void
assert_phantom_is_seen (Hand *hand, cairo_surface_t *picture)
{
  graphene_rect_t heading = bounds_of (hand, find (GTK_WIDGET (hand->window->lines), "GtkLabel", "Phantom"));
  graphene_rect_t cell = bounds_of (hand, find (GTK_WIDGET (hand->window->lines), "RwLineCell", NULL));
  int y = (int) (cell.origin.y + 1.5 * cell.size.height), from = (int) heading.origin.x;
  double ground = luminance (picture, from + 40, y), most = 1;

  for (int x = from; x < from + 24; x++)
    most = MAX (most, contrast (luminance (picture, x, y), ground));
  g_test_message ("phantom: %.2f", most);
  g_assert_cmpfloat (most, >=, LEAST);
}

static void
test_contrast (gconstpointer scheme)
{
  Hand hand;
  cairo_surface_t *picture;
  GtkWidget *check;

  hand_begin (&hand);
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  g_action_group_activate_action (G_ACTION_GROUP (hand.application), "scheme", g_variant_new_string (scheme));
  hand_open_text (&hand, "console desk ctrl=1 at=[20,60]\nrack left id=1 at=[110,60]\ndesk.s-left.p\n");
  g_object_set (hand.window, "lines-shown", TRUE, NULL);
  hand_settle ();
  rw_line_view_set_with_free (hand.window->lines, FALSE);
  hand_settle ();
  picture = picture_of (gtk_window_get_child (GTK_WINDOW (hand.window)));
  check = hand.window->lines->free_check;
  assert_chosen_stands_out (&hand, picture, "Wiring", "Planes");
  assert_chosen_stands_out (&hand, picture, "Fields", "List");
  assert_chosen_stands_out (&hand, picture, "Inputs", "Outputs");
  g_assert_false (gtk_check_button_get_active (GTK_CHECK_BUTTON (check)));
  assert_box_is_seen (&hand, picture, check);
  cairo_surface_destroy (picture);
  rw_line_view_set_with_free (hand.window->lines, TRUE);
  hand_settle ();
  picture = picture_of (gtk_window_get_child (GTK_WINDOW (hand.window)));
  assert_phantom_is_seen (&hand, picture);
  cairo_surface_destroy (picture);
  /* the style is the display's: it would outlive the program */
  g_action_group_activate_action (G_ACTION_GROUP (hand.application), "scheme", g_variant_new_string ("light"));
  hand_end (&hand);
}

static double
named_luminance (GtkWidget *widget, const char *name)
{
  GdkRGBA c;

  g_assert_true (gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), name, &c));
  return 0.2126 * linear (c.red) + 0.7152 * linear (c.green) + 0.0722 * linear (c.blue);
}

/* A theme that is dark itself, whatever the scheme says, and one that becomes light again: words of a severity and those
 * of the theme on the desk stand out by 4.5:1 (WCAG 2.1, 1.4.3). */
static void
test_dark_theme (void)
{
  static const char *const themes[] = { "Adwaita-dark", "Adwaita" };
  Hand hand;

  hand_begin (&hand);
  g_action_group_activate_action (G_ACTION_GROUP (hand.application), "scheme", g_variant_new_string ("light"));
  for (guint i = 0; i < G_N_ELEMENTS (themes); i++)
    {
      GtkWidget *widget = GTK_WIDGET (hand.window->findings);

      g_object_set (gtk_settings_get_default (), "gtk-theme-name", themes[i], NULL);
      hand_settle ();
      g_assert_cmpint (named_luminance (widget, "theme_bg_color") < 0.2, ==, i == 0);
      g_assert_cmpfloat (contrast (named_luminance (widget, "rw_note"), named_luminance (widget, "rw_panel")), >=, 4.5);
      g_assert_cmpfloat (contrast (named_luminance (widget, "theme_fg_color"), named_luminance (widget, "rw_desk")), >=, 4.5);
    }
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_data_func ("/window/contrast/light", "light", test_contrast);
  g_test_add_data_func ("/window/contrast/dark", "dark", test_contrast);
  g_test_add_func ("/window/contrast/dark-theme", test_dark_theme);
  return g_test_run ();
}
