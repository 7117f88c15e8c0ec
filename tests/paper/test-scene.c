/* SPDX-License-Identifier: MIT */
/* The scene as a whole: labels, balloons, styles, drags, and what lies where. */
#include "scene-rigs.h"

#include <math.h>
#include <paper/rw-label.h>
#include <rig/rw-edit.h>

static const char *const demos[] = { "small-chain", "redundant", "festival-60", "trip-loop", "trip-unit-id-clash", "trip-planes-joined", "trip-not-cabled" };

static void
check_labels_off_devices (const RwScene *scene)
{
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    for (guint d = 0; d < rw_scene_n_devices (scene); d++)
      if (rw_scene_cable (scene, i)->label.w > 0.0)
        g_assert_false (rw_rects_overlap (rw_scene_cable (scene, i)->label, rw_scene_device (scene, d)->bounds));
}

/* How far a label lies from the line of its own cable. */
static double
label_distance (const RwSceneCable *cable)
{
  double least = G_MAXDOUBLE;

  for (guint i = 0; i + 1 < cable->n_points; i++)
    {
      RwPoint a = cable->points[i], b = cable->points[i + 1];
      RwRect l = cable->label;
      double dx = MAX (MAX (l.x - MAX (a.x, b.x), MIN (a.x, b.x) - l.x - l.w), 0.0);
      double dy = MAX (MAX (l.y - MAX (a.y, b.y), MIN (a.y, b.y) - l.y - l.h), 0.0);

      least = MIN (least, hypot (dx, dy));
    }
  return least;
}

static void
test_labels_of_demos (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (demos); k++)
    {
      g_autoptr (RwRig) rig = scene_rig_demo (demos[k]);
      g_autoptr (RwScene) scene = scene_of (rig);

      check_labels_off_devices (scene);
      for (guint i = 0; i < rw_scene_n_cables (scene); i++)
        {
          const RwSceneCable *cable = rw_scene_cable (scene, i);

          if (cable->text == NULL)
            continue;
          g_assert_cmpfloat (cable->label.w, >, 0.0);
          g_assert_cmpfloat (cable->label_em, >=, RW_EM_LEAST);
          g_assert_cmpfloat (label_distance (cable), <, 2.0);
          for (guint j = 0; j < i; j++)
            if (rw_scene_cable (scene, j)->label.w > 0.0 && rw_rects_overlap (cable->label, rw_scene_cable (scene, j)->label))
              g_error ("%s: the labels “%s” and “%s” overlap", demos[k], cable->text, rw_scene_cable (scene, j)->text);
        }
    }
}

/* Boxes so near that no label fits between: it goes elsewhere or away, never on a box. */
static void
test_labels_in_a_crowd (void)
{
  for (guint gap = 5; gap <= 60; gap += 5)
    {
      SceneRig *text = scene_rig_begin ();
      g_autoptr (RwRig) rig = NULL;
      g_autoptr (RwScene) scene = NULL;
      guint n = 0;

      for (guint y = 0; y < 4; y++)
        for (guint x = 0; x < 4; x++, n++)
          {
            char id[8], before[8];

            g_snprintf (id, sizeof id, "d%u", n);
            g_snprintf (before, sizeof before, "d%u", n - 1);
            scene_rig_device (text, id, "rack", id, x * (45.0 + gap), y * (20.0 + gap));
            if (n > 0)
              scene_rig_cable (text, before, "Secondary", id, "Primary", ", \"label\": \"A label of some length\", \"length_m\": 120.5, \"colour\": \"GNYE\"");
          }
      rig = scene_rig_end (text);
      scene = scene_of (rig);
      check_labels_off_devices (scene);
      if (gap >= 45)
        for (guint i = 0; i < rw_scene_n_cables (scene); i++)
          g_assert_cmpfloat (rw_scene_cable (scene, i)->label.w, >, 0.0);
    }
}

static void
test_label_text (void)
{
  static const struct { const char *more, *text; } cases[] = {
    { NULL, NULL },
    { ", \"label\": \"\"", NULL },
    { ", \"label\": \"N-04\"", "N-04" },
    { ", \"label\": \"N-04\", \"length_m\": 20, \"colour\": \"BU\"", "N-04 · 20 m · BU" },
    { ", \"length_m\": 0.5", "0.5 m" },
    { ", \"colour\": \"GNYE\"", "GNYE" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      SceneRig *text = scene_rig_begin ();
      g_autoptr (RwRig) rig = NULL;
      g_autoptr (RwScene) scene = NULL;

      scene_rig_device (text, "a", "rack", "A", 0, 0);
      scene_rig_device (text, "b", "rack", "B", 150, 0);
      scene_rig_cable (text, "a", "Secondary", "b", "Primary", cases[i].more);
      rig = scene_rig_end (text);
      scene = scene_of (rig);
      g_assert_cmpstr (rw_scene_cable (scene, 0)->text, ==, cases[i].text);
      g_assert_true ((rw_scene_cable (scene, 0)->label.w > 0.0) == (cases[i].text != NULL));
    }
}

static void
check_balloons (const RwScene *scene, const char *name)
{
  for (guint i = 0; i < rw_scene_n_balloons (scene); i++)
    {
      const RwSceneBalloon *b = rw_scene_balloon (scene, i);

      g_assert_cmpuint (b->finding, <, rw_findings_n (rw_scene_findings (scene)));
      g_assert_cmpfloat (hypot (b->centre.x - b->foot.x, b->centre.y - b->foot.y), <, 40.0);
      for (guint k = 0; k < i; k++)
        {
          const RwSceneBalloon *c = rw_scene_balloon (scene, k);

          g_assert_cmpuint (c->finding, <, b->finding);
          if (hypot (b->centre.x - c->centre.x, b->centre.y - c->centre.y) < b->radius + c->radius)
            g_error ("%s: balloons %u and %u overlap", name, c->finding + 1, b->finding + 1);
        }
      for (guint d = 0; d < rw_scene_n_devices (scene); d++)
        g_assert_false (rw_rects_overlap (rw_scene_device (scene, d)->box,
                                          (RwRect) { b->centre.x - b->radius, b->centre.y - b->radius, 2.0 * b->radius, 2.0 * b->radius }));
    }
}

static void
test_balloons (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (demos); k++)
    {
      g_autoptr (RwRig) rig = scene_rig_demo (demos[k]);
      g_autoptr (RwScene) scene = scene_of (rig);
      const RwFindings *findings = rw_scene_findings (scene);
      guint expected = 0;

      for (guint i = 0; i < rw_findings_n (findings); i++)
        {
          const RwFinding *f = rw_findings_get (findings, i);

          expected += f->cables[0] != NULL || f->ports[0] != NULL || f->devices[0] != NULL;
        }
      g_assert_cmpuint (rw_scene_n_balloons (scene), ==, expected);
      check_balloons (scene, demos[k]);
    }
}

/* A finding with a cable hangs on the first of its cables, though it names devices as well; that cable is a fault. */
static void
test_balloon_on_cable (void)
{
  g_autoptr (RwRig) rig = scene_rig_demo ("trip-loop");
  g_autoptr (RwScene) scene = scene_of (rig);
  const RwNet *net = rw_scene_net (scene);
  guint found = 0;

  for (guint i = 0; i < rw_scene_n_balloons (scene); i++)
    {
      const RwSceneBalloon *b = rw_scene_balloon (scene, i);
      const RwFinding *f = rw_findings_get (rw_scene_findings (scene), b->finding);
      const RwSceneCable *cable;
      gboolean on = FALSE;

      if (f->cables[0] == NULL || f->severity != RW_SEVERITY_ERROR)
        continue;
      cable = rw_scene_cable (scene, rw_net_find_cable (net, f->cables[0]));
      for (guint k = 0; k + 1 < cable->n_points; k++)
        {
          RwPoint p = cable->points[k], q = cable->points[k + 1];

          on |= fabs (hypot (b->foot.x - p.x, b->foot.y - p.y) + hypot (b->foot.x - q.x, b->foot.y - q.y) - hypot (p.x - q.x, p.y - q.y)) < 1e-6;
        }
      g_assert_true (on);
      g_assert_true (cable->fault);
      found++;
    }
  g_assert_cmpuint (found, >, 0);
}

static void
test_styles (void)
{
  g_autoptr (RwRig) chain = scene_rig_demo ("small-chain"), redundant = scene_rig_demo ("redundant"), festival = scene_rig_demo ("festival-60");
  g_autoptr (RwScene) a = scene_of (chain), b = scene_of (redundant), c = scene_of (festival);
  const RwNet *net = rw_scene_net (b);
  guint n_aux = 0;

  for (guint i = 0; i < rw_scene_n_cables (a); i++)
    {
      g_assert_cmpint (rw_scene_cable (a, i)->style, ==, RW_LINE_CHAIN);
      g_assert_false (rw_scene_cable (a, i)->fault);
    }
  for (guint i = 0; i < rw_scene_n_cables (b); i++)
    {
      const RwNetCable *cable = &net->cables[i];
      gboolean secondary = net->ports[cable->port[0]].port->side == RW_SIDE_SECONDARY || net->ports[cable->port[1]].port->side == RW_SIDE_SECONDARY;

      g_assert_cmpint (rw_scene_cable (b, i)->style, ==, secondary ? RW_LINE_SECONDARY : RW_LINE_PRIMARY);
    }
  for (guint i = 0; i < rw_scene_n_cables (c); i++)
    {
      g_assert_true ((rw_scene_cable (c, i)->style == RW_LINE_AUX) == !rw_scene_net (c)->cables[i].audio);
      n_aux += rw_scene_cable (c, i)->style == RW_LINE_AUX;
    }
  g_assert_cmpuint (n_aux, >, 0);
}

/* @rig with device @index @dx, @dy elsewhere. */
static RwRig *
with_moved (const RwRig *rig, guint index, double dx, double dy)
{
  RwRig *copy = rw_rig_copy (rig);
  const RwDevice *device = (const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[index];
  g_autoptr (GError) error = NULL;
  RwEdit *edit = rw_edit_new (copy, "Move");
  RwChange *change;

  rw_edit_set (edit, rw_item_key (device), RW_DEVICE_AT, g_variant_new ("(dd)", device->at.x + dx, device->at.y + dy), &error);
  g_assert_no_error (error);
  change = rw_edit_finish (edit);
  g_assert_true (rw_rig_apply (copy, change, &error));
  rw_change_unref (change);
  return copy;
}

static void
check_same_boxes (const RwScene *a, const RwScene *b)
{
  for (guint i = 0; i < rw_scene_n_devices (a); i++)
    {
      const RwSceneDevice *p = rw_scene_device (a, i), *q = rw_scene_device (b, i);

      g_assert_cmpfloat (fabs (p->box.x - q->box.x) + fabs (p->box.y - q->box.y) + fabs (p->box.w - q->box.w) + fabs (p->box.h - q->box.h), <, 1e-9);
      g_assert_cmpfloat (fabs (p->bounds.x - q->bounds.x) + fabs (p->bounds.y - q->bounds.y), <, 1e-9);
    }
  for (guint i = 0; i < rw_scene_net (a)->n_ports; i++)
    {
      const RwScenePort *p = rw_scene_port (a, i), *q = rw_scene_port (b, i);

      g_assert_cmpfloat (hypot (p->tip.x - q->tip.x, p->tip.y - q->tip.y) + fabs (p->tab.x - q->tab.x) + fabs (p->tab.y - q->tab.y), <, 1e-9);
    }
}

/* Many small steps and one large one lead to the same boxes; cables of others stay, those of the device end at its ports. */
static void
test_shift (void)
{
  g_autoptr (RwRig) rig = scene_rig_demo ("festival-60");
  g_autoptr (RwScene) scene = scene_of (rig), before = scene_of (rig);
  const RwNet *net = rw_scene_net (scene);
  guint device = 5;
  g_autoptr (RwRig) moved = with_moved (rig, device, 37.5, -12.25);
  g_autoptr (RwScene) fresh = scene_of (moved);

  for (guint k = 0; k < 200; k++)
    rw_scene_shift (scene, &device, 1, k * 0.37, k * -0.11);
  rw_scene_shift (scene, &device, 1, 37.5, -12.25);
  check_same_boxes (scene, fresh);
  check_labels_off_devices (scene);
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    {
      const RwSceneCable *a = rw_scene_cable (scene, i), *b = rw_scene_cable (before, i);
      const RwScenePort *from = rw_scene_port (scene, net->cables[i].port[0]), *to = rw_scene_port (scene, net->cables[i].port[1]);

      g_assert_cmpfloat (hypot (a->points[0].x - from->tip.x, a->points[0].y - from->tip.y), <, 1e-9);
      g_assert_cmpfloat (hypot (a->points[a->n_points - 1].x - to->tip.x, a->points[a->n_points - 1].y - to->tip.y), <, 1e-9);
      if (net->ports[net->cables[i].port[0]].device != device && net->ports[net->cables[i].port[1]].device != device)
        g_assert_cmpmem (a->points, sizeof *a->points * a->n_points, b->points, sizeof *b->points * b->n_points);
    }
  rw_scene_shift (scene, &device, 1, 0.0, 0.0);
  check_same_boxes (scene, before);
}

/* Balloons hang on what they speak of while that is dragged. */
static void
test_shift_balloons (void)
{
  g_autoptr (RwRig) rig = scene_rig_demo ("trip-unit-id-clash");
  g_autoptr (RwScene) scene = scene_of (rig);
  const RwNet *net = rw_scene_net (scene);

  for (guint device = 0; device < net->n_devices; device++)
    {
      rw_scene_shift (scene, &device, 1, 300.0, 200.0);
      check_balloons (scene, "trip-unit-id-clash, shifted");
      for (guint i = 0; i < rw_scene_n_balloons (scene); i++)
        {
          const RwSceneBalloon *b = rw_scene_balloon (scene, i);
          const RwFinding *f = rw_findings_get (rw_scene_findings (scene), b->finding);
          RwRect box;

          if (f->cables[0] != NULL || f->ports[0] != NULL)
            continue;
          box = rw_scene_device (scene, rw_net_find_device (net, f->devices[0]))->box;
          g_assert_true (rw_rects_touch (box, (RwRect) { b->foot.x, b->foot.y, 0.0, 0.0 }));
        }
      rw_scene_shift (scene, &device, 1, 0.0, 0.0);
    }
}

static double
distance (RwRect r, double x, double y)
{
  return hypot (MAX (MAX (r.x - x, x - r.x - r.w), 0.0), MAX (MAX (r.y - y, y - r.y - r.h), 0.0));
}

/* What rw_scene_hit() should say, found by a look at everything. */
static RwHit
hit_plainly (const RwScene *scene, double x, double y, double slack, double *distance_out)
{
  RwHit hit = { RW_HIT_NOTHING, 0, 0 };
  double best = slack;

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      RwRect box = rw_scene_device (scene, i)->box;

      if (distance ((RwRect) { box.x + box.w / 4, box.y + box.h / 4, box.w / 2, box.h / 2 }, x, y) <= 0.0)
        best = 0.0;
    }
  for (guint i = 0; i < rw_scene_net (scene)->n_ports; i++)
    if (distance (rw_scene_port (scene, i)->tab, x, y) <= best && (hit.kind == RW_HIT_NOTHING || distance (rw_scene_port (scene, i)->tab, x, y) < best))
      {
        best = distance (rw_scene_port (scene, i)->tab, x, y);
        hit = (RwHit) { RW_HIT_PORT, i, 0 };
      }
  best = hit.kind == RW_HIT_PORT ? best : slack;
  for (guint i = 0; hit.kind == RW_HIT_NOTHING && i < rw_scene_n_balloons (scene); i++)
    if (hypot (rw_scene_balloon (scene, i)->centre.x - x, rw_scene_balloon (scene, i)->centre.y - y) <= rw_scene_balloon (scene, i)->radius)
      hit = (RwHit) { RW_HIT_BALLOON, i, 0 };
  for (guint i = rw_scene_n_devices (scene); hit.kind == RW_HIT_NOTHING && i-- > 0;)
    if (distance (rw_scene_device (scene, i)->box, x, y) <= 0.0)
      hit = (RwHit) { RW_HIT_DEVICE, i, 0 };
  for (guint i = 0; (hit.kind == RW_HIT_NOTHING || hit.kind == RW_HIT_CABLE) && i < rw_scene_n_cables (scene); i++)
    for (guint k = 0; k + 1 < rw_scene_cable (scene, i)->n_points; k++)
      {
        RwPoint a = rw_scene_cable (scene, i)->points[k], b = rw_scene_cable (scene, i)->points[k + 1];
        double d = distance ((RwRect) { MIN (a.x, b.x), MIN (a.y, b.y), fabs (a.x - b.x), fabs (a.y - b.y) }, x, y);

        if (d <= slack && (hit.kind == RW_HIT_NOTHING || d < best))
          {
            best = d;
            hit = (RwHit) { RW_HIT_CABLE, i, k };
          }
      }
  *distance_out = best;
  return hit;
}

/* A hand that may miss by more than a whole box, as far out, still takes the device by its middle. */
static void
test_hit_far_out (void)
{
  g_autoptr (RwRig) rig = scene_rig_demo (demos[0]);
  g_autoptr (RwScene) scene = scene_of (rig);

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      RwRect box = rw_scene_device (scene, i)->box;
      RwHit hit = rw_scene_hit (scene, box.x + box.w / 2, box.y + box.h / 2, 2 * box.w);

      g_assert_cmpint (hit.kind, ==, RW_HIT_DEVICE);
      g_assert_cmpuint (hit.index, ==, i);
    }
}

static void
check_hits (const RwScene *scene, guint32 seed, guint *counts)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  RwRect all = rw_scene_bounds (scene);

  for (guint i = 0; i < 4000; i++)
    {
      double x = g_rand_double_range (rand, all.x - 5.0, all.x + all.w + 5.0), y = g_rand_double_range (rand, all.y - 5.0, all.y + all.h + 5.0);
      double slack = g_rand_double_range (rand, 0.0, 4.0), d;
      RwHit plain = hit_plainly (scene, x, y, slack, &d), hit = rw_scene_hit (scene, x, y, slack);

      g_assert_cmpint (hit.kind, ==, plain.kind);
      g_assert_cmpuint (hit.index, ==, plain.index);
      g_assert_cmpuint (hit.segment, ==, plain.segment);
      counts[hit.kind]++;
    }
}

static void
test_hit (void)
{
  guint counts[RW_HIT_BALLOON + 1] = { 0 };

  for (guint k = 0; k < G_N_ELEMENTS (demos); k++)
    {
      g_autoptr (RwRig) rig = scene_rig_demo (demos[k]);
      g_autoptr (RwScene) scene = scene_of (rig);
      guint device = 1;

      check_hits (scene, k, counts);
      rw_scene_shift (scene, &device, 1, 33.0, 21.0);
      check_hits (scene, k + 100, counts);
    }
  g_assert_cmpuint (counts[RW_HIT_PORT], >, 0);
  g_assert_cmpuint (counts[RW_HIT_BALLOON], >, 0);
  g_assert_cmpuint (counts[RW_HIT_DEVICE], >, 0);
  g_assert_cmpuint (counts[RW_HIT_CABLE], >, 0);
}

static void
test_hit_bend (void)
{
  SceneRig *text = scene_rig_begin ();
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwScene) scene = NULL;
  RwHit hit;

  scene_rig_device (text, "a", "rack", "A", 0, 0);
  scene_rig_device (text, "b", "rack", "B", 100, 0);
  scene_rig_cable (text, "a", "Secondary", "b", "Primary", ", \"bends\": [[70, 60], [90, 60]]");
  rig = scene_rig_end (text);
  scene = scene_of (rig);
  hit = rw_scene_hit (scene, 90.5, 60.5, 1.0);
  g_assert_cmpint (hit.kind, ==, RW_HIT_BEND);
  g_assert_cmpuint (hit.index, ==, 0);
  g_assert_cmpuint (hit.segment, ==, 1);
  g_assert_cmpint (rw_scene_hit (scene, 80, 60.5, 1.0).kind, ==, RW_HIT_CABLE);
  g_assert_cmpint (rw_scene_hit (scene, 80, 62, 1.0).kind, ==, RW_HIT_NOTHING);
}

static void
test_devices_in (void)
{
  g_autoptr (RwRig) rig = scene_rig_demo ("festival-60");
  g_autoptr (RwScene) scene = scene_of (rig);
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);
  RwRect all = rw_scene_bounds (scene);

  for (guint i = 0; i < 300; i++)
    {
      RwRect area = { g_rand_double_range (rand, all.x, all.x + all.w), g_rand_double_range (rand, all.y, all.y + all.h), g_rand_double_range (rand, 0, 300), g_rand_double_range (rand, 0, 300) };
      g_autoptr (GArray) found = rw_scene_devices_in (scene, area);
      guint k = 0;

      for (guint d = 0; d < rw_scene_n_devices (scene); d++)
        if (rw_rects_touch (rw_scene_device (scene, d)->box, area))
          {
            g_assert_cmpuint (k, <, found->len);
            g_assert_cmpuint (g_array_index (found, guint, k++), ==, d);
          }
      g_assert_cmpuint (k, ==, found->len);
    }
}

static void
test_empty (void)
{
  g_autoptr (RwRig) rig = rw_rig_new ();
  g_autoptr (RwScene) scene = scene_of (rig);
  g_autoptr (GArray) found = rw_scene_devices_in (scene, (RwRect) { -1000, -1000, 2000, 2000 });

  g_assert_cmpuint (rw_scene_n_devices (scene), ==, 0);
  g_assert_cmpuint (found->len, ==, 0);
  g_assert_cmpfloat (rw_scene_bounds (scene).w, ==, 0.0);
  g_assert_cmpint (rw_scene_hit (scene, 0, 0, 5.0).kind, ==, RW_HIT_NOTHING);
  rw_scene_shift (scene, NULL, 0, 1.0, 1.0);
}

/* Devices at the ends of the range that a file may give, and all on one spot. */
static void
test_far_apart (void)
{
  SceneRig *text = scene_rig_begin ();
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwScene) scene = NULL;

  scene_rig_device (text, "a", "rack", "A", -100000, -100000);
  scene_rig_device (text, "b", "rack", "B", 100000, 100000);
  scene_rig_device (text, "c", "switch24", "C", 0, 0);
  scene_rig_device (text, "d", "switch24", "D", 0, 0);
  scene_rig_cable (text, "a", "Secondary", "b", "Primary", ", \"label\": \"Far\"");
  scene_rig_cable (text, "b", "Secondary", "a", "Primary", NULL);
  scene_rig_cable (text, "c", "1", "d", "1", NULL);
  scene_rig_cable (text, "c", "2", "c", "3", NULL);
  scene_rig_cable (text, "d", "13", "a", "Primary", NULL);
  rig = scene_rig_end (text);
  scene = scene_of (rig);
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    g_assert_cmpuint (rw_scene_cable (scene, i)->n_points, >=, 2);
  g_assert_cmpfloat (rw_scene_bounds (scene).w, >, 200000.0);
  g_assert_cmpint (rw_scene_hit (scene, -99990, -99990, 1.0).kind, ==, RW_HIT_DEVICE);
}

/* All that is drawn lies within the bounds. */
static void
test_bounds_hold_all (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (demos); k++)
    {
      g_autoptr (RwRig) rig = scene_rig_demo (demos[k]);
      g_autoptr (RwScene) scene = scene_of (rig);
      RwRect all = rw_rect_grown (rw_scene_bounds (scene), 1e-6);

      for (guint i = 0; i < rw_scene_n_devices (scene); i++)
        g_assert_cmpfloat (distance (all, rw_scene_device (scene, i)->bounds.x, rw_scene_device (scene, i)->bounds.y), ==, 0.0);
      for (guint i = 0; i < rw_scene_n_cables (scene); i++)
        for (guint p = 0; p < rw_scene_cable (scene, i)->n_points; p++)
          {
            RwPoint q = rw_scene_cable (scene, i)->points[p];

            g_assert_cmpfloat (distance (all, q.x, q.y), ==, 0.0);
            g_assert_cmpfloat (distance (rw_scene_cable (scene, i)->bounds, q.x, q.y), ==, 0.0);
          }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/labels/demos", test_labels_of_demos);
  g_test_add_func ("/scene/labels/crowd", test_labels_in_a_crowd);
  g_test_add_func ("/scene/labels/text", test_label_text);
  g_test_add_func ("/scene/balloons/demos", test_balloons);
  g_test_add_func ("/scene/balloons/on-cable", test_balloon_on_cable);
  g_test_add_func ("/scene/styles", test_styles);
  g_test_add_func ("/scene/shift/cables", test_shift);
  g_test_add_func ("/scene/shift/balloons", test_shift_balloons);
  g_test_add_func ("/scene/hit/demos", test_hit);
  g_test_add_func ("/scene/hit/demos-far-out", test_hit_far_out);
  g_test_add_func ("/scene/hit/bend", test_hit_bend);
  g_test_add_func ("/scene/devices-in", test_devices_in);
  g_test_add_func ("/scene/empty", test_empty);
  g_test_add_func ("/scene/far-apart", test_far_apart);
  g_test_add_func ("/scene/bounds", test_bounds_hold_all);
  return g_test_run ();
}
