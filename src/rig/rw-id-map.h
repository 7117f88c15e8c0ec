/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * RwIdMap: what belongs to each id. Ids come out of files: they are hashed under a key drawn by chance for each map,
 * so that nobody can write a file whose ids all fall into one place. Nothing depends on the order inside.
 */
typedef struct
{
  /* hash 0 = free. A power of two of them, half of them free at least; what is probed stays close together */
  struct { guint32 hash, entry; } *places;
  struct { const char *id; gpointer value; } *entries; /* one after the other */
  guint mask;   /* places less one */
  guint n, room; /* of the entries */
  guint64 key[2];
} RwIdMap;

void rw_id_map_init (RwIdMap *map, guint n);
void rw_id_map_clear (RwIdMap *map);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (RwIdMap, rw_id_map_clear)
gpointer rw_id_map_find (const RwIdMap *map, const char *id);
void rw_id_map_put (RwIdMap *map, const char *id, gpointer value);
gpointer rw_id_map_remove (RwIdMap *map, const char *id);

guint64 rw_id_hash (const guint64 key[2], const char *id);

G_END_DECLS
