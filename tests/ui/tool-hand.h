/* SPDX-License-Identifier: MIT */
#pragma once

#include <ui/rw-tool.h>

G_BEGIN_DECLS

/* A hand for tests: points in sheet mm, at a zoom where a hand may miss by 1.5 mm. */
RwDocument *hand_document (const char *rig_text);
RwPoint hand_device (RwDocument *document, const char *device);
RwPoint hand_port (RwDocument *document, const char *device, const char *port);
RwToolPoint hand_at (RwPoint at, RwToolMods mods);
void hand_press (RwTool *tool, RwPoint at, RwToolMods mods);
void hand_move (RwTool *tool, RwPoint at, RwToolMods mods);
/* Lets go and does what comes of it; FALSE = nothing does. */
gboolean hand_release (RwTool *tool, RwPoint at, RwToolMods mods);
gboolean hand_key (RwTool *tool, RwToolKey key);
guint hand_count (RwDocument *document, RwItemType type);
/* How many findings of the rule @code the document has. */
guint hand_findings (RwDocument *document, const char *code);

G_END_DECLS
