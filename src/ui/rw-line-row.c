/* SPDX-License-Identifier: MIT */
#include "rw-line-row.h"

#include "rw-row-store.h"

struct _RwLineRow
{
  GObject parent_instance;
  RwLine line;
};

G_DEFINE_FINAL_TYPE (RwLineRow, rw_line_row, G_TYPE_OBJECT)

static guint changed_signal;

static void
rw_line_row_finalize (GObject *object)
{
  rw_line_clear (&RW_LINE_ROW (object)->line);
  G_OBJECT_CLASS (rw_line_row_parent_class)->finalize (object);
}

static void
rw_line_row_class_init (RwLineRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_line_row_finalize;
  changed_signal = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
}

static void
rw_line_row_init (RwLineRow *row)
{
}

static RwLineRow *
row_new (const RwLine *line)
{
  RwLineRow *row = g_object_new (RW_TYPE_LINE_ROW, NULL);

  rw_line_copy (&row->line, line);
  return row;
}

static void
row_set (RwLineRow *row, const RwLine *line)
{
  if (rw_line_equal (&row->line, line))
    return;
  rw_line_clear (&row->line);
  rw_line_copy (&row->line, line);
  g_signal_emit (row, changed_signal, 0);
}

/* Borrowed until the row's next change. */
const RwLine *
rw_line_row_get (RwLineRow *row)
{
  return &row->line;
}

/* --- The list --- */

GListStore *
rw_line_list_new (void)
{
  return g_list_store_new (RW_TYPE_LINE_ROW);
}

static gboolean
same_device (const RwDevice *a, const RwDevice *b)
{
  return a == NULL || b == NULL ? a == b : g_str_equal (rw_item_key (a), rw_item_key (b));
}

static gboolean
same_place (RwLineRow *row, const RwLine *line)
{
  const RwLine *l = &row->line;

  return l->side == line->side && same_device (l->stage, line->stage) && l->socket == line->socket
         && l->own == line->own && same_device (l->console, line->console) && l->strip == line->strip
         && l->channel == line->channel;
}

/* The rows of @before that begin or end the lines, where they are of the same places, and new ones between them. */
static GPtrArray *
keep_rows (GPtrArray *before, const RwLines *lines)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (g_object_unref);
  guint old = before->len, n = rw_lines_n (lines), head = 0, tail = 0;

  while (head < MIN (old, n) && same_place (before->pdata[head], rw_lines_get (lines, head)))
    head++;
  while (tail < MIN (old, n) - head && same_place (before->pdata[old - 1 - tail], rw_lines_get (lines, n - 1 - tail)))
    tail++;
  for (guint i = 0; i < n; i++)
    if (i < head)
      g_ptr_array_add (rows, g_object_ref (before->pdata[i]));
    else if (i >= n - tail)
      g_ptr_array_add (rows, g_object_ref (before->pdata[old - n + i]));
    else
      g_ptr_array_add (rows, row_new (rw_lines_get (lines, i)));
  return rows;
}

void
rw_line_list_refresh (GListStore *list, const RwRig *rig, RwLineSide side, gboolean with_free)
{
  g_autoptr (RwLines) lines = rw_lines_new (rig, side, with_free);
  g_autoptr (GPtrArray) rows = rw_row_store_rows (list);
  guint n = rw_lines_n (lines);

  if (rows->len != n || (n > 0 && ((RwLineRow *) rows->pdata[0])->line.side != side))
    {
      GPtrArray *kept = keep_rows (rows, lines);

      rw_row_store_show (list, kept);
      g_ptr_array_unref (rows);
      rows = kept;
    }
  for (guint i = 0; i < n; i++)
    row_set (rows->pdata[i], rw_lines_get (lines, i));
}

int
rw_line_list_find (GListModel *rows, const RwLine *line)
{
  for (guint i = 0; i < g_list_model_get_n_items (rows); i++)
    {
      g_autoptr (RwLineRow) row = g_list_model_get_item (rows, i);
      if (same_place (row, line))
        return (int) i;
    }
  return -1;
}
