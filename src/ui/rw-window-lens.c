/* SPDX-License-Identifier: MIT */
/* What the window shows beside the sheet of the lens that it is seen through. */
#include "rw-window-private.h"

/* In the Failure lens what it costs stands where the findings are. */
void
rw_window_lens_failure_changed (RwWindow *window)
{
  gboolean failing = rw_canvas_lens (window->canvas) == RW_LENS_FAILURE;
  guint n;

  g_object_get (window->canvas, "failed", &n, NULL);
  gtk_stack_set_visible_child_name (GTK_STACK (window->findings_stack), failing ? "failure" : "findings");
  rw_failure_view_update (window->failure, rw_document_rig (window->document), rw_canvas_outcome (window->canvas), n);
}

static void
restored (RwFailureView *view, gpointer user_data)
{
  RwWindow *window = user_data;

  rw_canvas_toggle_failed (window->canvas, NULL);
  gtk_widget_grab_focus (GTK_WIDGET (window->canvas));
}

void
rw_window_lens_init (RwWindow *window)
{
  g_signal_connect (window->failure, "restore", G_CALLBACK (restored), window);
}
