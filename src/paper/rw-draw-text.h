/* SPDX-License-Identifier: MIT */
#pragma once

#include <pango/pangocairo.h>
#include "rw-draw.h"

G_BEGIN_DECLS

/* More font sizes (em, mm) for what stands round the drawing: capitals of 3.5 and 5 mm. */
#define RW_EM_HEAD 4.9
#define RW_EM_TITLE 7.0

/* Height of capitals as a part of the font size: 0.70–0.73 in common sans-serif faces. */
#define RW_CAPITAL 0.72

typedef struct
{
  double em;       /* font size, mm */
  gboolean bold;
  gboolean middle; /* it is shortened in its middle, so that its end stays */
} RwTextStyle;

/* One laid-out line. Belongs to the context, valid until the next call with it. */
typedef struct
{
  PangoLayout *layout;
  double width;    /* advance, mm */
  gboolean cut;    /* shortened with … as it was wider than allowed */
} RwTextRun;

const RwTextRun *rw_draw_text_run (RwDrawContext *context, const char *text, RwTextStyle style, double max_width);
double rw_draw_text_width (RwDrawContext *context, const char *text, RwTextStyle style);
guint rw_draw_text_n_kept (const RwDrawContext *context);

/* Draws one line, shortened with … beyond @max_width (0 = never). @anchor: 0 = @x is its left end, 0.5 its middle, 1 its
 * right end. @middle is the y of the middle of its capitals. Gives the width drawn. */
double rw_draw_text (cairo_t *cr, const RwDrawOptions *options, const char *text, RwTextStyle style,
                     double x, double middle, double anchor, double max_width);

/* For a public function that draws text: where its options bring no context, one for this call. */
#define RW_DRAW_OWN_CONTEXT(options) \
  RwDrawOptions with_context = *(options); \
  g_autoptr (RwDrawContext) own_context = (options)->context == NULL ? rw_draw_context_new () : NULL; \
  if (own_context != NULL) \
    with_context.context = own_context; \
  (options) = &with_context

/* A new paragraph of @width mm, wrapped. (transfer full). */
PangoLayout *rw_draw_paragraph (RwDrawContext *context, const char *text, RwTextStyle style, double width);
double rw_draw_paragraph_height (PangoLayout *layout);

G_END_DECLS
