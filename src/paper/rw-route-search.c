/* SPDX-License-Identifier: MIT */
#include "rw-route-private.h"

#include <math.h>
#include <string.h>

/* A search on the grid of those coordinates that matter: borders of the boxes in the window with their clearances,
 * and the two ends. A state is a crossing of the grid and the direction in which it was reached; A* with the
 * distance and one bend where one is needed as the bound, so that the cheapest way on the grid is found. */

#define MAX_NODES 160000
#define STRIP 4 /* directions, in the order of RwEdge */

enum
{
  HARD_X = 1, NEAR_X = 2, TAKEN_X = 4, /* of the step from a crossing to the next on its right */
  HARD_Y = 8, NEAR_Y = 16, TAKEN_Y = 32, /* to the next below */
};

typedef struct { float f; guint state; } HeapItem;

struct _Search
{
  GArray *xs, *ys;      /* of double, ascending */
  guint8 *marks;        /* by crossing */
  float *g;             /* by state */
  guint *stamp;         /* by state: visited in this search if equal to @round, closed if @round + 1 */
  guint8 *parent;       /* by state: the direction before */
  guint size;
  guint round;
  GArray *heap;         /* of HeapItem */
};

Search *
rw_search_new (void)
{
  Search *s = g_new0 (Search, 1);

  s->xs = g_array_new (FALSE, FALSE, sizeof (double));
  s->ys = g_array_new (FALSE, FALSE, sizeof (double));
  s->heap = g_array_new (FALSE, FALSE, sizeof (HeapItem));
  s->round = 2;
  return s;
}

void
rw_search_free (Search *s)
{
  g_array_unref (s->xs);
  g_array_unref (s->ys);
  g_array_unref (s->heap);
  g_free (s->marks);
  g_free (s->g);
  g_free (s->stamp);
  g_free (s->parent);
  g_free (s);
}

#define X(s, i) g_array_index ((s)->xs, double, i)
#define Y(s, i) g_array_index ((s)->ys, double, i)

static gboolean
item_before (HeapItem a, HeapItem b)
{
  return a.f < b.f || (a.f <= b.f && a.state < b.state);
}

static void
heap_push (GArray *heap, HeapItem item)
{
  guint i = heap->len;
  HeapItem *v;

  g_array_append_val (heap, item);
  v = (HeapItem *) (void *) heap->data;
  while (i > 0 && item_before (item, v[(i - 1) / 2]))
    {
      v[i] = v[(i - 1) / 2];
      i = (i - 1) / 2;
    }
  v[i] = item;
}

static HeapItem
heap_pop (GArray *heap)
{
  HeapItem *v = (HeapItem *) (void *) heap->data, top = v[0], last = v[heap->len - 1];
  guint n = heap->len - 1, i = 0;

  g_array_set_size (heap, n);
  while (2 * i + 1 < n)
    {
      guint child = 2 * i + 1;

      if (child + 1 < n && item_before (v[child + 1], v[child]))
        child++;
      if (!item_before (v[child], last))
        break;
      v[i] = v[child];
      i = child;
    }
  if (n > 0)
    v[i] = last;
  return top;
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

static void
sort_unique (GArray *v)
{
  guint n = 0;

  g_array_sort (v, compare_doubles);
  for (guint i = 0; i < v->len; i++)
    if (n == 0 || g_array_index (v, double, i) - g_array_index (v, double, n - 1) > 1e-6)
      g_array_index (v, double, n++) = g_array_index (v, double, i);
  g_array_set_size (v, n);
}

static guint
first_at_least (const GArray *v, double x)
{
  guint lo = 0, hi = v->len;

  while (lo < hi)
    {
      guint mid = (lo + hi) / 2;

      if (g_array_index (v, double, mid) < x)
        lo = mid + 1;
      else
        hi = mid;
    }
  return lo;
}

static void
add_within (GArray *v, double x, double lo, double hi)
{
  if (x >= lo && x <= hi)
    g_array_append_val (v, x);
}

static void
collect_coordinates (RwRouter *router, const SearchJob *job, RwRect w, const guint *ids, guint n)
{
  Search *s = router->search;

  g_array_set_size (s->xs, 0);
  g_array_set_size (s->ys, 0);
  for (guint i = 0; i < n; i++)
    {
      const Block *block = &g_array_index (router->blocks, Block, ids[i]);
      const RwRect rects[] = { block->hard, block->near };

      for (guint k = 0; k < G_N_ELEMENTS (rects); k++)
        {
          add_within (s->xs, rects[k].x, w.x, w.x + w.w);
          add_within (s->xs, rects[k].x + rects[k].w, w.x, w.x + w.w);
          add_within (s->ys, rects[k].y, w.y, w.y + w.h);
          add_within (s->ys, rects[k].y + rects[k].h, w.y, w.y + w.h);
        }
    }
  g_array_append_val (s->xs, job->from.x);
  g_array_append_val (s->xs, job->to.x);
  g_array_append_val (s->ys, job->from.y);
  g_array_append_val (s->ys, job->to.y);
  sort_unique (s->xs);
  sort_unique (s->ys);
}

static void
make_room (Search *s)
{
  guint crossings = s->xs->len * s->ys->len;

  if (crossings > s->size)
    {
      s->size = MAX (crossings, 2 * s->size);
      s->marks = g_realloc (s->marks, s->size);
      s->g = g_renew (float, s->g, s->size * STRIP + 1);
      s->parent = g_renew (guint8, s->parent, s->size * STRIP + 1);
      g_free (s->stamp);
      s->stamp = g_new0 (guint, s->size * STRIP + 1);
    }
  memset (s->marks, 0, crossings);
  s->round += 2;
  g_array_set_size (s->heap, 0);
}

/* Marks the steps that run through the open rectangle @r: those that begin before its end and end after its beginning. */
static void
mark_rect (Search *s, RwRect r, guint8 mark_x, guint8 mark_y)
{
  guint in_i = first_at_least (s->xs, r.x + 1e-6), i1 = first_at_least (s->xs, r.x + r.w - 1e-6);
  guint in_j = first_at_least (s->ys, r.y + 1e-6), j1 = first_at_least (s->ys, r.y + r.h - 1e-6);

  for (guint j = in_j; mark_x != 0 && j < j1; j++)
    for (guint i = in_i > 0 ? in_i - 1 : 0; i < i1; i++)
      s->marks[j * s->xs->len + i] |= mark_x;
  for (guint j = in_j > 0 ? in_j - 1 : 0; mark_y != 0 && j < j1; j++)
    for (guint i = in_i; i < i1; i++)
      s->marks[j * s->xs->len + i] |= mark_y;
}

static void
mark_lines (RwRouter *router, const SearchJob *job, RwRect window)
{
  Search *s = router->search;
  guint n;
  const guint *ids = rw_scene_index_query (router->lines, window, &n);

  for (guint i = 0; i < n; i++)
    {
      const RwRouteSegment *line = &g_array_index (router->segments, RwRouteSegment, ids[i]);
      double reach = RW_ROUTE_LANE - 0.1, along = line->hi - line->lo;

      if (line->cable == job->cable)
        continue;
      if (line->upright)
        mark_rect (s, (RwRect) { line->at - reach, line->lo, 2.0 * reach, along }, 0, TAKEN_Y);
      else
        mark_rect (s, (RwRect) { line->lo, line->at - reach, along, 2.0 * reach }, TAKEN_X, 0);
    }
}

static double
step_cost (guint8 marks, gboolean level, double length)
{
  double cost = length;

  if (marks & (level ? HARD_X : HARD_Y))
    cost += COST_HARD / 4.0 + COST_HARD_MM * length;
  if (marks & (level ? NEAR_X : NEAR_Y))
    cost += COST_NEAR / 2.0 + COST_NEAR_MM * length;
  if (marks & (level ? TAKEN_X : TAKEN_Y))
    cost += COST_OVERLAP_MM * length;
  return cost;
}

static double
bound (const Search *s, guint i, guint j, guint ti, guint tj)
{
  double dx = fabs (X (s, i) - X (s, ti)), dy = fabs (Y (s, j) - Y (s, tj));

  return dx + dy + (dx > 0.0 && dy > 0.0 ? COST_BEND : 0.0);
}

static void
reach (Search *s, guint state, double g, double h, guint8 parent)
{
  if (s->stamp[state] == s->round + 1 || (s->stamp[state] == s->round && s->g[state] <= (float) g))
    return;
  s->stamp[state] = s->round;
  s->g[state] = (float) g;
  s->parent[state] = parent;
  heap_push (s->heap, (HeapItem) { (float) (g + h), state });
}

static void
expand (Search *s, guint state, guint ti, guint tj)
{
  static const int di[] = { -1, 1, 0, 0 }, dj[] = { 0, 0, -1, 1 };
  guint nx = s->xs->len, ny = s->ys->len, at = state / STRIP, i = at % nx, j = at / nx, from = state % STRIP;

  for (guint d = 0; d < STRIP; d++)
    {
      guint ni = i + (guint) di[d], nj = j + (guint) dj[d];
      gboolean level = dj[d] == 0;
      guint step = MIN (j, nj) * nx + MIN (i, ni);
      double length;

      if (ni >= nx || nj >= ny || d == (from ^ 1))
        continue;
      length = level ? fabs (X (s, ni) - X (s, i)) : fabs (Y (s, nj) - Y (s, j));
      reach (s, (nj * nx + ni) * STRIP + d, s->g[state] + step_cost (s->marks[step], level, length) + (d != from ? COST_BEND : 0.0),
             bound (s, ni, nj, ti, tj), (guint8) from);
    }
}

/* Walks back from @state to @start. FALSE if the way has more bends than anybody would draw. */
static gboolean
collect_way (const Search *s, guint state, guint start, Way *way)
{
  guint nx = s->xs->len;

  way->n = 0;
  way->p[way->n++] = (RwPoint) { X (s, state / STRIP % nx), Y (s, state / STRIP / nx) };
  while (state != start)
    {
      guint at = state / STRIP, d = state % STRIP, before = s->parent[state];

      at = d == RW_EDGE_LEFT ? at + 1 : d == RW_EDGE_RIGHT ? at - 1 : d == RW_EDGE_TOP ? at + nx : at - nx;
      state = at * STRIP + before;
      if (before != d || state == start)
        way->p[way->n++] = (RwPoint) { X (s, at % nx), Y (s, at / nx) };
      if (way->n == MAX_POINTS / 4)
        return FALSE;
    }
  for (guint i = 0; i < way->n / 2; i++)
    {
      RwPoint p = way->p[i];

      way->p[i] = way->p[way->n - 1 - i];
      way->p[way->n - 1 - i] = p;
    }
  return TRUE;
}

static guint
crossing_at (const Search *s, RwPoint p)
{
  return first_at_least (s->ys, p.y - 1e-6) * s->xs->len + first_at_least (s->xs, p.x - 1e-6);
}

/* The search proper. The last state stands for having turned into the far port. */
static gboolean
search (RwRouter *router, const SearchJob *job, Way *way)
{
  Search *s = router->search;
  guint goal = crossing_at (s, job->to), start = crossing_at (s, job->from) * STRIP + job->from_edge;
  guint ti = goal % s->xs->len, tj = goal / s->xs->len, last = s->xs->len * s->ys->len * STRIP;

  reach (s, start, 0.0, bound (s, start / STRIP % s->xs->len, start / STRIP / s->xs->len, ti, tj), (guint8) job->from_edge);
  while (s->heap->len > 0 && router->budget > 0)
    {
      guint state = heap_pop (s->heap).state, arrives = state % STRIP;

      if (state == last)
        return collect_way (s, goal * STRIP + s->parent[last], start, way);
      if (s->stamp[state] == s->round + 1)
        continue;
      s->stamp[state] = s->round + 1;
      if (state / STRIP == goal && (job->any || arrives != (guint) job->to_edge))
        reach (s, last, s->g[state] + (job->any || arrives == (guint) (job->to_edge ^ 1) ? 0.0 : COST_BEND), 0.0, (guint8) arrives);
      router->budget--;
      expand (s, state, ti, tj);
    }
  return FALSE;
}

/**
 * rw_search_run: the cheapest way on the grid within @window, as points from @job->from to @job->to. FALSE if the
 * window holds too much, or the router's budget of steps is spent.
 */
gboolean
rw_search_run (RwRouter *router, const SearchJob *job, RwRect window, Way *way)
{
  Search *s = router->search;
  guint n;
  const guint *ids = rw_scene_index_query (router->boxes, window, &n);

  /* A way among so many boxes takes more steps than are left; to sort their borders would be for nothing. */
  if (router->budget < 4 * n)
    return FALSE;
  collect_coordinates (router, job, window, ids, n);
  if ((guint64) s->xs->len * s->ys->len > MAX_NODES || router->budget == 0)
    return FALSE;
  make_room (s);
  for (guint i = 0; i < n; i++)
    {
      const Block *block = &g_array_index (router->blocks, Block, ids[i]);

      mark_rect (s, block->hard, HARD_X, HARD_Y);
      mark_rect (s, block->near, NEAR_X, NEAR_Y);
    }
  mark_lines (router, job, window);
  return search (router, job, way);
}
