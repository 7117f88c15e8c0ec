/* SPDX-License-Identifier: MIT */
#include "rw-tool-private.h"

static const RwToolClass *const classes[RW_N_TOOLS] = {
  [RW_TOOL_SELECT] = &rw_tool_select_class,
  [RW_TOOL_CABLE] = &rw_tool_cable_class,
  [RW_TOOL_THREAD] = &rw_tool_thread_class,
  [RW_TOOL_PAN] = &rw_tool_pan_class,
  [RW_TOOL_PLACE] = &rw_tool_place_class,
};

/* Moving the view is no change of the rig: the canvas does it, this only owns the press. */
const RwToolClass rw_tool_pan_class = { .name = "pan", .size = sizeof (RwTool) };

static void
loose_clear (gpointer cable)
{
  g_free (((RwLooseCable *) cable)->points);
}

static void
overlay_init (RwOverlay *overlay)
{
  overlay->moved = g_array_new (FALSE, FALSE, sizeof (guint));
  overlay->guides = g_array_new (FALSE, FALSE, sizeof (RwGuide));
  overlay->loose = g_array_new (FALSE, FALSE, sizeof (RwLooseCable));
  g_array_set_clear_func (overlay->loose, loose_clear);
  overlay->lit_ports = g_array_new (FALSE, FALSE, sizeof (guint));
  overlay->named = g_array_new (FALSE, FALSE, sizeof (guint));
  overlay->swept = g_array_new (FALSE, FALSE, sizeof (guint));
  overlay->bent_cable = RW_NONE;
  overlay->from_port = RW_NONE;
}

void
rw_overlay_clear (RwOverlay *overlay)
{
  g_array_set_size (overlay->moved, 0);
  g_array_set_size (overlay->guides, 0);
  g_array_set_size (overlay->loose, 0);
  g_array_set_size (overlay->lit_ports, 0);
  g_array_set_size (overlay->swept, 0);
  overlay->bent_cable = RW_NONE;
  overlay->from_port = RW_NONE;
  overlay->has_band = FALSE;
  overlay->dim_ports = FALSE;
  rw_overlay_unjudge (overlay);
  overlay->ghost = NULL;
  g_clear_pointer (&overlay->ghost_name, g_free);
}

void
rw_overlay_unjudge (RwOverlay *overlay)
{
  overlay->verdict = RW_VERDICT_NONE;
  g_clear_pointer (&overlay->verdict_text, g_free);
  g_clear_pointer (&overlay->brought, g_ptr_array_unref);
  g_array_set_size (overlay->named, 0);
}

static void
overlay_finish (RwOverlay *overlay)
{
  rw_overlay_clear (overlay);
  g_array_unref (overlay->moved);
  g_array_unref (overlay->guides);
  g_array_unref (overlay->loose);
  g_array_unref (overlay->lit_ports);
  g_array_unref (overlay->named);
  g_array_unref (overlay->swept);
}

void
rw_overlay_add_loose (RwOverlay *overlay, RwPoint *points, guint n, guint to_port)
{
  RwLooseCable cable = { points, n, to_port, FALSE };

  g_array_append_val (overlay->loose, cable);
}

static void
overlay_set_verdict (RwOverlay *overlay, RwVerdict verdict, const char *text)
{
  overlay->verdict = verdict;
  g_free (overlay->verdict_text);
  overlay->verdict_text = g_strdup (text);
  for (guint i = 0; i < overlay->loose->len; i++)
    g_array_index (overlay->loose, RwLooseCable, i).bad = verdict == RW_VERDICT_ERROR;
}

void
rw_overlay_refuse (RwOverlay *overlay, const char *text)
{
  g_array_set_size (overlay->named, 0);
  overlay_set_verdict (overlay, RW_VERDICT_ERROR, text);
}

void
rw_overlay_tell (RwOverlay *overlay, const char *text)
{
  overlay_set_verdict (overlay, RW_VERDICT_NOTE, text);
}

void
rw_overlay_judge (RwOverlay *overlay, RwDocument *document, RwChange *change, const char *fine)
{
  static const RwVerdict verdicts[] = {
    [RW_SEVERITY_ERROR] = RW_VERDICT_ERROR,
    [RW_SEVERITY_WARNING] = RW_VERDICT_WARNING,
    [RW_SEVERITY_NOTE] = RW_VERDICT_NOTE,
  };
  GPtrArray *brought = rw_document_preview (document, change);
  const RwFinding *worst;

  rw_overlay_unjudge (overlay);
  overlay->brought = brought;
  if (brought == NULL || brought->len == 0)
    {
      overlay_set_verdict (overlay, RW_VERDICT_FINE, fine);
      return;
    }
  worst = g_ptr_array_index (brought, 0);
  overlay_set_verdict (overlay, verdicts[worst->severity], worst->message);
  for (guint i = 0; worst->devices[i] != NULL; i++)
    {
      guint device = rw_net_find_device (rw_document_net (document), worst->devices[i]);

      if (device != RW_NONE)
        g_array_append_val (overlay->named, device);
    }
}

/**
 * rw_tool_new:
 * @kind: which tool
 * @document: what it works on; must outlive the tool
 *
 * Returns: (transfer full): a tool at rest
 */
RwTool *
rw_tool_new (RwToolKind kind, RwDocument *document)
{
  RwTool *tool;

  g_return_val_if_fail (kind < RW_N_TOOLS && RW_IS_DOCUMENT (document), NULL);
  tool = g_malloc0 (classes[kind]->size);
  tool->klass = classes[kind];
  tool->document = document;
  overlay_init (&tool->overlay);
  if (tool->klass->init != NULL)
    tool->klass->init (tool);
  return tool;
}

void
rw_tool_free (RwTool *tool)
{
  if (tool->klass->clear != NULL)
    tool->klass->clear (tool);
  overlay_finish (&tool->overlay);
  g_free (tool);
}

/**
 * rw_tool_begin:
 * @point: where the hand pressed
 *
 * Returns: %FALSE where this tool has nothing to do there; then nothing is to follow
 */
gboolean
rw_tool_begin (RwTool *tool, const RwToolPoint *point)
{
  if (tool->active)
    rw_tool_cancel (tool);
  rw_overlay_clear (&tool->overlay);
  tool->active = tool->klass->begin == NULL || tool->klass->begin (tool, point);
  return tool->active;
}

void
rw_tool_motion (RwTool *tool, const RwToolPoint *point)
{
  if (tool->active && tool->klass->motion != NULL)
    tool->klass->motion (tool, point);
}

void
rw_tool_hover (RwTool *tool, const RwToolPoint *point)
{
  if (tool->klass->hover != NULL)
    tool->klass->hover (tool, point);
}

/**
 * rw_tool_end:
 * @point: where the hand let go
 *
 * Returns: (transfer full) (nullable): the change to be done
 */
RwChange *
rw_tool_end (RwTool *tool, const RwToolPoint *point)
{
  RwChange *change = NULL;

  if (tool->active && tool->klass->end != NULL)
    change = tool->klass->end (tool, point);
  tool->active = FALSE;
  rw_overlay_clear (&tool->overlay);
  return change;
}

/**
 * rw_tool_cancel:
 *
 * Leaves document, scene and selection as they were before the tool began.
 */
void
rw_tool_cancel (RwTool *tool)
{
  if (tool->active && tool->klass->cancel != NULL)
    tool->klass->cancel (tool);
  tool->active = FALSE;
  rw_overlay_clear (&tool->overlay);
}

/**
 * rw_tool_drop:
 *
 * The rig was changed while the tool was working, by an undo for example. The scene is new and stands as the rig
 * says; the devices that the tool counted are not those of the new one.
 */
void
rw_tool_drop (RwTool *tool)
{
  if (tool->active && tool->klass->drop != NULL)
    tool->klass->drop (tool);
  else if (tool->active && tool->klass->cancel != NULL)
    tool->klass->cancel (tool);
  tool->active = FALSE;
  rw_overlay_clear (&tool->overlay);
}

/**
 * rw_tool_key:
 * @change: (out) (transfer full) (nullable): the change to be done
 *
 * Returns: %FALSE where the key means nothing to this tool now
 */
gboolean
rw_tool_key (RwTool *tool, RwToolKey key, RwToolMods mods, RwChange **change)
{
  *change = NULL;
  if (tool->active && key == RW_TOOL_KEY_ESCAPE)
    {
      rw_tool_cancel (tool);
      return TRUE;
    }
  return tool->klass->key != NULL && tool->klass->key (tool, key, mods, change);
}

const RwOverlay *
rw_tool_overlay (const RwTool *tool)
{
  return &tool->overlay;
}
