/* SPDX-License-Identifier: MIT */
#include "rw-cloud.h"

#include <math.h>

#define STEP 2.5          /* mm between lines of the grid */
#define MOST_CELLS 16e6   /* of a larger drawing the grid is coarser */

/* The way round a corner, clockwise on the sheet, whose y runs down. */
typedef enum { RIGHT, DOWN, LEFT, UP } Way;
static const int way_x[] = { 1, 0, -1, 0 };
static const int way_y[] = { 0, 1, 0, -1 };

typedef struct
{
  double x, y, step;
  guint columns, rows;
  guint8 *cells; /* 1 = covered; a border of cells round it is not */
  guint8 *edges; /* at each corner of a cell, bit w: an edge leaves that way, what is covered on its right */
} Grid;

static RwRect
join (RwRect a, RwRect b)
{
  double x = MIN (a.x, b.x), y = MIN (a.y, b.y);

  return (RwRect) { x, y, MAX (a.x + a.w, b.x + b.w) - x, MAX (a.y + a.h, b.y + b.h) - y };
}

static void
grid_init (Grid *grid, const RwRect *rects, guint n)
{
  RwRect all = rects[0];

  for (guint i = 1; i < n; i++)
    all = join (all, rects[i]);
  grid->step = MAX (STEP, sqrt (all.w * all.h / MOST_CELLS));
  grid->x = (floor (all.x / grid->step) - 1) * grid->step;
  grid->y = (floor (all.y / grid->step) - 1) * grid->step;
  grid->columns = (guint) ceil ((all.x + all.w - grid->x) / grid->step) + 1;
  grid->rows = (guint) ceil ((all.y + all.h - grid->y) / grid->step) + 1;
  grid->cells = g_malloc0_n (grid->columns, grid->rows);
  grid->edges = g_malloc0_n (grid->columns + 1, grid->rows + 1);
}

static void
cover (Grid *grid, RwRect rect)
{
  guint x0 = (guint) floor ((rect.x - grid->x) / grid->step), x1 = (guint) ceil ((rect.x + rect.w - grid->x) / grid->step);
  guint y0 = (guint) floor ((rect.y - grid->y) / grid->step), y1 = (guint) ceil ((rect.y + rect.h - grid->y) / grid->step);

  for (guint y = y0; y < y1; y++)
    for (guint x = x0; x < x1; x++)
      grid->cells[(gsize) y * grid->columns + x] = 1;
}

static void
leave (Grid *grid, guint x, guint y, Way way)
{
  grid->edges[(gsize) y * (grid->columns + 1) + x] |= 1 << way;
}

/* Between a cell that is covered and one that is not runs an edge. */
static void
find_edges (Grid *grid)
{
  for (guint y = 1; y + 1 < grid->rows; y++)
    for (guint x = 1; x + 1 < grid->columns; x++)
      {
        const guint8 *cell = &grid->cells[(gsize) y * grid->columns + x];

        if (!*cell)
          continue;
        if (!cell[-(gssize) grid->columns])
          leave (grid, x, y, RIGHT);
        if (!cell[1])
          leave (grid, x + 1, y, DOWN);
        if (!cell[grid->columns])
          leave (grid, x + 1, y + 1, LEFT);
        if (!cell[-1])
          leave (grid, x, y + 1, UP);
      }
}

/* Follows one outline and takes its edges off. Where two cells touch at a corner only, the way turns right and leaves
 * them apart. */
static GArray *
follow (Grid *grid, guint x, guint y)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (RwPoint));
  guint8 *corner = &grid->edges[(gsize) y * (grid->columns + 1) + x];
  int way = -1;

  while (*corner != 0)
    {
      int next = -1;

      for (int turn = 1; turn >= -1 && way >= 0 && next < 0; turn--)
        if (*corner >> ((way + turn + 4) % 4) & 1)
          next = (way + turn + 4) % 4;
      for (int first = RIGHT; next < 0 && first <= UP; first++)
        if (*corner >> first & 1)
          next = first;
      if (next != way)
        {
          RwPoint point = { grid->x + x * grid->step, grid->y + y * grid->step };

          g_array_append_val (points, point);
        }
      way = next;
      *corner &= (guint8) ~(1 << way);
      x += way_x[way];
      y += way_y[way];
      corner = &grid->edges[(gsize) y * (grid->columns + 1) + x];
    }
  return points;
}

/**
 * rw_cloud_outlines: clockwise round what is covered, the other way round holes; each begins at its topmost corner and of
 * these the leftmost. (transfer full).
 */
GPtrArray *
rw_cloud_outlines (const RwRect *rects, guint n)
{
  GPtrArray *outlines = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  Grid grid;

  if (n == 0)
    return outlines;
  grid_init (&grid, rects, n);
  for (guint i = 0; i < n; i++)
    cover (&grid, rects[i]);
  find_edges (&grid);
  for (guint y = 0; y <= grid.rows; y++)
    for (guint x = 0; x <= grid.columns; x++)
      while (grid.edges[(gsize) y * (grid.columns + 1) + x] != 0)
        g_ptr_array_add (outlines, follow (&grid, x, y));
  g_free (grid.cells);
  g_free (grid.edges);
  return outlines;
}
