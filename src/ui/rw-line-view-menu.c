/* SPDX-License-Identifier: MIT */
/* The menu of the chosen cells, by the right button or the menu key: what else only keys do. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>

static GMenuModel *
make_model (void)
{
  GMenu *menu = g_menu_new ();
  g_autoptr (GMenu) part = NULL;
  guint n, last = 0;
  const RwLineCommand *commands = rw_line_view_commands (&n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GMenuItem) item = commands[i].part > 0 ? g_menu_item_new (_(commands[i].label), commands[i].action) : NULL;
      g_autofree char *keys = gtk_accelerator_name (commands[i].keyval, commands[i].state);

      if (item == NULL)
        continue;
      if (commands[i].part != last)
        {
          g_clear_object (&part);
          part = g_menu_new ();
          g_menu_append_section (menu, NULL, G_MENU_MODEL (part));
        }
      last = commands[i].part;
      g_menu_item_set_attribute (item, "accel", "s", keys);
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
