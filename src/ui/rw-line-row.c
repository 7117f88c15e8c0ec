/* SPDX-License-Identifier: MIT */
#include "rw-line-row.h"

#include "rw-row-store.h"

#define NONE G_MAXUINT

struct _RwLineRow
{
  GObject parent_instance;
  RwLine line;
  char *typed[RW_LINE_N_COLUMNS]; /* (nullable): what stands in the cells of a row that is no line yet */
  guint next; /* the line that it is to show, while the list is made anew; NONE = none any more */
};

G_DEFINE_FINAL_TYPE (RwLineRow, rw_line_row, G_TYPE_OBJECT)

static guint changed_signal;

static void
rw_line_row_finalize (GObject *object)
{
  rw_line_clear (&RW_LINE_ROW (object)->line);
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    g_free (RW_LINE_ROW (object)->typed[i]);
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
row_new (const RwLine *line, guint next)
{
  RwLineRow *row = g_object_new (RW_TYPE_LINE_ROW, NULL);

  row->next = next;
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

/* --- One that is no line yet --- */

RwLineRow *
rw_line_row_new_blank (RwLineSide side)
{
  RwLine line = { .side = side };

  return row_new (&line, NONE);
}

gboolean
rw_line_row_is_blank (RwLineRow *row)
{
  return row->line.stage == NULL && row->line.console == NULL;
}

const char *
rw_line_row_get_typed (RwLineRow *row, RwLineColumn column)
{
  return row->typed[column];
}

void
rw_line_row_type (RwLineRow *row, RwLineColumn column, const char *text)
{
  char *owned = g_strdup (text);

  g_free (row->typed[column]);
  row->typed[column] = owned;
  g_signal_emit (row, changed_signal, 0);
}

void
rw_line_row_set_side (RwLineRow *row, RwLineSide side)
{
  row->line.side = side;
  g_signal_emit (row, changed_signal, 0);
}

char *
rw_line_row_text (RwLineRow *row, RwLineColumn column)
{
  return row->typed[column] != NULL ? g_strdup (row->typed[column]) : rw_line_text (&row->line, column);
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
same_place (const RwLine *a, const RwLine *b)
{
  return a->side == b->side && same_device (a->stage, b->stage) && a->socket == b->socket && a->own == b->own
         && same_device (a->console, b->console) && a->strip == b->strip && a->channel == b->channel;
}

static guint
device_hash (const RwDevice *device)
{
  return device != NULL ? g_str_hash (rw_item_key (device)) : 0;
}

static guint
place_hash (gconstpointer line)
{
  const RwLine *l = line;

  return device_hash (l->stage) * 31 + device_hash (l->console) * 7 + (guint) l->socket * 65599u + (guint) l->strip * 257u
         + (guint) l->channel;
}

static gboolean
place_equal (gconstpointer a, gconstpointer b)
{
  return same_place (a, b);
}

/* The row of the patch that makes it goes with a line to another place. */
static guint
patch_hash (gconstpointer line)
{
  const RwLine *l = line;

  return l->patch != NULL ? g_str_hash (rw_item_key (l->patch)) : 0;
}

static gboolean
patch_equal (gconstpointer a, gconstpointer b)
{
  const RwPatchRow *x = ((const RwLine *) a)->patch, *y = ((const RwLine *) b)->patch;

  return x != NULL && y != NULL && g_str_equal (rw_item_key (x), rw_item_key (y));
}

/* Whether the line is known by its end on the stage, else by its strip or bus. */
static gboolean
starts_on_stage (const RwLine *l)
{
  return l->stage != NULL && (l->side == RW_LINE_INPUT || !l->has_strip);
}

static guint
start_hash (gconstpointer line)
{
  const RwLine *l = line;

  return starts_on_stage (l) ? device_hash (l->stage) * 31 + (guint) l->socket
                             : device_hash (l->console) * 7 + (guint) l->strip;
}

static gboolean
start_equal (gconstpointer a, gconstpointer b)
{
  const RwLine *x = a, *y = b;

  if (starts_on_stage (x) != starts_on_stage (y))
    return FALSE;
  return starts_on_stage (x) ? same_device (x->stage, y->stage) && x->socket == y->socket && x->own == y->own
                             : same_device (x->console, y->console) && x->strip == y->strip;
}

/* --- Which row shows which line --- */

typedef struct
{
  const RwLines *lines;
  RwLineRow **rows; /* by line: the row that is to show it; NULL = none yet */
  gboolean *fresh;  /* by line: it was made by hand, and stands at the end */
  GArray *made;     /* of guint: these lines in the order in which they were made */
  guint n_free;     /* lines without a row */
} Deal;

static void
give (Deal *deal, RwLineRow *row, guint line)
{
  row->next = line;
  deal->rows[line] = row;
  deal->n_free--;
}

/* (transfer full): the lines that no row shows yet; of those that are alike the first. */
static GHashTable *
index_free (const Deal *deal, GHashFunc hash, GEqualFunc equal)
{
  GHashTable *table = g_hash_table_new (hash, equal);

  for (guint i = 0; i < rw_lines_n (deal->lines); i++)
    if (deal->rows[i] == NULL && !deal->fresh[i] && !g_hash_table_contains (table, rw_lines_get (deal->lines, i)))
      g_hash_table_insert (table, rw_lines_get (deal->lines, i), GUINT_TO_POINTER (i));
  return table;
}

static gboolean
find_free (GHashTable *table, const Deal *deal, const RwLine *line, guint *index)
{
  gpointer found;

  if (!g_hash_table_lookup_extended (table, line, NULL, &found))
    return FALSE;
  *index = GPOINTER_TO_UINT (found);
  return deal->rows[*index] == NULL && !deal->fresh[*index];
}

/* Rows go on with the lines that are alike. */
static void
deal_alike (Deal *deal, GPtrArray *before, GHashFunc hash, GEqualFunc equal)
{
  g_autoptr (GHashTable) table = NULL;
  guint index;

  if (deal->n_free == 0)
    return;
  table = index_free (deal, hash, equal);
  for (guint i = 0; i < before->len; i++)
    {
      RwLineRow *row = before->pdata[i];
      if (row->next == NONE && find_free (table, deal, &row->line, &index))
        give (deal, row, index);
    }
}

static gboolean
goes_away (const RwLineMove *move)
{
  return move->row != NULL && !same_place (&move->row->line, &move->line);
}

/* Rows go on with the lines that an edit makes of them, even if another takes the place where they were. */
static void
deal_moved (Deal *deal, const GArray *moves)
{
  g_autoptr (GHashTable) table = NULL;
  guint index;

  for (guint i = 0; moves != NULL && i < moves->len; i++)
    {
      RwLineMove *move = &g_array_index (moves, RwLineMove, i);
      if (!goes_away (move))
        continue;
      if (table == NULL)
        table = index_free (deal, place_hash, place_equal);
      if (move->row->next == NONE && find_free (table, deal, &move->line, &index))
        give (deal, move->row, index);
    }
}

/* What an edit made anew stands at the end. */
static void
deal_made (Deal *deal, const GArray *moves)
{
  g_autoptr (GHashTable) table = NULL;
  guint index;

  for (guint i = 0; moves != NULL && i < moves->len && deal->n_free > 0; i++)
    {
      RwLineMove *move = &g_array_index (moves, RwLineMove, i);
      if (move->row != NULL)
        continue;
      if (table == NULL)
        table = index_free (deal, place_hash, place_equal);
      if (!find_free (table, deal, &move->line, &index))
        continue;
      deal->fresh[index] = TRUE;
      g_array_append_val (deal->made, index);
    }
}

static gboolean
deal_same (Deal *deal, RwLineRow *row, guint line)
{
  if (row->next == NONE && deal->rows[line] == NULL && same_place (&row->line, rw_lines_get (deal->lines, line)))
    give (deal, row, line);
  return row->next == line;
}

/* Most edits leave most rows where they are, which costs no table. */
static void
deal_in_place (Deal *deal, GPtrArray *before)
{
  guint old = before->len, n = rw_lines_n (deal->lines), head = 0, tail = 0;

  while (head < MIN (old, n) && deal_same (deal, before->pdata[head], head))
    head++;
  while (tail < MIN (old, n) - head && deal_same (deal, before->pdata[old - 1 - tail], n - 1 - tail))
    tail++;
}

static void
deal_rows (Deal *deal, GPtrArray *before, const GArray *moves)
{
  for (guint i = 0; i < before->len; i++)
    ((RwLineRow *) before->pdata[i])->next = NONE;
  deal_moved (deal, moves);
  deal_in_place (deal, before);
  deal_alike (deal, before, place_hash, place_equal);
  deal_made (deal, moves);
  deal_alike (deal, before, patch_hash, patch_equal);
  deal_alike (deal, before, start_hash, start_equal);
}

/* --- In which order --- */

/* The row of the line, and behind it those of the lines after it that have no place of their own yet. */
static void
put (const Deal *deal, GPtrArray *rows, guint line)
{
  guint n = rw_lines_n (deal->lines);

  g_ptr_array_add (rows, deal->rows[line] != NULL ? g_object_ref (deal->rows[line]) : row_new (rw_lines_get (deal->lines, line), line));
  for (line++; line < n && deal->rows[line] == NULL && !deal->fresh[line]; line++)
    g_ptr_array_add (rows, row_new (rw_lines_get (deal->lines, line), line));
}

/* As the rows stood; what is new stands behind what it follows in the rig, what was made by hand at the end. */
static GPtrArray *
keep_order (const Deal *deal, GPtrArray *before)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (g_object_unref);

  if (rw_lines_n (deal->lines) > 0 && deal->rows[0] == NULL && !deal->fresh[0])
    put (deal, rows, 0);
  for (guint i = 0; i < before->len; i++)
    if (((RwLineRow *) before->pdata[i])->next != NONE)
      put (deal, rows, ((RwLineRow *) before->pdata[i])->next);
  for (guint i = 0; i < deal->made->len; i++)
    put (deal, rows, g_array_index (deal->made, guint, i));
  return rows;
}

/* --- All of it --- */

typedef struct { GCompareDataFunc compare; gpointer data; } Order;

static int
compare_rows (gconstpointer a, gconstpointer b, gpointer order)
{
  return ((Order *) order)->compare (*(gpointer *) a, *(gpointer *) b, ((Order *) order)->data);
}

/* As the rig has the lines. */
static GPtrArray *
natural_order (const Deal *deal)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (g_object_unref);

  for (guint i = 0; i < rw_lines_n (deal->lines); i++)
    g_ptr_array_add (rows, deal->rows[i] != NULL ? g_object_ref (deal->rows[i]) : row_new (rw_lines_get (deal->lines, i), i));
  return rows;
}

static GPtrArray *
next_rows (GPtrArray *before, const RwLines *lines, const GArray *moves, gboolean anew)
{
  guint n = rw_lines_n (lines);
  Deal deal = { .lines = lines, .n_free = n };
  GPtrArray *rows;

  deal.rows = g_new0 (RwLineRow *, n + 1);
  deal.fresh = g_new0 (gboolean, n + 1);
  deal.made = g_array_new (FALSE, FALSE, sizeof (guint));
  deal_rows (&deal, before, moves);
  rows = anew ? natural_order (&deal) : keep_order (&deal, before);
  g_free (deal.rows);
  g_free (deal.fresh);
  g_array_unref (deal.made);
  return rows;
}

void
rw_line_list_refresh (GListStore *list, const RwLines *lines, const GArray *moves)
{
  g_autoptr (GPtrArray) before = rw_row_store_rows (list);
  g_autoptr (GPtrArray) rows = next_rows (before, lines, moves, FALSE);

  for (guint i = 0; i < rows->len; i++)
    row_set (rows->pdata[i], rw_lines_get (lines, ((RwLineRow *) rows->pdata[i])->next));
  rw_row_store_show (list, rows);
}

void
rw_line_list_order (GListStore *list, const RwLines *lines, GCompareDataFunc compare, gpointer data)
{
  g_autoptr (GPtrArray) before = rw_row_store_rows (list);
  g_autoptr (GPtrArray) rows = next_rows (before, lines, NULL, TRUE);

  for (guint i = 0; i < rows->len; i++)
    row_set (rows->pdata[i], rw_lines_get (lines, ((RwLineRow *) rows->pdata[i])->next));
  g_ptr_array_sort_with_data (rows, compare_rows, &(Order){ compare, data });
  rw_row_store_show (list, rows);
}

GHashTable *
rw_line_list_index (GListModel *rows)
{
  GHashTable *table = g_hash_table_new (place_hash, place_equal);

  for (guint i = 0; i < g_list_model_get_n_items (rows); i++)
    {
      g_autoptr (RwLineRow) row = g_list_model_get_item (rows, i);
      g_hash_table_insert (table, &row->line, GUINT_TO_POINTER (i));
    }
  return table;
}

int
rw_line_list_find (GListModel *rows, const RwLine *line)
{
  for (guint i = 0; i < g_list_model_get_n_items (rows); i++)
    {
      g_autoptr (RwLineRow) row = g_list_model_get_item (rows, i);
      if (same_place (&row->line, line))
        return (int) i;
    }
  return -1;
}
