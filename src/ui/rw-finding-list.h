/* SPDX-License-Identifier: MIT */
#pragma once

#include <gio/gio.h>
#include <rules/rw-finding.h>

G_BEGIN_DECLS

/**
 * RwFindingRow: one finding as a list shows it. The object stays the same while the finding stays, so a
 * selection stays on it. Properties "number" (uint): what its balloon
 * shows, from 1, 0 = the finding is none yet, but would be; "text" (string): the message.
 */
#define RW_TYPE_FINDING_ROW (rw_finding_row_get_type ())
G_DECLARE_FINAL_TYPE (RwFindingRow, rw_finding_row, RW, FINDING_ROW, GObject)

RwFinding *rw_finding_row_get_finding (RwFindingRow *row);
guint rw_finding_row_get_number (RwFindingRow *row);

/* A list of RwFindingRow, in the order of the balloons. */
GListStore *rw_finding_list_new (void);
/* Shows @findings; rows of findings that stay are kept. */
void rw_finding_list_update (GListStore *list, const RwFindings *findings);
/* Shows findings that are none yet: the first few. @brought: (nullable): of RwFinding. */
void rw_finding_list_show_would_be (GListStore *list, const GPtrArray *brought);

G_END_DECLS
