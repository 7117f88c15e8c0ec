/* SPDX-License-Identifier: MIT */
/* The Failure lens under the hand: what is pressed fails, what is pressed again is put back. */
#include "rw-canvas-private.h"

/* What was deleted after it failed is forgotten; undoing the deletion brings it back failed. */
const char **
rw_canvas_failed (RwCanvas *self)
{
  GPtrArray *keys;
  GHashTableIter iter;
  gpointer key;

  g_return_val_if_fail (RW_IS_CANVAS (self), NULL);
  keys = g_ptr_array_new ();
  g_hash_table_iter_init (&iter, self->failed);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    if (rw_rig_find (rw_document_rig (self->document), key) != NULL)
      g_ptr_array_add (keys, key);
  g_ptr_array_add (keys, NULL);
  return (const char **) g_ptr_array_free (keys, FALSE);
}

guint
rw_canvas_n_failed (RwCanvas *self)
{
  g_autofree const char **keys = rw_canvas_failed (self);

  return g_strv_length ((char **) keys);
}

const RwOutcome *
rw_canvas_outcome (RwCanvas *self)
{
  g_return_val_if_fail (RW_IS_CANVAS (self), NULL);
  return rw_lens_outcome (self->lens);
}

/* Returns: (transfer full): for the scene that is shown */
RwLens *
rw_canvas_failure_lens (RwCanvas *self)
{
  const RwNet *net = rw_scene_net (self->shown_scene);
  g_autofree const char **ids = rw_canvas_failed (self);
  g_autoptr (RwFailed) failed = rw_failed_new (net, ids);

  return rw_lens_new_failure (net, failed);
}

void
rw_canvas_toggle_failed (RwCanvas *self, const char *key)
{
  g_return_if_fail (RW_IS_CANVAS (self));
  if (self->lens_kind != RW_LENS_FAILURE)
    return;
  if (key == NULL)
    g_hash_table_remove_all (self->failed);
  else if (!g_hash_table_remove (self->failed, key))
    g_hash_table_add (self->failed, g_strdup (key));
  rw_canvas_lens_renew (self);
  g_hash_table_remove_all (self->sprites);
  rw_canvas_marks_changed (self);
  g_object_notify (G_OBJECT (self), "failed");
}

/* Returns: %TRUE where there was something under the hand */
gboolean
rw_canvas_failure_press (RwCanvas *self, double x, double y)
{
  RwToolPoint point = rw_canvas_tool_point (self, x, y, 0, 1);
  const RwNet *net = rw_document_net (self->document);
  RwHit hit = rw_scene_hit (rw_document_scene (self->document), point.at.x, point.at.y, point.slack_mm);

  switch (hit.kind)
    {
    case RW_HIT_DEVICE:
      rw_canvas_toggle_failed (self, rw_item_key (net->devices[hit.index].device));
      return TRUE;
    case RW_HIT_PORT:
      rw_canvas_toggle_failed (self, rw_item_key (net->devices[net->ports[hit.index].device].device));
      return TRUE;
    case RW_HIT_CABLE:
    case RW_HIT_BEND:
      rw_canvas_toggle_failed (self, rw_item_key (net->cables[hit.index].cable));
      return TRUE;
    case RW_HIT_NOTHING:
    case RW_HIT_BALLOON:
    default:
      return FALSE;
    }
}

/* Returns: %FALSE in other lenses, and where nothing is selected */
gboolean
rw_canvas_failure_toggle_selected (RwCanvas *self)
{
  RwSelection *selection = rw_document_selection (self->document);
  RwRig *rig = rw_document_rig (self->document);
  static const RwItemType types[] = { RW_ITEM_DEVICE, RW_ITEM_CABLE };

  if (self->lens_kind != RW_LENS_FAILURE || rw_selection_n (selection) == 0)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (types); i++)
    {
      g_autofree const char **keys = rw_selection_keys (selection, rig, types[i]);

      for (guint k = 0; keys[k] != NULL; k++)
        rw_canvas_toggle_failed (self, keys[k]);
    }
  return TRUE;
}

static gboolean
ends_at (const RwNet *net, guint cable, guint device)
{
  return net->ports[net->cables[cable].port[0]].device == device || net->ports[net->cables[cable].port[1]].device == device;
}

/* The device that is selected, else the one whose cables were stepped through. */
static guint
device_of_steps (RwCanvas *self, const RwNet *net, const char *selected)
{
  guint device = rw_net_find_device (net, selected);

  if (device == RW_NONE)
    return self->failing_from != NULL ? rw_net_find_device (net, self->failing_from) : RW_NONE;
  g_free (self->failing_from);
  self->failing_from = g_strdup (selected);
  return device;
}

/* In the Failure lens the arrows move nothing: they choose among the selected device's cables, and back to it. */
gboolean
rw_canvas_failure_step (RwCanvas *self, int step)
{
  const RwNet *net = rw_document_net (self->document);
  RwSelection *selection = rw_document_selection (self->document);
  const char *selected = rw_selection_single (selection), *next;
  g_autoptr (GArray) stops = g_array_new (FALSE, FALSE, sizeof (guint)); /* RW_NONE = the device itself */
  guint device, at = 0, none = RW_NONE;

  if (self->lens_kind != RW_LENS_FAILURE || selected == NULL)
    return FALSE;
  device = device_of_steps (self, net, selected);
  if (device == RW_NONE)
    return FALSE;
  g_array_append_val (stops, none);
  for (guint i = 0; i < net->n_cables; i++)
    if (ends_at (net, i, device))
      {
        if (g_str_equal (rw_item_key (net->cables[i].cable), selected))
          at = stops->len;
        g_array_append_val (stops, i);
      }
  at = (at + stops->len + (guint) step) % stops->len;
  next = at == 0 ? rw_item_key (net->devices[device].device)
                 : rw_item_key (net->cables[g_array_index (stops, guint, at)].cable);
  rw_selection_set (selection, next);
  rw_canvas_reveal (self, next);
  return TRUE;
}
