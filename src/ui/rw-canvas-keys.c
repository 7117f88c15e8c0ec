/* SPDX-License-Identifier: MIT */
/* The keyboard on the sheet. */
#include "rw-canvas-private.h"

#define NUDGE_MM RW_GRID_MM
#define FINE_NUDGE_MM 1.0
#define SCROLL_PX 60.0

static gboolean
do_delete (RwCanvas *self)
{
  return rw_document_delete_selected (self->document);
}

static gboolean
do_particulars (RwCanvas *self)
{
  if (rw_canvas_failure_toggle_selected (self))
    return TRUE;
  if (rw_selection_n (rw_document_selection (self->document)) == 0)
    return FALSE;
  rw_canvas_emit (self, RW_CANVAS_PARTICULARS);
  return TRUE;
}

/* One step back each time: the shown finding, what has failed, the thread tool, the selection. */
static gboolean
do_escape (RwCanvas *self)
{
  if (self->finding >= 0)
    rw_canvas_drop_finding (self);
  else if (self->lens_kind == RW_LENS_FAILURE)
    rw_canvas_set_lens (self, RW_LENS_WIRING, NULL);
  else if (self->path_shown)
    g_object_set (self, "path", FALSE, NULL);
  else if (self->mode != RW_TOOL_SELECT)
    rw_canvas_set_tool (self, RW_TOOL_SELECT);
  else if (rw_selection_n (rw_document_selection (self->document)) > 0)
    rw_selection_clear (rw_document_selection (self->document));
  else
    return FALSE;
  return TRUE;
}

static gboolean
do_cable (RwCanvas *self)
{
  rw_canvas_begin_cable (self);
  return TRUE;
}

static gboolean
do_thread (RwCanvas *self)
{
  rw_canvas_set_tool (self, self->mode == RW_TOOL_THREAD ? RW_TOOL_SELECT : RW_TOOL_THREAD);
  return TRUE;
}

static gboolean
do_path (RwCanvas *self)
{
  g_object_set (self, "path", !self->path_shown, NULL);
  return TRUE;
}

static gboolean
do_insert (RwCanvas *self)
{
  rw_canvas_emit (self, RW_CANVAS_INSERT_REQUESTED);
  return TRUE;
}

static gboolean
do_space (RwCanvas *self)
{
  if (rw_canvas_failure_toggle_selected (self))
    return TRUE;
  self->space_down = TRUE;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grab");
  return TRUE;
}

static gboolean
do_menu (RwCanvas *self)
{
  const char *key = rw_selection_single (rw_document_selection (self->document));
  guint device = key != NULL ? rw_net_find_device (rw_document_net (self->document), key) : RW_NONE;
  RwPoint at = self->pointer;

  if (device != RW_NONE)
    {
      const RwRect *box = &rw_scene_device (rw_document_scene (self->document), device)->box;

      at = rw_canvas_from_sheet (self, (RwPoint) { box->x + box->w / 2, box->y + box->h / 2 });
    }
  rw_canvas_emit (self, RW_CANVAS_CONTEXT_MENU, at.x, at.y);
  return TRUE;
}

static gboolean
do_select_all (RwCanvas *self)
{
  rw_document_select_all (self->document);
  return TRUE;
}

static gboolean
do_duplicate (RwCanvas *self)
{
  rw_document_duplicate_selected (self->document);
  return TRUE;
}

static gboolean
do_copy (RwCanvas *self)
{
  rw_canvas_copy (self);
  return TRUE;
}

static gboolean
do_cut (RwCanvas *self)
{
  rw_canvas_cut (self);
  return TRUE;
}

static gboolean
do_paste (RwCanvas *self)
{
  rw_canvas_paste (self);
  return TRUE;
}

static gboolean
do_fit (RwCanvas *self)
{
  rw_canvas_zoom_fit (self);
  return TRUE;
}

static gboolean
do_actual (RwCanvas *self)
{
  rw_canvas_zoom_actual (self);
  return TRUE;
}

static gboolean
do_zoom_in (RwCanvas *self)
{
  rw_canvas_zoom_in (self);
  return TRUE;
}

static gboolean
do_zoom_out (RwCanvas *self)
{
  rw_canvas_zoom_out (self);
  return TRUE;
}

/* --- Walking from device to device --- */

typedef struct { const char *key; RwRect box; guint row; } Stop;

static int
compare_heights (gconstpointer a, gconstpointer b)
{
  const Stop *sa = a, *sb = b;

  return sa->box.y < sb->box.y ? -1 : sa->box.y > sb->box.y;
}

static int
compare_stops (gconstpointer a, gconstpointer b)
{
  const Stop *sa = a, *sb = b;

  if (sa->row != sb->row)
    return sa->row < sb->row ? -1 : 1;
  return sa->box.x < sb->box.x ? -1 : sa->box.x > sb->box.x;
}

/* As one reads: rows from the top, each from the left. What begins above the middle of a row's highest is of that row. */
static void
sort_stops (GArray *all)
{
  double middle = -G_MAXDOUBLE;
  guint row = 0;

  g_array_sort (all, compare_heights);
  for (guint i = 0; i < all->len; i++)
    {
      Stop *stop = &g_array_index (all, Stop, i);

      if (stop->box.y >= middle)
        {
          row++;
          middle = stop->box.y + stop->box.h / 2;
        }
      stop->row = row;
    }
  g_array_sort (all, compare_stops);
}

static GArray *
stops (RwCanvas *self)
{
  RwScene *scene = rw_document_scene (self->document);
  const RwNet *net = rw_document_net (self->document);
  GArray *all = g_array_new (FALSE, FALSE, sizeof (Stop));

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      Stop stop = { rw_item_key (net->devices[i].device), rw_scene_device (scene, i)->box, 0 };

      g_array_append_val (all, stop);
    }
  sort_stops (all);
  return all;
}

/* FALSE at either end: there the focus leaves the sheet. */
static gboolean
walk (RwCanvas *self, int step)
{
  RwSelection *selection = rw_document_selection (self->document);
  g_autoptr (GArray) all = stops (self);
  int at = step > 0 ? -1 : (int) all->len;
  const char *key;

  for (guint i = 0; i < all->len; i++)
    if (rw_selection_has (selection, g_array_index (all, Stop, i).key))
      {
        at = (int) i;
        break;
      }
  at += step;
  if (at < 0 || at >= (int) all->len)
    return FALSE;
  key = g_array_index (all, Stop, at).key;
  rw_selection_set (selection, key);
  rw_canvas_reveal (self, key);
  return TRUE;
}

static gboolean
do_next (RwCanvas *self)
{
  return walk (self, 1);
}

static gboolean
do_previous (RwCanvas *self)
{
  return walk (self, -1);
}

/* --- Arrows --- */

static const struct { guint keyval, keypad; RwToolKey key; int dx, dy; } arrows[] = {
  { GDK_KEY_Left, GDK_KEY_KP_Left, RW_TOOL_KEY_LEFT, -1, 0 },
  { GDK_KEY_Right, GDK_KEY_KP_Right, RW_TOOL_KEY_RIGHT, 1, 0 },
  { GDK_KEY_Up, GDK_KEY_KP_Up, RW_TOOL_KEY_UP, 0, -1 },
  { GDK_KEY_Down, GDK_KEY_KP_Down, RW_TOOL_KEY_DOWN, 0, 1 },
};

static gboolean
arrow_key (RwCanvas *self, int dx, int dy, GdkModifierType state)
{
  double step = state & GDK_SHIFT_MASK ? FINE_NUDGE_MM : NUDGE_MM;

  if (rw_canvas_failure_step (self, dx + dy))
    return TRUE;
  if (!rw_document_nudge_selected (self->document, dx * step, dy * step))
    rw_canvas_scroll (self, -dx * SCROLL_PX, -dy * SCROLL_PX);
  return TRUE;
}

/* --- Which key does what --- */

static const struct { guint keyval; GdkModifierType mods; gboolean (*act) (RwCanvas *self); } keys[] = {
  { GDK_KEY_Tab, 0, do_next },
  { GDK_KEY_Tab, GDK_SHIFT_MASK, do_previous },
  { GDK_KEY_ISO_Left_Tab, GDK_SHIFT_MASK, do_previous },
  { GDK_KEY_Return, 0, do_particulars },
  { GDK_KEY_KP_Enter, 0, do_particulars },
  { GDK_KEY_Delete, 0, do_delete },
  { GDK_KEY_KP_Delete, 0, do_delete },
  { GDK_KEY_BackSpace, 0, do_delete },
  { GDK_KEY_Escape, 0, do_escape },
  { GDK_KEY_c, 0, do_cable },
  { GDK_KEY_t, 0, do_thread },
  { GDK_KEY_p, 0, do_path },
  { GDK_KEY_Insert, 0, do_insert },
  { GDK_KEY_KP_Insert, 0, do_insert },
  { GDK_KEY_space, 0, do_space },
  { GDK_KEY_Menu, 0, do_menu },
  { GDK_KEY_F10, GDK_SHIFT_MASK, do_menu },
  { GDK_KEY_a, GDK_CONTROL_MASK, do_select_all },
  { GDK_KEY_d, GDK_CONTROL_MASK, do_duplicate },
  { GDK_KEY_c, GDK_CONTROL_MASK, do_copy },
  { GDK_KEY_x, GDK_CONTROL_MASK, do_cut },
  { GDK_KEY_v, GDK_CONTROL_MASK, do_paste },
  { GDK_KEY_0, GDK_CONTROL_MASK, do_fit },
  { GDK_KEY_KP_0, GDK_CONTROL_MASK, do_fit },
  { GDK_KEY_1, GDK_CONTROL_MASK, do_actual },
  { GDK_KEY_KP_1, GDK_CONTROL_MASK, do_actual },
  { GDK_KEY_plus, GDK_CONTROL_MASK, do_zoom_in },
  { GDK_KEY_plus, GDK_CONTROL_MASK | GDK_SHIFT_MASK, do_zoom_in },
  { GDK_KEY_equal, GDK_CONTROL_MASK, do_zoom_in },
  { GDK_KEY_KP_Add, GDK_CONTROL_MASK, do_zoom_in },
  { GDK_KEY_minus, GDK_CONTROL_MASK, do_zoom_out },
  { GDK_KEY_KP_Subtract, GDK_CONTROL_MASK, do_zoom_out },
};

/* Keys that a tool understands while it works. */
static gboolean
tool_key (RwCanvas *self, guint keyval, GdkModifierType state)
{
  RwToolKey key = RW_TOOL_KEY_ENTER;
  RwChange *change;
  gboolean known = keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter;

  if (keyval == GDK_KEY_Escape)
    {
      key = RW_TOOL_KEY_ESCAPE;
      known = TRUE;
    }
  for (guint i = 0; i < G_N_ELEMENTS (arrows); i++)
    if (keyval == arrows[i].keyval || keyval == arrows[i].keypad)
      {
        key = arrows[i].key;
        known = TRUE;
      }
  if (!known || !rw_tool_key (self->working, key, 0, &change))
    return FALSE;
  if (!self->working->active)
    rw_canvas_after_tool (self);
  rw_canvas_apply (self, change);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return TRUE;
}

/**
 * rw_canvas_key:
 * @keyval: a GDK_KEY_…
 * @state: modifiers
 *
 * Returns: %FALSE where the sheet has no use for the key, so that others may have it
 */
gboolean
rw_canvas_key (RwCanvas *self, guint keyval, GdkModifierType state)
{
  GdkModifierType mods = state & (GDK_SHIFT_MASK | GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK);

  g_return_val_if_fail (RW_IS_CANVAS (self), FALSE);
  if (self->document == NULL)
    return FALSE;
  if (self->working != NULL)
    return tool_key (self, keyval, mods);
  for (guint i = 0; i < G_N_ELEMENTS (arrows); i++)
    if ((keyval == arrows[i].keyval || keyval == arrows[i].keypad) && (mods & ~GDK_SHIFT_MASK) == 0)
      return arrow_key (self, arrows[i].dx, arrows[i].dy, mods);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (gdk_keyval_to_lower (keyval) == keys[i].keyval && mods == keys[i].mods)
      return keys[i].act (self);
  return FALSE;
}

void
rw_canvas_begin_cable (RwCanvas *self)
{
  RwTool *cable = self->tools[RW_TOOL_CABLE];
  RwChange *change;

  g_return_if_fail (RW_IS_CANVAS (self));
  if (self->working == NULL && rw_tool_key (cable, RW_TOOL_KEY_CABLE, 0, &change))
    {
      self->working = cable;
      rw_canvas_marks_changed (self);
    }
}
