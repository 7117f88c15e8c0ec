/* SPDX-License-Identifier: MIT */
#include "rw-port-list.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-edit.h>
#include <rig/rw-error.h>

static gboolean
parse_one (const char *text, int *vlan, GError **error)
{
  const RwField *field = &rw_device_table.fields[RW_DEVICE_PORT_VLANS];
  gint64 number;

  if (g_ascii_string_to_signed (text, 10, (gint64) field->min, (gint64) field->max, &number, NULL))
    {
      *vlan = (int) number;
      return TRUE;
    }
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE,
               /* Translators: %d are the lowest and highest VLAN number. */
               _("A VLAN is a number from %d to %d; several are parted by commas"), (int) field->min,
               (int) field->max);
  return FALSE;
}

GVariant *
rw_vlans_parse (const char *text, gboolean tagged, GError **error)
{
  g_auto (GStrv) words = g_strsplit (text, ",", -1);
  g_autoptr (GArray) vlans = g_array_new (FALSE, FALSE, sizeof (int));

  for (guint i = 0; words[i] != NULL; i++)
    {
      int vlan;
      if (*g_strstrip (words[i]) == '\0')
        continue;
      if (!parse_one (words[i], &vlan, error))
        return NULL;
      g_array_append_val (vlans, vlan);
    }
  if (vlans->len == 0)
    return NULL;
  if (tagged || vlans->len > 1)
    return g_variant_ref_sink (
      g_variant_new_fixed_array (G_VARIANT_TYPE_INT32, vlans->data, vlans->len, sizeof (int)));
  return g_variant_ref_sink (g_variant_new_int32 (g_array_index (vlans, int, 0)));
}

char *
rw_vlans_format (const RwPortVlans *vlans)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; vlans != NULL && i < vlans->n; i++)
    g_string_append_printf (text, i > 0 ? ", %d" : "%d", vlans->vlans[i]);
  return g_string_free (text, FALSE);
}

static GVariant *
vlans_with (const RwDevice *device, const char *port, GVariant *value)
{
  g_autoptr (GVariantBuilder) builder = g_variant_builder_new (G_VARIANT_TYPE_VARDICT);
  g_autoptr (GVariant) old = rw_item_get (device, RW_DEVICE_PORT_VLANS);
  gboolean written = value == NULL;
  guint n = 0;
  GVariantIter iter;
  const char *name;
  GVariant *one;

  if (old != NULL)
    {
      g_variant_iter_init (&iter, old);
      while (g_variant_iter_next (&iter, "{&sv}", &name, &one))
        {
          g_autoptr (GVariant) held = one;
          gboolean wanted = g_str_equal (name, port);
          if (wanted && value == NULL)
            continue;
          g_variant_builder_add (builder, "{sv}", name, wanted ? value : held);
          written |= wanted;
          n++;
        }
    }
  if (!written)
    g_variant_builder_add (builder, "{sv}", port, value);
  return n > 0 || !written ? g_variant_builder_end (builder) : NULL;
}

RwChange *
rw_vlans_change (const RwRig *rig, const char *device, const char *port, GVariant *value, GError **error)
{
  const RwDevice *item = rw_rig_device (rig, device);
  g_autofree char *name = NULL;
  g_autoptr (RwEdit) edit = NULL;

  g_return_val_if_fail (item != NULL, NULL);
  /* Translators: reads after “Undo”; %s is the name of a port. */
  name = g_strdup_printf (_("Set VLANs of %s"), port);
  edit = rw_edit_new (rig, name);
  if (!rw_edit_set (edit, device, RW_DEVICE_PORT_VLANS, vlans_with (item, port, value), error))
    return NULL;
  return rw_edit_finish (g_steal_pointer (&edit));
}
