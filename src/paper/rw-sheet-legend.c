/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "rw-sheet-parts.h"

#define SAMPLE 12.0  /* width of what is explained, unless a badge needs more */
#define BADGE 0.8    /* size of a badge that is explained, of those on the drawing: they keep clear of each other */
#define GAP 2.0
#define PITCH 5.0
#define HEAD 5.0
#define BETWEEN 6.0
#define MOST_TEXT 80.0 /* a longer one is cut */

typedef enum { ITEM_LINE, ITEM_HELD, ITEM_FAULT, ITEM_TAB, ITEM_ID, ITEM_BALLOON, ITEM_CLOUD } ItemKind;

typedef struct
{
  ItemKind kind;
  int value; /* RwLineStyle, RwSide, RwSeverity */
  const char *text;
} Item;

/* All that can be explained, in the order in which it stands. */
static const Item all[] = {
  { ITEM_LINE, RW_LINE_CHAIN, N_("Chain cable") },
  { ITEM_LINE, RW_LINE_PRIMARY, N_("Cable of the primary network") },
  { ITEM_LINE, RW_LINE_SECONDARY, N_("Cable of the secondary network") },
  { ITEM_LINE, RW_LINE_PLAIN, N_("Other audio cable") },
  { ITEM_LINE, RW_LINE_AUX, N_("Cable apart from the audio network") },
  { ITEM_HELD, 0, N_("Link that the tree holds open") },
  { ITEM_FAULT, 0, N_("Cable at fault") },
  { ITEM_TAB, RW_SIDE_PRIMARY, N_("Primary port") },
  { ITEM_TAB, RW_SIDE_SECONDARY, N_("Secondary port") },
  { ITEM_TAB, RW_SIDE_NETWORK, N_("Network port") },
  { ITEM_TAB, RW_SIDE_AUX, N_("Port apart from the audio network") },
  { ITEM_ID, 0, N_("Unit ID; after C: controller ID") },
  { ITEM_BALLOON, RW_SEVERITY_ERROR, N_("Error") },
  { ITEM_BALLOON, RW_SEVERITY_WARNING, N_("Warning") },
  { ITEM_BALLOON, RW_SEVERITY_NOTE, N_("Note") },
  { ITEM_CLOUD, 0, N_("Changed in the revision of the triangle") },
};

/* One of the two is set. */
typedef struct
{
  const Item *item;
  const RwLensSample *sample;
} Entry;

struct _RwLegend
{
  const RwLens *lens;
  gboolean has_scene;
  GArray *entries; /* of Entry: what the lens explains first */
  double widest; /* text, mm */
  double sample; /* width of what is explained, mm */
};

static gboolean
has_line (const RwScene *scene, RwLineStyle style)
{
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    if (rw_scene_cable (scene, i)->style == style)
      return TRUE;
  return FALSE;
}

static gboolean
has_held (const RwScene *scene, const RwLens *lens)
{
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    if (rw_lens_cable_held (lens, i, rw_scene_cable (scene, i)->held) != RW_HELD_NOT)
      return TRUE;
  return FALSE;
}

static gboolean
has_fault (const RwScene *scene)
{
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    if (rw_scene_cable (scene, i)->fault)
      return TRUE;
  return FALSE;
}

static gboolean
has_side (const RwScene *scene, int side)
{
  const RwNet *net = rw_scene_net (scene);

  for (guint i = 0; i < net->n_ports; i++)
    if (net->ports[i].port->side == side)
      return TRUE;
  return FALSE;
}

static gboolean
has_id (const RwScene *scene)
{
  for (guint i = 0; i < rw_scene_n_devices (scene); i++)
    if (rw_scene_geometry (scene, i)->id.text != NULL)
      return TRUE;
  return FALSE;
}

static gboolean
has_balloon (const RwScene *scene, RwSeverity severity)
{
  for (guint i = 0; i < rw_scene_n_balloons (scene); i++)
    if (rw_scene_balloon (scene, i)->severity == severity)
      return TRUE;
  return FALSE;
}

/* Where a lens has lines of its own, they stand for the usual ones, save for those of cables that it says nothing of. */
static gboolean
has_usual_line (const RwScene *scene, const RwLens *lens, RwLineStyle style)
{
  if (lens == NULL || !rw_lens_has_own_lines (lens))
    return has_line (scene, style);
  for (guint i = 0; i < rw_scene_n_cables (scene); i++)
    if (rw_lens_cable_mark (lens, i) == NULL && rw_lens_cable_style (lens, i, RW_LINE_PLAIN) == style)
      return TRUE;
  return FALSE;
}

static gboolean
occurs (const Item *item, const RwScene *scene, const RwLens *lens, const RwClouds *clouds, gboolean balloons)
{
  switch (item->kind)
    {
    case ITEM_LINE:
      return has_usual_line (scene, lens, item->value);
    case ITEM_HELD:
      return has_held (scene, lens);
    case ITEM_FAULT:
      return has_fault (scene);
    case ITEM_TAB:
      return has_side (scene, item->value);
    case ITEM_ID:
      return has_id (scene);
    case ITEM_CLOUD:
      return clouds != NULL && rw_clouds_n (clouds) > 0;
    case ITEM_BALLOON:
    default:
      return balloons && has_balloon (scene, item->value);
    }
}

static const char *
entry_text (const Entry *entry)
{
  return entry->sample != NULL ? entry->sample->text : _(entry->item->text);
}

/* The device whose badge is explained, before it is made smaller: wide enough that the badge ends within it. */
static RwRect
badge_box (RwDrawContext *context, const char *badge)
{
  RwRect box = { 0, -1, (SAMPLE - 2) / BADGE, 3 };
  RwRect at = rw_draw_badge_rect (context, box, RW_CORNER_TOP_RIGHT, badge, FALSE);

  box.w += MAX (0, -at.x);
  return box;
}

static double
sample_width (RwDrawContext *context, const RwLensSample *sample)
{
  return sample != NULL && sample->is_badge ? BADGE * badge_box (context, sample->mark).w + 2 : SAMPLE;
}

static void
add_entry (RwLegend *legend, RwDrawContext *context, Entry entry)
{
  double width = rw_draw_text_width (context, entry_text (&entry), (RwTextStyle) { RW_EM_LEAST, FALSE });

  g_array_append_val (legend->entries, entry);
  legend->widest = MAX (legend->widest, MIN (width, MOST_TEXT));
  legend->sample = MAX (legend->sample, sample_width (context, entry.sample));
}

/**
 * rw_legend_new: @clouds: (nullable); @scene: (nullable): NULL = only what the lens explains. @lens: (nullable): must outlive the legend.
 * Free with rw_legend_free().
 */
RwLegend *
rw_legend_new (RwDrawContext *context, const RwScene *scene, const RwLens *lens, const RwClouds *clouds, gboolean balloons)
{
  RwLegend *legend = g_new0 (RwLegend, 1);

  legend->lens = lens;
  legend->has_scene = scene != NULL;
  legend->entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  for (guint i = 0; i < rw_lens_n_samples (lens); i++)
    add_entry (legend, context, (Entry) { .sample = rw_lens_sample (lens, i) });
  for (guint i = 0; scene != NULL && i < G_N_ELEMENTS (all); i++)
    if (occurs (&all[i], scene, lens, clouds, balloons))
      add_entry (legend, context, (Entry) { .item = &all[i] });
  return legend;
}

void
rw_legend_free (RwLegend *legend)
{
  g_array_unref (legend->entries);
  g_free (legend);
}

guint
rw_legend_n (const RwLegend *legend)
{
  return legend->entries->len;
}

static double
item_width (const RwLegend *legend)
{
  return legend->sample + GAP + legend->widest;
}

static guint
n_columns (const RwLegend *legend, double width)
{
  return MAX (1, (guint) floor ((width + BETWEEN) / (item_width (legend) + BETWEEN)));
}

static guint
n_rows (const RwLegend *legend, double width)
{
  guint columns = n_columns (legend, width);

  return (legend->entries->len + columns - 1) / columns;
}

/* rw_legend_width: of one column of it, mm; its heading may be cut. */
double
rw_legend_width (const RwLegend *legend)
{
  return item_width (legend);
}

/**
 * rw_legend_height: of the legend within @width mm, heading included; 0 where there is nothing to explain, and
 * beyond all paper where not even one item is so narrow.
 */
double
rw_legend_height (const RwLegend *legend, double width)
{
  if (legend->entries->len == 0)
    return 0;
  if (item_width (legend) > width)
    return G_MAXDOUBLE;
  return HEAD + n_rows (legend, width) * PITCH;
}

static void
draw_line_sample (cairo_t *cr, RwLineStyle style, gboolean fault, double x, double y, const RwDrawOptions *options)
{
  const RwPoint points[] = { { x, y }, { x + SAMPLE, y } };

  rw_draw_line (cr, points, 2, style, fault, options);
  rw_draw_bead (cr, (RwPoint) { x + SAMPLE / 2, y }, style, fault, options);
}

/* Of the size that it has on the drawing. */
static void
draw_tab_sample (cairo_t *cr, RwSide side, RwPoint middle, const RwDrawOptions *options)
{
  double along = side == RW_SIDE_AUX ? 2.5 : 4.0;

  rw_draw_tab (cr, side, (RwRect) { middle.x - 1.25, middle.y - along / 2, 2.5, along }, RW_EDGE_RIGHT, options);
}

static void
draw_id_sample (cairo_t *cr, double x, double y, const RwDrawOptions *options)
{
  rw_draw_id_tab (cr, (RwRect) { x + SAMPLE / 2 - 3, y - 1.9, 6, 3.8 }, options);
  rw_ink_set (cr, RW_INK_SHEET, options);
  rw_draw_text (cr, options, "1", (RwTextStyle) { RW_EM_LEAST, TRUE }, x + SAMPLE / 2, y, 0.5, 0);
}

static void
draw_sample (cairo_t *cr, const Item *item, double x, double y, const RwDrawOptions *options)
{
  RwPoint middle = { x + SAMPLE / 2, y };

  switch (item->kind)
    {
    case ITEM_LINE:
      draw_line_sample (cr, item->value, FALSE, x, y, options);
      break;
    case ITEM_HELD:
      draw_line_sample (cr, RW_LINE_PRIMARY, FALSE, x, y, options);
      rw_draw_held (cr, middle, (RwPoint) { 1, 0 }, options);
      break;
    case ITEM_FAULT:
      draw_line_sample (cr, RW_LINE_PRIMARY, TRUE, x, y, options);
      break;
    case ITEM_TAB:
      draw_tab_sample (cr, item->value, middle, options);
      break;
    case ITEM_ID:
      draw_id_sample (cr, x, y, options);
      break;
    case ITEM_CLOUD:
      rw_draw_cloud (cr, (const RwPoint[]) { { x, y + 1 }, { x + SAMPLE, y + 1 } }, 2, FALSE, options);
      break;
    case ITEM_BALLOON:
    default:
      rw_draw_severity (cr, item->value, middle, item->value == RW_SEVERITY_WARNING ? 1.5 : 1.9, NULL, options);
      break;
    }
}

static void
draw_badge_sample (cairo_t *cr, const RwLensSample *sample, double x, double y, const RwDrawOptions *options)
{
  RwInk tint = rw_draw_depth_ink (sample->depth, options);
  RwRect box = badge_box (options->context, sample->mark);

  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_scale (cr, BADGE, BADGE);
  cairo_new_path (cr);
  rw_pen_rect (cr, options, RW_PEN_THIN, box);
  cairo_set_source_rgb (cr, tint.r, tint.g, tint.b);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_BOX_LINE, options);
  rw_pen_set (cr, options, RW_PEN_THIN);
  cairo_stroke (cr);
  rw_draw_badge (cr, (RwRect) { 0, 0.6, box.w, 0 }, RW_CORNER_TOP_RIGHT, sample->mark, options);
  cairo_restore (cr);
}

static void
draw_lens_sample (cairo_t *cr, const RwLensSample *sample, double x, double y, const RwDrawOptions *options)
{
  const RwPoint points[] = { { x, y }, { x + SAMPLE, y } };
  RwLensPlace place = { .centre = { x + SAMPLE / 2, y }, .along = { 1, 0 } };

  if (sample->is_badge)
    draw_badge_sample (cr, sample, x, y, options);
  else if (sample->is_flow)
    {
      rw_draw_flow_size (options->context, &sample->flow, FALSE, FALSE, &place.w, &place.h);
      place.centre.x = x + MAX (SAMPLE, place.w) / 2;
      rw_draw_flow (cr, &place, &sample->flow, options);
    }
  else
    {
      rw_draw_line (cr, points, 2, sample->style, FALSE, options);
      if (sample->mark != NULL)
        rw_draw_mark (cr, (RwPoint) { x + SAMPLE - 1.8, y }, sample->mark, FALSE, options);
    }
}

/**
 * rw_legend_draw: in columns from the top left corner of @place, read downwards.
 */
void
rw_legend_draw (const RwLegend *legend, cairo_t *cr, RwRect place, const RwDrawOptions *options)
{
  guint rows = n_rows (legend, place.w);
  double step = item_width (legend) + BETWEEN;
  g_autofree char *heading = NULL;

  if (legend->entries->len == 0)
    return;
  if (!legend->has_scene)
    heading = g_strdup (rw_lens_heading (legend->lens));
  else if (rw_lens_n_samples (legend->lens) > 0)
    /* Translators: over a legend; a way of looking at the drawing, such as “Planes” */
    heading = g_strdup_printf (_("Legend: %s"), rw_lens_heading (legend->lens));
  else
    heading = g_strdup (_("Legend"));
  rw_ink_set (cr, RW_INK_FAINT, options);
  rw_draw_text (cr, options, heading, (RwTextStyle) { RW_EM_LEAST, FALSE }, place.x, place.y + HEAD / 2 - 0.2, 0, place.w);
  for (guint i = 0; i < legend->entries->len; i++)
    {
      const Entry *entry = &g_array_index (legend->entries, Entry, i);
      double x = place.x + i / rows * step, y = place.y + HEAD + (i % rows + 0.5) * PITCH;

      if (entry->sample != NULL)
        draw_lens_sample (cr, entry->sample, x, y, options);
      else
        draw_sample (cr, entry->item, x, y, options);
      rw_ink_set (cr, RW_INK_TEXT, options);
      rw_draw_text (cr, options, entry_text (entry), (RwTextStyle) { RW_EM_LEAST, FALSE }, x + legend->sample + GAP, y, 0,
                    legend->widest + 0.1);
    }
}
