/* SPDX-License-Identifier: MIT */
/* One sweep across several devices cables them one after the other. */
#include <glib/gi18n-lib.h>

#include "rw-tool-private.h"
#include "rw-tool-wiring.h"

typedef struct
{
  RwTool tool;
  RwPoint last;     /* where the hand was */
  RwChange *change; /* (nullable) */
} RwToolThread;

static RwToolThread *
thread_self (RwTool *tool)
{
  return (RwToolThread *) tool;
}

static void
thread_forget (RwTool *tool)
{
  g_clear_pointer (&thread_self (tool)->change, rw_change_unref);
}

/* Clips one axis of a stretch to [low, high]; @in and @out are parts of the stretch, 0 … 1. */
static gboolean
clip_axis (double at, double way, double low, double high, double *in, double *out)
{
  double a, b;

  if (way == 0)
    return at >= low && at <= high;
  a = (low - at) / way;
  b = (high - at) / way;
  *in = MAX (*in, MIN (a, b));
  *out = MIN (*out, MAX (a, b));
  return *in <= *out;
}

/* How far along the stretch from @a to @b (0 … 1) it enters @box; > 1 = it does not. */
static double
entry_into (const RwRect *box, RwPoint a, RwPoint b)
{
  double in = 0, out = 1;

  if (clip_axis (a.x, b.x - a.x, box->x, box->x + box->w, &in, &out)
      && clip_axis (a.y, b.y - a.y, box->y, box->y + box->h, &in, &out))
    return in;
  return 2;
}

static gboolean
is_swept (const RwOverlay *overlay, guint device)
{
  for (guint i = 0; i < overlay->swept->len; i++)
    if (g_array_index (overlay->swept, guint, i) == device)
      return TRUE;
  return FALSE;
}

/* Adds the devices that the hand crossed on its way to @to, in the order in which it met them. A fast hand crosses several. */
static gboolean
sweep (RwToolThread *self, RwPoint to)
{
  RwScene *scene = rw_document_scene (self->tool.document);
  RwOverlay *overlay = &self->tool.overlay;
  gboolean grew = FALSE;
  double after = -1;

  for (;;)
    {
      guint first = RW_NONE;
      double least = 2;

      for (guint i = 0; i < rw_scene_n_devices (scene); i++)
        {
          double entry = entry_into (&rw_scene_device (scene, i)->box, self->last, to);

          if (entry >= after && entry < least && !is_swept (overlay, i))
            {
              least = entry;
              first = i;
            }
        }
      if (first == RW_NONE)
        break;
      g_array_append_val (overlay->swept, first);
      after = least;
      grew = TRUE;
    }
  self->last = to;
  return grew;
}

/* What the @i-th swept device hangs on: the one before it, or, where that passes nothing on, the last one that does. */
static guint
upstream (const RwWiring *wiring, const GArray *swept, guint i)
{
  for (guint j = i; j-- > 0;)
    if (rw_wiring_passes_on (wiring, g_array_index (swept, guint, j)))
      return g_array_index (swept, guint, j);
  return g_array_index (swept, guint, i - 1);
}

static void
show_cable (RwToolThread *self, guint from, guint to)
{
  RwScene *scene = rw_document_scene (self->tool.document);
  guint n;
  RwPoint *points = rw_scene_route_ports (scene, from, to, &n);

  rw_overlay_add_loose (&self->tool.overlay, points, n, to);
}

static char *
full_text (RwToolThread *self, guint device)
{
  /* Translators: %s is a device */
  return g_strdup_printf (_("No free port joins “%s” to the device before it."),
                          rw_device_title (rw_document_net (self->tool.document)->devices[device].device));
}

static char *
fine_text (guint n_cables, guint n_joined)
{
  g_autofree char *cables = g_strdup_printf (ngettext ("%u cable", "%u cables", n_cables), n_cables);

  if (n_joined == 0)
    return g_steal_pointer (&cables);
  /* Translators: %s is “3 cables”; between some of the swept devices a cable is there and stays. */
  return g_strdup_printf (_("%s; the others are joined already"), cables);
}

/* What a sweep over cables that are there comes to. */
static char *
joined_text (RwToolThread *self)
{
  const RwNet *net = rw_document_net (self->tool.document);
  const GArray *swept = self->tool.overlay.swept;

  if (swept->len == 2)
    /* Translators: two devices */
    return g_strdup_printf (_("“%s” and “%s” are joined already."),
                            rw_device_title (net->devices[g_array_index (swept, guint, 0)].device),
                            rw_device_title (net->devices[g_array_index (swept, guint, 1)].device));
  return g_strdup_printf (ngettext ("%u device is joined already.", "%u devices are joined already.", swept->len),
                          swept->len);
}

/* A second cable between two that both pass frames on could only close a loop, and one of no audio network is not meant. */
static gboolean
is_done (const RwWiring *wiring, guint a, guint b)
{
  guint from, to;

  if (!rw_wiring_are_joined (wiring, a, b))
    return FALSE;
  return (rw_wiring_passes_on (wiring, a) && rw_wiring_passes_on (wiring, b))
         || !rw_wiring_choose (wiring, a, RW_NONE, b, &from, &to) || wiring->net->ports[from].port->side == RW_SIDE_AUX;
}

/* Cables all that is swept so far, from the start. */
static void
thread_cables (RwToolThread *self)
{
  RwDocument *document = self->tool.document;
  RwOverlay *overlay = &self->tool.overlay;
  guint n = overlay->swept->len, n_cables, n_joined = 0;
  g_autofree char *name = g_strdup_printf (ngettext ("Thread %u Device", "Thread %u Devices", n), n);
  g_autofree char *full = NULL;
  g_autofree char *fine = NULL;
  RwEdit *edit = rw_edit_new (rw_document_rig (document), name);
  RwWiring wiring;

  g_array_set_size (overlay->loose, 0);
  rw_wiring_init (&wiring, rw_document_net (document));
  for (guint i = 1; i < n; i++)
    {
      guint device = g_array_index (overlay->swept, guint, i), from, to;
      guint before = upstream (&wiring, overlay->swept, i);

      if (is_done (&wiring, before, device))
        n_joined++;
      else if (rw_wiring_choose (&wiring, before, RW_NONE, device, &from, &to))
        {
          rw_wiring_draw (&wiring, edit, from, to);
          show_cable (self, from, to);
        }
      else if (full == NULL)
        full = full_text (self, device);
    }
  rw_wiring_clear (&wiring);
  thread_forget (&self->tool);
  self->change = rw_edit_finish (edit);
  n_cables = overlay->loose->len;
  fine = fine_text (n_cables, n_joined);
  rw_overlay_judge (overlay, document, self->change, fine);
  if (full != NULL && overlay->verdict != RW_VERDICT_ERROR)
    rw_overlay_refuse (overlay, full);
  else if (n_joined == n - 1)
    {
      g_autofree char *joined = joined_text (self);

      rw_overlay_tell (overlay, joined);
    }
}

static gboolean
thread_begin (RwTool *tool, const RwToolPoint *point)
{
  RwToolThread *self = thread_self (tool);

  thread_forget (tool);
  self->last = point->at;
  sweep (self, point->at);
  return TRUE;
}

static void
thread_motion (RwTool *tool, const RwToolPoint *point)
{
  RwToolThread *self = thread_self (tool);

  if (sweep (self, point->at) && tool->overlay.swept->len > 1)
    thread_cables (self);
  tool->overlay.verdict_at = point->at;
}

static RwChange *
thread_end (RwTool *tool, const RwToolPoint *point)
{
  thread_motion (tool, point);
  return g_steal_pointer (&thread_self (tool)->change);
}

const RwToolClass rw_tool_thread_class = {
  .name = "thread",
  .size = sizeof (RwToolThread),
  .begin = thread_begin,
  .motion = thread_motion,
  .end = thread_end,
  .cancel = thread_forget,
  .clear = thread_forget,
};
