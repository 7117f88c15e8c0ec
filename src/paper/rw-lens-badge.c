/* SPDX-License-Identifier: MIT */
/*
 * Where the badges of a lens stand: on the corner of their device where they cover the least, seen near and far out. Found
 * once for a scene.
 */
#include "rw-draw.h"
#include "rw-lens-private.h"
#include "rw-scene-private.h"

#define COST_COVER 100  /* for each other box, word, tab or badge that is covered */
#define COST_LINE 10    /* for each stretch of a line */
#define COST_WIDE 50    /* beside the box, for what is not about as wide as high: it would reach too far */
#define WIDE 1.6        /* that is from so many times its height on */
#define TOUCH 0.1       /* mm: what only touches is not covered */

typedef struct
{
  const RwLens *lens;
  const RwScene *scene;
  RwDrawContext *context;
  RwSceneIndex *badges; /* by device: where those before stand */
  gboolean far;
} Search;

static RwRect
within (const Search *s, guint device, RwRect rect)
{
  RwRect box = rw_scene_device (s->scene, device)->box;

  return (RwRect) { rect.x - box.x, rect.y - box.y, rect.w, rect.h };
}

/* Its box or one of its tabs; between these there is room for a badge of the device beside it. */
static gboolean
covers_device (const Search *s, guint device, RwRect rect)
{
  const RwShape *shape = rw_scene_geometry (s->scene, device)->shape;
  gboolean covers = rw_rects_overlap (rw_scene_device (s->scene, device)->box, rect);

  for (guint i = 0; i < shape->n_ports && !covers; i++)
    covers = rw_rects_overlap (shape->ports[i].tab, within (s, device, rect));
  return covers;
}

static guint
n_other_devices (const Search *s, guint device, RwRect rect)
{
  guint n, n_met = 0;
  const guint *ids = rw_router_boxes_in (s->scene->router, rect, &n);

  for (guint i = 0; i < n; i++)
    n_met += ids[i] != device && covers_device (s, ids[i], rect);
  return n_met;
}

static gboolean
covers_text (const RwSceneText *text, RwRect rect)
{
  return text->text != NULL && rw_rects_overlap (text->rect, rect);
}

/* @at: relative to the device's box. */
static guint
n_own_things (const RwGeometry *geometry, RwRect at)
{
  RwRect rect = rw_rect_grown (at, -TOUCH);
  guint n = covers_text (&geometry->name[0], rect) + covers_text (&geometry->name[1], rect) + covers_text (&geometry->part, rect)
            + (geometry->id.text != NULL && rw_rects_overlap (geometry->id_tab, rect));

  for (guint i = 0; i < geometry->shape->n_ports; i++)
    n += rw_rects_overlap (geometry->shape->ports[i].tab, rect) + covers_text (&geometry->shape->port_names[i], rect);
  return n;
}

/* Far out neither labels nor what is written in a box at its own size are to be seen, and lines are too close together
 * for any badge to keep off them. */
static guint
cost_at (const Search *s, guint device, RwRect rect)
{
  guint n_badges, n_lines, n = n_other_devices (s, device, rect);

  rw_scene_index_query (s->badges, rect, &n_badges);
  n += n_badges;
  if (s->far)
    return (n + rw_labeller_n_balloons (s->scene->labeller, rect)) * COST_COVER;
  rw_router_segments_in (s->scene->router, rect, &n_lines);
  n += rw_labeller_n_words (s->scene->labeller, rect) + n_own_things (rw_scene_geometry (s->scene, device), within (s, device, rect));
  return n * COST_COVER + n_lines * COST_LINE;
}

static gboolean
is_beside (RwCorner corner)
{
  return corner == RW_CORNER_RIGHT_TOP || corner == RW_CORNER_RIGHT_BOTTOM || corner == RW_CORNER_LEFT_TOP
         || corner == RW_CORNER_LEFT_BOTTOM;
}

/* The first of the cheapest. */
static RwCorner
free_corner (const Search *s, guint device)
{
  RwRect box = rw_scene_device (s->scene, device)->box, best_rect = { 0, 0, 0, 0 };
  RwCorner best = RW_CORNER_TOP_RIGHT;
  guint least = G_MAXUINT;

  for (RwCorner corner = 0; corner < RW_N_CORNERS && least > 0; corner++)
    {
      RwRect rect = rw_draw_badge_rect (s->context, box, corner, s->lens->badges[device], s->far);
      guint cost = cost_at (s, device, rect) + (is_beside (corner) && rect.w > WIDE * rect.h ? COST_WIDE : 0);

      if (cost >= least)
        continue;
      least = cost;
      best = corner;
      best_rect = rect;
    }
  rw_scene_index_insert (s->badges, device, best_rect);
  return best;
}

/**
 * rw_lens_place_badges: finds the corners on which the badges of @lens stand.
 * @lens: a lens
 * @scene: a scene of its net
 * @context: for measuring
 *
 * Returns: (transfer full): by device: what its badge covers where all is shown
 */
RwSceneIndex *
rw_lens_place_badges (RwLens *lens, const RwScene *scene, RwDrawContext *context)
{
  RwSceneIndex *places[2] = { rw_scene_index_new (20.0, NULL), rw_scene_index_new (20.0, NULL) };

  g_clear_pointer (&lens->corners, g_free);
  if (lens->badges != NULL)
    lens->corners = g_new0 (RwBadgeCorners, lens->net->n_devices + 1);
  for (guint far = 0; far < 2; far++)
    for (guint i = 0; lens->badges != NULL && i < lens->net->n_devices; i++)
      {
        Search search = { lens, scene, context, places[far], far != 0 };
        if (lens->badges[i] != NULL)
          lens->corners[i].at[far] = (guint8) free_corner (&search, i);
      }
  rw_scene_index_free (places[1]);
  return places[0];
}
