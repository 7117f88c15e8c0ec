/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "rw-papers-parts.h"

/* Below this scale the least lettering, 1.8 mm at 1:1, has capitals under 1.25 mm: hard to read at arm's length. */
#define READABLE 0.7
#define CLEAR 7.0   /* inside the frame: past the centring marks */
#define MATCH 8.0   /* beside a match line, for its text */
#define MOST_TILES 200
#define SCALE_STEPS 12
#define COST_SMALLER 3  /* for each of them, as cuts cost */

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

/* The fewest sheets on which the drawing can be read, and the largest scale that they have room for; FALSE: there would
 * be too many. */
static gboolean
count_tiles (RwPlanTiles *tiles, RwRect bounds, double *largest)
{
  guint best = MOST_TILES + 1;

  *largest = tiles->least;
  for (guint across = 1; across <= MOST_TILES; across++)
    {
      /* a cut may lie up to a step short of where it could */
      double by_width = (across * tiles->area.w) / (bounds.w + (across - 1) * rw_cut_step (bounds.w));
      guint down = 1;
      double by_height;

      while ((by_height = (down * tiles->area.h) / (bounds.h + (down - 1) * rw_cut_step (bounds.h))) < tiles->least
             && down <= MOST_TILES)
        down++;
      if (by_width < tiles->least)
        continue;
      if (across * down > best || (across * down == best && MIN (by_width, by_height) <= *largest))
        break;
      best = across * down;
      tiles->across = across;
      tiles->down = down;
      *largest = MIN (MAX (1, tiles->least), MIN (by_width, by_height));
    }
  return best <= MOST_TILES;
}

/* @fixed: the scale is the least one; else it is the largest at which the cuts part the fewest devices, or a little
 * less where they then part less of the rest. */
static void
choose_tiles (RwPlanTiles *tiles, const RwScene *scene, gboolean fixed)
{
  RwRect b = rw_scene_bounds (scene);
  guint least = G_MAXUINT, steps = fixed ? 0 : SCALE_STEPS;
  double largest;
  g_autofree double *x = NULL, *y = NULL;

  while (!count_tiles (tiles, b, &largest))
    tiles->least *= 0.8;
  x = g_new (double, tiles->across + 1);
  y = g_new (double, tiles->down + 1);
  tiles->x = g_new (double, tiles->across + 1);
  tiles->y = g_new (double, tiles->down + 1);
  for (guint i = 0; i <= steps; i++)
    {
      double scale = fixed ? tiles->least : largest - (largest - tiles->least) * i / steps;
      guint cost = rw_cut_places (scene, FALSE, b.x, b.w, tiles->across, tiles->area.w / scale, x)
                   + rw_cut_places (scene, TRUE, b.y, b.h, tiles->down, tiles->area.h / scale, y) + i * COST_SMALLER;

      if (cost >= least)
        continue;
      least = cost;
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

/* At which it can be read: that of the tiles, where there are some. 0: nothing is drawn. */
double
rw_plan_tiles_scale (const RwPlanTiles *tiles)
{
  return tiles->across > 0 ? tiles->scale : tiles->first.scale;
}

/* Free with g_free(); NULL where nothing is drawn. */
char *
rw_plan_tiles_scale_text (const RwPlanTiles *tiles, guint page)
{
  double scale = page == 0 ? tiles->first.scale : tiles->scale;

  return scale > 0 ? rw_plan_scale_text (round (scale * 1000) / 1000) : NULL;
}

/* Makes @rect of user space lead to @place. cairo takes it in points of the page: whole ones, as for rw_place_mark(). */
static void
link_rect (cairo_t *cr, RwRect rect, const char *place, const RwDrawOptions *options)
{
  g_autofree char *attributes = NULL;
  double x = rect.x, y = rect.y, w = rect.w, h = rect.h;

  if (options->unlinked)
    return;
  cairo_user_to_device (cr, &x, &y);
  cairo_user_to_device_distance (cr, &w, &h);
  attributes = g_strdup_printf ("dest='%s' rect=[%d %d %d %d]", place, (int) round (x), (int) round (y), (int) round (w),
                                (int) round (h));
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

static RwPlanTile
tile_at (const RwPlanTiles *tiles, guint tile, guint first_sheet)
{
  RwPlanTile at = { .rect = tile_rect (tiles, tile), .place = tile_place (tiles, tile), .scale = tiles->scale };
  guint column = tile % tiles->across, row = tile / tiles->across;
  const struct { gboolean there; int step; } sides[] = {
    [RW_EDGE_LEFT] = { column > 0, -1 },
    [RW_EDGE_RIGHT] = { column + 1 < tiles->across, 1 },
    [RW_EDGE_TOP] = { row > 0, -(int) tiles->across },
    [RW_EDGE_BOTTOM] = { row + 1 < tiles->down, (int) tiles->across },
  };

  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    if (sides[i].there && tiles->pages[(int) tile + sides[i].step] > 0)
      at.behind[i] = first_sheet + tiles->pages[(int) tile + sides[i].step];
  return at;
}

static void
draw_tile (const RwPlanTiles *tiles, cairo_t *cr, const RwPapersSource *source, guint tile, guint first_sheet,
           const RwDrawOptions *options)
{
  RwPlanTile at = tile_at (tiles, tile, first_sheet);

  rw_plan_tile_draw (&at, cr, source->scene, options);
  cairo_save (cr);
  rw_plan_tile_transform (&at, cr);
  mark_devices (cr, source, at.rect, options);
  mark_cables (cr, source, at.rect, options);
  mark_findings (cr, source, at.rect, options);
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
      draw_tile (tiles, cr, source, i, first_sheet, options);
    }
  rw_sheet_draw_title (cr, strip_rect (tiles, options->context), title, FALSE, options);
}
