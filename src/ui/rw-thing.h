/* SPDX-License-Identifier: MIT */
#pragma once

#include <gio/gio.h>
#include "rw-document.h"

G_BEGIN_DECLS

#define RW_TYPE_THING (rw_thing_get_type ())
G_DECLARE_FINAL_TYPE (RwThing, rw_thing, RW, THING, GObject)

/**
 * RwThing: a device or a cable in words, for lists. String properties "name", "what" (a device's part, a
 * cable's medium), "where" (a device's location, a cable's ends), "findings" (numbers of those that name
 * it, "" = none); they are told of when they change.
 */
const char *rw_thing_get_key (RwThing *thing);
const char *rw_thing_get_name (RwThing *thing);
const char *rw_thing_get_where (RwThing *thing);
const char *rw_thing_get_findings (RwThing *thing);

/* Makes @store (of RwThing) hold the devices, then the cables of @document; things that stay are kept. */
void rw_things_update (GListStore *store, RwDocument *document);

/* Keys of the devices and cables that have @text in their name, id, part, location, label or notes, in
 * file order; case does not matter. (transfer full) */
GPtrArray *rw_things_search (const RwRig *rig, const char *text);

G_END_DECLS
