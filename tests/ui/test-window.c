/* SPDX-License-Identifier: MIT */
/* The window as a person works with it: what the fields, the list and the sheet do to each other. */
#include "window-hand.h"

#include <ui/rw-question.h>

static void
assert_names (char **names, const char *const *expected)
{
  for (guint i = 0; expected[i] != NULL; i++)
    g_assert_true (g_strv_contains ((const char *const *) names, expected[i]));
  g_assert_cmpuint (g_strv_length (names), ==, g_strv_length ((char **) expected));
}

/* A third cable from last to first is called a loop of three while it is still in the air. */
static void
test_loop (void)
{
  Hand hand;
  RwFinding *loop;
  const RwOverlay *overlay;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_assert_findings (&hand, "");
  g_assert_nonnull (hand_find_button ("Export…"));
  hand_draw_to (&hand, "right", "secondary", "desk", "primary");
  overlay = rw_canvas_overlay (hand.window->canvas);
  g_assert_cmpint (overlay->verdict, ==, RW_VERDICT_ERROR);
  g_assert_nonnull (strstr (overlay->verdict_text, "loop"));
  hand_settle ();
  hand_assert_findings (&hand, "");
  hand_let_go (&hand, "desk", "primary");
  loop = hand_find (&hand, "loop");
  g_assert_nonnull (loop);
  assert_names (loop->devices, (const char *const[]) { "desk", "left", "right", NULL });
  g_assert_true (rw_document_undo (hand.window->document));
  hand_assert_findings (&hand, "");
  hand_end (&hand);
}

static void
test_mixed_modes (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_select (&hand, "right");
  hand_choose (&hand, "mode", "redundant");
  g_assert_nonnull (hand_find (&hand, "mixed-modes"));
  g_assert_cmpstr (hand_find (&hand, "mixed-modes")->devices[0], ==, "right");
  g_assert_true (rw_document_undo (hand.window->document));
  hand_assert_findings (&hand, "");
  hand_end (&hand);
}

/* Each key stroke counts: "2" clashes with the other rack, "21" does not, and all of it is one step back. */
static void
test_unit_id_clash (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_select (&hand, "left");
  hand_type (&hand, "unit_id", "2");
  assert_names (hand_find (&hand, "unit-id-clash")->devices, (const char *const[]) { "left", "right", NULL });
  hand_type (&hand, "unit_id", "21");
  hand_assert_findings (&hand, "");
  g_assert_true (rw_document_undo (hand.window->document));
  g_assert_cmpint (rw_rig_device (rw_document_rig (hand.window->document), "left")->unit_id, ==, 1);
  hand_settle ();
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (rw_field_row_get_control (
                     rw_particulars_find (hand.window->particulars, "unit_id")))), ==, "1");
  hand_end (&hand);
}

static void
test_no_controller (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_select (&hand, "desk");
  hand_type (&hand, "controller_id", "");
  hand_assert_findings (&hand, "no-controller-1");
  hand_type (&hand, "controller_id", "1");
  hand_assert_findings (&hand, "");
  hand_end (&hand);
}

/* A few letters and Enter put a part on the sheet. */
static void
test_shelf (void)
{
  Hand hand;
  GtkWidget *search;
  guint all;

  hand_begin (&hand);
  all = rw_shelf_n_shown (hand.window->shelf);
  g_assert_cmpuint (all, >=, 20);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.insert", NULL);
  hand_settle ();
  search = rw_shelf_get_search (hand.window->shelf);
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (hand.window)), search));
  gtk_editable_set_text (GTK_EDITABLE (search), "RACK 16");
  hand_settle ();
  g_assert_cmpuint (rw_shelf_n_shown (hand.window->shelf), <, all);
  g_signal_emit_by_name (search, "activate");
  g_signal_emit_by_name (search, "activate");
  hand_settle ();
  g_assert_cmpuint (rw_rig_n (rw_document_rig (hand.window->document), RW_ITEM_DEVICE), ==, 2);
  gtk_editable_set_text (GTK_EDITABLE (search), "no such part");
  hand_settle ();
  g_assert_cmpuint (rw_shelf_n_shown (hand.window->shelf), ==, 0);
  hand_end (&hand);
}

/* The list selects on the sheet, and the sheet in the list. */
static void
test_list (void)
{
  Hand hand;
  GtkSelectionModel *model;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.view", "s", "list");
  hand_settle ();
  model = rw_thing_list_get_model (hand.window->things);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (model)), ==, 5);
  gtk_selection_model_select_item (model, 1, TRUE);
  hand_settle ();
  g_assert_cmpstr (rw_selection_single (rw_document_selection (hand.window->document)), ==, "left");
  hand_select (&hand, "c2");
  g_assert_true (gtk_selection_model_is_selected (model, 4));
  g_assert_false (gtk_selection_model_is_selected (model, 1));
  hand_end (&hand);
}

static void
test_find (void)
{
  Hand hand;
  GtkWidget *entry;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.find", NULL);
  entry = rw_find_bar_get_entry (hand.window->find_bar);
  gtk_editable_set_text (GTK_EDITABLE (entry), "STAGE");
  hand_settle ();
  g_assert_cmpstr (rw_selection_single (rw_document_selection (hand.window->document)), ==, "left");
  g_signal_emit_by_name (entry, "activate");
  g_assert_cmpstr (rw_selection_single (rw_document_selection (hand.window->document)), ==, "right");
  g_signal_emit_by_name (entry, "activate");
  g_assert_cmpstr (rw_selection_single (rw_document_selection (hand.window->document)), ==, "left");
  g_signal_emit_by_name (entry, "previous-match");
  g_assert_cmpstr (rw_selection_single (rw_document_selection (hand.window->document)), ==, "right");
  hand_end (&hand);
}

static GtkWidget *
find_class (GtkWidget *widget, const char *css_class)
{
  GtkWidget *found = gtk_widget_has_css_class (widget, css_class) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_class (child, css_class);
  return found;
}

/* The sheet stays white in a dark window, so what stands on it stays dark; only a dark sheet turns it round. */
static void
test_invitation_on_its_sheet (void)
{
  Hand hand;
  GtkWidget *invitation;
  GdkRGBA on_white, on_dark;

  hand_begin (&hand);
  g_action_group_activate_action (G_ACTION_GROUP (hand.application), "scheme", g_variant_new_string ("dark"));
  hand_settle ();
  invitation = find_class (GTK_WIDGET (hand.window), "sheet-invitation");
  gtk_style_context_get_color (gtk_widget_get_style_context (invitation), &on_white);
  g_assert_cmpfloat (on_white.red + on_white.green + on_white.blue, <, 0.7);
  g_object_set (hand.window, "dark-sheet", TRUE, NULL);
  hand_settle ();
  gtk_style_context_get_color (gtk_widget_get_style_context (invitation), &on_dark);
  g_assert_cmpfloat (on_dark.red + on_dark.green + on_dark.blue, >, 2.3);
  hand_end (&hand);
}

static void
answered (const char *answer, gpointer user_data)
{
  g_assert_cmpstr (answer, ==, "cancel");
  *(gboolean *) user_data = TRUE;
}

/* A question stands over its own window only: another rig can be worked on meanwhile. */
static void
test_question_of_one (void)
{
  Hand hand;
  const RwAnswer answers[] = { { "cancel", "Never _mind", RW_ANSWER_PLAIN } };
  RwWindow *other;
  GtkWindow *question;
  gboolean done = FALSE;

  hand_begin (&hand);
  other = rw_window_new (GTK_APPLICATION (hand.application));
  gtk_window_present (GTK_WINDOW (other));
  question = rw_question_ask (GTK_WINDOW (hand.window), "Well?", "Say.", answers, 1, answered, &done);
  g_assert_true (gtk_window_get_modal (question));
  g_assert_true (gtk_window_get_group (question) == gtk_window_get_group (GTK_WINDOW (hand.window)));
  g_assert_true (gtk_window_get_group (question) != gtk_window_get_group (GTK_WINDOW (other)));
  hand_click ("Never mind");
  g_assert_true (done);
  gtk_window_destroy (GTK_WINDOW (other));
  hand_end (&hand);
}

/* Menu and buttons say what would be undone. */
static void
test_history_names (void)
{
  Hand hand;

  hand_begin (&hand);
  hand_open_text (&hand, HAND_CHAIN);
  hand_select (&hand, "left");
  hand_type (&hand, "location", "Roof");
  gtk_test_accessible_assert_property (hand.window->undo_button, GTK_ACCESSIBLE_PROPERTY_LABEL, "Undo Set Location");
  g_assert_cmpint (g_menu_model_get_n_items (G_MENU_MODEL (hand.window->history_slot)), ==, 2);
  hand_end (&hand);
}

/* The list of keys fits on the smallest screen. */
static void
test_shortcuts (void)
{
  Hand hand;
  int width, height;

  hand_begin (&hand);
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.show-help-overlay", NULL);
  hand_settle ();
  gtk_widget_measure (GTK_WIDGET (gtk_application_window_get_help_overlay (GTK_APPLICATION_WINDOW (hand.window))),
                      GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
  gtk_widget_measure (GTK_WIDGET (gtk_application_window_get_help_overlay (GTK_APPLICATION_WINDOW (hand.window))),
                      GTK_ORIENTATION_VERTICAL, -1, &height, NULL, NULL, NULL);
  g_assert_cmpint (width, <=, 1280);
  g_assert_cmpint (height, <=, 720);
  hand_end (&hand);
}

/* Keys are for the sheet from the start, also of a rig that was opened from elsewhere. */
static void
test_focus (void)
{
  Hand hand;

  hand_begin (&hand);
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (hand.window)) == GTK_WIDGET (hand.window->canvas));
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.insert", NULL);
  g_assert_false (gtk_window_get_focus (GTK_WINDOW (hand.window)) == GTK_WIDGET (hand.window->canvas));
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.sheet", NULL);
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (hand.window)) == GTK_WIDGET (hand.window->canvas));
  gtk_widget_activate_action (GTK_WIDGET (hand.window), "win.insert", NULL);
  hand_open_text (&hand, HAND_CHAIN);
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (hand.window)) == GTK_WIDGET (hand.window->canvas));
  hand_end (&hand);
}

/* No key of the application does two things. */
static void
test_keys (void)
{
  Hand hand;
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_auto (GStrv) actions = NULL;

  hand_begin (&hand);
  actions = gtk_application_list_action_descriptions (GTK_APPLICATION (hand.application));
  g_assert_cmpuint (g_strv_length (actions), >, 10);
  for (guint i = 0; actions[i] != NULL; i++)
    {
      g_auto (GStrv) keys = gtk_application_get_accels_for_action (GTK_APPLICATION (hand.application), actions[i]);

      for (guint k = 0; keys[k] != NULL; k++)
        g_assert_true (g_hash_table_add (taken, g_strdup (keys[k])));
    }
  hand_end (&hand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  g_test_add_func ("/window/loop", test_loop);
  g_test_add_func ("/window/mixed-modes", test_mixed_modes);
  g_test_add_func ("/window/unit-id-clash", test_unit_id_clash);
  g_test_add_func ("/window/no-controller-1", test_no_controller);
  g_test_add_func ("/window/shelf", test_shelf);
  g_test_add_func ("/window/list", test_list);
  g_test_add_func ("/window/find", test_find);
  g_test_add_func ("/window/invitation-on-its-sheet", test_invitation_on_its_sheet);
  g_test_add_func ("/window/question-of-one", test_question_of_one);
  g_test_add_func ("/window/history-names", test_history_names);
  g_test_add_func ("/window/shortcuts", test_shortcuts);
  g_test_add_func ("/window/keys", test_keys);
  g_test_add_func ("/window/focus", test_focus);
  return g_test_run ();
}
