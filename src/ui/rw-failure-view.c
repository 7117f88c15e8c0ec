/* SPDX-License-Identifier: MIT */
#include "rw-failure-view.h"

#include <glib/gi18n-lib.h>
#include <paper/rw-failure-list.h>

#include "rw-form.h"

/* A heading, or a device or line under it. */
#define RW_TYPE_FAILURE_ITEM (rw_failure_item_get_type ())
G_DECLARE_FINAL_TYPE (RwFailureItem, rw_failure_item, RW, FAILURE_ITEM, GObject)

struct _RwFailureItem
{
  GObject parent_instance;
  gboolean is_heading;
  char *title, *detail; /* @detail: (nullable) */
  char *key;            /* (nullable) */
};

G_DEFINE_FINAL_TYPE (RwFailureItem, rw_failure_item, G_TYPE_OBJECT)

struct _RwFailureView
{
  GtkWidget parent_instance;
  GtkWidget *box, *summary, *hint, *restore, *scroll, *list_view;
  GListStore *store;
};

G_DEFINE_FINAL_TYPE (RwFailureView, rw_failure_view, GTK_TYPE_WIDGET)

enum { PICKED, RESTORE, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
rw_failure_item_finalize (GObject *object)
{
  RwFailureItem *item = RW_FAILURE_ITEM (object);

  g_free (item->title);
  g_free (item->detail);
  g_free (item->key);
  G_OBJECT_CLASS (rw_failure_item_parent_class)->finalize (object);
}

static void
rw_failure_item_class_init (RwFailureItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_failure_item_finalize;
}

static void
rw_failure_item_init (RwFailureItem *item)
{
}

/* Takes over @title. */
static void
add_item (GPtrArray *items, char *title, char *detail, const char *key)
{
  RwFailureItem *item = g_object_new (RW_TYPE_FAILURE_ITEM, NULL);

  item->is_heading = key == NULL;
  item->title = title;
  item->detail = detail;
  item->key = g_strdup (key);
  g_ptr_array_add (items, item);
}

static char *
line_heading (RwFate fate, guint n)
{
  switch (fate)
    {
    case RW_FATE_LOST:
      return g_strdup_printf (ngettext ("%u line lost", "%u lines lost", n), n);
    case RW_FATE_FAILED:
      return g_strdup_printf (ngettext ("%u line lost with its device", "%u lines lost with their devices", n), n);
    case RW_FATE_GAP:
      return g_strdup_printf (ngettext ("%u line with a gap until spanning tree has formed anew",
                                        "%u lines with a gap until spanning tree has formed anew", n), n);
    case RW_FATE_OTHER_PLANE:
    case RW_FATE_NONE:
    case RW_FATE_UNTOUCHED:
    case RW_FATE_NO_LINE:
    case RW_FATE_CUT_OFF:
    default:
      return g_strdup_printf (ngettext ("%u line plays on over the other plane", "%u lines play on over the other plane", n), n);
    }
}

static char *
device_heading (RwFate fate, guint n)
{
  switch (fate)
    {
    case RW_FATE_LOST:
      return g_strdup_printf (ngettext ("%u device silent: it reaches no controller", "%u devices silent: they reach no controller", n), n);
    case RW_FATE_CUT_OFF:
      return g_strdup_printf (ngettext ("%u device cut off from the rest of the network",
                                        "%u devices cut off from the rest of the network", n), n);
    case RW_FATE_NO_LINE:
      return g_strdup_printf (ngettext ("%u device in reach, but all its lines are lost",
                                        "%u devices in reach, but all their lines are lost", n), n);
    case RW_FATE_FAILED:
      return g_strdup_printf (ngettext ("%u device failed", "%u devices failed", n), n);
    case RW_FATE_GAP:
      return g_strdup_printf (ngettext ("%u device silent until spanning tree has formed anew",
                                        "%u devices silent until spanning tree has formed anew", n), n);
    case RW_FATE_OTHER_PLANE:
    case RW_FATE_NONE:
    case RW_FATE_UNTOUCHED:
    default:
      return g_strdup_printf (ngettext ("%u device plays on over the other plane", "%u devices play on over the other plane", n), n);
    }
}

static char *
heading_text (const RwFailureRow *row, guint n)
{
  if (row->kind == RW_FAILURE_CABLE)
    return g_strdup_printf (ngettext ("%u cable failed", "%u cables failed", n), n);
  return row->kind == RW_FAILURE_DEVICE ? device_heading (row->fate, n) : line_heading (row->fate, n);
}

static guint
n_alike (const GPtrArray *rows, guint first)
{
  const RwFailureRow *a = g_ptr_array_index (rows, first);
  guint n = 1;

  while (first + n < rows->len)
    {
      const RwFailureRow *b = g_ptr_array_index (rows, first + n);

      if (b->fate != a->fate || b->kind != a->kind)
        break;
      n++;
    }
  return n;
}

static void
add_row (GPtrArray *items, const RwFailureRow *row)
{
  char *way = row->from != NULL ? g_strdup_printf ("%s → %s", row->from, row->to) : NULL;
  gboolean named = row->name != NULL && *row->name != '\0';

  if (named || way == NULL)
    add_item (items, g_strdup (row->name), way, row->key);
  else
    add_item (items, way, NULL, row->key);
}

static void
fill (RwFailureView *view, const GPtrArray *rows)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  guint left = 0;

  for (guint i = 0; i < rows->len; i++, left--)
    {
      const RwFailureRow *row = g_ptr_array_index (rows, i);

      if (left == 0)
        {
          left = n_alike (rows, i);
          add_item (items, heading_text (row, left), NULL, NULL);
        }
      add_row (items, row);
    }
  g_list_store_splice (view->store, 0, g_list_model_get_n_items (G_LIST_MODEL (view->store)), items->pdata, items->len);
}

static gboolean
has_tree (const RwRig *rig)
{
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    {
      const RwPart *part = rw_rig_part_of (rig, (const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i]);

      if (part != NULL && part->kind == RW_PART_SWITCH && part->spanning_tree)
        return TRUE;
    }
  return FALSE;
}

/* What to do while nothing has failed; then how long the rest takes, where it has a way to find. */
static const char *
hint_text (const RwRig *rig, guint n_failed)
{
  if (n_failed == 0)
    return _("Click a cable or a device to fail it, and again to put it back; or select it and press Enter. Escape leaves the lens.");
  if (has_tree (rig))
    return _("Spanning tree takes up to 30–50 s to form anew with classic timers; only two planes play on without a gap.");
  return _("What is lost stays so until it is mended: only two planes play on without a gap.");
}

static void
summarise (RwFailureView *view, const RwRig *rig, const RwOutcome *outcome, const GPtrArray *rows, guint n_failed)
{
  guint lines[RW_N_FATES] = { 0 };
  g_autofree char *failed = NULL, *costs = NULL, *text = NULL;

  gtk_label_set_text (GTK_LABEL (view->hint), hint_text (rig, n_failed));
  if (outcome == NULL || n_failed == 0)
    {
      gtk_label_set_text (GTK_LABEL (view->summary), _("Nothing has failed"));
      return;
    }
  failed = g_strdup_printf (ngettext ("%u thing failed", "%u things failed", n_failed), n_failed);
  for (guint i = 0; i < rows->len; i++)
    {
      const RwFailureRow *row = g_ptr_array_index (rows, i);

      lines[row->fate] += row->kind == RW_FAILURE_LINE;
    }
  costs = rw_failure_costs (outcome, lines, " · ");
  text = g_strjoin (" · ", failed, costs, NULL);
  gtk_label_set_text (GTK_LABEL (view->summary), text);
}

void
rw_failure_view_update (RwFailureView *view, const RwRig *rig, const RwOutcome *outcome, guint n_failed)
{
  g_autoptr (GPtrArray) rows = NULL;

  g_return_if_fail (RW_IS_FAILURE_VIEW (view));
  rows = outcome != NULL && n_failed > 0 ? rw_failure_rows (rig, outcome) : g_ptr_array_new ();
  fill (view, rows);
  summarise (view, rig, outcome, rows, n_failed);
  gtk_widget_set_sensitive (view->restore, n_failed > 0);
}

const char *
rw_failure_view_get_summary (RwFailureView *view)
{
  g_return_val_if_fail (RW_IS_FAILURE_VIEW (view), NULL);
  return gtk_label_get_text (GTK_LABEL (view->summary));
}

char *
rw_failure_view_get_text (RwFailureView *view)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (view->store)); i++)
    {
      g_autoptr (RwFailureItem) item = g_list_model_get_item (G_LIST_MODEL (view->store), i);

      g_string_append_printf (text, "%s%s%s%s\n", item->is_heading ? "" : "  ", item->title, item->detail != NULL ? ": " : "",
                              item->detail != NULL ? item->detail : "");
    }
  return g_string_free (text, FALSE);
}

static void
setup (GtkSignalListItemFactory *factory, GtkListItem *list_item, gpointer user_data)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  for (guint i = 0; i < 2; i++)
    {
      GtkWidget *label = gtk_label_new ("");

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
      if (i == 1)
        gtk_widget_add_css_class (label, "dim-label");
      gtk_box_append (GTK_BOX (box), label);
    }
  gtk_widget_add_css_class (box, "rw-failure-row");
  gtk_list_item_set_child (list_item, box);
}

static void
bind (GtkSignalListItemFactory *factory, GtkListItem *list_item, gpointer user_data)
{
  RwFailureItem *item = gtk_list_item_get_item (list_item);
  GtkWidget *title = gtk_widget_get_first_child (gtk_list_item_get_child (list_item));
  GtkWidget *detail = gtk_widget_get_next_sibling (title);

  gtk_label_set_text (GTK_LABEL (title), item->title);
  gtk_label_set_text (GTK_LABEL (detail), item->detail != NULL ? item->detail : "");
  gtk_widget_set_visible (detail, item->detail != NULL);
  if (item->is_heading)
    gtk_widget_add_css_class (title, "rw-failure-heading");
  else
    gtk_widget_remove_css_class (title, "rw-failure-heading");
  gtk_list_item_set_activatable (list_item, !item->is_heading);
  gtk_list_item_set_selectable (list_item, !item->is_heading);
}

static void
activated (GtkListView *list_view, guint position, gpointer user_data)
{
  RwFailureView *view = user_data;
  g_autoptr (RwFailureItem) item = g_list_model_get_item (G_LIST_MODEL (view->store), position);

  if (item != NULL && item->key != NULL)
    g_signal_emit (view, signals[PICKED], 0, item->key);
}

static void
restore_clicked (GtkButton *button, gpointer user_data)
{
  g_signal_emit (user_data, signals[RESTORE], 0);
}

static void
rw_failure_view_dispose (GObject *object)
{
  RwFailureView *view = RW_FAILURE_VIEW (object);

  g_clear_pointer (&view->box, gtk_widget_unparent);
  g_clear_object (&view->store);
  G_OBJECT_CLASS (rw_failure_view_parent_class)->dispose (object);
}

static void
rw_failure_view_class_init (RwFailureViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_failure_view_dispose;
  signals[PICKED] = g_signal_new ("picked", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[RESTORE] = g_signal_new ("restore", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "failures");
}

static GtkWidget *
make_header (RwFailureView *view)
{
  GtkWidget *header = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *label = gtk_label_new (_("Failure"));

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (label, "rw-panel-title");
  gtk_widget_add_css_class (header, "rw-panel-header");
  view->restore = gtk_button_new_with_mnemonic (_("Put all _back"));
  g_signal_connect (view->restore, "clicked", G_CALLBACK (restore_clicked), view);
  gtk_box_append (GTK_BOX (header), label);
  gtk_box_append (GTK_BOX (header), view->restore);
  return header;
}

static GtkWidget *
make_text (const char *css_class)
{
  GtkWidget *label = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, css_class);
  gtk_widget_add_css_class (label, "rw-failure-text");
  return label;
}

static GtkWidget *
make_list (RwFailureView *view)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkSingleSelection *selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (view->store)));

  gtk_single_selection_set_autoselect (selection, FALSE);
  gtk_single_selection_set_can_unselect (selection, TRUE);
  g_signal_connect (factory, "setup", G_CALLBACK (setup), view);
  g_signal_connect (factory, "bind", G_CALLBACK (bind), view);
  view->list_view = gtk_list_view_new (GTK_SELECTION_MODEL (selection), factory);
  gtk_list_view_set_single_click_activate (GTK_LIST_VIEW (view->list_view), TRUE);
  g_signal_connect (view->list_view, "activate", G_CALLBACK (activated), view);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->list_view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("What the failure costs"), -1);
  view->scroll = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (view->scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (view->scroll), view->list_view);
  gtk_widget_set_vexpand (view->scroll, TRUE);
  return view->scroll;
}

static void
rw_failure_view_init (RwFailureView *view)
{
  view->store = g_list_store_new (RW_TYPE_FAILURE_ITEM);
  view->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  view->summary = g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_STATUS, "xalign", 0.0, "wrap", TRUE, NULL);
  gtk_widget_add_css_class (view->summary, "rw-failure-heading");
  gtk_widget_add_css_class (view->summary, "rw-failure-text");
  view->hint = make_text ("dim-label");
  gtk_box_append (GTK_BOX (view->box), make_header (view));
  gtk_box_append (GTK_BOX (view->box), view->summary);
  gtk_box_append (GTK_BOX (view->box), view->hint);
  gtk_box_append (GTK_BOX (view->box), make_list (view));
  gtk_widget_set_layout_manager (GTK_WIDGET (view), rw_form_panel_layout ());
  gtk_widget_set_parent (view->box, GTK_WIDGET (view));
}
