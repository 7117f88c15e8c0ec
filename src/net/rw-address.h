/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* An IPv4 address as a person writes it: "10.0.0.5/24". @prefix: bits of the subnet, 1…32; 0 = none was written. */
typedef struct
{
  guint32 host;
  guint prefix;
} RwAddress;

gboolean rw_address_parse (const char *text, RwAddress *address);
char *rw_address_format (RwAddress address);
guint32 rw_address_mask (guint prefix);
gboolean rw_address_is_private (RwAddress address);
gboolean rw_address_is_link_local (RwAddress address);
gboolean rw_address_is_reserved (RwAddress address);
gboolean rw_address_overlap (RwAddress a, RwAddress b);

G_END_DECLS
