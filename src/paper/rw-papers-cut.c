/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-papers-parts.h"

#define MOST_PLACES 4000
#define BESIDE 1.5       /* mm; a line so near a cut is hard to tell from it */
#define COST_DEVICE RW_CUT_DEVICE
#define COST_BALLOON 8
#define COST_LABEL 6
#define COST_ALONG 2     /* a line along a cut, and 1 more for each 10 mm of it */
#define MOST_ALONG 20

/* One way along which the drawing is cut into @n pieces of at most @most mm. */
typedef struct
{
  double from, to, step, most;
  gboolean down;
  guint n;
  guint n_places;  /* @step apart, the first at @from */
  guint *cost;     /* of a cut there */
} Cutting;

/**
 * rw_cut_step: how far apart the places lie at which a drawing may be cut that is @length mm long.
 */
double
rw_cut_step (double length)
{
  return MAX (2.5, length / MOST_PLACES);
}

/* Adds to the cost of all cuts that meet what is between @low and @high. */
static void
add_cost (Cutting *c, double low, double high, guint cost)
{
  int first = MAX (0, (int) ceil ((low - c->from) / c->step));
  int last = MIN ((int) c->n_places - 1, (int) floor ((high - c->from) / c->step));

  for (int k = first; k <= last; k++)
    c->cost[k] += cost;
}

static void
add_rect (Cutting *c, RwRect r, guint cost)
{
  double low = c->down ? r.y : r.x;

  add_cost (c, low, low + (c->down ? r.h : r.w), cost);
}

static void
add_cable (Cutting *c, const RwSceneCable *cable)
{
  for (guint i = 0; i + 1 < cable->n_points; i++)
    {
      RwPoint a = cable->points[i], b = cable->points[i + 1];
      double across = c->down ? fabs (a.y - b.y) : fabs (a.x - b.x), at = c->down ? a.y : a.x;
      double length = c->down ? fabs (a.x - b.x) : fabs (a.y - b.y);

      if (across < 1e-6)
        add_cost (c, at - BESIDE, at + BESIDE, MIN (MOST_ALONG, COST_ALONG + (guint) (length / 10)));
    }
  if (cable->label.w > 0)
    add_rect (c, cable->label, COST_LABEL);
}

static void
add_costs (Cutting *c, const RwScene *scene)
{
  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    add_rect (c, rw_scene_device (scene, i)->bounds, COST_DEVICE);
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    add_cable (c, rw_scene_cable (scene, i));
  for (guint i = 0; i < rw_scene_n_balloons (scene); i++)
    {
      const RwSceneBalloon *b = rw_scene_balloon (scene, i);

      add_rect (c, (RwRect) { b->centre.x - b->radius, b->centre.y - b->radius, 2 * b->radius, 2 * b->radius }, COST_BALLOON);
    }
}

/* The cheapest cuts, by dynamic programming over the places; @cuts: (out): n + 1. Returns what they cost. */
static guint
cheapest_cuts (const Cutting *c, double *cuts)
{
  guint reach = (guint) floor (c->most / c->step + 1e-9), n = c->n_places;
  g_autofree guint *least = g_new (guint, (gsize) c->n * n);
  g_autofree guint *from = g_new0 (guint, (gsize) c->n * n);
  guint at = 0, best = G_MAXUINT;

  for (guint i = 0; i < c->n * n; i++)
    least[i] = G_MAXUINT / 2;
  least[0] = 0;
  for (guint k = 1; k < c->n; k++)
    for (guint i = 1; i < n; i++)
      for (guint j = i > reach ? i - reach : 0; j < i; j++)
        if (least[(k - 1) * n + j] + c->cost[i] < least[k * n + i])
          {
            least[k * n + i] = least[(k - 1) * n + j] + c->cost[i];
            from[k * n + i] = j;
          }
  for (guint i = 0; i < n; i++)
    if (c->to - (c->from + i * c->step) <= c->most + 1e-6 && least[(c->n - 1) * n + i] < best)
      {
        best = least[(c->n - 1) * n + i];
        at = i;
      }
  cuts[c->n] = c->to;
  for (guint k = c->n; k-- > 0; at = from[k * n + at])
    cuts[k] = c->from + at * c->step;
  return best;
}

/**
 * rw_cut_places: where a drawing is best cut into @n pieces, each at most @most mm long, from @from on over @length mm,
 * @down the sheet or across it: between devices, then beside labels, balloons and lines that run the same way.
 * @cuts: (out): n + 1, the edges of the drawing included
 *
 * Returns: what the cuts cost: RW_CUT_DEVICE for each device that they part, less for the rest
 */
guint
rw_cut_places (const RwScene *scene, gboolean down, double from, double length, guint n, double most, double *cuts)
{
  double step = rw_cut_step (length);
  Cutting c = { from, from + length, step, most, down, n, MAX (1, (guint) ceil (length / step)), NULL };
  guint cost;

  g_return_val_if_fail (n > 0, 0);

  c.cost = g_new0 (guint, c.n_places);
  add_costs (&c, scene);
  cost = cheapest_cuts (&c, cuts);
  g_free (c.cost);
  return cost;
}
