/* SPDX-License-Identifier: MIT */
#pragma once

#include <net/rw-address.h>

#include "rw-rule.h"

G_BEGIN_DECLS

/* An address that somebody set, where its frames go. */
typedef struct
{
  guint network;
  guint device;
  RwSide side;      /* primary or secondary: which of the device's addresses it is */
  const char *text;
  gboolean good;    /* @address is what @text says */
  RwAddress address;
} RwAddressUse;

GArray *rw_address_uses (const RwNet *net);
#define rw_address_use(uses, i) (&g_array_index (uses, RwAddressUse, i))
void rw_finding_add_address (RwFinding *finding, const RwNet *net, const RwAddressUse *use);

G_END_DECLS
