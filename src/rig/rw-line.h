/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-rig.h"

G_BEGIN_DECLS

/**
 * A line is one way of sound between the stage and a console, in both layers of the patch at once:
 *   RW_LINE_INPUT   stage device, its send → console, its receive → its strip
 *   RW_LINE_OUTPUT  console, its bus → its send → stage device, its receive
 * A console's own socket stands for the stage device and its number; such a line crosses no network. A line
 * may be known in part only: a send that goes nowhere yet, a bus, a strip that nothing feeds.
 */
typedef enum
{
  RW_LINE_INPUT,
  RW_LINE_OUTPUT,
} RwLineSide;
#define RW_N_LINE_SIDES (RW_LINE_OUTPUT + 1)

typedef enum
{
  RW_LINE_NAME,
  RW_LINE_STAGE,     /* device on the stage; a console for its own socket */
  RW_LINE_SOCKET,    /* its send (input) or receive (output), or the console's own socket */
  RW_LINE_CONSOLE,
  RW_LINE_CHANNEL,   /* the console's receive (input) or send (output), or the word for its own socket */
  RW_LINE_STRIP,     /* strip (input) or bus (output) */
  RW_LINE_SOURCE,
  RW_LINE_PHANTOM,
  RW_LINE_GAIN,
  RW_LINE_HIGH_PASS,
  RW_LINE_STAND,
  RW_LINE_NOTES,
} RwLineColumn;
#define RW_LINE_N_COLUMNS (RW_LINE_NOTES + 1)

/**
 * RwLine:
 * @stage: (nullable): where the sound comes from or goes to; @socket belongs to it
 * @console: (nullable): @channel and @strip belong to it
 * @own: the socket is one of the console's own: @stage is the console
 * @patch, @inside: (nullable): the rows of the rig that make the line
 * @about: (nullable): the channel that holds its name and particulars
 */
typedef struct
{
  RwLineSide side;
  const RwDevice *stage;
  const RwDevice *console;
  int socket, channel, strip;
  gboolean own, has_channel, has_strip;
  const RwPatchRow *patch;
  const RwInsideRow *inside;
  const RwChannel *about;
} RwLine;

/* The lines of one side of a rig, in the order of the stage (inputs) or of the buses (outputs). */
typedef struct
{
  GArray *lines; /* of RwLine; they hold references to their items */
} RwLines;

RwLines *rw_lines_new (const RwRig *rig, RwLineSide side, gboolean with_free);
void rw_lines_free (RwLines *lines);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLines, rw_lines_free)
#define rw_lines_n(l) ((l)->lines->len)
#define rw_lines_get(l, i) (&g_array_index ((l)->lines, RwLine, i))

void rw_line_copy (RwLine *to, const RwLine *from);
void rw_line_clear (RwLine *line);
gboolean rw_line_equal (const RwLine *a, const RwLine *b);
char *rw_line_about_key (const RwLine *line);
gboolean rw_device_is_console (const RwRig *rig, const RwDevice *device);

/* rw-line-text.c */
const RwLineColumn *rw_line_columns (RwLineSide side, guint *n);
const char *rw_line_column_title (RwLineSide side, RwLineColumn column);
int rw_line_column_field (RwLineColumn column);
gboolean rw_line_column_counts (RwLineColumn column);
char *rw_line_text (const RwLine *line, RwLineColumn column);
int rw_line_most (const RwRig *rig, const RwLine *line, RwLineColumn column);
char *rw_line_count_up (const char *text, guint by);
char *rw_line_fill (RwLineColumn column, const char *const *cells, guint n, guint by);
gboolean rw_line_says_something (const char *text);
int rw_line_compare (const RwLine *a, const RwLine *b, RwLineColumn column);

gboolean rw_line_fits (const RwRig *rig, RwLineSide side, RwLineColumn column, const RwDevice *device);

/* rw-line-value.c */
char *rw_line_fold (const char *text);
guint rw_line_match (const char *typed, const char *name);

/**
 * RwLineProblem: a cell that was not taken; the rest of its row was, unless that has problems of its own.
 * @row: as given to rw_line_edit_set()
 * @column: RwLineColumn
 * @left_out: it is why a new line came to nothing, and the cells that went with it, too, have no problem of their own
 * @unfinished: nothing is wrong with the cell itself: it would do if other cells of the row said more
 * @n_cells: how many cells it speaks for: 1; where the row is left out, @left_out for all of them that say something,
 *   the others for none
 * @line: the line as the edit leaves it, to be found by; all zero where the row is left out
 */
typedef struct
{
  guint row;
  int column;
  char *text;
  char *why;
  gboolean left_out;
  gboolean unfinished;
  guint n_cells;
  RwLine line;
} RwLineProblem;

/* rw-line-problem.c */
void rw_line_problem_free (RwLineProblem *problem);
guint rw_line_problems_n_cells (const GPtrArray *problems);

/* rw-line-edit.c: many lines in one change. */
typedef struct _RwLineEdit RwLineEdit;
RwLineEdit *rw_line_edit_new (const RwRig *rig, RwLineSide side, const char *name);
void rw_line_edit_free (RwLineEdit *edit);
void rw_line_edit_set (RwLineEdit *edit, guint row, const RwLine *line, const char *const *cells);
void rw_line_edit_remove (RwLineEdit *edit, const RwLine *line);
/* How many lines the edit speaks of so far, and where the one at @index of them goes; @row as given to
 * rw_line_edit_set(); NULL = it is taken out. Borrowed until the edit's next change. */
guint rw_line_edit_n (const RwLineEdit *edit);
const RwLine *rw_line_edit_get (const RwLineEdit *edit, guint index, guint *row);
RwChange *rw_line_edit_finish (RwLineEdit *edit, GPtrArray **problems);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwLineEdit, rw_line_edit_free)

G_END_DECLS
