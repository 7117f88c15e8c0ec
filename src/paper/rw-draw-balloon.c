/* SPDX-License-Identifier: MIT */
#include <math.h>

#include "rw-draw-pen.h"
#include "rw-draw-text.h"

#define FOOT 0.6     /* radius of the dot at a leader's foot, mm */
#define TEXT_PX 1.3  /* px_per_mm below which a number cannot be read */

/* A severity is told by shape as well as by colour: error = disc, warning = square on its corner,
 * note = square. Each covers about the same area. */
static void
add_shape (cairo_t *cr, RwSeverity severity, RwPoint c, double r)
{
  double half = r * 0.9, corner = r * 1.35;

  cairo_new_path (cr);
  switch (severity)
    {
    case RW_SEVERITY_WARNING:
      cairo_move_to (cr, c.x, c.y - corner);
      cairo_line_to (cr, c.x + corner, c.y);
      cairo_line_to (cr, c.x, c.y + corner);
      cairo_line_to (cr, c.x - corner, c.y);
      cairo_close_path (cr);
      break;
    case RW_SEVERITY_NOTE:
      cairo_rectangle (cr, c.x - half, c.y - half, 2 * half, 2 * half);
      break;
    case RW_SEVERITY_ERROR:
    default:
      cairo_arc (cr, c.x, c.y, r, 0, 2 * G_PI);
      break;
    }
}

typedef struct { RwInkRole fill, text; } Inks;

static const Inks inks[] = {
  [RW_SEVERITY_ERROR] = { RW_INK_FAULT, RW_INK_ON_FAULT },
  [RW_SEVERITY_WARNING] = { RW_INK_WARNING, RW_INK_ON_WARNING },
  [RW_SEVERITY_NOTE] = { RW_INK_NOTE, RW_INK_ON_NOTE },
};

static void
draw_number (cairo_t *cr, RwPoint centre, double radius, const char *text, RwSeverity severity,
             const RwDrawOptions *options)
{
  double em = MIN (RW_EM_NAME, radius * 1.1);
  double room = 1.7 * radius;
  double width = rw_draw_text_width (options->context, text, (RwTextStyle) { em, TRUE });

  if (width > room)
    em *= room / width;
  rw_ink_set (cr, inks[severity].text, options);
  rw_draw_text (cr, options, text, (RwTextStyle) { em, TRUE }, centre.x, centre.y, 0.5, 0);
}

/**
 * rw_draw_severity: a balloon's head with @text (nullable) in it.
 */
void
rw_draw_severity (cairo_t *cr, RwSeverity severity, RwPoint centre, double radius, const char *text,
                  const RwDrawOptions *options)
{
  RW_DRAW_OWN_CONTEXT (options);

  cairo_save (cr);
  add_shape (cr, severity, centre, radius);
  rw_ink_set (cr, inks[severity].fill, options);
  cairo_fill_preserve (cr);
  rw_ink_set (cr, RW_INK_CASING, options);
  rw_pen_set (cr, options, RW_PEN_MEDIUM);
  cairo_stroke (cr);
  if (text != NULL && (options->px_per_mm <= 0 || options->px_per_mm >= TEXT_PX))
    draw_number (cr, centre, radius, text, severity, options);
  cairo_restore (cr);
}

static RwRect
around (const RwSceneBalloon *b)
{
  double r = b->radius * 1.5;
  double left = MIN (b->centre.x, b->foot.x) - r, right = MAX (b->centre.x, b->foot.x) + r;
  double top = MIN (b->centre.y, b->foot.y) - r, bottom = MAX (b->centre.y, b->foot.y) + r;

  return (RwRect) { left, top, right - left, bottom - top };
}

static RwRect
head_of (const RwSceneBalloon *b)
{
  return (RwRect) { b->centre.x - b->radius, b->centre.y - b->radius, 2 * b->radius, 2 * b->radius };
}

/**
 * rw_draw_balloon: balloon @index of the scene: a thin leader with a dot on its foot, and the head over it.
 */
void
rw_draw_balloon (cairo_t *cr, const RwScene *scene, guint index, const RwDrawOptions *options)
{
  const RwSceneBalloon *balloon = rw_scene_balloon (scene, index);
  char text[16];

  if (!rw_pen_meets (options, around (balloon)) || !rw_pen_says (options, head_of (balloon)))
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  rw_ink_set (cr, RW_INK_TEXT, options);
  rw_pen_set (cr, options, RW_PEN_THIN);
  cairo_move_to (cr, balloon->centre.x, balloon->centre.y);
  cairo_line_to (cr, balloon->foot.x, balloon->foot.y);
  cairo_stroke (cr);
  cairo_arc (cr, balloon->foot.x, balloon->foot.y, FOOT, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_restore (cr);
  g_snprintf (text, sizeof text, "%u", balloon->finding + 1);
  rw_draw_severity (cr, balloon->severity, balloon->centre, balloon->radius, text, options);
}
