/* SPDX-License-Identifier: MIT */
#include "rw-failure-list.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-line.h>

/* What has failed itself, then the worst first. */
static const struct { RwFate fate; gboolean is_line; } order[] = {
  { RW_FATE_FAILED, FALSE }, { RW_FATE_LOST, FALSE },  { RW_FATE_CUT_OFF, FALSE }, { RW_FATE_NO_LINE, FALSE },
  { RW_FATE_LOST, TRUE },    { RW_FATE_FAILED, TRUE }, { RW_FATE_GAP, FALSE },     { RW_FATE_GAP, TRUE },
  { RW_FATE_OTHER_PLANE, FALSE }, { RW_FATE_OTHER_PLANE, TRUE },
};

/* Returns: what has become of a cable, a device or a line: "lost" */
const char *
rw_failure_word (const RwFailureRow *row)
{
  gboolean is_line = row->kind == RW_FAILURE_LINE;

  switch (row->fate)
    {
    case RW_FATE_LOST:
      return is_line ? _("lost") : _("silent");
    case RW_FATE_CUT_OFF:
      return _("cut off");
    case RW_FATE_NO_LINE:
      return _("all lines lost");
    case RW_FATE_FAILED:
      return is_line ? _("lost with its device") : _("failed");
    case RW_FATE_GAP:
      return _("gap of 30–50 s");
    case RW_FATE_OTHER_PLANE:
      return _("plays on over the other plane");
    case RW_FATE_NONE:
    case RW_FATE_UNTOUCHED:
    default:
      return _("untouched");
    }
}

/* Takes over @text; leaves out what there is none of. */
static void
add_part (GPtrArray *parts, guint n, char *text)
{
  if (n > 0)
    g_ptr_array_add (parts, text);
  else
    g_free (text);
}

/**
 * rw_failure_costs:
 * @lines: (array fixed-size=RW_N_FATES): lines by what has become of them
 * @between: what stands between the parts
 *
 * Returns: (transfer full): what the failure costs, in short: “2 devices silent, 12 lines lost”
 */
char *
rw_failure_costs (const RwOutcome *outcome, const guint *lines, const char *between)
{
  const guint *devices = outcome->device_counts;
  g_autoptr (GPtrArray) parts = g_ptr_array_new_with_free_func (g_free);
  guint n;

  n = devices[RW_FATE_LOST];
  add_part (parts, n, g_strdup_printf (ngettext ("%u device silent", "%u devices silent", n), n));
  n = devices[RW_FATE_CUT_OFF];
  add_part (parts, n, g_strdup_printf (ngettext ("%u device cut off", "%u devices cut off", n), n));
  n = devices[RW_FATE_NO_LINE];
  add_part (parts, n, g_strdup_printf (ngettext ("%u device without a line", "%u devices without a line", n), n));
  n = devices[RW_FATE_GAP];
  add_part (parts, n, g_strdup_printf (ngettext ("%u device with a gap", "%u devices with a gap", n), n));
  n = lines[RW_FATE_LOST];
  add_part (parts, n, g_strdup_printf (ngettext ("%u line lost", "%u lines lost", n), n));
  n = lines[RW_FATE_FAILED];
  add_part (parts, n, g_strdup_printf (ngettext ("%u line lost with its device", "%u lines lost with their devices", n), n));
  n = lines[RW_FATE_GAP];
  add_part (parts, n, g_strdup_printf (ngettext ("%u line with a gap", "%u lines with a gap", n), n));
  if (parts->len == 0)
    g_ptr_array_add (parts, g_strdup (_("nothing is lost")));
  g_ptr_array_add (parts, NULL);
  return g_strjoinv (between, (char **) parts->pdata);
}

static void
row_free (gpointer data)
{
  RwFailureRow *row = data;

  g_free (row->name);
  g_free (row->from);
  g_free (row->to);
  g_free (row->key);
  g_free (row);
}

static int
rank_of (RwFate fate, gboolean is_line)
{
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    if (order[i].fate == fate && order[i].is_line == is_line)
      return (int) i;
  return -1;
}

/* @number: a send or a receive of the device. */
static char *
end_text (const RwDevice *device, int number)
{
  return g_strdup_printf ("%s · %d", rw_device_title (device), number);
}

/* With the strip or bus behind it. */
static char *
console_text (const RwLine *line)
{
  if (!line->has_strip)
    return end_text (line->console, line->channel);
  if (line->side == RW_LINE_INPUT)
    /* Translators: where a line ends: a console, its receive, its strip */
    return g_strdup_printf (_("%s · %d, strip %d"), rw_device_title (line->console), line->channel, line->strip);
  /* Translators: where a line begins: a console, its send, its bus */
  return g_strdup_printf (_("%s · %d, bus %d"), rw_device_title (line->console), line->channel, line->strip);
}

static void
add_line (GPtrArray *rows, const RwLine *line, RwFate fate)
{
  RwFailureRow *row = g_new0 (RwFailureRow, 1);
  char *stage = end_text (line->stage, line->socket), *console = console_text (line);

  row->fate = fate;
  row->kind = RW_FAILURE_LINE;
  row->name = rw_line_text (line, RW_LINE_NAME);
  row->from = line->side == RW_LINE_INPUT ? stage : console;
  row->to = line->side == RW_LINE_INPUT ? console : stage;
  row->key = g_strdup (rw_item_key (line->stage));
  g_ptr_array_add (rows, row);
}

/* @named: by patch row: a line has named it. */
static void
add_lines (GPtrArray *rows, const RwRig *rig, const RwOutcome *outcome, gboolean *named)
{
  for (guint side = 0; side < RW_N_LINE_SIDES; side++)
    {
      g_autoptr (RwLines) lines = rw_lines_new (rig, (RwLineSide) side, FALSE);

      for (guint i = 0; i < rw_lines_n (lines); i++)
        {
          const RwLine *line = rw_lines_get (lines, i);
          int index = line->patch != NULL ? rw_rig_index (rig, rw_item_key (line->patch)) : -1;

          if (index < 0 || (guint) index >= outcome->n_rows)
            continue;
          named[index] = TRUE;
          if (rank_of (outcome->rows[index], TRUE) >= 0 && line->stage != NULL && line->console != NULL)
            add_line (rows, line, outcome->rows[index]);
        }
    }
}

/* What no console sends or receives is no line, but plays all the same. */
static void
add_others (GPtrArray *rows, const RwRig *rig, const RwOutcome *outcome, const gboolean *named)
{
  for (guint i = 0; i < outcome->n_rows; i++)
    {
      const RwPatchRow *patch = (const RwPatchRow *) rw_rig_items (rig, RW_ITEM_PATCH)[i];
      const RwDevice *from = rw_rig_device (rig, patch->from.device), *to = rw_rig_device (rig, patch->to.device);
      RwFailureRow *row;

      if (named[i] || rank_of (outcome->rows[i], TRUE) < 0 || from == NULL || to == NULL)
        continue;
      row = g_new0 (RwFailureRow, 1);
      row->fate = outcome->rows[i];
      row->kind = RW_FAILURE_LINE;
      row->from = end_text (from, patch->from.number);
      row->to = end_text (to, patch->to.number);
      row->key = g_strdup (rw_item_key (from));
      g_ptr_array_add (rows, row);
    }
}

static void
add_devices (GPtrArray *rows, const RwRig *rig, const RwOutcome *outcome)
{
  for (guint i = 0; i < outcome->n_devices; i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i];
      RwFailureRow *row;

      if (rank_of (outcome->devices[i], FALSE) < 0)
        continue;
      row = g_new0 (RwFailureRow, 1);
      row->fate = outcome->devices[i];
      row->kind = RW_FAILURE_DEVICE;
      row->name = g_strdup (rw_device_title (device));
      row->key = g_strdup (rw_item_key (device));
      g_ptr_array_add (rows, row);
    }
}

static char *
cable_end_text (const RwRig *rig, const RwEnd *end)
{
  const RwDevice *device = rw_rig_device (rig, end->device);

  return g_strdup_printf ("%s · %s", device != NULL ? rw_device_title (device) : end->device, end->port);
}

static void
add_cables (GPtrArray *rows, const RwRig *rig, const RwOutcome *outcome)
{
  for (guint i = 0; i < outcome->n_cables; i++)
    {
      const RwCable *cable = (const RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[i];
      RwFailureRow *row;

      if (!outcome->cables[i])
        continue;
      row = g_new0 (RwFailureRow, 1);
      row->fate = RW_FATE_FAILED;
      row->kind = RW_FAILURE_CABLE;
      row->name = g_strdup (rw_cable_title (cable));
      row->from = cable_end_text (rig, &cable->from);
      row->to = cable_end_text (rig, &cable->to);
      row->key = g_strdup (rw_item_key (cable));
      g_ptr_array_add (rows, row);
    }
}

static int
compare_rows (gconstpointer a, gconstpointer b)
{
  const RwFailureRow *x = *(RwFailureRow *const *) a, *y = *(RwFailureRow *const *) b;
  int rank = rank_of (x->fate, x->kind == RW_FAILURE_LINE) - rank_of (y->fate, y->kind == RW_FAILURE_LINE);

  return rank != 0 ? rank : (int) x->kind - (int) y->kind;
}

/**
 * rw_failure_rows:
 * @rig: a rig
 * @outcome: of its net
 *
 * Returns: (transfer full) (element-type RwFailureRow): the cables and devices that have failed, then the devices and lines
 *   that it touches, the worst first; lines in the order of the line list
 */
GPtrArray *
rw_failure_rows (const RwRig *rig, const RwOutcome *outcome)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (row_free);
  g_autofree gboolean *named = g_new0 (gboolean, outcome->n_rows + 1);

  add_cables (rows, rig, outcome);
  add_devices (rows, rig, outcome);
  add_lines (rows, rig, outcome, named);
  add_others (rows, rig, outcome, named);
  g_ptr_array_sort (rows, compare_rows); /* GLib's sort is stable */
  return rows;
}
