/* SPDX-License-Identifier: MIT */
/* The lens through which the sheet is seen, and the way to what is pointed at. */
#include <glib/gi18n-lib.h>
#include <net/rw-hops.h>
#include <rig/rw-length.h>

#include "rw-canvas-private.h"

static const RwNet *
shown_net (RwCanvas *self)
{
  return rw_scene_net (self->shown_scene);
}

static guint
from_device (RwCanvas *self)
{
  return self->lens_from != NULL ? rw_net_find_device (shown_net (self), self->lens_from) : RW_NONE;
}

static void
drop_way (RwCanvas *self)
{
  if (self->lens_pointed == RW_NONE)
    return;
  self->lens_pointed = RW_NONE;
  rw_canvas_set_way (self, NULL, NULL);
}

/* Makes the lens anew for the scene that is shown; the Wiring lens is none. */
void
rw_canvas_lens_renew (RwCanvas *self)
{
  drop_way (self);
  rw_canvas_legend_clear (self);
  g_clear_pointer (&self->lens, rw_lens_unref);
  if (self->lens_kind == RW_LENS_WIRING || self->shown_scene == NULL)
    return;
  if (self->lens_kind == RW_LENS_FAILURE)
    self->lens = rw_canvas_failure_lens (self);
  else
    self->lens = rw_lens_new (shown_net (self), self->lens_kind, from_device (self));
  rw_lens_place_marks (self->lens, self->shown_scene);
  rw_canvas_legend_changed (self);
  rw_tiles_touch_all (self->tiles);
  rw_canvas_path_changed (self);
}

void
rw_canvas_lens_clear (RwCanvas *self)
{
  rw_canvas_legend_clear (self);
  g_clear_pointer (&self->lens, rw_lens_unref);
  g_clear_pointer (&self->lens_from, g_free);
  self->lens_pointed = RW_NONE;
}

const char *
rw_canvas_lens_from (RwCanvas *self)
{
  return self->lens_from;
}

RwLensKind
rw_canvas_lens (RwCanvas *self)
{
  return self->lens_kind;
}

void
rw_canvas_set_lens (RwCanvas *self, RwLensKind kind, const char *from)
{
  char *device = g_strdup (from);

  g_return_if_fail (RW_IS_CANVAS (self));
  g_free (self->lens_from);
  self->lens_from = device;
  if (kind != RW_LENS_FAILURE)
    g_hash_table_remove_all (self->failed);
  self->lens_kind = kind;
  rw_canvas_lens_renew (self);
  rw_tiles_touch_all (self->tiles);
  g_hash_table_remove_all (self->sprites);
  rw_canvas_marks_changed (self);
  g_object_notify (G_OBJECT (self), "lens");
  g_object_notify (G_OBJECT (self), "failed");
}

static void
add_ends (const RwNet *net, const GArray *cables, GArray *devices)
{
  for (guint i = 0; i < cables->len; i++)
    for (guint end = 0; end < 2; end++)
      g_array_append_val (devices, net->ports[net->cables[g_array_index (cables, guint, i)].port[end]].device);
}

/* Where the way to @device begins: at its controller where ways to controllers are shown, else where hops are counted
 * from. RW_NONE = there is no way to show. */
static guint
way_from (RwCanvas *self, guint device)
{
  if (self->shown_scene == NULL || self->lens_kind == RW_LENS_FAILURE)
    return RW_NONE;
  if (self->path_shown)
    return rw_net_controller_of (shown_net (self), device);
  return self->lens != NULL ? rw_lens_from (self->lens) : RW_NONE;
}

/* Nothing moves for it: what is pointed at is in sight. */
static void
light_way (RwCanvas *self, guint device)
{
  g_autoptr (GArray) cables = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) devices = g_array_new (FALSE, FALSE, sizeof (guint));
  guint from = way_from (self, device);

  if (from != RW_NONE)
    rw_net_device_way (shown_net (self), from, device, cables);
  g_array_append_val (devices, device);
  add_ends (shown_net (self), cables, devices);
  rw_canvas_light_way (self, devices, cables);
}

static guint
selected_device (RwCanvas *self)
{
  const char *key = rw_selection_single (rw_document_selection (self->document));

  return key != NULL ? rw_net_find_device (shown_net (self), key) : RW_NONE;
}

/* Lights the way to the device under the hand, else to the one that is selected. */
static void
show_way (RwCanvas *self, guint pointed)
{
  guint device = pointed == RW_NONE && self->path_shown ? selected_device (self) : pointed;

  if (device == RW_NONE || (way_from (self, device) == RW_NONE && !self->path_shown))
    {
      drop_way (self);
      return;
    }
  if (device == self->lens_pointed)
    return;
  self->lens_pointed = device;
  light_way (self, device);
}

/* The hand is at @mm. */
void
rw_canvas_lens_point (RwCanvas *self, RwPoint mm)
{
  RwHit hit;

  if (self->shown_scene == NULL || (!self->path_shown && (self->lens == NULL || rw_lens_from (self->lens) == RW_NONE)))
    return;
  hit = rw_scene_hit (self->shown_scene, mm.x, mm.y, 0);
  show_way (self, hit.kind == RW_HIT_DEVICE ? hit.index : RW_NONE);
}

/* Another device is selected. */
void
rw_canvas_path_changed (RwCanvas *self)
{
  if (self->path_shown && self->shown_scene != NULL)
    show_way (self, RW_NONE);
}

/* Whether the way of what is pointed at, or selected, to its controller is lit. */
void
rw_canvas_show_path (RwCanvas *self, gboolean shown)
{
  if (self->path_shown == shown)
    return;
  drop_way (self);
  self->path_shown = shown;
  if (shown && self->shown_scene != NULL)
    rw_canvas_lens_point (self, rw_canvas_to_sheet (self, self->pointer));
  g_object_notify (G_OBJECT (self), "path");
}

static double
metres_of (const RwNet *net, const GArray *cables)
{
  double metres = 0;

  for (guint i = 0; i < cables->len; i++)
    {
      double length = net->cables[g_array_index (cables, guint, i)].cable->length_m;

      if (length <= 0)
        return 0;
      metres += length;
    }
  return metres;
}

static const char *
title_of (const RwNet *net, guint device)
{
  return rw_device_title (net->devices[device].device);
}

/* "123.4 µs", what a frame takes at most; (transfer full) (nullable) */
static char *
delay_text (RwCanvas *self, guint device, guint controller)
{
  double delay_ns = rw_net_device_delay_ns (rw_document_rig (self->document), shown_net (self), device, controller);

  /* Translators: a planned delay in microseconds */
  return delay_ns >= 0 ? g_strdup_printf (_("planned for %.1f µs"), delay_ns / 1000) : NULL;
}

static char *
way_text (RwCanvas *self, guint device, guint from)
{
  const RwNet *net = shown_net (self);
  g_autoptr (GArray) cables = g_array_new (FALSE, FALSE, sizeof (guint));
  guint hops = rw_net_device_way (net, from, device, cables);
  double metres = metres_of (net, cables);
  g_autofree char *length = NULL;

  if (hops == RW_NONE)
    /* Translators: two devices */
    return g_strdup_printf (_("%s: no frame gets there from %s"), title_of (net, device), title_of (net, from));
  if (metres <= 0)
    /* Translators: a device, a number of bridges, a device */
    return g_strdup_printf (ngettext ("%s: %u bridge from %s", "%s: %u bridges from %s", hops), title_of (net, device), hops,
                            title_of (net, from));
  length = rw_length_text (metres);
  /* Translators: a device, a number of bridges, a length, a device */
  return g_strdup_printf (ngettext ("%s: %u bridge and %s of cable from %s", "%s: %u bridges and %s of cable from %s", hops),
                          title_of (net, device), hops, length, title_of (net, from));
}

/* (transfer full) (nullable): what is said of the way to the device pointed at, else to @device (RW_NONE = none). */
char *
rw_canvas_lens_text (RwCanvas *self, guint device)
{
  g_autofree char *way = NULL, *delay = NULL;
  guint from;

  if (self->lens_pointed != RW_NONE)
    device = self->lens_pointed;
  if (self->shown_scene == NULL || device == RW_NONE || device >= shown_net (self)->n_devices)
    return NULL;
  from = way_from (self, device);
  if (from == RW_NONE && self->path_shown && self->lens_kind != RW_LENS_FAILURE
      && shown_net (self)->devices[device].part->kind != RW_PART_CONTROLLER)
    /* Translators: a device */
    return g_strdup_printf (_("%s reaches no controller"), title_of (shown_net (self), device));
  if (from == RW_NONE || from == device)
    return NULL;
  way = way_text (self, device, from);
  delay = self->path_shown ? delay_text (self, device, from) : NULL;
  return delay != NULL ? g_strconcat (way, ", ", delay, NULL) : g_steal_pointer (&way);
}
