/* SPDX-License-Identifier: MIT */
#include "window-hand.h"

#include "rig-builder.h"

#include <glib/gstdio.h>

void
hand_settle (void)
{
  for (int quiet = 0; quiet < 2; quiet++)
    {
      gint64 frame = g_get_monotonic_time () + 20000;
      while (g_main_context_pending (NULL) || g_get_monotonic_time () < frame)
        g_main_context_iteration (NULL, FALSE);
    }
}

void
hand_wait (gboolean (*done) (gpointer data), gpointer data)
{
  gint64 end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;

  while (!done (data))
    {
      g_assert_cmpint (g_get_monotonic_time (), <, end);
      g_main_context_iteration (NULL, FALSE);
      g_usleep (1000);
    }
}

static gboolean
canvas_is_shown (gpointer data)
{
  return gtk_widget_get_width (data) > 100;
}

void
hand_begin (Hand *hand)
{
  g_autofree char *settings = NULL;
  g_autoptr (GError) error = NULL;

  hand->folder = g_dir_make_tmp ("rigwright-window-XXXXXX", &error);
  g_assert_no_error (error);
  settings = g_build_filename (hand->folder, "settings.ini", NULL);
  hand->application = rw_application_new (settings, G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (hand->application), NULL, &error);
  g_assert_no_error (error);
  /* GTK 4.8 loses a little memory each time that it looks which recent files are too old. */
  g_object_set (gtk_settings_get_default (), "gtk-recent-files-max-age", -1, NULL);
  hand->window = rw_window_new (GTK_APPLICATION (hand->application));
  gtk_window_present (GTK_WINDOW (hand->window));
  hand_wait (canvas_is_shown, hand->window->canvas);
  hand_settle ();
}

static void
remove_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        remove_folder (path);
      else
        g_unlink (path);
    }
  g_rmdir (folder);
}

void
hand_end (Hand *hand)
{
  GList *windows = g_list_copy (gtk_application_get_windows (GTK_APPLICATION (hand->application)));

  for (GList *l = windows; l != NULL; l = l->next)
    gtk_window_destroy (l->data);
  g_list_free (windows);
  hand_settle ();
  g_assert_null (gtk_application_get_windows (GTK_APPLICATION (hand->application)));
  g_object_unref (hand->application);
  remove_folder (hand->folder);
  g_free (hand->folder);
}

void
hand_open (Hand *hand, RwRig *rig)
{
  g_autofree char *path = g_build_filename (hand->folder, "test.rig", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;

  rw_file_write (rig, path, &error);
  g_assert_no_error (error);
  g_assert_true (rw_window_load (hand->window, file));
  hand_settle ();
}

void
hand_open_text (Hand *hand, const char *text)
{
  g_autoptr (RwRig) rig = rw_test_rig (text);

  hand_open (hand, rig);
}

void
hand_select (Hand *hand, const char *key)
{
  rw_selection_set (rw_document_selection (hand->window->document), key);
  hand_settle ();
}

static GtkWidget *
find_control (Hand *hand, const char *path)
{
  RwFieldRow *row = rw_particulars_find (hand->window->particulars, path);

  g_assert_nonnull (row);
  return rw_field_row_get_control (row);
}

void
hand_type_into (GtkWidget *entry, const char *text)
{
  gtk_widget_grab_focus (entry);
  gtk_editable_delete_text (GTK_EDITABLE (entry), 0, -1);
  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      int position = -1;
      gtk_editable_insert_text (GTK_EDITABLE (entry), p, (int) (g_utf8_next_char (p) - p), &position);
      hand_settle ();
    }
  hand_settle ();
}

void
hand_type (Hand *hand, const char *path, const char *text)
{
  hand_type_into (find_control (hand, path), text);
}

gboolean
hand_press_keys (GtkWidget *widget, const char *keys)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (widget);
  g_autoptr (GtkShortcutTrigger) wanted = gtk_shortcut_trigger_parse_string (keys);

  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (all, i);

      for (guint k = 0; GTK_IS_SHORTCUT_CONTROLLER (controller) && k < g_list_model_get_n_items (G_LIST_MODEL (controller)); k++)
        {
          g_autoptr (GtkShortcut) one = g_list_model_get_item (G_LIST_MODEL (controller), k);

          if (gtk_shortcut_trigger_equal (gtk_shortcut_get_trigger (one), wanted))
            return gtk_shortcut_action_activate (gtk_shortcut_get_action (one), 0, widget, gtk_shortcut_get_arguments (one));
        }
    }
  return FALSE;
}

gboolean
hand_press (GtkWidget *widget, guint keyval)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (widget);
  gboolean taken = FALSE;

  for (guint i = 0; !taken && i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (all, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0, 0, &taken);
    }
  return taken;
}

void
hand_choose (Hand *hand, const char *path, const char *value)
{
  RwFieldRow *row = rw_particulars_find (hand->window->particulars, path);
  const RwField *field;
  guint index = 0;

  g_assert_nonnull (row);
  field = rw_field_row_get_field (row);
  for (guint i = 0; *value != '\0' && field->words[i] != NULL; i++)
    if (g_str_equal (field->words[i], value))
      index = i + 1;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (rw_field_row_get_control (row)), index);
  hand_settle ();
}

char *
hand_findings (Hand *hand)
{
  const RwFindings *findings = rw_document_findings (hand->window->document);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rw_findings_n (findings); i++)
    if (rw_findings_get (findings, i)->severity != RW_SEVERITY_NOTE)
      g_string_append_printf (text, text->len > 0 ? " %s" : "%s", rw_findings_get (findings, i)->rule->code);
  return g_string_free (text, FALSE);
}

void
hand_assert_findings (Hand *hand, const char *expected)
{
  g_autofree char *found = hand_findings (hand);

  g_assert_cmpstr (found, ==, expected);
}

RwFinding *
hand_find (Hand *hand, const char *code)
{
  const RwFindings *findings = rw_document_findings (hand->window->document);

  for (guint i = 0; i < rw_findings_n (findings); i++)
    if (g_str_equal (rw_findings_get (findings, i)->rule->code, code))
      return rw_findings_get (findings, i);
  return NULL;
}

static RwPoint
port_place (Hand *hand, const char *device, const char *port)
{
  guint index = rw_net_find_port (rw_document_net (hand->window->document), device, port);
  RwRect tab;

  g_assert_cmpuint (index, !=, RW_NONE);
  tab = rw_scene_port (rw_document_scene (hand->window->document), index)->tab;
  return rw_canvas_from_sheet (hand->window->canvas, (RwPoint) { tab.x + tab.w / 2, tab.y + tab.h / 2 });
}

void
hand_draw_to (Hand *hand, const char *from_device, const char *from_port, const char *to_device, const char *to_port)
{
  RwPoint from = port_place (hand, from_device, from_port);
  RwPoint to = port_place (hand, to_device, to_port);

  rw_canvas_press (hand->window->canvas, GDK_BUTTON_PRIMARY, 1, from.x, from.y, 0);
  for (int i = 1; i <= 8; i++)
    rw_canvas_motion (hand->window->canvas, from.x + (to.x - from.x) * i / 8, from.y + (to.y - from.y) * i / 8,
                      GDK_BUTTON1_MASK);
}

void
hand_let_go (Hand *hand, const char *device, const char *port)
{
  RwPoint at = port_place (hand, device, port);

  rw_canvas_release (hand->window->canvas, GDK_BUTTON_PRIMARY, at.x, at.y, GDK_BUTTON1_MASK);
  hand_settle ();
}

static gboolean
has_label (GtkWidget *widget, const char *label)
{
  const char *text = GTK_IS_BUTTON (widget) ? gtk_button_get_label (GTK_BUTTON (widget)) : NULL;
  g_auto (GStrv) pieces = text != NULL ? g_strsplit (text, "_", 2) : NULL;
  g_autofree char *plain = pieces != NULL ? g_strjoinv ("", pieces) : NULL;

  return g_strcmp0 (plain, label) == 0 && gtk_widget_get_mapped (widget);
}

static GtkWidget *
find_below (GtkWidget *widget, const char *label)
{
  if (has_label (widget, label))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_below (child, label);
      if (found != NULL)
        return found;
    }
  return NULL;
}

GtkWidget *
hand_find_button (const char *label)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);
      GtkWidget *found = find_below (window, label);
      if (found != NULL)
        return found;
    }
  return NULL;
}

void
hand_click (const char *label)
{
  GtkWidget *button = hand_find_button (label);

  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
  hand_settle ();
}

gboolean
hand_says (GtkWidget *widget, const char *text)
{
  if (GTK_IS_LABEL (widget) && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (hand_says (child, text))
      return TRUE;
  return FALSE;
}

static gboolean
widget_takes (GtkWidget *widget, GtkPropagationPhase phase, guint keyval, GdkModifierType state)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (widget);
  g_autofree char *keys = gtk_accelerator_name (keyval, state);
  gboolean taken = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (all) && !taken; i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (all, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller) && gtk_event_controller_get_propagation_phase (controller) == phase)
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0, state, &taken);
    }
  return taken || (phase == GTK_PHASE_BUBBLE && hand_press_keys (widget, keys));
}

gboolean
hand_key (Hand *hand, guint keyval, GdkModifierType state)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (hand->window));
  g_autoptr (GPtrArray) way = g_ptr_array_new_with_free_func (g_object_unref);
  gboolean taken = FALSE;

  for (GtkWidget *w = focus != NULL ? focus : GTK_WIDGET (hand->window); w != NULL; w = gtk_widget_get_parent (w))
    g_ptr_array_add (way, g_object_ref (w));
  for (guint i = way->len; i-- > 0 && !taken;)
    taken = widget_takes (way->pdata[i], GTK_PHASE_CAPTURE, keyval, state);
  for (guint i = 0; i < way->len && !taken; i++)
    taken = widget_takes (way->pdata[i], GTK_PHASE_BUBBLE, keyval, state);
  hand_settle ();
  return taken;
}

void
hand_press_on (GtkWidget *widget)
{
  g_autoptr (GListModel) all = gtk_widget_observe_controllers (widget);

  if (gtk_widget_get_parent (widget) != NULL)
    hand_press_on (gtk_widget_get_parent (widget));
  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (all, i);

      if (GTK_IS_GESTURE_CLICK (controller)
          && gtk_event_controller_get_propagation_phase (controller) == GTK_PHASE_CAPTURE)
        g_signal_emit_by_name (controller, "pressed", 1, 0.0, 0.0);
    }
}
