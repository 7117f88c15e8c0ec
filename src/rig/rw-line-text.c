/* SPDX-License-Identifier: MIT */
/* What stands in the cells of a line list. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-line.h"

/* @field: of a channel, -1 = the cell says where the line goes. */
static const struct { const char *titles[RW_N_LINE_SIDES]; int field; gboolean counts; } columns[] = {
  [RW_LINE_NAME] = { { N_("Name"), N_("Name") }, RW_CHANNEL_NAME, TRUE },
  [RW_LINE_STAGE] = { { N_("From device"), N_("To device") }, -1, FALSE },
  [RW_LINE_SOCKET] = { { N_("Send"), N_("Receive") }, -1, TRUE },
  [RW_LINE_CONSOLE] = { { N_("Console"), N_("From device") }, -1, FALSE }, /* outputs: processors, too */
  [RW_LINE_CHANNEL] = { { N_("Receive"), N_("Send") }, -1, TRUE },
  [RW_LINE_STRIP] = { { N_("Strip"), N_("Bus") }, -1, TRUE },
  [RW_LINE_SOURCE] = { { N_("Source"), N_("Source") }, RW_CHANNEL_SOURCE, FALSE },
  [RW_LINE_PHANTOM] = { { N_("Phantom"), N_("Phantom") }, RW_CHANNEL_PHANTOM, FALSE },
  [RW_LINE_GAIN] = { { N_("Gain"), N_("Gain") }, RW_CHANNEL_GAIN_DB, FALSE },
  [RW_LINE_HIGH_PASS] = { { N_("High-pass"), N_("High-pass") }, RW_CHANNEL_HIGH_PASS_HZ, FALSE },
  [RW_LINE_STAND] = { { N_("Stand"), N_("Stand") }, RW_CHANNEL_STAND, FALSE },
  [RW_LINE_NOTES] = { { N_("Notes"), N_("Notes") }, RW_CHANNEL_NOTES, FALSE },
};
G_STATIC_ASSERT (G_N_ELEMENTS (columns) == RW_LINE_N_COLUMNS);

/* The way of the sound, then what is known of it. */
static const RwLineColumn input_order[] = {
  RW_LINE_NAME, RW_LINE_STAGE, RW_LINE_SOCKET, RW_LINE_CONSOLE, RW_LINE_CHANNEL, RW_LINE_STRIP, RW_LINE_SOURCE,
  RW_LINE_PHANTOM, RW_LINE_GAIN, RW_LINE_HIGH_PASS, RW_LINE_STAND, RW_LINE_NOTES,
};
static const RwLineColumn output_order[] = {
  RW_LINE_NAME, RW_LINE_CONSOLE, RW_LINE_STRIP, RW_LINE_CHANNEL, RW_LINE_STAGE, RW_LINE_SOCKET, RW_LINE_NOTES,
};

/**
 * rw_line_columns:
 * @n: (out): how many
 *
 * Returns: the columns that a list of that side shows, copies and exports, in their order
 */
const RwLineColumn *
rw_line_columns (RwLineSide side, guint *n)
{
  *n = side == RW_LINE_INPUT ? G_N_ELEMENTS (input_order) : G_N_ELEMENTS (output_order);
  return side == RW_LINE_INPUT ? input_order : output_order;
}

/* Returns: the column's heading, translated */
const char *
rw_line_column_title (RwLineSide side, RwLineColumn column)
{
  return _(columns[column].titles[side]);
}

/* Returns: the channel's field that the column shows, -1 where it says where the line goes */
int
rw_line_column_field (RwLineColumn column)
{
  return columns[column].field;
}

/* Whether a number in the column counts up when it is filled down. */
gboolean
rw_line_column_counts (RwLineColumn column)
{
  return columns[column].counts;
}

static char *
number_text (gboolean there, int number)
{
  return there ? g_strdup_printf ("%d", number) : g_strdup ("");
}

static char *
about_text (const RwLine *line, RwLineColumn column)
{
  const RwField *field = &rw_channel_table.fields[columns[column].field];
  g_autoptr (GVariant) value = line->about != NULL ? rw_item_get (line->about, columns[column].field) : NULL;

  return value != NULL ? rw_field_format (field, value) : g_strdup ("");
}

/**
 * rw_line_text:
 * @line: a line
 * @column: which of its cells
 *
 * Returns: (transfer full): what stands there, "" = nothing; rw_line_edit_set() reads the same back
 */
char *
rw_line_text (const RwLine *line, RwLineColumn column)
{
  switch (column)
    {
    case RW_LINE_STAGE:
      return g_strdup (line->stage != NULL ? rw_device_title (line->stage) : "");
    case RW_LINE_SOCKET:
      return number_text (line->stage != NULL, line->socket);
    case RW_LINE_CONSOLE:
      return g_strdup (line->console != NULL ? rw_device_title (line->console) : "");
    case RW_LINE_CHANNEL:
      /* Translators: a socket of the console itself, not one that is reached over the network. */
      return line->own ? g_strdup (_("own")) : number_text (line->has_channel, line->channel);
    case RW_LINE_STRIP:
      return number_text (line->has_strip, line->strip);
    case RW_LINE_NAME:
    case RW_LINE_SOURCE:
    case RW_LINE_PHANTOM:
    case RW_LINE_GAIN:
    case RW_LINE_HIGH_PASS:
    case RW_LINE_STAND:
    case RW_LINE_NOTES:
      return about_text (line, column);
    }
  g_return_val_if_reached (NULL);
}

/**
 * rw_line_most:
 * @line: of which side, devices and @own count
 * @column: one of numbers
 *
 * Returns: the highest number that its device has in that column: sends, receives, sockets of its own, strips, buses;
 *   0 = it has none, or there is no such device
 */
int
rw_line_most (const RwRig *rig, const RwLine *line, RwLineColumn column)
{
  const RwDevice *device = column == RW_LINE_SOCKET ? line->stage : line->console;
  const RwPart *part = device != NULL ? rw_rig_part_of (rig, device) : NULL;
  gboolean input = line->side == RW_LINE_INPUT;

  if (part == NULL)
    return 0;
  if (column == RW_LINE_STRIP)
    return input ? part->strips : part->buses;
  if (column == RW_LINE_SOCKET && line->own)
    return input ? part->local_inputs : part->local_outputs;
  return (column == RW_LINE_SOCKET) == input ? part->sends : part->receives;
}

/**
 * rw_line_fits:
 * @column: one of devices
 *
 * Returns: whether @device can stand in that column: a console, or what has sends (input) or receives (output), its own
 *   sockets included
 */
gboolean
rw_line_fits (const RwRig *rig, RwLineSide side, RwLineColumn column, const RwDevice *device)
{
  gboolean console = rw_device_is_console (rig, device);
  RwLine line = { .side = side, .stage = device, .console = device, .own = console };

  if (column == RW_LINE_CONSOLE)
    return console;
  return rw_line_most (rig, &line, RW_LINE_SOCKET) > 0;
}

/**
 * rw_line_count_up:
 * @text: what stands in the first cell
 * @by: how many cells further down
 *
 * The last run of digits counts up, zeros before it are kept: "Vox 09" → "Vox 10". Without digits, or with more
 * than nine, the text stays as it is.
 *
 * Returns: (transfer full): what stands there
 */
char *
rw_line_count_up (const char *text, guint by)
{
  const char *end = text + strlen (text);
  const char *start;

  while (end > text && !g_ascii_isdigit (end[-1]))
    end--;
  for (start = end; start > text && g_ascii_isdigit (start[-1]);)
    start--;
  if (start == end || end - start > 9)
    return g_strdup (text);
  return g_strdup_printf ("%.*s%0*" G_GINT64_FORMAT "%s", (int) (start - text), text, (int) (end - start),
                          g_ascii_strtoll (start, NULL, 10) + by, end);
}

#define MOST_STEP 64 /* sockets of a rack, say: every second or eighth is taken, not every hundredth */

/* By how much numbers go up from each of the cells to the next; one alone goes up by 1. 0 = not evenly. */
static guint
find_step (const char *const *cells, guint n)
{
  for (guint step = 1; step <= (n > 1 ? MOST_STEP : 1); step++)
    {
      gboolean fits = TRUE;

      for (guint i = 1; i < n && fits; i++)
        {
          g_autofree char *next = rw_line_count_up (cells[i - 1], step);
          fits = strcmp (next, cells[i]) == 0;
        }
      if (fits)
        return step;
    }
  return 0;
}

/**
 * rw_line_fill:
 * @column: a column
 * @cells: (array length=n): what stands in the chosen cells of the column, from the top
 * @by: which of the cells below them, from 1
 *
 * Numbers that go up evenly go on so, where the column's numbers count; anything else is repeated in turn.
 *
 * Returns: (transfer full): what is to stand there
 */
char *
rw_line_fill (RwLineColumn column, const char *const *cells, guint n, guint by)
{
  guint step = columns[column].counts ? find_step (cells, n) : 0;

  g_return_val_if_fail (n > 0 && by > 0, NULL);
  return step > 0 ? rw_line_count_up (cells[n - 1], step * by) : g_strdup (cells[(by - 1) % n]);
}

static int
compare_reals (double a, double b)
{
  return (a > b) - (a < b);
}

static int
compare_numbers (gboolean has_a, int a, gboolean has_b, int b)
{
  return has_a && has_b ? (a > b) - (a < b) : (int) has_b - (int) has_a;
}

/* Real fields, by their value; what has none stands last. */
static int
compare_about (const RwLine *a, const RwLine *b, RwLineColumn column)
{
  const RwField *field = &rw_channel_table.fields[columns[column].field];
  gboolean has_a = a->about != NULL && rw_item_has (a->about, columns[column].field);
  gboolean has_b = b->about != NULL && rw_item_has (b->about, columns[column].field);

  if (!has_a || !has_b)
    return (int) has_b - (int) has_a;
  return compare_reals (*(const double *) RW_FIELD_PTR (a->about, field), *(const double *) RW_FIELD_PTR (b->about, field));
}

/* As text; what has none stands last. */
static int
compare_texts (const RwLine *a, const RwLine *b, RwLineColumn column)
{
  g_autofree char *x = rw_line_text (a, column);
  g_autofree char *y = rw_line_text (b, column);

  return *x == '\0' || *y == '\0' ? (*x == '\0') - (*y == '\0') : g_utf8_collate (x, y);
}

/**
 * rw_line_compare:
 *
 * Returns: less than 0 where @a stands before @b in a list sorted by @column; numbers by value, empty cells last
 */
int
rw_line_compare (const RwLine *a, const RwLine *b, RwLineColumn column)
{
  switch (column)
    {
    case RW_LINE_SOCKET:
      return compare_numbers (a->stage != NULL, a->socket, b->stage != NULL, b->socket);
    case RW_LINE_CHANNEL:
      return compare_numbers (a->has_channel, a->channel, b->has_channel, b->channel);
    case RW_LINE_STRIP:
      return compare_numbers (a->has_strip, a->strip, b->has_strip, b->strip);
    case RW_LINE_GAIN:
    case RW_LINE_HIGH_PASS:
      return compare_about (a, b, column);
    case RW_LINE_NAME:
    case RW_LINE_STAGE:
    case RW_LINE_CONSOLE:
    case RW_LINE_SOURCE:
    case RW_LINE_PHANTOM:
    case RW_LINE_STAND:
    case RW_LINE_NOTES:
      return compare_texts (a, b, column);
    }
  g_return_val_if_reached (0);
}

/* @text: (nullable): of a cell, NULL = it was not typed in. Returns: whether more than blanks stand in it */
gboolean
rw_line_says_something (const char *text)
{
  while (text != NULL && g_ascii_isspace (*text))
    text++;
  return text != NULL && *text != '\0';
}
