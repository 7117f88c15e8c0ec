/* SPDX-License-Identifier: MIT */
#include "rw-thing-list.h"

#include <glib/gi18n-lib.h>
#include "rw-thing.h"

struct _RwThingList
{
  GtkWidget parent_instance;
  GtkWidget *scroll;
  GtkWidget *view;
  GListStore *store;
  GtkMultiSelection *selection;
  RwDocument *document;
  gboolean stale; /* something changed while nobody saw the list */
  gboolean busy; /* the two selections are being made equal */
};

G_DEFINE_FINAL_TYPE (RwThingList, rw_thing_list, GTK_TYPE_WIDGET)

enum { PICKED, N_SIGNALS };
static guint signals[N_SIGNALS];

static RwThing *
get_thing (RwThingList *list, guint position)
{
  return g_list_model_get_item (G_LIST_MODEL (list->selection), position);
}

static void
pull_selection (RwThingList *list)
{
  RwSelection *selected = rw_document_selection (list->document);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (list->selection));

  if (list->busy)
    return;
  list->busy = TRUE;
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (RwThing) thing = get_thing (list, i);
      gboolean wanted = rw_selection_has (selected, rw_thing_get_key (thing));
      if (wanted == gtk_selection_model_is_selected (GTK_SELECTION_MODEL (list->selection), i))
        continue;
      if (wanted)
        gtk_selection_model_select_item (GTK_SELECTION_MODEL (list->selection), i, FALSE);
      else
        gtk_selection_model_unselect_item (GTK_SELECTION_MODEL (list->selection), i);
    }
  list->busy = FALSE;
}

static void
push_selection (GtkSelectionModel *model, guint position, guint n_items, gpointer user_data)
{
  RwThingList *list = user_data;
  g_autoptr (GPtrArray) keys = NULL;
  g_autoptr (GPtrArray) things = NULL;
  g_autoptr (GtkBitset) set = NULL;

  if (list->busy || list->document == NULL)
    return;
  list->busy = TRUE;
  keys = g_ptr_array_new ();
  things = g_ptr_array_new_with_free_func (g_object_unref);
  set = gtk_selection_model_get_selection (model);
  for (guint i = 0; i < gtk_bitset_get_size (set); i++)
    {
      RwThing *thing = get_thing (list, gtk_bitset_get_nth (set, i));
      g_ptr_array_add (things, thing);
      g_ptr_array_add (keys, (gpointer) rw_thing_get_key (thing));
    }
  g_ptr_array_add (keys, NULL);
  rw_selection_set_all (rw_document_selection (list->document), (const char *const *) keys->pdata);
  list->busy = FALSE;
}

/* A list of thousands is brought up to date only while it is seen. */
static void
refresh (RwThingList *list)
{
  list->stale = !gtk_widget_get_mapped (GTK_WIDGET (list));
  if (list->stale || list->document == NULL)
    return;
  list->busy = TRUE;
  rw_things_update (list->store, list->document);
  list->busy = FALSE;
  pull_selection (list);
}

static void
rw_thing_list_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (rw_thing_list_parent_class)->map (widget);
  if (RW_THING_LIST (widget)->stale)
    refresh (RW_THING_LIST (widget));
}

static void
selection_changed (RwSelection *selection, gpointer user_data)
{
  RwThingList *list = user_data;

  list->stale |= !gtk_widget_get_mapped (GTK_WIDGET (list));
  if (!list->stale)
    pull_selection (list);
}

static void
document_changed (RwDocument *document, guint what, RwChange *change, gpointer user_data)
{
  if ((what & (RW_DOCUMENT_RIG | RW_DOCUMENT_ANALYSIS | RW_DOCUMENT_WHOLE)) != 0)
    refresh (user_data);
}

static void
row_activated (GtkColumnView *view, guint position, gpointer user_data)
{
  g_autoptr (RwThing) thing = get_thing (user_data, position);

  if (thing != NULL)
    g_signal_emit (user_data, signals[PICKED], 0, rw_thing_get_key (thing));
}

void
rw_thing_list_set_document (RwThingList *list, RwDocument *document)
{
  g_return_if_fail (RW_IS_THING_LIST (list));
  if (list->document != NULL)
    {
      g_signal_handlers_disconnect_by_data (list->document, list);
      g_signal_handlers_disconnect_by_data (rw_document_selection (list->document), list);
    }
  g_set_object (&list->document, document);
  if (document == NULL)
    return;
  g_signal_connect (document, "changed", G_CALLBACK (document_changed), list);
  g_signal_connect (rw_document_selection (document), "changed", G_CALLBACK (selection_changed), list);
  refresh (list);
}

GtkSelectionModel *
rw_thing_list_get_model (RwThingList *list)
{
  g_return_val_if_fail (RW_IS_THING_LIST (list), NULL);
  return GTK_SELECTION_MODEL (list->selection);
}

static void
setup_cell (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer user_data)
{
  GtkWidget *label = gtk_label_new ("");
  g_autoptr (GtkExpression) thing = gtk_property_expression_new (GTK_TYPE_LIST_ITEM, NULL, "item");
  GtkExpression *text = gtk_property_expression_new (RW_TYPE_THING, gtk_expression_ref (thing), user_data);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_expression_bind (gtk_expression_ref (text), label, "label", item);
  gtk_expression_bind (text, label, "tooltip-text", item);
  gtk_list_item_set_child (item, label);
}

static void
add_column (RwThingList *list, const char *title, const char *property, int width)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkExpression *text = gtk_property_expression_new (RW_TYPE_THING, NULL, property);
  g_autoptr (GtkSorter) sorter = GTK_SORTER (gtk_string_sorter_new (text));
  g_autoptr (GtkColumnViewColumn) column = NULL;

  g_signal_connect (factory, "setup", G_CALLBACK (setup_cell), (gpointer) property);
  column = gtk_column_view_column_new (title, factory);
  gtk_column_view_column_set_resizable (column, TRUE);
  gtk_column_view_column_set_fixed_width (column, width);
  gtk_column_view_column_set_sorter (column, sorter);
  gtk_column_view_append_column (GTK_COLUMN_VIEW (list->view), column);
}

GtkWidget *
rw_thing_list_new (void)
{
  return g_object_new (RW_TYPE_THING_LIST, NULL);
}

static void
rw_thing_list_dispose (GObject *object)
{
  RwThingList *list = RW_THING_LIST (object);

  rw_thing_list_set_document (list, NULL);
  if (list->selection != NULL)
    g_signal_handlers_disconnect_by_data (list->selection, list);
  g_clear_pointer (&list->scroll, gtk_widget_unparent);
  g_clear_object (&list->selection);
  g_clear_object (&list->store);
  G_OBJECT_CLASS (rw_thing_list_parent_class)->dispose (object);
}

static void
rw_thing_list_class_init (RwThingListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_thing_list_dispose;
  GTK_WIDGET_CLASS (klass)->map = rw_thing_list_map;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "thinglist");
  signals[PICKED] = g_signal_new ("picked", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
rw_thing_list_init (RwThingList *list)
{
  GtkSortListModel *sorted;

  list->view = gtk_column_view_new (NULL);
  list->store = g_list_store_new (RW_TYPE_THING);
  sorted = gtk_sort_list_model_new (G_LIST_MODEL (g_object_ref (list->store)),
                                    g_object_ref (gtk_column_view_get_sorter (GTK_COLUMN_VIEW (list->view))));
  list->selection = gtk_multi_selection_new (G_LIST_MODEL (sorted));
  g_signal_connect (list->selection, "selection-changed", G_CALLBACK (push_selection), list);
  gtk_column_view_set_model (GTK_COLUMN_VIEW (list->view), GTK_SELECTION_MODEL (list->selection));
  add_column (list, _("Name"), "name", 110);
  add_column (list, _("What"), "what", 90);
  add_column (list, _("Where"), "where", 160);
  add_column (list, _("Findings"), "findings", 90);
  g_signal_connect (list->view, "activate", G_CALLBACK (row_activated), list);
  gtk_accessible_update_property (GTK_ACCESSIBLE (list->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("All devices and cables"), -1);
  gtk_widget_add_css_class (list->view, "rw-thing-list");
  list->scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (list->scroll), list->view);
  gtk_widget_set_parent (list->scroll, GTK_WIDGET (list));
}
