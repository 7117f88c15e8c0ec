/* SPDX-License-Identifier: MIT */
/* The verdict on what is in the hand: a slip of paper beside what it speaks of. */
#include "rw-canvas-private.h"

#include <math.h>

#define WIDTH_PX 340
#define PAD_PX 8.0
#define AWAY_PX 18.0 /* from the hand */
#define EDGE_PX 4.0  /* left free at the edge of the view */
#define GAP_PX 8.0   /* left free round what it speaks of, the rings included */
#define MAX_TAKEN 16 /* places that are kept clear; of a longer loop no more would fit into a view */

/* --- Where it lies --- */

static double
overlap (RwRect a, RwRect b)
{
  double w = MIN (a.x + a.w, b.x + b.w) - MAX (a.x, b.x), h = MIN (a.y + a.h, b.y + b.h) - MAX (a.y, b.y);

  return w > 0 && h > 0 ? w * h : 0;
}

static double
distance_to (RwRect box, RwPoint p)
{
  return hypot (MAX (MAX (box.x - p.x, p.x - box.x - box.w), 0), MAX (MAX (box.y - p.y, p.y - box.y - box.h), 0));
}

/* Where along one axis it may begin: on either side of the hand and of each place that is taken. Returns how many. */
static guint
starts (double *found, double hand, double length, double view, const RwRect *taken, guint n, gboolean down)
{
  guint count = 0;

  found[count++] = hand + AWAY_PX;
  found[count++] = hand - AWAY_PX - length;
  found[count++] = hand - length / 2;
  for (guint i = 0; i < n; i++)
    {
      double low = down ? taken[i].y : taken[i].x, size = down ? taken[i].h : taken[i].w;

      found[count++] = low + size + GAP_PX;
      found[count++] = low - GAP_PX - length;
    }
  for (guint i = 0; i < count; i++)
    found[i] = MAX (MIN (found[i], view - EDGE_PX - length), EDGE_PX);
  return count;
}

/**
 * rw_canvas_verdict_place:
 * @taken: what must not be covered, px; at most 16 count
 * @hand: where the hand is, px
 * @width: of the slip, px
 * @height: of the slip, px
 * @view: the size of the view, px
 *
 * Returns: the top left of the slip within the view: where it covers least of what is taken, and of such places the
 *   one nearest to the hand
 */
RwPoint
rw_canvas_verdict_place (const RwRect *taken, guint n, RwPoint hand, double width, double height, RwRect view)
{
  double across[3 + 2 * MAX_TAKEN], down[3 + 2 * MAX_TAKEN], least = G_MAXDOUBLE;
  guint n_across, n_down;
  RwPoint best = { EDGE_PX, EDGE_PX };

  n = MIN (n, MAX_TAKEN);
  n_across = starts (across, hand.x, width, view.w, taken, n, FALSE);
  n_down = starts (down, hand.y, height, view.h, taken, n, TRUE);
  for (guint i = 0; i < n_across; i++)
    for (guint j = 0; j < n_down; j++)
      {
        RwRect slip = { across[i], down[j], width, height };
        double cost = distance_to (slip, hand), covered = 0;

        if (cost >= least)
          continue;
        for (guint k = 0; k < n; k++)
          covered += overlap (slip, taken[k]);
        cost += covered > 0 ? view.w + view.h + covered : 0;
        if (cost >= least)
          continue;
        least = cost;
        best = (RwPoint) { slip.x, slip.y };
      }
  return (RwPoint) { round (best.x), round (best.y) };
}

static RwRect
grown (RwRect r, double by)
{
  return (RwRect) { r.x - by, r.y - by, r.w + 2 * by, r.h + 2 * by };
}

static void
take (RwCanvas *self, GArray *taken, RwRect mm, RwRect view)
{
  RwRect px = grown (rw_canvas_rect_px (self, mm), 2);

  if (overlap (px, view) > 0)
    g_array_append_val (taken, px);
}

static void
take_port (RwCanvas *self, GArray *taken, guint port, RwRect view)
{
  const RwNet *net = rw_scene_net (self->shown_scene);

  if (port == RW_NONE || port >= net->n_ports)
    return;
  take (self, taken, rw_scene_device (self->shown_scene, net->ports[port].device)->bounds, view);
}

/* The hand itself, the devices at both ends of what it holds, and those that the verdict names. */
static GArray *
taken_places (RwCanvas *self, const RwOverlay *overlay, RwPoint hand, RwRect view)
{
  GArray *taken = g_array_new (FALSE, FALSE, sizeof (RwRect));
  const RwRect pointer = { hand.x - 8, hand.y - 8, 24, 28 }; /* an arrow hangs down and to the right */

  g_array_append_val (taken, pointer);
  take_port (self, taken, overlay->from_port, view);
  for (guint i = 0; i < overlay->loose->len; i++)
    take_port (self, taken, g_array_index (overlay->loose, RwLooseCable, i).to_port, view);
  for (guint i = 0; i < overlay->named->len; i++)
    take (self, taken, rw_scene_device (self->shown_scene, g_array_index (overlay->named, guint, i))->bounds, view);
  for (guint i = 0; i < overlay->swept->len; i++)
    take (self, taken, rw_scene_device (self->shown_scene, g_array_index (overlay->swept, guint, i))->bounds, view);
  return taken;
}

/* --- How it looks --- */

typedef struct { RwInkRole fill, text; const char *sign; } VerdictLook;

/* The sign tells the verdict apart without its colour. */
static const VerdictLook looks[] = {
  [RW_VERDICT_NONE] = { RW_INK_SHEET, RW_INK_TEXT, "" },
  [RW_VERDICT_FINE] = { RW_INK_SHEET, RW_INK_TEXT, "✓ " },
  [RW_VERDICT_NOTE] = { RW_INK_NOTE, RW_INK_ON_NOTE, "" },
  [RW_VERDICT_WARNING] = { RW_INK_WARNING, RW_INK_ON_WARNING, "▲ " },
  [RW_VERDICT_ERROR] = { RW_INK_FAULT, RW_INK_ON_FAULT, "✗ " },
};

static PangoLayout *
make_layout (RwCanvas *self, const RwOverlay *overlay)
{
  g_autofree char *text = g_strconcat (looks[overlay->verdict].sign, overlay->verdict_text, NULL);
  PangoLayout *layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);

  pango_layout_set_width (layout, WIDTH_PX * PANGO_SCALE);
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  return layout;
}

/* The slip for @layout, px. */
static RwRect
slip_for (RwCanvas *self, const RwOverlay *overlay, PangoLayout *layout)
{
  RwRect view = { 0, 0, gtk_widget_get_width (GTK_WIDGET (self)), gtk_widget_get_height (GTK_WIDGET (self)) };
  RwPoint hand = rw_canvas_from_sheet (self, overlay->verdict_at), at;
  g_autoptr (GArray) taken = taken_places (self, overlay, hand, view);
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  width += 2 * (int) PAD_PX;
  height += 2 * (int) PAD_PX;
  at = rw_canvas_verdict_place ((const RwRect *) taken->data, taken->len, hand, width, height, view);
  return (RwRect) { at.x, at.y, width, height };
}

/* Where the verdict's slip lies now, px; of no size while there is none. */
RwRect
rw_canvas_verdict_box (RwCanvas *self)
{
  const RwOverlay *overlay = rw_canvas_overlay (self);
  g_autoptr (PangoLayout) layout = NULL;

  if (overlay->verdict_text == NULL || *overlay->verdict_text == '\0')
    return (RwRect) { 0 };
  layout = make_layout (self, overlay);
  return slip_for (self, overlay, layout);
}

void
rw_canvas_snapshot_verdict (RwCanvas *self, GtkSnapshot *snapshot)
{
  const RwOverlay *overlay = rw_canvas_overlay (self);
  RwDrawOptions options = rw_canvas_options (self);
  g_autoptr (PangoLayout) layout = NULL;
  RwInk fill = rw_ink (looks[overlay->verdict].fill, &options), text = rw_ink (looks[overlay->verdict].text, &options);
  GdkRGBA line = { text.r, text.g, text.b, 0.4 };
  GskRoundedRect slip;
  RwRect box;

  if (overlay->verdict_text == NULL || *overlay->verdict_text == '\0')
    return;
  layout = make_layout (self, overlay);
  box = slip_for (self, overlay, layout);
  gsk_rounded_rect_init_from_rect (&slip, &GRAPHENE_RECT_INIT (box.x, box.y, box.w, box.h), 5);
  gtk_snapshot_push_rounded_clip (snapshot, &slip);
  gtk_snapshot_append_color (snapshot, &(GdkRGBA) { fill.r, fill.g, fill.b, 0.97 }, &slip.bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &slip, (float[4]) { 1, 1, 1, 1 }, (GdkRGBA[4]) { line, line, line, line });
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (box.x + PAD_PX, box.y + PAD_PX));
  gtk_snapshot_append_layout (snapshot, layout, &(GdkRGBA) { text.r, text.g, text.b, 1 });
  gtk_snapshot_restore (snapshot);
}
