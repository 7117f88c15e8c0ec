/* SPDX-License-Identifier: MIT */
/* Hands on the sheet: gestures only turn into points here; what they mean, the tools know. */
#include "rw-canvas-private.h"

#include <math.h>

#define WHEEL_PX 60.0
#define WHEEL_ZOOM 1.15

RwToolPoint
rw_canvas_tool_point (RwCanvas *self, double x, double y, GdkModifierType state, guint n_press)
{
  RwToolMods mods = 0;

  if (state & GDK_SHIFT_MASK)
    mods |= RW_TOOL_MOD_SHIFT;
  if (state & GDK_CONTROL_MASK)
    mods |= RW_TOOL_MOD_CTRL;
  if (state & GDK_ALT_MASK)
    mods |= RW_TOOL_MOD_ALT;
  return (RwToolPoint) {
    .at = rw_canvas_to_sheet (self, (RwPoint) { x, y }),
    .mods = mods,
    .slack_mm = RW_CANVAS_HIT_PX / rw_canvas_scale (self),
    .presses = n_press,
  };
}

void
rw_canvas_fail (RwCanvas *self, const GError *error)
{
  rw_canvas_emit (self, RW_CANVAS_FAILED, error->message);
}

/* New devices are selected: the next keys and the particulars are for them. */
static void
select_new_devices (RwCanvas *self, const RwChange *change)
{
  g_autoptr (GPtrArray) keys = g_ptr_array_new ();

  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *entry = rw_change_entry (change, i);

      if (entry->type == RW_ITEM_DEVICE && entry->before == NULL)
        g_ptr_array_add (keys, entry->key);
    }
  if (keys->len == 0)
    return;
  g_ptr_array_add (keys, NULL);
  rw_selection_set_all (rw_document_selection (self->document), (const char *const *) keys->pdata);
}

/* Carries out @change (nullable) (transfer full). */
void
rw_canvas_apply (RwCanvas *self, RwChange *change)
{
  g_autoptr (GError) error = NULL;

  if (change == NULL)
    return;
  if (rw_document_do (self->document, change, &error))
    select_new_devices (self, change);
  else
    rw_canvas_fail (self, error);
  rw_change_unref (change);
}

/* The working tool has come to rest. */
void
rw_canvas_after_tool (RwCanvas *self)
{
  self->working = NULL;
  rw_canvas_layers_show_moved (self);
  rw_canvas_marks_changed (self);
}

static void
cancel_working (RwCanvas *self)
{
  if (self->working == NULL)
    return;
  rw_tool_cancel (self->working);
  rw_canvas_after_tool (self);
}

/* --- Pressing --- */

static void
begin_pan (RwCanvas *self, double x, double y)
{
  self->panning = TRUE;
  self->pan_from = (RwPoint) { x, y };
  self->pan_origin = self->origin;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grabbing");
}

/* Balloons and edge arrows are the canvas's own: they lead to a finding. */
static gboolean
press_on_finding (RwCanvas *self, double x, double y)
{
  const RwEdgeArrow *arrow = rw_canvas_arrow_at (self, x, y);
  RwToolPoint point = rw_canvas_tool_point (self, x, y, 0, 1);
  RwHit hit;

  if (arrow != NULL)
    {
      guint finding = arrow->finding;

      rw_canvas_show_point (self, arrow->foot);
      rw_canvas_emit (self, RW_CANVAS_FINDING_PICKED, finding);
      return TRUE;
    }
  hit = rw_scene_hit (rw_document_scene (self->document), point.at.x, point.at.y, point.slack_mm);
  if (hit.kind != RW_HIT_BALLOON || !self->balloons)
    return FALSE;
  rw_canvas_emit (self, RW_CANVAS_FINDING_PICKED, rw_scene_balloon (rw_document_scene (self->document), hit.index)->finding);
  return TRUE;
}

/* A hand on the sheet has done with the shown finding: whoever lists it is told. */
void
rw_canvas_drop_finding (RwCanvas *self)
{
  if (self->finding < 0)
    return;
  rw_canvas_set_finding (self, -1);
  rw_canvas_emit (self, RW_CANVAS_FINDING_PICKED, -1);
}

/* The tools that a press goes to, first come first served: in select mode a port starts a cable. */
static void
press_with_tool (RwCanvas *self, const RwToolPoint *point)
{
  static const RwToolKind orders[RW_N_TOOLS][2] = {
    [RW_TOOL_SELECT] = { RW_TOOL_CABLE, RW_TOOL_SELECT },
    [RW_TOOL_CABLE] = { RW_TOOL_CABLE, RW_TOOL_SELECT },
    [RW_TOOL_THREAD] = { RW_TOOL_THREAD, RW_TOOL_THREAD },
    [RW_TOOL_PAN] = { RW_TOOL_PAN, RW_TOOL_PAN },
    [RW_TOOL_PLACE] = { RW_TOOL_PLACE, RW_TOOL_SELECT },
  };

  for (guint i = 0; i < 2 && self->working == NULL; i++)
    if (rw_tool_begin (self->tools[orders[self->mode][i]], point))
      self->working = self->tools[orders[self->mode][i]];
  rw_canvas_marks_changed (self);
}

static void
press_secondary (RwCanvas *self, double x, double y)
{
  RwToolPoint point = rw_canvas_tool_point (self, x, y, 0, 1);
  const RwNet *net = rw_document_net (self->document);
  RwSelection *selection = rw_document_selection (self->document);
  RwHit hit = rw_scene_hit (rw_document_scene (self->document), point.at.x, point.at.y, point.slack_mm);
  const char *key = NULL;

  if (hit.kind == RW_HIT_DEVICE)
    key = rw_item_key (net->devices[hit.index].device);
  else if (hit.kind == RW_HIT_PORT)
    key = rw_item_key (net->devices[net->ports[hit.index].device].device);
  else if (hit.kind == RW_HIT_CABLE || hit.kind == RW_HIT_BEND)
    key = rw_item_key (net->cables[hit.index].cable);
  if (!rw_selection_has (selection, key))
    rw_selection_set (selection, key);
  rw_canvas_emit (self, RW_CANVAS_CONTEXT_MENU, x, y);
}

void
rw_canvas_press (RwCanvas *self, guint button, guint n_press, double x, double y, GdkModifierType state)
{
  RwToolPoint point;

  g_return_if_fail (RW_IS_CANVAS (self));
  if (self->document == NULL)
    return;
  self->pointer = (RwPoint) { x, y };
  gtk_widget_grab_focus (GTK_WIDGET (self));
  cancel_working (self);
  if (button == GDK_BUTTON_MIDDLE || (button == GDK_BUTTON_PRIMARY && (self->space_down || self->mode == RW_TOOL_PAN)))
    begin_pan (self, x, y);
  else if (button == GDK_BUTTON_SECONDARY)
    press_secondary (self, x, y);
  else if (button == GDK_BUTTON_PRIMARY && press_on_finding (self, x, y))
    return;
  else if (button == GDK_BUTTON_PRIMARY && self->lens_kind == RW_LENS_FAILURE)
    {
      if (!rw_canvas_failure_press (self, x, y))
        begin_pan (self, x, y);
    }
  else if (button == GDK_BUTTON_PRIMARY)
    {
      point = rw_canvas_tool_point (self, x, y, state, n_press);
      press_with_tool (self, &point);
    }
}

/* --- Moving --- */

static gboolean
moves_something (const RwOverlay *overlay)
{
  return overlay->moved->len > 0 || overlay->bent_cable != RW_NONE;
}

static void
move_working (RwCanvas *self, const RwToolPoint *point)
{
  const RwOverlay *overlay = rw_canvas_overlay (self);

  rw_tool_motion (self->working, point);
  if (self->hidden_devices == NULL && moves_something (overlay))
    {
      /* back to rest for a moment, so that the tiles know where to leave them out */
      rw_document_shift (self->document, (const guint *) overlay->moved->data, overlay->moved->len, 0, 0);
      rw_canvas_layers_hide_moved (self);
      rw_tool_motion (self->working, point);
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static const char *
cursor_at (RwCanvas *self, double x, double y)
{
  RwToolPoint point = rw_canvas_tool_point (self, x, y, 0, 0);
  RwHit hit;

  if (self->space_down || self->mode == RW_TOOL_PAN)
    return "grab";
  if (self->mode == RW_TOOL_THREAD)
    return "crosshair";
  hit = rw_scene_hit (rw_document_scene (self->document), point.at.x, point.at.y, point.slack_mm);
  if (self->lens_kind == RW_LENS_FAILURE)
    return hit.kind == RW_HIT_NOTHING ? NULL : "pointer";
  if (hit.kind == RW_HIT_PORT)
    return rw_document_net (self->document)->ports[hit.index].n_cables > 0 ? "grab" : "crosshair";
  return hit.kind == RW_HIT_BALLOON ? "pointer" : NULL;
}

void
rw_canvas_motion (RwCanvas *self, double x, double y, GdkModifierType state)
{
  RwToolPoint point;

  g_return_if_fail (RW_IS_CANVAS (self));
  if (self->document == NULL)
    return;
  self->pointer = (RwPoint) { x, y };
  if (self->panning)
    {
      rw_canvas_set_origin (self, self->pan_origin.x + x - self->pan_from.x, self->pan_origin.y + y - self->pan_from.y);
      return;
    }
  point = rw_canvas_tool_point (self, x, y, state, 1);
  if (self->working != NULL)
    move_working (self, &point);
  else
    {
      gtk_widget_set_cursor_from_name (GTK_WIDGET (self), cursor_at (self, x, y));
      rw_canvas_lens_point (self, rw_canvas_to_sheet (self, (RwPoint) { x, y }));
    }
}

/* --- Letting go --- */

void
rw_canvas_release (RwCanvas *self, guint button, double x, double y, GdkModifierType state)
{
  RwToolPoint point;
  RwChange *change;
  RwToolAsks asks;

  g_return_if_fail (RW_IS_CANVAS (self));
  if (self->panning)
    {
      rw_canvas_motion (self, x, y, state);
      self->panning = FALSE;
      gtk_widget_set_cursor_from_name (GTK_WIDGET (self), cursor_at (self, x, y));
      return;
    }
  if (self->working == NULL || button != GDK_BUTTON_PRIMARY)
    return;
  rw_canvas_motion (self, x, y, state);
  point = rw_canvas_tool_point (self, x, y, state, 1);
  change = rw_tool_end (self->working, &point);
  asks = self->working->asks;
  self->working->asks = RW_TOOL_ASKS_NOTHING;
  rw_canvas_after_tool (self);
  rw_canvas_apply (self, change);
  if (asks == RW_TOOL_ASKS_PARTICULARS)
    rw_canvas_emit (self, RW_CANVAS_PARTICULARS);
  else if (asks == RW_TOOL_ASKS_NO_FINDING)
    rw_canvas_drop_finding (self);
}

/* --- The gestures themselves --- */

static GdkModifierType
state_of (gpointer controller)
{
  return gtk_event_controller_get_current_event_state (controller);
}

static guint
count_presses (RwCanvas *self, GtkGesture *gesture, guint button, double x, double y)
{
  guint32 now = gtk_event_controller_get_current_event_time (GTK_EVENT_CONTROLLER (gesture));
  int time_ms, distance_px;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-double-click-time", &time_ms,
                "gtk-double-click-distance", &distance_px, NULL);
  if (self->last_press.button == button && now - self->last_press.time <= (guint32) time_ms
      && hypot (x - self->last_press.at.x, y - self->last_press.at.y) <= distance_px)
    self->last_press.n++;
  else
    self->last_press.n = 1;
  self->last_press.button = button;
  self->last_press.time = now;
  self->last_press.at = (RwPoint) { x, y };
  return self->last_press.n;
}

static void
drag_begin_cb (GtkGestureDrag *drag, double x, double y, RwCanvas *self)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (drag));
  guint n = count_presses (self, GTK_GESTURE (drag), button, x, y);

  gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_CLAIMED);
  rw_canvas_press (self, button, n, x, y, state_of (drag));
}

static void
drag_update_cb (GtkGestureDrag *drag, double dx, double dy, RwCanvas *self)
{
  double x, y;

  if (gtk_gesture_drag_get_start_point (drag, &x, &y))
    rw_canvas_motion (self, x + dx, y + dy, state_of (drag));
}

static void
drag_end_cb (GtkGestureDrag *drag, double dx, double dy, RwCanvas *self)
{
  double x, y;

  if (gtk_gesture_drag_get_start_point (drag, &x, &y))
    rw_canvas_release (self, gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (drag)), x + dx, y + dy,
                       state_of (drag));
}

static void
drag_cancel_cb (GtkGesture *gesture, GdkEventSequence *sequence, RwCanvas *self)
{
  self->panning = FALSE;
  cancel_working (self);
}

static void
motion_cb (GtkEventControllerMotion *motion, double x, double y, RwCanvas *self)
{
  if (self->working == NULL && !self->panning)
    rw_canvas_motion (self, x, y, state_of (motion));
}

static gboolean
scroll_cb (GtkEventControllerScroll *scroll, double dx, double dy, RwCanvas *self)
{
  GdkModifierType state = state_of (scroll);
  double step = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_SURFACE ? 1 : WHEEL_PX;

  if (state & GDK_CONTROL_MASK)
    {
      rw_canvas_zoom_at (self, self->zoom * pow (WHEEL_ZOOM, -dy * step / WHEEL_PX), self->pointer);
      return TRUE;
    }
  if (state & GDK_SHIFT_MASK && dx == 0)
    {
      dx = dy;
      dy = 0;
    }
  rw_canvas_scroll (self, -dx * step, -dy * step);
  return TRUE;
}

static void
pinch_begin_cb (GtkGesture *gesture, GdkEventSequence *sequence, RwCanvas *self)
{
  cancel_working (self);
  self->pinch_from = self->zoom;
}

static void
pinch_cb (GtkGestureZoom *gesture, double scale, RwCanvas *self)
{
  RwPoint middle = self->pointer;

  if (gtk_gesture_is_active (GTK_GESTURE (gesture)))
    gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &middle.x, &middle.y);
  rw_canvas_zoom_at (self, self->pinch_from * scale, middle);
}

static gboolean
key_pressed_cb (GtkEventControllerKey *key, guint keyval, guint keycode, GdkModifierType state, RwCanvas *self)
{
  return rw_canvas_key (self, keyval, state);
}

static void
key_released_cb (GtkEventControllerKey *key, guint keyval, guint keycode, GdkModifierType state, RwCanvas *self)
{
  if (keyval != GDK_KEY_space)
    return;
  self->space_down = FALSE;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), cursor_at (self, self->pointer.x, self->pointer.y));
}

static void
focus_cb (GtkEventControllerFocus *focus, RwCanvas *self)
{
  self->space_down = FALSE;
  rw_canvas_marks_changed (self);
}

void
rw_canvas_input_init (RwCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkGesture *drag = gtk_gesture_drag_new (), *pinch = gtk_gesture_zoom_new ();
  GtkEventController *motion = gtk_event_controller_motion_new (), *key = gtk_event_controller_key_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), 0);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (drag_cancel_cb), self);
  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_begin_cb), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinch_cb), self);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), self);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  g_signal_connect (key, "key-released", G_CALLBACK (key_released_cb), self);
  g_signal_connect (focus, "enter", G_CALLBACK (focus_cb), self);
  g_signal_connect (focus, "leave", G_CALLBACK (focus_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, key);
  gtk_widget_add_controller (widget, focus);
}
