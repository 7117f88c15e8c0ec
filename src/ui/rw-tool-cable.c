/* SPDX-License-Identifier: MIT */
/* One cable: dragged from a port, drawn new or taken out of it, or led from device to device by the arrow keys. */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "rw-tool-private.h"
#include "rw-tool-wiring.h"

typedef struct
{
  RwTool tool;
  RwWiring wiring;
  guint from_device;
  guint from_port;  /* RW_NONE: chosen with the far end */
  guint cable;      /* that is re-plugged, its other end in @from_port; RW_NONE = a new one */
  guint end;        /* of it: 0 = from, 1 = to */
  guint home;       /* the port from which it was taken */
  guint to_device;  /* by keys; RW_NONE = not yet chosen */
  guint target;     /* port over which the verdict stands; RW_NONE = in the air */
  guint shown;      /* port to which the line is drawn */
  RwChange *change; /* (nullable) what letting go does */
} RwToolCable;

static RwToolCable *
cable_self (RwTool *tool)
{
  return (RwToolCable *) tool;
}

static const RwNet *
net_of (const RwToolCable *self)
{
  return rw_document_net (self->tool.document);
}

static const char *
title_of (const RwToolCable *self, guint device)
{
  return rw_device_title (net_of (self)->devices[device].device);
}

static void
cable_forget (RwTool *tool)
{
  RwToolCable *self = cable_self (tool);

  rw_wiring_clear (&self->wiring);
  g_clear_pointer (&self->change, rw_change_unref);
  self->cable = self->home = RW_NONE;
  self->from_device = self->from_port = self->to_device = self->target = self->shown = RW_NONE;
}

static gboolean
can_take (const RwToolCable *self, guint port)
{
  const RwNetDevice *start = &net_of (self)->devices[self->from_device];

  if (net_of (self)->ports[port].device == self->from_device || !rw_wiring_is_free (&self->wiring, port))
    return FALSE;
  if (self->from_port != RW_NONE)
    return rw_wiring_score (&self->wiring, self->from_port, port) > 0;
  for (guint i = start->first_port; i < start->first_port + start->n_ports; i++)
    if (rw_wiring_is_free (&self->wiring, i) && rw_wiring_score (&self->wiring, i, port) > 0)
      return TRUE;
  return FALSE;
}

static void
cable_start (RwToolCable *self, guint device, guint port)
{
  cable_forget (&self->tool);
  rw_wiring_init (&self->wiring, net_of (self));
  self->from_device = device;
  self->from_port = port;
}

static void
light_ports (RwToolCable *self)
{
  RwOverlay *overlay = &self->tool.overlay;

  overlay->dim_ports = TRUE;
  for (guint i = 0; i < net_of (self)->n_ports; i++)
    if (can_take (self, i))
      g_array_append_val (overlay->lit_ports, i);
}

/* --- The verdict --- */

static char *
fine_text (const RwToolCable *self, guint from, guint to)
{
  const RwNet *net = net_of (self);

  /* Translators: device and port at one end of a cable, device and port at the other */
  return g_strdup_printf (_("%s, %s – %s, %s"), title_of (self, net->ports[from].device), net->ports[from].port->name,
                          title_of (self, net->ports[to].device), net->ports[to].port->name);
}

static void
judge (RwToolCable *self, guint from, guint to)
{
  gboolean is_new = self->cable == RW_NONE;
  RwEdit *edit = rw_edit_new (rw_document_rig (self->tool.document), is_new ? _("Draw Cable") : _("Re-plug Cable"));
  g_autofree char *fine = fine_text (self, from, to);
  RwWiring trial = { self->wiring.net, g_memdup2 (self->wiring.taken, self->wiring.net->n_ports + 1) };

  if (is_new)
    rw_wiring_draw (&trial, edit, from, to);
  else
    rw_wiring_replug (&trial, edit, self->cable, self->end, to);
  rw_wiring_clear (&trial);
  self->change = rw_edit_finish (edit);
  rw_overlay_judge (&self->tool.overlay, self->tool.document, self->change, fine);
}

static void
refuse_medium (RwToolCable *self, guint from, guint to)
{
  const RwNet *net = net_of (self);
  /* Translators: two ports by name, for example “LAN 1” and “Fibre A” */
  g_autofree char *text = g_strdup_printf (_("“%s” and “%s” take different media: no cable fits both."),
                                           net->ports[from].port->name, net->ports[to].port->name);

  rw_overlay_refuse (&self->tool.overlay, text);
}

static void
refuse_full (RwToolCable *self, guint device)
{
  /* Translators: %s is a device */
  g_autofree char *text = g_strdup_printf (_("“%s” has no free port that goes with this one."), title_of (self, device));

  rw_overlay_refuse (&self->tool.overlay, text);
}

/* The end of the cable in the air lies at @at, or at the port @to; from there on the verdict says what it would do. */
static void
show_line (RwToolCable *self, guint from, guint to, RwPoint at)
{
  RwScene *scene = rw_document_scene (self->tool.document);
  RwOverlay *overlay = &self->tool.overlay;
  const RwScenePort *start = rw_scene_port (scene, from);
  guint n;
  RwPoint *points = to != RW_NONE ? rw_scene_route_ports (scene, from, to, &n)
                                  : rw_scene_route_loose (scene, start->tip, start->edge, at, &n);
  gboolean bad = overlay->verdict == RW_VERDICT_ERROR;

  g_array_set_size (overlay->loose, 0);
  rw_overlay_add_loose (overlay, points, n, to);
  g_array_index (overlay->loose, RwLooseCable, 0).bad = bad;
}

static void
hang (RwToolCable *self)
{
  g_clear_pointer (&self->change, rw_change_unref);
  self->target = RW_NONE;
  rw_overlay_unjudge (&self->tool.overlay);
}

/* --- By the hand --- */

/* Takes the cable drawn last out of @port: of several in one port that is the one too many. */
static void
take_out (RwToolCable *self, guint port)
{
  const RwNet *net = net_of (self);
  guint cable = net->n_cables - 1, end;

  while (net->cables[cable].port[0] != port && net->cables[cable].port[1] != port)
    cable--;
  end = net->cables[cable].port[1] == port;
  cable_start (self, net->ports[net->cables[cable].port[!end]].device, net->cables[cable].port[!end]);
  self->cable = cable;
  self->end = end;
  self->home = port;
  self->wiring.taken[port] = net->ports[port].n_cables > 1;
  self->tool.overlay.bent_cable = cable;
}

static gboolean
cable_begin (RwTool *tool, const RwToolPoint *point)
{
  RwToolCable *self = cable_self (tool);
  RwHit hit = rw_scene_hit (rw_document_scene (tool->document), point->at.x, point->at.y, point->slack_mm);

  if (hit.kind != RW_HIT_PORT)
    return FALSE;
  if (net_of (self)->ports[hit.index].n_cables > 0 && !(point->mods & RW_TOOL_MOD_CTRL))
    take_out (self, hit.index);
  else
    cable_start (self, net_of (self)->ports[hit.index].device, hit.index);
  light_ports (self);
  show_line (self, self->from_port, self->home, point->at);
  tool->overlay.from_port = self->from_port;
  return TRUE;
}

/* Back where it was: that is no change and never wrong. */
static void
aim_at_home (RwToolCable *self)
{
  RwOverlay *overlay = &self->tool.overlay;

  overlay->verdict = RW_VERDICT_FINE;
  overlay->verdict_text = fine_text (self, self->from_port, self->home);
}

static void
aim_at_port (RwToolCable *self, guint port)
{
  if (port == self->target)
    return;
  hang (self);
  if (port == self->from_port)
    return;
  self->target = port;
  if (port == self->home)
    aim_at_home (self);
  else if (rw_wiring_fits (&self->wiring, self->from_port, port))
    judge (self, self->from_port, port);
  else
    refuse_medium (self, self->from_port, port);
}

static void
aim_at_device (RwToolCable *self, guint device)
{
  guint from, to;

  if (self->home != RW_NONE && net_of (self)->ports[self->home].device == device)
    {
      aim_at_port (self, self->home);
      return;
    }
  if (device != self->from_device && rw_wiring_choose (&self->wiring, self->from_device, self->from_port, device, &from, &to))
    {
      aim_at_port (self, to);
      return;
    }
  hang (self);
  if (device != self->from_device)
    refuse_full (self, device);
}

static void
cable_motion (RwTool *tool, const RwToolPoint *point)
{
  RwToolCable *self = cable_self (tool);
  RwHit hit = rw_scene_hit (rw_document_scene (tool->document), point->at.x, point->at.y, point->slack_mm);
  guint to;

  if (self->from_port == RW_NONE) /* led by keys: the mouse may rest anywhere */
    return;
  if (hit.kind == RW_HIT_PORT)
    aim_at_port (self, hit.index);
  else if (hit.kind == RW_HIT_DEVICE)
    aim_at_device (self, hit.index);
  else
    hang (self);
  /* the way to a port stays as it is while the hand moves on over that port or device */
  to = self->change != NULL || self->target == self->home ? self->target : RW_NONE;
  if (to == RW_NONE || to != self->shown)
    show_line (self, self->from_port, to, point->at);
  self->shown = to;
  tool->overlay.verdict_at = point->at;
}

static RwChange *
cable_end (RwTool *tool, const RwToolPoint *point)
{
  RwToolCable *self = cable_self (tool);
  RwChange *change;

  cable_motion (tool, point);
  change = g_steal_pointer (&self->change);
  if (self->cable != RW_NONE) /* what was in the hand is what the next key is for */
    rw_selection_set (rw_document_selection (tool->document), rw_item_key (net_of (self)->cables[self->cable].cable));
  cable_forget (tool);
  return change;
}

/* --- By keys --- */

static RwPoint
middle (const RwRect *box)
{
  return (RwPoint) { box->x + box->w / 2, box->y + box->h / 2 };
}

/* Where the verdict stands when no hand points: under the device. */
static RwPoint
below (RwToolCable *self, guint device)
{
  const RwRect *box = &rw_scene_device (rw_document_scene (self->tool.document), device)->bounds;

  return (RwPoint) { box->x, box->y + box->h };
}

static gboolean
keys_begin (RwToolCable *self)
{
  RwTool *tool = &self->tool;
  const char *key = rw_selection_single (rw_document_selection (tool->document));
  guint device = key != NULL ? rw_net_find_device (net_of (self), key) : RW_NONE;

  if (device == RW_NONE)
    return FALSE;
  rw_overlay_clear (&tool->overlay);
  cable_start (self, device, RW_NONE);
  light_ports (self);
  tool->active = TRUE;
  rw_overlay_tell (&tool->overlay, _("Arrow keys choose the far end; Enter draws the cable."));
  tool->overlay.verdict_at = below (self, device);
  return TRUE;
}

/* A cable can be drawn from where this one starts to @device. */
static gboolean
has_room (const RwToolCable *self, guint device)
{
  guint from, to;

  return device != self->from_device
         && rw_wiring_choose (&self->wiring, self->from_device, RW_NONE, device, &from, &to);
}

/* The nearest device with a free port in the direction of @key from @from; what lies off to the side counts double. */
static guint
next_device (RwToolCable *self, guint from, RwToolKey key)
{
  static const RwPoint directions[] = {
    [RW_TOOL_KEY_LEFT] = { -1, 0 }, [RW_TOOL_KEY_RIGHT] = { 1, 0 }, [RW_TOOL_KEY_UP] = { 0, -1 }, [RW_TOOL_KEY_DOWN] = { 0, 1 },
  };
  RwScene *scene = rw_document_scene (self->tool.document);
  RwPoint here = middle (&rw_scene_device (scene, from)->box);
  RwPoint way = directions[key];
  double least = G_MAXDOUBLE;
  guint best = RW_NONE;

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      RwPoint there = middle (&rw_scene_device (scene, i)->box);
      double along = (there.x - here.x) * way.x + (there.y - here.y) * way.y;
      double aside = fabs ((there.x - here.x) * way.y) + fabs ((there.y - here.y) * way.x);

      if (i == from || along <= 0 || along + 2 * aside >= least || !has_room (self, i))
        continue;
      least = along + 2 * aside;
      best = i;
    }
  return best;
}

static void
keys_aim (RwToolCable *self, guint device)
{
  guint from = RW_NONE, to = RW_NONE;

  self->to_device = device;
  hang (self);
  g_array_set_size (self->tool.overlay.loose, 0);
  g_array_set_size (self->tool.overlay.swept, 0);
  g_array_append_val (self->tool.overlay.swept, device);
  self->tool.overlay.verdict_at = below (self, device);
  rw_wiring_choose (&self->wiring, self->from_device, RW_NONE, device, &from, &to);
  self->target = to;
  self->tool.overlay.from_port = from;
  judge (self, from, to);
  show_line (self, from, to, (RwPoint) { 0, 0 });
}

static gboolean
cable_key (RwTool *tool, RwToolKey key, RwToolMods mods, RwChange **change)
{
  RwToolCable *self = cable_self (tool);
  guint from = self->to_device != RW_NONE ? self->to_device : self->from_device;
  guint next;

  if (key == RW_TOOL_KEY_CABLE && !tool->active)
    return keys_begin (self);
  if (!tool->active || self->from_port != RW_NONE)
    return FALSE;
  if (key == RW_TOOL_KEY_ENTER)
    {
      *change = g_steal_pointer (&self->change);
      rw_tool_cancel (tool);
      return TRUE;
    }
  if (key > RW_TOOL_KEY_DOWN)
    return FALSE;
  next = next_device (self, from, key);
  if (next != RW_NONE)
    keys_aim (self, next);
  else if (self->to_device == RW_NONE)
    rw_overlay_refuse (&tool->overlay, _("No device that way has a free port that goes with one here."));
  return TRUE;
}

const RwToolClass rw_tool_cable_class = {
  .name = "cable",
  .size = sizeof (RwToolCable),
  .init = cable_forget,
  .begin = cable_begin,
  .motion = cable_motion,
  .end = cable_end,
  .cancel = cable_forget,
  .key = cable_key,
  .clear = cable_forget,
};
