/* SPDX-License-Identifier: MIT */
/*
 * The sheet for assistive technology: each selected or visible device is a child widget that draws nothing and takes
 * no input, but has a name, a place, a state and what is wrong with it.
 */
#include "rw-canvas-private.h"

#include <glib/gi18n-lib.h>

#define MAX_EXPOSED 200
#define SETTLE_MS 150 /* after the last change: not at each step of a pan */

#define RW_TYPE_CANVAS_ITEM (rw_canvas_item_get_type ())
G_DECLARE_FINAL_TYPE (RwCanvasItem, rw_canvas_item, RW, CANVAS_ITEM, GtkWidget)

struct _RwCanvasItem
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (RwCanvasItem, rw_canvas_item, GTK_TYPE_WIDGET)

static void
rw_canvas_item_class_init (RwCanvasItemClass *klass)
{
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_LIST_ITEM);
}

static void
rw_canvas_item_init (RwCanvasItem *item)
{
  gtk_widget_set_can_target (GTK_WIDGET (item), FALSE);
  gtk_widget_set_can_focus (GTK_WIDGET (item), FALSE);
}

/* "Stage left, Rack 16×8": and what the findings say of it, one after the other. */
static char *
description_of (RwCanvas *self, const RwDevice *device)
{
  const RwFindings *findings = rw_document_findings (self->document);
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rw_findings_n (findings); i++)
    {
      const RwFinding *finding = rw_findings_get (findings, i);

      if (!g_strv_contains ((const char *const *) finding->devices, rw_item_key (device)))
        continue;
      if (text->len > 0)
        g_string_append_c (text, '\n');
      g_string_append (text, finding->message);
    }
  return g_string_free (text, FALSE);
}

static void
describe (RwCanvas *self, GtkWidget *child, guint index)
{
  const RwNetDevice *device = &rw_document_net (self->document)->devices[index];
  /* Translators: a device and its part, read aloud: “Stage left, Rack 16×8” */
  g_autofree char *label = g_strdup_printf (_("%s, %s"), rw_device_title (device->device), device->part->name);
  g_autofree char *description = description_of (self, device->device);
  gboolean selected = rw_selection_has (rw_document_selection (self->document), rw_item_key (device->device));
  RwRect px = rw_canvas_rect_px (self, rw_scene_device (rw_document_scene (self->document), index)->box);

  gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description, -1);
  gtk_accessible_update_state (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_STATE_SELECTED, selected, -1);
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
  gtk_widget_size_allocate (child, &(GtkAllocation) { px.x, px.y, MAX (px.w, 1), MAX (px.h, 1) }, -1);
}

static gboolean
is_exposable (RwCanvas *self, guint index)
{
  RwRect px = rw_canvas_rect_px (self, rw_scene_device (rw_document_scene (self->document), index)->box);

  return px.x < gtk_widget_get_width (GTK_WIDGET (self)) && px.x + px.w > 0
         && px.y < gtk_widget_get_height (GTK_WIDGET (self)) && px.y + px.h > 0;
}

static void
expose_device (RwCanvas *self, GHashTable *wanted, guint index)
{
  const char *key = rw_item_key (rw_document_net (self->document)->devices[index].device);
  gpointer own_key, child;

  if (g_hash_table_size (wanted) >= MAX_EXPOSED || g_hash_table_contains (wanted, key))
    return;
  if (!g_hash_table_steal_extended (self->exposed, key, &own_key, &child))
    {
      own_key = g_strdup (key);
      child = g_object_new (RW_TYPE_CANVAS_ITEM, NULL);
      gtk_widget_set_parent (child, GTK_WIDGET (self));
    }
  describe (self, child, index);
  g_hash_table_insert (wanted, own_key, child);
}

static GHashTable *
new_exposed (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) gtk_widget_unparent);
}

/* First what is selected, then what is seen; the rest goes. */
static void
expose_all (RwCanvas *self)
{
  GHashTable *wanted = new_exposed ();
  RwRig *rig = rw_document_rig (self->document);
  const RwNet *net = rw_document_net (self->document);
  g_autofree const char **selected = rw_selection_keys (rw_document_selection (self->document), rig, RW_ITEM_DEVICE);

  if (self->exposed == NULL)
    self->exposed = new_exposed ();
  for (guint i = 0; selected[i] != NULL; i++)
    expose_device (self, wanted, rw_net_find_device (net, selected[i]));
  for (guint i = 0; i < net->n_devices; i++)
    if (is_exposable (self, i))
      expose_device (self, wanted, i);
  g_hash_table_unref (self->exposed);
  self->exposed = wanted;
}

static gboolean
expose_cb (gpointer canvas)
{
  RwCanvas *self = canvas;

  self->expose_source = 0;
  if (self->document != NULL && self->working == NULL)
    expose_all (self);
  return G_SOURCE_REMOVE;
}

void
rw_canvas_access_changed (RwCanvas *self)
{
  if (self->expose_source != 0)
    g_source_remove (self->expose_source);
  self->expose_source = g_timeout_add (SETTLE_MS, expose_cb, self);
}

void
rw_canvas_access_clear (RwCanvas *self)
{
  if (self->expose_source != 0)
    g_source_remove (self->expose_source);
  self->expose_source = 0;
  g_clear_pointer (&self->exposed, g_hash_table_unref);
}
