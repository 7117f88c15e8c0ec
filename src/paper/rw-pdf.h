/* SPDX-License-Identifier: MIT */
#pragma once

#include <cairo.h>
#include <rig/rw-rig.h>

G_BEGIN_DECLS

#define RW_MM_TO_POINTS (72.0 / 25.4)

void rw_pdf_describe (cairo_surface_t *surface, const char *title, const char *author, const char *subject);

G_END_DECLS
