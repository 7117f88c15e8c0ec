/* SPDX-License-Identifier: MIT */
/* Parts and files that are dropped on the sheet, and the clipboard. */
#include "rw-canvas-private.h"

#include <glib/gi18n-lib.h>

/* --- Drops --- */

static const RwPart *
dragged_part (GtkDropTarget *target)
{
  const GValue *value = gtk_drop_target_get_value (target);

  return value != NULL && G_VALUE_HOLDS (value, RW_TYPE_DRAGGED_PART) ? g_value_get_boxed (value) : NULL;
}

/* The value comes a little after the pointer: the ghost shows from the first motion that has it. */
static void
show_ghost (RwCanvas *self, const RwPart *part, double x, double y)
{
  RwTool *place = self->tools[RW_TOOL_PLACE];
  RwToolPoint point = rw_canvas_tool_point (self, x, y, 0, 1);

  if (part == NULL)
    return;
  if (self->working != place)
    {
      rw_tool_place_set_part (place, part);
      if (!rw_tool_begin (place, &point))
        return;
      self->working = place;
    }
  rw_tool_motion (place, &point);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static GdkDragAction
drop_motion_cb (GtkDropTarget *target, double x, double y, RwCanvas *self)
{
  self->pointer = (RwPoint) { x, y };
  show_ghost (self, dragged_part (target), x, y);
  return GDK_ACTION_COPY;
}

static void
forget_ghost (RwCanvas *self)
{
  if (self->working != self->tools[RW_TOOL_PLACE])
    return;
  rw_tool_cancel (self->working);
  rw_canvas_after_tool (self);
}

static void
drop_leave_cb (GtkDropTarget *target, RwCanvas *self)
{
  forget_ghost (self);
}

static void
drop_part (RwCanvas *self, const RwPart *part, double x, double y)
{
  RwToolPoint point = rw_canvas_tool_point (self, x, y, 0, 1);
  RwChange *change;

  show_ghost (self, part, x, y);
  change = rw_tool_end (self->tools[RW_TOOL_PLACE], &point);
  rw_canvas_after_tool (self);
  rw_canvas_apply (self, change);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static gboolean
drop_cb (GtkDropTarget *target, const GValue *value, double x, double y, RwCanvas *self)
{
  if (G_VALUE_HOLDS (value, RW_TYPE_DRAGGED_PART))
    drop_part (self, g_value_get_boxed (value), x, y);
  else if (G_VALUE_HOLDS (value, GDK_TYPE_FILE_LIST))
    {
      g_autoptr (GSList) files = gdk_file_list_get_files (g_value_get_boxed (value));

      rw_canvas_emit (self, RW_CANVAS_FILES_DROPPED, files);
    }
  else
    return FALSE;
  return TRUE;
}

void
rw_canvas_drop_init (RwCanvas *self)
{
  GType types[] = { RW_TYPE_DRAGGED_PART, GDK_TYPE_FILE_LIST };
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);

  gtk_drop_target_set_gtypes (target, types, G_N_ELEMENTS (types));
  gtk_drop_target_set_preload (target, TRUE);
  g_signal_connect (target, "motion", G_CALLBACK (drop_motion_cb), self);
  g_signal_connect (target, "leave", G_CALLBACK (drop_leave_cb), self);
  g_signal_connect (target, "drop", G_CALLBACK (drop_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

void
rw_canvas_insert_part (RwCanvas *self, const RwPart *part)
{
  RwPoint middle = { gtk_widget_get_width (GTK_WIDGET (self)) / 2.0, gtk_widget_get_height (GTK_WIDGET (self)) / 2.0 };
  g_autofree char *id = NULL;

  g_return_if_fail (RW_IS_CANVAS (self) && part != NULL);
  rw_canvas_apply (self, rw_document_place (self->document, part,
                                            rw_document_free_spot (self->document, part, rw_canvas_to_sheet (self, middle)),
                                            &id));
  rw_canvas_reveal (self, id);
}

/* --- The clipboard: a rig file's text, so that it goes to other windows and to mail alike --- */

static gboolean
copy_selected (RwCanvas *self)
{
  g_autofree char *text = rw_document_copy (self->document);

  if (text == NULL)
    return FALSE;
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
  return TRUE;
}

void
rw_canvas_copy (RwCanvas *self)
{
  copy_selected (self);
}

/* What cannot be pasted again is not cut: a cable without its devices stays. */
void
rw_canvas_cut (RwCanvas *self)
{
  if (copy_selected (self))
    rw_document_delete_selected (self->document);
}

static void
paste_text (RwCanvas *self, const char *text)
{
  RwRig *rig = rw_document_rig (self->document);
  g_autofree const char **keys = NULL;

  if (!rw_document_paste (self->document, text, NULL, NULL))
    {
      /* what a reader of rig files says of it is of no use to who copied a table or a web address */
      rw_canvas_emit (self, RW_CANVAS_FAILED, _("The clipboard holds no devices"));
      return;
    }
  keys = rw_selection_keys (rw_document_selection (self->document), rig, RW_ITEM_DEVICE);
  if (keys[0] != NULL)
    rw_canvas_reveal (self, keys[0]);
}

static void
clipboard_read_cb (GObject *clipboard, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (RwCanvas) self = user_data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);

  if (text != NULL && self->document != NULL)
    paste_text (self, text);
}

void
rw_canvas_paste (RwCanvas *self)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, clipboard_read_cb,
                                 g_object_ref (self));
}
