/* SPDX-License-Identifier: MIT */
/*
 * Places for devices that were never put anywhere, as in a rig that another program wrote. A switch stands with the
 * devices that hang on it alone in columns above and below it, as its ports look; such blocks, and the devices
 * of chains, follow one another along the cables in rows, like words in a text; so do whole networks.
 */
#include "rw-scene-private.h"

#include <math.h>
#include <rig/rw-edit.h>

/* All in mm. */
#define GRID 5.0
#define ORIGIN 20.0      /* of a sheet on which nothing stands yet */
#define APART_X 50.0     /* between neighbours in a row: room for a cable's label */
#define APART_Y 10.0     /* between those of one column */
#define ROW_APART 45.0
#define NETWORK_APART 60.0
#define LANE RW_ROUTE_LANE
#define COLUMN 6         /* so many devices stand in one at most */
#define WIDER 1.6        /* than high, as a sheet is, with room for the title block */
#define FARTHEST 100000.0

/* A device, or a switch with what hangs on it. */
typedef struct
{
  guint head;
  guint first_leaf, n_leaves; /* in leaves */
  guint n_above;              /* of these, that stand above it */
  double w, up, down;         /* from the head's top edge */
  double x, y;                /* of the left end of that edge, in its network's area */
} Block;

/* What is joined by cables. */
typedef struct
{
  guint first_block, n_blocks;
  guint n_devices;
  RwRect area;
} Group;

typedef struct
{
  RwScene *scene;
  const RwNet *net;
  guint *hub;       /* by device: on which it hangs, itself = it is a head; RW_NONE = it has a place */
  guint *block_of;  /* by device: RW_NONE = not yet in one */
  GArray *leaves;   /* of guint */
  GArray *blocks;   /* of Block */
  GArray *groups;   /* of Group */
} Layout;

static gboolean
has_place (const RwNet *net, guint device)
{
  return rw_item_has (net->devices[device].device, RW_DEVICE_AT);
}

/* The device at the far end of @end of @device's cables, RW_NONE where it has a place of its own or is the same. */
static guint
far_device (const Layout *l, guint device, guint end)
{
  const RwNet *net = l->net;
  const RwNetCable *cable = &net->cables[l->scene->ends[end]];
  guint from = net->ports[cable->port[0]].device, to = net->ports[cable->port[1]].device;
  guint other = from == device ? to : from;

  return other == device || l->hub[other] == RW_NONE ? RW_NONE : other;
}

#define FOR_EACH_END(l, end, device) \
  for (guint end = (l)->scene->end_start[device]; end < (l)->scene->end_start[(device) + 1]; end++)

/* What is joined to switches alone hangs on the first of them. */
static guint
find_hub (const Layout *l, guint device)
{
  guint hub = RW_NONE;

  if (l->net->devices[device].forwards)
    return device;
  FOR_EACH_END (l, end, device)
    {
      guint other = far_device (l, device, end);

      if (other != RW_NONE && !l->net->devices[other].forwards)
        return device;
      if (hub == RW_NONE)
        hub = other;
    }
  return hub != RW_NONE ? hub : device;
}

static void
find_hubs (Layout *l)
{
  for (guint i = 0; i < l->net->n_devices; i++)
    l->hub[i] = has_place (l->net, i) ? RW_NONE : i;
  for (guint i = 0; i < l->net->n_devices; i++)
    if (l->hub[i] != RW_NONE)
      l->hub[i] = find_hub (l, i);
}

/* Whether the cable looks up out of @hub. */
static gboolean
hangs_above (const Layout *l, guint hub, guint end)
{
  const RwNetCable *cable = &l->net->cables[l->scene->ends[end]];
  guint port = cable->port[l->net->ports[cable->port[0]].device == hub ? 0 : 1];

  return l->scene->geometries[hub].shape->ports[port - l->net->devices[hub].first_port].edge == RW_EDGE_TOP;
}

/* Those above first, each in the order of the cables. */
static void
take_leaves (Layout *l, Block *block)
{
  block->first_leaf = l->leaves->len;
  for (guint pass = 0; pass < 2; pass++)
    {
      FOR_EACH_END (l, end, block->head)
        {
          guint leaf = far_device (l, block->head, end);

          if (leaf == RW_NONE || leaf == block->head || l->hub[leaf] != block->head || l->block_of[leaf] != RW_NONE
              || hangs_above (l, block->head, end) != (pass == 0))
            continue;
          l->block_of[leaf] = l->blocks->len;
          g_array_append_val (l->leaves, leaf);
        }
      if (pass == 0)
        block->n_above = l->leaves->len - block->first_leaf;
    }
  block->n_leaves = l->leaves->len - block->first_leaf;
}

static RwRect
box_of (const Layout *l, guint device)
{
  const RwShape *shape = l->scene->geometries[device].shape;

  return (RwRect) { 0.0, 0.0, shape->w, shape->h };
}

/* --- Columns of leaves --- */

static guint
n_columns (guint n)
{
  return (n + COLUMN - 1) / COLUMN;
}

/* Column by column, as the ports stand along the switch, the first of each next to it: @edge is where it begins. Gives the size of all. */
static RwPoint
put_columns (const Layout *l, const guint *leaves, guint n, double left, double edge, gboolean above, gboolean put)
{
  guint columns = n_columns (n), rows = columns > 0 ? (n + columns - 1) / columns : 0;
  double widest = 0.0, highest = 0.0, step_x, step_y;

  for (guint i = 0; i < n; i++)
    {
      widest = MAX (widest, box_of (l, leaves[i]).w);
      highest = MAX (highest, box_of (l, leaves[i]).h);
    }
  step_x = widest + APART_X + LANE * 2.0 * COLUMN;
  step_y = highest + APART_Y;
  for (guint i = 0; put && i < n; i++)
    l->scene->places[leaves[i]] = (RwPoint) {
      left + (i / rows) * step_x,
      above ? edge - highest - (i % rows) * step_y : edge + (i % rows) * step_y,
    };
  return n == 0 ? (RwPoint) { 0.0, 0.0 }
                : (RwPoint) { columns * step_x - (step_x - widest), rows * step_y - APART_Y };
}

/* Between a switch and what hangs on it: a lane for each cable. */
static double
fan (guint n)
{
  return n == 0 ? 0.0 : 15.0 + LANE * n;
}

/* Measures @block, or puts its devices with the left end of its head's row at (x, y). */
static void
put_block (const Layout *l, Block *block, gboolean put)
{
  const guint *leaves = (const guint *) (gconstpointer) l->leaves->data + block->first_leaf;
  guint n_below = block->n_leaves - block->n_above;
  RwRect head = box_of (l, block->head);
  RwPoint above = put_columns (l, leaves, block->n_above, 0, 0, TRUE, FALSE);
  RwPoint below = put_columns (l, leaves + block->n_above, n_below, 0, 0, FALSE, FALSE);

  block->w = MAX (head.w, MAX (above.x, below.x));
  block->up = above.y + fan (block->n_above);
  block->down = head.h + fan (n_below) + below.y;
  if (!put)
    return;
  l->scene->places[block->head] = (RwPoint) { block->x + (block->w - head.w) / 2, block->y };
  put_columns (l, leaves, block->n_above, block->x + (block->w - above.x) / 2, block->y - fan (block->n_above), TRUE, TRUE);
  put_columns (l, leaves + block->n_above, n_below, block->x + (block->w - below.x) / 2, block->y + head.h + fan (n_below), FALSE, TRUE);
}

/* --- Along the cables --- */

static guint
add_block (Layout *l, guint head)
{
  Block block = { .head = head };

  l->block_of[head] = l->blocks->len;
  take_leaves (l, &block);
  put_block (l, &block, FALSE);
  g_array_append_val (l->blocks, block);
  return block.n_leaves + 1;
}

static void
push_far_heads (const Layout *l, GArray *stack, guint device)
{
  for (guint end = l->scene->end_start[device + 1]; end > l->scene->end_start[device]; end--)
    {
      guint other = far_device (l, device, end - 1);

      if (other != RW_NONE && l->block_of[other] == RW_NONE)
        g_array_append_val (stack, l->hub[other]);
    }
}

/* A whole network from @head on, depth first, so that a chain reads on. */
static void
add_group (Layout *l, guint head)
{
  Group group = { .first_block = l->blocks->len };
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (guint));

  g_array_append_val (stack, head);
  while (stack->len > 0)
    {
      guint next = g_array_index (stack, guint, stack->len - 1);
      Block *block;

      g_array_set_size (stack, stack->len - 1);
      if (l->block_of[next] != RW_NONE)
        continue;
      group.n_devices += add_block (l, next);
      block = &g_array_index (l->blocks, Block, l->blocks->len - 1);
      for (guint i = block->n_leaves; i > 0; i--)
        push_far_heads (l, stack, g_array_index (l->leaves, guint, block->first_leaf + i - 1));
      push_far_heads (l, stack, next);
    }
  group.n_blocks = l->blocks->len - group.first_block;
  g_array_append_val (l->groups, group);
}

static guint
n_ends (const Layout *l, guint device)
{
  return l->scene->end_start[device + 1] - l->scene->end_start[device];
}

typedef struct { guint device, rank; } Start;

static int
compare_starts (gconstpointer a, gconstpointer b)
{
  const Start *s = a, *t = b;

  if (s->rank != t->rank)
    return s->rank > t->rank ? -1 : 1;
  return s->device < t->device ? -1 : s->device > t->device;
}

/* Networks begin at the switch with the most cables; without one at an end of a chain. */
static void
add_groups (Layout *l)
{
  g_autoptr (GArray) starts = g_array_new (FALSE, FALSE, sizeof (Start));

  for (guint i = 0; i < l->net->n_devices; i++)
    if (l->hub[i] == i)
      {
        Start start = { i, l->net->devices[i].forwards ? 2 + n_ends (l, i) : n_ends (l, i) == 1 };

        g_array_append_val (starts, start);
      }
  g_array_sort (starts, compare_starts);
  for (guint i = 0; i < starts->len; i++)
    if (l->block_of[g_array_index (starts, Start, i).device] == RW_NONE)
      add_group (l, g_array_index (starts, Start, i).device);
}

/* --- Rows --- */

/* How wide rows are in which things of @area mm² in all, the widest @widest mm, make a sheet's shape. */
static double
row_width (double area, double widest)
{
  return MAX (widest, sqrt (area * WIDER));
}

static void
arrange_row (Block *blocks, guint n, double *y)
{
  double x = 0.0, up = 0.0, down = 0.0;

  for (guint i = 0; i < n; i++)
    {
      up = MAX (up, blocks[i].up);
      down = MAX (down, blocks[i].down);
    }
  for (guint i = 0; i < n; i++)
    {
      blocks[i].x = x;
      blocks[i].y = *y + up;
      x += blocks[i].w + APART_X;
    }
  *y += up + down + ROW_APART;
}

static void
arrange_group (Layout *l, Group *group)
{
  Block *blocks = &g_array_index (l->blocks, Block, group->first_block);
  double area = 0.0, widest = 0.0, width, y = 0.0;
  guint first = 0;

  for (guint i = 0; i < group->n_blocks; i++)
    {
      area += (blocks[i].w + APART_X) * (blocks[i].up + blocks[i].down + ROW_APART);
      widest = MAX (widest, blocks[i].w);
    }
  width = row_width (area, widest);
  while (first < group->n_blocks)
    {
      guint end = first + 1;
      double x = blocks[first].w;

      while (end < group->n_blocks && x + APART_X + blocks[end].w <= width)
        x += APART_X + blocks[end++].w;
      group->area.w = MAX (group->area.w, x);
      arrange_row (blocks + first, end - first, &y);
      first = end;
    }
  group->area.h = y - ROW_APART;
}

static int
compare_groups (gconstpointer a, gconstpointer b)
{
  const Group *g = a, *h = b;

  if (g->n_devices != h->n_devices)
    return g->n_devices > h->n_devices ? -1 : 1;
  return g->first_block < h->first_block ? -1 : g->first_block > h->first_block;
}

/* The greatest network first. Gives the height of all. */
static double
arrange_groups (Layout *l)
{
  double area = 0.0, widest = 0.0, width, x = 0.0, y = 0.0, high = 0.0;

  g_array_sort (l->groups, compare_groups);
  for (guint i = 0; i < l->groups->len; i++)
    {
      Group *group = &g_array_index (l->groups, Group, i);

      arrange_group (l, group);
      area += (group->area.w + NETWORK_APART) * (group->area.h + NETWORK_APART);
      widest = MAX (widest, group->area.w);
    }
  width = row_width (area, widest);
  for (guint i = 0; i < l->groups->len; i++)
    {
      RwRect *place = &g_array_index (l->groups, Group, i).area;

      if (x > 0.0 && x + place->w > width)
        {
          y += high + NETWORK_APART;
          x = high = 0.0;
        }
      place->x = x;
      place->y = y;
      x += place->w + NETWORK_APART;
      high = MAX (high, place->h);
    }
  return y + high;
}

/* --- On the sheet --- */

/* The boxes that have a place; w = 0: there is none. */
static RwRect
taken_area (const Layout *l)
{
  RwRect taken = { 0 };

  for (guint i = 0; i < l->net->n_devices; i++)
    {
      RwRect box = box_of (l, i);

      if (l->hub[i] != RW_NONE)
        continue;
      box.x = l->scene->places[i].x;
      box.y = l->scene->places[i].y;
      taken = taken.w > 0.0 ? rw_rects_united (taken, box) : box;
    }
  return taken;
}

/* Where the layout's top left corner comes: under what stands there, or over it at the sheet's end. */
static RwPoint
corner (const Layout *l, double height)
{
  RwRect taken = taken_area (l);

  if (taken.w <= 0.0)
    return (RwPoint) { ORIGIN, ORIGIN };
  if (taken.y + taken.h + NETWORK_APART + height <= FARTHEST)
    return (RwPoint) { taken.x, taken.y + taken.h + NETWORK_APART };
  return (RwPoint) { taken.x, taken.y - NETWORK_APART - height };
}

static double
on_grid (double mm)
{
  return CLAMP (round (mm / GRID) * GRID, -FARTHEST, FARTHEST);
}

static void
put_all (Layout *l, RwPoint at)
{
  for (guint i = 0; i < l->groups->len; i++)
    {
      const Group *group = &g_array_index (l->groups, Group, i);

      for (guint k = 0; k < group->n_blocks; k++)
        {
          Block *block = &g_array_index (l->blocks, Block, group->first_block + k);

          block->x += at.x + group->area.x;
          block->y += at.y + group->area.y;
          put_block (l, block, TRUE);
        }
    }
  for (guint i = 0; i < l->net->n_devices; i++)
    if (l->hub[i] != RW_NONE)
      l->scene->places[i] = (RwPoint) { on_grid (l->scene->places[i].x), on_grid (l->scene->places[i].y) };
}

/* Finds the places of @scene's devices: where the rig has them, else tidily beside those; no two of the latter overlap. */
void
rw_scene_find_places (RwScene *scene)
{
  const RwNet *net = scene->net;
  Layout l = { .scene = scene, .net = net };
  guint n_without = 0;
  double height;

  for (guint i = 0; i < scene->n_devices; i++)
    {
      scene->places[i] = net->devices[i].device->at;
      n_without += !has_place (net, i);
    }
  if (n_without == 0)
    return;
  l.hub = g_new (guint, scene->n_devices);
  l.block_of = g_new (guint, scene->n_devices);
  for (guint i = 0; i < scene->n_devices; i++)
    l.block_of[i] = RW_NONE;
  l.leaves = g_array_new (FALSE, FALSE, sizeof (guint));
  l.blocks = g_array_new (FALSE, FALSE, sizeof (Block));
  l.groups = g_array_new (FALSE, FALSE, sizeof (Group));
  find_hubs (&l);
  add_groups (&l);
  height = arrange_groups (&l);
  put_all (&l, corner (&l, height));
  g_array_unref (l.leaves);
  g_array_unref (l.blocks);
  g_array_unref (l.groups);
  g_free (l.block_of);
  g_free (l.hub);
}

/**
 * rw_scene_settle:
 * @scene: a scene of @rig
 * @rig: a rig
 *
 * Returns: (transfer full) (nullable): the change that writes down where the devices stand that @rig has no place for;
 *   %NULL where each has one
 */
RwChange *
rw_scene_settle (const RwScene *scene, const RwRig *rig)
{
  g_autoptr (RwEdit) edit = rw_edit_new (rig, "");
  g_autoptr (RwChange) change = NULL;

  g_return_val_if_fail (scene != NULL && rw_rig_n (rig, RW_ITEM_DEVICE) == scene->n_devices, NULL);

  for (guint i = 0; i < scene->n_devices; i++)
    if (!has_place (scene->net, i))
      rw_edit_set (edit, rw_item_key (scene->net->devices[i].device), RW_DEVICE_AT,
                   g_variant_new ("(dd)", scene->places[i].x, scene->places[i].y), NULL);
  change = rw_edit_finish (g_steal_pointer (&edit));
  return rw_change_n (change) > 0 ? g_steal_pointer (&change) : NULL;
}
