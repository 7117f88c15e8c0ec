/* SPDX-License-Identifier: MIT */
/* What menus, keys and the clipboard do to what is selected: each is one step. */
#include "rw-document.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-clip.h>
#include <string.h>

#include "rw-document-names.h"

/* --- Moving --- */

/* A cable whose two ends move keeps its shape: its bends come along. */
static void
move_bends (RwEdit *edit, const RwCable *cable, double dx, double dy)
{
  GVariantBuilder bends;

  g_variant_builder_init (&bends, G_VARIANT_TYPE ("a(dd)"));
  for (guint i = 0; i < cable->bends.n; i++)
    g_variant_builder_add (&bends, "(dd)", cable->bends.points[i].x + dx, cable->bends.points[i].y + dy);
  rw_edit_set (edit, rw_item_key (cable), RW_CABLE_BENDS, g_variant_builder_end (&bends), NULL);
}

static void
move_all_bends (RwEdit *edit, GHashTable *moved, double dx, double dy)
{
  const RwRig *rig = rw_edit_rig (edit);

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    {
      const RwCable *cable = (const RwCable *) rw_rig_items (rig, RW_ITEM_CABLE)[i];

      if (cable->bends.n > 0 && g_hash_table_contains (moved, cable->from.device)
          && g_hash_table_contains (moved, cable->to.device))
        move_bends (edit, cable, dx, dy);
    }
}

RwChange *
rw_document_move (RwDocument *self, const char *const *devices, double dx, double dy, GError **error)
{
  RwRig *rig = rw_document_rig (self);
  guint n = g_strv_length ((char **) devices);
  /* Translators: stands after “Undo” in a menu; %u is a number of devices */
  g_autofree char *name = g_strdup_printf (ngettext ("Move Device", "Move %u Devices", n), n);
  g_autoptr (RwEdit) edit = rw_edit_new (rig, name);
  g_autoptr (GHashTable) moved = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < n; i++)
    {
      RwPoint from = rw_scene_place (rw_document_scene (self), rw_net_find_device (rw_document_net (self), devices[i]));
      GVariant *at = g_variant_new ("(dd)", from.x + dx, from.y + dy);

      g_hash_table_add (moved, (gpointer) devices[i]);
      if (!rw_edit_set (edit, devices[i], RW_DEVICE_AT, at, error))
        return NULL;
    }
  move_all_bends (edit, moved, dx, dy);
  return rw_edit_finish (g_steal_pointer (&edit));
}

gboolean
rw_document_nudge_selected (RwDocument *self, double dx, double dy)
{
  g_autofree const char **keys = rw_selection_keys (rw_document_selection (self), rw_document_rig (self), RW_ITEM_DEVICE);
  g_autofree char *joined = g_strjoinv (" ", (char **) keys);
  g_autofree char *run = g_strconcat ("nudge ", joined, NULL); /* of other devices: another step */
  g_autoptr (RwChange) change = NULL;

  if (keys[0] == NULL)
    return FALSE;
  change = rw_document_move (self, keys, dx, dy, NULL);
  return change != NULL && rw_document_do_merged (self, change, run, NULL);
}

/* --- Deleting and selecting --- */

static char *
delete_name (guint n_devices, guint n_cables)
{
  guint n = n_devices + n_cables;

  if (n_cables == 0)
    return g_strdup_printf (ngettext ("Delete Device", "Delete %u Devices", n), n);
  if (n_devices == 0)
    return g_strdup_printf (ngettext ("Delete Cable", "Delete %u Cables", n), n);
  return g_strdup_printf (ngettext ("Delete %u Thing", "Delete %u Things", n), n);
}

gboolean
rw_document_delete_selected (RwDocument *self)
{
  static const RwItemType types[] = { RW_ITEM_CABLE, RW_ITEM_DEVICE };
  RwRig *rig = rw_document_rig (self);
  g_autoptr (GPtrArray) keys = g_ptr_array_new ();
  g_autoptr (RwChange) change = NULL;
  g_autofree char *name = NULL;
  guint n[G_N_ELEMENTS (types)];

  for (guint t = 0; t < G_N_ELEMENTS (types); t++)
    {
      g_autofree const char **some = rw_selection_keys (rw_document_selection (self), rig, types[t]);

      n[t] = g_strv_length ((char **) some);
      for (guint i = 0; i < n[t]; i++)
        g_ptr_array_add (keys, (gpointer) some[i]);
    }
  g_ptr_array_add (keys, NULL);
  name = delete_name (n[1], n[0]);
  change = rw_clip_delete (rig, (const char *const *) keys->pdata, name);
  return rw_change_n (change) > 0 && rw_document_do (self, change, NULL);
}

void
rw_document_select_all (RwDocument *self)
{
  static const RwItemType types[] = { RW_ITEM_DEVICE, RW_ITEM_CABLE };
  RwRig *rig = rw_document_rig (self);
  g_autoptr (GPtrArray) keys = g_ptr_array_new ();

  for (guint t = 0; t < G_N_ELEMENTS (types); t++)
    for (guint i = 0; i < rw_rig_n (rig, types[t]); i++)
      g_ptr_array_add (keys, rw_item_key (rw_rig_items (rig, types[t])[i]));
  g_ptr_array_add (keys, NULL);
  rw_selection_set_all (rw_document_selection (self), (const char *const *) keys->pdata);
}

/* --- Copies --- */

/* A rig of the selected devices and what lies among them; NULL = no device is selected. */
static RwRig *
selected_clip (RwDocument *self)
{
  RwRig *rig = rw_document_rig (self);
  g_autofree const char **keys = rw_selection_keys (rw_document_selection (self), rig, RW_ITEM_DEVICE);

  return keys[0] != NULL ? rw_clip_new (rig, keys) : NULL;
}

/* Every device of @clip gets a name that @rig does not have yet. */
static void
rename_for (RwRig *clip, const RwRig *rig)
{
  g_autoptr (GHashTable) taken = rw_document_names (rig);
  RwEdit *edit = rw_edit_new (clip, "");
  g_autoptr (RwChange) change = NULL;

  for (guint i = 0; i < rw_rig_n (clip, RW_ITEM_DEVICE); i++)
    {
      RwItem *device = rw_rig_items (clip, RW_ITEM_DEVICE)[i];
      const RwPart *part = rw_rig_part_of (clip, (const RwDevice *) device);
      g_autofree char *name = rw_document_fresh_name (taken, rw_device_title ((const RwDevice *) device), part->name);

      rw_edit_set (edit, rw_item_key (device), RW_DEVICE_NAME, g_variant_new_string (name), NULL);
    }
  change = rw_edit_finish (edit);
  rw_rig_apply (clip, change, NULL);
}

static RwPoint
shift_to (const RwRig *clip, RwPoint at)
{
  RwPoint least = { G_MAXDOUBLE, G_MAXDOUBLE };

  for (guint i = 0; i < rw_rig_n (clip, RW_ITEM_DEVICE); i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (clip, RW_ITEM_DEVICE)[i];

      least.x = MIN (least.x, device->at.x);
      least.y = MIN (least.y, device->at.y);
    }
  return (RwPoint) { at.x - least.x, at.y - least.y };
}

/* @at: (nullable): where the top left of @clip goes, else where it covers nothing. */
static gboolean
paste_clip (RwDocument *self, RwRig *clip, const char *name, const RwPoint *at, GError **error)
{
  g_autoptr (GPtrArray) keys = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (RwChange) change = NULL;
  RwPoint shift;

  rw_document_settle (clip);
  rename_for (clip, rw_document_rig (self));
  shift = at != NULL ? shift_to (clip, *at) : rw_document_free_shift (self, clip);
  change = rw_clip_paste (rw_document_rig (self), clip, name, shift.x, shift.y, keys);
  if (!rw_document_do (self, change, error))
    return FALSE;
  g_ptr_array_add (keys, NULL);
  rw_selection_set_all (rw_document_selection (self), (const char *const *) keys->pdata);
  return TRUE;
}

gboolean
rw_document_duplicate_selected (RwDocument *self)
{
  g_autoptr (RwRig) clip = selected_clip (self);
  guint n = clip != NULL ? rw_rig_n (clip, RW_ITEM_DEVICE) : 0;
  g_autofree char *name = g_strdup_printf (ngettext ("Duplicate Device", "Duplicate %u Devices", n), n);

  return n > 0 && paste_clip (self, clip, name, NULL, NULL);
}

char *
rw_document_copy (RwDocument *self)
{
  g_autoptr (RwRig) clip = selected_clip (self);

  return clip != NULL ? g_string_free (rw_file_write_bytes (clip), FALSE) : NULL;
}

gboolean
rw_document_paste (RwDocument *self, const char *text, const RwPoint *at, GError **error)
{
  g_autoptr (RwRig) clip = rw_file_read_bytes (text, strlen (text), _("Clipboard"), error);
  guint n = clip != NULL ? rw_rig_n (clip, RW_ITEM_DEVICE) : 0;
  g_autofree char *name = g_strdup_printf (ngettext ("Paste Device", "Paste %u Devices", n), n);

  return clip != NULL && paste_clip (self, clip, name, n > 0 ? at : NULL, error);
}
