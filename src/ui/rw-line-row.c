/* SPDX-License-Identifier: MIT */
#include "rw-line-row.h"

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

/* --- The model --- */

struct _RwLineModel
{
  GObject parent_instance;
  GPtrArray *rows;
};

static GType
get_item_type (GListModel *model)
{
  return RW_TYPE_LINE_ROW;
}

static guint
get_n_items (GListModel *model)
{
  return RW_LINE_MODEL (model)->rows->len;
}

static gpointer
get_item (GListModel *model, guint position)
{
  GPtrArray *rows = RW_LINE_MODEL (model)->rows;

  return position < rows->len ? g_object_ref (g_ptr_array_index (rows, position)) : NULL;
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (RwLineModel, rw_line_model, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

static void
rw_line_model_finalize (GObject *object)
{
  g_ptr_array_unref (RW_LINE_MODEL (object)->rows);
  G_OBJECT_CLASS (rw_line_model_parent_class)->finalize (object);
}

static void
rw_line_model_class_init (RwLineModelClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rw_line_model_finalize;
}

static void
rw_line_model_init (RwLineModel *model)
{
  model->rows = g_ptr_array_new_with_free_func (g_object_unref);
}

RwLineModel *
rw_line_model_new (void)
{
  return g_object_new (RW_TYPE_LINE_MODEL, NULL);
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

/* Puts @n new rows from @lines at @start in place of @old rows that stand there. */
static void
splice (RwLineModel *model, const RwLines *lines, guint start, guint old, guint n)
{
  if (old > 0)
    g_ptr_array_remove_range (model->rows, start, old);
  g_ptr_array_set_size (model->rows, (int) (model->rows->len + n));
  memmove (model->rows->pdata + start + n, model->rows->pdata + start,
           (model->rows->len - n - start) * sizeof (gpointer));
  for (guint i = 0; i < n; i++)
    model->rows->pdata[start + i] = row_new (rw_lines_get (lines, start + i));
  g_list_model_items_changed (G_LIST_MODEL (model), start, old, n);
}

/**
 * rw_line_model_refresh:
 * @with_free: as for rw_lines_new()
 *
 * Shows the lines as @rig has them now.
 */
void
rw_line_model_refresh (RwLineModel *model, const RwRig *rig, RwLineSide side, gboolean with_free)
{
  g_autoptr (RwLines) lines = rw_lines_new (rig, side, with_free);
  guint old = model->rows->len, n = rw_lines_n (lines), head = 0, tail = 0;

  if (old != n || (n > 0 && ((RwLineRow *) model->rows->pdata[0])->line.side != side))
    {
      while (head < MIN (old, n) && same_place (model->rows->pdata[head], rw_lines_get (lines, head)))
        head++;
      while (tail < MIN (old, n) - head
             && same_place (model->rows->pdata[old - 1 - tail], rw_lines_get (lines, n - 1 - tail)))
        tail++;
      splice (model, lines, head, old - head - tail, n - head - tail);
    }
  for (guint i = 0; i < n; i++)
    row_set (model->rows->pdata[i], rw_lines_get (lines, i));
}
