/* SPDX-License-Identifier: MIT */
/* What is done with the chosen cells or the whole list: by keys, by the menu of the cells, by the bar. */
#include "rw-line-view-private.h"

#include <glib/gi18n-lib.h>

static void
ask_sets (RwLineView *view)
{
  g_signal_emit_by_name (view, "sets");
}

static void
ask_import (RwLineView *view)
{
  g_signal_emit_by_name (view, "import");
}

static void
ask_export (RwLineView *view)
{
  g_signal_emit_by_name (view, "export");
}

/* Where two have the same key, the one that wants Shift, too, comes first. */
static const RwLineCommand commands[] = {
  { "lines.duplicate", N_("Duplicate line"), NULL, GDK_KEY_d, GDK_CONTROL_MASK | GDK_SHIFT_MASK, 1, FALSE, rw_line_view_duplicate },
  { "lines.fill", N_("Fill down"), N_("Put the first chosen row into those below it; numbers count up (Ctrl+D)"),
    GDK_KEY_d, GDK_CONTROL_MASK, 1, TRUE, rw_line_view_fill_down },
  { "lines.cut", N_("Cut"), NULL, GDK_KEY_x, GDK_CONTROL_MASK, 2, FALSE, rw_line_view_cut },
  { "lines.copy", N_("Copy"), NULL, GDK_KEY_c, GDK_CONTROL_MASK, 2, FALSE, rw_line_view_copy },
  { "lines.paste", N_("Paste"), NULL, GDK_KEY_v, GDK_CONTROL_MASK, 2, FALSE, rw_line_view_paste },
  { "lines.empty", N_("Empty the cells"), NULL, GDK_KEY_Delete, 0, 3, FALSE, rw_line_view_empty_cells },
  { "lines.remove", N_("Take out of the patch"), NULL, GDK_KEY_Delete, GDK_CONTROL_MASK, 3, FALSE, rw_line_view_remove_lines },
  { "lines.choose-all", NULL, NULL, GDK_KEY_a, GDK_CONTROL_MASK, 0, FALSE, rw_line_view_choose_all },
  { "lines.sets", N_("Patch sets…"), N_("Store the patch under a name, or recall one"), 0, 0, 0, TRUE, ask_sets },
  { "lines.import", N_("Import…"), N_("Read an input list from a CSV file"), 0, 0, 0, TRUE, ask_import },
  { "lines.export", N_("Export…"), N_("Write the list as a CSV file"), 0, 0, 0, TRUE, ask_export },
};

const RwLineCommand *
rw_line_view_commands (guint *n)
{
  *n = G_N_ELEMENTS (commands);
  return commands;
}

static void
activated (GtkWidget *widget, const char *action, GVariant *args)
{
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (commands[i].action, action))
      commands[i].run (RW_LINE_VIEW (widget));
}

void
rw_line_view_install_actions (GtkWidgetClass *klass)
{
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    gtk_widget_class_install_action (klass, commands[i].action, NULL, activated);
}

/* The keys that empty cells are several. */
static guint
plain_key (guint keyval, GdkModifierType state)
{
  gboolean empties = keyval == GDK_KEY_KP_Delete || keyval == GDK_KEY_BackSpace;

  return empties && (state & GDK_CONTROL_MASK) == 0 ? GDK_KEY_Delete : gdk_keyval_to_lower (keyval);
}

/* Returns: (nullable): the command that the key is; with the capitals locked, too */
static const RwLineCommand *
find_command (guint keyval, GdkModifierType state)
{
  guint key = plain_key (keyval, state);

  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (commands[i].keyval != 0 && commands[i].keyval == key
        && commands[i].state == (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | (commands[i].state & GDK_SHIFT_MASK))))
      return &commands[i];
  return NULL;
}

/* Returns: whether the key does something with the chosen cells, or chooses them all */
gboolean
rw_line_view_is_command (guint keyval, GdkModifierType state)
{
  return find_command (keyval, state) != NULL;
}

/* Returns: FALSE where the key is no command */
gboolean
rw_line_view_command (RwLineView *view, guint keyval, GdkModifierType state)
{
  const RwLineCommand *found = find_command (keyval, state);

  if (found == NULL)
    return FALSE;
  if (view->row < 0 && found->run != rw_line_view_choose_all)
    rw_line_view_show_caution (view, _("Choose a cell first")); /* until one is */
  else
    found->run (view);
  return TRUE;
}
