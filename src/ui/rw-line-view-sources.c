/* SPDX-License-Identifier: MIT */
/* The list of kinds of source that opens below a cell. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>

static const char *const *
kinds (void)
{
  return rw_channel_table.fields[RW_CHANNEL_SOURCE].word_labels;
}

/* The row of the list that stands for what the line has: 0 = unknown. */
static int
present_row (RwLineView *view)
{
  const RwLine *line = rw_line_view_get_line (view);

  return line != NULL && line->about != NULL ? line->about->source + 1 : 0;
}

static gboolean
destroy_list (gpointer list)
{
  gtk_widget_unparent (list);
  g_object_unref (list);
  return G_SOURCE_REMOVE;
}

/* It goes when GTK is through with it: this may run inside its own signal. */
static void
list_closed (GtkPopover *list, gpointer user_data)
{
  RwLineView *view = user_data;

  if (view->sources != GTK_WIDGET (list))
    return;
  view->sources = NULL;
  g_idle_add (destroy_list, g_object_ref (list));
  if (view->row >= 0)
    rw_line_view_choose (view, view->row, view->column, TRUE); /* the keyboard goes back to the cell */
}

void
rw_line_view_close_sources (RwLineView *view)
{
  GtkWidget *list = g_steal_pointer (&view->sources);

  if (list != NULL)
    gtk_widget_unparent (list);
}

gboolean
rw_line_view_pick_source (RwLineView *view, guint kind)
{
  g_return_val_if_fail (kind <= g_strv_length ((char **) kinds ()), FALSE);
  if (view->sources == NULL)
    return FALSE;
  gtk_popover_popdown (GTK_POPOVER (view->sources));
  rw_line_view_type_all (view, RW_LINE_SOURCE, kind == 0 ? "" : _(kinds ()[kind - 1]));
  return TRUE;
}

static void
row_activated (GtkListBox *box, GtkListBoxRow *row, gpointer user_data)
{
  rw_line_view_pick_source (user_data, (guint) gtk_list_box_row_get_index (row));
}

static void
add_row (GtkWidget *box, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_list_box_append (GTK_LIST_BOX (box), label);
}

static GtkWidget *
make_list (RwLineView *view)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_list_box_new ();

  add_row (box, _("Unknown"));
  for (guint i = 0; kinds ()[i] != NULL; i++)
    add_row (box, _(kinds ()[i]));
  gtk_widget_add_css_class (box, "rw-source-list");
  gtk_accessible_update_property (GTK_ACCESSIBLE (box), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Source"), -1);
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_popover_set_position (GTK_POPOVER (popover), GTK_POS_BOTTOM);
  gtk_widget_add_css_class (popover, "rw-source-popover");
  g_signal_connect (box, "row-activated", G_CALLBACK (row_activated), view);
  g_signal_connect (popover, "closed", G_CALLBACK (list_closed), view);
  return popover;
}

/* Below the cell that keys work on, which must be in sight. */
void
rw_line_view_open_sources (RwLineView *view)
{
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);
  GtkWidget *box, *row;
  double x, y;

  if (cell == NULL || view->sources != NULL
      || !gtk_widget_translate_coordinates (GTK_WIDGET (cell), GTK_WIDGET (view), 0, 0, &x, &y))
    return;
  view->sources = make_list (view);
  gtk_widget_set_parent (view->sources, GTK_WIDGET (view));
  gtk_popover_set_pointing_to (GTK_POPOVER (view->sources),
                               &(GdkRectangle) { (int) x, (int) y, gtk_widget_get_width (GTK_WIDGET (cell)), gtk_widget_get_height (GTK_WIDGET (cell)) });
  gtk_popover_popup (GTK_POPOVER (view->sources));
  box = gtk_popover_get_child (GTK_POPOVER (view->sources));
  row = GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (box), present_row (view)));
  gtk_list_box_select_row (GTK_LIST_BOX (box), GTK_LIST_BOX_ROW (row));
  gtk_widget_grab_focus (row);
}
