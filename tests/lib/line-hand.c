/* SPDX-License-Identifier: MIT */
#include "line-hand.h"

#include <rig/rw-history.h>
#include <string.h>

#include "item-hand.h"

void
line_hand_part (RwRig *rig, const char *id, const char *kind, int sends, int receives, int strips, int own)
{
  RwItem *part = test_item_new (RW_ITEM_PART, id);

  test_item_set (part, RW_PART_KIND, g_variant_new_string (kind));
  test_item_set (part, RW_PART_SENDS, g_variant_new_int32 (sends));
  test_item_set (part, RW_PART_RECEIVES, g_variant_new_int32 (receives));
  test_item_set (part, RW_PART_STRIPS, g_variant_new_int32 (strips));
  test_item_set (part, RW_PART_BUSES, g_variant_new_int32 (strips));
  test_item_set (part, RW_PART_LOCAL_INPUTS, g_variant_new_int32 (own));
  test_item_set (part, RW_PART_LOCAL_OUTPUTS, g_variant_new_int32 (own));
  test_rig_append (rig, part);
}

void
line_hand_device (RwRig *rig, const char *id, const char *part, const char *name)
{
  RwItem *device = test_item_new (RW_ITEM_DEVICE, id);

  test_item_set (device, RW_DEVICE_PART, g_variant_new_string (part));
  test_item_set (device, RW_DEVICE_NAME, g_variant_new_string (name));
  test_rig_append (rig, device);
}

RwRig *
line_hand_rig (void)
{
  RwRig *rig = rw_rig_new ();

  line_hand_part (rig, "rack", "rack", 16, 8, 0, 0);
  line_hand_part (rig, "desk", "controller", 32, 32, 24, 4);
  line_hand_device (rig, "left", "rack", "Stage left");
  line_hand_device (rig, "right", "rack", "Stage right");
  line_hand_device (rig, "foh", "desk", "FOH");
  return rig;
}

char *
line_hand_text (const RwRig *rig, RwLineSide side, gboolean with_free)
{
  g_autoptr (RwLines) lines = rw_lines_new (rig, side, with_free);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rw_lines_n (lines); i++)
    {
      for (guint column = 0; column < RW_LINE_N_COLUMNS; column++)
        {
          g_autofree char *cell = rw_line_text (rw_lines_get (lines, i), column);
          g_string_append_printf (text, "%s|", cell);
        }
      while (text->len > 0 && text->str[text->len - 1] == '|')
        g_string_truncate (text, text->len - 1);
      g_string_append_c (text, '\n');
    }
  return g_string_free (text, FALSE);
}

void
line_hand_assert (const RwRig *rig, RwLineSide side, const char *expected)
{
  g_autofree char *text = line_hand_text (rig, side, FALSE);

  g_assert_cmpstr (text, ==, expected);
}

void
line_hand_set (RwLineEdit *edit, guint row, const RwLine *line, const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "|", -1);
  const char *cells[RW_LINE_N_COLUMNS] = { NULL };

  for (guint i = 0; parts[i] != NULL; i++)
    cells[i] = strcmp (parts[i], "~") == 0 ? NULL : parts[i];
  rw_line_edit_set (edit, row, line, cells);
}

/* Everything that a file would show of the rig. */
static gboolean
same (const RwRig *a, const RwRig *b)
{
  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    {
      if (rw_rig_n (a, t) != rw_rig_n (b, t))
        return FALSE;
      for (guint i = 0; i < rw_rig_n (a, t); i++)
        if (!rw_item_equal (rw_rig_items (a, t)[i], rw_rig_items (b, t)[i]))
          return FALSE;
    }
  return TRUE;
}

GPtrArray *
line_hand_apply (RwRig *rig, RwLineEdit *edit)
{
  g_autoptr (RwHistory) history = rw_history_new (rig);
  g_autoptr (RwRig) before = rw_rig_copy (rig);
  g_autoptr (RwRig) after = NULL;
  g_autoptr (GError) error = NULL;
  GPtrArray *problems;
  g_autoptr (RwChange) change = rw_line_edit_finish (edit, &problems);

  if (rw_change_n (change) == 0)
    return problems;
  rw_history_do (history, change, &error);
  g_assert_no_error (error);
  after = rw_rig_copy (rig);
  g_assert_true (rw_history_undo (history));
  g_assert_true (same (rig, before));
  g_assert_true (rw_history_redo (history));
  g_assert_true (same (rig, after));
  return problems;
}

void
line_hand_apply_cleanly (RwRig *rig, RwLineEdit *edit)
{
  g_autoptr (GPtrArray) problems = line_hand_apply (rig, edit);

  for (guint i = 0; i < problems->len; i++)
    {
      RwLineProblem *problem = g_ptr_array_index (problems, i);
      g_error ("row %u, column %d: “%s” %s", problem->row, problem->column, problem->text, problem->why);
    }
}

void
line_hand_add (RwRig *rig, RwLineSide side, const char *rows)
{
  g_auto (GStrv) lines = g_strsplit (rows, "\n", -1);
  RwLineEdit *edit = rw_line_edit_new (rig, side, "Add Lines");

  for (guint i = 0; lines[i] != NULL && *lines[i] != '\0'; i++)
    line_hand_set (edit, i, NULL, lines[i]);
  line_hand_apply_cleanly (rig, edit);
}

void
line_hand_type (RwRig *rig, RwLineSide side, guint index, const char *cells)
{
  g_autoptr (RwLines) lines = rw_lines_new (rig, side, FALSE);
  RwLineEdit *edit = rw_line_edit_new (rig, side, "Edit Line");

  line_hand_set (edit, 0, rw_lines_get (lines, index), cells);
  line_hand_apply_cleanly (rig, edit);
}
