/* SPDX-License-Identifier: MIT */
/* The line list below the sheet, and what it lights up there. */
#include "rw-window-private.h"

#include "rw-line-way.h"

/* Of the window's height, when it is opened for the first time. */
#define SHARE 0.45

static void
way_changed (RwLineView *lines, gpointer user_data)
{
  RwWindow *window = user_data;
  const RwLine *line = gtk_widget_get_visible (GTK_WIDGET (lines)) ? rw_line_view_get_line (lines) : NULL;
  g_autoptr (RwLineWay) way = NULL;

  if (line == NULL)
    {
      rw_canvas_set_way (window->canvas, NULL, NULL);
      return;
    }
  rw_findings_view_select (window->findings, -1);
  way = rw_line_way_new (window->document, line);
  rw_canvas_set_way (window->canvas, way->devices, way->cables);
}

static void
left (RwLineView *lines, gpointer user_data)
{
  gtk_widget_grab_focus (GTK_WIDGET (((RwWindow *) user_data)->canvas));
}

static void
closed (RwLineView *lines, gpointer user_data)
{
  g_object_set (user_data, "lines-shown", FALSE, NULL);
}

static void
divide (RwWindow *window)
{
  int height = gtk_widget_get_height (window->lines_paned);

  if (height > 0)
    gtk_paned_set_position (GTK_PANED (window->lines_paned), (int) (height * (1 - SHARE)));
}

/* Shows or hides the list; the keyboard goes with it. */
void
rw_window_lines_show (RwWindow *window, gboolean shown)
{
  GtkWidget *lines = GTK_WIDGET (window->lines);

  if (gtk_widget_get_visible (lines) == shown)
    return;
  if (!shown)
    rw_line_view_choose_none (window->lines);
  gtk_widget_set_visible (lines, shown);
  if (!shown)
    {
      gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
      return;
    }
  divide (window);
  rw_line_view_focus (window->lines);
}

void
rw_window_lines_init (RwWindow *window)
{
  g_signal_connect (window->lines, "way", G_CALLBACK (way_changed), window);
  g_signal_connect (window->lines, "leave", G_CALLBACK (left), window);
  g_signal_connect (window->lines, "close", G_CALLBACK (closed), window);
}
