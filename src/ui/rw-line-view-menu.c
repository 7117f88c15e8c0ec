/* SPDX-License-Identifier: MIT */
/* The menu of the chosen cells, by the right button or the menu key: what else only keys do. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>

/* @part: those of one number stand together */
static const struct { const char *action, *label, *keys; guint part; void (*run) (RwLineView *view); } items[] = {
  { "lines.duplicate", N_("Duplicate line"), "<Control><Shift>d", 0, rw_line_view_duplicate },
  { "lines.fill", N_("Fill down"), "<Control>d", 0, rw_line_view_fill_down },
  { "lines.cut", N_("Cut"), "<Control>x", 1, rw_line_view_cut },
  { "lines.copy", N_("Copy"), "<Control>c", 1, rw_line_view_copy },
  { "lines.paste", N_("Paste"), "<Control>v", 1, rw_line_view_paste },
  { "lines.empty", N_("Empty the cells"), "Delete", 2, rw_line_view_empty_cells },
  { "lines.remove", N_("Take out of the patch"), "<Control>Delete", 2, rw_line_view_remove_lines },
};

static void
activated (GtkWidget *widget, const char *action, GVariant *args)
{
  for (guint i = 0; i < G_N_ELEMENTS (items); i++)
    if (g_str_equal (items[i].action, action))
      items[i].run (RW_LINE_VIEW (widget));
}

void
rw_line_view_class_install_menu (GtkWidgetClass *klass)
{
  for (guint i = 0; i < G_N_ELEMENTS (items); i++)
    gtk_widget_class_install_action (klass, items[i].action, NULL, activated);
}

static GMenuModel *
make_model (void)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) part = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_autoptr (GMenuItem) item = g_menu_item_new (_(items[i].label), items[i].action);

      if (i == 0 || items[i].part != items[i - 1].part)
        {
          g_clear_object (&part);
          part = g_menu_new ();
          g_menu_append_section (menu, NULL, G_MENU_MODEL (part));
        }
      g_menu_item_set_attribute (item, "accel", "s", items[i].keys);
      g_menu_append_item (part, item);
    }
  return G_MENU_MODEL (menu);
}

/* The keyboard goes back to the cell, which may be another by now. */
static void
menu_closed (GtkPopover *menu, gpointer user_data)
{
  RwLineView *view = user_data;
  RwLineCell *cell = rw_line_view_cell (view, view->row, view->column);

  if (cell != NULL)
    rw_line_cell_grab_focus (cell);
}

/* @x, @y: on @at, px: where its corner is to be */
void
rw_line_view_open_menu (RwLineView *view, GtkWidget *at, double x, double y)
{
  g_autoptr (GMenuModel) model = NULL;

  if (view->menu == NULL)
    {
      model = make_model ();
      view->menu = gtk_popover_menu_new_from_model (model);
      gtk_popover_set_has_arrow (GTK_POPOVER (view->menu), FALSE);
      gtk_widget_set_halign (view->menu, GTK_ALIGN_START);
      g_signal_connect (view->menu, "closed", G_CALLBACK (menu_closed), view);
      gtk_widget_set_parent (view->menu, GTK_WIDGET (view));
    }
  gtk_widget_translate_coordinates (at, GTK_WIDGET (view), x, y, &x, &y);
  gtk_popover_set_pointing_to (GTK_POPOVER (view->menu), &(GdkRectangle) { (int) x, (int) y, 1, 1 });
  gtk_popover_popup (GTK_POPOVER (view->menu));
}
