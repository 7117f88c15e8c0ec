/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  guint max_devices;
  double cables_per_device;
  guint n_vlans;    /* that access ports and trunks of switches use; 0 = one VLAN throughout */
  double switches;  /* share of them among the devices */
  double stp;       /* share of switches that run spanning tree */
  double redundant; /* share of redundant devices among those with two ports */
  gboolean untidy;  /* cables in taken ports, from a port to itself, at aux ports */
} RandomNet;

char *random_net_text (GRand *rand, const RandomNet *shape);

G_END_DECLS
