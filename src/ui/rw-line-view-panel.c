/* SPDX-License-Identifier: MIT */
/* Keys and clicks in the line list beside its cells: none of them may reach the sheet. */
#include "rw-line-view-private.h"

static GtkWidget *
keyboard_of (RwLineView *view)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (view));

  return root != NULL ? gtk_root_get_focus (root) : NULL;
}

/* What nothing in the panel wanted. A text that is typed in has done what it could: the cells are not meant then. */
static gboolean
key_left_over (GtkEventControllerKey *keys, guint keyval, guint keycode, GdkModifierType state, gpointer user_data)
{
  RwLineView *view = user_data;

  if (keyval == GDK_KEY_Escape && (state & gtk_accelerator_get_default_mod_mask ()) == 0)
    {
      rw_line_view_emit_close (view);
      return TRUE;
    }
  if (keyval == GDK_KEY_Down && gtk_widget_is_focus (GTK_WIDGET (view)))
    {
      rw_line_view_focus (view);
      return TRUE;
    }
  if (GTK_IS_EDITABLE (keyboard_of (view)))
    return rw_line_view_is_command (keyval, state);
  return rw_line_view_command (view, keyval, state);
}

/* Who clicks into the list means the list: what takes the keyboard itself does so afterwards. */
static void
panel_pressed (GtkGestureClick *click, int n_press, double x, double y, gpointer user_data)
{
  GtkWidget *panel = user_data, *keyboard = keyboard_of (user_data);

  if (keyboard == NULL || !(keyboard == panel || gtk_widget_is_ancestor (keyboard, panel)))
    gtk_widget_grab_focus (panel);
}

void
rw_line_view_panel_init (RwLineView *view)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_widget_set_focusable (GTK_WIDGET (view), TRUE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_left_over), view);
  gtk_widget_add_controller (GTK_WIDGET (view), keys);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (click), 0);
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (click), GTK_PHASE_CAPTURE);
  g_signal_connect (click, "pressed", G_CALLBACK (panel_pressed), view);
  gtk_widget_add_controller (GTK_WIDGET (view), GTK_EVENT_CONTROLLER (click));
}
