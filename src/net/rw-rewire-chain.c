/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <rig/rw-error.h>

#include "rw-rewire-private.h"

static gboolean
has_both (const RwNetDevice *device)
{
  return rw_part_find_side (device->part, RW_SIDE_SECONDARY) >= 0;
}

static const RwPort *
side_port (const RwNetDevice *device, RwSide side)
{
  int port = rw_part_find_side (device->part, side);

  return rw_part_port (device->part, (guint) port);
}

/* What has one port only can but stand at an end: the first such goes to the front, the second to the back. */
static void
move_to_ends (const RwNet *net, GArray *hosts)
{
  guint ends[2], n_ends = 0, n = 0;

  for (guint i = 0; i < hosts->len; i++)
    {
      guint device = g_array_index (hosts, guint, i);
      if (has_both (&net->devices[device]) || n_ends == 2)
        g_array_index (hosts, guint, n++) = device;
      else
        ends[n_ends++] = device;
    }
  g_array_set_size (hosts, n);
  if (n_ends > 0)
    g_array_prepend_val (hosts, ends[0]);
  if (n_ends > 1)
    g_array_append_val (hosts, ends[1]);
}

static char *
list_single (const RwNet *net, const GArray *hosts)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < hosts->len; i++)
    {
      const RwNetDevice *device = &net->devices[g_array_index (hosts, guint, i)];
      if (!has_both (device))
        g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", rw_device_title (device->device));
    }
  return g_string_free (names, FALSE);
}

static gboolean
check_hosts (const RwNet *net, const GArray *hosts, GError **error)
{
  guint n_single = 0;
  g_autofree char *names = NULL;

  if (hosts->len < 2)
    {
      g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("A chain takes two devices at least"));
      return FALSE;
    }
  for (guint i = 0; i < hosts->len; i++)
    n_single += !has_both (&net->devices[g_array_index (hosts, guint, i)]);
  if (n_single <= 2)
    return TRUE;
  names = list_single (net, hosts);
  /* Translators: a list of devices */
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE,
               _("A chain has two ends, and more devices than two have one port only: %s"), names);
  return FALSE;
}

static RwWishEnd
end_of (const RwNet *net, guint device, RwSide side)
{
  const RwNetDevice *d = &net->devices[device];

  return (RwWishEnd) { rw_item_key (d->device), side_port (d, has_both (d) ? side : RW_SIDE_PRIMARY), device };
}

/**
 * rw_rewire_chain:
 * @rig: a rig
 * @net: its net
 * @cost: (out): what it takes
 * @error: RW_RIG_ERROR_RANGE: fewer than two devices, or more than two with one port only
 *
 * Makes all that plays or listens one chain in order of place on the sheet, each device's secondary port into the next
 * one's primary. Switches and converters lose their audio cables and stay on the sheet, with those cables that serve a
 * network in which nothing plays or listens, such as a VLAN for control.
 *
 * Returns: (transfer full) (nullable): the change
 */
RwChange *
rw_rewire_chain (const RwRig *rig, const RwNet *net, RwRewireCost *cost, GError **error)
{
  g_autoptr (GArray) hosts = rw_rewire_hosts (net);
  g_autoptr (GArray) wishes = g_array_new (FALSE, FALSE, sizeof (RwWish));
  RwEdit *edit;

  *cost = (RwRewireCost) { 0 };
  if (!check_hosts (net, hosts, error))
    return NULL;
  move_to_ends (net, hosts);
  edit = rw_edit_new (rig, _("Make This a Chain"));
  for (guint i = 0; i < hosts->len; i++)
    {
      guint device = g_array_index (hosts, guint, i);

      if (has_both (&net->devices[device]))
        rw_rewire_set_mode (edit, &net->devices[device], RW_MODE_CHAIN);
      if (i > 0)
        {
          RwWish wish = { { end_of (net, g_array_index (hosts, guint, i - 1), RW_SIDE_SECONDARY),
                            end_of (net, device, RW_SIDE_PRIMARY) } };
          g_array_append_val (wishes, wish);
        }
    }
  rw_rewire_apply (edit, net, wishes, cost);
  return rw_edit_finish (edit);
}
