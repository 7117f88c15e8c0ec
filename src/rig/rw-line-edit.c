/* SPDX-License-Identifier: MIT */
/* Many cells of a line list become one change. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-edit.h"
#include "rw-line-target.h"

/* The fields that say whose channel it is; the others are what is known of it. */
#define WHOSE_FIELDS ((1u << RW_CHANNEL_DEVICE) | (1u << RW_CHANNEL_SIDE) | (1u << RW_CHANNEL_NUMBER))

typedef struct
{
  RwLine before, target;
  guint row;
  gboolean removed;                    /* not one of the list's rows */
  guint filled;                        /* bit by RwLineColumn: the cell was typed in */
  GVariant *values[RW_LINE_N_COLUMNS]; /* (nullable): NULL of a filled cell = absent */
  gboolean lifted;                     /* what is known of it goes with it to another place */
} Op;

struct _RwLineEdit
{
  RwLineDesk desk;
  char *name;
  GPtrArray *ops;       /* of Op */
  gboolean counted;     /* the next three are made when something goes to another place */
  GHashTable *row_uses; /* key of a patch or inside row → number of lines that it makes */
  GHashTable *about_uses;
  GHashTable *ends;     /* ends of the rows that are there: none is made twice */
  guint last_id;
};

static void
op_free (gpointer data)
{
  Op *op = data;

  rw_line_clear (&op->before);
  rw_line_clear (&op->target);
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    g_clear_pointer (&op->values[i], g_variant_unref);
  g_free (op);
}

static int
count (GHashTable *uses, const char *key, int by)
{
  int n = GPOINTER_TO_INT (g_hash_table_lookup (uses, key)) + by;

  g_hash_table_insert (uses, g_strdup (key), GINT_TO_POINTER (n));
  return n;
}

static gboolean
wants_patch (const RwLine *line)
{
  return line->stage != NULL && line->console != NULL && !line->own && line->has_channel;
}

static gboolean
wants_inside (const RwLine *line)
{
  return line->has_strip && (line->own || line->has_channel);
}

static char *
patch_ends (const RwLine *line)
{
  return g_strdup_printf ("p/%s/%d/%s/%d", rw_item_key (line->stage), line->socket, rw_item_key (line->console),
                          line->channel);
}

static char *
inside_ends (const RwLine *line)
{
  return g_strdup_printf ("i/%s/%d/%d/%d", rw_item_key (line->console), line->own,
                          line->own ? line->socket : line->channel, line->strip);
}

static void
count_line (RwLineEdit *edit, const RwLine *line)
{
  g_autofree char *about = rw_line_about_key (line);

  count (edit->about_uses, about, 1);
  if (line->patch != NULL)
    {
      count (edit->row_uses, rw_item_key (line->patch), 1);
      g_hash_table_add (edit->ends, patch_ends (line));
    }
  if (line->inside != NULL)
    {
      count (edit->row_uses, rw_item_key (line->inside), 1);
      g_hash_table_add (edit->ends, inside_ends (line));
    }
}

static void
count_lines (RwLineEdit *edit)
{
  const RwLines *lines = rw_line_desk_lines (&edit->desk);

  for (guint i = 0; i < rw_lines_n (lines) && !edit->counted; i++)
    count_line (edit, rw_lines_get (lines, i));
  edit->counted = TRUE;
}

/**
 * rw_line_edit_new:
 * @rig: must not change until the edit is finished
 * @side: of all lines of this edit
 * @name: what a person would undo
 *
 * Returns: (transfer full): an edit; end it with rw_line_edit_finish() or rw_line_edit_free()
 */
RwLineEdit *
rw_line_edit_new (const RwRig *rig, RwLineSide side, const char *name)
{
  RwLineEdit *edit = g_new0 (RwLineEdit, 1);

  rw_line_desk_init (&edit->desk, rig, side);
  edit->name = g_strdup (name);
  edit->ops = g_ptr_array_new_with_free_func (op_free);
  edit->row_uses = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  edit->about_uses = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  edit->ends = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  return edit;
}

void
rw_line_edit_free (RwLineEdit *edit)
{
  rw_line_desk_clear (&edit->desk);
  g_free (edit->name);
  g_ptr_array_unref (edit->ops);
  g_hash_table_unref (edit->row_uses);
  g_hash_table_unref (edit->about_uses);
  g_hash_table_unref (edit->ends);
  g_free (edit);
}

static Op *
op_new (RwLineEdit *edit, const RwLine *line)
{
  Op *op = g_new0 (Op, 1);

  if (line != NULL)
    rw_line_copy (&op->before, line);
  op->before.side = edit->desk.side;
  rw_line_copy (&op->target, &op->before);
  g_ptr_array_add (edit->ops, op);
  return op;
}

static void
read_values (RwLineEdit *edit, guint row, Op *op, const char *const *cells)
{
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    {
      g_autoptr (GError) error = NULL;

      if (cells[i] == NULL || rw_line_column_field (i) < 0)
        continue;
      if (rw_line_read_value (i, cells[i], &op->values[i], &error))
        op->filled |= 1u << i;
      else
        rw_line_desk_problem (&edit->desk, row, i, cells[i], error->message);
    }
}

/* A console's own input is no channel of the file: only the strip that it goes to can hold a name. */
static void
check_holds (RwLineEdit *edit, guint row, Op *op, const char *const *cells)
{
  g_autofree char *key = rw_line_about_key (&op->target);

  for (guint i = 0; *key == '\0' && i < RW_LINE_N_COLUMNS; i++)
    if (op->values[i] != NULL)
      rw_line_desk_problem (&edit->desk, row, i, cells[i], _("is kept with the strip: fill that in first"));
}

/**
 * rw_line_edit_set:
 * @edit: an edit
 * @row: which row of the list it is: what problems name
 * @line: (nullable): the line as it is in the rig; %NULL = a new one
 * @cells: (array fixed-size=RW_LINE_N_COLUMNS): what was typed; %NULL = that cell stays, "" = empty it
 *
 * Devices are known by their name or id. A new input of which only the receive or the strip is told is the line that ends
 * there, if there is one. What a line needs and nobody typed is chosen: the next free socket of the
 * device, the next free channel of the console, the only console. A cell that cannot be taken becomes a problem; where
 * it says where the line goes, so do the others that do: the line stays where it is, a new one is left out.
 */
void
rw_line_edit_set (RwLineEdit *edit, guint row, const RwLine *line, const char *const *cells)
{
  Op *op = op_new (edit, line);
  GPtrArray *problems = edit->desk.problems;
  guint first = problems->len, first_where;

  op->row = row;
  read_values (edit, row, op, cells);
  first_where = problems->len;
  if (!rw_line_desk_aim (&edit->desk, row, &op->before, cells, &op->target))
    {
      if (op->before.stage == NULL && op->before.console == NULL)
        {
          rw_line_desk_leave_out (&edit->desk, first, first_where, cells);
          g_ptr_array_remove_index (edit->ops, edit->ops->len - 1);
          return;
        }
      rw_line_desk_tell_stuck (&edit->desk, row, first_where, &op->before, cells);
    }
  check_holds (edit, row, op, cells);
  for (guint i = first; i < problems->len; i++)
    rw_line_copy (&((RwLineProblem *) problems->pdata[i])->line, &op->target);
}

/* Takes the line out of both layers; where it is in none, forgets what is known of it. */
void
rw_line_edit_remove (RwLineEdit *edit, const RwLine *line)
{
  Op *op = op_new (edit, line);

  op->removed = TRUE;
  if (line->patch != NULL || line->inside != NULL)
    {
      rw_line_desk_cut (&op->target);
      return;
    }
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    if (rw_line_column_field (i) >= 0)
      op->filled |= 1u << i;
}

guint
rw_line_edit_n (const RwLineEdit *edit)
{
  return edit->ops->len;
}

const RwLine *
rw_line_edit_get (const RwLineEdit *edit, guint index, guint *row)
{
  const Op *op = g_ptr_array_index (edit->ops, index);

  *row = op->row;
  return op->removed ? NULL : &op->target;
}

/* --- The rows --- */

static gboolean
same_text (char *a, char *b)
{
  g_autofree char *x = a;
  g_autofree char *y = b;

  return g_str_equal (x, y);
}

static gboolean
patch_stays (const Op *op)
{
  return wants_patch (&op->target) && same_text (patch_ends (&op->before), patch_ends (&op->target));
}

static gboolean
inside_stays (const Op *op)
{
  return wants_inside (&op->target) && same_text (inside_ends (&op->before), inside_ends (&op->target));
}

/* Ends that are given up are free for the other lines of this edit. */
static void
give_up_ends (RwLineEdit *edit, const Op *op)
{
  if (op->before.patch != NULL && !patch_stays (op))
    {
      g_autofree char *ends = patch_ends (&op->before);
      count_lines (edit);
      g_hash_table_remove (edit->ends, ends);
    }
  if (op->before.inside != NULL && !inside_stays (op))
    {
      g_autofree char *ends = inside_ends (&op->before);
      count_lines (edit);
      g_hash_table_remove (edit->ends, ends);
    }
}

static char *
fresh_id (RwLineEdit *edit, RwEdit *rows)
{
  for (;;)
    {
      char *id = g_strdup_printf ("line-%u", ++edit->last_id);
      if (rw_edit_find (rows, id) == NULL && rw_rig_find (edit->desk.rig, id) == NULL)
        return id;
      g_free (id);
    }
}

static void
put_row (RwLineEdit *edit, RwEdit *rows, RwItemType type, gconstpointer present, const guint *fields, GVariant **values,
         guint n)
{
  RwItem *row = present != NULL ? rw_item_dup (present) : rw_item_new (type);
  g_autofree char *id = present != NULL ? NULL : fresh_id (edit, rows);

  if (present == NULL)
    rw_record_set (row, rw_item_type_table (type), 0, g_variant_new_string (id), NULL);
  for (guint i = 0; i < n; i++)
    rw_record_set (row, rw_item_type_table (type), fields[i], values[i], NULL);
  rw_edit_put (rows, rw_item_seal (row));
}

static void
put_patch (RwLineEdit *edit, RwEdit *rows, const RwPatchRow *present, const RwLine *line)
{
  gboolean input = line->side == RW_LINE_INPUT;
  static const guint fields[] = { RW_PATCH_FROM, RW_PATCH_TO };
  GVariant *stage = g_variant_new ("(si)", rw_item_key (line->stage), line->socket);
  GVariant *console = g_variant_new ("(si)", rw_item_key (line->console), line->channel);

  put_row (edit, rows, RW_ITEM_PATCH, present, fields,
           (GVariant *[]) { input ? stage : console, input ? console : stage }, 2);
}

static void
put_inside (RwLineEdit *edit, RwEdit *rows, const RwInsideRow *present, const RwLine *line)
{
  gboolean input = line->side == RW_LINE_INPUT;
  static const guint fields[] = { RW_INSIDE_DEVICE, RW_INSIDE_FROM, RW_INSIDE_TO };
  const char *word = line->own ? "local" : input ? "receive" : "send";
  GVariant *outer = g_variant_new ("(si)", word, line->own ? line->socket : line->channel);
  GVariant *inner = g_variant_new ("(si)", input ? "strip" : "bus", line->strip);

  put_row (edit, rows, RW_ITEM_INSIDE, present, fields,
           (GVariant *[]) { g_variant_new_string (rw_item_key (line->console)), input ? outer : inner,
                            input ? inner : outer },
           3);
}

/* One line less needs the row; the last one takes it away. */
static void
release (RwLineEdit *edit, RwEdit *rows, gconstpointer row)
{
  if (row != NULL && count (edit->row_uses, rw_item_key (row), -1) == 0)
    rw_edit_remove (rows, rw_item_key (row));
}

/* A row that other lines need, too, may change only at the end that they share with this line. */
static gboolean
is_shared (RwLineEdit *edit, gconstpointer row)
{
  return count (edit->row_uses, rw_item_key (row), 0) > 1;
}

static gboolean
console_end_moves (const Op *op)
{
  return op->before.console != op->target.console || op->before.own != op->target.own
         || op->before.channel != op->target.channel;
}

typedef void (*PutFunc) (RwLineEdit *edit, RwEdit *rows, gconstpointer present, const RwLine *line);

static void
write_row (RwLineEdit *edit, RwEdit *rows, const Op *op, gconstpointer row, gboolean wanted, char *ends, PutFunc put)
{
  g_autofree char *owned = ends;

  if (row != NULL || wanted)
    count_lines (edit);
  if (row != NULL && wanted && !(is_shared (edit, row) && console_end_moves (op)))
    {
      g_hash_table_add (edit->ends, g_steal_pointer (&owned));
      put (edit, rows, row, &op->target);
      return;
    }
  release (edit, rows, row);
  if (wanted && g_hash_table_add (edit->ends, g_steal_pointer (&owned)))
    put (edit, rows, NULL, &op->target);
}

static void
write_rows (RwLineEdit *edit, RwEdit *rows, const Op *op)
{
  gboolean patch = wants_patch (&op->target), inside = wants_inside (&op->target);

  if (op->before.patch == NULL || !patch_stays (op))
    write_row (edit, rows, op, op->before.patch, patch, patch ? patch_ends (&op->target) : NULL, (PutFunc) put_patch);
  if (op->before.inside == NULL || !inside_stays (op))
    write_row (edit, rows, op, op->before.inside, inside, inside ? inside_ends (&op->target) : NULL,
               (PutFunc) put_inside);
}

/* --- What is known of the lines --- */

/* The channel @key names, new: "/channel/DEVICE/SIDE/NUMBER". */
static RwChannel *
channel_for (const char *key, const RwChannel *like)
{
  g_auto (GStrv) parts = g_strsplit (key, "/", -1);
  RwChannel *channel = like != NULL ? rw_item_dup (like) : rw_item_new (RW_ITEM_CHANNEL);

  rw_record_set (channel, &rw_channel_table, RW_CHANNEL_DEVICE, g_variant_new_string (parts[2]), NULL);
  rw_record_set (channel, &rw_channel_table, RW_CHANNEL_SIDE, g_variant_new_string (parts[3]), NULL);
  rw_record_set (channel, &rw_channel_table, RW_CHANNEL_NUMBER, g_variant_new_int32 (atoi (parts[4])), NULL);
  return channel;
}

/* Particulars follow their line to another place, unless other lines still need them where they are. */
static void
lift_about (RwLineEdit *edit, RwEdit *rows, Op *op)
{
  g_autofree char *from = rw_line_about_key (&op->before);
  g_autofree char *to = rw_line_about_key (&op->target);

  if (op->before.about == NULL || *to == '\0' || g_str_equal (from, to))
    return;
  op->lifted = TRUE;
  count_lines (edit);
  if (count (edit->about_uses, from, -1) <= 0 && rw_edit_find (rows, from) != NULL)
    rw_edit_remove (rows, from);
}

/* What is known of another place is not written over: then both stay where they were. */
static gboolean
put_back (RwEdit *rows, Op *op)
{
  g_autofree char *to = rw_line_about_key (&op->target);

  if (!op->lifted || rw_edit_find (rows, to) == NULL)
    return FALSE;
  op->lifted = FALSE;
  if (rw_edit_find (rows, rw_item_key (op->before.about)) == NULL)
    rw_edit_put (rows, rw_item_ref ((gpointer) op->before.about));
  return TRUE;
}

/* One that stays may be in the way of the next. */
static void
lift_all (RwLineEdit *edit, RwEdit *rows)
{
  gboolean again = TRUE;

  for (guint i = 0; i < edit->ops->len; i++)
    lift_about (edit, rows, g_ptr_array_index (edit->ops, i));
  while (again)
    {
      again = FALSE;
      for (guint i = 0; i < edit->ops->len; i++)
        again |= put_back (rows, g_ptr_array_index (edit->ops, i));
    }
}

static gboolean
says_nothing (const RwChannel *channel)
{
  return (channel->item.record.present & ~(guint64) WHOSE_FIELDS) == 0 && channel->item.record.extras == NULL;
}

static void
fill_channel (RwChannel *channel, const Op *op)
{
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    {
      if ((op->filled & (1u << i)) == 0)
        continue;
      rw_record_unset (channel, &rw_channel_table, rw_line_column_field (i));
      if (op->values[i] != NULL)
        rw_record_set (channel, &rw_channel_table, rw_line_column_field (i), op->values[i], NULL);
    }
}

static void
write_about (RwEdit *rows, const Op *op)
{
  g_autofree char *key = rw_line_about_key (&op->target);
  RwItem *present = *key != '\0' ? rw_edit_find (rows, key) : NULL;
  RwChannel *channel;

  if (*key == '\0' || (op->filled == 0 && !op->lifted))
    return;
  channel = present != NULL ? rw_item_dup (present) : channel_for (key, op->lifted ? op->before.about : NULL);
  fill_channel (channel, op);
  rw_item_seal (channel);
  if (!says_nothing (channel))
    {
      rw_edit_put (rows, channel);
      return;
    }
  rw_item_unref (channel);
  if (present != NULL)
    rw_edit_remove (rows, key);
}

static void
tell_overruled_of (RwLineEdit *edit, GHashTable *last, Op *op, const char *key)
{
  for (guint i = 0; i < RW_LINE_N_COLUMNS; i++)
    {
      g_autofree char *name = (op->filled & (1u << i)) != 0 ? g_strdup_printf ("%s/%u", key, i) : NULL;
      const Op *later = name != NULL ? g_hash_table_lookup (last, name) : NULL;

      if (name != NULL && later == NULL)
        g_hash_table_insert (last, g_steal_pointer (&name), op);
      else if (later != NULL && op->values[i] != NULL
               && (later->values[i] == NULL || !g_variant_equal (op->values[i], later->values[i])))
        {
          g_autofree char *text = rw_field_format (&rw_channel_table.fields[rw_line_column_field (i)], op->values[i]);
          RwLineProblem *problem = rw_line_desk_problem (&edit->desk, op->row, i, text,
                                                         _("gives way to a later row for the same channel"));
          rw_line_copy (&problem->line, &op->target);
        }
    }
}

/* Of several rows that say different things of one channel the last counts: what the others say is not dropped in
 * silence. */
static void
tell_overruled (RwLineEdit *edit)
{
  g_autoptr (GHashTable) last = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  if (edit->ops->len < 2)
    return;
  for (guint i = edit->ops->len; i-- > 0;)
    {
      Op *op = g_ptr_array_index (edit->ops, i);
      g_autofree char *key = rw_line_about_key (&op->target);

      if (*key != '\0')
        tell_overruled_of (edit, last, op, key);
    }
}

/**
 * rw_line_edit_finish:
 * @edit: (transfer full): an edit
 * @problems: (out) (optional) (transfer full) (element-type RwLineProblem): what was not taken, in the order of the
 *   rows and, within each, of the columns as they are shown; empty = everything was
 *
 * Returns: (transfer full): the change; it has no entries where nothing would change
 */
RwChange *
rw_line_edit_finish (RwLineEdit *edit, GPtrArray **problems)
{
  RwEdit *rows = rw_edit_new (edit->desk.rig, edit->name);

  for (guint i = 0; i < edit->ops->len; i++)
    give_up_ends (edit, g_ptr_array_index (edit->ops, i));
  for (guint i = 0; i < edit->ops->len; i++)
    write_rows (edit, rows, g_ptr_array_index (edit->ops, i));
  lift_all (edit, rows);
  for (guint i = 0; i < edit->ops->len; i++)
    write_about (rows, g_ptr_array_index (edit->ops, i));
  tell_overruled (edit);
  rw_line_desk_sort_problems (&edit->desk);
  if (problems != NULL)
    *problems = g_ptr_array_ref (edit->desk.problems);
  rw_line_edit_free (edit);
  return rw_edit_finish (rows);
}
