/* SPDX-License-Identifier: MIT */
#include "rw-scene-private.h"

#include <math.h>
#include <net/rw-tree.h>
#include <string.h>

/* Steps of search that the ways of a whole scene may take, and those of one shift: some tens of milliseconds, and
 * a fraction of one. */
#define SCENE_STEPS 400000
#define SHIFT_STEPS 6000
/* Looks likewise, for the ways, for parting those that cross, and for labels and balloons, each. A sheet that can be read takes a fraction;
 * a heap of hundreds of devices would take any number. */
#define SCENE_LOOKS(n) (G_GUINT64_CONSTANT (4000000) + G_GUINT64_CONSTANT (8000) * (n))
#define SHIFT_LOOKS 400000

static RwRect
moved (RwRect r, RwPoint by)
{
  return (RwRect) { r.x + by.x, r.y + by.y, r.w, r.h };
}

typedef struct { const RwPart *part; guint width_class; } ShapeKey;

static guint
shape_key_hash (gconstpointer key)
{
  const ShapeKey *k = key;

  return g_direct_hash (k->part) * 4 + k->width_class;
}

static gboolean
shape_key_equal (gconstpointer a, gconstpointer b)
{
  const ShapeKey *k = a, *l = b;

  return k->part == l->part && k->width_class == l->width_class;
}

static RwShape *
shape_of (RwScene *scene, const RwPart *part, const char *name)
{
  ShapeKey key = { part, rw_shape_class (part, name) };
  RwShape *shape = g_hash_table_lookup (scene->shapes, &key);

  if (shape == NULL)
    {
      shape = rw_shape_new (part, key.width_class);
      g_hash_table_insert (scene->shapes, g_memdup2 (&key, sizeof key), shape);
    }
  return shape;
}

/* Puts the box of device @i, and its ports, with its top left corner at @at. */
static void
put_device (RwScene *scene, guint i, RwPoint at)
{
  const RwNetDevice *d = &scene->net->devices[i];
  const RwShape *shape = scene->geometries[i].shape;
  RwSceneDevice *device = &scene->devices[i];

  device->box = (RwRect) { at.x, at.y, shape->w, shape->h };
  device->bounds = moved (shape->bounds, at);
  for (guint k = 0; k < shape->n_ports; k++)
    {
      RwScenePort *port = &scene->ports[d->first_port + k];

      *port = shape->ports[k];
      port->tab = moved (port->tab, at);
      port->tip.x += at.x;
      port->tip.y += at.y;
    }
  rw_router_set_box (scene->router, i, device->box, device->bounds);
}

static void
build_devices (RwScene *scene)
{
  for (guint i = 0; i < scene->n_devices; i++)
    {
      const RwNetDevice *d = &scene->net->devices[i];
      const char *title = rw_device_title (d->device);
      g_autofree char *id = rw_geometry_id_text (d->device);

      rw_geometry_init (&scene->geometries[i], shape_of (scene, d->part, title), d->part, title, id);
    }
  rw_scene_find_places (scene);
  for (guint i = 0; i < scene->n_devices; i++)
    put_device (scene, i, scene->places[i]);
}

static RwRouteJob
job_of (const RwScene *scene, guint cable)
{
  const RwNetCable *c = &scene->net->cables[cable];
  const RwScenePort *from = &scene->ports[c->port[0]], *to = &scene->ports[c->port[1]];

  return (RwRouteJob) {
    from->tip, to->tip, from->edge, to->edge,
    scene->devices[scene->net->ports[c->port[0]].device].box, scene->devices[scene->net->ports[c->port[1]].device].box,
    c->cable->bends.points, c->cable->bends.n,
  };
}

static void
bound_cable (RwSceneCable *cable)
{
  double l = cable->points[0].x, t = cable->points[0].y, r = l, b = t;

  for (guint i = 1; i < cable->n_points; i++)
    {
      l = MIN (l, cable->points[i].x);
      t = MIN (t, cable->points[i].y);
      r = MAX (r, cable->points[i].x);
      b = MAX (b, cable->points[i].y);
    }
  cable->bounds = (RwRect) { l, t, r - l, b - t };
}

static void
route_cable (RwScene *scene, guint i)
{
  RwRouteJob job = job_of (scene, i);
  RwSceneCable *cable = &scene->cables[i];

  g_free (cable->points);
  cable->points = rw_router_find (scene->router, i, &job, &cable->n_points);
  rw_router_take (scene->router, i, cable->points, cable->n_points);
  bound_cable (cable);
}

typedef struct { guint cable; double distance; } Turn;

static int
compare_turns (gconstpointer a, gconstpointer b)
{
  const Turn *s = a, *t = b;

  if (s->distance < t->distance || s->distance > t->distance)
    return s->distance < t->distance ? -1 : 1;
  return s->cable < t->cable ? -1 : s->cable > t->cable;
}

/* Cables are routed the shortest first, as these have the least choice; those of one length in file order. Then those
 * that cross others or run too near look once more, now that they see all of these. */
static void
route_cables (RwScene *scene, const guint *cables, guint n)
{
  g_autofree Turn *turns = g_new (Turn, n);

  if (n == 0)
    return;
  for (guint k = 0; k < n; k++)
    {
      RwRouteJob job = job_of (scene, cables[k]);

      turns[k] = (Turn) { cables[k], fabs (job.from.x - job.to.x) + fabs (job.from.y - job.to.y) };
      if (job.n_bends > 0)
        turns[k].distance = 0.0; /* what a person laid down comes first */
    }
  qsort (turns, n, sizeof *turns, compare_turns);
  for (guint k = 0; k < n; k++)
    route_cable (scene, turns[k].cable);
  for (guint k = 0; k < n; k++)
    if (rw_router_is_disturbed (scene->router, turns[k].cable, scene->cables[turns[k].cable].points, scene->cables[turns[k].cable].n_points))
      {
        rw_router_forget (scene->router, turns[k].cable);
        route_cable (scene, turns[k].cable);
      }
}

static void
label_cable (RwScene *scene, guint i)
{
  RwSceneCable *cable = &scene->cables[i];
  g_autofree char *text = rw_label_text (scene->net->cables[i].cable);
  RwLabel label = { 0 };

  g_clear_pointer (&cable->text, g_free);
  rw_labeller_place (scene->labeller, i, text, cable->points, cable->n_points, &label);
  cable->text = label.text;
  cable->label = label.rect;
  cable->label_em = label.em;
}

/* Which cables end at which device, as one array of slices. */
static void
build_ends (RwScene *scene)
{
  const RwNet *net = scene->net;
  guint *start = g_new0 (guint, scene->n_devices + 2);

  scene->ends = g_new (guint, 2 * scene->n_cables);
  for (guint e = 0; e < 2 * scene->n_cables; e++)
    start[net->ports[net->cables[e / 2].port[e % 2]].device + 2]++;
  for (guint i = 2; i < scene->n_devices + 2; i++)
    start[i] += start[i - 1];
  for (guint e = 0; e < 2 * scene->n_cables; e++)
    scene->ends[start[net->ports[net->cables[e / 2].port[e % 2]].device + 1]++] = e / 2;
  scene->end_start = start;
}

static RwLineStyle
style_of_end (const RwNet *net, guint port)
{
  const RwNetDevice *device = &net->devices[net->ports[port].device];

  if (device->forwards || device->mode == RW_MODE_SINGLE)
    return RW_LINE_PLAIN;
  if (device->mode == RW_MODE_CHAIN)
    return RW_LINE_CHAIN;
  return net->ports[port].port->side == RW_SIDE_SECONDARY ? RW_LINE_SECONDARY : RW_LINE_PRIMARY;
}

/* The plane of the network that the cable is in. Where that is several, or it carries nothing, its ends tell. */
static RwLineStyle
style_of (const RwNet *net, guint i)
{
  const RwNetCable *cable = &net->cables[i];
  RwPlanes planes = 0;
  RwLineStyle from, to;

  if (!cable->audio)
    return RW_LINE_AUX;
  for (guint k = 0; k < cable->n_links; k++)
    planes |= net->networks[net->nodes[net->links[cable->first_link + k].node[0]].network].planes;
  switch ((guint) planes)
    {
    case RW_PLANE_CHAIN:
      return RW_LINE_CHAIN;
    case RW_PLANE_PRIMARY:
      return RW_LINE_PRIMARY;
    case RW_PLANE_SECONDARY:
      return RW_LINE_SECONDARY;
    default:
      from = style_of_end (net, cable->port[0]);
      to = style_of_end (net, cable->port[1]);
      return from != RW_LINE_PLAIN ? from : to;
    }
}

/**
 * rw_scene_held:
 * @tree: of @net
 *
 * Returns: at which end of cable @i the spanning tree holds it open
 */
RwHeld
rw_scene_held (const RwNet *net, const RwTree *tree, guint i)
{
  const RwNetCable *cable = &net->cables[i];

  if (!cable->carries)
    return RW_HELD_NOT;
  if (tree->roles[cable->port[0]] == RW_TREE_ROLE_BLOCKED)
    return RW_HELD_FROM;
  return tree->roles[cable->port[1]] == RW_TREE_ROLE_BLOCKED ? RW_HELD_TO : RW_HELD_NOT;
}

static void
style_cables (RwScene *scene)
{
  const RwTree *tree = rw_net_tree (scene->net);

  for (guint i = 0; i < scene->n_cables; i++)
    {
      scene->cables[i].style = style_of (scene->net, i);
      scene->cables[i].held = rw_scene_held (scene->net, tree, i);
    }
  for (guint f = 0; f < rw_findings_n (scene->findings); f++)
    {
      const RwFinding *finding = rw_findings_get (scene->findings, f);

      for (guint k = 0; finding->severity == RW_SEVERITY_ERROR && finding->cables[k] != NULL; k++)
        {
          guint cable = rw_net_find_cable (scene->net, finding->cables[k]);

          if (cable != RW_NONE)
            scene->cables[cable].fault = TRUE;
        }
    }
}

/* Changes lanes between cables that cross, where none of the two was laid by a person. */
static void
untangle_cables (RwScene *scene, const guint *cables, guint n)
{
  g_autoptr (GArray) crossings = rw_router_crossings (scene->router, cables, n);

  for (guint i = 0; i < crossings->len && !rw_router_is_spent (scene->router); i++)
    {
      const RwRouteCrossing *c = &g_array_index (crossings, RwRouteCrossing, i);
      RwSceneCable *a = &scene->cables[c->a], *b = &scene->cables[c->b];

      if (scene->net->cables[c->a].cable->bends.n > 0 || scene->net->cables[c->b].cable->bends.n > 0)
        continue;
      if (!rw_router_untangle (scene->router, c->a, a->points, a->n_points, c->b, b->points, b->n_points))
        continue;
      bound_cable (a);
      bound_cable (b);
    }
}

static void
build_cables (RwScene *scene)
{
  g_autofree guint *all = g_new (guint, scene->n_cables);

  for (guint i = 0; i < scene->n_cables; i++)
    all[i] = i;
  rw_router_set_budget (scene->router, SCENE_STEPS, SCENE_LOOKS (scene->n_cables));
  route_cables (scene, all, scene->n_cables);
  rw_router_set_budget (scene->router, 0, SCENE_LOOKS (scene->n_cables) / 2);
  untangle_cables (scene, all, scene->n_cables);
  rw_router_set_budget (scene->router, 0, SCENE_LOOKS (scene->n_cables) / 2);
  for (guint i = 0; i < scene->n_cables; i++)
    label_cable (scene, i);
  style_cables (scene);
}

/**
 * rw_scene_new: lays out @rig as @net and @findings, which must be made from it, see it. Keeps references on both.
 * Free with rw_scene_unref().
 */
RwScene *
rw_scene_new (const RwRig *rig, const RwNet *net, const RwFindings *findings)
{
  RwScene *scene;

  g_return_val_if_fail (rig != NULL && net != NULL && findings != NULL, NULL);

  scene = g_new0 (RwScene, 1);
  g_atomic_ref_count_init (&scene->refs);
  scene->net = rw_net_ref ((RwNet *) net);
  scene->findings = rw_findings_ref ((RwFindings *) findings);
  scene->n_devices = net->n_devices;
  scene->n_ports = net->n_ports;
  scene->n_cables = net->n_cables;
  scene->devices = g_new0 (RwSceneDevice, scene->n_devices);
  scene->places = g_new0 (RwPoint, scene->n_devices);
  scene->geometries = g_new0 (RwGeometry, scene->n_devices);
  scene->ports = g_new0 (RwScenePort, scene->n_ports);
  scene->cables = g_new0 (RwSceneCable, scene->n_cables);
  scene->marks = g_new0 (guint8, scene->n_cables);
  scene->balloons = g_array_new (FALSE, TRUE, sizeof (RwSceneBalloon));
  scene->subjects = g_array_new (FALSE, FALSE, sizeof (RwSubject));
  scene->shapes = g_hash_table_new_full (shape_key_hash, shape_key_equal, g_free, (GDestroyNotify) rw_shape_unref);
  scene->router = rw_router_new (scene->n_cables);
  scene->labeller = rw_labeller_new (scene->router);
  build_ends (scene);
  build_devices (scene);
  build_cables (scene);
  rw_router_set_budget (scene->router, 0, SCENE_LOOKS (rw_findings_n (findings)));
  rw_scene_place_balloons (scene);
  return scene;
}

RwScene *
rw_scene_ref (RwScene *scene)
{
  g_return_val_if_fail (scene != NULL, NULL);

  g_atomic_ref_count_inc (&scene->refs);
  return scene;
}

void
rw_scene_unref (RwScene *scene)
{
  g_return_if_fail (scene != NULL);

  if (!g_atomic_ref_count_dec (&scene->refs))
    return;
  for (guint i = 0; i < scene->n_devices; i++)
    rw_geometry_clear (&scene->geometries[i]);
  for (guint i = 0; i < scene->n_cables; i++)
    {
      g_free (scene->cables[i].points);
      g_free (scene->cables[i].text);
    }
  rw_labeller_free (scene->labeller);
  rw_router_free (scene->router);
  g_hash_table_unref (scene->shapes);
  g_array_unref (scene->balloons);
  g_array_unref (scene->subjects);
  g_free (scene->devices);
  g_free (scene->places);
  g_free (scene->geometries);
  g_free (scene->ports);
  g_free (scene->cables);
  g_free (scene->marks);
  g_free (scene->ends);
  g_free (scene->end_start);
  rw_findings_unref (scene->findings);
  rw_net_unref (scene->net);
  g_free (scene);
}

/* Cables that end at one of @devices, each once. Free with g_array_unref(). */
static GArray *
cables_at (RwScene *scene, const guint *devices, guint n)
{
  GArray *cables = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint k = 0; k < n; k++)
    for (guint e = scene->end_start[devices[k]]; e < scene->end_start[devices[k] + 1]; e++)
      if (!scene->marks[scene->ends[e]])
        {
          scene->marks[scene->ends[e]] = 1;
          g_array_append_val (cables, scene->ends[e]);
        }
  for (guint k = 0; k < cables->len; k++)
    scene->marks[g_array_index (cables, guint, k)] = 0;
  return cables;
}

/**
 * rw_scene_shift: draws @devices (@n indices) as if they stood @dx, @dy mm from their places, and routes
 * anew the cables that end at them. Distances count from those places each time, so a drag may call this again and
 * again; (0, 0) puts them back. Balloons that hang on what moved move along.
 */
void
rw_scene_shift (RwScene *scene, const guint *devices, guint n, double dx, double dy)
{
  g_autoptr (GArray) cables = NULL;

  g_return_if_fail (scene != NULL && (devices != NULL || n == 0));

  cables = cables_at (scene, devices, n);
  for (guint k = 0; k < n; k++)
    {
      RwPoint at = scene->places[devices[k]];

      put_device (scene, devices[k], (RwPoint) { at.x + dx, at.y + dy });
    }
  for (guint k = 0; k < cables->len; k++)
    {
      rw_router_forget (scene->router, g_array_index (cables, guint, k));
      rw_labeller_forget (scene->labeller, g_array_index (cables, guint, k));
    }
  rw_router_set_budget (scene->router, SHIFT_STEPS, SHIFT_LOOKS);
  route_cables (scene, (const guint *) (const void *) cables->data, cables->len);
  for (guint k = 0; k < cables->len; k++)
    label_cable (scene, g_array_index (cables, guint, k));
  rw_scene_move_balloons (scene, devices, n, (const guint *) (const void *) cables->data, cables->len);
}

/* rw_scene_route_loose: a glance, not a search: it may cross boxes, as the person still moves. */
RwPoint *
rw_scene_route_loose (const RwScene *scene, RwPoint from, RwEdge edge, RwPoint to, guint *n_points)
{
  g_return_val_if_fail (scene != NULL && n_points != NULL, NULL);

  return rw_route_loose (from, edge, to, n_points);
}

/* rw_scene_route_ports: the way that a new cable from port to port would take, past all boxes; free with g_free(). */
RwPoint *
rw_scene_route_ports (const RwScene *scene, guint from, guint to, guint *n_points)
{
  const RwNetPort *ports = scene->net->ports;
  RwRouteJob job;

  g_return_val_if_fail (scene != NULL && from < scene->n_ports && to < scene->n_ports, NULL);

  job = (RwRouteJob) {
    scene->ports[from].tip, scene->ports[to].tip, scene->ports[from].edge, scene->ports[to].edge,
    scene->devices[ports[from].device].box, scene->devices[ports[to].device].box, NULL, 0,
  };
  rw_router_set_budget (scene->router, SCENE_STEPS, SCENE_LOOKS (1));
  return rw_router_find (scene->router, RW_NONE, &job, n_points);
}

/* rw_scene_part_box: the outline, to which tabs of 2.5 mm come; mm. */
RwRect
rw_scene_part_box (const RwPart *part, const char *name)
{
  g_autoptr (RwShape) shape = NULL;

  g_return_val_if_fail (part != NULL, (RwRect) { 0 });

  shape = rw_shape_new (part, rw_shape_class (part, name));
  return (RwRect) { 0.0, 0.0, shape->w, shape->h };
}

const RwNet *
rw_scene_net (const RwScene *scene)
{
  g_return_val_if_fail (scene != NULL, NULL);

  return scene->net;
}

const RwFindings *
rw_scene_findings (const RwScene *scene)
{
  g_return_val_if_fail (scene != NULL, NULL);

  return scene->findings;
}

guint
rw_scene_n_devices (const RwScene *scene)
{
  g_return_val_if_fail (scene != NULL, 0);

  return scene->n_devices;
}

guint
rw_scene_n_cables (const RwScene *scene)
{
  g_return_val_if_fail (scene != NULL, 0);

  return scene->n_cables;
}

guint
rw_scene_n_balloons (const RwScene *scene)
{
  g_return_val_if_fail (scene != NULL, 0);

  return scene->balloons->len;
}

const RwSceneDevice *
rw_scene_device (const RwScene *scene, guint index)
{
  g_return_val_if_fail (scene != NULL && index < scene->n_devices, NULL);

  return &scene->devices[index];
}

const RwGeometry *
rw_scene_geometry (const RwScene *scene, guint index)
{
  g_return_val_if_fail (scene != NULL && index < scene->n_devices, NULL);

  return &scene->geometries[index];
}

const RwScenePort *
rw_scene_port (const RwScene *scene, guint index)
{
  g_return_val_if_fail (scene != NULL && index < scene->n_ports, NULL);

  return &scene->ports[index];
}

/* rw_scene_place: where the rig has the device, or where one without a place was put; while it is shifted, its box is elsewhere. */
RwPoint
rw_scene_place (const RwScene *scene, guint index)
{
  g_return_val_if_fail (scene != NULL && index < scene->n_devices, (RwPoint) { 0 });

  return scene->places[index];
}

const RwSceneCable *
rw_scene_cable (const RwScene *scene, guint index)
{
  g_return_val_if_fail (scene != NULL && index < scene->n_cables, NULL);

  return &scene->cables[index];
}

const RwSceneBalloon *
rw_scene_balloon (const RwScene *scene, guint index)
{
  g_return_val_if_fail (scene != NULL && index < scene->balloons->len, NULL);

  return &g_array_index (scene->balloons, RwSceneBalloon, index);
}
