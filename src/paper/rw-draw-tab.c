/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-draw-pen.h"
#include "rw-draw-text.h"

/* A point of a tab: @out = 0 at the box, 1 at the outer side; @along = 0 … 1 from one flank to the other. */
static RwPoint
place (RwRect tab, RwEdge edge, double out, double along)
{
  switch (edge)
    {
    case RW_EDGE_LEFT:
      return (RwPoint) { tab.x + tab.w * (1 - out), tab.y + tab.h * along };
    case RW_EDGE_TOP:
      return (RwPoint) { tab.x + tab.w * along, tab.y + tab.h * (1 - out) };
    case RW_EDGE_BOTTOM:
      return (RwPoint) { tab.x + tab.w * along, tab.y + tab.h * out };
    case RW_EDGE_RIGHT:
    default:
      return (RwPoint) { tab.x + tab.w * out, tab.y + tab.h * along };
    }
}

/* A corner of a tab's outline. */
typedef struct { double out, along; } Corner;

static void
add_corners (cairo_t *cr, const RwDrawOptions *options, RwRect tab, RwEdge edge, const Corner *corners, guint n)
{
  cairo_new_path (cr);
  for (guint i = 0; i < n; i++)
    {
      RwPoint p = place (tab, edge, corners[i].out, corners[i].along);

      rw_pen_snap (cr, options, RW_PEN_THIN, &p.x, &p.y);
      cairo_line_to (cr, p.x, p.y);
    }
  cairo_close_path (cr);
}

static void
add_round (cairo_t *cr, RwRect tab, RwEdge edge)
{
  const double k = 0.5523, half = 0.5; /* quarters of an ellipse over the outer half */
  RwPoint p[9] = {
    place (tab, edge, 0, 0), place (tab, edge, half, 0),
    place (tab, edge, half + half * k, 0), place (tab, edge, 1, 0.5 - 0.5 * k), place (tab, edge, 1, 0.5),
    place (tab, edge, 1, 0.5 + 0.5 * k), place (tab, edge, half + half * k, 1), place (tab, edge, half, 1),
    place (tab, edge, 0, 1),
  };

  cairo_new_path (cr);
  cairo_move_to (cr, p[0].x, p[0].y);
  cairo_line_to (cr, p[1].x, p[1].y);
  cairo_curve_to (cr, p[2].x, p[2].y, p[3].x, p[3].y, p[4].x, p[4].y);
  cairo_curve_to (cr, p[5].x, p[5].y, p[6].x, p[6].y, p[7].x, p[7].y);
  cairo_line_to (cr, p[8].x, p[8].y);
  cairo_close_path (cr);
}

static const Corner square[] = { { 0, 0 }, { 1, 0 }, { 1, 1 }, { 0, 1 } };
static const Corner notched[] = {
  { 0, 0 }, { 0.62, 0 }, { 0.62, 0.17 }, { 1, 0.17 }, { 1, 0.83 }, { 0.62, 0.83 }, { 0.62, 1 }, { 0, 1 },
};
/* Its foot is wider than the tab, as an aux tab is but a small one. */
static const Corner slanted[] = { { 0, -0.25 }, { 1, 0.1 }, { 1, 0.9 }, { 0, 1.25 } };

static void
add_tab (cairo_t *cr, const RwDrawOptions *options, RwSide side, RwRect tab, RwEdge edge)
{
  switch (side)
    {
    case RW_SIDE_SECONDARY:
      add_corners (cr, options, tab, edge, notched, G_N_ELEMENTS (notched));
      break;
    case RW_SIDE_NETWORK:
      add_round (cr, tab, edge);
      break;
    case RW_SIDE_AUX:
      add_corners (cr, options, tab, edge, slanted, G_N_ELEMENTS (slanted));
      break;
    case RW_SIDE_PRIMARY:
    default:
      add_corners (cr, options, tab, edge, square, G_N_ELEMENTS (square));
      break;
    }
}

/**
 * rw_draw_tab_letter: what stands in the tab of a port of @side.
 */
const char *
rw_draw_tab_letter (RwSide side)
{
  switch (side)
    {
    case RW_SIDE_SECONDARY:
      /* Translators: one letter, marks a secondary port on the drawing. */
      return C_("port", "S");
    case RW_SIDE_NETWORK:
      /* Translators: one letter, marks a port of a switch or converter on the drawing. */
      return C_("port", "N");
    case RW_SIDE_AUX:
      /* Translators: one letter, marks a port apart from the audio network on the drawing. */
      return C_("port", "A");
    case RW_SIDE_PRIMARY:
    default:
      /* Translators: one letter, marks a primary port on the drawing. */
      return C_("port", "P");
    }
}

/**
 * rw_draw_tab: the tab of a port of @side that sticks out of @edge of its device: primary square, secondary with
 * notched corners, network round, aux slanted; with its letter where there is room to read it.
 */
void
rw_draw_tab (cairo_t *cr, RwSide side, RwRect tab, RwEdge edge, const RwDrawOptions *options)
{
  RW_DRAW_OWN_CONTEXT (options);
  RwTextStyle style = { RW_EM_LEAST, TRUE };
  RwPoint middle = place (tab, edge, side == RW_SIDE_NETWORK ? 0.46 : 0.5, 0.5);

  add_tab (cr, options, side, tab, edge);
  rw_ink_set (cr, RW_INK_BOX, options);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_BOX_LINE, options);
  rw_pen_set (cr, options, RW_PEN_THIN);
  cairo_stroke (cr);
  if (rw_draw_detail (options) < RW_DETAIL_PORTS)
    return;
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_draw_text (cr, options, rw_draw_tab_letter (side), style, middle.x, middle.y, 0.5, 0);
}
