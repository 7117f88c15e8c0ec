/* SPDX-License-Identifier: MIT */
#include "rw-snap.h"

#include <math.h>


#define NEAR_MM 150.0   /* devices farther off than this do not catch: their lines would cross half the sheet */
#define SAME_MM 0.01    /* two lines nearer than this are one */

double
rw_snap_to_grid (double mm)
{
  return round (mm / RW_GRID_MM) * RW_GRID_MM;
}

/**
 * rw_snap_boxes:
 * @scene: a scene
 * @left_out: indices of the devices that move, ascending
 * @n_left_out: how many
 *
 * Returns: (transfer full): the boxes (RwRect) that a drag can snap to
 */
GArray *
rw_snap_boxes (const RwScene *scene, const guint *left_out, guint n_left_out)
{
  GArray *boxes = g_array_new (FALSE, FALSE, sizeof (RwRect));
  guint next = 0;

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    if (next < n_left_out && left_out[next] == i)
      next++;
    else
      g_array_append_val (boxes, rw_scene_device (scene, i)->box);
  return boxes;
}

/* One axis of a box: where it begins, how long it is. */
typedef struct { double at, length; } Span;

static Span
span_of (const RwRect *box, gboolean vertical)
{
  return vertical ? (Span) { box->y, box->h } : (Span) { box->x, box->w };
}

static double
gap (Span a, Span b)
{
  return MAX (MAX (b.at - (a.at + a.length), a.at - (b.at + b.length)), 0);
}

/* Start, middle and end of a span: the lines on which boxes align. */
static double
line_of (Span span, guint line)
{
  return span.at + span.length * line / 2;
}

static gboolean
is_near (const RwRect *a, const RwRect *b)
{
  return gap (span_of (a, FALSE), span_of (b, FALSE)) <= NEAR_MM && gap (span_of (a, TRUE), span_of (b, TRUE)) <= NEAR_MM;
}

/* How far to shift @box along one axis: onto the nearest line of a neighbour within reach, else onto the grid. */
static double
snap_axis (const GArray *others, const RwRect *box, gboolean vertical)
{
  Span own = span_of (box, vertical);
  double best = RW_SNAP_REACH_MM + SAME_MM;
  double shift = rw_snap_to_grid (own.at) - own.at;

  for (guint i = 0; i < others->len; i++)
    {
      const RwRect *other = &g_array_index (others, RwRect, i);

      if (!is_near (box, other))
        continue;
      for (guint line = 0; line < 3; line++)
        {
          double off = line_of (span_of (other, vertical), line) - line_of (own, line);

          if (fabs (off) < best)
            {
              best = fabs (off);
              shift = off;
            }
        }
    }
  return shift;
}

static RwGuide
guide_between (const RwRect *a, const RwRect *b, double at, gboolean vertical)
{
  Span sa = span_of (a, !vertical), sb = span_of (b, !vertical);
  double from = MIN (sa.at, sb.at), to = MAX (sa.at + sa.length, sb.at + sb.length);

  if (vertical)
    return (RwGuide) { { from, at }, { to, at } };
  return (RwGuide) { { at, from }, { at, to } };
}

/* At most one guide for each of the three lines: to the nearest neighbour that lies on it. */
static void
add_guides (const GArray *others, const RwRect *box, gboolean vertical, GArray *guides)
{
  for (guint line = 0; line < 3; line++)
    {
      double at = line_of (span_of (box, vertical), line);
      double nearest = G_MAXDOUBLE;
      RwGuide guide;

      for (guint i = 0; i < others->len; i++)
        {
          const RwRect *other = &g_array_index (others, RwRect, i);
          double away = gap (span_of (box, !vertical), span_of (other, !vertical));

          if (!is_near (box, other) || fabs (line_of (span_of (other, vertical), line) - at) > SAME_MM || away >= nearest)
            continue;
          nearest = away;
          guide = guide_between (box, other, at, vertical);
        }
      if (nearest < G_MAXDOUBLE)
        g_array_append_val (guides, guide);
    }
}

/**
 * rw_snap_box:
 * @others: boxes to snap to, from rw_snap_boxes()
 * @box: where the hand would have the box, sheet mm
 * @guides: (nullable): array of RwGuide that gets the lines on which it came to lie
 *
 * Edges and centres of neighbours within RW_SNAP_REACH_MM come before the 5 mm grid, each axis by itself.
 *
 * Returns: the shift in mm that puts the box where it snaps
 */
RwPoint
rw_snap_box (const GArray *others, RwRect box, GArray *guides)
{
  RwPoint shift = { snap_axis (others, &box, FALSE), snap_axis (others, &box, TRUE) };

  box.x += shift.x;
  box.y += shift.y;
  if (guides != NULL)
    {
      add_guides (others, &box, FALSE, guides);
      add_guides (others, &box, TRUE, guides);
    }
  return shift;
}
