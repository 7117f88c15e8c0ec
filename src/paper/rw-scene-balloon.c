/* SPDX-License-Identifier: MIT */
#include "rw-scene-private.h"

#include <math.h>

#define RADIUS 3.0 /* mm: room for three digits at the least lettering */

/* The first thing that @finding speaks of: a cable before a port before a device. FALSE if none is on the sheet. */
static gboolean
subject_of (const RwNet *net, const RwFinding *finding, RwSubject *subject)
{
  *subject = (RwSubject) { RW_SUBJECT_CABLE, RW_NONE };
  if (finding->cables[0] != NULL)
    subject->index = rw_net_find_cable (net, finding->cables[0]);
  if (subject->index == RW_NONE && finding->ports[0] != NULL)
    *subject = (RwSubject) { RW_SUBJECT_PORT, rw_net_find_port (net, finding->ports[0], finding->ports[1]) };
  if (subject->index == RW_NONE && finding->devices[0] != NULL)
    *subject = (RwSubject) { RW_SUBJECT_DEVICE, rw_net_find_device (net, finding->devices[0]) };
  return subject->index != RW_NONE;
}

/* The point @share of the way along the cable. */
static RwPoint
point_on (const RwSceneCable *cable, double share)
{
  double left = 0.0;

  for (guint i = 0; i + 1 < cable->n_points; i++)
    left += fabs (cable->points[i].x - cable->points[i + 1].x) + fabs (cable->points[i].y - cable->points[i + 1].y);
  left *= share;
  for (guint i = 0; i + 1 < cable->n_points; i++)
    {
      RwPoint a = cable->points[i], b = cable->points[i + 1];
      double length = fabs (a.x - b.x) + fabs (a.y - b.y);

      if (left <= length && length > 0.0)
        return (RwPoint) { a.x + (b.x - a.x) * left / length, a.y + (b.y - a.y) * left / length };
      left -= length;
    }
  return cable->points[0];
}

#define MAX_FEET 8

/* Where on its subject a balloon may hang, the best first. */
static guint
feet_of (const RwScene *scene, const RwSubject *subject, RwPoint *feet)
{
  static const double shares[] = { 0.5, 0.35, 0.65, 0.2, 0.8 };
  guint n = 0;
  RwRect box;

  switch (subject->kind)
    {
    case RW_SUBJECT_CABLE:
      for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
        feet[n++] = point_on (&scene->cables[subject->index], shares[i]);
      return n;
    case RW_SUBJECT_PORT:
      feet[n++] = scene->ports[subject->index].tip;
      return n;
    case RW_SUBJECT_DEVICE:
      box = scene->devices[subject->index].box;
      feet[n++] = (RwPoint) { box.x + box.w, box.y };
      feet[n++] = (RwPoint) { box.x, box.y };
      feet[n++] = (RwPoint) { box.x + box.w / 2.0, box.y };
      feet[n++] = (RwPoint) { box.x + box.w, box.y + box.h };
      feet[n++] = (RwPoint) { box.x, box.y + box.h };
      return n;
    }
  g_return_val_if_reached (0);
}

static void
place (RwScene *scene, guint i)
{
  RwSceneBalloon *balloon = &g_array_index (scene->balloons, RwSceneBalloon, i);
  RwPoint feet[MAX_FEET];
  guint n = feet_of (scene, &g_array_index (scene->subjects, RwSubject, i), feet);

  balloon->centre = rw_labeller_place_balloon (scene->labeller, i, feet, n, balloon->radius, &balloon->foot);
}

/* Hangs one balloon for each finding that speaks of something on the sheet. */
void
rw_scene_place_balloons (RwScene *scene)
{
  for (guint f = 0; f < rw_findings_n (scene->findings); f++)
    {
      const RwFinding *finding = rw_findings_get (scene->findings, f);
      RwSceneBalloon balloon = { .finding = f, .severity = finding->severity, .radius = RADIUS };
      RwSubject subject;

      if (!subject_of (scene->net, finding, &subject))
        continue;
      g_array_append_val (scene->balloons, balloon);
      g_array_append_val (scene->subjects, subject);
      place (scene, scene->balloons->len - 1);
    }
}

static gboolean
is_among (guint index, const guint *list, guint n)
{
  for (guint i = 0; i < n; i++)
    if (list[i] == index)
      return TRUE;
  return FALSE;
}

/* Hangs the balloons of @devices and @cables anew. */
void
rw_scene_move_balloons (RwScene *scene, const guint *devices, guint n_devices, const guint *cables, guint n_cables)
{
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < scene->subjects->len; i++)
      {
        const RwSubject *s = &g_array_index (scene->subjects, RwSubject, i);
        gboolean moves = s->kind == RW_SUBJECT_CABLE ? is_among (s->index, cables, n_cables)
          : is_among (s->kind == RW_SUBJECT_PORT ? scene->net->ports[s->index].device : s->index, devices, n_devices);

        if (moves && pass == 0)
          rw_labeller_forget_balloon (scene->labeller, i);
        else if (moves)
          place (scene, i);
      }
}
