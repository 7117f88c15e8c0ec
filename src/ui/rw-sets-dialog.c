/* SPDX-License-Identifier: MIT */
#include "rw-sets-dialog.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-edit.h>
#include <rig/rw-line.h>
#include <rig/rw-scope.h>
#include <string.h>

#include "rw-words.h"

struct _RwSetsDialog
{
  GtkWindow parent_instance;
  RwDocument *document;
  GPtrArray *consoles; /* of char *, ids; by row of the drop-down from 1 */
  GtkWidget *name, *scope, *console, *store;
  GtkWidget *list, *stack, *title, *about, *pane, *recall, *problem;
  char *shown;         /* (nullable): id of the set that is shown */
  gulong document_changed;
  gboolean busy;
};

G_DEFINE_FINAL_TYPE (RwSetsDialog, rw_sets_dialog, GTK_TYPE_WINDOW)

static RwRig *
rig_of (RwSetsDialog *dialog)
{
  return rw_document_rig (dialog->document);
}

const RwPatchSet *
rw_sets_dialog_get_set (RwSetsDialog *dialog)
{
  RwItem *item = rw_rig_find (rig_of (dialog), dialog->shown);

  return item != NULL && item->type == RW_ITEM_SET ? (const RwPatchSet *) item : NULL;
}

RwRecallPane *
rw_sets_dialog_get_pane (RwSetsDialog *dialog)
{
  return RW_RECALL_PANE (dialog->pane);
}

const char *
rw_sets_dialog_get_problem (RwSetsDialog *dialog)
{
  return gtk_label_get_text (GTK_LABEL (dialog->problem));
}

static void
set_problem (RwSetsDialog *dialog, const char *text)
{
  gtk_label_set_text (GTK_LABEL (dialog->problem), text != NULL ? text : "");
}

static gboolean
refuse (RwSetsDialog *dialog, const char *text)
{
  set_problem (dialog, text);
  return FALSE;
}

/* --- What is shown --- */

static void
show_set (RwSetsDialog *dialog)
{
  const RwPatchSet *set = rw_sets_dialog_get_set (dialog);
  g_autofree char *about = set != NULL ? rw_words_set (set) : g_strdup ("");

  dialog->busy = TRUE;
  gtk_stack_set_visible_child_name (GTK_STACK (dialog->stack), set != NULL ? "set" : "none");
  gtk_editable_set_text (GTK_EDITABLE (dialog->title), set != NULL ? rw_set_title (set) : "");
  gtk_label_set_text (GTK_LABEL (dialog->about), about);
  dialog->busy = FALSE;
  rw_recall_pane_show (RW_RECALL_PANE (dialog->pane), rig_of (dialog), set);
}

static GtkWidget *
make_text (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
add_row (RwSetsDialog *dialog, const RwPatchSet *set)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  g_autofree char *about = rw_words_set (set);

  gtk_widget_set_tooltip_text (row, rw_set_title (set));
  gtk_box_append (GTK_BOX (row), make_text (rw_set_title (set), "rw-panel-title"));
  gtk_box_append (GTK_BOX (row), make_text (about, "rw-small"));
  gtk_list_box_append (GTK_LIST_BOX (dialog->list), row);
}

/* The list anew; the set that was shown stays, else the last one is. */
static void
refresh (RwSetsDialog *dialog)
{
  RwRig *rig = rig_of (dialog);
  guint n = rw_rig_n (rig, RW_ITEM_SET);
  GtkListBoxRow *row;
  int index;

  dialog->busy = TRUE;
  while ((row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (dialog->list), 0)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (dialog->list), GTK_WIDGET (row));
  for (guint i = 0; i < n; i++)
    add_row (dialog, (const RwPatchSet *) rw_rig_items (rig, RW_ITEM_SET)[i]);
  if (rw_sets_dialog_get_set (dialog) == NULL)
    {
      g_free (dialog->shown);
      dialog->shown = g_strdup (rw_rig_last (rig, RW_ITEM_SET));
    }
  index = rw_rig_index (rig, dialog->shown);
  if (index >= 0)
    gtk_list_box_select_row (GTK_LIST_BOX (dialog->list), gtk_list_box_get_row_at_index (GTK_LIST_BOX (dialog->list), index));
  dialog->busy = FALSE;
  show_set (dialog);
}

void
rw_sets_dialog_select (RwSetsDialog *dialog, guint index)
{
  g_return_if_fail (RW_IS_SETS_DIALOG (dialog) && index < rw_rig_n (rig_of (dialog), RW_ITEM_SET));
  g_free (dialog->shown);
  dialog->shown = g_strdup (rw_item_key (rw_rig_items (rig_of (dialog), RW_ITEM_SET)[index]));
  set_problem (dialog, NULL);
  show_set (dialog);
}

static void
row_selected (GtkListBox *list, GtkListBoxRow *row, gpointer user_data)
{
  RwSetsDialog *dialog = user_data;

  if (!dialog->busy && row != NULL)
    rw_sets_dialog_select (dialog, (guint) gtk_list_box_row_get_index (row));
}

static void
document_changed (RwDocument *document, guint what, RwChange *change, gpointer user_data)
{
  refresh (user_data);
}

static void
pane_changed (RwRecallPane *pane, gpointer user_data)
{
  RwChange *change = rw_recall_pane_get_change (pane);

  gtk_widget_set_sensitive (((RwSetsDialog *) user_data)->recall, change != NULL && rw_change_n (change) > 0);
}

/* --- Steps --- */

/* @edit: (transfer full) */
static gboolean
carry_out (RwSetsDialog *dialog, RwEdit *edit)
{
  g_autoptr (RwChange) change = rw_edit_finish (edit);
  g_autoptr (GError) error = NULL;

  set_problem (dialog, NULL);
  return rw_document_do (dialog->document, change, &error) || refuse (dialog, error->message);
}

/* Another set than @but has that name already. */
static gboolean
is_taken (RwSetsDialog *dialog, const char *name, const char *but)
{
  RwRig *rig = rig_of (dialog);

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_SET); i++)
    {
      const RwPatchSet *set = (const RwPatchSet *) rw_rig_items (rig, RW_ITEM_SET)[i];
      if (g_str_equal (rw_set_title (set), name) && g_strcmp0 (rw_item_key (set), but) != 0)
        return TRUE;
    }
  return FALSE;
}

static gboolean
store (RwSetsDialog *dialog, const char *text, RwScope scope, const char *console)
{
  g_autofree char *name = g_strstrip (g_strdup (text));
  g_autoptr (RwRig) state = NULL;
  g_autofree char *id = NULL;
  RwEdit *edit;

  if (*name == '\0')
    return refuse (dialog, _("Give the patch set a name first."));
  if (is_taken (dialog, name, NULL))
    return refuse (dialog, _("There is a patch set of that name: replace it, or choose another name."));
  state = rw_scope_gather (rig_of (dialog), scope, console);
  edit = rw_edit_new (rig_of (dialog), _("Store a Patch Set"));
  id = rw_edit_fresh_id (edit, "set");
  rw_edit_put (edit, rw_set_new (id, name, scope, console, NULL, state));
  g_free (dialog->shown);
  dialog->shown = g_strdup (id);
  return carry_out (dialog, edit);
}

gboolean
rw_sets_dialog_store (RwSetsDialog *dialog, const char *name, RwScope scope, const char *console)
{
  guint row = 0;

  g_return_val_if_fail (RW_IS_SETS_DIALOG (dialog), FALSE);
  for (guint i = 0; console != NULL && i < dialog->consoles->len; i++)
    if (g_str_equal (rw_device_title (rw_rig_device (rig_of (dialog), g_ptr_array_index (dialog->consoles, i))), console))
      row = i + 1;
  return store (dialog, name, scope, row > 0 ? g_ptr_array_index (dialog->consoles, row - 1) : NULL);
}

gboolean
rw_sets_dialog_rename (RwSetsDialog *dialog, const char *text)
{
  const RwPatchSet *set = rw_sets_dialog_get_set (dialog);
  g_autofree char *name = g_strstrip (g_strdup (text));
  RwEdit *edit;

  if (set == NULL || g_str_equal (name, rw_set_title (set)))
    return FALSE;
  if (*name == '\0')
    return refuse (dialog, _("Give the patch set a name first."));
  if (is_taken (dialog, name, rw_item_key (set)))
    return refuse (dialog, _("There is a patch set of that name: replace it, or choose another name."));
  edit = rw_edit_new (rig_of (dialog), _("Rename a Patch Set"));
  rw_edit_set (edit, rw_item_key (set), RW_SET_NAME, g_variant_new_string (name), NULL);
  return carry_out (dialog, edit);
}

gboolean
rw_sets_dialog_replace (RwSetsDialog *dialog)
{
  const RwPatchSet *set = rw_sets_dialog_get_set (dialog);
  const RwDevice *console = set != NULL ? rw_rig_device (rig_of (dialog), set->device) : NULL;
  g_autoptr (RwRig) state = NULL;
  RwEdit *edit;

  if (set == NULL)
    return FALSE;
  if (set->device != NULL && (console == NULL || !rw_device_is_console (rig_of (dialog), console)))
    return refuse (dialog, _("The console of this patch set is not in the rig any more: store another set."));
  state = rw_scope_gather (rig_of (dialog), set->scope, set->device);
  edit = rw_edit_new (rig_of (dialog), _("Replace a Patch Set"));
  rw_edit_put (edit, rw_set_with_state (set, state));
  return carry_out (dialog, edit);
}

gboolean
rw_sets_dialog_delete (RwSetsDialog *dialog)
{
  RwEdit *edit;

  if (rw_sets_dialog_get_set (dialog) == NULL)
    return FALSE;
  edit = rw_edit_new (rig_of (dialog), _("Delete a Patch Set"));
  rw_edit_remove (edit, dialog->shown);
  return carry_out (dialog, edit);
}

gboolean
rw_sets_dialog_recall (RwSetsDialog *dialog)
{
  g_autoptr (RwChange) change = NULL;
  g_autoptr (GError) error = NULL;

  g_return_val_if_fail (RW_IS_SETS_DIALOG (dialog), FALSE);
  if (rw_recall_pane_get_change (RW_RECALL_PANE (dialog->pane)) == NULL)
    return FALSE;
  change = rw_change_ref (rw_recall_pane_get_change (RW_RECALL_PANE (dialog->pane)));
  g_clear_signal_handler (&dialog->document_changed, dialog->document);
  if (!rw_document_do (dialog->document, change, &error))
    return refuse (dialog, error->message);
  gtk_window_close (GTK_WINDOW (dialog));
  return TRUE;
}

static void
store_clicked (GtkWidget *widget, gpointer user_data)
{
  RwSetsDialog *dialog = user_data;
  guint row = gtk_drop_down_get_selected (GTK_DROP_DOWN (dialog->console));
  const char *console = row >= 1 && row <= dialog->consoles->len ? g_ptr_array_index (dialog->consoles, row - 1) : NULL;

  if (store (dialog, gtk_editable_get_text (GTK_EDITABLE (dialog->name)),
             gtk_drop_down_get_selected (GTK_DROP_DOWN (dialog->scope)), console))
    gtk_editable_set_text (GTK_EDITABLE (dialog->name), "");
}

static void
title_meant (RwSetsDialog *dialog)
{
  if (!dialog->busy)
    rw_sets_dialog_rename (dialog, gtk_editable_get_text (GTK_EDITABLE (dialog->title)));
}

static void
title_left (GtkEventControllerFocus *focus, gpointer user_data)
{
  title_meant (user_data);
}

/* --- What it is made of --- */

static GtkWidget *
make_button (RwSetsDialog *dialog, const char *label, const char *tip, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  gtk_widget_set_tooltip_text (button, tip);
  g_signal_connect_swapped (button, "clicked", clicked, dialog);
  return button;
}

static void
add_consoles (RwSetsDialog *dialog, GtkStringList *titles)
{
  RwRig *rig = rig_of (dialog);

  gtk_string_list_append (titles, _("All consoles"));
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i];

      if (!rw_device_is_console (rig, device))
        continue;
      gtk_string_list_append (titles, rw_device_title (device));
      g_ptr_array_add (dialog->consoles, g_strdup (rw_item_key (device)));
    }
}

static GtkWidget *
name_for_readers (GtkWidget *widget, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return widget;
}

static GtkWidget *
make_scopes (RwScope scope)
{
  const char *const *labels = rw_set_table.fields[RW_SET_SCOPE].word_labels;
  GtkStringList *list = gtk_string_list_new (NULL);
  GtkWidget *drop;

  for (guint i = 0; labels[i] != NULL; i++)
    gtk_string_list_append (list, _(labels[i]));
  drop = gtk_drop_down_new (G_LIST_MODEL (list), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), scope);
  return name_for_readers (drop, _("Which lines"));
}

static GtkWidget *
make_store (RwSetsDialog *dialog, RwScope scope)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkStringList *titles = gtk_string_list_new (NULL);

  dialog->name = name_for_readers (gtk_entry_new (), _("Name of the patch set"));
  gtk_entry_set_placeholder_text (GTK_ENTRY (dialog->name), _("Name of the patch set"));
  g_signal_connect (dialog->name, "activate", G_CALLBACK (store_clicked), dialog);
  dialog->scope = make_scopes (scope);
  add_consoles (dialog, titles);
  dialog->console = name_for_readers (gtk_drop_down_new (G_LIST_MODEL (titles), NULL), _("Of which console"));
  dialog->store = gtk_button_new_with_mnemonic (_("_Store"));
  g_signal_connect (dialog->store, "clicked", G_CALLBACK (store_clicked), dialog);
  gtk_box_append (GTK_BOX (box), make_text (_("Store the present patch"), "rw-caption"));
  gtk_box_append (GTK_BOX (box), dialog->name);
  gtk_box_append (GTK_BOX (box), dialog->scope);
  gtk_box_append (GTK_BOX (box), dialog->console);
  gtk_box_append (GTK_BOX (box), dialog->store);
  return box;
}

static GtkWidget *
make_list (RwSetsDialog *dialog)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();
  GtkWidget *none = make_text (_("Nothing is stored yet"), "rw-small");

  gtk_label_set_xalign (GTK_LABEL (none), 0.5);
  gtk_widget_set_margin_top (none, 18);
  dialog->list = name_for_readers (gtk_list_box_new (), _("Patch sets"));
  gtk_widget_add_css_class (dialog->list, "rw-set-list");
  gtk_list_box_set_placeholder (GTK_LIST_BOX (dialog->list), none);
  g_signal_connect (dialog->list, "row-selected", G_CALLBACK (row_selected), dialog);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), dialog->list);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_vexpand (scroll, TRUE);
  return scroll;
}

static GtkWidget *
make_left (RwSetsDialog *dialog, RwScope scope)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_widget_set_size_request (box, 270, -1);
  gtk_box_append (GTK_BOX (box), make_store (dialog, scope));
  gtk_box_append (GTK_BOX (box), make_text (_("Stored"), "rw-caption"));
  gtk_box_append (GTK_BOX (box), make_list (dialog));
  return box;
}

static GtkWidget *
make_title (RwSetsDialog *dialog)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  dialog->title = name_for_readers (gtk_entry_new (), _("Name"));
  gtk_widget_set_hexpand (dialog->title, TRUE);
  g_signal_connect_swapped (dialog->title, "activate", G_CALLBACK (title_meant), dialog);
  g_signal_connect (focus, "leave", G_CALLBACK (title_left), dialog);
  gtk_widget_add_controller (dialog->title, focus);
  gtk_box_append (GTK_BOX (row), dialog->title);
  gtk_box_append (GTK_BOX (row), make_button (dialog, _("Re_place"), _("Store the present patch in its place"), G_CALLBACK (rw_sets_dialog_replace)));
  gtk_box_append (GTK_BOX (row), make_button (dialog, _("_Delete"), _("Take this set out of the file; the patch stays as it is"), G_CALLBACK (rw_sets_dialog_delete)));
  return row;
}

static GtkWidget *
make_set (RwSetsDialog *dialog)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);

  dialog->about = make_text ("", "rw-small");
  dialog->pane = rw_recall_pane_new ();
  gtk_widget_set_vexpand (dialog->pane, TRUE);
  g_signal_connect (dialog->pane, "changed", G_CALLBACK (pane_changed), dialog);
  gtk_box_append (GTK_BOX (box), make_title (dialog));
  gtk_box_append (GTK_BOX (box), dialog->about);
  gtk_box_append (GTK_BOX (box), dialog->pane);
  return box;
}

static GtkWidget *
make_none (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *text = gtk_label_new (_("A patch set keeps the patch, with the names, sources, gains and phantom power of its lines, in the rig file. "
                                     "Store one for each act, and recall it when its turn comes, onto other racks of the same kind, too."));

  gtk_label_set_wrap (GTK_LABEL (text), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (text), 46);
  gtk_widget_set_halign (text, GTK_ALIGN_CENTER);
  gtk_label_set_justify (GTK_LABEL (text), GTK_JUSTIFY_CENTER);
  gtk_widget_add_css_class (text, "dim-label");
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_vexpand (box, TRUE);
  gtk_box_append (GTK_BOX (box), text);
  return box;
}

static GtkWidget *
make_buttons (RwSetsDialog *dialog)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  dialog->problem = make_text ("", "rw-problem");
  gtk_label_set_wrap (GTK_LABEL (dialog->problem), TRUE);
  gtk_label_set_ellipsize (GTK_LABEL (dialog->problem), PANGO_ELLIPSIZE_NONE);
  gtk_widget_set_hexpand (dialog->problem, TRUE);
  dialog->recall = make_button (dialog, _("_Recall"), NULL, G_CALLBACK (rw_sets_dialog_recall));
  gtk_widget_add_css_class (dialog->recall, "suggested-action");
  gtk_box_append (GTK_BOX (row), dialog->problem);
  gtk_box_append (GTK_BOX (row), make_button (dialog, _("_Close"), NULL, G_CALLBACK (gtk_window_close)));
  gtk_box_append (GTK_BOX (row), dialog->recall);
  return row;
}

static void
make_content (RwSetsDialog *dialog, RwScope scope)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *both = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 18);
  GtkWidget *buttons = make_buttons (dialog);

  dialog->stack = gtk_stack_new ();
  gtk_stack_add_named (GTK_STACK (dialog->stack), make_none (), "none");
  gtk_stack_add_named (GTK_STACK (dialog->stack), make_set (dialog), "set");
  gtk_widget_set_hexpand (dialog->stack, TRUE);
  gtk_widget_set_vexpand (both, TRUE);
  gtk_box_append (GTK_BOX (both), make_left (dialog, scope));
  gtk_box_append (GTK_BOX (both), dialog->stack);
  gtk_widget_add_css_class (box, "rw-dialog-body");
  gtk_box_append (GTK_BOX (box), both);
  gtk_box_append (GTK_BOX (box), buttons);
  gtk_window_set_child (GTK_WINDOW (dialog), box);
}

/**
 * rw_sets_dialog_new:
 * @parent: the window that it stands over
 * @document: whose patch sets
 * @scope: what is offered to be stored first
 */
GtkWidget *
rw_sets_dialog_new (GtkWindow *parent, RwDocument *document, RwScope scope)
{
  RwSetsDialog *dialog = g_object_new (RW_TYPE_SETS_DIALOG, NULL);

  dialog->document = g_object_ref (document);
  gtk_window_set_title (GTK_WINDOW (dialog), _("Patch sets"));
  gtk_window_set_transient_for (GTK_WINDOW (dialog), parent);
  gtk_window_set_modal (GTK_WINDOW (dialog), TRUE);
  gtk_window_set_destroy_with_parent (GTK_WINDOW (dialog), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (dialog), 940, 620);
  make_content (dialog, scope);
  dialog->document_changed = g_signal_connect (document, "changed", G_CALLBACK (document_changed), dialog);
  refresh (dialog);
  return GTK_WIDGET (dialog);
}

static void
rw_sets_dialog_dispose (GObject *object)
{
  RwSetsDialog *dialog = RW_SETS_DIALOG (object);

  dialog->busy = TRUE; /* the keyboard leaves the fields while they go */
  if (dialog->document != NULL)
    g_clear_signal_handler (&dialog->document_changed, dialog->document);
  G_OBJECT_CLASS (rw_sets_dialog_parent_class)->dispose (object);
  g_clear_object (&dialog->document);
  g_clear_pointer (&dialog->consoles, g_ptr_array_unref);
  g_clear_pointer (&dialog->shown, g_free);
}

static gboolean
escaped (GtkWidget *widget, GVariant *arguments, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static void
rw_sets_dialog_class_init (RwSetsDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_sets_dialog_dispose;
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, escaped, NULL);
}

static void
rw_sets_dialog_init (RwSetsDialog *dialog)
{
  dialog->consoles = g_ptr_array_new_with_free_func (g_free);
}
