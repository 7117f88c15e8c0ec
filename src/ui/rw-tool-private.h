/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-tool.h"

G_BEGIN_DECLS

extern const RwToolClass rw_tool_select_class;
extern const RwToolClass rw_tool_cable_class;
extern const RwToolClass rw_tool_thread_class;
extern const RwToolClass rw_tool_pan_class;
extern const RwToolClass rw_tool_place_class;

void rw_overlay_clear (RwOverlay *overlay);
/* @change is tried out; what it would bring becomes the verdict, @fine the text where that is nothing. */
void rw_overlay_judge (RwOverlay *overlay, RwDocument *document, RwChange *change, const char *fine);
void rw_overlay_unjudge (RwOverlay *overlay);
void rw_overlay_refuse (RwOverlay *overlay, const char *text);
/* Something that is neither right nor wrong. */
void rw_overlay_tell (RwOverlay *overlay, const char *text);
void rw_overlay_add_loose (RwOverlay *overlay, RwPoint *points, guint n, guint to_port);

G_END_DECLS
