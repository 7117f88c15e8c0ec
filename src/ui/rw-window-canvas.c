/* SPDX-License-Identifier: MIT */
/* What the sheet tells the window of, and what that does then. */
#include "rw-window-private.h"

#include <file/rw-data-dir.h>

/* A key on the sheet changes these, too; the window has them under the same names. */
static const char *const shared[] = { "tool", "lens", "path" };

static void
canvas_notify (GObject *canvas, GParamSpec *pspec, gpointer user_data)
{
  for (guint i = 0; i < G_N_ELEMENTS (shared); i++)
    if (g_str_equal (pspec->name, shared[i]))
      g_object_notify (user_data, shared[i]);
  if (g_str_equal (pspec->name, "failed"))
    rw_window_lens_failure_changed (user_data);
  rw_window_queue_status (user_data);
}

static void
canvas_particulars (RwCanvas *canvas, gpointer user_data)
{
  gtk_widget_activate_action (user_data, "win.particulars", NULL);
}

static void
canvas_finding_picked (RwCanvas *canvas, int index, gpointer user_data)
{
  RwWindow *window = user_data;

  if (index >= 0)
    g_object_set (window, "side-shown", TRUE, NULL);
  rw_findings_view_select (window->findings, index);
}

static void
canvas_demo (RwCanvas *canvas, gpointer user_data)
{
  g_autofree char *path = rw_data_path ("examples/festival-60.rig");

  rw_window_load_example (user_data, path);
}

static void
canvas_insert (RwCanvas *canvas, gpointer user_data)
{
  gtk_widget_activate_action (user_data, "win.insert", NULL);
}

static void
canvas_dropped (RwCanvas *canvas, GSList *files, gpointer user_data)
{
  rw_window_open_files (user_data, files);
}

static void
canvas_failed (RwCanvas *canvas, const char *message, gpointer user_data)
{
  rw_window_show_message (user_data, message);
}

static void
canvas_context_menu (RwCanvas *canvas, double x, double y, gpointer user_data)
{
  RwWindow *window = user_data;

  if (window->context_menu == NULL)
    {
      window->context_menu = gtk_popover_menu_new_from_model (G_MENU_MODEL (window->sheet_menu));
      gtk_popover_set_has_arrow (GTK_POPOVER (window->context_menu), FALSE);
      gtk_widget_set_halign (window->context_menu, GTK_ALIGN_START);
      gtk_widget_set_parent (window->context_menu, window->sheet_box);
    }
  gtk_widget_translate_coordinates (GTK_WIDGET (canvas), window->sheet_box, x, y, &x, &y);
  gtk_popover_set_pointing_to (GTK_POPOVER (window->context_menu), &(GdkRectangle) { (int) x, (int) y, 1, 1 });
  gtk_popover_popup (GTK_POPOVER (window->context_menu));
}

void
rw_window_connect_canvas (RwWindow *window)
{
  static const struct { const char *signal; GCallback callback; } links[] = {
    { "particulars", G_CALLBACK (canvas_particulars) },
    { "finding-picked", G_CALLBACK (canvas_finding_picked) },
    { "demo-requested", G_CALLBACK (canvas_demo) },
    { "insert-requested", G_CALLBACK (canvas_insert) },
    { "files-dropped", G_CALLBACK (canvas_dropped) },
    { "context-menu", G_CALLBACK (canvas_context_menu) },
    { "failed", G_CALLBACK (canvas_failed) },
    { "notify", G_CALLBACK (canvas_notify) },
  };

  for (guint i = 0; i < G_N_ELEMENTS (links); i++)
    g_signal_connect (window->canvas, links[i].signal, links[i].callback, window);
}
