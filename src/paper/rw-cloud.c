/* SPDX-License-Identifier: MIT */
#include "rw-cloud.h"

#include <math.h>
#include <rig/rw-revision.h>

#define ROUND_DEVICE 4.0 /* mm between a thing and its cloud */
#define ROUND_CABLE 3.0
#define ROUND_PORT 3.0

struct _RwClouds
{
  gatomicrefcount refs;
  char *letter;
  GArray *rects;       /* of RwRect: while it is made */
  GPtrArray *outlines; /* of GArray of RwPoint */
  GArray *triangles;   /* of RwPoint, one an outline; holes have NAN */
  GPtrArray *ghosts;   /* of RwCloudGhost */
  RwRect bounds;
};

static void
ghost_free (gpointer data)
{
  g_free (((RwCloudGhost *) data)->name);
  g_free (data);
}

static RwRect
wider (RwRect rect, double by)
{
  return (RwRect) { rect.x - by, rect.y - by, rect.w + 2 * by, rect.h + 2 * by };
}

static RwRect
joined (RwRect a, RwRect b)
{
  double x = MIN (a.x, b.x), y = MIN (a.y, b.y);

  if (a.w <= 0)
    return b;
  return (RwRect) { x, y, MAX (a.x + a.w, b.x + b.w) - x, MAX (a.y + a.h, b.y + b.h) - y };
}

static void
add_rect (RwClouds *clouds, RwRect rect)
{
  g_array_append_val (clouds->rects, rect);
}

static RwRect
segment_rect (const RwPoint *points)
{
  double x = MIN (points[0].x, points[1].x), y = MIN (points[0].y, points[1].y);

  return (RwRect) { x, y, MAX (points[0].x, points[1].x) - x, MAX (points[0].y, points[1].y) - y };
}

static void
add_device (RwClouds *clouds, const RwScene *scene, const char *id)
{
  guint device = rw_net_find_device (rw_scene_net (scene), id);

  if (device != RW_NONE)
    add_rect (clouds, wider (rw_scene_device (scene, device)->bounds, ROUND_DEVICE));
}

static void
add_cable (RwClouds *clouds, const RwScene *scene, const char *id)
{
  guint index = rw_net_find_cable (rw_scene_net (scene), id);
  const RwSceneCable *cable;

  if (index == RW_NONE)
    return;
  cable = rw_scene_cable (scene, index);
  for (guint i = 0; i + 1 < cable->n_points; i++)
    add_rect (clouds, wider (segment_rect (&cable->points[i]), ROUND_CABLE));
  if (cable->label.w > 0)
    add_rect (clouds, wider (cable->label, ROUND_CABLE / 2));
}

/* Where a cable was plugged that is gone, if the port is still there. */
static RwRect
port_rect (const RwScene *scene, const RwEnd *end)
{
  const RwNet *net = rw_scene_net (scene);
  guint port = rw_net_find_port (net, end->device, end->port);

  return port != RW_NONE ? wider (rw_scene_port (scene, port)->tab, ROUND_PORT) : (RwRect) { 0 };
}

static void
add_gone_cable (RwClouds *clouds, const RwScene *scene, const RwCable *cable)
{
  const RwEnd *ends[] = { &cable->from, &cable->to };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      RwRect rect = port_rect (scene, ends[i]);

      if (rect.w > 0)
        add_rect (clouds, rect);
    }
}

static RwRect
gone_box (const RwRig *older, const RwDevice *device)
{
  const RwPart *part = rw_rig_part (older, device->part);
  RwRect box = part != NULL ? rw_scene_part_box (part, device->name) : (RwRect) { 0, 0, 30, 20 };

  return (RwRect) { device->at.x, device->at.y, box.w, box.h };
}

/* One that never had a place leaves no ghost. */
static void
add_gone_device (RwClouds *clouds, const RwRig *older, const RwDevice *device)
{
  RwCloudGhost *ghost;

  if (!rw_item_has (device, RW_DEVICE_AT))
    return;
  ghost = g_new0 (RwCloudGhost, 1);
  ghost->rect = gone_box (older, device);
  ghost->name = g_strdup (rw_device_title (device));
  g_ptr_array_add (clouds->ghosts, ghost);
  add_rect (clouds, wider (ghost->rect, ROUND_DEVICE));
}

/* A part shows in each device that is one. */
static void
add_devices_of (RwClouds *clouds, const RwScene *scene, const char *part)
{
  const RwNet *net = rw_scene_net (scene);

  for (guint i = 0; i < net->n_devices; i++)
    if (g_strcmp0 (net->devices[i].device->part, part) == 0)
      add_device (clouds, scene, rw_item_key ((gconstpointer) net->devices[i].device));
}

/* What a row or a channel belongs to. It does not show on the drawing. */
static void
add_owners (RwClouds *clouds, const RwScene *scene, const RwItem *item)
{
  if (item == NULL)
    return;
  if (item->type == RW_ITEM_PATCH)
    {
      add_device (clouds, scene, ((const RwPatchRow *) item)->from.device);
      add_device (clouds, scene, ((const RwPatchRow *) item)->to.device);
    }
  else if (item->type == RW_ITEM_INSIDE)
    add_device (clouds, scene, ((const RwInsideRow *) item)->device);
  else if (item->type == RW_ITEM_CHANNEL)
    add_device (clouds, scene, ((const RwChannel *) item)->device);
}

/* Devices, cables and parts: what shows on the drawing. */
static void
add_difference (RwClouds *clouds, const RwScene *scene, const RwRig *older, const RwDifference *difference)
{
  const char *key = rw_difference_key (difference);
  gboolean is_there = difference->after != NULL;

  if (difference->type == RW_ITEM_DEVICE && is_there)
    add_device (clouds, scene, key);
  else if (difference->type == RW_ITEM_DEVICE)
    add_gone_device (clouds, older, (const RwDevice *) difference->before);
  else if (difference->type == RW_ITEM_CABLE && is_there)
    add_cable (clouds, scene, key);
  else if (difference->type == RW_ITEM_CABLE)
    add_gone_cable (clouds, scene, (const RwCable *) difference->before);
  else if (difference->type == RW_ITEM_PART && is_there && difference->before != NULL)
    add_devices_of (clouds, scene, key);
}

static char *
letter_for (const RwRig *older, const RwRig *newer)
{
  const char *was = rw_rig_show (older)->revision, *is = rw_rig_show (newer)->revision;

  if (is != NULL && *is != '\0' && g_strcmp0 (was, is) != 0)
    return g_strdup (is);
  return rw_rig_n (newer, RW_ITEM_REVISION) > 0 ? rw_revision_next_letter (newer)
                                                : rw_revision_letter_after (is != NULL ? is : "");
}

/* Clockwise on the sheet, whose y runs down; holes are not. */
static gboolean
is_outer (const GArray *outline)
{
  const RwPoint *p = (const RwPoint *) outline->data;
  double area = 0;

  for (guint i = 0; i < outline->len; i++)
    area += p[i].x * p[(i + 1) % outline->len].y - p[(i + 1) % outline->len].x * p[i].y;
  return area > 0;
}

static gboolean
meet (RwRect a, RwRect b)
{
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

/* How much of what can be read a triangle round @centre would cover. */
static guint
covered (const RwClouds *clouds, const RwScene *scene, RwPoint centre)
{
  RwRect rect = { centre.x - 4.5, centre.y - 5, 9, 8 };
  g_autoptr (GArray) devices = rw_scene_devices_in (scene, rect);
  guint n = devices->len * 4;

  for (guint i = 0; i < clouds->triangles->len; i++)
    {
      RwPoint other = g_array_index (clouds->triangles, RwPoint, i);

      n += 4 * (fabs (other.x - centre.x) < 9 && fabs (other.y - centre.y) < 8);
    }
  for (guint i = 0; n == 0 && i < rw_scene_n_cables (scene); i++)
    n += rw_scene_cable (scene, i)->label.w > 0 && meet (rw_scene_cable (scene, i)->label, rect);
  return n;
}

/* Outside the middle of an edge, where it covers the least; of equal places the topmost. */
static RwPoint
triangle_place (const RwClouds *clouds, const RwScene *scene, const GArray *outline)
{
  const RwPoint *p = (const RwPoint *) outline->data;
  RwPoint best = { 0 };
  double best_cost = G_MAXDOUBLE, out = RW_CLOUD_ROOM + RW_CLOUD_TRIANGLE / 3;

  for (guint i = 0; i < outline->len; i++)
    {
      const RwPoint *a = &p[i], *b = &p[(i + 1) % outline->len];
      double length = hypot (b->x - a->x, b->y - a->y);
      RwPoint at = { (a->x + b->x) / 2 + (b->y - a->y) / length * out, (a->y + b->y) / 2 - (b->x - a->x) / length * out };
      double cost = covered (clouds, scene, at) * 1e6 + at.y - at.x * 1e-3;

      if (cost >= best_cost)
        continue;
      best = at;
      best_cost = cost;
    }
  return best;
}

static void
place_triangles (RwClouds *clouds, const RwScene *scene)
{
  clouds->triangles = g_array_new (FALSE, FALSE, sizeof (RwPoint));
  for (guint i = 0; i < clouds->outlines->len; i++)
    {
      const GArray *outline = clouds->outlines->pdata[i];
      RwPoint place = is_outer (outline) ? triangle_place (clouds, scene, outline) : (RwPoint) { NAN, NAN };

      g_array_append_val (clouds->triangles, place);
    }
}

/**
 * rw_clouds_new: what changed from @older to @newer, round the things of @scene, which is of @newer. A cable that is gone
 * leaves clouds at its ports, a device a ghost where it stood. Free with rw_clouds_unref().
 */
RwClouds *
rw_clouds_new (const RwRig *older, const RwRig *newer, const RwScene *scene)
{
  RwClouds *clouds = g_new0 (RwClouds, 1);
  g_autoptr (GPtrArray) differences = rw_differences_new (older, newer);

  g_atomic_ref_count_init (&clouds->refs);
  clouds->letter = letter_for (older, newer);
  clouds->rects = g_array_new (FALSE, FALSE, sizeof (RwRect));
  clouds->ghosts = g_ptr_array_new_with_free_func (ghost_free);
  for (guint i = 0; i < differences->len; i++)
    add_difference (clouds, scene, older, differences->pdata[i]);
  for (guint i = 0; i < clouds->rects->len; i++)
    clouds->bounds = joined (clouds->bounds, g_array_index (clouds->rects, RwRect, i));
  clouds->outlines = rw_cloud_outlines ((const RwRect *) clouds->rects->data, clouds->rects->len);
  place_triangles (clouds, scene);
  return clouds;
}

RwClouds *
rw_clouds_ref (RwClouds *clouds)
{
  g_atomic_ref_count_inc (&clouds->refs);
  return clouds;
}

void
rw_clouds_unref (RwClouds *clouds)
{
  if (clouds == NULL || !g_atomic_ref_count_dec (&clouds->refs))
    return;
  g_ptr_array_unref (clouds->outlines);
  g_array_unref (clouds->triangles);
  g_ptr_array_unref (clouds->ghosts);
  g_array_unref (clouds->rects);
  g_free (clouds->letter);
  g_free (clouds);
}

const char *
rw_clouds_letter (const RwClouds *clouds)
{
  return clouds->letter;
}

guint
rw_clouds_n (const RwClouds *clouds)
{
  return clouds->outlines->len;
}

const RwPoint *
rw_clouds_outline (const RwClouds *clouds, guint index, guint *n_points)
{
  const GArray *outline = clouds->outlines->pdata[index];

  *n_points = outline->len;
  return (const RwPoint *) outline->data;
}

gboolean
rw_clouds_triangle (const RwClouds *clouds, guint index, RwPoint *centre)
{
  *centre = g_array_index (clouds->triangles, RwPoint, index);
  return !isnan (centre->x);
}

guint
rw_clouds_n_ghosts (const RwClouds *clouds)
{
  return clouds->ghosts->len;
}

const RwCloudGhost *
rw_clouds_ghost (const RwClouds *clouds, guint index)
{
  return clouds->ghosts->pdata[index];
}

RwRect
rw_clouds_bounds (const RwClouds *clouds)
{
  return clouds->bounds;
}

/**
 * rw_clouds_place: for a window that brings into sight what a line of the list speaks of.
 */
RwRect
rw_clouds_place (const RwScene *scene, const RwRig *older, const RwDifference *difference)
{
  RwClouds part = { .rects = g_array_new (FALSE, FALSE, sizeof (RwRect)), .ghosts = g_ptr_array_new_with_free_func (ghost_free) };
  RwRect place = { 0 };

  add_difference (&part, scene, older, difference);
  add_owners (&part, scene, difference->after != NULL ? difference->after : difference->before);
  for (guint i = 0; i < part.rects->len; i++)
    place = joined (place, g_array_index (part.rects, RwRect, i));
  g_array_unref (part.rects);
  g_ptr_array_unref (part.ghosts);
  return place;
}
