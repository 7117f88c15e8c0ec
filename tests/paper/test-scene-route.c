/* SPDX-License-Identifier: MIT */
/* The ways of cables, over layouts of chance, against a plain flood fill that knows whether a way exists. */
#include "scene-rigs.h"

#include <math.h>
#include <paper/rw-route.h>
#include <stdlib.h>

#define EPS 1e-6

/* A layout of chance: devices on the 5 mm grid that do not overlap, more or less dense, cabled at random free ports. */
static RwRig *
random_layout (guint32 seed)
{
  static const char *const parts[] = { "desk", "rack", "amp", "switch8", "converter", "switch24" };
  static const char *const ends[] = { "Primary", "Secondary" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  SceneRig *rig = scene_rig_begin ();
  guint n = (guint) g_rand_int_range (rand, 3, 22), columns = (guint) ceil (sqrt (n));
  double across = 5.0 * g_rand_int_range (rand, 18, 26), down = 5.0 * g_rand_int_range (rand, 8, 13);
  struct { char id[8]; guint part, next; } d[22];

  for (guint i = 0; i < n; i++)
    {
      double x = (i % columns) * across + 5.0 * g_rand_int_range (rand, 0, 4), y = (i / columns) * down + 5.0 * g_rand_int_range (rand, 0, 2);

      d[i].part = (guint) g_rand_int_range (rand, 0, g_rand_boolean (rand) ? 3 : 6);
      d[i].next = 0;
      g_snprintf (d[i].id, sizeof d[i].id, "d%u", i);
      scene_rig_device (rig, d[i].id, parts[d[i].part], d[i].id, x, y);
    }
  for (guint k = 0; k < 3 * n; k++)
    {
      guint a = (guint) g_rand_int_range (rand, 0, (gint32) n), b = (guint) g_rand_int_range (rand, 0, (gint32) n), e[2] = { a, b };
      char port[2][12];
      gboolean room = a != b;

      for (guint i = 0; i < 2; i++)
        {
          guint part = d[e[i]].part, limit = part == 3 ? 8 : part == 5 ? 24 : 2;

          room = room && d[e[i]].next < limit;
          if (part == 4)
            g_snprintf (port[i], sizeof port[i], d[e[i]].next == 0 ? "1" : "F1");
          else if (part == 3 || part == 5)
            g_snprintf (port[i], sizeof port[i], "%u", d[e[i]].next + 1);
          else
            g_snprintf (port[i], sizeof port[i], "%s", ends[d[e[i]].next % 2]);
        }
      if (!room)
        continue;
      scene_rig_cable (rig, d[a].id, port[0], d[b].id, port[1], NULL);
      d[a].next++;
      d[b].next++;
    }
  return scene_rig_end (rig);
}

#define N_SEEDS 60

static void
check_shape (const RwScene *scene, guint i)
{
  const RwSceneCable *cable = rw_scene_cable (scene, i);
  const RwNetCable *net = &rw_scene_net (scene)->cables[i];
  const RwScenePort *from = rw_scene_port (scene, net->port[0]), *to = rw_scene_port (scene, net->port[1]);
  const RwPoint *p = cable->points;
  guint n = cable->n_points;
  RwPoint out = rw_edge_outward (from->edge), in = rw_edge_outward (to->edge);

  g_assert_cmpuint (n, >=, 2);
  g_assert_cmpfloat (hypot (p[0].x - from->tip.x, p[0].y - from->tip.y), <, EPS);
  g_assert_cmpfloat (hypot (p[n - 1].x - to->tip.x, p[n - 1].y - to->tip.y), <, EPS);
  for (guint k = 0; k + 1 < n; k++)
    g_assert_true (fabs (p[k].x - p[k + 1].x) < EPS || fabs (p[k].y - p[k + 1].y) < EPS);
  for (guint k = 0; k + 2 < n; k++) /* every corner is a corner, and none turns right round */
    g_assert_cmpfloat (fabs ((p[k + 1].x - p[k].x) * (p[k + 2].y - p[k + 1].y) - (p[k + 1].y - p[k].y) * (p[k + 2].x - p[k + 1].x)), >, EPS);
  if (n == 2)
    return;
  g_assert_cmpfloat ((p[1].x - p[0].x) * out.x + (p[1].y - p[0].y) * out.y, >=, RW_ROUTE_STUB / 2.0 - EPS);
  g_assert_cmpfloat ((p[n - 2].x - p[n - 1].x) * in.x + (p[n - 2].y - p[n - 1].y) * in.y, >=, RW_ROUTE_STUB / 2.0 - EPS);
}

static void
test_shape (void)
{
  for (guint32 seed = 0; seed < N_SEEDS; seed++)
    {
      g_autoptr (RwRig) rig = random_layout (seed);
      g_autoptr (RwScene) scene = scene_of (rig);

      for (guint i = 0; i < rw_scene_n_cables (scene); i++)
        check_shape (scene, i);
    }
}

/* A flood over crossings 1.25 mm apart that keeps 1.25 mm away from every box and tab. */
#define STEP 1.25
typedef struct { double x0, y0; int w, h; guint8 *blocked; } Field;

static void
field_init (Field *f, const RwScene *scene)
{
  double l = G_MAXDOUBLE, t = G_MAXDOUBLE, r = -G_MAXDOUBLE, b = -G_MAXDOUBLE;

  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      RwRect q = rw_scene_device (scene, i)->bounds;

      l = MIN (l, q.x);
      t = MIN (t, q.y);
      r = MAX (r, q.x + q.w);
      b = MAX (b, q.y + q.h);
    }
  f->x0 = l - 15.0;
  f->y0 = t - 15.0;
  f->w = (int) round ((r - l + 30.0) / STEP) + 1;
  f->h = (int) round ((b - t + 30.0) / STEP) + 1;
  f->blocked = g_new0 (guint8, f->w * f->h);
  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      RwRect q = rw_rect_grown (rw_scene_device (scene, i)->bounds, STEP - EPS);

      for (int y = 0; y < f->h; y++)
        for (int x = 0; x < f->w; x++)
          {
            double px = f->x0 + x * STEP, py = f->y0 + y * STEP;

            f->blocked[y * f->w + x] |= px > q.x && px < q.x + q.w && py > q.y && py < q.y + q.h;
          }
    }
}

static int
field_at (const Field *f, RwPoint p)
{
  return (int) round ((p.y - f->y0) / STEP) * f->w + (int) round ((p.x - f->x0) / STEP);
}

static gboolean
way_exists (const Field *f, RwPoint from, RwPoint to)
{
  int start = field_at (f, from), goal = field_at (f, to), n = 0;
  g_autofree guint8 *seen = g_memdup2 (f->blocked, (gsize) (f->w * f->h));
  g_autofree int *stack = g_new (int, f->w * f->h);

  if (seen[start] || seen[goal])
    return FALSE;
  seen[start] = 1;
  stack[n++] = start;
  while (n > 0)
    {
      int at = stack[--n], x = at % f->w, y = at / f->w;
      const int next[4] = { x > 0 ? at - 1 : -1, x + 1 < f->w ? at + 1 : -1, y > 0 ? at - f->w : -1, y + 1 < f->h ? at + f->w : -1 };

      if (at == goal)
        return TRUE;
      for (guint k = 0; k < G_N_ELEMENTS (next); k++)
        if (next[k] >= 0 && !seen[next[k]])
          {
            seen[next[k]] = 1;
            stack[n++] = next[k];
          }
    }
  return FALSE;
}

static guint
boxes_crossed (const RwScene *scene, const RwSceneCable *cable)
{
  guint crossed = 0;

  for (guint k = 0; k + 1 < cable->n_points; k++)
    for (guint i = 0; i < rw_scene_n_devices (scene); i++)
      {
        RwPoint a = cable->points[k], b = cable->points[k + 1];
        RwRect line = { MIN (a.x, b.x), MIN (a.y, b.y), fabs (a.x - b.x), fabs (a.y - b.y) };

        crossed += rw_rects_overlap (rw_rect_grown (line, 0.01), rw_rect_grown (rw_scene_device (scene, i)->box, -0.1));
      }
  return crossed;
}

static void
test_round_boxes (void)
{
  guint n_found = 0;

  for (guint32 seed = 0; seed < N_SEEDS; seed++)
    {
      g_autoptr (RwRig) rig = random_layout (seed);
      g_autoptr (RwScene) scene = scene_of (rig);
      const RwNet *net = rw_scene_net (scene);
      Field field;

      field_init (&field, scene);
      for (guint i = 0; i < rw_scene_n_cables (scene); i++)
        {
          const RwScenePort *from = rw_scene_port (scene, net->cables[i].port[0]), *to = rw_scene_port (scene, net->cables[i].port[1]);

          if (!way_exists (&field, rw_point_along (from->tip, from->edge, RW_ROUTE_STUB), rw_point_along (to->tip, to->edge, RW_ROUTE_STUB)))
            continue;
          n_found++;
          if (boxes_crossed (scene, rw_scene_cable (scene, i)) > 0)
            g_error ("layout %u: cable %u crosses a box, though a way round exists", seed, i);
        }
      g_free (field.blocked);
    }
  g_assert_cmpuint (n_found, >, 400);
}

/* Facing ports at one height: a straight line. Facing ports at two heights: two bends. A port round the corner: one. */
static void
test_few_bends (void)
{
  static const struct { double x, y; guint n_points; } places[] = { { 100, 0, 2 }, { 100, 40, 4 }, { 70, -35, 4 } };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      SceneRig *text = scene_rig_begin ();
      g_autoptr (RwRig) rig = NULL;
      g_autoptr (RwScene) scene = NULL;

      scene_rig_device (text, "a", "rack", "A", 0, 0);
      scene_rig_device (text, "b", "rack", "B", places[i].x, places[i].y);
      scene_rig_cable (text, "a", "Secondary", "b", "Primary", NULL);
      rig = scene_rig_end (text);
      scene = scene_of (rig);
      g_assert_cmpuint (rw_scene_cable (scene, 0)->n_points, ==, places[i].n_points);
    }
}

static void
test_corner (void)
{
  SceneRig *text = scene_rig_begin ();
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwScene) scene = NULL;

  scene_rig_device (text, "s", "switch8", "S", 150, 0);
  scene_rig_device (text, "a", "rack", "A", 0, 60);
  scene_rig_cable (text, "s", "1", "a", "Secondary", NULL);
  rig = scene_rig_end (text);
  scene = scene_of (rig);
  g_assert_cmpuint (rw_scene_cable (scene, 0)->n_points, ==, 3);
}

/* A port that looks at the next box from so near that only one line fits between: out and round all the same. */
static void
test_tight_gap (void)
{
  SceneRig *text = scene_rig_begin ();
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwScene) scene = NULL;

  scene_rig_device (text, "a", "desk", "A", 0, 0);
  scene_rig_device (text, "b", "rack", "B", 0, 30);
  scene_rig_device (text, "c", "desk", "C", 120, 60);
  scene_rig_cable (text, "a", "Control", "c", "Control", NULL);
  rig = scene_rig_end (text);
  scene = scene_of (rig);
  check_shape (scene, 0);
  g_assert_cmpfloat (rw_scene_device (scene, 1)->box.y - rw_scene_device (scene, 0)->box.y - rw_scene_device (scene, 0)->box.h, ==, 5.0);
  g_assert_cmpuint (boxes_crossed (scene, rw_scene_cable (scene, 0)), ==, 0);
}

/* Length along which two cables run nearer to each other than a lane. */
static double
shared_length (const RwSceneCable *a, const RwSceneCable *b)
{
  double sum = 0.0;

  for (guint i = 0; i + 1 < a->n_points; i++)
    for (guint k = 0; k + 1 < b->n_points; k++)
      {
        RwPoint p = a->points[i], q = a->points[i + 1], r = b->points[k], s = b->points[k + 1];

        if (fabs (p.x - q.x) < EPS && fabs (r.x - s.x) < EPS && fabs (p.x - r.x) < RW_ROUTE_LANE - 0.1)
          sum += MAX (0.0, MIN (MAX (p.y, q.y), MAX (r.y, s.y)) - MAX (MIN (p.y, q.y), MIN (r.y, s.y)));
        if (fabs (p.y - q.y) < EPS && fabs (r.y - s.y) < EPS && fabs (p.y - r.y) < RW_ROUTE_LANE - 0.1)
          sum += MAX (0.0, MIN (MAX (p.x, q.x), MAX (r.x, s.x)) - MAX (MIN (p.x, q.x), MIN (r.x, s.x)));
      }
  return sum;
}

static double
all_shared (const RwScene *scene)
{
  double sum = 0.0;

  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    for (guint k = 0; k < i; k++)
      sum += shared_length (rw_scene_cable (scene, i), rw_scene_cable (scene, k));
  return sum;
}

static guint
count_crossings (const RwScene *scene)
{
  guint n = 0;

  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    for (guint k = 0; k < rw_scene_n_cables (scene); k++)
      {
        const RwSceneCable *a = rw_scene_cable (scene, i), *b = rw_scene_cable (scene, k);

        for (guint s = 0; i != k && s + 1 < a->n_points; s++)
          for (guint t = 0; t + 1 < b->n_points; t++)
            {
              RwPoint p = a->points[s], q = a->points[s + 1], r = b->points[t], u = b->points[t + 1];

              n += fabs (p.x - q.x) < EPS && fabs (r.y - u.y) < EPS && p.x > MIN (r.x, u.x) + EPS && p.x < MAX (r.x, u.x) - EPS && r.y > MIN (p.y, q.y) + EPS
                && r.y < MAX (p.y, q.y) - EPS;
            }
      }
  return n;
}

/* Racks one above the other, whose cables turn back to a switch below: the nearest inmost, so that none crosses another. */
static void
test_nested (void)
{
  SceneRig *text = scene_rig_begin ();
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwScene) scene = NULL;

  for (guint i = 0; i < 5; i++)
    {
      char id[8], port[8];

      g_snprintf (id, sizeof id, "r%u", i);
      g_snprintf (port, sizeof port, "%u", 21 - i);
      scene_rig_device (text, id, "rack", id, 0, 35.0 * i);
      scene_rig_cable (text, id, "Secondary", "s", port, NULL);
    }
  scene_rig_device (text, "s", "switch24", "S", -15, 215);
  rig = scene_rig_end (text);
  scene = scene_of (rig);
  g_assert_cmpfloat (all_shared (scene), <, 0.1);
  g_assert_cmpuint (count_crossings (scene), ==, 0);
}

/* A switch of twelve cables above two columns of racks: each runs in a lane of its own. */
static void
test_lanes (void)
{
  SceneRig *text = scene_rig_begin ();
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwScene) scene = NULL;

  scene_rig_device (text, "s", "switch24", "S", 80, 0);
  for (guint i = 0; i < 12; i++)
    {
      char id[8], port[8];

      g_snprintf (id, sizeof id, "r%u", i);
      g_snprintf (port, sizeof port, "%u", i + 1);
      scene_rig_device (text, id, "rack", id, i % 2 * 160.0, 90.0 + i / 2 * 40.0);
      scene_rig_cable (text, "s", port, id, i % 2 == 0 ? "Secondary" : "Primary", NULL);
    }
  rig = scene_rig_end (text);
  scene = scene_of (rig);
  g_assert_cmpfloat (all_shared (scene), <, 0.1);
}

/* Bends that a person laid are on the way, in their order. */
static void
test_bends (void)
{
  static const RwPoint bends[] = { { 80, 90 }, { 200, 90 }, { 200, -40 } };
  SceneRig *text = scene_rig_begin ();
  g_autoptr (RwRig) rig = NULL;
  g_autoptr (RwScene) scene = NULL;
  const RwSceneCable *cable;
  guint k = 0;

  scene_rig_device (text, "a", "rack", "A", 0, 0);
  scene_rig_device (text, "b", "rack", "B", 100, 0);
  scene_rig_cable (text, "a", "Secondary", "b", "Primary", ", \"bends\": [[80, 90], [200, 90], [200, -40]]");
  rig = scene_rig_end (text);
  scene = scene_of (rig);
  cable = rw_scene_cable (scene, 0);
  check_shape (scene, 0);
  g_assert_cmpuint (boxes_crossed (scene, cable), ==, 0);
  for (guint i = 0; i + 1 < cable->n_points; i++)
    {
      RwPoint a = cable->points[i], b = cable->points[i + 1];

      while (k < G_N_ELEMENTS (bends)
             && fabs (hypot (a.x - bends[k].x, a.y - bends[k].y) + hypot (b.x - bends[k].x, b.y - bends[k].y) - hypot (a.x - b.x, a.y - b.y)) < 1e-3)
        k++;
    }
  g_assert_cmpuint (k, ==, G_N_ELEMENTS (bends));
}

/* More bends than a way can hold, and bends on one another: right-angled and from tip to tip all the same. */
static void
test_many_bends (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  for (guint n = 1; n < 400; n += 23)
    {
      g_autoptr (GString) bends = g_string_new (", \"bends\": [");
      SceneRig *text = scene_rig_begin ();
      g_autoptr (RwRig) rig = NULL;
      g_autoptr (RwScene) scene = NULL;
      const RwSceneCable *cable;

      for (guint i = 0; i < n; i++)
        g_string_append_printf (bends, "%s[%d, %d]", i > 0 ? ", " : "", g_rand_int_range (rand, -30, 200), g_rand_int_range (rand, -30, 60));
      g_string_append_c (bends, ']');
      scene_rig_device (text, "a", "rack", "A", 0, 0);
      scene_rig_device (text, "b", "rack", "B", 100, 0);
      scene_rig_cable (text, "a", "Secondary", "b", "Primary", bends->str);
      rig = scene_rig_end (text);
      scene = scene_of (rig);
      cable = rw_scene_cable (scene, 0);
      for (guint i = 0; i + 1 < cable->n_points; i++)
        g_assert_true (fabs (cable->points[i].x - cable->points[i + 1].x) < EPS || fabs (cable->points[i].y - cable->points[i + 1].y) < EPS);
      g_assert_cmpfloat (hypot (cable->points[cable->n_points - 1].x - rw_scene_port (scene, rw_scene_net (scene)->cables[0].port[1])->tip.x, 0.0), <, EPS);
    }
}

/* The same rig gives the same ways, to the last bit. */
static void
test_same_again (void)
{
  for (guint32 seed = 0; seed < 10; seed++)
    {
      g_autoptr (RwRig) rig = random_layout (seed);
      g_autoptr (RwScene) a = scene_of (rig), b = scene_of (rig);

      for (guint i = 0; i < rw_scene_n_cables (a); i++)
        {
          const RwSceneCable *p = rw_scene_cable (a, i), *q = rw_scene_cable (b, i);

          g_assert_cmpmem (p->points, sizeof *p->points * p->n_points, q->points, sizeof *q->points * q->n_points);
        }
    }
}

/* A cable in the air leaves square and ends under the pointer, wherever that is. */
static void
test_loose (void)
{
  for (int edge = RW_EDGE_LEFT; edge <= RW_EDGE_BOTTOM; edge++)
    for (int x = -40; x <= 40; x += 5)
      for (int y = -40; y <= 40; y += 5)
        {
          RwPoint out = rw_edge_outward ((RwEdge) edge);
          guint n;
          g_autofree RwPoint *p = rw_route_loose ((RwPoint) { 0, 0 }, (RwEdge) edge, (RwPoint) { x, y }, &n);

          g_assert_cmpuint (n, >=, 2);
          g_assert_cmpfloat (fabs (p[n - 1].x - x) + fabs (p[n - 1].y - y), <, EPS);
          g_assert_cmpfloat ((p[1].x - p[0].x) * out.x + (p[1].y - p[0].y) * out.y, >=, 0.0);
          for (guint k = 0; k + 1 < n; k++)
            g_assert_true (fabs (p[k].x - p[k + 1].x) < EPS || fabs (p[k].y - p[k + 1].y) < EPS);
        }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/route/shape", test_shape);
  g_test_add_func ("/scene/route/round-boxes", test_round_boxes);
  g_test_add_func ("/scene/route/few-bends", test_few_bends);
  g_test_add_func ("/scene/route/corner", test_corner);
  g_test_add_func ("/scene/route/tight-gap", test_tight_gap);
  g_test_add_func ("/scene/route/nested", test_nested);
  g_test_add_func ("/scene/route/lanes", test_lanes);
  g_test_add_func ("/scene/route/bends", test_bends);
  g_test_add_func ("/scene/route/many-bends", test_many_bends);
  g_test_add_func ("/scene/route/same-again", test_same_again);
  g_test_add_func ("/scene/route/loose", test_loose);
  return g_test_run ();
}
