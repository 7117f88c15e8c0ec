/* SPDX-License-Identifier: MIT */
#include "rw-window-private.h"

#include <glib/gi18n-lib.h>

#include "rw-application.h"
#include "rw-whole-dialog.h"

typedef void (*WindowFunc) (RwWindow *window);

static void
do_save (RwWindow *window)
{
  rw_window_save (window, NULL, NULL);
}

static void
do_save_as (RwWindow *window)
{
  rw_window_save_as (window, NULL, NULL);
}

static void
do_print (RwWindow *window)
{
  rw_window_print_plan (window, NULL);
}

static void
do_undo (RwWindow *window)
{
  rw_document_undo (window->document);
}

static void
do_redo (RwWindow *window)
{
  rw_document_redo (window->document);
}

static void
do_cut (RwWindow *window)
{
  rw_canvas_cut (window->canvas);
}

static void
do_copy (RwWindow *window)
{
  rw_canvas_copy (window->canvas);
}

static void
do_paste (RwWindow *window)
{
  rw_canvas_paste (window->canvas);
}

static void
do_duplicate (RwWindow *window)
{
  rw_document_duplicate_selected (window->document);
}

static void
do_delete (RwWindow *window)
{
  rw_document_delete_selected (window->document);
}

static void
do_select_all (RwWindow *window)
{
  rw_document_select_all (window->document);
}

static void
do_find (RwWindow *window)
{
  rw_find_bar_open (window->find_bar);
}

static void
do_insert (RwWindow *window)
{
  g_object_set (window, "shelf-shown", TRUE, NULL);
  rw_shelf_focus_search (window->shelf);
}

static void
do_cable (RwWindow *window)
{
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
  rw_canvas_begin_cable (window->canvas);
}

static void
do_particulars (RwWindow *window)
{
  g_object_set (window, "side-shown", TRUE, "view", "fields", NULL);
  rw_particulars_focus_first (window->particulars);
}

static void
ask_whole (RwWindow *window, RwWholeKind kind)
{
  RwApplication *application = RW_APPLICATION (gtk_window_get_application (GTK_WINDOW (window)));
  RwRig *catalogue = application != NULL ? rw_application_get_catalogue (application) : NULL;

  gtk_window_present (GTK_WINDOW (rw_whole_dialog_new (GTK_WINDOW (window), window->document, catalogue, kind)));
}

static void
do_number (RwWindow *window)
{
  ask_whole (window, RW_WHOLE_NUMBER);
}

static void
do_label (RwWindow *window)
{
  ask_whole (window, RW_WHOLE_LABEL);
}

static void
do_address (RwWindow *window)
{
  ask_whole (window, RW_WHOLE_ADDRESS);
}

static void
do_chain (RwWindow *window)
{
  ask_whole (window, RW_WHOLE_CHAIN);
}

static void
do_redundant (RwWindow *window)
{
  ask_whole (window, RW_WHOLE_REDUNDANT);
}

static void
do_count_from (RwWindow *window)
{
  rw_canvas_set_lens (window->canvas, RW_LENS_HOPS, rw_selection_single (rw_document_selection (window->document)));
}

static void
do_zoom_in (RwWindow *window)
{
  rw_canvas_zoom_in (window->canvas);
}

static void
do_zoom_out (RwWindow *window)
{
  rw_canvas_zoom_out (window->canvas);
}

static void
do_zoom_actual (RwWindow *window)
{
  rw_canvas_zoom_actual (window->canvas);
}

static void
do_zoom_fit (RwWindow *window)
{
  rw_canvas_zoom_fit (window->canvas);
}

static void
do_next_finding (RwWindow *window)
{
  g_object_set (window, "side-shown", TRUE, NULL);
  rw_findings_view_step (window->findings, 1);
}

static void
do_previous_finding (RwWindow *window)
{
  g_object_set (window, "side-shown", TRUE, NULL);
  rw_findings_view_step (window->findings, -1);
}

static void
do_no_finding (RwWindow *window)
{
  rw_findings_view_select (window->findings, -1);
}

/* Back to drawing, from wherever the focus was, as in a menu that was left. */
static void
do_sheet (RwWindow *window)
{
  rw_findings_view_select (window->findings, -1);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
}

/* What must be true for an action to be offered. */
typedef enum
{
  NEEDS_NOTHING,
  NEEDS_SELECTION,
  NEEDS_SELECTED_DEVICE,
  NEEDS_ONE_DEVICE,
  NEEDS_DEVICES,
  NEEDS_FINDINGS,
  NEEDS_FINDING,
  NEEDS_UNDO,
  NEEDS_REDO,
  N_NEEDS,
} Needs;

static const struct { const char *name; WindowFunc run; Needs needs; } actions[] = {
  { "win.open", rw_window_open, NEEDS_NOTHING },
  { "win.save", do_save, NEEDS_NOTHING },
  { "win.save-as", do_save_as, NEEDS_NOTHING },
  { "win.export", rw_window_export, NEEDS_NOTHING },
  { "win.papers", rw_window_papers, NEEDS_NOTHING },
  { "win.print", do_print, NEEDS_DEVICES },
  { "win.issue", rw_window_issue, NEEDS_DEVICES },
  { "win.revisions", rw_window_revisions, NEEDS_NOTHING },
  { "win.examples", rw_window_show_examples, NEEDS_NOTHING },
  { "win.undo", do_undo, NEEDS_UNDO },
  { "win.redo", do_redo, NEEDS_REDO },
  { "win.cut", do_cut, NEEDS_SELECTED_DEVICE },
  { "win.copy", do_copy, NEEDS_SELECTED_DEVICE },
  { "win.paste", do_paste, NEEDS_NOTHING },
  { "win.duplicate", do_duplicate, NEEDS_SELECTED_DEVICE },
  { "win.delete", do_delete, NEEDS_SELECTION },
  { "win.select-all", do_select_all, NEEDS_DEVICES },
  { "win.find", do_find, NEEDS_NOTHING },
  { "win.insert", do_insert, NEEDS_NOTHING },
  { "win.cable", do_cable, NEEDS_ONE_DEVICE },
  { "win.patch-sets", rw_window_lines_show_sets, NEEDS_DEVICES },
  { "win.number", do_number, NEEDS_DEVICES },
  { "win.label", do_label, NEEDS_DEVICES },
  { "win.address", do_address, NEEDS_DEVICES },
  { "win.make-chain", do_chain, NEEDS_DEVICES },
  { "win.make-redundant", do_redundant, NEEDS_DEVICES },
  { "win.count-from", do_count_from, NEEDS_ONE_DEVICE },
  { "win.particulars", do_particulars, NEEDS_NOTHING },
  { "win.zoom-in", do_zoom_in, NEEDS_NOTHING },
  { "win.zoom-out", do_zoom_out, NEEDS_NOTHING },
  { "win.zoom-actual", do_zoom_actual, NEEDS_NOTHING },
  { "win.zoom-fit", do_zoom_fit, NEEDS_NOTHING },
  { "win.next-finding", do_next_finding, NEEDS_FINDINGS },
  { "win.previous-finding", do_previous_finding, NEEDS_FINDINGS },
  { "win.no-finding", do_no_finding, NEEDS_FINDING },
  { "win.sheet", do_sheet, NEEDS_NOTHING },
};

static const char *const property_actions[] = {
  "tool", "view", "shelf-shown", "side-shown", "lines-shown", "balloons", "dark-sheet", "lens", "legend", "path",
};

/* Keys that a focused entry must keep: they reach the window only when nobody below wanted them. */
static const struct { const char *trigger, *action; } window_keys[] = {
  { "<Control>z", "win.undo" },
  { "<Control><Shift>z", "win.redo" },
  { "<Control>y", "win.redo" },
  { "<Control>x", "win.cut" },
  { "<Control>c", "win.copy" },
  { "<Control>v", "win.paste" },
  { "<Control>d", "win.duplicate" },
  { "<Control>a", "win.select-all" },
  { "Delete", "win.delete" },
  { "F2", "win.lens::wiring" }, /* in the line list these two work on its cells */
  { "F4", "win.lens::hops" },
  { "<Control>l", "win.lines-shown" },
  { "Insert", "win.insert" },
  { "Escape", "win.sheet" },
  { "KP_Insert", "win.insert" },
  { "<Control>0", "win.zoom-fit" },
  { "<Control>1", "win.zoom-actual" },
  { "<Control>plus", "win.zoom-in" },
  { "<Control>equal", "win.zoom-in" },
  { "<Control>KP_Add", "win.zoom-in" },
  { "<Control>minus", "win.zoom-out" },
  { "<Control>KP_Subtract", "win.zoom-out" },
};

static void
activate (GtkWidget *widget, const char *name, GVariant *parameter)
{
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    if (g_str_equal (actions[i].name, name))
      actions[i].run (RW_WINDOW (widget));
}

/* For what is in the window and has something to say that outlasts it, but not the window. */
static void
warn (GtkWidget *widget, const char *name, GVariant *text)
{
  if (RW_WINDOW (widget)->document != NULL)
    rw_window_warn (RW_WINDOW (widget), g_variant_get_string (text, NULL));
}

void
rw_window_class_install_actions (GtkWidgetClass *klass)
{
  gtk_widget_class_install_action (klass, "win.warn", "s", warn);
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_class_install_action (klass, actions[i].name, NULL, activate);
  for (guint i = 0; i < G_N_ELEMENTS (property_actions); i++)
    {
      g_autofree char *name = g_strconcat ("win.", property_actions[i], NULL);
      gtk_widget_class_install_property_action (klass, name, property_actions[i]);
    }
}

/* @action: detailed, as "win.lens::hops" */
static void
add_key (GtkShortcutController *keys, const char *trigger, const char *action)
{
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;
  GtkShortcut *shortcut;

  if (!g_action_parse_detailed_name (action, &name, &target, NULL))
    g_return_if_reached ();
  shortcut = gtk_shortcut_new (gtk_shortcut_trigger_parse_string (trigger), gtk_named_action_new (name));
  gtk_shortcut_set_arguments (shortcut, target);
  gtk_shortcut_controller_add_shortcut (keys, shortcut);
}

void
rw_window_add_shortcuts (RwWindow *window)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_BUBBLE);
  for (guint i = 0; i < G_N_ELEMENTS (window_keys); i++)
    add_key (GTK_SHORTCUT_CONTROLLER (keys), window_keys[i].trigger, window_keys[i].action);
  gtk_widget_add_controller (GTK_WIDGET (window), keys);
}

static gboolean
one_device (RwWindow *window)
{
  const char *key = rw_selection_single (rw_document_selection (window->document));

  return key != NULL && rw_rig_device (rw_document_rig (window->document), key) != NULL;
}

static gboolean
some_device (RwWindow *window)
{
  g_autofree const char **keys = rw_selection_keys (rw_document_selection (window->document),
                                                    rw_document_rig (window->document), RW_ITEM_DEVICE);

  return keys[0] != NULL;
}

void
rw_window_update_actions (RwWindow *window)
{
  RwDocument *document = window->document;
  RwHistory *history = rw_document_history (document);
  gboolean has[N_NEEDS];

  has[NEEDS_NOTHING] = TRUE;
  has[NEEDS_SELECTION] = rw_selection_n (rw_document_selection (document)) > 0;
  has[NEEDS_SELECTED_DEVICE] = some_device (window);
  has[NEEDS_ONE_DEVICE] = one_device (window);
  has[NEEDS_DEVICES] = rw_rig_n (rw_document_rig (document), RW_ITEM_DEVICE) > 0;
  has[NEEDS_FINDINGS] = rw_findings_n (rw_document_findings (document)) > 0;
  has[NEEDS_FINDING] = rw_findings_view_get_selected (window->findings) >= 0;
  has[NEEDS_UNDO] = rw_history_undo_name (history) != NULL;
  has[NEEDS_REDO] = rw_history_redo_name (history) != NULL;
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_action_set_enabled (GTK_WIDGET (window), actions[i].name, has[actions[i].needs]);
}

/* @name says what would be done; the last two are its key for the menu and for a person. */
static void
show_step (RwWindow *window, GtkWidget *button, const char *name, const char *action, const char *accel,
           const char *keys)
{
  g_autofree char *tip = g_strdup_printf ("%s (%s)", name, keys);
  g_autoptr (GMenuItem) item = g_menu_item_new (name, action);

  g_menu_item_set_attribute (item, "accel", "s", accel);
  g_menu_append_item (window->history_slot, item);
  gtk_widget_set_tooltip_text (button, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* Says in the menu and on the buttons what would be undone and redone. */
void
rw_window_update_history (RwWindow *window)
{
  RwHistory *history = rw_document_history (window->document);
  const char *undo = rw_history_undo_name (history), *redo = rw_history_redo_name (history);
  /* Translators: %s is the name of an edit, as “Move 3 Devices”. */
  g_autofree char *undo_name = undo != NULL ? g_strdup_printf (_("Undo %s"), undo) : g_strdup (_("Undo"));
  /* Translators: %s is the name of an edit, as “Move 3 Devices”. */
  g_autofree char *redo_name = redo != NULL ? g_strdup_printf (_("Redo %s"), redo) : g_strdup (_("Redo"));

  g_menu_remove_all (window->history_slot);
  show_step (window, window->undo_button, undo_name, "win.undo", "<Control>z", _("Ctrl+Z"));
  show_step (window, window->redo_button, redo_name, "win.redo", "<Control><Shift>z", _("Ctrl+Shift+Z"));
}

/* Lets a person see the device or cable @key. */
void
rw_window_reveal (RwWindow *window, const char *key)
{
  rw_canvas_reveal (window->canvas, key);
}
