/* SPDX-License-Identifier: MIT */
/* A part from the shelf, as a ghost under the hand until it is let go. */
#include "rw-snap.h"
#include "rw-tool-private.h"

typedef struct
{
  RwTool tool;
  RwPart *part;   /* (nullable) */
  GArray *others; /* boxes to snap to; made when the ghost first shows */
} RwToolPlace;

static void
place_forget (RwToolPlace *self)
{
  g_clear_pointer (&self->others, g_array_unref);
}

/* The hand holds the ghost by its middle. */
static RwPoint
snapped_spot (RwToolPlace *self, const RwToolPoint *point, GArray *guides)
{
  RwRect size = rw_scene_part_box (self->part, self->part->name);
  RwPoint at = { point->at.x - size.w / 2, point->at.y - size.h / 2 };
  RwPoint shift;

  if (point->mods & RW_TOOL_MOD_ALT)
    return at;
  if (self->others == NULL)
    self->others = rw_snap_boxes (rw_document_scene (self->tool.document), NULL, 0);
  shift = rw_snap_box (self->others, (RwRect) { at.x, at.y, size.w, size.h }, guides);
  return (RwPoint) { at.x + shift.x, at.y + shift.y };
}

/* Never over another device, which would lie there unseen: the ghost shows where it goes instead. */
static RwPoint
place_spot (RwToolPlace *self, const RwToolPoint *point, GArray *guides)
{
  RwPoint at = snapped_spot (self, point, guides);
  RwPoint clear = rw_document_clear_spot (self->tool.document, self->part, at);

  if (guides != NULL && (clear.x != at.x || clear.y != at.y))
    g_array_set_size (guides, 0);
  return clear;
}

static void
place_show (RwTool *tool, const RwToolPoint *point)
{
  RwToolPlace *self = (RwToolPlace *) tool;

  if (self->part == NULL)
    return;
  g_array_set_size (tool->overlay.guides, 0);
  tool->overlay.ghost_at = place_spot (self, point, tool->overlay.guides);
  if (tool->overlay.ghost == NULL)
    {
      tool->overlay.ghost = self->part;
      tool->overlay.ghost_name = g_strdup (self->part->name);
    }
}

static gboolean
place_begin (RwTool *tool, const RwToolPoint *point)
{
  RwToolPlace *self = (RwToolPlace *) tool;

  if (self->part == NULL)
    return FALSE;
  place_forget (self);
  place_show (tool, point);
  return TRUE;
}

static RwChange *
place_end (RwTool *tool, const RwToolPoint *point)
{
  RwToolPlace *self = (RwToolPlace *) tool;
  RwPoint at = place_spot (self, point, NULL);
  g_autofree char *id = NULL;
  RwChange *change = rw_document_place (tool->document, self->part, at, &id);

  place_forget (self);
  return change;
}

static void
place_cancel (RwTool *tool)
{
  place_forget ((RwToolPlace *) tool);
}

static void
place_clear (RwTool *tool)
{
  RwToolPlace *self = (RwToolPlace *) tool;

  place_forget (self);
  g_clear_pointer (&self->part, rw_item_unref);
}

const RwToolClass rw_tool_place_class = {
  .name = "place",
  .size = sizeof (RwToolPlace),
  .begin = place_begin,
  .motion = place_show,
  .end = place_end,
  .cancel = place_cancel,
  .clear = place_clear,
};

/**
 * rw_tool_place_set_part:
 * @part: (nullable): what the next begin puts under the hand
 */
void
rw_tool_place_set_part (RwTool *tool, const RwPart *part)
{
  RwToolPlace *self = (RwToolPlace *) tool;

  g_return_if_fail (tool->klass == &rw_tool_place_class);
  if (part != NULL)
    rw_item_ref ((gpointer) part);
  if (self->part != NULL)
    rw_item_unref (self->part);
  self->part = (RwPart *) part;
}
