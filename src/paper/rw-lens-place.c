/* SPDX-License-Identifier: MIT */
/*
 * Where the marks of a lens stand on the lines: each as near to the middle of its cable as there is room clear of
 * devices, labels, balloons and other marks. Found once for a scene; a cable that is laid anew after that goes without.
 */
#include <math.h>

#include "rw-draw.h"
#include "rw-lens-private.h"
#include "rw-scene-private.h"

#define COST_MARK 150.0     /* on another mark or a badge */
#define COST_OVERHANG 5.0   /* for each mm that is longer than its stretch of line */
#define COST_AWAY 0.06      /* for each mm from the middle of the cable */
#define COST_SHORT 2.0      /* without the details that there would be room for */
#define CLEAR 1.0           /* of line before and behind, mm */
#define STEP 3.0            /* between two places that are tried, mm */
#define MOST_TRIES 16       /* to either side of the middle of a stretch */
#define FINE 2.5            /* a place this cheap is taken without a look at others */

/* A size that a mark may have: on level or on upright lines. */
typedef struct { double w, h; gboolean upright, detailed; double cost; } Size;

typedef struct
{
  RwLens *lens;
  const RwScene *scene;
  RwDrawContext *context;
  RwSceneIndex *taken;  /* by cable: the other marks */
  RwSceneIndex *badges; /* by device */
  guint cable;
  double best;
  RwLensPlace place;
} Search;

static double
cost_at (Search *s, RwRect rect)
{
  guint n_marks, n_badges;

  rw_scene_index_query (s->taken, rect, &n_marks);
  rw_scene_index_query (s->badges, rect, &n_badges);
  return (n_marks + n_badges) * COST_MARK + rw_labeller_mark_cost (s->scene->labeller, s->cable, rect);
}

static void
try_at (Search *s, const Size *size, RwPoint centre, RwPoint along, double base)
{
  RwRect rect = { centre.x - size->w / 2, centre.y - size->h / 2, size->w, size->h };
  double cost;

  if (base >= s->best)
    return;
  cost = base + cost_at (s, rect);
  if (cost >= s->best)
    return;
  s->best = cost;
  s->place = (RwLensPlace) { centre, size->w, size->h, along, size->detailed };
}

/* From the middle of the stretch outwards. @before: length of the cable up to @a; @half: half of it all. */
static void
try_stretch (Search *s, const Size *size, RwPoint a, RwPoint b, double before, double half)
{
  double length = hypot (b.x - a.x, b.y - a.y), own = size->upright ? size->h : size->w;
  double overhang = MAX (0, own + 2 * CLEAR - length), room = MAX (0, length - own - 2 * CLEAR) / 2;
  RwPoint along = { (b.x - a.x) / MAX (length, 1e-9), (b.y - a.y) / MAX (length, 1e-9) };
  guint n = (guint) CLAMP (ceil (room / STEP), 1, MOST_TRIES);

  for (guint i = 0; i <= n && s->best > FINE; i++)
    for (int sign = -1; sign <= 1; sign += 2)
      {
        double way = length / 2 + sign * room * i / n;

        try_at (s, size, (RwPoint) { a.x + along.x * way, a.y + along.y * way }, along,
                size->cost + overhang * COST_OVERHANG + COST_AWAY * fabs (before + way - half));
      }
}

static double
length_of (const RwSceneCable *cable)
{
  double length = 0;

  for (guint i = 1; i < cable->n_points; i++)
    length += hypot (cable->points[i].x - cable->points[i - 1].x, cable->points[i].y - cable->points[i - 1].y);
  return length;
}

static void
try_size (Search *s, const Size *size)
{
  const RwSceneCable *cable = rw_scene_cable (s->scene, s->cable);
  double half = length_of (cable) / 2, before = 0;

  for (guint i = 1; i < cable->n_points; i++)
    {
      RwPoint a = cable->points[i - 1], b = cable->points[i];

      if ((fabs (a.x - b.x) < 1e-6) == !!size->upright)
        try_stretch (s, size, a, b, before, half);
      before += hypot (b.x - a.x, b.y - a.y);
    }
}

static Size
letter_size (Search *s, const char *mark)
{
  return (Size) { .w = rw_draw_mark_width (s->context, mark), .h = RW_MARK_HEIGHT };
}

static void
place_letters (Search *s, const char *mark)
{
  Size size = letter_size (s, mark);

  try_size (s, &size);
  size.upright = TRUE;
  try_size (s, &size);
}

static void
place_flow (Search *s, const RwLensFlow *flow)
{
  for (guint i = 0; i < 3; i++)
    {
      Size size = { .detailed = i == 0, .upright = i == 2, .cost = i == 0 ? 0 : COST_SHORT };

      rw_draw_flow_size (s->context, flow, size.detailed, size.upright, &size.w, &size.h);
      try_size (s, &size);
    }
}

static void
place_mark (Search *s)
{
  const RwLensFlow *flow = rw_lens_cable_flow (s->lens, s->cable);
  const char *mark = rw_lens_cable_mark (s->lens, s->cable);

  s->best = RW_MARK_ON_BOX;
  s->place = (RwLensPlace) { .w = 0 };
  if (flow != NULL)
    place_flow (s, flow);
  else if (mark != NULL)
    place_letters (s, mark);
  if (s->place.w > 0)
    rw_scene_index_insert (s->taken, s->cable,
                           (RwRect) { s->place.centre.x - s->place.w / 2, s->place.centre.y - s->place.h / 2, s->place.w, s->place.h });
  s->lens->places[s->cable] = s->place;
}

/**
 * rw_lens_place_marks:
 * @lens: a lens
 * @scene: a scene of its net
 *
 * Finds room for the marks and badges of the lens. To be called before the lens is drawn with by more than one thread.
 */
void
rw_lens_place_marks (RwLens *lens, const RwScene *scene)
{
  g_autoptr (RwDrawContext) context = rw_draw_context_new ();
  Search search = { .lens = lens, .scene = scene, .context = context };

  search.badges = rw_lens_place_badges (lens, scene, context);
  search.taken = rw_scene_index_new (20.0, NULL);
  g_clear_pointer (&lens->places, g_free);
  if (lens->marks != NULL || lens->flows != NULL)
    lens->places = g_new0 (RwLensPlace, lens->net->n_cables + 1);
  for (search.cable = 0; lens->places != NULL && search.cable < lens->net->n_cables; search.cable++)
    place_mark (&search);
  rw_scene_index_free (search.taken);
  rw_scene_index_free (search.badges);
}

static gboolean
lies_on (const RwSceneCable *cable, RwPoint p)
{
  for (guint i = 1; i < cable->n_points; i++)
    {
      RwPoint a = cable->points[i - 1], b = cable->points[i];

      if (p.x >= MIN (a.x, b.x) - 0.01 && p.x <= MAX (a.x, b.x) + 0.01 && p.y >= MIN (a.y, b.y) - 0.01
          && p.y <= MAX (a.y, b.y) + 0.01)
        return TRUE;
    }
  return FALSE;
}

/**
 * rw_lens_cable_place:
 * @lens: (nullable): a lens
 * @cable: index of a cable
 * @now: its line
 *
 * Returns: (nullable): where its mark stands; %NULL where none was looked for or the line has been laid anew since
 */
const RwLensPlace *
rw_lens_cable_place (const RwLens *lens, guint cable, const RwSceneCable *now)
{
  if (lens == NULL || lens->places == NULL)
    return NULL;
  return lens->places[cable].w <= 0 || lies_on (now, lens->places[cable].centre) ? &lens->places[cable] : NULL;
}
