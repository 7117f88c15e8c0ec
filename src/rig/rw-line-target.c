/* SPDX-License-Identifier: MIT */
/* Where a line shall go, by what was typed into its cells. */
#include "rw-line-target.h"

#include <errno.h>
#include <glib/gi18n-lib.h>

static char *
slot_name (const RwDevice *device, int number)
{
  return g_strdup_printf ("%s/%d", rw_item_key (device), number);
}

/* The name under which @folded is kept without its gaps: no folded text begins so. */
static char *
narrow_name (const char *folded)
{
  g_autofree char *narrow = rw_line_squeeze (folded);

  return g_strconcat ("\n", narrow, NULL);
}

static void
add_names (RwLineDesk *desk)
{
  guint n = rw_rig_n (desk->rig, RW_ITEM_DEVICE);
  RwItem *const *devices = rw_rig_items (desk->rig, RW_ITEM_DEVICE);

  desk->devices = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < n; i++)
    {
      const RwDevice *device = (const RwDevice *) devices[i];
      char *name = rw_line_fold (rw_device_title (device));
      char *narrow = narrow_name (name);
      gboolean twice = g_hash_table_contains (desk->devices, name);
      gboolean narrow_twice = g_hash_table_contains (desk->devices, narrow);

      g_hash_table_insert (desk->devices, name, twice ? NULL : (gpointer) device);
      g_hash_table_insert (desk->devices, narrow, narrow_twice ? NULL : (gpointer) device);
    }
  /* An id is good where no name says the same. */
  for (guint i = 0; i < n; i++)
    {
      char *id = rw_line_fold (devices[i]->key);
      if (g_hash_table_contains (desk->devices, id))
        g_free (id);
      else
        g_hash_table_insert (desk->devices, id, devices[i]);
    }
}

static void
take (RwLineDesk *desk, const RwLine *line)
{
  if (line->has_channel)
    g_hash_table_add (desk->channels, slot_name (line->console, line->channel));
  if (line->stage != NULL)
    g_hash_table_add (desk->sockets, slot_name (line->stage, line->socket));
}

/* What most edits never ask for is made when one does: an edit of one name looks at none of the other lines. */
void
rw_line_desk_init (RwLineDesk *desk, const RwRig *rig, RwLineSide side)
{
  *desk = (RwLineDesk){ .rig = g_object_ref ((RwRig *) rig), .side = side };
  desk->channels = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  desk->sockets = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  desk->problems = g_ptr_array_new_with_free_func ((GDestroyNotify) rw_line_problem_free);
}

void
rw_line_desk_clear (RwLineDesk *desk)
{
  g_clear_pointer (&desk->fed, g_hash_table_unref);
  g_clear_pointer (&desk->lines, rw_lines_free);
  g_clear_pointer (&desk->devices, g_hash_table_unref);
  g_hash_table_unref (desk->channels);
  g_hash_table_unref (desk->sockets);
  g_ptr_array_unref (desk->problems);
  g_object_unref ((gpointer) desk->rig);
}

/* (transfer none): the lines as the rig has them. */
const RwLines *
rw_line_desk_lines (RwLineDesk *desk)
{
  if (desk->lines == NULL)
    desk->lines = rw_lines_new (desk->rig, desk->side, FALSE);
  return desk->lines;
}

static void
take_lines (RwLineDesk *desk)
{
  const RwLines *lines = rw_line_desk_lines (desk);

  for (guint i = 0; i < rw_lines_n (lines) && !desk->lines_taken; i++)
    take (desk, rw_lines_get (lines, i));
  desk->lines_taken = TRUE;
}

/* --- The whole line --- */

typedef struct
{
  RwLineDesk *desk;
  guint row;
  const RwLine *before;
  const char *const *cells;
  RwLine t; /* the target, without references */
  gboolean has_socket;
} Aim;

static gboolean
is_given (const Aim *aim, RwLineColumn column)
{
  return aim->cells[column] != NULL;
}

static gboolean
is_filled (const Aim *aim, RwLineColumn column)
{
  return rw_line_says_something (aim->cells[column]);
}

static gboolean
is_emptied (const Aim *aim, RwLineColumn column)
{
  return is_given (aim, column) && !is_filled (aim, column);
}

static gboolean
fail (const Aim *aim, RwLineColumn column, const char *why)
{
  rw_line_desk_problem (aim->desk, aim->row, column, aim->cells[column], why);
  return FALSE;
}

/* Another cell could still help. */
static gboolean
fail_unfinished (const Aim *aim, RwLineColumn column, const char *why)
{
  rw_line_desk_problem (aim->desk, aim->row, column, aim->cells[column], why)->unfinished = TRUE;
  return FALSE;
}

static gboolean
read_device (const Aim *aim, RwLineColumn column, const RwDevice **device)
{
  g_autofree char *name = rw_line_fold (aim->cells[column]);
  g_autofree char *narrow = narrow_name (name);
  gpointer found;

  if (aim->desk->devices == NULL)
    add_names (aim->desk);
  if (!g_hash_table_lookup_extended (aim->desk->devices, name, NULL, &found)
      && !g_hash_table_lookup_extended (aim->desk->devices, narrow, NULL, &found))
    return fail (aim, column, _("is no device’s name"));
  if (found == NULL)
    return fail (aim, column, _("is the name of several devices"));
  *device = found;
  return TRUE;
}

static gboolean
read_count (const Aim *aim, RwLineColumn column, int *number)
{
  g_autofree char *text = g_strstrip (g_strdup (aim->cells[column]));
  char *end;
  gint64 n;

  errno = 0;
  n = g_ascii_strtoll (text, &end, 10);
  if (end == text || *end != '\0' || errno != 0 || n < 1 || n > G_MAXINT32)
    return fail (aim, column, _("must be a whole number from 1"));
  *number = (int) n;
  return TRUE;
}

static const char *const own_words[] = { N_("own"), "local", NULL };

static gboolean
says_own (const Aim *aim)
{
  g_autofree char *folded = is_filled (aim, RW_LINE_CHANNEL) ? rw_line_fold (aim->cells[RW_LINE_CHANNEL]) : NULL;

  return folded != NULL && rw_line_is_one_of (folded, own_words);
}

/* Takes the console's side off the line. */
void
rw_line_desk_cut (RwLine *line)
{
  gboolean keeps_strip = line->has_strip && (line->side == RW_LINE_OUTPUT || line->stage == NULL);

  if (keeps_strip)
    {
      if (line->stage != NULL)
        rw_item_unref ((gpointer) line->stage);
      line->stage = NULL;
    }
  else if (line->console != NULL && !line->own)
    {
      rw_item_unref ((gpointer) line->console);
      line->console = NULL;
    }
  line->has_strip = keeps_strip;
  line->has_channel = FALSE;
  line->own = line->own && !keeps_strip;
  line->channel = 0;
  if (!keeps_strip)
    line->strip = 0;
  else
    line->socket = 0;
}

static void
drop_console (Aim *aim)
{
  aim->t.console = NULL;
  aim->t.own = aim->t.has_channel = aim->t.has_strip = FALSE;
}

static gboolean
read_stage (Aim *aim)
{
  if (is_filled (aim, RW_LINE_STAGE))
    return read_device (aim, RW_LINE_STAGE, &aim->t.stage);
  if (is_emptied (aim, RW_LINE_STAGE) || is_emptied (aim, RW_LINE_SOCKET))
    aim->t.stage = NULL;
  return TRUE;
}

static gboolean
read_socket (Aim *aim)
{
  if (!is_filled (aim, RW_LINE_SOCKET))
    {
      aim->has_socket &= !is_given (aim, RW_LINE_SOCKET);
      return TRUE;
    }
  aim->has_socket = TRUE;
  if (!read_count (aim, RW_LINE_SOCKET, &aim->t.socket))
    return FALSE;
  return aim->t.stage != NULL || is_filled (aim, RW_LINE_STAGE)
         || fail_unfinished (aim, RW_LINE_SOCKET, _("says no device that it belongs to"));
}

static gboolean
read_console (Aim *aim)
{
  if (is_emptied (aim, RW_LINE_CONSOLE)
      || (is_emptied (aim, RW_LINE_CHANNEL) && !is_filled (aim, RW_LINE_STRIP) && !is_filled (aim, RW_LINE_CONSOLE)))
    drop_console (aim);
  if (!is_filled (aim, RW_LINE_CONSOLE))
    return TRUE;
  if (!read_device (aim, RW_LINE_CONSOLE, &aim->t.console))
    return FALSE;
  if (aim->t.console != aim->before->console)
    aim->t.has_channel = FALSE;
  if (aim->before->own && !is_given (aim, RW_LINE_STAGE))
    aim->t.stage = aim->t.console;
  return TRUE;
}

static gboolean
read_strip (Aim *aim)
{
  if (is_given (aim, RW_LINE_STRIP))
    aim->t.has_strip = is_filled (aim, RW_LINE_STRIP);
  return !is_filled (aim, RW_LINE_STRIP) || read_count (aim, RW_LINE_STRIP, &aim->t.strip);
}

static gboolean
read_channel (Aim *aim)
{
  if (is_emptied (aim, RW_LINE_CHANNEL) || says_own (aim))
    aim->t.has_channel = FALSE;
  else if (is_filled (aim, RW_LINE_CHANNEL))
    {
      if (!read_count (aim, RW_LINE_CHANNEL, &aim->t.channel))
        return FALSE;
      aim->t.has_channel = TRUE;
    }
  return TRUE;
}

static const RwDevice *
only_console (const RwRig *rig)
{
  RwItem *const *devices = rw_rig_items (rig, RW_ITEM_DEVICE);
  const RwDevice *only = NULL;

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    if (rw_device_is_console (rig, (const RwDevice *) devices[i]))
      {
        if (only != NULL)
          return NULL;
        only = (const RwDevice *) devices[i];
      }
  return only;
}

/* @device has nothing free: where @column that names it was not typed in, the first cell that says where the line goes
 * needs something of it. */
static gboolean
fail_full (const Aim *aim, RwLineColumn column, const RwDevice *device)
{
  guint n;
  const RwLineColumn *columns = rw_line_columns (aim->desk->side, &n);
  gboolean socket = column == RW_LINE_STAGE;

  for (guint i = 0; i < n && !is_filled (aim, column); i++)
    if (is_filled (aim, columns[i]) && rw_line_column_field (columns[i]) < 0)
      {
        /* Translators: %s is a device's name. */
        g_autofree char *needs = g_strdup_printf (socket ? _("needs a free socket of %s, which has none left")
                                                         : _("needs a free channel of %s, which has none left"),
                                                  rw_device_title (device));
        return fail_unfinished (aim, columns[i], needs);
      }
  return fail_unfinished (aim, column, socket ? _("has no free socket left") : _("has no free channel left"));
}

/* Which console is meant where none is named. */
static gboolean
find_console (Aim *aim)
{
  gboolean needed = aim->t.has_strip || aim->t.has_channel || says_own (aim);

  if (aim->t.console != NULL || !needed)
    return TRUE;
  if (aim->t.stage != NULL && !aim->t.has_channel && rw_device_is_console (aim->desk->rig, aim->t.stage))
    aim->t.console = aim->t.stage;
  else
    aim->t.console = only_console (aim->desk->rig);
  for (guint i = RW_LINE_CHANNEL; i <= RW_LINE_STRIP && aim->t.console == NULL; i++)
    if (is_filled (aim, i))
      fail_unfinished (aim, i, _("says no console that it belongs to"));
  return aim->t.console != NULL;
}

/* A console's receive or strip, as it ends lines. */
static char *
end_name (const RwDevice *console, gboolean strip, int number)
{
  return g_strdup_printf ("%s/%d/%d", rw_item_key (console), strip, number);
}

static void
add_end (GHashTable *fed, char *name, const RwLine *line)
{
  if (g_hash_table_contains (fed, name))
    g_free (name);
  else
    g_hash_table_insert (fed, name, (gpointer) line);
}

/* (nullable): the line that ends there by now. */
static const RwLine *
line_into (RwLineDesk *desk, const RwDevice *console, gboolean strip, int number)
{
  const RwLines *lines = rw_line_desk_lines (desk);
  g_autofree char *name = end_name (console, strip, number);

  if (desk->fed == NULL)
    {
      desk->fed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
      for (guint i = 0; i < rw_lines_n (lines); i++)
        {
          const RwLine *line = rw_lines_get (lines, i);

          if (line->has_channel)
            add_end (desk->fed, end_name (line->console, FALSE, line->channel), line);
          if (line->has_strip)
            add_end (desk->fed, end_name (line->console, TRUE, line->strip), line);
        }
    }
  return g_hash_table_lookup (desk->fed, name);
}

/* A new input of which only the end is told is the line that ends there, if there is one: its particulars belong to the
 * socket that it comes from. */
static gboolean
find_line (Aim *aim)
{
  const RwLine *line;
  gboolean fresh = aim->before->stage == NULL && aim->before->console == NULL;

  if (aim->desk->side != RW_LINE_INPUT || !fresh || aim->t.stage != NULL || aim->t.console == NULL || says_own (aim))
    return TRUE;
  line = line_into (aim->desk, aim->t.console, !aim->t.has_channel, aim->t.has_channel ? aim->t.channel : aim->t.strip);
  if (line == NULL)
    return TRUE;
  aim->t.stage = line->stage;
  aim->t.socket = line->socket;
  aim->has_socket = line->stage != NULL;
  if (!aim->t.has_strip)
    aim->t.strip = line->strip;
  aim->t.has_strip |= line->has_strip;
  aim->t.channel = line->channel;
  aim->t.has_channel = line->has_channel;
  return TRUE;
}

/* Whether it is the console's own socket. */
static gboolean
find_own (Aim *aim)
{
  gboolean moved = aim->t.stage != aim->before->stage || aim->t.console != aim->before->console;

  if (says_own (aim) && aim->t.stage == NULL)
    aim->t.stage = aim->t.console;
  if (says_own (aim) && aim->t.stage != aim->t.console)
    return fail (aim, RW_LINE_CHANNEL, _("only the console itself has its own sockets"));
  if (moved && aim->t.stage != NULL && aim->t.stage == aim->t.console && !is_given (aim, RW_LINE_CHANNEL))
    aim->t.has_channel = FALSE;
  aim->t.own = aim->t.stage != NULL && aim->t.stage == aim->t.console && !aim->t.has_channel;
  return TRUE;
}

static int
next_free (GHashTable *taken, const RwDevice *device, int n)
{
  for (int number = 1; number <= n; number++)
    {
      g_autofree char *slot = slot_name (device, number);
      if (!g_hash_table_contains (taken, slot))
        return number;
    }
  return 0;
}

static gboolean
choose_socket (Aim *aim)
{
  if (aim->t.stage == NULL || aim->has_socket)
    return TRUE;
  take_lines (aim->desk);
  aim->t.socket = next_free (aim->desk->sockets, aim->t.stage, rw_line_most (aim->desk->rig, &aim->t, RW_LINE_SOCKET));
  return aim->t.socket > 0 || fail_full (aim, RW_LINE_STAGE, aim->t.stage);
}

/* A channel of the console that already carries the same: a second strip for a send, a second listener for a bus. */
static int
shared_channel (const Aim *aim)
{
  const RwLines *lines = rw_line_desk_lines (aim->desk);

  for (guint i = 0; i < rw_lines_n (lines); i++)
    {
      const RwLine *line = rw_lines_get (lines, i);

      if (!line->has_channel || line->console != aim->t.console)
        continue;
      if (aim->desk->side == RW_LINE_INPUT ? line->stage == aim->t.stage && line->socket == aim->t.socket
                                           : aim->t.has_strip && line->has_strip && line->strip == aim->t.strip)
        return line->channel;
    }
  return 0;
}

static gboolean
choose_channel (Aim *aim)
{
  if (aim->t.stage == NULL || aim->t.console == NULL || aim->t.own || aim->t.has_channel)
    return TRUE;
  take_lines (aim->desk);
  aim->t.channel = shared_channel (aim);
  if (aim->t.channel == 0)
    aim->t.channel = next_free (aim->desk->channels, aim->t.console, rw_line_most (aim->desk->rig, &aim->t, RW_LINE_CHANNEL));
  aim->t.has_channel = aim->t.channel > 0;
  return aim->t.has_channel || fail_full (aim, RW_LINE_CONSOLE, aim->t.console);
}

/* Whether all that says where the line goes was emptied. */
static gboolean
is_cut (const Aim *aim)
{
  gboolean emptied = FALSE;

  for (guint i = RW_LINE_STAGE; i <= RW_LINE_STRIP; i++)
    {
      if (is_filled (aim, i))
        return FALSE;
      emptied |= is_emptied (aim, i);
    }
  return emptied && (aim->before->stage != NULL || aim->before->console != NULL)
         && (aim->t.stage == NULL && (aim->t.console == NULL || !aim->t.has_strip));
}

static gboolean
goes_somewhere (Aim *aim)
{
  RwLineColumn told = RW_LINE_NAME;

  if (aim->t.stage == NULL && aim->t.console == NULL)
    {
      while (told + 1 < RW_LINE_N_COLUMNS && !is_filled (aim, told))
        told++;
      return fail_unfinished (aim, is_filled (aim, told) ? told : RW_LINE_NAME, _("says neither a device nor a console"));
    }
  if (aim->t.stage == NULL && !aim->t.has_strip)
    return fail_unfinished (aim, is_filled (aim, RW_LINE_CHANNEL) ? RW_LINE_CHANNEL : RW_LINE_CONSOLE,
                            _("is no line by itself: it needs the device, the strip or the bus"));
  return TRUE;
}

static void
tidy (RwLine *t)
{
  if (t->stage == NULL)
    t->socket = 0;
  if (!t->has_channel)
    t->channel = 0;
  if (!t->has_strip)
    t->strip = 0;
  /* what is left of a console that nothing of the line reaches */
  if (!t->own && !t->has_channel && !t->has_strip)
    t->console = NULL;
}

static gboolean
says_where (const Aim *aim)
{
  for (guint i = RW_LINE_STAGE; i <= RW_LINE_STRIP; i++)
    if (is_given (aim, i))
      return TRUE;
  return aim->before->stage == NULL && aim->before->console == NULL;
}

/* All cells that say where the line goes: each that is not understood is told, not only the first. */
static gboolean
read_cells (Aim *aim)
{
  static gboolean (*const reads[]) (Aim *aim) = { read_stage, read_socket, read_console, read_strip, read_channel };
  gboolean good = TRUE;

  for (guint i = 0; i < G_N_ELEMENTS (reads); i++)
    good &= reads[i](aim);
  return good;
}

/* What was not typed is found or chosen, each by what is there before it. */
static gboolean
find_rest (Aim *aim)
{
  static gboolean (*const steps[]) (Aim *aim) = {
    find_console, find_line, find_own, choose_socket, choose_channel, goes_somewhere,
  };

  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (!steps[i](aim))
      return FALSE;
  return TRUE;
}

/**
 * rw_line_desk_aim:
 * @before: the line as it is; all zero but its side for a new one
 * @cells: as for rw_line_edit_set()
 * @target: (inout): the line as it shall be; left as it was where the answer is %FALSE
 *
 * Returns: %FALSE with a problem for each cell that is wrong in itself
 */
gboolean
rw_line_desk_aim (RwLineDesk *desk, guint row, const RwLine *before, const char *const *cells, RwLine *target)
{
  Aim aim = { desk, row, before, cells, *before, before->stage != NULL };

  if (!says_where (&aim))
    return TRUE;
  if (!read_cells (&aim))
    return FALSE;
  if (is_cut (&aim))
    {
      rw_line_desk_cut (target);
      return TRUE;
    }
  if (!find_rest (&aim))
    return FALSE;
  tidy (&aim.t);
  take (desk, &aim.t);
  rw_line_clear (target);
  rw_line_copy (target, &aim.t);
  return TRUE;
}
