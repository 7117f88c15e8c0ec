/* SPDX-License-Identifier: MIT */
#include "rw-whole-dialog.h"

#include <glib/gi18n-lib.h>
#include <net/rw-address-plan.h>
#include <net/rw-number.h>
#include <net/rw-relabel.h>
#include <net/rw-rewire.h>
#include <string.h>

#include "rw-whole-cost.h"

#define MOST_LINES 500  /* of the preview: more nobody reads */
#define APART_MM 30.0   /* between the rig and new switches */

struct _RwWholeDialog
{
  GtkWindow parent_instance;
  RwDocument *document;
  RwWholeKind kind;
  GPtrArray *parts; /* of RwPart: the switches to choose from */
  GtkWidget *box, *order, *first, *keep, *only, *entry[2], *part[2]; /* those of other kinds are NULL */
  GtkWidget *preview, *problem, *apply;
  char *preview_text;
  RwChange *change; /* (nullable): what the button does */
  gulong document_changed;
};

G_DEFINE_FINAL_TYPE (RwWholeDialog, rw_whole_dialog, GTK_TYPE_WINDOW)

/* --- What would be done --- */

static gboolean
is_on (GtkWidget *check)
{
  return check != NULL && gtk_widget_get_sensitive (check) && gtk_check_button_get_active (GTK_CHECK_BUTTON (check));
}

static RwOrder
order_of (RwWholeDialog *dialog)
{
  return gtk_drop_down_get_selected (GTK_DROP_DOWN (dialog->order)) == 0 ? RW_ORDER_CHAIN : RW_ORDER_PLACE;
}

static int
first_of (RwWholeDialog *dialog)
{
  return gtk_spin_button_get_value_as_int (GTK_SPIN_BUTTON (dialog->first));
}

static const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

/* (transfer container) (nullable): the selected items of that type, where only these are meant. */
static const char **
chosen (RwWholeDialog *dialog, RwItemType type)
{
  if (!is_on (dialog->only))
    return NULL;
  return rw_selection_keys (rw_document_selection (dialog->document), rw_document_rig (dialog->document), type);
}

static RwChange *
make_numbers (RwWholeDialog *dialog, RwRewireCost *cost, GError **error)
{
  g_autofree const char **devices = chosen (dialog, RW_ITEM_DEVICE);
  RwNumberOptions options = { order_of (dialog), first_of (dialog), is_on (dialog->keep), devices };

  return rw_number_units (rw_document_rig (dialog->document), rw_document_net (dialog->document), &options, error);
}

static RwChange *
make_labels (RwWholeDialog *dialog, RwRewireCost *cost, GError **error)
{
  g_autofree const char **cables = chosen (dialog, RW_ITEM_CABLE);
  RwRelabelOptions options = { text_of (dialog->entry[0]), first_of (dialog), cables };

  return rw_relabel_cables (rw_document_rig (dialog->document), rw_document_net (dialog->document), &options, error);
}

static RwChange *
make_addresses (RwWholeDialog *dialog, RwRewireCost *cost, GError **error)
{
  RwAddressOptions options = { { text_of (dialog->entry[0]), text_of (dialog->entry[1]) }, is_on (dialog->keep),
                               order_of (dialog) };

  return rw_address_fill_in (rw_document_rig (dialog->document), rw_document_net (dialog->document), &options, error);
}

static RwChange *
make_chain (RwWholeDialog *dialog, RwRewireCost *cost, GError **error)
{
  return rw_rewire_chain (rw_document_rig (dialog->document), rw_document_net (dialog->document), cost, error);
}

static const RwPart *
part_of (RwWholeDialog *dialog, guint plane)
{
  guint index = gtk_drop_down_get_selected (GTK_DROP_DOWN (dialog->part[plane]));

  return index < dialog->parts->len ? g_ptr_array_index (dialog->parts, index) : NULL;
}

static double
on_grid (double mm)
{
  return RW_GRID_MM * (int) (mm / RW_GRID_MM);
}

/* The primary switches in a row under the rig, the secondary ones in a row below. */
static void
place_switches (RwWholeDialog *dialog, RwRewireSwitches *switches)
{
  RwRect all = rw_scene_bounds (rw_document_scene (dialog->document));
  double y = all.y + all.h + APART_MM;

  for (guint plane = 0; plane < 2; plane++)
    {
      RwRect box = rw_scene_part_box (switches->part[plane], switches->part[plane]->name);
      guint n = rw_rewire_n_switches (rw_document_net (dialog->document), switches->part[plane], plane);

      switches->step = MAX (switches->step, on_grid (box.w + APART_MM));
      switches->at[plane] = (RwPoint) { on_grid (MAX (0, all.x + (all.w - n * (box.w + APART_MM)) / 2)), on_grid (y) };
      y += box.h + APART_MM;
    }
}

static RwChange *
make_redundant (RwWholeDialog *dialog, RwRewireCost *cost, GError **error)
{
  RwRewireSwitches switches = { { part_of (dialog, 0), part_of (dialog, 1) }, { { 0, 0 }, { 0, 0 } }, 0 };

  if (switches.part[0] == NULL || switches.part[1] == NULL)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_FOUND, _("There is no switch to choose from"));
      return NULL;
    }
  place_switches (dialog, &switches);
  return rw_rewire_redundant (rw_document_rig (dialog->document), rw_document_net (dialog->document), &switches, cost,
                              error);
}

/* --- The preview --- */

static char *
unit_text (const RwItem *item)
{
  return rw_item_has (item, RW_DEVICE_UNIT_ID) ? g_strdup_printf ("%d", ((const RwDevice *) item)->unit_id) : g_strdup ("—");
}

static char *
label_text (const RwItem *item)
{
  const char *label = ((const RwCable *) item)->label;

  return g_strdup (label != NULL && *label != '\0' ? label : "—");
}

static char *
addresses_text (const RwItem *item)
{
  const RwAddresses *addresses = &((const RwDevice *) item)->addresses;
  const char *primary = addresses->primary, *secondary = addresses->secondary;

  if (primary == NULL && secondary == NULL)
    return g_strdup ("—");
  return g_strdup_printf ("%s%s%s", primary != NULL ? primary : "", primary != NULL && secondary != NULL ? ", " : "",
                          secondary != NULL ? secondary : "");
}

static char *
name_of (RwWholeDialog *dialog, const RwItem *item)
{
  const RwCable *cable = (const RwCable *) item;
  RwRig *rig = rw_document_rig (dialog->document);

  if (item->type == RW_ITEM_DEVICE)
    return g_strdup (rw_device_title ((const RwDevice *) item));
  return g_strdup_printf ("%s – %s", rw_device_title (rw_rig_device (rig, cable->from.device)),
                          rw_device_title (rw_rig_device (rig, cable->to.device)));
}

static char *
list_changes (RwWholeDialog *dialog, char *(*text) (const RwItem *))
{
  GString *list = g_string_new (NULL);

  for (guint i = 0; i < MIN (rw_change_n (dialog->change), MOST_LINES); i++)
    {
      const RwChangeEntry *entry = rw_change_entry (dialog->change, i);
      g_autofree char *name = name_of (dialog, entry->before), *before = text (entry->before), *after = text (entry->after);

      g_string_append_printf (list, "%s%s: %s → %s", i > 0 ? "\n" : "", name, before, after);
    }
  if (rw_change_n (dialog->change) > MOST_LINES)
    g_string_append (list, "\n…");
  if (list->len == 0)
    g_string_append (list, _("Everything is so already."));
  return g_string_free (list, FALSE);
}

/* One row a kind: what the window says, how the change is made, and what the preview tells of an item (NULL = the cost). */
static const struct
{
  const char *title, *intro;
  RwChange *(*make) (RwWholeDialog *dialog, RwRewireCost *cost, GError **error);
  char *(*text) (const RwItem *item);
} kinds[RW_N_WHOLE_KINDS] = {
  [RW_WHOLE_NUMBER] = { N_("Number the units"), N_("Gives racks, and what has a unit ID already, IDs in a row."), make_numbers, unit_text },
  [RW_WHOLE_LABEL] = { N_("Label the cables"), N_("Labels cables by a pattern, in the order in which they were drawn."), make_labels, label_text },
  [RW_WHOLE_ADDRESS] = { N_("Fill in addresses"), N_("Gives each device a private address in each network that it is in."), make_addresses, addresses_text },
  [RW_WHOLE_CHAIN] = { N_("Make this a chain"), N_("Cables all devices one after the other, in the order in which the sheet is read. The audio cables that are drawn now go, unless they are right already."), make_chain, NULL },
  [RW_WHOLE_REDUNDANT] = { N_("Make this redundant"), N_("Cables all primary ports to new switches and all secondary ports to others, as many as it takes. The audio cables that are drawn now go."), make_redundant, NULL },
};

static void
set_problem (RwWholeDialog *dialog, const char *text)
{
  gtk_label_set_text (GTK_LABEL (dialog->problem), text != NULL ? text : "");
  gtk_widget_set_visible (dialog->problem, text != NULL);
}

static void
tell_repeats (RwWholeDialog *dialog)
{
  guint n = rw_relabel_n_repeats (rw_document_rig (dialog->document), dialog->change);
  g_autofree char *text = n > 0 ? g_strdup_printf (ngettext ("%u cable would have a label that another has too",
                                                             "%u cables would have labels that others have too", n), n) : NULL;

  set_problem (dialog, text);
}

/* Every line after an empty one is the heading of a list. */
static void
show_preview (RwWholeDialog *dialog)
{
  PangoAttrList *attributes = pango_attr_list_new ();

  for (const char *at = strstr (dialog->preview_text, "\n\n"); at != NULL; at = strstr (at + 2, "\n\n"))
    {
      PangoAttribute *bold = pango_attr_weight_new (PANGO_WEIGHT_BOLD);

      bold->start_index = (guint) (at + 2 - dialog->preview_text);
      bold->end_index = bold->start_index + (guint) strcspn (at + 2, "\n");
      pango_attr_list_insert (attributes, bold);
    }
  gtk_label_set_text (GTK_LABEL (dialog->preview), dialog->preview_text);
  gtk_label_set_attributes (GTK_LABEL (dialog->preview), attributes);
  pango_attr_list_unref (attributes);
}

static void
update (RwWholeDialog *dialog)
{
  RwRewireCost cost = { 0 };
  g_autoptr (GError) error = NULL;

  if (dialog->apply == NULL) /* still being built */
    return;
  g_clear_pointer (&dialog->change, rw_change_unref);
  g_clear_pointer (&dialog->preview_text, g_free);
  dialog->change = kinds[dialog->kind].make (dialog, &cost, &error);
  set_problem (dialog, error != NULL ? error->message : NULL);
  if (dialog->change == NULL)
    dialog->preview_text = g_strdup ("");
  else if (kinds[dialog->kind].text != NULL)
    dialog->preview_text = list_changes (dialog, kinds[dialog->kind].text);
  else
    dialog->preview_text = rw_whole_cost_text (rw_document_rig (dialog->document), dialog->change, &cost);
  if (dialog->change != NULL && dialog->kind == RW_WHOLE_LABEL)
    tell_repeats (dialog);
  show_preview (dialog);
  gtk_widget_set_sensitive (dialog->apply, dialog->change != NULL && rw_change_n (dialog->change) > 0);
}

/* --- The window --- */

static void
add_row (RwWholeDialog *dialog, const char *text, GtkWidget *widget)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = gtk_label_new_with_mnemonic (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_width_chars (GTK_LABEL (label), 22);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), widget);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_RELATION_LABELLED_BY, label, NULL, -1);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), widget);
  gtk_box_append (GTK_BOX (dialog->box), row);
}

static GtkWidget *
add_note (RwWholeDialog *dialog, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 56);
  gtk_box_append (GTK_BOX (dialog->box), label);
  return label;
}

static void
add_order (RwWholeDialog *dialog)
{
  dialog->order = gtk_drop_down_new_from_strings ((const char *const[]) { _("Along the cables"), _("By place on the sheet"), NULL });
  g_signal_connect_swapped (dialog->order, "notify::selected", G_CALLBACK (update), dialog);
  add_row (dialog, _("_Order"), dialog->order);
}

static void
add_first (RwWholeDialog *dialog)
{
  dialog->first = gtk_spin_button_new_with_range (1, 9999, 1);
  g_signal_connect_swapped (dialog->first, "value-changed", G_CALLBACK (update), dialog);
  add_row (dialog, _("_First number"), dialog->first);
}

static GtkWidget *
add_check (RwWholeDialog *dialog, const char *text)
{
  GtkWidget *check = gtk_check_button_new_with_mnemonic (text);

  g_signal_connect_swapped (check, "toggled", G_CALLBACK (update), dialog);
  gtk_box_append (GTK_BOX (dialog->box), check);
  return check;
}

static void
add_only (RwWholeDialog *dialog, RwItemType type)
{
  g_autofree const char **keys = rw_selection_keys (rw_document_selection (dialog->document),
                                                    rw_document_rig (dialog->document), type);

  dialog->only = add_check (dialog, _("Only what is _selected"));
  gtk_widget_set_sensitive (dialog->only, keys[0] != NULL);
}

static void
add_entry (RwWholeDialog *dialog, guint index, const char *label, const char *text)
{
  dialog->entry[index] = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (dialog->entry[index]), text);
  gtk_entry_set_activates_default (GTK_ENTRY (dialog->entry[index]), TRUE);
  g_signal_connect_swapped (dialog->entry[index], "changed", G_CALLBACK (update), dialog);
  add_row (dialog, label, dialog->entry[index]);
}

static void
add_words (RwWholeDialog *dialog)
{
  GString *text = g_string_new (_("# is the number, ## with two digits at least."));

  for (guint i = 0; i < rw_n_pattern_words (); i++)
    g_string_append_printf (text, "\n{%s}: %s", _(rw_pattern_word (i)->name), _(rw_pattern_word (i)->help));
  gtk_widget_add_css_class (add_note (dialog, text->str), "dim-label");
  g_string_free (text, TRUE);
}

static void
add_parts_of (RwWholeDialog *dialog, RwRig *rig)
{
  for (guint i = 0; rig != NULL && i < rw_rig_n (rig, RW_ITEM_PART); i++)
    {
      RwPart *part = (RwPart *) rw_rig_items (rig, RW_ITEM_PART)[i];

      if (part->kind == RW_PART_SWITCH
          && (rig == rw_document_rig (dialog->document)
              || rw_rig_part (rw_document_rig (dialog->document), rw_item_key (part)) == NULL))
        g_ptr_array_add (dialog->parts, rw_item_ref (part));
    }
}

/* The first choice is the smallest switch that does it alone, else the one with the most ports. */
static guint
usual_part (RwWholeDialog *dialog, guint plane)
{
  guint best = 0, best_n = G_MAXUINT;

  for (guint i = 0; i < dialog->parts->len; i++)
    {
      const RwPart *part = g_ptr_array_index (dialog->parts, i);
      guint n = rw_rewire_n_switches (rw_document_net (dialog->document), part, plane);

      if (n == 0 || n > best_n
          || (n == best_n && rw_part_n_ports (part) >= rw_part_n_ports (g_ptr_array_index (dialog->parts, best))))
        continue;
      best = i;
      best_n = n;
    }
  return best;
}

static void
add_part (RwWholeDialog *dialog, guint plane, const char *label)
{
  GtkStringList *names = gtk_string_list_new (NULL);

  for (guint i = 0; i < dialog->parts->len; i++)
    gtk_string_list_append (names, ((const RwPart *) g_ptr_array_index (dialog->parts, i))->name);
  dialog->part[plane] = gtk_drop_down_new (G_LIST_MODEL (names), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (dialog->part[plane]), usual_part (dialog, plane));
  g_signal_connect_swapped (dialog->part[plane], "notify::selected", G_CALLBACK (update), dialog);
  add_row (dialog, label, dialog->part[plane]);
}

static void
add_controls (RwWholeDialog *dialog)
{
  g_auto (GStrv) first = dialog->kind == RW_WHOLE_ADDRESS ? rw_address_suggest (rw_document_net (dialog->document)) : NULL;

  switch (dialog->kind)
    {
    case RW_WHOLE_NUMBER:
      add_order (dialog);
      add_first (dialog);
      dialog->keep = add_check (dialog, _("Units that have an ID _keep it"));
      add_only (dialog, RW_ITEM_DEVICE);
      break;
    case RW_WHOLE_LABEL:
      add_entry (dialog, 0, _("_Pattern"), "N##");
      add_words (dialog);
      add_first (dialog);
      add_only (dialog, RW_ITEM_CABLE);
      break;
    case RW_WHOLE_ADDRESS:
      add_entry (dialog, 0, _("_Primary from"), first[0]);
      add_entry (dialog, 1, _("_Secondary from"), first[1]);
      add_order (dialog);
      dialog->keep = add_check (dialog, _("Good addresses _stay"));
      gtk_check_button_set_active (GTK_CHECK_BUTTON (dialog->keep), TRUE);
      break;
    case RW_WHOLE_REDUNDANT:
      add_part (dialog, 0, _("_Primary switch"));
      add_part (dialog, 1, _("_Secondary switch"));
      break;
    case RW_WHOLE_CHAIN:
    default:
      break;
    }
}

gboolean
rw_whole_dialog_apply (RwWholeDialog *dialog)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RwChange) change = NULL;

  g_return_val_if_fail (RW_IS_WHOLE_DIALOG (dialog), FALSE);
  if (dialog->change == NULL)
    return FALSE;
  change = rw_change_ref (dialog->change);
  g_clear_signal_handler (&dialog->document_changed, dialog->document);
  if (!rw_document_do (dialog->document, change, &error))
    {
      set_problem (dialog, error->message);
      return FALSE;
    }
  gtk_window_close (GTK_WINDOW (dialog));
  return TRUE;
}

static void
apply_clicked (GtkButton *button, gpointer user_data)
{
  rw_whole_dialog_apply (user_data);
}

static GtkWidget *
make_preview (RwWholeDialog *dialog)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();

  dialog->preview = gtk_label_new ("");
  gtk_label_set_xalign (GTK_LABEL (dialog->preview), 0);
  gtk_label_set_yalign (GTK_LABEL (dialog->preview), 0);
  gtk_label_set_selectable (GTK_LABEL (dialog->preview), TRUE);
  gtk_label_set_wrap (GTK_LABEL (dialog->preview), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (dialog->preview), PANGO_WRAP_WORD_CHAR);
  g_object_set (dialog->preview, "margin-start", 8, "margin-end", 8, "margin-top", 6, "margin-bottom", 6, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (scroll), GTK_ACCESSIBLE_PROPERTY_LABEL, _("What it comes to"), -1);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), dialog->preview);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroll), 180);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroll), 340);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_widget_set_vexpand (scroll, TRUE);
  return scroll;
}

static GtkWidget *
make_buttons (RwWholeDialog *dialog)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *cancel = gtk_button_new_with_mnemonic (_("_Cancel"));

  dialog->apply = gtk_button_new_with_label (_(kinds[dialog->kind].title));
  gtk_widget_add_css_class (dialog->apply, "suggested-action");
  g_signal_connect_swapped (cancel, "clicked", G_CALLBACK (gtk_window_close), dialog);
  g_signal_connect (dialog->apply, "clicked", G_CALLBACK (apply_clicked), dialog);
  gtk_widget_set_halign (row, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (row), cancel);
  gtk_box_append (GTK_BOX (row), dialog->apply);
  gtk_window_set_default_widget (GTK_WINDOW (dialog), dialog->apply);
  return row;
}

static gboolean
escaped (GtkWidget *widget, GVariant *arguments, gpointer user_data)
{
  gtk_window_close (GTK_WINDOW (widget));
  return TRUE;
}

static void
rw_whole_dialog_dispose (GObject *object)
{
  RwWholeDialog *dialog = RW_WHOLE_DIALOG (object);

  if (dialog->document != NULL)
    g_clear_signal_handler (&dialog->document_changed, dialog->document);
  g_clear_object (&dialog->document);
  g_clear_pointer (&dialog->change, rw_change_unref);
  g_clear_pointer (&dialog->preview_text, g_free);
  g_clear_pointer (&dialog->parts, g_ptr_array_unref);
  G_OBJECT_CLASS (rw_whole_dialog_parent_class)->dispose (object);
}

static void
rw_whole_dialog_class_init (RwWholeDialogClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_whole_dialog_dispose;
  gtk_widget_class_add_binding (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, escaped, NULL);
}

static void
rw_whole_dialog_init (RwWholeDialog *dialog)
{
}

GtkWidget *
rw_whole_dialog_new (GtkWindow *parent, RwDocument *document, RwRig *catalogue, RwWholeKind kind)
{
  RwWholeDialog *dialog = g_object_new (RW_TYPE_WHOLE_DIALOG, "transient-for", parent, "modal", TRUE, "title",
                                        _(kinds[kind].title), "default-width", 520, NULL);

  dialog->document = g_object_ref (document);
  dialog->kind = kind;
  dialog->parts = g_ptr_array_new_with_free_func (rw_item_unref);
  add_parts_of (dialog, rw_document_rig (document));
  add_parts_of (dialog, catalogue);
  dialog->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10);
  g_object_set (dialog->box, "margin-start", 18, "margin-end", 18, "margin-top", 18, "margin-bottom", 18, NULL);
  gtk_window_set_child (GTK_WINDOW (dialog), dialog->box);
  add_note (dialog, _(kinds[kind].intro));
  add_controls (dialog);
  gtk_box_append (GTK_BOX (dialog->box), make_preview (dialog));
  dialog->problem = add_note (dialog, "");
  gtk_widget_add_css_class (dialog->problem, "rw-problem");
  gtk_box_append (GTK_BOX (dialog->box), make_buttons (dialog));
  dialog->document_changed = g_signal_connect_swapped (document, "changed", G_CALLBACK (update), dialog);
  update (dialog);
  /* Where nothing is asked, the text of the preview would have the focus, and be marked from end to end. */
  if (kind == RW_WHOLE_CHAIN)
    gtk_window_set_focus (GTK_WINDOW (dialog), dialog->apply);
  return GTK_WIDGET (dialog);
}

const char *
rw_whole_dialog_preview (RwWholeDialog *dialog)
{
  g_return_val_if_fail (RW_IS_WHOLE_DIALOG (dialog), NULL);
  return dialog->preview_text;
}

const char *
rw_whole_dialog_problem (RwWholeDialog *dialog)
{
  g_return_val_if_fail (RW_IS_WHOLE_DIALOG (dialog), NULL);
  return gtk_label_get_text (GTK_LABEL (dialog->problem));
}

void
rw_whole_dialog_set_text (RwWholeDialog *dialog, const char *text)
{
  g_return_if_fail (RW_IS_WHOLE_DIALOG (dialog) && dialog->entry[0] != NULL);
  gtk_editable_set_text (GTK_EDITABLE (dialog->entry[0]), text);
}
