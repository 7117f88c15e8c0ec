/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig/rw-rig.h>

G_BEGIN_DECLS

char *rw_journal_line_digest (const char *document);
GString *rw_journal_line_head (const char *document, const char *base);
gboolean rw_journal_line_parse_head (const char *text, const char *where, char **document, char **base,
                                     GError **error);
GString *rw_journal_line_change (const RwChange *change);
RwChange *rw_journal_line_parse (const char *line, gsize length, const RwRig *rig, GError **error);

G_END_DECLS
