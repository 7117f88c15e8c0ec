/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "rw-error.h"
#include "rw-rig-private.h"
#include "rw-state.h"

static gboolean
refuse (char **field, const char *where, GError **error, const char *format, ...) G_GNUC_PRINTF (4, 5);

static gboolean
refuse (char **field, const char *where, GError **error, const char *format, ...)
{
  va_list args;
  g_autofree char *message = NULL;

  va_start (args, format);
  message = g_strdup_vprintf (format, args);
  va_end (args);
  if (field != NULL)
    *field = g_strdup (where);
  g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE, message);
  return FALSE;
}

static gboolean
check_port (const RwPart *part, guint index, char **field, GError **error)
{
  const RwPort *port = rw_part_port (part, index);
  g_autofree char *where = g_strdup_printf ("ports[%u].name", index);
  g_autofree char *side = g_strdup_printf ("ports[%u].side", index);

  if (port->name == NULL || *port->name == '\0')
    return refuse (field, where, error, "a port needs a name");
  if (rw_part_find_port (part, port->name) != (int) index)
    return refuse (field, where, error, "the port “%s” is there twice", port->name);
  if ((port->side == RW_SIDE_PRIMARY || port->side == RW_SIDE_SECONDARY)
      && rw_part_find_side (part, port->side) != (int) index)
    return refuse (field, side, error, "a part has at most one primary and one secondary port");
  if (port->side == RW_SIDE_SECONDARY && rw_part_find_side (part, RW_SIDE_PRIMARY) < 0)
    return refuse (field, side, error, "a secondary port needs a primary one beside it");
  if (port->side != RW_SIDE_AUX && (port->side == RW_SIDE_NETWORK) != rw_part_forwards (part))
    return refuse (field, side, error, "“network” is for switches and converters, “primary” and “secondary” for the others");
  return TRUE;
}

static gboolean
check_part (const RwPart *part, char **field, GError **error)
{
  for (guint i = 0; i < rw_part_n_ports (part); i++)
    if (!check_port (part, i, field, error))
      return FALSE;
  return TRUE;
}

static gboolean
check_device (const RwRig *rig, const RwDevice *device, char **field, GError **error)
{
  const RwPart *part = rw_rig_part_of (rig, device);

  if (part == NULL)
    return refuse (field, "part", error, "there is no part “%s”", device->part);
  for (guint i = 0; i < device->port_vlans.n; i++)
    {
      const char *port = device->port_vlans.ports[i].port;
      g_autofree char *where = g_strdup_printf ("port_vlans.%s", port);
      if (part->kind != RW_PART_SWITCH)
        return refuse (field, "port_vlans", error, "only switches have VLANs");
      if (rw_part_find_port (part, port) < 0)
        return refuse (field, where, error, "the part “%s” has no port “%s”", device->part, port);
    }
  return TRUE;
}

static gboolean
check_end (const RwRig *rig, const RwEnd *end, const char *name, char **field, GError **error)
{
  const RwDevice *device = rw_rig_device (rig, end->device);

  if (device == NULL)
    return refuse (field, name, error, "there is no device “%s”", end->device);
  if (rw_part_find_port (rw_rig_part_of (rig, device), end->port) < 0)
    return refuse (field, name, error, "the device “%s” has no port “%s”", end->device, end->port);
  return TRUE;
}

static gboolean
check_owner (const RwRig *rig, const char *device, const char *name, char **field, GError **error)
{
  return rw_rig_device (rig, device) != NULL
         || refuse (field, name, error, "there is no device “%s”", device);
}

/* What a state holds was looked at when it was made: its rig is not this one. */
static gboolean
check_state (const RwRig *state, char **field, GError **error)
{
  return state != NULL || refuse (field, "state", error, "there is no stored state");
}

static gboolean
check_set (const RwPatchSet *set, char **field, GError **error)
{
  return check_state (set->state, field, error)
         && (set->device == NULL || check_owner (set->state, set->device, "device", field, error));
}

/**
 * rw_rig_check_item:
 * @rig: a rig
 * @item: an item in it
 * @field: (out) (optional) (transfer full): the field that is wrong, as a path inside the item
 * @error: RW_RIG_ERROR_REFERENCE
 *
 * Returns: %TRUE where the parts, devices and ports that @item names are in @rig, or in the state that it stores
 */
gboolean
rw_rig_check_item (const RwRig *rig, const RwItem *item, char **field, GError **error)
{
  const RwCable *cable = (const RwCable *) item;
  const RwPatchRow *row = (const RwPatchRow *) item;

  switch (item->type)
    {
    case RW_ITEM_SHOW:
    case RW_ITEM_SYSTEM:
      return TRUE;
    case RW_ITEM_PART:
      return check_part ((const RwPart *) item, field, error);
    case RW_ITEM_DEVICE:
      return check_device (rig, (const RwDevice *) item, field, error);
    case RW_ITEM_CABLE:
      return check_end (rig, &cable->from, "from", field, error) && check_end (rig, &cable->to, "to", field, error);
    case RW_ITEM_PATCH:
      return check_owner (rig, row->from.device, "from", field, error)
             && check_owner (rig, row->to.device, "to", field, error);
    case RW_ITEM_INSIDE:
      return check_owner (rig, ((const RwInsideRow *) item)->device, "device", field, error);
    case RW_ITEM_CHANNEL:
      return check_owner (rig, ((const RwChannel *) item)->device, "device", field, error);
    case RW_ITEM_SET:
      return check_set ((const RwPatchSet *) item, field, error);
    case RW_ITEM_REVISION:
      return check_state (((const RwRevision *) item)->state, field, error);
    }
  g_return_val_if_reached (FALSE);
}

static gboolean
check_all (const RwRig *rig, GError **error)
{
  for (guint t = 0; t < RW_N_ITEM_TYPES; t++)
    {
      RwItem *const *items = rw_rig_items (rig, t);
      for (guint i = 0; i < rw_rig_n (rig, t); i++)
        if (!rw_rig_check_item (rig, items[i], NULL, error))
          return FALSE;
    }
  return TRUE;
}

/* What others refer to went, or became something that they may no longer fit. */
static gboolean
loosens (const RwChangeEntry *entry)
{
  if (entry->before == NULL)
    return FALSE;
  if (entry->type == RW_ITEM_PART)
    return TRUE;
  return entry->type == RW_ITEM_DEVICE
         && (entry->after == NULL
             || strcmp (((RwDevice *) entry->before)->part, ((RwDevice *) entry->after)->part) != 0);
}

/* Looks at what @change touched, now that it is in @rig, and at everything where it touched what others name. */
gboolean
rw_rig_check_change (const RwRig *rig, const RwChange *change, GError **error)
{
  for (guint i = 0; i < rw_change_n (change); i++)
    if (loosens (rw_change_entry (change, i)))
      return check_all (rig, error);
  for (guint i = 0; i < rw_change_n (change); i++)
    {
      const RwChangeEntry *e = rw_change_entry (change, i);
      if (e->after != NULL && !rw_rig_check_item (rig, e->after, NULL, error))
        return FALSE;
    }
  return TRUE;
}
