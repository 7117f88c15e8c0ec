/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-plan-parts.h"

#define CLEAR 7.0      /* between the frame and what stands in it: past the centring marks */
#define HEADING 9.0    /* height of a list's title */
#define AFTER 6.0      /* between two lists */
#define WIDE 300.0     /* a frame so wide has larger letters in its lists */
#define LIST_MIN 25.0  /* a list begins on a page only where so much of it has room */

typedef enum { LIST_FAILURE, LIST_CABLES, LIST_FINDINGS } ListKind;
#define N_LISTS (LIST_FINDINGS + 1)

/* What of a list stands on one sheet. */
typedef struct
{
  ListKind list;
  guint page;
  double y;
  guint first, n;
} Piece;

struct _RwPlan
{
  RwSheetOptions options;
  double width, height;
  RwDrawContext *context;
  RwScene *scene;
  RwLens *lens;
  RwClouds *clouds; /* (nullable) */
  RwShow *show;
  char *title;
  RwLegend *legend;
  RwPlanDrawing drawing;
  char *scale_text;
  RwTableLayout *lists[N_LISTS];
  GArray *pieces; /* of Piece */
  RwRect body;    /* of the sheets with lists */
  guint n_pages;
};

static const struct { const char *title, *empty; } list_words[N_LISTS] = {
  [LIST_FAILURE] = { N_("What the failure costs"), N_("Nothing is lost.") },
  [LIST_CABLES] = { N_("Cable list"), N_("There are no cables in this rig.") },
  [LIST_FINDINGS] = { N_("Findings"), N_("Nothing was found that speaks against this rig.") },
};

static const char *
list_title (ListKind kind)
{
  return _(list_words[kind].title);
}

/* Only through the Failure lens there is one of what it costs. */
static gboolean
has_list (const RwPlan *plan, ListKind kind)
{
  return plan->lists[kind] != NULL;
}

/* On sheets with lists the caution stands over the strip, as wide as the frame. */
static PangoLayout *
caution_new (const RwPlan *plan)
{
  double width = plan->drawing.frame.w - 2 * CLEAR;

  return rw_draw_paragraph (plan->context, rw_sheet_caution (), (RwTextStyle) { RW_EM_LEAST, FALSE }, width);
}

static double
caution_height (const RwPlan *plan)
{
  PangoLayout *text = caution_new (plan);
  double height = rw_draw_paragraph_height (text);

  g_object_unref (text);
  return height;
}

static RwRect
body_of (const RwPlan *plan)
{
  RwRect f = plan->drawing.frame;
  double foot = rw_sheet_title_height (plan->context, MIN (RW_TITLE_WIDTH, f.w), FALSE) + caution_height (plan) + CLEAR;

  return (RwRect) { f.x + CLEAR, f.y + CLEAR, f.w - 2 * CLEAR, f.h - 2 * CLEAR - foot };
}

static void
add_piece (RwPlan *plan, ListKind list, guint page, double y, guint first, guint n)
{
  Piece piece = { list, page, y, first, n };

  g_array_append_val (plan->pieces, piece);
}

static void
next_page (RwPlan *plan, double *y)
{
  plan->n_pages++;
  *y = plan->body.y;
}

/* Puts a list under what stands at @y already. */
static void
break_list (RwPlan *plan, ListKind list, double *y)
{
  RwTableLayout *table = plan->lists[list];
  guint n_rows = rw_table_layout_n_rows (table), first = 0;
  double bottom = plan->body.y + plan->body.h;
  guint n = rw_table_layout_take (table, 0, bottom - *y - HEADING);

  if (*y > plan->body.y && (bottom - *y < LIST_MIN || (n_rows > 0 && n == 0)))
    next_page (plan, y);
  do
    {
      n = rw_table_layout_take (table, first, bottom - *y - HEADING);
      g_assert (n > 0 || n_rows == 0);
      add_piece (plan, list, plan->n_pages - 1, *y, first, n);
      *y += HEADING + rw_table_layout_height (table, first, n) + AFTER;
      first += n;
      if (first < n_rows)
        next_page (plan, y);
    }
  while (first < n_rows);
}

static void
break_lists (RwPlan *plan, const RwRig *rig)
{
  double em = plan->drawing.frame.w >= WIDE ? RW_EM_LABEL : RW_EM_LEAST;
  double y = 0;

  plan->body = body_of (plan);
  plan->pieces = g_array_new (FALSE, FALSE, sizeof (Piece));
  if (rw_lens_outcome (plan->lens) != NULL)
    plan->lists[LIST_FAILURE] = rw_plan_failure_list (plan->context, em, rig, rw_lens_outcome (plan->lens));
  plan->lists[LIST_CABLES] = rw_plan_cable_list (plan->context, em, plan->body.w, plan->scene);
  plan->lists[LIST_FINDINGS] = rw_plan_finding_list (plan->context, em, rw_scene_findings (plan->scene));
  plan->n_pages = 1;
  next_page (plan, &y);
  for (guint i = 0; i < N_LISTS; i++)
    {
      if (!has_list (plan, (ListKind) i))
        continue;
      rw_table_layout_fit (plan->lists[i], plan->body.w, plan->body.h - HEADING);
      break_list (plan, i, &y);
    }
}

static RwScene *
scene_of (const RwRig *rig)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (RwFindings) findings = rw_findings_new (rig, net);

  return rw_scene_new (rig, net, findings);
}

static RwLens *
lens_of (const RwScene *scene, const RwSheetOptions *options)
{
  const RwNet *net = rw_scene_net (scene);
  g_autoptr (RwFailed) failed = NULL;

  if (options->lens != RW_LENS_FAILURE)
    return rw_lens_new (net, options->lens, options->from != NULL ? rw_net_find_device (net, options->from) : RW_NONE);
  failed = rw_failed_new (net, options->fail);
  return rw_lens_new_failure (net, failed);
}

/**
 * rw_plan_new: the cable plan of @rig as it is now. Free with rw_plan_free().
 */
RwPlan *
rw_plan_new (const RwRig *rig, const RwSheetOptions *options)
{
  RwPlan *plan;

  g_return_val_if_fail (rig != NULL && options != NULL && options->paper != NULL, NULL);

  plan = g_new0 (RwPlan, 1);
  plan->options = *options;
  plan->options.from = NULL;
  plan->options.fail = NULL;
  plan->options.since = NULL;
  plan->width = options->portrait ? options->paper->width_mm : options->paper->height_mm;
  plan->height = options->portrait ? options->paper->height_mm : options->paper->width_mm;
  plan->context = rw_draw_context_new ();
  plan->scene = scene_of (rig);
  plan->show = rw_item_ref ((gpointer) rw_rig_show (rig));
  plan->title = rw_rig_title (rig);
  plan->lens = lens_of (plan->scene, options);
  rw_lens_place_marks (plan->lens, plan->scene);
  plan->clouds = options->since != NULL ? rw_clouds_new (options->since, rig, plan->scene) : NULL;
  plan->legend = rw_legend_new (plan->context, plan->scene, plan->lens, plan->clouds, options->balloons);
  rw_plan_drawing_arrange (&plan->drawing, plan->context, plan->scene, plan->legend, options, plan->width, plan->height);
  if (plan->drawing.scale > 0)
    plan->scale_text = rw_plan_scale_text (plan->drawing.scale);
  break_lists (plan, rig);
  return plan;
}

void
rw_plan_free (RwPlan *plan)
{
  if (plan == NULL)
    return;
  for (guint i = 0; i < N_LISTS; i++)
    g_clear_pointer (&plan->lists[i], rw_table_layout_free);
  g_array_unref (plan->pieces);
  rw_legend_free (plan->legend);
  g_free (plan->scale_text);
  rw_item_unref (plan->show);
  g_free (plan->title);
  rw_clouds_unref (plan->clouds);
  rw_lens_unref (plan->lens);
  rw_scene_unref (plan->scene);
  rw_draw_context_free (plan->context);
  g_free (plan);
}

guint
rw_plan_n_pages (const RwPlan *plan)
{
  return plan->n_pages;
}

void
rw_plan_size (const RwPlan *plan, double *width_mm, double *height_mm)
{
  *width_mm = plan->width;
  *height_mm = plan->height;
}

/* rw_plan_scale: of the drawing: 0.5 = 1:2; 0 where there is nothing to draw. */
double
rw_plan_scale (const RwPlan *plan)
{
  return plan->drawing.scale;
}

gboolean
rw_plan_fits (const RwPlan *plan)
{
  RwRect bounds = rw_scene_bounds (plan->scene), area = plan->drawing.area;
  double scale = plan->drawing.scale;

  return scale <= 0 || (bounds.w * scale <= area.w + 1e-6 && bounds.h * scale <= area.h + 1e-6);
}

guint
rw_plan_n_parts (const RwPlan *plan)
{
  guint n = 1;

  for (guint i = 0; i < N_LISTS; i++)
    n += has_list (plan, (ListKind) i);
  return n;
}

/**
 * rw_plan_part: part @index of the plan: the drawing, then the lists.
 */
RwPlanPart
rw_plan_part (const RwPlan *plan, guint index)
{
  if (index == 0)
    return (RwPlanPart) { _("Drawing"), 0 };
  for (guint i = 0; i < plan->pieces->len; i++)
    {
      const Piece *piece = &g_array_index (plan->pieces, Piece, i);

      if ((guint) piece->list == index - (has_list (plan, LIST_FAILURE) ? 1 : 0))
        return (RwPlanPart) { list_title (piece->list), piece->page };
    }
  g_return_val_if_reached (((RwPlanPart) { "", 0 }));
}

static RwTitle
title_of (const RwPlan *plan, guint page)
{
  const RwShow *show = plan->show;

  return (RwTitle) {
    .title = plan->title, .venue = show->venue, .date = show->date, .revision = show->revision, .drawn_by = show->drawn_by,
    .document_type = _("Cable plan"), .scale = plan->scale_text, .sheet = page + 1, .n_sheets = plan->n_pages,
  };
}

static RwRect
foot_block (const RwPlan *plan)
{
  RwRect f = plan->drawing.frame;
  double width = MIN (RW_TITLE_WIDTH, f.w), height = rw_sheet_title_height (plan->context, width, FALSE);

  return (RwRect) { f.x + f.w - width, f.y + f.h - height, width, height };
}

static void
draw_heading (const RwPlan *plan, cairo_t *cr, const Piece *piece, const RwDrawOptions *options)
{
  g_autofree char *text = NULL;

  if (piece->first == 0)
    text = g_strdup (list_title (piece->list));
  else
    /* Translators: the title of a list, on the sheets after its first one. */
    text = g_strdup_printf (_("%s, continued"), list_title (piece->list));
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_draw_text (cr, options, text, (RwTextStyle) { RW_EM_HEAD, TRUE }, plan->body.x, piece->y + HEADING / 2 - 1, 0, plan->body.w);
}

static void
draw_piece (const RwPlan *plan, cairo_t *cr, const Piece *piece, const RwDrawOptions *options)
{
  RwTableLayout *table = plan->lists[piece->list];
  double y = piece->y + HEADING;

  draw_heading (plan, cr, piece, options);
  if (rw_table_layout_n_rows (table) > 0)
    rw_table_layout_draw (table, cr, plan->body.x, y, piece->first, piece->n, options);
  else
    rw_draw_text (cr, options, _(list_words[piece->list].empty), (RwTextStyle) { RW_EM_LABEL, FALSE }, plan->body.x, y + 2, 0, plan->body.w);
}

static void
draw_lists (const RwPlan *plan, guint page, cairo_t *cr, const RwDrawOptions *options)
{
  PangoLayout *caution = caution_new (plan);
  RwRect block = foot_block (plan);
  RwTitle title = title_of (plan, page);

  for (guint i = 0; i < plan->pieces->len; i++)
    {
      const Piece *piece = &g_array_index (plan->pieces, Piece, i);

      if (piece->page == page)
        draw_piece (plan, cr, piece, options);
    }
  rw_ink_set (cr, RW_INK_TEXT, options);
  cairo_move_to (cr, plan->body.x, block.y - CLEAR / 2 - rw_draw_paragraph_height (caution));
  pango_cairo_show_layout (cr, caution);
  g_object_unref (caution);
  rw_sheet_draw_title (cr, block, &title, FALSE, options);
}

static void
draw_first (const RwPlan *plan, cairo_t *cr, const RwDrawOptions *options)
{
  RwTitle title = title_of (plan, 0);

  rw_plan_drawing_draw (&plan->drawing, cr, plan->scene, plan->legend, options);
  rw_sheet_draw_title (cr, plan->drawing.block, &title, TRUE, options);
}

/**
 * rw_plan_draw_page: draws on what is there: who wants white paper paints it first.
 */
void
rw_plan_draw_page (const RwPlan *plan, guint page, cairo_t *cr)
{
  RwDrawOptions options = { .mono = plan->options.mono, .balloons = plan->options.balloons, .context = plan->context,
                            .lens = plan->lens, .clouds = plan->clouds };

  g_return_if_fail (page < plan->n_pages);

  cairo_save (cr);
  if (page == 0)
    draw_first (plan, cr, &options);
  else
    draw_lists (plan, page, cr, &options);
  rw_sheet_draw_frame (cr, plan->width, plan->height, &options);
  cairo_restore (cr);
}
