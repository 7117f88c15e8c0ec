/* SPDX-License-Identifier: MIT */
#include "rw-address-plan.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-edit.h>
#include <rig/rw-error.h>

const char *const rw_address_usual[2] = { "10.0.10.1/24", "10.0.20.1/24" };

/* One plane's subnet as it fills up. */
typedef struct
{
  RwAddress first;
  guint32 next;
  GHashTable *taken;
} Pool;

static void
pools_clear (Pool *pools)
{
  for (guint i = 0; i < 2; i++)
    g_clear_pointer (&pools[i].taken, g_hash_table_unref);
}

static guint32
subnet_last (RwAddress address)
{
  return address.host | ~rw_address_mask (address.prefix);
}

/* Neither the subnet's own number nor its broadcast address (RFC 1122 3.2.1.3). */
static gboolean
is_host (RwAddress subnet, guint32 host)
{
  return host > (subnet.host & rw_address_mask (subnet.prefix)) && host < subnet_last (subnet);
}

static gboolean
open_pool (Pool *pool, const char *text, GError **error)
{
  RwAddress *first = &pool->first;

  if (!rw_address_parse (text, first) || first->prefix == 0 || first->prefix > 30)
    /* Translators: what was typed */
    g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE, _("“%s” is no address with a subnet: write for example 10.0.10.1/24"),
                 text);
  else if (!rw_address_is_private (*first))
    /* Translators: what was typed */
    g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE,
                 _("“%s” is outside the private ranges: begin with 10., with 172.16. to 172.31., or with 192.168."), text);
  else
    {
      pool->next = MAX (first->host, (first->host & rw_address_mask (first->prefix)) + 1);
      pool->taken = g_hash_table_new (NULL, NULL);
      return TRUE;
    }
  return FALSE;
}

static gboolean
open_pools (Pool *pools, const RwAddressOptions *options, GError **error)
{
  for (guint i = 0; i < 2; i++)
    if (!open_pool (&pools[i], options->first[i], error))
      return FALSE;
  if (!rw_address_overlap (pools[0].first, pools[1].first))
    return TRUE;
  g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE,
                       _("The two planes overlap: give the secondary a subnet of its own"));
  return FALSE;
}

/* What has a host with an address of its own in that plane. Switches have none here. */
static gboolean
has_plane (const RwNetDevice *device, guint plane)
{
  return !device->forwards && rw_part_find_side (device->part, RW_SIDE_PRIMARY) >= 0
         && (plane == RW_ADDRESSES_PRIMARY || device->mode == RW_MODE_REDUNDANT);
}

static const char *
address_text (const RwNetDevice *device, guint plane)
{
  const RwAddresses *addresses = &device->device->addresses;

  return plane == RW_ADDRESSES_PRIMARY ? addresses->primary : addresses->secondary;
}

/* The subnet that most devices of a plane are in by now; of several the first in the file. FALSE = none that could hold
 * them. */
static gboolean
find_subnet (const RwNet *net, guint plane, RwAddress *subnet)
{
  g_autoptr (GHashTable) uses = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  guint most = 0;

  for (guint round = 0; round < 2; round++)
    for (guint i = 0; i < net->n_devices; i++)
      {
        const char *text = has_plane (&net->devices[i], plane) ? address_text (&net->devices[i], plane) : NULL;
        RwAddress a;
        gint64 key;
        guint n;

        if (text == NULL || !rw_address_parse (text, &a) || a.prefix == 0 || a.prefix > 30 || !rw_address_is_private (a))
          continue;
        a.host &= rw_address_mask (a.prefix);
        key = (gint64) a.host << 8 | a.prefix;
        n = GPOINTER_TO_UINT (g_hash_table_lookup (uses, &key)) + (round == 0);
        if (round == 0)
          g_hash_table_insert (uses, g_memdup2 (&key, sizeof key), GUINT_TO_POINTER (n));
        else if (n > most)
          {
            most = n;
            *subnet = a;
          }
      }
  return most > 0;
}

/* Keeps out of the other plane's way. */
static RwAddress
usual_beside (guint plane, const RwAddress *other)
{
  const char *const texts[] = { rw_address_usual[plane], "172.16.20.1/24", "192.168.20.1/24" };
  RwAddress address;

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (rw_address_parse (texts[i], &address) && (other == NULL || !rw_address_overlap (address, *other)))
      break;
  return address;
}

/**
 * rw_address_suggest:
 *
 * Returns: (transfer full): where to begin in the primary and in the secondary plane, so that what is good can stay: in
 *   the subnets that the rig has already, else in the usual ones; the two never overlap
 */
char **
rw_address_suggest (const RwNet *net)
{
  RwAddress first[2];
  gboolean found[2];
  char **texts = g_new0 (char *, 3);

  for (guint i = 0; i < 2; i++)
    {
      found[i] = find_subnet (net, i, &first[i]);
      if (found[i])
        first[i].host++;
    }
  if (!found[0])
    first[0] = usual_beside (RW_ADDRESSES_PRIMARY, found[1] ? &first[1] : NULL);
  if (!found[1] || rw_address_overlap (first[0], first[1]))
    first[1] = usual_beside (RW_ADDRESSES_SECONDARY, &first[0]);
  for (guint i = 0; i < 2; i++)
    texts[i] = rw_address_format (first[i]);
  return texts;
}

/* Keeps a good address of a device; @kept: (array by device). */
static void
keep_address (Pool *pool, const RwNetDevice *device, guint plane, gboolean *kept)
{
  const char *text = address_text (device, plane);
  RwAddress address;

  *kept = text != NULL && rw_address_parse (text, &address) && address.prefix == pool->first.prefix
          && rw_address_overlap (address, pool->first) && is_host (pool->first, address.host)
          && g_hash_table_add (pool->taken, GUINT_TO_POINTER (address.host));
}

static gboolean
take_address (Pool *pool, char **text, GError **error)
{
  RwAddress address = { pool->next, pool->first.prefix };
  g_autofree char *first = NULL;

  while (g_hash_table_contains (pool->taken, GUINT_TO_POINTER (address.host)))
    address.host++;
  pool->next = address.host + 1;
  if (is_host (pool->first, address.host))
    {
      *text = rw_address_format (address);
      return TRUE;
    }
  first = rw_address_format (pool->first);
  /* Translators: an address with its subnet */
  g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_RANGE,
               _("There are more devices than addresses from %s on: begin lower, or take a smaller number after “/”"), first);
  return FALSE;
}

/* @texts: (nullable) by plane: NULL leaves that plane as it is. What else the record holds stays. */
static gboolean
set_addresses (RwEdit *edit, const RwDevice *device, char *const *texts, GError **error)
{
  g_autoptr (GVariant) present = rw_item_get (device, RW_DEVICE_ADDRESSES);
  g_auto (GVariantDict) dict;

  g_variant_dict_init (&dict, present);
  for (guint i = 0; i < RW_ADDRESSES_N_FIELDS; i++)
    if (texts[i] != NULL)
      g_variant_dict_insert (&dict, rw_addresses_table.fields[i].name, "s", texts[i]);
  return rw_edit_set (edit, rw_item_key (device), RW_DEVICE_ADDRESSES, g_variant_dict_end (&dict), error);
}

static gboolean
fill_device (RwEdit *edit, const RwNetDevice *device, const gboolean *kept, Pool *pools, guint *n, GError **error)
{
  char *texts[2] = { NULL, NULL };
  gboolean ok = TRUE;

  for (guint i = 0; i < 2 && ok; i++)
    if (has_plane (device, i) && !kept[i])
      ok = take_address (&pools[i], &texts[i], error);
  if (ok && (texts[0] != NULL || texts[1] != NULL))
    {
      ok = set_addresses (edit, device->device, texts, error);
      (*n)++;
    }
  for (guint i = 0; i < 2; i++)
    g_free (texts[i]);
  return ok;
}

static RwChange *
finish (RwEdit *edit, guint n)
{
  /* Translators: stands after “Undo”; %u is a number of devices */
  g_autofree char *name = g_strdup_printf (ngettext ("Give %u Device an Address", "Give %u Devices Addresses", n), n);

  rw_edit_set_name (edit, name);
  return rw_edit_finish (edit);
}

/**
 * rw_address_fill_in:
 * @rig: a rig
 * @net: its net
 * @options: how
 * @error: RW_RIG_ERROR_RANGE: a subnet that is none, is not private, overlaps the other or is too small
 *
 * Gives each device that plays or listens an address in each plane that it is in: private ones only (RFC 1918); devices
 * pick link-local ones themselves and are never given them by hand (RFC 3927 section 1.6).
 *
 * Returns: (transfer full) (nullable): the change; without entries where all have good addresses
 */
RwChange *
rw_address_fill_in (const RwRig *rig, const RwNet *net, const RwAddressOptions *options, GError **error)
{
  g_autoptr (GArray) order = rw_net_order (net, options->order);
  g_autoptr (RwEdit) edit = rw_edit_new (rig, "");
  g_autofree gboolean *kept = g_new0 (gboolean, 2 * net->n_devices);
  Pool pools[2] = { { .taken = NULL }, { .taken = NULL } };
  gboolean ok = open_pools (pools, options, error);
  guint n = 0;

  for (guint i = 0; ok && options->keep && i < 2 * net->n_devices; i++)
    if (has_plane (&net->devices[i / 2], i % 2))
      keep_address (&pools[i % 2], &net->devices[i / 2], i % 2, &kept[i]);
  for (guint i = 0; ok && i < order->len; i++)
    {
      guint device = g_array_index (order, guint, i);
      ok = fill_device (edit, &net->devices[device], &kept[2 * device], pools, &n, error);
    }
  pools_clear (pools);
  return ok ? finish (g_steal_pointer (&edit), n) : NULL;
}
