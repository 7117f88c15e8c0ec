/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-line.h>

G_BEGIN_DECLS

/* Lines as text, for tests; what does not work out fails the test. */

void line_hand_part (RwRig *rig, const char *id, const char *kind, int sends, int receives, int strips, int own);
void line_hand_device (RwRig *rig, const char *id, const char *part, const char *name);
/* Two racks of 16 sends and 8 receives; one console of 24 strips and 4 own sockets. */
RwRig *line_hand_rig (void);
/* The cells of all lines, a line each: "name|device|socket|console|channel|strip|source|phantom|gain|hp|stand|notes",
   empty ones at the end left out. */
char *line_hand_text (const RwRig *rig, RwLineSide side, gboolean with_free);
void line_hand_assert (const RwRig *rig, RwLineSide side, const char *expected);
/* Cells as text: "|" between them, "~" = stays as it is; what is missing at the end stays, too. */
void line_hand_set (RwLineEdit *edit, guint row, const RwLine *line, const char *text);
/* Does the edit, undoes and redoes it: each must give the same items again. Returns: (transfer full): the problems */
GPtrArray *line_hand_apply (RwRig *rig, RwLineEdit *edit);
/* Likewise; there must be no problems. */
void line_hand_apply_cleanly (RwRig *rig, RwLineEdit *edit);
/* New lines from @rows, one a text line. */
void line_hand_add (RwRig *rig, RwLineSide side, const char *rows);
/* Types @cells into the line at @index of those that are patched or named. */
void line_hand_type (RwRig *rig, RwLineSide side, guint index, const char *cells);

G_END_DECLS
