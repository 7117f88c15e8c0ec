/* SPDX-License-Identifier: MIT */
#include "rw-draw-pen.h"
#include "rw-draw-text.h"
#include "rw-scene-index.h"

#define TAB_PX 0.6  /* px_per_mm below which tabs do not show */
#define NAME_PX 6.0 /* least size of a name's letters when they are drawn larger than they are */

/* In the middle of its box, but for what stands in a column: that begins at its left edge. */
static void
draw_text (cairo_t *cr, const RwSceneText *text, double anchor, RwInkRole ink, const RwDrawOptions *options)
{
  double x = text->rect.x + anchor * text->rect.w, y = RW_RECT_MIDDLE_Y (text->rect);
  RwTextStyle style = { text->em, text->bold };

  if (text->text == NULL)
    return;
  rw_ink_set (cr, ink, options);
  if (!text->turned)
    {
      rw_draw_text (cr, options, text->text, style, x, y, anchor, 0);
      return;
    }
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_rotate (cr, -G_PI_2);
  rw_draw_text (cr, options, text->text, style, 0, 0, 0.5, 0);
  cairo_restore (cr);
}

/* Far out a tab is but a dot at the edge: all of a device in one fill, as a stroke each costs ten times as much. */
static void
draw_dots (cairo_t *cr, const RwShape *shape, const RwDrawOptions *options)
{
  if (options->px_per_mm < TAB_PX)
    return;
  rw_ink_set (cr, RW_INK_BOX_LINE, options);
  cairo_new_path (cr);
  for (guint i = 0; i < shape->n_ports; i++)
    rw_pen_rect (cr, options, 0, shape->ports[i].tab);
  cairo_fill (cr);
}

static void
draw_tabs (cairo_t *cr, const RwShape *shape, const RwPart *part, const RwDrawOptions *options)
{
  if (rw_draw_detail (options) < RW_DETAIL_PORTS)
    {
      draw_dots (cr, shape, options);
      return;
    }
  for (guint i = 0; i < shape->n_ports; i++)
    {
      const RwScenePort *port = &shape->ports[i];

      rw_draw_tab (cr, rw_part_port (part, i)->side, port->tab, port->edge, options);
    }
}

/* @depth: how strongly it is tinted; below 0 = not. */
static void
draw_box (cairo_t *cr, const RwShape *shape, double depth, const RwDrawOptions *options)
{
  RwInk ink = rw_draw_depth_ink (depth, options);

  cairo_set_source_rgb (cr, ink.r, ink.g, ink.b);
  cairo_new_path (cr);
  rw_pen_rect (cr, options, RW_PEN_MEDIUM, (RwRect) { 0, 0, shape->w, shape->h });
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_BOX_LINE, options);
  rw_pen_set (cr, options, RW_PEN_MEDIUM);
  cairo_stroke (cr);
}

/**
 * rw_draw_id_tab: the round tab under a device's ID, without its text; dark on the sheet, so that an ID is found at a
 * glance.
 */
void
rw_draw_id_tab (cairo_t *cr, RwRect tab, const RwDrawOptions *options)
{
  double r = tab.h / 2, middle = tab.y + r;

  cairo_new_path (cr);
  cairo_arc (cr, tab.x + r, middle, r, G_PI_2, 3 * G_PI_2);
  cairo_arc (cr, tab.x + tab.w - r, middle, r, -G_PI_2, G_PI_2);
  cairo_close_path (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  cairo_fill (cr);
}

/* Whether it ends in a number or a letter of its own, by which it is told from its neighbours. */
static gboolean
ends_short (const char *name)
{
  const char *space = strrchr (name, ' ');

  return space != NULL && g_utf8_strlen (space + 1, -1) <= 2;
}

/* Far out, when the name at its own size cannot be read any more: in sizes √2 apart, so that zooming
 * does not lay it out anew at every step. */
static void
draw_large_name (cairo_t *cr, const RwShape *shape, const char *name, const RwDrawOptions *options)
{
  double em = RW_EM_NAME;

  while (em * options->px_per_mm < NAME_PX)
    em *= G_SQRT2;
  if (em > shape->h * 0.8)
    return;
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_draw_text (cr, options, name, (RwTextStyle) { em, TRUE, ends_short (name) }, shape->w / 2, shape->h / 2, 0.5, shape->w - 1);
}

/* A name that only repeats the letter in the tab says nothing. */
static void
draw_port_names (cairo_t *cr, const RwShape *shape, const RwPart *part, const RwDrawOptions *options)
{
  for (guint i = 0; i < shape->n_ports; i++)
    if (g_strcmp0 (shape->port_names[i].text, rw_draw_tab_letter (rw_part_port (part, i)->side)) != 0)
      draw_text (cr, &shape->port_names[i], 0.5, RW_INK_TEXT, options);
}

static void
draw_texts (cairo_t *cr, const RwGeometry *geometry, const RwPart *part, const char *name, const RwDrawOptions *options)
{
  const RwShape *shape = geometry->shape;
  RwDetail detail = rw_draw_detail (options);

  if (detail >= RW_DETAIL_PORTS)
    draw_port_names (cr, shape, part, options);
  if (detail >= RW_DETAIL_PARTS)
    {
      draw_text (cr, &geometry->name[0], 0, RW_INK_TEXT, options);
      draw_text (cr, &geometry->name[1], 0, RW_INK_TEXT, options);
      draw_text (cr, &geometry->part, 0, RW_INK_FAINT, options);
      if (geometry->id.text != NULL)
        rw_draw_id_tab (cr, geometry->id_tab, options);
      draw_text (cr, &geometry->id, 0.5, RW_INK_SHEET, options);
    }
  else if (detail >= RW_DETAIL_NAMES)
    draw_large_name (cr, shape, name, options);
}

/**
 * rw_draw_device_area: what rw_draw_device() covers of the sheet, mm, but for the width of its lines: tabs, and a lens's
 * badge, reach out of the box.
 */
RwRect
rw_draw_device_area (const RwScene *scene, guint index, const RwDrawOptions *options)
{
  const RwSceneDevice *device = rw_scene_device (scene, index);
  const char *badge = rw_lens_device_badge (options->lens, index);
  RwCorner corner;

  if (badge == NULL)
    return device->bounds;
  corner = rw_lens_device_corner (options->lens, index, rw_draw_badge_is_far (options));
  return rw_rects_united (device->bounds, rw_draw_badge_area (device->box, corner, badge, options));
}

/**
 * rw_draw_device: device @index of the scene: tabs, box, name, part name, ID.
 */
void
rw_draw_device (cairo_t *cr, const RwScene *scene, guint index, const RwDrawOptions *options)
{
  const RwSceneDevice *device = rw_scene_device (scene, index);
  const RwGeometry *geometry = rw_scene_geometry (scene, index);
  const RwNetDevice *net = &rw_scene_net (scene)->devices[index];
  const char *badge = rw_lens_device_badge (options->lens, index);
  RW_DRAW_OWN_CONTEXT (options);

  if (!rw_pen_meets (options, rw_draw_device_area (scene, index, options)))
    return;
  cairo_save (cr);
  cairo_translate (cr, device->box.x, device->box.y);
  draw_tabs (cr, geometry->shape, net->part, options);
  draw_box (cr, geometry->shape, rw_lens_device_depth (options->lens, index), options);
  rw_draw_fate (cr, geometry->shape->w, geometry->shape->h, rw_lens_device_fate (options->lens, index), options);
  draw_texts (cr, geometry, net->part, rw_device_title (net->device), options);
  if (badge != NULL)
    rw_draw_badge (cr, (RwRect) { 0, 0, geometry->shape->w, geometry->shape->h },
                   rw_lens_device_corner (options->lens, index, rw_draw_badge_is_far (options)), badge, options);
  cairo_restore (cr);
}

/**
 * rw_draw_part_ghost: a device of @part that is not on the sheet yet, its box's top left at (@x, @y), half
 * see-through.
 */
void
rw_draw_part_ghost (cairo_t *cr, const RwPart *part, const char *name, double x, double y,
                    const RwDrawOptions *options)
{
  RwShape *shape = rw_shape_new (part, rw_shape_class (part, name));
  RwGeometry geometry;
  RW_DRAW_OWN_CONTEXT (options);

  rw_geometry_init (&geometry, shape, part, name, NULL);
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_push_group (cr);
  draw_tabs (cr, shape, part, options);
  draw_box (cr, shape, -1, options);
  draw_texts (cr, &geometry, part, name, options);
  cairo_pop_group_to_source (cr);
  cairo_paint_with_alpha (cr, 0.6);
  cairo_restore (cr);
  rw_geometry_clear (&geometry);
  rw_shape_unref (shape);
}
