/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-line.h"

G_BEGIN_DECLS

/* What an edit of lines knows while it reads cells: names of devices, and what is taken so far. */
typedef struct
{
  const RwRig *rig;
  RwLineSide side;
  RwLines *lines;       /* (nullable): as the rig has them: ask rw_line_desk_lines() */
  GHashTable *devices;  /* (nullable): folded name or id → RwDevice, NULL = several; made when a device is typed */
  GHashTable *fed;      /* (nullable): end_name() → RwLine of @lines, the first; made when an end alone is typed */
  GHashTable *channels; /* "DEVICE/NUMBER": channels of consoles that this edit took, or that have a line */
  GHashTable *sockets;  /* likewise of the stage */
  gboolean lines_taken; /* those of the lines are in the two; they go in when one is to be chosen */
  GPtrArray *problems;  /* of RwLineProblem */
} RwLineDesk;

void rw_line_desk_init (RwLineDesk *desk, const RwRig *rig, RwLineSide side);
void rw_line_desk_clear (RwLineDesk *desk);
const RwLines *rw_line_desk_lines (RwLineDesk *desk);
gboolean rw_line_desk_aim (RwLineDesk *desk, guint row, const RwLine *before, const char *const *cells,
                           RwLine *target);
void rw_line_desk_cut (RwLine *line);

/* rw-line-problem.c */
RwLineProblem *rw_line_desk_problem (RwLineDesk *desk, guint row, RwLineColumn column, const char *text, const char *why);
void rw_line_desk_tell_stuck (RwLineDesk *desk, guint row, guint first, const RwLine *before, const char *const *cells);
void rw_line_desk_leave_out (RwLineDesk *desk, guint first, guint first_where, const char *const *cells);
void rw_line_desk_sort_problems (RwLineDesk *desk);

/* rw-line-value.c: single cells. */
char *rw_line_squeeze (const char *folded);
gboolean rw_line_is_one_of (const char *folded, const char *const *words);
gboolean rw_line_read_value (RwLineColumn column, const char *text, GVariant **value, GError **error);

G_END_DECLS
