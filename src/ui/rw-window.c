/* SPDX-License-Identifier: MIT */
#include "rw-window-private.h"

#include <glib/gi18n-lib.h>
#include "rw-application.h"

G_DEFINE_FINAL_TYPE (RwWindow, rw_window, GTK_TYPE_APPLICATION_WINDOW)

enum { PROP_TOOL = 1, PROP_VIEW, PROP_SHELF_SHOWN, PROP_SIDE_SHOWN, PROP_LINES_SHOWN, PROP_BALLOONS, PROP_DARK_SHEET, PROP_LENS, PROP_LEGEND, PROP_PATH, N_PROPS };
static GParamSpec *props[N_PROPS];

/* By RwToolKind; the tools that a person chooses. */
static const char *const tool_words[] = {
  [RW_TOOL_SELECT] = "select",
  [RW_TOOL_THREAD] = "thread",
  [RW_TOOL_PAN] = "pan",
};

RwDocument *
rw_window_get_document (RwWindow *window)
{
  g_return_val_if_fail (RW_IS_WINDOW (window), NULL);
  return window->document;
}

gboolean
rw_window_is_idle (RwWindow *window)
{
  g_return_val_if_fail (RW_IS_WINDOW (window), FALSE);
  return rw_document_is_blank (window->document) && !rw_document_is_dirty (window->document) && !window->asking;
}

gboolean
rw_window_get_dark_sheet (RwWindow *window)
{
  gboolean dark;

  g_return_val_if_fail (RW_IS_WINDOW (window), FALSE);
  g_object_get (window->canvas, "dark-sheet", &dark, NULL);
  return dark;
}

void
rw_window_show_message (RwWindow *window, const char *text)
{
  g_return_if_fail (RW_IS_WINDOW (window));
  gtk_label_set_text (GTK_LABEL (window->message_label), text != NULL ? text : "");
  gtk_revealer_set_reveal_child (GTK_REVEALER (window->message_revealer), text != NULL);
}

static void
message_closed (GtkButton *button, gpointer user_data)
{
  rw_window_show_message (user_data, NULL);
}

static void
document_changed (RwDocument *document, guint what, RwChange *change, gpointer user_data)
{
  RwWindow *window = user_data;

  if (change != NULL)
    rw_window_journal_changed (window, change);
  /* The sheet forgets a finding when findings are made anew; the list knows where it went. */
  rw_canvas_set_finding (window->canvas, rw_findings_view_get_selected (window->findings));
  if (rw_canvas_lens (window->canvas) == RW_LENS_FAILURE)
    rw_window_lens_failure_changed (window);
  rw_window_update_title (window);
  rw_window_update_actions (window);
  rw_window_queue_status (window);
}

static void
document_notify (GObject *document, GParamSpec *pspec, gpointer user_data)
{
  rw_window_update_title (user_data);
  rw_window_update_history (user_data);
  rw_window_update_actions (user_data);
}

static void
selection_changed (RwSelection *selection, gpointer user_data)
{
  rw_window_update_actions (user_data);
  rw_window_queue_status (user_data);
}

static void
finding_selected (RwFindingsView *view, GParamSpec *pspec, gpointer user_data)
{
  RwWindow *window = user_data;
  int index = rw_findings_view_get_selected (view);
  RwFinding *finding;

  rw_canvas_set_finding (window->canvas, index);
  rw_window_update_actions (window);
  rw_window_queue_status (window);
  if (index < 0)
    return;
  finding = rw_findings_get (rw_document_findings (window->document), (guint) index);
  if (finding->devices[0] != NULL)
    rw_canvas_reveal (window->canvas, finding->devices[0]);
  else if (finding->cables[0] != NULL)
    rw_canvas_reveal (window->canvas, finding->cables[0]);
}

static void
fix_asked (RwFindingsView *view, const char *code, RwChange *change, gpointer user_data)
{
  RwWindow *window = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (RwChange) held = rw_change_ref (change);

  if (!rw_document_do (window->document, held, &error))
    rw_window_show_message (window, error->message);
}

static void
part_inserted (RwShelf *shelf, gpointer part, gpointer user_data)
{
  RwWindow *window = user_data;

  rw_canvas_insert_part (window->canvas, part);
}

static void
thing_picked (GtkWidget *from, const char *key, gpointer user_data)
{
  RwWindow *window = user_data;

  rw_selection_set (rw_document_selection (window->document), key);
  rw_window_reveal (window, key);
}

static void
find_closed (RwFindBar *bar, gpointer user_data)
{
  gtk_widget_grab_focus (GTK_WIDGET (((RwWindow *) user_data)->canvas));
}

static gboolean
files_dropped (GtkDropTarget *target, const GValue *value, double x, double y, gpointer user_data)
{
  rw_window_open_files (user_data, gdk_file_list_get_files (g_value_get_boxed (value)));
  return TRUE;
}

static void
close_now (RwWindow *window, gpointer data)
{
  window->closing = TRUE;
  gtk_window_close (GTK_WINDOW (window));
}

static void
remember_size (RwWindow *window)
{
  RwApplication *application = RW_APPLICATION (gtk_window_get_application (GTK_WINDOW (window)));
  int width, height;

  if (application == NULL || rw_application_get_settings (application) == NULL)
    return;
  gtk_window_get_default_size (GTK_WINDOW (window), &width, &height);
  rw_settings_set_integer (rw_application_get_settings (application), "width", width);
  rw_settings_set_integer (rw_application_get_settings (application), "height", height);
  rw_settings_set_integer (rw_application_get_settings (application), "lines-height", rw_window_lines_height (window));
  rw_settings_set_boolean (rw_application_get_settings (application), "maximised",
                           gtk_window_is_maximized (GTK_WINDOW (window)));
  rw_settings_set_boolean (rw_application_get_settings (application), "dark-sheet",
                           rw_window_get_dark_sheet (window));
  rw_application_save_settings (application);
}

static gboolean
rw_window_close_request (GtkWindow *gtk_window)
{
  RwWindow *window = RW_WINDOW (gtk_window);

  /* Once: what was not taken is told, and the field is there to type it again. */
  if (!window->closing && !rw_particulars_settle (window->particulars))
    return TRUE;
  if (!window->closing && (!rw_line_view_settle (window->lines) || rw_document_is_dirty (window->document)))
    {
      rw_window_ask_unsaved (window, close_now, NULL);
      return TRUE;
    }
  remember_size (window);
  rw_window_journal_close (window);
  return GTK_WINDOW_CLASS (rw_window_parent_class)->close_request (gtk_window);
}

static void
set_shown (GtkWidget *paned_child, gboolean shown)
{
  gtk_widget_set_visible (paned_child, shown);
}

static void
set_view (RwWindow *window, const char *name)
{
  if (gtk_stack_get_child_by_name (GTK_STACK (window->side_stack), name) == NULL)
    return;
  gtk_stack_set_visible_child_name (GTK_STACK (window->side_stack), name);
  gtk_label_set_text (GTK_LABEL (window->side_title),
                      g_str_equal (name, "list") ? _("Everything drawn") : _("Particulars"));
}

static void
set_tool (RwWindow *window, const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (tool_words); i++)
    if (g_strcmp0 (tool_words[i], name) == 0)
      rw_canvas_set_tool (window->canvas, i);
}

static void
rw_window_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  RwWindow *window = RW_WINDOW (object);

  switch (id)
    {
    case PROP_TOOL:
      set_tool (window, g_value_get_string (value));
      break;
    case PROP_VIEW:
      set_view (window, g_value_get_string (value));
      break;
    case PROP_SHELF_SHOWN:
      set_shown (GTK_WIDGET (window->shelf), g_value_get_boolean (value));
      break;
    case PROP_SIDE_SHOWN:
      set_shown (window->findings_paned, g_value_get_boolean (value));
      break;
    case PROP_LINES_SHOWN:
      rw_window_lines_show (window, g_value_get_boolean (value));
      break;
    case PROP_BALLOONS:
    case PROP_DARK_SHEET:
    case PROP_LENS:
    case PROP_LEGEND:
    case PROP_PATH:
      g_object_set_property (G_OBJECT (window->canvas), pspec->name, value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
rw_window_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  RwWindow *window = RW_WINDOW (object);
  RwToolKind tool;

  /* Buttons of the template ask for the state of their actions before all of the window is there. */
  if (window->canvas == NULL)
    {
      g_param_value_set_default (pspec, value);
      return;
    }
  switch (id)
    {
    case PROP_TOOL:
      tool = rw_canvas_tool (window->canvas);
      g_value_set_string (value, tool < G_N_ELEMENTS (tool_words) && tool_words[tool] != NULL
                                   ? tool_words[tool] : tool_words[RW_TOOL_SELECT]);
      break;
    case PROP_VIEW:
      g_value_set_string (value, gtk_stack_get_visible_child_name (GTK_STACK (window->side_stack)));
      break;
    case PROP_SHELF_SHOWN:
      g_value_set_boolean (value, gtk_widget_get_visible (GTK_WIDGET (window->shelf)));
      break;
    case PROP_SIDE_SHOWN:
      g_value_set_boolean (value, gtk_widget_get_visible (window->findings_paned));
      break;
    case PROP_LINES_SHOWN:
      g_value_set_boolean (value, gtk_widget_get_visible (GTK_WIDGET (window->lines)));
      break;
    case PROP_BALLOONS:
    case PROP_DARK_SHEET:
    case PROP_LENS:
    case PROP_LEGEND:
    case PROP_PATH:
      g_object_get_property (G_OBJECT (window->canvas), pspec->name, value);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
let_document_go (RwWindow *window)
{
  if (window->document == NULL)
    return;
  g_signal_handlers_disconnect_by_data (rw_document_selection (window->document), window);
  g_signal_handlers_disconnect_by_data (window->document, window);
  g_clear_object (&window->document);
}

/* Shows @document instead of what was open; its journal is the caller's business. */
void
rw_window_set_document (RwWindow *window, RwDocument *document)
{
  g_autoptr (RwDocument) held = g_object_ref (document);

  rw_window_journal_close (window);
  rw_findings_view_select (window->findings, -1);
  let_document_go (window);
  window->document = g_steal_pointer (&held);
  rw_canvas_set_document (window->canvas, document);
  rw_particulars_set_document (window->particulars, document);
  rw_thing_list_set_document (window->things, document);
  rw_findings_view_set_document (window->findings, document);
  rw_find_bar_set_document (window->find_bar, document);
  rw_line_view_set_document (window->lines, document);
  g_signal_connect (document, "changed", G_CALLBACK (document_changed), window);
  g_signal_connect (document, "notify", G_CALLBACK (document_notify), window);
  g_signal_connect (rw_document_selection (document), "changed", G_CALLBACK (selection_changed), window);
  rw_window_update_title (window);
  rw_window_update_history (window);
  rw_window_update_actions (window);
  rw_window_queue_status (window);
  gtk_window_set_focus (GTK_WINDOW (window), GTK_WIDGET (window->canvas)); /* a key is for what was opened */
}

static void
add_canvas (RwWindow *window)
{
  g_autoptr (RwDocument) document = rw_document_new ();

  window->canvas = RW_CANVAS (rw_canvas_new (document));
  gtk_widget_set_vexpand (GTK_WIDGET (window->canvas), TRUE);
  gtk_widget_set_hexpand (GTK_WIDGET (window->canvas), TRUE);
  gtk_box_append (GTK_BOX (window->sheet_box), GTK_WIDGET (window->canvas));
  rw_window_connect_canvas (window);
  rw_window_set_document (window, document);
}

static void
connect_panels (RwWindow *window)
{
  g_signal_connect (window->shelf, "insert", G_CALLBACK (part_inserted), window);
  g_signal_connect (window->particulars, "picked", G_CALLBACK (thing_picked), window);
  g_signal_connect (window->things, "picked", G_CALLBACK (thing_picked), window);
  g_signal_connect (window->failure, "picked", G_CALLBACK (thing_picked), window);
  g_signal_connect (window->find_bar, "found", G_CALLBACK (thing_picked), window);
  g_signal_connect (window->find_bar, "closed", G_CALLBACK (find_closed), window);
  g_signal_connect (window->findings, "notify::selected", G_CALLBACK (finding_selected), window);
  g_signal_connect (window->findings, "fix", G_CALLBACK (fix_asked), window);
  g_signal_connect (window->message_close, "clicked", G_CALLBACK (message_closed), window);
}

static void
accept_files (RwWindow *window)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  g_signal_connect (target, "drop", G_CALLBACK (files_dropped), window);
  gtk_widget_add_controller (GTK_WIDGET (window), GTK_EVENT_CONTROLLER (target));
}

static void
add_shortcuts_window (RwWindow *window)
{
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource ("/org/rigwright/Rigwright/rw-shortcuts.ui");

  gtk_application_window_set_help_overlay (
    GTK_APPLICATION_WINDOW (window), GTK_SHORTCUTS_WINDOW (gtk_builder_get_object (builder, "shortcuts")));
}

RwWindow *
rw_window_new (GtkApplication *application)
{
  RwWindow *window = g_object_new (RW_TYPE_WINDOW, "application", application, NULL);
  RwSettings *settings = rw_application_get_settings (RW_APPLICATION (application));

  gtk_window_set_default_size (GTK_WINDOW (window), rw_settings_get_integer (settings, "width", 1280, 600, 16384),
                               rw_settings_get_integer (settings, "height", 800, 400, 16384));
  if (rw_settings_get_boolean (settings, "maximised", FALSE))
    gtk_window_maximize (GTK_WINDOW (window));
  window->lines_height = rw_settings_get_integer (settings, "lines-height", 0, 0, 16384);
  g_object_set (window, "dark-sheet", rw_settings_get_boolean (settings, "dark-sheet", FALSE), NULL);
  rw_shelf_set_catalogue (window->shelf, rw_application_get_catalogue (RW_APPLICATION (application)));
  if (rw_application_get_catalogue_error (RW_APPLICATION (application)) != NULL)
    rw_window_show_message (window, rw_application_get_catalogue_error (RW_APPLICATION (application)));
  rw_application_fill_recent (RW_APPLICATION (application), window->recent_submenu);
  return window;
}

static void
rw_window_dispose (GObject *object)
{
  RwWindow *window = RW_WINDOW (object);

  g_clear_handle_id (&window->status_idle, g_source_remove);
  g_clear_handle_id (&window->would_be_idle, g_source_remove);
  g_clear_handle_id (&window->told_timer, g_source_remove);
  g_clear_pointer (&window->told, g_free);
  g_clear_pointer (&window->report, rw_report_free);
  g_clear_pointer (&window->context_menu, gtk_widget_unparent);
  if (window->document != NULL)
    {
      g_signal_handlers_disconnect_by_data (window->canvas, window);
      g_signal_handlers_disconnect_by_data (window->findings, window);
    }
  let_document_go (window);
  rw_window_journal_close (window);
  g_clear_pointer (&window->answer_path, g_free);
  g_clear_weak_pointer (&window->export_dialog);
  g_clear_weak_pointer (&window->import_dialog);
  g_clear_weak_pointer (&window->papers_dialog);
  g_clear_weak_pointer (&window->sets_dialog);
  g_clear_weak_pointer (&window->revisions);
  G_OBJECT_CLASS (rw_window_parent_class)->dispose (object);
}

static void
install_properties (GObjectClass *klass)
{
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  props[PROP_TOOL] = g_param_spec_string ("tool", NULL, NULL, "select", flags);
  props[PROP_VIEW] = g_param_spec_string ("view", NULL, NULL, "fields", flags);
  props[PROP_SHELF_SHOWN] = g_param_spec_boolean ("shelf-shown", NULL, NULL, TRUE, flags);
  props[PROP_SIDE_SHOWN] = g_param_spec_boolean ("side-shown", NULL, NULL, TRUE, flags);
  props[PROP_LINES_SHOWN] = g_param_spec_boolean ("lines-shown", NULL, NULL, FALSE, flags);
  props[PROP_BALLOONS] = g_param_spec_boolean ("balloons", NULL, NULL, TRUE, flags);
  props[PROP_LENS] = g_param_spec_string ("lens", NULL, NULL, "wiring", flags);
  props[PROP_PATH] = g_param_spec_boolean ("path", NULL, NULL, FALSE, flags);
  props[PROP_LEGEND] = g_param_spec_boolean ("legend", NULL, NULL, TRUE, flags);
  props[PROP_DARK_SHEET] = g_param_spec_boolean ("dark-sheet", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (klass, N_PROPS, props);
}

static void
bind_children (GtkWidgetClass *klass)
{
#define BIND(name) gtk_widget_class_bind_template_child (klass, RwWindow, name)
  BIND (shelf);
  BIND (particulars);
  BIND (things);
  BIND (findings);
  BIND (findings_stack);
  BIND (failure);
  BIND (find_bar);
  BIND (lines);
  BIND (header_bar);
  BIND (menu_bar);
  BIND (title_label);
  BIND (subtitle_label);
  BIND (undo_button);
  BIND (redo_button);
  BIND (message_revealer);
  BIND (message_label);
  BIND (message_close);
  BIND (shelf_paned);
  BIND (side_paned);
  BIND (findings_paned);
  BIND (lines_paned);
  BIND (sheet_box);
  BIND (side_title);
  BIND (side_stack);
  BIND (foot);
  BIND (status_label);
  BIND (zoom_label);
  BIND (history_slot);
  BIND (recent_submenu);
  BIND (sheet_menu);
#undef BIND
}

static void
rw_window_class_init (RwWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = rw_window_dispose;
  object_class->set_property = rw_window_set_property;
  object_class->get_property = rw_window_get_property;
  GTK_WINDOW_CLASS (klass)->close_request = rw_window_close_request;
  install_properties (object_class);
  g_type_ensure (RW_TYPE_SHELF);
  g_type_ensure (RW_TYPE_PARTICULARS);
  g_type_ensure (RW_TYPE_THING_LIST);
  g_type_ensure (RW_TYPE_FINDINGS_VIEW);
  g_type_ensure (RW_TYPE_FAILURE_VIEW);
  g_type_ensure (RW_TYPE_FIND_BAR);
  g_type_ensure (RW_TYPE_LINE_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/rigwright/Rigwright/rw-window.ui");
  bind_children (widget_class);
  rw_window_class_install_actions (widget_class);
}

static void
rw_window_init (RwWindow *window)
{
  const char *report = g_getenv ("RIGWRIGHT_TEST_REPORT");
  g_autoptr (GtkWindowGroup) group = gtk_window_group_new ();

  gtk_widget_init_template (GTK_WIDGET (window));
  /* A question over one rig must not hold up the others: what is modal is so within its group. */
  gtk_window_group_add_window (group, GTK_WINDOW (window));
  add_canvas (window);
  connect_panels (window);
  rw_window_lines_init (window);
  rw_window_lens_init (window);
  accept_files (window);
  add_shortcuts_window (window);
  rw_window_add_shortcuts (window);
  rw_window_watch_hands (window);
  for (guint i = 1; i < N_PROPS; i++)
    g_object_notify_by_pspec (G_OBJECT (window), props[i]);
  if (report != NULL)
    window->report = rw_report_new (report, window);
}
