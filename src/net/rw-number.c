/* SPDX-License-Identifier: MIT */
#include "rw-number.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-edit.h>
#include <rig/rw-error.h>

/* I/O racks carry unit IDs; other devices where they have one already. */
static gboolean
is_unit (const RwNetDevice *device)
{
  return !device->forwards
         && (device->part->kind == RW_PART_RACK || rw_item_has (device->device, RW_DEVICE_UNIT_ID));
}

static gboolean
is_chosen (const RwNetDevice *device, const RwNumberOptions *options)
{
  return is_unit (device)
         && (options->devices == NULL || g_strv_contains (options->devices, rw_item_key (device->device)))
         && !(options->keep && rw_item_has (device->device, RW_DEVICE_UNIT_ID));
}

/* The IDs that devices keep, since they are not among the chosen. */
static GHashTable *
kept_ids (const RwNet *net, const RwNumberOptions *options)
{
  GHashTable *kept = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < net->n_devices; i++)
    {
      const RwDevice *device = net->devices[i].device;
      if (rw_item_has (device, RW_DEVICE_UNIT_ID) && !is_chosen (&net->devices[i], options))
        g_hash_table_add (kept, GINT_TO_POINTER (device->unit_id));
    }
  return kept;
}

static RwChange *
finish (RwEdit *edit, guint n)
{
  /* Translators: stands after “Undo”; %u is a number of devices */
  g_autofree char *name = g_strdup_printf (ngettext ("Number %u Unit", "Number %u Units", n), n);

  rw_edit_set_name (edit, name);
  return rw_edit_finish (edit);
}

/**
 * rw_number_units:
 * @rig: a rig
 * @net: its net
 * @options: how
 * @error: RW_RIG_ERROR_RANGE: there are more units than IDs left, or nothing to number
 *
 * Gives the units IDs in a row, past those that others keep.
 *
 * Returns: (transfer full) (nullable): the change
 */
RwChange *
rw_number_units (const RwRig *rig, const RwNet *net, const RwNumberOptions *options, GError **error)
{
  g_autoptr (GArray) order = rw_net_order (net, options->order);
  g_autoptr (GHashTable) kept = kept_ids (net, options);
  g_autoptr (RwEdit) edit = rw_edit_new (rig, "");
  int id = options->first, most = rw_rig_system (rig)->unit_id_max;
  guint n = 0;

  for (guint i = 0; i < order->len; i++)
    {
      const RwNetDevice *device = &net->devices[g_array_index (order, guint, i)];

      if (!is_chosen (device, options))
        continue;
      while (g_hash_table_contains (kept, GINT_TO_POINTER (id)))
        id++;
      if (id < 1 || id > most)
        {
          /* Translators: a number; the highest ID that the system allows */
          g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE,
                       _("Unit ID %d is none of 1 to %d: begin at another number, or number fewer units"), id, most);
          return NULL;
        }
      if (!rw_edit_set (edit, rw_item_key (device->device), RW_DEVICE_UNIT_ID, g_variant_new_int32 (id++), error))
        return NULL;
      n++;
    }
  if (n > 0)
    return finish (g_steal_pointer (&edit), n);
  g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("There is no unit to number here"));
  return NULL;
}
