/* SPDX-License-Identifier: MIT */
/* The lens through which the sheet is seen, and the way from where hops are counted to what is pointed at. */
#include <glib/gi18n-lib.h>
#include <net/rw-hops.h>

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
  self->lens = rw_lens_new (shown_net (self), self->lens_kind, from_device (self));
  rw_lens_place_marks (self->lens, self->shown_scene);
  rw_canvas_legend_changed (self);
  rw_tiles_touch_all (self->tiles);
}

void
rw_canvas_lens_clear (RwCanvas *self)
{
  rw_canvas_legend_clear (self);
  g_clear_pointer (&self->lens, rw_lens_unref);
  g_clear_pointer (&self->lens_from, g_free);
  self->lens_pointed = RW_NONE;
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
  self->lens_kind = kind;
  rw_canvas_lens_renew (self);
  rw_tiles_touch_all (self->tiles);
  g_hash_table_remove_all (self->sprites);
  rw_canvas_marks_changed (self);
  g_object_notify (G_OBJECT (self), "lens");
}

static void
add_ends (const RwNet *net, const GArray *cables, GArray *devices)
{
  for (guint i = 0; i < cables->len; i++)
    for (guint end = 0; end < 2; end++)
      g_array_append_val (devices, net->ports[net->cables[g_array_index (cables, guint, i)].port[end]].device);
}

/* In the Hops lens, lights the way to the device under the hand. */
void
rw_canvas_lens_point (RwCanvas *self, RwPoint mm)
{
  RwHit hit = { RW_HIT_NOTHING, 0, 0 };
  g_autoptr (GArray) cables = NULL;
  g_autoptr (GArray) devices = NULL;

  if (self->lens == NULL || self->shown_scene == NULL || rw_lens_from (self->lens) == RW_NONE)
    return;
  hit = rw_scene_hit (self->shown_scene, mm.x, mm.y, 0);
  if (hit.kind != RW_HIT_DEVICE)
    {
      drop_way (self);
      return;
    }
  if (hit.index == self->lens_pointed)
    return;
  self->lens_pointed = hit.index;
  cables = g_array_new (FALSE, FALSE, sizeof (guint));
  devices = g_array_new (FALSE, FALSE, sizeof (guint));
  rw_net_device_way (shown_net (self), rw_lens_from (self->lens), hit.index, cables);
  g_array_append_val (devices, hit.index);
  add_ends (shown_net (self), cables, devices);
  rw_canvas_set_way (self, devices, cables);
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

/* (transfer full) (nullable): what the Hops lens says of the device pointed at, else of @device (RW_NONE = none). */
char *
rw_canvas_lens_text (RwCanvas *self, guint device)
{
  const RwNet *net;
  g_autoptr (GArray) cables = g_array_new (FALSE, FALSE, sizeof (guint));
  guint from, hops;
  double metres;

  if (self->lens == NULL || self->shown_scene == NULL || rw_lens_from (self->lens) == RW_NONE)
    return NULL;
  if (self->lens_pointed != RW_NONE)
    device = self->lens_pointed;
  from = rw_lens_from (self->lens);
  net = shown_net (self);
  if (device == RW_NONE || device >= net->n_devices || device == from)
    return NULL;
  hops = rw_net_device_way (net, from, device, cables);
  if (hops == RW_NONE)
    /* Translators: two devices */
    return g_strdup_printf (_("%s: no frame gets there from %s"), title_of (net, device), title_of (net, from));
  metres = metres_of (net, cables);
  if (metres <= 0)
    /* Translators: a device, a number of bridges, a device */
    return g_strdup_printf (ngettext ("%s: %u bridge from %s", "%s: %u bridges from %s", hops), title_of (net, device), hops,
                            title_of (net, from));
  /* Translators: a device, a number of bridges, metres, a device */
  return g_strdup_printf (ngettext ("%s: %u bridge and %.4g m of cable from %s", "%s: %u bridges and %.4g m of cable from %s", hops),
                          title_of (net, device), hops, metres, title_of (net, from));
}
