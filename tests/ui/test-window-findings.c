/* SPDX-License-Identifier: MIT */
/* The list of findings and the sheet: what is shown, what stays in sight, how to get rid of it again. */
#include "window-hand.h"

#include <rig/rw-edit.h>
#include <string.h>
#include <ui/rw-finding-row.h>

static GtkWidget *
find_type (GtkWidget *widget, GType type)
{
  GtkWidget *found = G_TYPE_CHECK_INSTANCE_TYPE (widget, type) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_type (child, type);
  return found;
}

static GtkAdjustment *
scrolling (Hand *hand)
{
  GtkWidget *scroll = find_type (GTK_WIDGET (hand->window->findings), GTK_TYPE_SCROLLED_WINDOW);

  return gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroll));
}

/* The line that is open begins within its list: a person reads what is wrong before how to mend it. */
static gboolean
head_is_seen (gpointer hand)
{
  GtkWidget *view = GTK_WIDGET (((Hand *) hand)->window->findings);
  GtkWidget *button = rw_findings_view_get_fix_button (RW_FINDINGS_VIEW (view), 0);
  GtkWidget *line = button != NULL ? gtk_widget_get_ancestor (button, RW_TYPE_FINDING_WIDGET) : NULL;
  GtkWidget *scroll = button != NULL ? gtk_widget_get_ancestor (button, GTK_TYPE_SCROLLED_WINDOW) : NULL;
  graphene_rect_t bounds;

  return line != NULL && gtk_widget_compute_bounds (line, scroll, &bounds) && bounds.size.height > 100
         && bounds.origin.y >= 0 && bounds.origin.y < gtk_widget_get_height (scroll) / 2.0;
}

static void
test_finding_head (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, "console desk at=[20,60]\nrack a at=[110,60]\nrack b at=[200,60]\nrack c at=[20,120]\n"
                    "rack d at=[110,120]\nrack e at=[200,120]\n");
  for (guint i = 0; i < 4; i++)
    {
      gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.next-finding", NULL);
      hand_wait (head_is_seen, &hand);
      hand_settle ();
      if (i == 0) /* it had room: nothing needs to move */
        g_assert_cmpfloat (gtk_adjustment_get_value (scrolling (&hand)), ==, 0);
    }
  hand_end (&hand);
}

/* A finding that stays, about a device that is called something else now, says the new name. */
static void
test_new_words (void)
{
  Hand hand;
  g_autoptr (RwChange) change = NULL;
  RwEdit *edit;

  hand_begin (&hand);
  hand_open_text (&hand, "console desk ctrl=1 at=[20,60]\nrack left id=1 name=Amber at=[110,60]\n");
  g_assert_true (hand_says (GTK_WIDGET (hand.window->findings), "Amber"));
  edit = rw_edit_new (rw_document_rig (hand.window->document), "Rename");
  g_assert_true (rw_edit_set (edit, "left", RW_DEVICE_NAME, g_variant_new_string ("Zed"), NULL));
  change = rw_edit_finish (edit);
  g_assert_true (rw_document_do (hand.window->document, change, NULL));
  hand_settle ();
  g_assert_false (hand_says (GTK_WIDGET (hand.window->findings), "Amber"));
  g_assert_true (hand_says (GTK_WIDGET (hand.window->findings), "Zed"));
  hand_end (&hand);
}

static void
get_colour (GtkWidget *widget, GdkRGBA *colour)
{
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), colour);
}

static gboolean
is_of_one_colour (gpointer help)
{
  GdkRGBA link, text;

  get_colour (gtk_button_get_child (GTK_BUTTON (help)), &link);
  get_colour (gtk_widget_get_prev_sibling (help), &text);
  return gdk_rgba_equal (&link, &text);
}

/* All that an opened line says is read on the same ground, so it is of the same colour. */
static void
test_help_is_readable (void)
{
  Hand hand;
  GtkWidget *help;

  hand_begin (&hand);
  hand_open_text (&hand, "console desk at=[20,60]\n");
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.next-finding", NULL);
  hand_settle ();
  help = hand_find_button ("Read more in the help");
  g_assert_nonnull (help);
  hand_wait (is_of_one_colour, help); /* the theme lets colours change slowly */
  hand_end (&hand);
}

/* The same finding stays selected while its words and its number change. */
static void
test_finding_stays (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, "console desk ctrl=1 name=Desk at=[20,60]\nrack left id=3 name=Left at=[110,60]\n"
                    "rack right id=3 name=Right at=[200,60]\n"
                    "desk.s-left.p\nleft.s-right.p\n");
  hand_assert_findings (&hand, "unit-id-clash");
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.next-finding", NULL);
  hand_settle ();
  g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, 0);
  hand_select (&hand, "left");
  hand_type (&hand, "name", "Far left");
  g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, 0);
  /* A loop comes before it in the list. */
  hand_draw_to (&hand, "right", "secondary", "desk", "primary");
  hand_let_go (&hand, "desk", "primary");
  hand_assert_findings (&hand, "loop unit-id-clash");
  g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, 1);
  hand_end (&hand);
}

/* The quick fix is a button with the name of its change, and one undoable step. */
static void
test_fix (void)
{
  Hand hand;
  GtkWidget *button;

  hand_begin (&hand);
  hand_open_text (&hand, "console desk ctrl=1\nrack left id=1\nrack right id=2\n"
                    "desk.s-left.p\nleft.s-right.p\nright.s-desk.p\n");
  hand_assert_findings (&hand, "loop");
  rw_findings_view_select (hand.window->findings, 0);
  hand_settle ();
  button = rw_findings_view_get_fix_button (hand.window->findings, 0);
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  hand_settle ();
  hand_assert_findings (&hand, "");
  g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, -1);
  g_assert_cmpuint (rw_rig_n (rw_document_rig (hand.window->document), RW_ITEM_CABLE), ==, 2);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.undo", NULL);
  hand_settle ();
  hand_assert_findings (&hand, "loop");
  hand_end (&hand);
}

static int
shown_finding (Hand *hand)
{
  int finding;

  g_object_get (hand->window->canvas, "finding", &finding, NULL);
  return finding;
}

static const char ring[] = "console desk ctrl=1 at=[60,60]\nrack left id=1 at=[160,60]\nrack right id=2 at=[260,60]\n"
                           "desk.s-left.p\nleft.s-right.p\nright.s-desk.p\n";

static void
escape (Hand *hand)
{
  g_assert_true (rw_canvas_key (hand->window->canvas, GDK_KEY_Escape, 0));
}

static void
click_on_nothing (Hand *hand)
{
  RwPoint at = rw_canvas_from_sheet (hand->window->canvas, (RwPoint) { 160, 160 });

  rw_canvas_press (hand->window->canvas, GDK_BUTTON_PRIMARY, 1, at.x, at.y, 0);
  rw_canvas_release (hand->window->canvas, GDK_BUTTON_PRIMARY, at.x, at.y, GDK_BUTTON1_MASK);
}

/* Escape and a click on nothing let go of the shown finding, on the sheet and in the list, for good. */
static void
test_let_go (void)
{
  static void (*const ways[]) (Hand *hand) = { escape, click_on_nothing };
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, ring);
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      rw_findings_view_select (hand.window->findings, 0);
      hand_settle ();
      g_assert_cmpint (shown_finding (&hand), ==, 0);
      ways[i] (&hand);
      hand_settle ();
      g_assert_cmpint (shown_finding (&hand), ==, -1);
      g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, -1);
      hand_select (&hand, "left");
      hand_type (&hand, "unit_id", i == 0 ? "11" : "12");
      g_assert_cmpint (shown_finding (&hand), ==, -1);
    }
  hand_end (&hand);
}

/* A selected finding stays shown on the sheet through edits that leave it where it is. */
static void
test_shown_through_edits (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, ring);
  rw_findings_view_select (hand.window->findings, 0);
  hand_settle ();
  hand_select (&hand, "left");
  hand_type (&hand, "unit_id", "11");
  g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, 0);
  g_assert_cmpint (shown_finding (&hand), ==, 0);
  hand_end (&hand);
}

/* The worst comes first in the list: a list that shows its top shows it at once. */
static void
test_new_at_top (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, "console desk ctrl=1 at=[20,60]\nrack a at=[110,60]\nrack b at=[200,60]\nrack c at=[20,120]\n"
                    "rack d at=[110,120]\nrack e at=[200,120]\ndesk.s-a.p\na.s-b.p\n");
  g_assert_cmpfloat (gtk_adjustment_get_upper (scrolling (&hand)), >, gtk_adjustment_get_page_size (scrolling (&hand)));
  g_assert_cmpfloat (gtk_adjustment_get_value (scrolling (&hand)), ==, 0);
  hand_draw_to (&hand, "b", "secondary", "desk", "primary");
  hand_let_go (&hand, "desk", "primary");
  g_assert_cmpstr (rw_findings_get (rw_document_findings (hand.window->document), 0)->rule->code, ==, "loop");
  g_assert_cmpfloat (gtk_adjustment_get_value (scrolling (&hand)), ==, 0);
  /* who reads further down is left alone */
  gtk_adjustment_set_value (scrolling (&hand), 60);
  hand_settle ();
  g_assert_true (rw_document_undo (hand.window->document));
  hand_settle ();
  g_assert_true (rw_document_redo (hand.window->document));
  hand_settle ();
  g_assert_cmpfloat (gtk_adjustment_get_value (scrolling (&hand)), >, 0);
  hand_end (&hand);
}

static guint
count_type (GtkWidget *widget, GType type)
{
  guint n = G_TYPE_CHECK_INSTANCE_TYPE (widget, type) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    n += count_type (child, type);
  return n;
}

static gboolean
has_all_lines (gpointer data)
{
  Hand *hand = data;

  return count_type (GTK_WIDGET (hand->window->findings), RW_TYPE_FINDING_WIDGET)
         == rw_findings_n (rw_document_findings (hand->window->document));
}

static void
open_many (Hand *hand)
{
  g_autoptr (GString) text = g_string_new ("console desk at=[20,60]\n");

  for (int i = 0; i < 80; i++)
    g_string_append_printf (text, "rack r%d at=[%d,%d]\n", i, 20 + i % 10 * 90, 120 + i / 10 * 60);
  hand_open_text (hand, text->str);
  g_assert_cmpuint (rw_findings_n (rw_document_findings (hand->window->document)), >, 50);
}

/* Lines that come in after the first frame come in all the same, and the last is there as soon as it is asked for. */
static void
test_many (void)
{
  Hand hand;
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwDocument) again = NULL;
  int last;

  hand_begin (&hand);
  open_many (&hand);
  hand_wait (has_all_lines, &hand);
  rig = g_object_ref (rw_document_rig (hand.window->document));
  again = rw_document_new_for_rig (rig);
  rw_findings_view_set_document (hand.window->findings, again);
  last = (int) rw_findings_n (rw_document_findings (again)) - 1;
  rw_findings_view_select (hand.window->findings, last);
  g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, last);
  rw_findings_view_set_document (hand.window->findings, hand.window->document);
  hand_end (&hand);
}

/* As the window does whenever the hand moves over the sheet. */
static void
look_again (Hand *hand)
{
  rw_window_queue_status (hand->window);
  hand_settle ();
}

/* What the cable in the hand would bring stands on top of the list and beside the counts, and goes with it. */
static void
test_would_be (void)
{
  Hand hand;
  GtkWidget *view;
  RwPoint origin, aside;
  guint n;
  int last;
  double value;

  hand_begin (&hand);
  view = GTK_WIDGET (hand.window->findings);
  hand_open_text (&hand, "console desk ctrl=1 at=[20,60]\nrack a at=[110,60]\nrack b at=[200,60]\nrack c at=[20,120]\n"
                    "rack d at=[110,120]\nrack e at=[200,120]\ndesk.s-a.p\na.s-b.p\n");
  n = rw_findings_n (rw_document_findings (hand.window->document));
  last = (int) n - 1;
  rw_findings_view_select (hand.window->findings, last);
  for (guint i = 0; i < 30; i++)
    hand_settle (); /* it scrolls until the line has opened */
  value = gtk_adjustment_get_value (scrolling (&hand));
  g_assert_cmpfloat (value, >, 0);
  origin = rw_canvas_from_sheet (hand.window->canvas, (RwPoint) { 0, 0 });

  hand_draw_to (&hand, "b", "secondary", "desk", "primary");
  look_again (&hand);
  g_assert_true (hand_says (view, "Would be an error"));
  g_assert_true (hand_says (view, "closes a loop"));
  g_assert_true (hand_says (view, "0 + 1"));
  g_assert_cmpfloat (gtk_adjustment_get_value (scrolling (&hand)), ==, 0);
  g_assert_cmpuint (rw_findings_n (rw_document_findings (hand.window->document)), ==, n);
  /* what was chosen stays chosen, and the sheet where it is */
  g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, last);
  g_assert_cmpint (shown_finding (&hand), ==, last);
  g_assert_cmpfloat (rw_canvas_from_sheet (hand.window->canvas, (RwPoint) { 0, 0 }).x, ==, origin.x);

  aside = rw_canvas_from_sheet (hand.window->canvas, (RwPoint) { 160, 170 });
  rw_canvas_motion (hand.window->canvas, aside.x, aside.y, GDK_BUTTON1_MASK);
  look_again (&hand);
  g_assert_false (hand_says (view, "Would be"));
  g_assert_false (hand_says (view, "0 + 1"));
  g_assert_cmpfloat_with_epsilon (gtk_adjustment_get_value (scrolling (&hand)), value, 2);
  g_assert_cmpint (rw_findings_view_get_selected (hand.window->findings), ==, last);

  hand_draw_to (&hand, "b", "secondary", "desk", "primary");
  look_again (&hand);
  g_assert_true (hand_says (view, "Would be an error"));
  hand_let_go (&hand, "desk", "primary");
  look_again (&hand);
  g_assert_false (hand_says (view, "Would be"));
  g_assert_cmpstr (rw_findings_get (rw_document_findings (hand.window->document), 0)->rule->code, ==, "loop");
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/window/findings/stay-selected", test_finding_stays);
  g_test_add_func ("/window/findings/head", test_finding_head);
  g_test_add_func ("/window/findings/help-is-readable", test_help_is_readable);
  g_test_add_func ("/window/findings/fix", test_fix);
  g_test_add_func ("/window/findings/let-go", test_let_go);
  g_test_add_func ("/window/findings/shown-through-edits", test_shown_through_edits);
  g_test_add_func ("/window/findings/many", test_many);
  g_test_add_func ("/window/findings/new-words", test_new_words);
  g_test_add_func ("/window/findings/new-at-top", test_new_at_top);
  g_test_add_func ("/window/findings/would-be", test_would_be);
  return g_test_run ();
}
