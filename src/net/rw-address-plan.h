/* SPDX-License-Identifier: MIT */
#pragma once

#include "rw-address.h"
#include "rw-order.h"

G_BEGIN_DECLS

/**
 * RwAddressOptions:
 * @first: the first address of the primary and of the secondary plane, with the subnet: "10.0.10.1/24"
 * @keep: a private address in its plane's subnet that nobody else has stays
 * @order: in which addresses are handed out
 */
typedef struct
{
  const char *first[2];
  gboolean keep;
  RwOrder order;
} RwAddressOptions;

/* Where nothing speaks for others. */
extern const char *const rw_address_usual[2];

/* (transfer full): one for each plane, as for @first. */
char **rw_address_suggest (const RwNet *net);

RwChange *rw_address_fill_in (const RwRig *rig, const RwNet *net, const RwAddressOptions *options, GError **error);

G_END_DECLS
