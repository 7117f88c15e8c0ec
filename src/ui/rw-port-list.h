/* SPDX-License-Identifier: MIT */
#pragma once

#include <gtk/gtk.h>
#include "rw-document.h"

G_BEGIN_DECLS

#define RW_TYPE_PORT_LIST (rw_port_list_get_type ())
G_DECLARE_FINAL_TYPE (RwPortList, rw_port_list, RW, PORT_LIST, GtkWidget)

/**
 * RwPortList: the ports of one device and what each is cabled to; on a switch, also the VLANs of each.
 *
 * Signals: "picked" (const char *key): the person wants to see that device or cable.
 */
GtkWidget *rw_port_list_new (RwDocument *document, const char *device);
void rw_port_list_refresh (RwPortList *list);
/* As if the entry that is being typed into was left. Returns: whether all that was typed was taken */
gboolean rw_port_list_settle (RwPortList *list);
/* The entry for the VLANs of @port, for tests; (nullable). */
GtkWidget *rw_port_list_get_vlan_entry (RwPortList *list, const char *port);
/* Why what stands in it cannot stand, for tests; (nullable). */
const char *rw_port_list_get_error (RwPortList *list, const char *port);

/* "10" and (@tagged) "10, 20" as RW_FIELD_VLANS holds one port: i or ai; (transfer full). "" gives NULL without an error. */
GVariant *rw_vlans_parse (const char *text, gboolean tagged, GError **error);
char *rw_vlans_format (const RwPortVlans *vlans);
/* The change that gives @port of @device @value, NULL = VLAN 1 untagged. (transfer full). */
RwChange *rw_vlans_change (const RwRig *rig, const char *device, const char *port, GVariant *value, GError **error);

G_END_DECLS
