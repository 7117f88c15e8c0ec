/* SPDX-License-Identifier: MIT */
#include "net-assert.h"

RwNet *
net_of (const char *text)
{
  g_autoptr (RwRig) rig = rw_test_rig (text);

  return rw_net_new (rig);
}

guint
net_device (const RwNet *net, const char *id)
{
  guint d = rw_net_find_device (net, id);

  g_assert_cmpuint (d, !=, RW_NONE);
  return d;
}

guint
net_cable (const RwNet *net, const char *id)
{
  guint c = rw_net_find_cable (net, id);

  g_assert_cmpuint (c, !=, RW_NONE);
  return c;
}

guint
net_port (const RwNet *net, const char *device, const char *port)
{
  guint p = rw_net_find_port (net, device, port);

  g_assert_cmpuint (p, !=, RW_NONE);
  return p;
}

gboolean
net_hear (const RwNet *net, const char *a, const char *b)
{
  return rw_net_shares_network (net, net_device (net, a), net_device (net, b));
}

static char *
join_ids (GPtrArray *ids)
{
  char *joined;

  g_ptr_array_add (ids, NULL);
  joined = g_strjoinv (" ", (char **) ids->pdata);
  g_ptr_array_unref (ids);
  return joined;
}

char *
net_device_ids (const RwNet *net, RwSlice devices)
{
  GPtrArray *ids = g_ptr_array_new ();

  for (guint i = 0; i < devices.n; i++)
    g_ptr_array_add (ids, rw_item_key (net->devices[devices.v[i]].device));
  return join_ids (ids);
}

char *
net_cable_ids (const RwNet *net, RwSlice cables)
{
  GPtrArray *ids = g_ptr_array_new ();

  for (guint i = 0; i < cables.n; i++)
    g_ptr_array_add (ids, rw_item_key (net->cables[cables.v[i]].cable));
  return join_ids (ids);
}
