/* SPDX-License-Identifier: MIT */
#include "rw-address.h"

/* One decimal number without leading zeros, at most @most. */
static const char *
read_number (const char *at, guint most, guint *number)
{
  const char *start = at;

  *number = 0;
  for (; g_ascii_isdigit (*at) && at - start < 3; at++)
    *number = *number * 10 + (guint) (*at - '0');
  if (at == start || g_ascii_isdigit (*at) || (*start == '0' && at - start > 1) || *number > most)
    return NULL;
  return at;
}

/**
 * rw_address_parse:
 * @text: "10.0.0.5/24" or "10.0.0.5"; blanks around it do not count
 * @address: (out): set where it is one
 *
 * Dotted decimal, four parts, no leading zeros (RFC 6943 3.1.1 tells why others are not taken), prefix 1…32 (RFC 4632).
 *
 * Returns: whether it is one
 */
gboolean
rw_address_parse (const char *text, RwAddress *address)
{
  g_autofree char *bare = g_strstrip (g_strdup (text));
  const char *at = bare;
  RwAddress read = { 0, 0 };
  guint part;

  for (guint i = 0; i < 4; i++)
    {
      if (i > 0 && *at++ != '.')
        return FALSE;
      at = read_number (at, 255, &part);
      if (at == NULL)
        return FALSE;
      read.host = read.host << 8 | part;
    }
  if (*at == '/')
    {
      at = read_number (at + 1, 32, &read.prefix);
      if (at == NULL || read.prefix == 0)
        return FALSE;
    }
  if (*at != '\0')
    return FALSE;
  *address = read;
  return TRUE;
}

/**
 * rw_address_format:
 *
 * Returns: (transfer full): as rw_address_parse() reads it
 */
char *
rw_address_format (RwAddress address)
{
  guint32 h = address.host;
  g_autofree char *prefix = address.prefix > 0 ? g_strdup_printf ("/%u", address.prefix) : NULL;

  return g_strdup_printf ("%u.%u.%u.%u%s", h >> 24, h >> 16 & 255, h >> 8 & 255, h & 255, prefix != NULL ? prefix : "");
}

/* rw_address_mask: of a subnet of @prefix bits, 0…32. */
guint32
rw_address_mask (guint prefix)
{
  return prefix == 0 ? 0 : G_MAXUINT32 << (32 - MIN (prefix, 32));
}

static gboolean
lies_in (RwAddress address, guint32 range, guint prefix)
{
  return (address.host & rw_address_mask (prefix)) == range && (address.prefix == 0 || address.prefix >= prefix);
}

/* rw_address_is_private: it and its whole subnet lie in a private range (RFC 1918 section 3). */
gboolean
rw_address_is_private (RwAddress address)
{
  return lies_in (address, 10u << 24, 8) || lies_in (address, 172u << 24 | 16 << 16, 12)
         || lies_in (address, 192u << 24 | 168 << 16, 16);
}

/* rw_address_is_link_local: 169.254.0.0/16 (RFC 3927 section 2.1): devices pick such addresses themselves. */
gboolean
rw_address_is_link_local (RwAddress address)
{
  return (address.host & rw_address_mask (16)) == (169u << 24 | 254 << 16);
}

/* rw_address_is_reserved: of the link-local range the first and the last 256 (RFC 3927 section 2.1), for nobody to use. */
gboolean
rw_address_is_reserved (RwAddress address)
{
  guint32 third = address.host >> 8 & 255;

  return rw_address_is_link_local (address) && (third == 0 || third == 255);
}

/* rw_address_overlap: their subnets share an address; without a prefix the address alone counts. */
gboolean
rw_address_overlap (RwAddress a, RwAddress b)
{
  guint prefix = MIN (a.prefix > 0 ? a.prefix : 32, b.prefix > 0 ? b.prefix : 32);

  return ((a.host ^ b.host) & rw_address_mask (prefix)) == 0;
}
