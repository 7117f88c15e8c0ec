/* SPDX-License-Identifier: MIT */
/* Picks, boxes, drags devices, bends cables. Presses on ports are the cable tool's. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "rw-snap.h"
#include "rw-tool-private.h"

#define STUB_MM 5.0 /* of a cable that stays straight at its port */

typedef enum { DOES_NOTHING, DOES_PICK, DOES_DRAG, DOES_BAND, DOES_BEND } Doing;

typedef struct
{
  RwTool tool;
  Doing doing;
  RwPoint start;
  double threshold_mm; /* a press becomes a drag beyond this */
  char *pressed;       /* key of the device or cable under the press */
  gboolean was_selected;
  char **before;       /* keys that were selected before a band began */

  GArray *others;      /* boxes to snap to */
  RwRect held;         /* the box under the hand, where it was */
  RwPoint shift;

  guint cable;         /* that is bent */
  guint segment;       /* of its line */
  RwPoint *line;       /* its points before */
  guint n_line;
} RwToolSelect;

static RwToolSelect *
select_self (RwTool *tool)
{
  return (RwToolSelect *) tool;
}

static void
select_forget (RwToolSelect *self)
{
  self->doing = DOES_NOTHING;
  g_clear_pointer (&self->pressed, g_free);
  g_clear_pointer (&self->before, g_strfreev);
  g_clear_pointer (&self->others, g_array_unref);
  g_clear_pointer (&self->line, g_free);
}

/* --- The press --- */

static char **
selected_keys (RwDocument *document)
{
  static const RwItemType types[] = { RW_ITEM_DEVICE, RW_ITEM_CABLE };
  g_autoptr (GPtrArray) all = g_ptr_array_new ();

  for (guint t = 0; t < G_N_ELEMENTS (types); t++)
    {
      g_autofree const char **keys
        = rw_selection_keys (rw_document_selection (document), rw_document_rig (document), types[t]);

      for (guint i = 0; keys[i] != NULL; i++)
        g_ptr_array_add (all, g_strdup (keys[i]));
    }
  g_ptr_array_add (all, NULL);
  return (char **) g_ptr_array_steal (all, NULL);
}

static void
press_on (RwToolSelect *self, const char *key, RwToolMods mods)
{
  RwSelection *selection = rw_document_selection (self->tool.document);

  self->pressed = g_strdup (key);
  self->was_selected = rw_selection_has (selection, key);
  self->doing = DOES_PICK;
  if (mods & (RW_TOOL_MOD_CTRL | RW_TOOL_MOD_SHIFT))
    {
      if (!self->was_selected)
        rw_selection_add (selection, key);
    }
  else if (!self->was_selected)
    rw_selection_set (selection, key);
}

static void
press_on_cable (RwToolSelect *self, guint cable, guint segment, RwToolMods mods)
{
  const RwSceneCable *shown = rw_scene_cable (rw_document_scene (self->tool.document), cable);

  press_on (self, rw_item_key (rw_document_net (self->tool.document)->cables[cable].cable), mods);
  self->cable = cable;
  self->segment = MIN (segment, shown->n_points - 2);
  self->n_line = shown->n_points;
  self->line = g_memdup2 (shown->points, shown->n_points * sizeof (RwPoint));
}

/* The stretch of a cable's line nearest to a point: bends are dragged by the stretch that they lie on. */
static guint
nearest_segment (const RwSceneCable *cable, RwPoint at)
{
  guint best = 0;
  double least = G_MAXDOUBLE;

  for (guint i = 0; i + 1 < cable->n_points; i++)
    {
      const RwPoint *a = &cable->points[i], *b = &cable->points[i + 1];
      double x = CLAMP (at.x, MIN (a->x, b->x), MAX (a->x, b->x));
      double y = CLAMP (at.y, MIN (a->y, b->y), MAX (a->y, b->y));
      double away = hypot (at.x - x, at.y - y);

      if (away < least)
        {
          least = away;
          best = i;
        }
    }
  return best;
}

static gboolean
select_begin (RwTool *tool, const RwToolPoint *point)
{
  RwToolSelect *self = select_self (tool);
  RwScene *scene = rw_document_scene (tool->document);
  RwHit hit = rw_scene_hit (scene, point->at.x, point->at.y, point->slack_mm);

  select_forget (self);
  self->start = point->at;
  self->threshold_mm = point->slack_mm / 2;
  self->shift = (RwPoint) { 0, 0 };
  switch (hit.kind)
    {
    case RW_HIT_DEVICE:
      press_on (self, rw_item_key (rw_document_net (tool->document)->devices[hit.index].device), point->mods);
      self->held = rw_scene_device (scene, hit.index)->box;
      if (point->presses >= 2)
        tool->asks = RW_TOOL_ASKS_PARTICULARS;
      return TRUE;
    case RW_HIT_CABLE:
    case RW_HIT_BEND:
      press_on_cable (self, hit.index, nearest_segment (rw_scene_cable (scene, hit.index), point->at), point->mods);
      if (point->presses >= 2)
        tool->asks = RW_TOOL_ASKS_PARTICULARS;
      return TRUE;
    case RW_HIT_NOTHING:
      self->doing = DOES_BAND;
      self->before = selected_keys (tool->document);
      return TRUE;
    case RW_HIT_PORT:
    case RW_HIT_BALLOON:
    default:
      return FALSE;
    }
}

/* --- Dragging devices --- */

static void
drag_begin (RwToolSelect *self)
{
  RwTool *tool = &self->tool;
  RwRig *rig = rw_document_rig (tool->document);
  g_autofree const char **keys = rw_selection_keys (rw_document_selection (tool->document), rig, RW_ITEM_DEVICE);

  for (guint i = 0; keys[i] != NULL; i++)
    {
      guint index = rw_net_find_device (rw_document_net (tool->document), keys[i]);

      g_array_append_val (tool->overlay.moved, index);
    }
  self->others = rw_snap_boxes (rw_document_scene (tool->document), (const guint *) tool->overlay.moved->data,
                                tool->overlay.moved->len);
  self->doing = DOES_DRAG;
}

static void
drag_motion (RwToolSelect *self, const RwToolPoint *point)
{
  RwOverlay *overlay = &self->tool.overlay;
  RwRect box = self->held;

  self->shift = (RwPoint) { point->at.x - self->start.x, point->at.y - self->start.y };
  g_array_set_size (overlay->guides, 0);
  if ((point->mods & RW_TOOL_MOD_ALT) == 0)
    {
      RwPoint snap;

      box.x += self->shift.x;
      box.y += self->shift.y;
      snap = rw_snap_box (self->others, box, overlay->guides);
      self->shift.x += snap.x;
      self->shift.y += snap.y;
    }
  rw_document_shift (self->tool.document, (const guint *) overlay->moved->data, overlay->moved->len, self->shift.x,
                     self->shift.y);
}

static void
drag_put_back (RwToolSelect *self)
{
  RwOverlay *overlay = &self->tool.overlay;

  rw_document_shift (self->tool.document, (const guint *) overlay->moved->data, overlay->moved->len, 0, 0);
}

static RwChange *
drag_end (RwToolSelect *self)
{
  RwDocument *document = self->tool.document;
  g_autofree const char **keys
    = rw_selection_keys (rw_document_selection (document), rw_document_rig (document), RW_ITEM_DEVICE);

  drag_put_back (self);
  if (self->shift.x == 0 && self->shift.y == 0)
    return NULL;
  return rw_document_move (document, keys, self->shift.x, self->shift.y, NULL);
}

/* --- The band --- */

static void
band_motion (RwToolSelect *self, const RwToolPoint *point)
{
  RwDocument *document = self->tool.document;
  RwRect band = { MIN (self->start.x, point->at.x), MIN (self->start.y, point->at.y),
                  fabs (self->start.x - point->at.x), fabs (self->start.y - point->at.y) };
  g_autoptr (GArray) inside = rw_scene_devices_in (rw_document_scene (document), band);
  g_autoptr (GPtrArray) keys = g_ptr_array_new ();

  if (point->mods & (RW_TOOL_MOD_CTRL | RW_TOOL_MOD_SHIFT))
    for (guint i = 0; self->before[i] != NULL; i++)
      g_ptr_array_add (keys, self->before[i]);
  for (guint i = 0; i < inside->len; i++)
    g_ptr_array_add (keys, rw_item_key (rw_document_net (document)->devices[g_array_index (inside, guint, i)].device));
  g_ptr_array_add (keys, NULL);
  rw_selection_set_all (rw_document_selection (document), (const char *const *) keys->pdata);
  self->tool.overlay.has_band = TRUE;
  self->tool.overlay.band = band;
}

/* --- Bending a cable: a stretch of its line moves sideways --- */

static gboolean
segment_is_level (const RwPoint *line, guint segment)
{
  return fabs (line[segment].y - line[segment + 1].y) <= fabs (line[segment].x - line[segment + 1].x);
}

/* A little way from @end of a line toward @next: there a cable leaves its port straight. */
static RwPoint
stub_of (RwPoint end, RwPoint next)
{
  double length = hypot (next.x - end.x, next.y - end.y), part = length > 0 ? MIN (STUB_MM / length, 0.5) : 0;

  return (RwPoint) { end.x + (next.x - end.x) * part, end.y + (next.y - end.y) * part };
}

static void
set_across (RwPoint *point, gboolean level, double to)
{
  if (level)
    point->y = to;
  else
    point->x = to;
}

/* The line with its stretch moved to @at. The ends stay at their ports, so an outermost stretch leaves a stub there. */
static RwPoint *
bent_line (RwToolSelect *self, RwPoint at, gboolean snap, guint *n)
{
  const RwPoint *line = self->line;
  guint last = self->n_line - 1, from = self->segment, to = self->segment + 1;
  gboolean level = segment_is_level (line, self->segment);
  double across = level ? at.y : at.x;
  RwPoint ends[2] = { from == 0 ? stub_of (line[0], line[1]) : line[from],
                      to == last ? stub_of (line[last], line[last - 1]) : line[to] };
  GArray *points = g_array_new (FALSE, FALSE, sizeof (RwPoint));

  g_array_append_vals (points, line, MAX (from, 1));
  if (from == 0)
    g_array_append_val (points, ends[0]);
  for (guint i = 0; i < 2; i++)
    {
      RwPoint moved = ends[i];

      set_across (&moved, level, snap ? rw_snap_to_grid (across) : across);
      g_array_append_val (points, moved);
    }
  if (to == last)
    g_array_append_val (points, ends[1]);
  g_array_append_vals (points, line + MIN (to + 1, last), MAX (last - to, 1));
  *n = points->len;
  return (RwPoint *) (gpointer) g_array_free (points, FALSE);
}

static void
bend_motion (RwToolSelect *self, const RwToolPoint *point)
{
  RwOverlay *overlay = &self->tool.overlay;
  guint n;
  RwPoint *points = bent_line (self, point->at, (point->mods & RW_TOOL_MOD_ALT) == 0, &n);

  overlay->bent_cable = self->cable;
  g_array_set_size (overlay->loose, 0);
  rw_overlay_add_loose (overlay, points, n, RW_NONE);
}

static RwChange *
bend_end (RwToolSelect *self)
{
  RwDocument *document = self->tool.document;
  const RwLooseCable *bent = &g_array_index (self->tool.overlay.loose, RwLooseCable, 0);
  RwEdit *edit = rw_edit_new (rw_document_rig (document), _("Bend Cable"));
  GVariantBuilder bends;

  g_variant_builder_init (&bends, G_VARIANT_TYPE ("a(dd)"));
  for (guint i = 1; i + 1 < bent->n_points; i++)
    g_variant_builder_add (&bends, "(dd)", bent->points[i].x, bent->points[i].y);
  rw_edit_set (edit, self->pressed, RW_CABLE_BENDS, g_variant_builder_end (&bends), NULL);
  return rw_edit_finish (edit);
}

/* --- The gesture --- */

static gboolean
is_a_drag (const RwToolSelect *self, const RwToolPoint *point)
{
  return hypot (point->at.x - self->start.x, point->at.y - self->start.y) > self->threshold_mm;
}

static void
select_motion (RwTool *tool, const RwToolPoint *point)
{
  RwToolSelect *self = select_self (tool);

  if (self->doing == DOES_PICK && is_a_drag (self, point))
    {
      if (self->line != NULL)
        self->doing = DOES_BEND;
      else
        drag_begin (self);
      tool->asks = RW_TOOL_ASKS_NOTHING;
    }
  if (self->doing == DOES_DRAG)
    drag_motion (self, point);
  else if (self->doing == DOES_BEND)
    bend_motion (self, point);
  else if (self->doing == DOES_BAND && (tool->overlay.has_band || is_a_drag (self, point)))
    band_motion (self, point);
}

/* What a press that did not become a drag means. */
static void
select_click (RwToolSelect *self, const RwToolPoint *point)
{
  RwSelection *selection = rw_document_selection (self->tool.document);
  gboolean more = (point->mods & (RW_TOOL_MOD_CTRL | RW_TOOL_MOD_SHIFT)) != 0;

  if (self->doing == DOES_PICK && more && self->was_selected)
    rw_selection_toggle (selection, self->pressed);
  else if (self->doing == DOES_PICK && !more)
    rw_selection_set (selection, self->pressed);
  else if (self->doing == DOES_BAND && !more)
    {
      rw_selection_clear (selection);
      self->tool.asks = RW_TOOL_ASKS_NO_FINDING;
    }
}

static RwChange *
select_end (RwTool *tool, const RwToolPoint *point)
{
  RwToolSelect *self = select_self (tool);
  RwChange *change = NULL;

  select_motion (tool, point);
  if (self->doing == DOES_DRAG)
    change = drag_end (self);
  else if (self->doing == DOES_BEND)
    change = bend_end (self);
  else if (!tool->overlay.has_band)
    select_click (self, point);
  select_forget (self);
  return change;
}

static void
select_cancel (RwTool *tool)
{
  RwToolSelect *self = select_self (tool);

  if (self->doing == DOES_DRAG)
    drag_put_back (self);
  if (self->doing == DOES_BAND)
    rw_selection_set_all (rw_document_selection (tool->document), (const char *const *) self->before);
  select_forget (self);
}

static void
select_clear (RwTool *tool)
{
  select_forget (select_self (tool));
}

const RwToolClass rw_tool_select_class = {
  .name = "select",
  .size = sizeof (RwToolSelect),
  .begin = select_begin,
  .motion = select_motion,
  .end = select_end,
  .cancel = select_cancel,
  .drop = select_clear, /* a new scene stands as the rig says, and the selection was pruned */
  .clear = select_clear,
};
