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
  guint32 *hashes; /* by place; 0 = free. What is probed stays close together */
  struct { const char *id; gpointer value; } *entries; /* by place */
  guint mask;      /* places less one: they are a power of two, half of them free at least */
  guint n;
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
