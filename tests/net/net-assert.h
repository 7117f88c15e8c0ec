/* SPDX-License-Identifier: MIT */
#pragma once

#include <rig-builder.h>
#include <net/rw-net.h>

G_BEGIN_DECLS

RwNet *net_of (const char *text);
guint net_device (const RwNet *net, const char *id);
guint net_port (const RwNet *net, const char *device, const char *port);
guint net_cable (const RwNet *net, const char *id);
gboolean net_hear (const RwNet *net, const char *a, const char *b);
char *net_device_ids (const RwNet *net, RwSlice devices);
char *net_cable_ids (const RwNet *net, RwSlice cables);

/* "A B C": ids in order. */
#define net_assert_devices(net, slice, text) \
  G_STMT_START \
  { \
    g_autofree char *ids_ = net_device_ids (net, slice); \
    g_assert_cmpstr (ids_, ==, text); \
  } \
  G_STMT_END
#define net_assert_cables(net, slice, text) \
  G_STMT_START \
  { \
    g_autofree char *ids_ = net_cable_ids (net, slice); \
    g_assert_cmpstr (ids_, ==, text); \
  } \
  G_STMT_END

G_END_DECLS
