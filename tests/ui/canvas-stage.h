/* SPDX-License-Identifier: MIT */
#pragma once

#include <ui/rw-canvas.h>

G_BEGIN_DECLS

/* Two racks in a row behind a console, as rw_test_rig() takes it. */
#define STAGE_CHAIN \
  "console desk ctrl=1 at=[60,60]; rack left id=1 at=[130,60]; rack right id=2 at=[200,60]; " \
  "desk.s-left.p; left.s-right.p"

/* A window with nothing but a canvas, on a display. */
typedef struct
{
  GtkWindow *window;
  RwCanvas *canvas;
  RwDocument *document;
} Stage;

void stage_open (Stage *stage, RwDocument *document, int width, int height);
/* As rw_test_rig() takes it, 1000 by 700. */
void stage_open_text (Stage *stage, const char *text);
void stage_close (Stage *stage);
/* Does all that is to be done now, a frame included. */
void stage_settle (Stage *stage);
/* What the canvas shows in its next frame. */
cairo_surface_t *stage_glance (Stage *stage);
/* What the canvas shows when it has come to rest. */
cairo_surface_t *stage_picture (Stage *stage);
/* Share of pixels, 0 … 1, of which a channel differs by more than @tolerance. */
double stage_difference (cairo_surface_t *a, cairo_surface_t *b, int tolerance);
/* Share of pixels near a colour, channels 0 … 1. */
double stage_share_of (cairo_surface_t *picture, double r, double g, double b);

/* Points of things in the canvas's own pixels. */
RwPoint stage_device (Stage *stage, const char *device);
RwPoint stage_port (Stage *stage, const char *device, const char *port);
void stage_drag (Stage *stage, RwPoint from, RwPoint to, GdkModifierType state);
void stage_assert_near (RwPoint a, RwPoint b, double px);
/* The canvas's own event controller of a type. */
GtkEventController *stage_controller (Stage *stage, GType type);

G_END_DECLS
