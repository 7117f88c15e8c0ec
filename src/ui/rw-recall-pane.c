/* SPDX-License-Identifier: MIT */
#include "rw-recall-pane.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-difference.h>
#include <rig/rw-line.h>

#include "rw-words.h"

#define DEVICES_HEIGHT 200 /* px: of five devices and their rig's */
#define MOST_LINES 500 /* of the preview: more nobody reads */

struct _RwRecallPane
{
  GtkWidget parent_instance;
  RwRecall *recall;     /* (nullable) */
  RwChange *change;     /* (nullable) */
  GPtrArray *drops;     /* of GtkDropDown, by stored device */
  GPtrArray *targets;   /* of GPtrArray of RwDevice (borrowed from the rig), by stored device: its drop-down's rows from 1 */
  GtkWidget *box, *grid, *summary, *caution, *preview;
  gboolean busy;
};

G_DEFINE_FINAL_TYPE (RwRecallPane, rw_recall_pane, GTK_TYPE_WIDGET)

static guint changed_signal;

RwChange *
rw_recall_pane_get_change (RwRecallPane *pane)
{
  return pane->change;
}

const char *
rw_recall_pane_get_summary (RwRecallPane *pane)
{
  return gtk_label_get_text (GTK_LABEL (pane->summary));
}

const char *
rw_recall_pane_get_preview (RwRecallPane *pane)
{
  return gtk_label_get_text (GTK_LABEL (pane->preview));
}

/* --- What would change --- */

static void
add_count (GString *text, guint n, char *words)
{
  if (n > 0)
    g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", words);
  g_free (words);
}

/* "3 lines come …": counts of rows and particulars alike. */
static char *
counts_text (const GPtrArray *differences, guint n_left_out)
{
  guint n[3] = { 0 };
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < differences->len; i++)
    n[((const RwDifference *) differences->pdata[i])->kind]++;
  add_count (text, n[RW_DIFFERENCE_ADDED], g_strdup_printf (ngettext ("%u comes", "%u come", n[RW_DIFFERENCE_ADDED]), n[RW_DIFFERENCE_ADDED]));
  add_count (text, n[RW_DIFFERENCE_REMOVED], g_strdup_printf (ngettext ("%u goes", "%u go", n[RW_DIFFERENCE_REMOVED]), n[RW_DIFFERENCE_REMOVED]));
  add_count (text, n[RW_DIFFERENCE_CHANGED], g_strdup_printf (ngettext ("%u changes", "%u change", n[RW_DIFFERENCE_CHANGED]), n[RW_DIFFERENCE_CHANGED]));
  if (text->len == 0)
    g_string_append (text, _("The patch is as it is stored."));
  if (n_left_out > 0)
    g_string_append_printf (text, ngettext (" (%u row of the set is left out)", " (%u rows of the set are left out)", n_left_out), n_left_out);
  return g_string_free (text, FALSE);
}

static void
show_differences (RwRecallPane *pane, guint n_left_out)
{
  g_autoptr (GPtrArray) differences = rw_recall_preview (pane->recall, pane->change);
  g_autoptr (GString) lines = g_string_new (NULL);
  g_autofree char *counts = counts_text (differences, n_left_out);

  for (guint i = 0; i < differences->len; i++)
    {
      const RwDifference *difference = differences->pdata[i];

      if (i < MOST_LINES)
        g_string_append_printf (lines, "%s%s", i > 0 ? "\n" : "", difference->message);
    }
  if (differences->len > MOST_LINES)
    g_string_append (lines, "\n…");
  gtk_label_set_text (GTK_LABEL (pane->summary), counts);
  gtk_label_set_text (GTK_LABEL (pane->preview), lines->str);
  gtk_widget_set_visible (pane->caution, rw_change_turns_phantom_on (pane->change));
}

static void
set_wrong (RwRecallPane *pane, gboolean wrong)
{
  if (wrong)
    gtk_widget_add_css_class (pane->summary, "rw-problem");
  else
    gtk_widget_remove_css_class (pane->summary, "rw-problem");
}

static void
update (RwRecallPane *pane)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = NULL;
  guint n_left_out = 0;

  g_clear_pointer (&pane->change, rw_change_unref);
  gtk_label_set_text (GTK_LABEL (pane->summary), "");
  gtk_label_set_text (GTK_LABEL (pane->preview), "");
  gtk_widget_set_visible (pane->caution, FALSE);
  set_wrong (pane, FALSE);
  if (pane->recall != NULL)
    {
      /* Translators: the name of a patch set. */
      name = g_strdup_printf (_("Recall %s"), rw_set_title (pane->recall->set));
      pane->change = rw_recall_change (pane->recall, name, &n_left_out, &error);
      if (pane->change != NULL)
        show_differences (pane, n_left_out);
    }
  if (error != NULL)
    {
      gtk_label_set_text (GTK_LABEL (pane->summary), error->message);
      set_wrong (pane, TRUE);
    }
  g_signal_emit (pane, changed_signal, 0);
}

/* --- Who stands in for whom --- */

static void
target_chosen (GObject *drop, GParamSpec *pspec, gpointer user_data)
{
  RwRecallPane *pane = user_data;
  guint index, row = gtk_drop_down_get_selected (GTK_DROP_DOWN (drop));
  GPtrArray *targets;

  if (pane->busy || !g_ptr_array_find (pane->drops, drop, &index))
    return;
  targets = g_ptr_array_index (pane->targets, index);
  rw_recall_set_target (pane->recall, index, row >= 1 && row <= targets->len ? g_ptr_array_index (targets, row - 1) : NULL);
  update (pane);
}

/* Devices that the one at @index could stand for at all: consoles for a console, others with channels for others. */
static GPtrArray *
list_targets (RwRecallPane *pane, guint index)
{
  const RwRecall *recall = pane->recall;
  gboolean console = rw_device_is_console (recall->set->state, rw_recall_get (recall, index)->stored);
  GPtrArray *targets = g_ptr_array_new ();

  for (guint i = 0; i < rw_rig_n (recall->rig, RW_ITEM_DEVICE); i++)
    {
      RwDevice *device = (RwDevice *) rw_rig_items (recall->rig, RW_ITEM_DEVICE)[i];
      const RwPart *part = rw_rig_part_of (recall->rig, device);

      if (rw_device_is_console (recall->rig, device) == console && (console || part->sends > 0 || part->receives > 0))
        g_ptr_array_add (targets, device);
    }
  return targets;
}

static GtkWidget *
make_drop (RwRecallPane *pane, guint index)
{
  GPtrArray *targets = list_targets (pane, index);
  GtkStringList *titles = gtk_string_list_new (NULL);
  GtkWidget *drop;
  guint row = 0;

  gtk_string_list_append (titles, _("Leave out"));
  for (guint i = 0; i < targets->len; i++)
    {
      const RwDevice *device = g_ptr_array_index (targets, i);

      gtk_string_list_append (titles, rw_device_title (device));
      if (device == rw_recall_get (pane->recall, index)->target)
        row = i + 1;
    }
  drop = gtk_drop_down_new (G_LIST_MODEL (titles), gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string"));
  gtk_drop_down_set_enable_search (GTK_DROP_DOWN (drop), TRUE); /* a rig may have many */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), row);
  gtk_widget_set_hexpand (drop, TRUE);
  g_signal_connect (drop, "notify::selected", G_CALLBACK (target_chosen), pane);
  g_ptr_array_add (pane->drops, drop);
  g_ptr_array_add (pane->targets, targets);
  return drop;
}

static void
add_device (RwRecallPane *pane, guint index)
{
  GtkWidget *label = gtk_label_new (rw_device_title (rw_recall_get (pane->recall, index)->stored));
  GtkWidget *arrow = gtk_label_new ("→");
  GtkWidget *drop = make_drop (pane, index);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 18);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 30);
  gtk_widget_set_tooltip_text (label, gtk_label_get_text (GTK_LABEL (label)));
  gtk_accessible_update_relation (GTK_ACCESSIBLE (drop), GTK_ACCESSIBLE_RELATION_LABELLED_BY, label, NULL, -1);
  gtk_grid_attach (GTK_GRID (pane->grid), label, 0, (int) index, 1, 1);
  gtk_grid_attach (GTK_GRID (pane->grid), arrow, 1, (int) index, 1, 1);
  gtk_grid_attach (GTK_GRID (pane->grid), drop, 2, (int) index, 1, 1);
}

static void
clear (RwRecallPane *pane)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (pane->grid)) != NULL)
    gtk_grid_remove (GTK_GRID (pane->grid), child);
  g_ptr_array_set_size (pane->drops, 0);
  g_ptr_array_set_size (pane->targets, 0);
  g_clear_pointer (&pane->recall, rw_recall_free);
}

void
rw_recall_pane_show (RwRecallPane *pane, const RwRig *rig, const RwPatchSet *set)
{
  g_return_if_fail (RW_IS_RECALL_PANE (pane));
  pane->busy = TRUE;
  clear (pane);
  if (set != NULL)
    pane->recall = rw_recall_new (rig, set);
  for (guint i = 0; set != NULL && i < rw_recall_n (pane->recall); i++)
    add_device (pane, i);
  pane->busy = FALSE;
  update (pane);
}

void
rw_recall_pane_choose (RwRecallPane *pane, guint index, const char *title)
{
  GPtrArray *targets;

  g_return_if_fail (RW_IS_RECALL_PANE (pane) && index < pane->drops->len);
  targets = g_ptr_array_index (pane->targets, index);
  if (title == NULL)
    gtk_drop_down_set_selected (g_ptr_array_index (pane->drops, index), 0);
  for (guint i = 0; title != NULL && i < targets->len; i++)
    if (g_str_equal (rw_device_title (g_ptr_array_index (targets, i)), title))
      gtk_drop_down_set_selected (g_ptr_array_index (pane->drops, index), i + 1);
}

/* --- The widget --- */

static GtkWidget *
make_label (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
make_scroll (GtkWidget *child, const char *name, int height, gboolean expand)
{
  GtkWidget *scroll = gtk_scrolled_window_new ();

  gtk_widget_add_css_class (child, "rw-import-table");
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), child);
  gtk_scrolled_window_set_has_frame (GTK_SCROLLED_WINDOW (scroll), TRUE);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroll), height);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroll), height);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroll), !expand);
  gtk_widget_set_vexpand (scroll, expand);
  gtk_accessible_update_property (GTK_ACCESSIBLE (scroll), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return scroll;
}

static void
rw_recall_pane_init (RwRecallPane *pane)
{
  pane->drops = g_ptr_array_new ();
  pane->targets = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);
  pane->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (pane->grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (pane->grid), 4);
  pane->summary = make_label ("", "rw-panel-title");
  pane->caution = make_label (rw_words_phantom_caution (), "rw-small");
  pane->preview = make_label ("", NULL);
  gtk_label_set_selectable (GTK_LABEL (pane->preview), TRUE);
  pane->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  gtk_box_append (GTK_BOX (pane->box), make_label (_("Each stored device, and the one of the rig that stands in for it"), "rw-caption"));
  gtk_box_append (GTK_BOX (pane->box), make_scroll (pane->grid, _("Devices"), DEVICES_HEIGHT, FALSE));
  gtk_box_append (GTK_BOX (pane->box), make_label (_("What recalling would change"), "rw-caption"));
  gtk_box_append (GTK_BOX (pane->box), pane->summary);
  gtk_box_append (GTK_BOX (pane->box), pane->caution);
  gtk_box_append (GTK_BOX (pane->box), make_scroll (pane->preview, _("What recalling would change"), 120, TRUE));
  gtk_widget_set_parent (pane->box, GTK_WIDGET (pane));
}

static void
rw_recall_pane_dispose (GObject *object)
{
  RwRecallPane *pane = RW_RECALL_PANE (object);

  g_clear_pointer (&pane->recall, rw_recall_free);
  g_clear_pointer (&pane->change, rw_change_unref);
  g_clear_pointer (&pane->box, gtk_widget_unparent);
  g_clear_pointer (&pane->drops, g_ptr_array_unref);
  g_clear_pointer (&pane->targets, g_ptr_array_unref);
  G_OBJECT_CLASS (rw_recall_pane_parent_class)->dispose (object);
}

static void
rw_recall_pane_class_init (RwRecallPaneClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rw_recall_pane_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  changed_signal = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

GtkWidget *
rw_recall_pane_new (void)
{
  return g_object_new (RW_TYPE_RECALL_PANE, NULL);
}
