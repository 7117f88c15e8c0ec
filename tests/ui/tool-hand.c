/* SPDX-License-Identifier: MIT */
#include "tool-hand.h"

#include "rig-builder.h"

RwDocument *
hand_document (const char *rig_text)
{
  g_autoptr (RwRig) rig = rw_test_rig (rig_text);

  return rw_document_new_for_rig (rig);
}

RwPoint
hand_device (RwDocument *document, const char *device)
{
  guint index = rw_net_find_device (rw_document_net (document), device);
  const RwRect *box;

  g_assert_cmpuint (index, !=, RW_NONE);
  box = &rw_scene_device (rw_document_scene (document), index)->box;
  return (RwPoint) { box->x + box->w / 2, box->y + box->h / 2 };
}

RwPoint
hand_port (RwDocument *document, const char *device, const char *port)
{
  guint index = rw_net_find_port (rw_document_net (document), device, port);
  const RwRect *tab;

  g_assert_cmpuint (index, !=, RW_NONE);
  tab = &rw_scene_port (rw_document_scene (document), index)->tab;
  return (RwPoint) { tab->x + tab->w / 2, tab->y + tab->h / 2 };
}

RwToolPoint
hand_at (RwPoint at, RwToolMods mods)
{
  return (RwToolPoint) { .at = at, .mods = mods, .slack_mm = 1.5, .presses = 1 };
}

void
hand_press (RwTool *tool, RwPoint at, RwToolMods mods)
{
  RwToolPoint point = hand_at (at, mods);

  g_assert_true (rw_tool_begin (tool, &point));
}

void
hand_move (RwTool *tool, RwPoint at, RwToolMods mods)
{
  RwToolPoint point = hand_at (at, mods);

  rw_tool_motion (tool, &point);
}

static gboolean
carry_out (RwTool *tool, RwChange *change)
{
  g_autoptr (GError) error = NULL;

  if (change == NULL)
    return FALSE;
  rw_document_do (tool->document, change, &error);
  g_assert_no_error (error);
  rw_change_unref (change);
  return TRUE;
}

gboolean
hand_release (RwTool *tool, RwPoint at, RwToolMods mods)
{
  RwToolPoint point = hand_at (at, mods);

  return carry_out (tool, rw_tool_end (tool, &point));
}

gboolean
hand_key (RwTool *tool, RwToolKey key)
{
  RwChange *change;

  g_assert_true (rw_tool_key (tool, key, 0, &change));
  return carry_out (tool, change);
}

guint
hand_count (RwDocument *document, RwItemType type)
{
  return rw_rig_n (rw_document_rig (document), type);
}

guint
hand_findings (RwDocument *document, const char *code)
{
  const RwFindings *findings = rw_document_findings (document);
  guint n = 0;

  for (guint i = 0; i < rw_findings_n (findings); i++)
    n += g_str_equal (rw_findings_get (findings, i)->rule->code, code);
  return n;
}
