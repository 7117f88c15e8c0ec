/* SPDX-License-Identifier: MIT */
#include "rw-scene-private.h"

#include <math.h>

static gboolean
contains (RwRect r, double x, double y)
{
  return x >= r.x && x <= r.x + r.w && y >= r.y && y <= r.y + r.h;
}

/* How far (x, y) lies from @r; 0 within. */
static double
distance_to (RwRect r, double x, double y)
{
  double dx = MAX (MAX (r.x - x, x - r.x - r.w), 0.0), dy = MAX (MAX (r.y - y, y - r.y - r.h), 0.0);

  return hypot (dx, dy);
}

typedef struct
{
  double x, y, slack;
  double distance; /* of what was found; of several the nearest, then the first */
  RwHit hit;
} Aim;

static void
offer (Aim *aim, RwHitKind kind, guint index, guint segment, double distance)
{
  gboolean earlier = index < aim->hit.index || (index == aim->hit.index && segment < aim->hit.segment);

  if (distance > aim->slack || (aim->hit.kind != RW_HIT_NOTHING && (distance > aim->distance || (distance >= aim->distance && !earlier))))
    return;
  aim->distance = distance;
  aim->hit = (RwHit) { kind, index, segment };
}

static gboolean
in_inner_half (RwRect box, double x, double y)
{
  return contains ((RwRect) { box.x + box.w / 4.0, box.y + box.h / 4.0, box.w / 2.0, box.h / 2.0 }, x, y);
}

/* Far out the slack would leave nothing of a box by which to take it: in its inner half ports count only by themselves. */
static double
port_slack (const RwScene *scene, const guint *devices, guint n, const Aim *aim)
{
  for (guint i = 0; i < n; i++)
    if (in_inner_half (scene->devices[devices[i]].box, aim->x, aim->y))
      return 0.0;
  return aim->slack;
}

static void
offer_ports (const RwScene *scene, guint device, double slack, Aim *aim)
{
  const RwNetDevice *d = &scene->net->devices[device];

  for (guint k = 0; k < d->n_ports; k++)
    {
      double distance = distance_to (scene->ports[d->first_port + k].tab, aim->x, aim->y);

      if (distance <= slack)
        offer (aim, RW_HIT_PORT, d->first_port + k, 0, distance);
    }
}

static void
aim_at_devices (const RwScene *scene, Aim *aim)
{
  guint n;
  const guint *ids = rw_router_boxes_in (scene->router, (RwRect) { aim->x - aim->slack, aim->y - aim->slack, 2.0 * aim->slack, 2.0 * aim->slack }, &n);
  double slack = port_slack (scene, ids, n, aim);
  Aim device = *aim;

  for (guint i = 0; i < n; i++)
    {
      offer_ports (scene, ids[i], slack, aim);
      if (contains (scene->devices[ids[i]].box, aim->x, aim->y) && (device.hit.kind == RW_HIT_NOTHING || ids[i] > device.hit.index))
        device.hit = (RwHit) { RW_HIT_DEVICE, ids[i], 0 }; /* drawn last, lies on top */
    }
  for (guint i = 0; aim->hit.kind == RW_HIT_NOTHING && i < scene->balloons->len; i++)
    {
      const RwSceneBalloon *b = &g_array_index (scene->balloons, RwSceneBalloon, i);

      if (hypot (b->centre.x - aim->x, b->centre.y - aim->y) <= b->radius)
        offer (aim, RW_HIT_BALLOON, i, 0, 0.0);
    }
  if (aim->hit.kind == RW_HIT_NOTHING)
    aim->hit = device.hit;
}

static void
aim_at_cables (const RwScene *scene, Aim *aim)
{
  guint n;
  const guint *ids = rw_router_segments_in (scene->router, (RwRect) { aim->x - aim->slack, aim->y - aim->slack, 2.0 * aim->slack, 2.0 * aim->slack }, &n);
  Aim bend = *aim;

  for (guint i = 0; i < n; i++)
    {
      const RwRouteSegment *s = rw_router_segment (scene->router, ids[i]);
      const RwCable *cable = scene->net->cables[s->cable].cable;
      RwRect line = s->upright ? (RwRect) { s->at, s->lo, 0.0, s->hi - s->lo } : (RwRect) { s->lo, s->at, s->hi - s->lo, 0.0 };

      offer (aim, RW_HIT_CABLE, s->cable, s->number, distance_to (line, aim->x, aim->y));
      for (guint k = 0; k < cable->bends.n; k++)
        offer (&bend, RW_HIT_BEND, s->cable, k, hypot (cable->bends.points[k].x - aim->x, cable->bends.points[k].y - aim->y));
    }
  if (bend.hit.kind != RW_HIT_NOTHING)
    aim->hit = bend.hit;
}

/**
 * rw_scene_hit: what lies at (@x, @y) in sheet mm: ports before balloons before devices before bends before cables.
 * Ports, bends and cables count within @slack mm, but in the inner half of a device's box its ports only by themselves;
 * of several the nearest.
 */
RwHit
rw_scene_hit (const RwScene *scene, double x, double y, double slack)
{
  Aim aim = { x, y, MAX (slack, 0.0), G_MAXDOUBLE, { RW_HIT_NOTHING, 0, 0 } };

  g_return_val_if_fail (scene != NULL, aim.hit);

  aim_at_devices (scene, &aim);
  if (aim.hit.kind == RW_HIT_NOTHING)
    aim_at_cables (scene, &aim);
  return aim.hit;
}

static int
compare_indices (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return (x > y) - (x < y);
}

/* rw_scene_devices_in: indices (guint) of the devices whose box meets @area, ascending. Free with g_array_unref(). */
GArray *
rw_scene_devices_in (const RwScene *scene, RwRect area)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (guint));
  const guint *ids;
  guint n;

  g_return_val_if_fail (scene != NULL, found);

  ids = rw_router_boxes_in (scene->router, area, &n);
  for (guint i = 0; i < n; i++)
    if (rw_rects_touch (scene->devices[ids[i]].box, area))
      g_array_append_val (found, ids[i]);
  g_array_sort (found, compare_indices);
  return found;
}

static void
take_in (RwRect *all, RwRect r)
{
  double right = MAX (all->x + all->w, r.x + r.w), bottom = MAX (all->y + all->h, r.y + r.h);

  if (all->w < 0.0)
    {
      *all = r;
      return;
    }
  all->x = MIN (all->x, r.x);
  all->y = MIN (all->y, r.y);
  all->w = right - all->x;
  all->h = bottom - all->y;
}

/* rw_scene_bounds: all that is drawn, mm; w = h = 0 if that is nothing. */
RwRect
rw_scene_bounds (const RwScene *scene)
{
  RwRect all = { 0.0, 0.0, -1.0, 0.0 };

  g_return_val_if_fail (scene != NULL, all);

  for (guint i = 0; i < scene->n_devices; i++)
    take_in (&all, scene->devices[i].bounds);
  for (guint i = 0; i < scene->n_cables; i++)
    {
      take_in (&all, scene->cables[i].bounds);
      if (scene->cables[i].label.w > 0.0)
        take_in (&all, scene->cables[i].label);
    }
  for (guint i = 0; i < scene->balloons->len; i++)
    {
      const RwSceneBalloon *b = &g_array_index (scene->balloons, RwSceneBalloon, i);

      take_in (&all, (RwRect) { b->centre.x - b->radius, b->centre.y - b->radius, 2.0 * b->radius, 2.0 * b->radius });
    }
  return all.w < 0.0 ? (RwRect) { 0 } : all;
}
