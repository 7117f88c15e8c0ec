/* SPDX-License-Identifier: MIT */
#include "rw-shelf.h"

#include <glib/gi18n-lib.h>
#include "rw-canvas.h"
#include "rw-form.h"
#include "rw-part-picture.h"
#include "rw-words.h"

struct _RwShelf
{
  GtkWidget parent_instance;
  GtkWidget *box;
  GtkWidget *search;
  GtkWidget *stack;
  GtkWidget *list;
  RwRig *catalogue;
};

G_DEFINE_FINAL_TYPE (RwShelf, rw_shelf, GTK_TYPE_WIDGET)

enum { INSERT, N_SIGNALS };
static guint signals[N_SIGNALS];

static const RwPart *
row_part (gpointer row)
{
  return g_object_get_data (G_OBJECT (row), "part");
}

gboolean
rw_shelf_matches (const RwPart *part, const char *text)
{
  g_autofree char *hay = g_strconcat (part->name != NULL ? part->name : "", " ", rw_item_key (part), " ",
                                      rw_part_kind_heading (part->kind), NULL);
  g_autofree char *folded = g_utf8_casefold (hay, -1);
  g_autofree char *wanted = g_utf8_casefold (text, -1);
  g_auto (GStrv) words = g_strsplit_set (wanted, " \t", -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (strstr (folded, words[i]) == NULL)
      return FALSE;
  return TRUE;
}

static gboolean
filter (GtkListBoxRow *row, gpointer user_data)
{
  RwShelf *shelf = user_data;

  return rw_shelf_matches (row_part (row), gtk_editable_get_text (GTK_EDITABLE (shelf->search)));
}

static int
sort (GtkListBoxRow *a, GtkListBoxRow *b, gpointer user_data)
{
  const RwPart *first = row_part (a), *second = row_part (b);
  int by_place = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (a), "place"))
               - GPOINTER_TO_INT (g_object_get_data (G_OBJECT (b), "place"));

  return first->kind != second->kind ? first->kind - second->kind : by_place;
}

static void
header (GtkListBoxRow *row, GtkListBoxRow *before, gpointer user_data)
{
  GtkWidget *label;

  if (before != NULL && row_part (before)->kind == row_part (row)->kind)
    {
      gtk_list_box_row_set_header (row, NULL);
      return;
    }
  if (gtk_list_box_row_get_header (row) != NULL)
    return;
  label = gtk_label_new (rw_part_kind_heading (row_part (row)->kind));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_add_css_class (label, "rw-group-heading");
  gtk_widget_add_css_class (label, "rw-shelf-heading");
  gtk_list_box_row_set_header (row, label);
}

static char *
about_part (const RwPart *part)
{
  guint ports = rw_part_n_ports (part);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, ngettext ("%u port", "%u ports", ports), ports);
  if (part->kind == RW_PART_SWITCH && part->spanning_tree)
    g_string_append_printf (text, " · %s", _("spanning tree"));
  if (part->sends + part->receives > 0)
    /* Translators: network channels out of and into a device, as “32 out, 16 in”. */
    g_string_append_printf (text, _(" · %d out, %d in"), part->sends, part->receives);
  return g_string_free (text, FALSE);
}

static GdkContentProvider *
drag_prepare (GtkDragSource *source, double x, double y, gpointer row)
{
  return gdk_content_provider_new_typed (RW_TYPE_DRAGGED_PART, row_part (row));
}

static void
drag_begin (GtkDragSource *source, GdkDrag *drag, gpointer row)
{
  GtkWidget *picture = g_object_get_data (G_OBJECT (row), "picture");
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (picture);

  gtk_drag_source_set_icon (source, paintable, gtk_widget_get_width (picture) / 2,
                            gtk_widget_get_height (picture) / 2);
}

static GtkWidget *
make_text (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_lines (GTK_LABEL (label), 2);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
make_row (const RwPart *part, int place)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *picture = rw_part_picture_new (part);
  GtkDragSource *source = gtk_drag_source_new ();
  const char *name = part->name != NULL ? part->name : rw_item_key (part);
  g_autofree char *about = about_part (part);
  g_autofree char *tip = g_strdup_printf ("%s\n%s", name, about);

  gtk_box_append (GTK_BOX (texts), make_text (name, NULL));
  gtk_box_append (GTK_BOX (texts), make_text (about, "rw-small"));
  gtk_widget_set_valign (texts, GTK_ALIGN_CENTER);
  gtk_widget_set_hexpand (texts, TRUE);
  gtk_box_append (GTK_BOX (box), picture);
  gtk_box_append (GTK_BOX (box), texts);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_widget_set_tooltip_text (row, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, about, -1);
  g_object_set_data_full (G_OBJECT (row), "part", rw_item_ref ((gpointer) part), rw_item_unref);
  g_object_set_data (G_OBJECT (row), "place", GINT_TO_POINTER (place));
  g_object_set_data (G_OBJECT (row), "picture", picture);
  gtk_drag_source_set_actions (source, GDK_ACTION_COPY);
  g_signal_connect (source, "prepare", G_CALLBACK (drag_prepare), row);
  g_signal_connect (source, "drag-begin", G_CALLBACK (drag_begin), row);
  gtk_widget_add_controller (row, GTK_EVENT_CONTROLLER (source));
  return row;
}

static GtkListBoxRow *
next_shown (RwShelf *shelf, int from, int step)
{
  GtkListBoxRow *row;

  for (int i = from; (row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (shelf->list), i)) != NULL; i += step)
    if (gtk_widget_get_child_visible (GTK_WIDGET (row)))
      return row;
  return NULL;
}

/* The first part that is left is the one that Enter picks. */
static void
search_changed (GtkSearchEntry *entry, gpointer user_data)
{
  RwShelf *shelf = user_data;
  gboolean typed = *gtk_editable_get_text (GTK_EDITABLE (entry)) != '\0';
  GtkListBoxRow *first;

  gtk_list_box_invalidate_filter (GTK_LIST_BOX (shelf->list));
  first = next_shown (shelf, 0, 1);
  gtk_list_box_select_row (GTK_LIST_BOX (shelf->list), typed ? first : NULL);
  gtk_stack_set_visible_child_name (GTK_STACK (shelf->stack), first != NULL ? "list" : "none");
}

static void
insert (RwShelf *shelf, GtkListBoxRow *row)
{
  if (row != NULL)
    g_signal_emit (shelf, signals[INSERT], 0, row_part (row));
}

static void
search_activated (GtkSearchEntry *entry, gpointer user_data)
{
  RwShelf *shelf = user_data;
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (shelf->list));

  insert (shelf, row != NULL ? row : next_shown (shelf, 0, 1));
}

static void
search_stopped (GtkSearchEntry *entry, gpointer user_data)
{
  gtk_editable_set_text (GTK_EDITABLE (entry), "");
}

static gboolean
search_key (GtkEventControllerKey *keys, guint keyval, guint code, GdkModifierType state, gpointer user_data)
{
  RwShelf *shelf = user_data;
  GtkListBoxRow *row = gtk_list_box_get_selected_row (GTK_LIST_BOX (shelf->list));
  int step = keyval == GDK_KEY_Down ? 1 : keyval == GDK_KEY_Up ? -1 : 0;
  int from = row != NULL ? gtk_list_box_row_get_index (row) + step : 0;

  if ((keyval == GDK_KEY_Insert || keyval == GDK_KEY_KP_Insert)
      && (state & gtk_accelerator_get_default_mod_mask ()) == 0)
    {
      rw_shelf_focus_search (shelf); /* here, too, it begins anew: the field itself would take it to overwrite */
      return TRUE;
    }
  if (step == 0)
    return FALSE;
  row = next_shown (shelf, from, step);
  if (row != NULL)
    gtk_list_box_select_row (GTK_LIST_BOX (shelf->list), row);
  return TRUE;
}

static void
row_activated (GtkListBox *list, GtkListBoxRow *row, gpointer user_data)
{
  insert (user_data, row);
}

void
rw_shelf_set_catalogue (RwShelf *shelf, RwRig *catalogue)
{
  GtkWidget *child;

  g_return_if_fail (RW_IS_SHELF (shelf));
  g_set_object (&shelf->catalogue, catalogue);
  while ((child = gtk_widget_get_first_child (shelf->list)) != NULL)
    gtk_list_box_remove (GTK_LIST_BOX (shelf->list), child);
  for (guint i = 0; catalogue != NULL && i < rw_rig_n (catalogue, RW_ITEM_PART); i++)
    gtk_list_box_append (GTK_LIST_BOX (shelf->list),
                         make_row ((const RwPart *) rw_rig_items (catalogue, RW_ITEM_PART)[i], (int) i));
  search_changed (GTK_SEARCH_ENTRY (shelf->search), shelf);
}

void
rw_shelf_focus_search (RwShelf *shelf)
{
  g_return_if_fail (RW_IS_SHELF (shelf));
  gtk_widget_grab_focus (shelf->search);
  gtk_editable_select_region (GTK_EDITABLE (shelf->search), 0, -1);
}

GtkWidget *
rw_shelf_get_search (RwShelf *shelf)
{
  g_return_val_if_fail (RW_IS_SHELF (shelf), NULL);
  return shelf->search;
}

GtkWidget *
rw_shelf_get_row (RwShelf *shelf, const char *id)
{
  GtkListBoxRow *row;

  g_return_val_if_fail (RW_IS_SHELF (shelf), NULL);
  for (int i = 0; (row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (shelf->list), i)) != NULL; i++)
    if (g_str_equal (rw_item_key (row_part (row)), id))
      return GTK_WIDGET (row);
  return NULL;
}

guint
rw_shelf_n_shown (RwShelf *shelf)
{
  GtkListBoxRow *row;
  guint n = 0;

  g_return_val_if_fail (RW_IS_SHELF (shelf), 0);
  for (int i = 0; (row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (shelf->list), i)) != NULL; i++)
    n += gtk_widget_get_child_visible (GTK_WIDGET (row));
  return n;
}

GtkWidget *
rw_shelf_new (void)
{
  return g_object_new (RW_TYPE_SHELF, NULL);
}

static void
rw_shelf_dispose (GObject *object)
{
  RwShelf *shelf = RW_SHELF (object);

  g_clear_pointer (&shelf->box, gtk_widget_unparent);
  g_clear_object (&shelf->catalogue);
  G_OBJECT_CLASS (rw_shelf_parent_class)->dispose (object);
}

static void
rw_shelf_class_init (RwShelfClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_shelf_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "shelf");
  signals[INSERT] = g_signal_new ("insert", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_POINTER);
}

static GtkWidget *
make_search (RwShelf *shelf)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkWidget *search = rw_form_search (_("Search parts"));

  gtk_widget_add_css_class (search, "rw-shelf-search");
  g_signal_connect (search, "search-changed", G_CALLBACK (search_changed), shelf);
  g_signal_connect (search, "changed", G_CALLBACK (search_changed), shelf);
  g_signal_connect (search, "activate", G_CALLBACK (search_activated), shelf);
  g_signal_connect (search, "stop-search", G_CALLBACK (search_stopped), shelf);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (search_key), shelf);
  gtk_widget_add_controller (search, keys);
  return search;
}

static GtkWidget *
make_list (RwShelf *shelf)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();

  shelf->list = gtk_list_box_new ();
  gtk_list_box_set_activate_on_single_click (GTK_LIST_BOX (shelf->list), FALSE);
  gtk_list_box_set_filter_func (GTK_LIST_BOX (shelf->list), filter, shelf, NULL);
  gtk_list_box_set_sort_func (GTK_LIST_BOX (shelf->list), sort, shelf, NULL);
  gtk_list_box_set_header_func (GTK_LIST_BOX (shelf->list), header, shelf, NULL);
  gtk_widget_add_css_class (shelf->list, "rw-shelf-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (shelf->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Parts"), -1);
  g_signal_connect (shelf->list, "row-activated", G_CALLBACK (row_activated), shelf);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), shelf->list);
  return scroll;
}

static void
rw_shelf_init (RwShelf *shelf)
{
  GtkWidget *title = gtk_label_new (_("Shelf"));
  GtkWidget *none = gtk_label_new (_("No part of that name"));

  shelf->search = make_search (shelf);
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_widget_add_css_class (title, "rw-panel-title");
  gtk_widget_add_css_class (title, "rw-panel-header");
  gtk_widget_add_css_class (none, "dim-label");
  shelf->stack = gtk_stack_new ();
  gtk_widget_set_vexpand (shelf->stack, TRUE);
  gtk_stack_add_named (GTK_STACK (shelf->stack), make_list (shelf), "list");
  gtk_stack_add_named (GTK_STACK (shelf->stack), none, "none");
  shelf->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (shelf->box), title);
  gtk_box_append (GTK_BOX (shelf->box), shelf->search);
  gtk_box_append (GTK_BOX (shelf->box), shelf->stack);
  gtk_widget_set_parent (shelf->box, GTK_WIDGET (shelf));
}
