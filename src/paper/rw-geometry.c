/* SPDX-License-Identifier: MIT */
#include "rw-geometry.h"

#include <math.h>
#include <string.h>

/* All in mm. Boxes and ports fall on the sheet's 5 mm grid, or half of it. */
#define GRID 5.0
#define TAB_LONG 4.0
#define TAB_DEEP 2.5
#define AUX_LONG 2.5
#define SIDE_ROW 15.0  /* ports at the left and right edges: the same for every part, so that neighbours' cables run straight */
#define BOX_HEIGHT 20.0
#define MARGIN 1.5
#define NAME_BAND 3.6  /* a row of port names inside the top or bottom edge */
#define ID_WIDTH 11.0
#define ID_HEIGHT 4.5
#define MAX_SLOT 15.0
#define TURN_OVER 60.0 /* an edge longer than this with wide names has its names turned instead */
#define NAME_LINES 2

/* Boxes must be the same on every machine, so their size goes by a count of columns, never by the font at hand. */
#define COLUMN 0.62 /* em a letter */

static const double class_widths[] = { 45.0, 55.0, 65.0 };
static const guint class_columns[] = { 26, 36, G_MAXUINT };

static guint
columns (const char *text)
{
  guint n = 0;

  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    n += g_unichar_iswide (g_utf8_get_char (p)) ? 2 : 1;
  return n;
}

/* Which of the widths @name asks for; 0 is the narrowest. */
guint
rw_shape_class (const RwPart *part, const char *name)
{
  guint n, class = 0;

  g_return_val_if_fail (part != NULL, 0);

  n = MAX (columns (name != NULL ? name : ""), part->name != NULL ? columns (part->name) * 4 / 5 : 0);
  while (n > class_columns[class])
    class++;
  return class;
}

/* Ports of one edge, in the order in which they stand along it. */
typedef struct
{
  guint *port;
  guint n;
  double length;   /* sum of the slots */
  gboolean turned;
  double band;     /* what their names take of the box's height */
} Edge;

typedef struct
{
  const RwPart *part;
  Edge edges[4]; /* by RwEdge */
  double *slot;  /* of each port, along its edge */
} Plan;

static void
edge_add (Edge *edge, guint port)
{
  edge->port[edge->n++] = port;
}

static gboolean
is_uplink (const RwPort *port)
{
  return port->side == RW_SIDE_NETWORK && port->medium != RW_MEDIUM_COPPER;
}

/* Ports of a switch that take fibre lead to other switches: they stand at the sides, where racks' ports stand
 * too, unless there is nothing else. A converter of two ports is a piece of the way: in at one side, out at the other. */
static void
choose_network_edges (Plan *plan)
{
  guint n_all = 0, n_uplinks = 0, all = 0, uplinks = 0, copper = 0;
  gboolean apart, through;

  for (guint i = 0; i < rw_part_n_ports (plan->part); i++)
    {
      const RwPort *port = rw_part_port (plan->part, i);

      n_all += port->side == RW_SIDE_NETWORK;
      n_uplinks += is_uplink (port);
    }
  through = n_all <= 2;
  apart = n_uplinks < n_all && n_uplinks <= 8;
  for (guint i = 0; i < rw_part_n_ports (plan->part); i++)
    {
      const RwPort *port = rw_part_port (plan->part, i);

      if (port->side != RW_SIDE_NETWORK)
        continue;
      if (through)
        edge_add (&plan->edges[all++ == 0 ? RW_EDGE_LEFT : RW_EDGE_RIGHT], i);
      else if (apart && is_uplink (port))
        edge_add (&plan->edges[uplinks++ < (n_uplinks + 1) / 2 ? RW_EDGE_LEFT : RW_EDGE_RIGHT], i);
      else
        edge_add (&plan->edges[copper++ < (n_all - (apart ? n_uplinks : 0) + 1) / 2 ? RW_EDGE_BOTTOM : RW_EDGE_TOP], i);
    }
}

static void
choose_edges (Plan *plan)
{
  choose_network_edges (plan);
  for (guint i = 0; i < rw_part_n_ports (plan->part); i++)
    switch ((RwSide) rw_part_port (plan->part, i)->side)
      {
      case RW_SIDE_PRIMARY:
        edge_add (&plan->edges[RW_EDGE_LEFT], i);
        break;
      case RW_SIDE_SECONDARY:
        edge_add (&plan->edges[RW_EDGE_RIGHT], i);
        break;
      case RW_SIDE_AUX:
        edge_add (&plan->edges[RW_EDGE_BOTTOM], i);
        break;
      case RW_SIDE_NETWORK:
        break;
      }
}

static double
up_to (double value, double step)
{
  return ceil (value / step - 1e-9) * step;
}

static void
measure_edge (Plan *plan, Edge *edge)
{
  guint longest = 0;

  edge->length = 0.0;
  for (guint i = 0; i < edge->n; i++)
    {
      guint n = columns (rw_part_port (plan->part, edge->port[i])->name);

      longest = MAX (longest, n);
      plan->slot[edge->port[i]] = CLAMP (up_to (n * COLUMN * RW_EM_LEAST + 0.8, GRID), GRID, MAX_SLOT);
      edge->length += plan->slot[edge->port[i]];
    }
  edge->band = edge->n > 0 ? NAME_BAND : 0.0;
  edge->turned = edge->length > TURN_OVER && longest > 2 && edge->n > 4;
  if (!edge->turned)
    return;
  for (guint i = 0; i < edge->n; i++)
    plan->slot[edge->port[i]] = GRID;
  edge->length = edge->n * GRID;
  edge->band = MIN (longest * COLUMN * RW_EM_LEAST + 1.0, MAX_SLOT);
}

static void
plan_init (Plan *plan, const RwPart *part)
{
  guint n = rw_part_n_ports (part);

  memset (plan, 0, sizeof *plan);
  plan->part = part;
  plan->slot = g_new0 (double, n);
  for (guint i = 0; i < G_N_ELEMENTS (plan->edges); i++)
    plan->edges[i].port = g_new0 (guint, n);
  choose_edges (plan);
  measure_edge (plan, &plan->edges[RW_EDGE_TOP]);
  measure_edge (plan, &plan->edges[RW_EDGE_BOTTOM]);
}

static void
plan_clear (Plan *plan)
{
  for (guint i = 0; i < G_N_ELEMENTS (plan->edges); i++)
    g_free (plan->edges[i].port);
  g_free (plan->slot);
}

/* Sizes of the box, from top to bottom: names of the ports on top, title, ports at the sides, names at the bottom. */
static void
size_box (RwShape *shape, const Plan *plan, guint width_class)
{
  const Edge *top = &plan->edges[RW_EDGE_TOP], *bottom = &plan->edges[RW_EDGE_BOTTOM];
  guint rows = MAX (plan->edges[RW_EDGE_LEFT].n, plan->edges[RW_EDGE_RIGHT].n);
  double first = top->n > 0 ? top->band + 0.4 : MARGIN;
  double row_top = MAX (SIDE_ROW, up_to (first + 9.0 + 1.7, GRID));
  double title_end = rows > 0 ? row_top - 1.7 : MAX (first + 11.5, BOX_HEIGHT - MARGIN - bottom->band);
  double used = rows > 0 ? row_top + (rows - 1) * GRID + 1.7 : title_end;

  shape->w = MAX (class_widths[width_class], up_to (MAX (top->length, bottom->length), GRID) + GRID);
  shape->h = MAX (BOX_HEIGHT, up_to (used + bottom->band + 0.2, GRID));
  if (rows > 0)
    shape->h = MAX (shape->h, row_top + rows * GRID);
  shape->title = (RwRect) { 2.0, first, shape->w - 4.0, title_end - first };
  shape->id_tab = (RwRect) { shape->w - ID_WIDTH - MARGIN, first, ID_WIDTH, ID_HEIGHT };
}

static void
place_text (RwSceneText *text, const char *string, double em, gboolean bold, double max_width)
{
  text->text = rw_text_shorten (string, em, bold, max_width);
  text->em = em;
  text->bold = bold;
  text->rect.w = rw_text_width (text->text, em, bold);
  text->rect.h = rw_text_height (em);
}

static void
place_side_port (RwShape *shape, const Plan *plan, RwEdge edge, guint port, double y)
{
  gboolean left = edge == RW_EDGE_LEFT;
  gboolean shared = plan->edges[left ? RW_EDGE_RIGHT : RW_EDGE_LEFT].n > 0;
  RwScenePort *p = &shape->ports[port];
  RwSceneText *name = &shape->port_names[port];

  p->edge = edge;
  p->tab = (RwRect) { left ? -TAB_DEEP : shape->w, y - TAB_LONG / 2.0, TAB_DEEP, TAB_LONG };
  p->tip = (RwPoint) { left ? -TAB_DEEP : shape->w + TAB_DEEP, y };
  place_text (name, rw_part_port (plan->part, port)->name, RW_EM_LEAST, FALSE, (shared ? shape->w / 2.0 : shape->w) - 2.0);
  name->rect.x = left ? 1.2 : shape->w - 1.2 - name->rect.w;
  name->rect.y = y - name->rect.h / 2.0;
}

static void
place_sides (RwShape *shape, const Plan *plan, RwEdge edge)
{
  double y = up_to (shape->title.y + shape->title.h, GRID);

  for (guint i = 0; i < plan->edges[edge].n; i++, y += GRID)
    place_side_port (shape, plan, edge, plan->edges[edge].port[i], y);
}

static void
place_row_port (RwShape *shape, const Plan *plan, RwEdge edge, guint port, double x)
{
  gboolean top = edge == RW_EDGE_TOP;
  const RwPort *what = rw_part_port (plan->part, port);
  double along = what->side == RW_SIDE_AUX ? AUX_LONG : TAB_LONG;
  RwScenePort *p = &shape->ports[port];
  RwSceneText *name = &shape->port_names[port];
  gboolean turned = plan->edges[edge].turned;

  p->edge = edge;
  p->tab = (RwRect) { x - along / 2.0, top ? -TAB_DEEP : shape->h, along, TAB_DEEP };
  p->tip = (RwPoint) { x, top ? -TAB_DEEP : shape->h + TAB_DEEP };
  place_text (name, what->name, RW_EM_LEAST, FALSE, turned ? plan->edges[edge].band - 0.6 : plan->slot[port] - 0.4);
  name->turned = turned;
  if (turned)
    name->rect = (RwRect) { 0.0, 0.0, name->rect.h, name->rect.w };
  name->rect.x = x - name->rect.w / 2.0;
  name->rect.y = top ? 0.4 : shape->h - 0.4 - name->rect.h;
}

static void
place_row (RwShape *shape, const Plan *plan, RwEdge edge)
{
  const Edge *row = &plan->edges[edge];
  double x = floor ((shape->w - row->length) / 2.0 / TAB_DEEP) * TAB_DEEP;

  for (guint i = 0; i < row->n; i++)
    {
      double slot = plan->slot[row->port[i]];

      place_row_port (shape, plan, edge, row->port[i], x + slot / 2.0);
      x += slot;
    }
}

static void
bound_shape (RwShape *shape)
{
  double l = 0.0, t = 0.0, r = shape->w, b = shape->h;

  for (guint i = 0; i < shape->n_ports; i++)
    {
      l = MIN (l, shape->ports[i].tip.x);
      t = MIN (t, shape->ports[i].tip.y);
      r = MAX (r, shape->ports[i].tip.x);
      b = MAX (b, shape->ports[i].tip.y);
    }
  shape->bounds = (RwRect) { l, t, r - l, b - t };
}

/**
 * rw_shape_new: lays out @part at a width from rw_shape_class(). Box and ports depend on these two alone, on every
 * machine; only how the port names are shortened goes by the font. Free with rw_shape_unref().
 */
RwShape *
rw_shape_new (const RwPart *part, guint width_class)
{
  RwShape *shape;
  Plan plan;

  g_return_val_if_fail (part != NULL, NULL);
  g_return_val_if_fail (width_class < G_N_ELEMENTS (class_widths), NULL);

  shape = g_new0 (RwShape, 1);
  g_ref_count_init (&shape->refs);
  shape->n_ports = rw_part_n_ports (part);
  shape->ports = g_new0 (RwScenePort, shape->n_ports);
  shape->port_names = g_new0 (RwSceneText, shape->n_ports);
  plan_init (&plan, part);
  size_box (shape, &plan, width_class);
  place_sides (shape, &plan, RW_EDGE_LEFT);
  place_sides (shape, &plan, RW_EDGE_RIGHT);
  place_row (shape, &plan, RW_EDGE_TOP);
  place_row (shape, &plan, RW_EDGE_BOTTOM);
  bound_shape (shape);
  plan_clear (&plan);
  return shape;
}

RwShape *
rw_shape_ref (RwShape *shape)
{
  g_return_val_if_fail (shape != NULL, NULL);

  g_ref_count_inc (&shape->refs);
  return shape;
}

void
rw_shape_unref (RwShape *shape)
{
  g_return_if_fail (shape != NULL);

  if (!g_ref_count_dec (&shape->refs))
    return;
  for (guint i = 0; i < shape->n_ports; i++)
    g_free (shape->port_names[i].text);
  g_free (shape->port_names);
  g_free (shape->ports);
  g_free (shape);
}

/* Where @text may be parted so that the first line is the longest that fits; NULL if nowhere. */
static const char *
break_point (const char *text, double em, double width)
{
  const char *best = NULL;

  for (const char *p = strchr (text, ' '); p != NULL; p = strchr (p + 1, ' '))
    {
      g_autofree char *head = g_strndup (text, p - text);

      if (p > text && rw_text_width (head, em, TRUE) <= width)
        best = p;
    }
  return best;
}

/* One line, or two parted at a space; the second is cut where even that is too long. */
static guint
break_name (const char *name, double em, double width, gboolean cut, char *lines[NAME_LINES])
{
  const char *at;

  if (rw_text_width (name, em, TRUE) <= width)
    {
      lines[0] = g_strdup (name);
      return 1;
    }
  at = break_point (name, em, width);
  if (at == NULL && !cut)
    return 0;
  if (at == NULL)
    {
      lines[0] = rw_text_shorten (name, em, TRUE, width);
      return 1;
    }
  if (!cut && rw_text_width (at + 1, em, TRUE) > width)
    return 0;
  lines[0] = g_strndup (name, at - name);
  lines[1] = rw_text_shorten (at + 1, em, TRUE, width);
  return 2;
}

/* Tries the wanted size, then smaller ones; at the least size the name is cut to what there is room for. */
static void
place_name (RwGeometry *geometry, const char *name, double width, double height)
{
  for (double em = RW_EM_NAME;; em = MAX (em - 0.3, RW_EM_LEAST))
    {
      char *lines[NAME_LINES] = { NULL, NULL };
      gboolean last = em <= RW_EM_LEAST;
      double line = rw_text_height (em);
      guint room = MIN (NAME_LINES, (guint) MAX (1.0, floor (height / line + 1e-9)));
      guint n = break_name (name, em, width, last && room > 1, lines);

      if (n > 0 && n <= room)
        {
          for (guint i = 0; i < n; i++)
            {
              RwRect rect = { geometry->shape->title.x, geometry->shape->title.y + i * line, rw_text_width (lines[i], em, TRUE), line };

              geometry->name[i] = (RwSceneText) { lines[i], rect, em, TRUE, FALSE };
            }
          return;
        }
      g_free (lines[0]);
      g_free (lines[1]);
      if (last)
        {
          place_text (&geometry->name[0], name, em, TRUE, width);
          geometry->name[0].rect.x = geometry->shape->title.x;
          geometry->name[0].rect.y = geometry->shape->title.y;
          return;
        }
    }
}

static void
place_id (RwGeometry *geometry, const char *id)
{
  RwRect room = geometry->shape->id_tab;
  RwSceneText *text = &geometry->id;

  place_text (text, id, RW_EM_LABEL, TRUE, room.w - 1.6);
  geometry->id_tab = room;
  geometry->id_tab.w = MAX (room.h + 1.5, text->rect.w + 3.0);
  geometry->id_tab.w = MIN (geometry->id_tab.w, room.w);
  geometry->id_tab.x = room.x + room.w - geometry->id_tab.w;
  text->rect.x = geometry->id_tab.x + (geometry->id_tab.w - text->rect.w) / 2.0;
  text->rect.y = room.y + (room.h - text->rect.h) / 2.0;
}

/**
 * rw_geometry_init: sets the texts of one device into @shape: the name at full size on one line or two, else
 * smaller, else cut; below it the part's name. @id: (nullable): what its round tab says. Takes a reference on @shape;
 * rw_geometry_clear() when done.
 */
void
rw_geometry_init (RwGeometry *geometry, RwShape *shape, const RwPart *part, const char *name, const char *id)
{
  double width, part_height = rw_text_height (RW_EM_LEAST);
  const RwSceneText *last;

  g_return_if_fail (geometry != NULL && shape != NULL && part != NULL);

  memset (geometry, 0, sizeof *geometry);
  geometry->shape = rw_shape_ref (shape);
  width = shape->title.w;
  if (id != NULL)
    {
      place_id (geometry, id);
      width = geometry->id_tab.x - 1.0 - shape->title.x;
    }
  place_name (geometry, name != NULL ? name : "", width, shape->title.h - part_height);
  last = &geometry->name[geometry->name[1].text != NULL ? 1 : 0];
  place_text (&geometry->part, part->name != NULL ? part->name : "", RW_EM_LEAST, FALSE, shape->title.w);
  geometry->part.rect.x = shape->title.x;
  geometry->part.rect.y = last->rect.y + last->rect.h;
  if (id != NULL && geometry->part.rect.w > width)
    geometry->part.rect.y = MAX (geometry->part.rect.y, geometry->id_tab.y + geometry->id_tab.h + 0.1);
}

void
rw_geometry_clear (RwGeometry *geometry)
{
  g_return_if_fail (geometry != NULL);

  g_free (geometry->name[0].text);
  g_free (geometry->name[1].text);
  g_free (geometry->part.text);
  g_free (geometry->id.text);
  g_clear_pointer (&geometry->shape, rw_shape_unref);
}

/* What the round tab says: the unit ID, the controller ID after a C, or both; NULL without either. Free with g_free(). */
char *
rw_geometry_id_text (const RwDevice *device)
{
  gboolean unit, controller;

  g_return_val_if_fail (device != NULL, NULL);

  unit = rw_item_has (device, RW_DEVICE_UNIT_ID);
  controller = rw_item_has (device, RW_DEVICE_CONTROLLER_ID);
  if (unit && controller)
    return g_strdup_printf ("C%d/%d", device->controller_id, device->unit_id);
  if (controller)
    return g_strdup_printf ("C%d", device->controller_id);
  return unit ? g_strdup_printf ("%d", device->unit_id) : NULL;
}
