/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "rw-papers-parts.h"

/* Below this scale the least lettering, 1.8 mm at 1:1, has capitals under 1.25 mm: hard to read at arm's length. */
#define READABLE 0.7
#define CLEAR 7.0   /* inside the frame: past the centring marks */
#define MATCH 8.0   /* beside a match line, for its text */
#define BEYOND 4.0  /* what is drawn past a match line, so that both sheets show what crosses it */
#define MOST_TILES 200
#define STEP 5.0      /* places where the drawing may be cut, in its mm */
#define SCALE_STEPS 12

struct _RwPlanTiles
{
  double width, height;  /* of the paper */
  RwLegend *legend;
  RwPlanDrawing first;
  guint across, down;    /* 0: the first sheet is the drawing */
  double least;          /* scale of a tile */
  double scale;
  RwRect area;           /* for a tile on its sheet */
  double *x, *y;         /* where the drawing is cut, its edges included: across + 1, down + 1 */
  guint *pages;          /* of each tile, from 1; 0 = there is nothing on it */
  guint n_pages;
};

/* What a tile shows, in the drawing's mm. */
static RwRect
tile_rect (const RwPlanTiles *tiles, guint tile)
{
  guint column = tile % tiles->across, row = tile / tiles->across;

  return (RwRect) { tiles->x[column], tiles->y[row], tiles->x[column + 1] - tiles->x[column], tiles->y[row + 1] - tiles->y[row] };
}

/* Where that lies on its sheet. */
static RwRect
tile_place (const RwPlanTiles *tiles, guint tile)
{
  RwRect rect = tile_rect (tiles, tile), a = tiles->area;
  double w = rect.w * tiles->scale, h = rect.h * tiles->scale;

  return (RwRect) { a.x + (a.w - w) / 2, a.y + (a.h - h) / 2, w, h };
}

/* One way along which the drawing is cut into @n pieces of at most @most mm. */
typedef struct
{
  double from, to, most;
  guint n;
  guint n_places;  /* STEP apart, the first at @from */
  guint *cost;     /* devices that a cut there parts */
} Cutting;

static void
count_parted (Cutting *cutting, const RwScene *scene, gboolean down)
{
  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    {
      RwRect b = rw_scene_device (scene, i)->bounds;
      double from = (down ? b.y : b.x) - cutting->from, to = from + (down ? b.h : b.w);
      int last = (int) floor (to / STEP);

      for (int k = MAX (0, (int) ceil (from / STEP)); k <= last && k < (int) cutting->n_places; k++)
        cutting->cost[k]++;
    }
}

/* The cuts that part the fewest devices, by dynamic programming over the places; @cuts: (out): n + 1. Returns how many
 * they part. */
static guint
best_cuts (const Cutting *c, double *cuts)
{
  guint reach = (guint) floor (c->most / STEP + 1e-9), n = c->n_places;
  g_autofree guint *least = g_new (guint, (gsize) c->n * n);
  g_autofree guint *from = g_new0 (guint, (gsize) c->n * n);
  guint at = 0, best = G_MAXUINT;

  for (guint i = 0; i < c->n * n; i++)
    least[i] = G_MAXUINT / 2;
  least[0] = 0;
  for (guint k = 1; k < c->n; k++)
    for (guint i = 1; i < n; i++)
      for (guint j = i > reach ? i - reach : 0; j < i; j++)
        if (least[(k - 1) * n + j] + c->cost[i] < least[k * n + i])
          {
            least[k * n + i] = least[(k - 1) * n + j] + c->cost[i];
            from[k * n + i] = j;
          }
  for (guint i = 0; i < n; i++)
    if (c->to - (c->from + i * STEP) <= c->most + 1e-6 && least[(c->n - 1) * n + i] < best)
      {
        best = least[(c->n - 1) * n + i];
        at = i;
      }
  cuts[c->n] = c->to;
  for (guint k = c->n; k-- > 0; at = from[k * n + at])
    cuts[k] = c->from + at * STEP;
  return best;
}

static guint
cut_along (const RwScene *scene, gboolean down, double from, double length, guint n, double most, double *cuts)
{
  Cutting c = { from, from + length, most, n, MAX (1, (guint) ceil (length / STEP)), NULL };
  guint parted;

  c.cost = g_new0 (guint, c.n_places);
  count_parted (&c, scene, down);
  parted = best_cuts (&c, cuts);
  g_free (c.cost);
  return parted;
}

/* The fewest sheets on which the drawing can be read. */
static double
count_tiles (RwPlanTiles *tiles, RwRect bounds)
{
  guint best = G_MAXUINT;
  double largest = tiles->least;

  for (guint across = 1; across <= MOST_TILES; across++)
    {
      /* a cut may lie up to a step short of where it could */
      double by_width = (across * tiles->area.w) / (bounds.w + (across - 1) * STEP);
      guint down = 1;
      double by_height;

      while ((by_height = (down * tiles->area.h) / (bounds.h + (down - 1) * STEP)) < tiles->least)
        down++;
      if (by_width < tiles->least)
        continue;
      if (across * down > best || (across * down == best && MIN (by_width, by_height) <= largest))
        break;
      best = across * down;
      tiles->across = across;
      tiles->down = down;
      largest = MIN (MAX (1, tiles->least), MIN (by_width, by_height));
    }
  return largest;
}

/* @fixed: the scale is the least one; else it is the largest at which the cuts part no device, else that at which they part the fewest. */
static void
choose_tiles (RwPlanTiles *tiles, const RwScene *scene, gboolean fixed)
{
  RwRect b = rw_scene_bounds (scene);
  double most = count_tiles (tiles, b), largest = fixed ? tiles->least : most;
  guint least = G_MAXUINT;
  g_autofree double *x = g_new (double, tiles->across + 1);
  g_autofree double *y = g_new (double, tiles->down + 1);

  tiles->x = g_new (double, tiles->across + 1);
  tiles->y = g_new (double, tiles->down + 1);
  for (guint i = 0; i <= SCALE_STEPS && least > 0; i++)
    {
      double scale = largest - (largest - tiles->least) * i / SCALE_STEPS;
      guint parted = cut_along (scene, FALSE, b.x, b.w, tiles->across, tiles->area.w / scale, x)
                     + cut_along (scene, TRUE, b.y, b.h, tiles->down, tiles->area.h / scale, y);

      if (parted >= least)
        continue;
      least = parted;
      tiles->scale = scale;
      memcpy (tiles->x, x, (tiles->across + 1) * sizeof *x);
      memcpy (tiles->y, y, (tiles->down + 1) * sizeof *y);
    }
}

static gboolean
crosses (const RwSceneCable *cable, RwRect rect)
{
  for (guint i = 0; i + 1 < cable->n_points; i++)
    {
      const RwPoint *a = &cable->points[i], *b = &cable->points[i + 1];

      if (MAX (a->x, b->x) >= rect.x && MIN (a->x, b->x) <= rect.x + rect.w && MAX (a->y, b->y) >= rect.y
          && MIN (a->y, b->y) <= rect.y + rect.h)
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_something (const RwScene *scene, RwRect rect)
{
  g_autoptr (GArray) devices = rw_scene_devices_in (scene, rect);

  if (devices->len > 0)
    return TRUE;
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    if (crosses (rw_scene_cable (scene, i), rect))
      return TRUE;
  return FALSE;
}

static void
number_tiles (RwPlanTiles *tiles, const RwScene *scene)
{
  tiles->pages = g_new0 (guint, tiles->across * tiles->down);
  for (guint i = 0; i < tiles->across * tiles->down; i++)
    if (has_something (scene, tile_rect (tiles, i)))
      tiles->pages[i] = tiles->n_pages++;
}

/* Whether the first sheet is enough. */
static gboolean
fits (const RwPlanDrawing *fitted, const RwScene *scene, double asked)
{
  RwRect b = rw_scene_bounds (scene);

  return asked > 0 ? b.w * asked <= fitted->area.w && b.h * asked <= fitted->area.h : fitted->scale >= READABLE;
}

/**
 * rw_plan_tiles_new: how the drawing lies on paper of @width × @height mm.
 */
RwPlanTiles *
rw_plan_tiles_new (RwDrawContext *context, const RwPapersSource *source, double width, double height)
{
  RwPlanTiles *tiles = g_new0 (RwPlanTiles, 1);
  RwSheetOptions options = { .paper = source->options->paper, .balloons = TRUE };
  RwRect f = rw_sheet_frame (width, height);
  double strip = rw_sheet_title_height (context, MIN (RW_TITLE_WIDTH, f.w), FALSE), edge = CLEAR + MATCH;

  tiles->width = width;
  tiles->height = height;
  tiles->n_pages = 1;
  tiles->legend = rw_legend_new (context, source->scene, source->lens, source->clouds, TRUE);
  rw_plan_drawing_arrange (&tiles->first, context, source->scene, tiles->legend, &options, width, height);
  if (tiles->first.scale <= 0)
    return tiles;
  tiles->least = source->options->scale > 0 ? source->options->scale : READABLE;
  if (fits (&tiles->first, source->scene, source->options->scale))
    {
      options.scale = source->options->scale;
      rw_plan_drawing_arrange (&tiles->first, context, source->scene, tiles->legend, &options, width, height);
      return tiles;
    }
  tiles->area = (RwRect) { f.x + edge, f.y + edge, f.w - 2 * edge, f.h - 2 * edge - strip };
  choose_tiles (tiles, source->scene, source->options->scale > 0);
  number_tiles (tiles, source->scene);
  return tiles;
}

void
rw_plan_tiles_free (RwPlanTiles *tiles)
{
  if (tiles == NULL)
    return;
  rw_legend_free (tiles->legend);
  g_free (tiles->x);
  g_free (tiles->y);
  g_free (tiles->pages);
  g_free (tiles);
}

guint
rw_plan_tiles_n_pages (const RwPlanTiles *tiles)
{
  return tiles->n_pages;
}

/* Free with g_free(); NULL where nothing is drawn. */
char *
rw_plan_tiles_scale_text (const RwPlanTiles *tiles, guint page)
{
  double scale = page == 0 ? tiles->first.scale : tiles->scale;

  return scale > 0 ? rw_plan_scale_text (round (scale * 1000) / 1000) : NULL;
}

/* Makes @rect of user space lead to @place. cairo takes it in points of the page. */
static void
link_rect (cairo_t *cr, RwRect rect, const char *place, const RwDrawOptions *options)
{
  char n[4][G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *attributes = NULL;
  double x = rect.x, y = rect.y, w = rect.w, h = rect.h;

  if (options->unlinked)
    return;
  cairo_user_to_device (cr, &x, &y);
  cairo_user_to_device_distance (cr, &w, &h);
  g_ascii_formatd (n[0], sizeof n[0], "%.2f", x);
  g_ascii_formatd (n[1], sizeof n[1], "%.2f", y);
  g_ascii_formatd (n[2], sizeof n[2], "%.2f", w);
  g_ascii_formatd (n[3], sizeof n[3], "%.2f", h);
  attributes = g_strdup_printf ("dest='%s' rect=[%s %s %s %s]", place, n[0], n[1], n[2], n[3]);
  cairo_tag_begin (cr, CAIRO_TAG_LINK, attributes);
  cairo_tag_end (cr, CAIRO_TAG_LINK);
}

static gboolean
inside (RwRect rect, RwPoint point)
{
  return point.x >= rect.x && point.x < rect.x + rect.w && point.y >= rect.y && point.y < rect.y + rect.h;
}

static RwPoint
cable_place (const RwSceneCable *cable)
{
  if (cable->label.w > 0)
    return (RwPoint) { RW_RECT_MIDDLE_X (cable->label), RW_RECT_MIDDLE_Y (cable->label) };
  return cable->n_points > 0 ? cable->points[0] : (RwPoint) { cable->bounds.x, cable->bounds.y };
}

static RwRect
device_box (const RwScene *scene, guint device)
{
  return rw_scene_device (scene, device)->box;
}

/* User space is the drawing's; what lies outside @shown is another tile's. */
static void
mark_devices (cairo_t *cr, const RwPapersSource *source, RwRect shown, const RwDrawOptions *options)
{
  for (guint i = 0; i < rw_scene_n_devices (source->scene); i++)
    {
      RwRect box = device_box (source->scene, i);
      g_autofree char *place = rw_papers_link (source, RW_PLACE_DEVICE, i);
      g_autofree char *card = rw_papers_link (source, RW_PLACE_CARD, i);

      if (!inside (shown, (RwPoint) { RW_RECT_MIDDLE_X (box), RW_RECT_MIDDLE_Y (box) }))
        continue;
      rw_place_mark (cr, place, box.x - 20, box.y - 20, options);
      if (card != NULL)
        link_rect (cr, box, card, options);
    }
}

static void
mark_cables (cairo_t *cr, const RwPapersSource *source, RwRect shown, const RwDrawOptions *options)
{
  for (guint i = 0; i < rw_scene_n_cables (source->scene); i++)
    {
      const RwSceneCable *cable = rw_scene_cable (source->scene, i);
      RwPoint at = cable_place (cable);
      g_autofree char *place = rw_papers_link (source, RW_PLACE_CABLE, i);
      g_autofree char *row = rw_papers_link (source, RW_PLACE_ROW, i);

      if (!inside (shown, at))
        continue;
      if (source->tiled)
        rw_place_mark (cr, place, at.x - 20, at.y - 20, options);
      if (row != NULL && cable->label.w > 0)
        link_rect (cr, cable->label, row, options);
    }
}

static void
mark_findings (cairo_t *cr, const RwPapersSource *source, RwRect shown, const RwDrawOptions *options)
{
  g_autofree gboolean *done = g_new0 (gboolean, rw_findings_n (source->findings) + 1);

  for (guint i = 0; source->tiled && i < rw_scene_n_balloons (source->scene); i++)
    {
      const RwSceneBalloon *balloon = rw_scene_balloon (source->scene, i);
      g_autofree char *place = rw_papers_link (source, RW_PLACE_FINDING, balloon->finding);

      if (done[balloon->finding])
        continue;
      /* the first balloon of a finding is its place, whichever tile shows it */
      done[balloon->finding] = TRUE;
      if (inside (shown, balloon->centre))
        rw_place_mark (cr, place, balloon->centre.x - 20, balloon->centre.y - 20, options);
    }
}

static const RwRect everywhere = { -1e9, -1e9, 2e9, 2e9 };

static void
mark_first (const RwPlanTiles *tiles, cairo_t *cr, const RwPapersSource *source, const RwDrawOptions *options)
{
  cairo_save (cr);
  cairo_translate (cr, tiles->first.x, tiles->first.y);
  cairo_scale (cr, tiles->first.scale, tiles->first.scale);
  mark_devices (cr, source, everywhere, options);
  mark_cables (cr, source, everywhere, options);
  cairo_restore (cr);
}

/* The outlines of the tiles over the whole drawing, each with the number of its sheet. */
static void
draw_overview (const RwPlanTiles *tiles, cairo_t *cr, guint first_sheet, const RwDrawOptions *options)
{
  const RwPlanDrawing *first = &tiles->first;

  for (guint i = 0; i < tiles->across * tiles->down; i++)
    {
      RwRect rect = tile_rect (tiles, i);
      RwRect at = { first->x + rect.x * first->scale, first->y + rect.y * first->scale, rect.w * first->scale, rect.h * first->scale };
      g_autofree char *number = NULL;
      g_autofree char *place = rw_place (RW_PLACE_TILE, i);

      if (tiles->pages[i] == 0)
        continue;
      number = g_strdup_printf ("%u", first_sheet + tiles->pages[i]);
      rw_ink_set (cr, RW_INK_SELECTED, options);
      rw_pen_set (cr, options, RW_PEN_MEDIUM);
      cairo_set_dash (cr, (const double[]) { 4, 1, 0.8, 1 }, 4, 0);
      cairo_rectangle (cr, at.x, at.y, at.w, at.h);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
      rw_draw_text (cr, options, number, (RwTextStyle) { 9, TRUE }, RW_RECT_MIDDLE_X (at), RW_RECT_MIDDLE_Y (at), 0.5, at.w);
      link_rect (cr, at, place, options);
    }
}

static void
draw_first (const RwPlanTiles *tiles, cairo_t *cr, const RwPapersSource *source, guint first_sheet, const RwTitle *title,
            const RwDrawOptions *options)
{
  rw_plan_drawing_draw (&tiles->first, cr, source->scene, tiles->legend, options);
  if (tiles->across > 0)
    {
      cairo_save (cr);
      cairo_rectangle (cr, tiles->first.frame.x, tiles->first.frame.y, tiles->first.frame.w,
                       tiles->first.area.y + tiles->first.area.h + CLEAR / 2 - tiles->first.frame.y);
      cairo_clip (cr);
      draw_overview (tiles, cr, first_sheet, options);
      cairo_restore (cr);
    }
  else if (tiles->first.scale > 0)
    mark_first (tiles, cr, source, options);
  rw_sheet_draw_title (cr, tiles->first.block, title, TRUE, options);
}

/* A match line along one side of a tile, and which sheet goes on behind it. */
static void
draw_match (cairo_t *cr, RwRect a, RwEdge edge, guint sheet, const RwDrawOptions *options)
{
  gboolean upright = edge == RW_EDGE_LEFT || edge == RW_EDGE_RIGHT;
  double length = upright ? a.h : a.w;
  /* Translators: beside a line at which a drawing is cut; the number of the sheet that shows the rest. */
  g_autofree char *text = g_strdup_printf (_("Match line: goes on on sheet %u"), sheet);

  cairo_save (cr);
  cairo_translate (cr, edge == RW_EDGE_RIGHT ? a.x + a.w : a.x, edge == RW_EDGE_BOTTOM ? a.y + a.h : a.y);
  if (upright)
    {
      cairo_translate (cr, 0, a.h);
      cairo_rotate (cr, -G_PI / 2);
    }
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_THICK);
  cairo_set_dash (cr, (const double[]) { 8, 1.5, 1, 1.5 }, 4, 0);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, length, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  rw_draw_text (cr, options, text, (RwTextStyle) { RW_EM_LABEL, TRUE }, length / 2,
                edge == RW_EDGE_LEFT || edge == RW_EDGE_TOP ? -BEYOND - 2 : BEYOND + 2, 0.5, length);
  cairo_restore (cr);
}

static void
draw_matches (const RwPlanTiles *tiles, cairo_t *cr, guint tile, guint first_sheet, const RwDrawOptions *options)
{
  guint column = tile % tiles->across, row = tile / tiles->across;
  const struct { gboolean there; RwEdge edge; int step; } sides[] = {
    { column > 0, RW_EDGE_LEFT, -1 },
    { column + 1 < tiles->across, RW_EDGE_RIGHT, 1 },
    { row > 0, RW_EDGE_TOP, -(int) tiles->across },
    { row + 1 < tiles->down, RW_EDGE_BOTTOM, (int) tiles->across },
  };

  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    if (sides[i].there && tiles->pages[(int) tile + sides[i].step] > 0)
      draw_match (cr, tile_place (tiles, tile), sides[i].edge, first_sheet + tiles->pages[(int) tile + sides[i].step], options);
}

static void
draw_tile (const RwPlanTiles *tiles, cairo_t *cr, const RwPapersSource *source, guint tile, const RwDrawOptions *options)
{
  RwRect rect = tile_rect (tiles, tile), a = tile_place (tiles, tile);
  RwDrawOptions part = *options;
  double beyond = BEYOND / tiles->scale;

  part.clip = (RwRect) { rect.x - beyond, rect.y - beyond, rect.w + 2 * beyond, rect.h + 2 * beyond };
  cairo_save (cr);
  cairo_rectangle (cr, a.x - BEYOND, a.y - BEYOND, a.w + 2 * BEYOND, a.h + 2 * BEYOND);
  cairo_clip (cr);
  cairo_translate (cr, a.x - rect.x * tiles->scale, a.y - rect.y * tiles->scale);
  cairo_scale (cr, tiles->scale, tiles->scale);
  rw_draw_scene (cr, source->scene, &part);
  mark_devices (cr, source, rect, options);
  mark_cables (cr, source, rect, options);
  mark_findings (cr, source, rect, options);
  cairo_restore (cr);
}

static RwRect
strip_rect (const RwPlanTiles *tiles, RwDrawContext *context)
{
  RwRect f = rw_sheet_frame (tiles->width, tiles->height);
  double width = MIN (RW_TITLE_WIDTH, f.w), height = rw_sheet_title_height (context, width, FALSE);

  return (RwRect) { f.x + f.w - width, f.y + f.h - height, width, height };
}

/**
 * rw_plan_tiles_draw: sheet @page of the drawing; @first_sheet: what number its first one has in the pack.
 */
void
rw_plan_tiles_draw (const RwPlanTiles *tiles, cairo_t *cr, const RwPapersSource *source, guint page, guint first_sheet,
               const RwTitle *title, const RwDrawOptions *options)
{
  if (page == 0)
    {
      draw_first (tiles, cr, source, first_sheet, title, options);
      return;
    }
  for (guint i = 0; i < tiles->across * tiles->down; i++)
    {
      g_autofree char *place = rw_place (RW_PLACE_TILE, i);

      if (tiles->pages[i] != page)
        continue;
      rw_place_mark (cr, place, 0, 0, options);
      draw_tile (tiles, cr, source, i, options);
      draw_matches (tiles, cr, i, first_sheet, options);
    }
  rw_sheet_draw_title (cr, strip_rect (tiles, options->context), title, FALSE, options);
}
