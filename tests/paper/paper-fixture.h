/* SPDX-License-Identifier: MIT */
#pragma once

#include <paper/rw-draw.h>
#include <paper/rw-sheet.h>

G_BEGIN_DECLS

/* A rig of data/examples, or any other by its path. */
RwRig *fixture_rig (const char *name);
RwScene *fixture_scene (const RwRig *rig);
/* A file in a folder of this test's own, which fixture_clear() removes with all that is in it. */
char *fixture_path (const char *name);
void fixture_clear (void);

/* A white picture of @width × @height mm, drawn on in millimetres. */
cairo_t *fixture_picture (double width, double height, double px_per_mm);
/* Compares it with NAME.ref.png, and frees it. When they differ NAME.out.png and NAME.diff.png go into the build folder.
 * With RIGWRIGHT_NEW_PICTURES set the reference is written anew instead. */
void fixture_compare (cairo_t *cr, const char *name);

G_END_DECLS
