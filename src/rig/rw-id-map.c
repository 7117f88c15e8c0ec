/* SPDX-License-Identifier: MIT */
#include "rw-id-map.h"

#include <string.h>

#define FEWEST_PLACES 8

static inline guint64
turn (guint64 word, guint bits)
{
  return word << bits | word >> (64 - bits);
}

static inline void
sip_round (guint64 v[4])
{
  v[0] += v[1];
  v[2] += v[3];
  v[1] = turn (v[1], 13) ^ v[0];
  v[3] = turn (v[3], 16) ^ v[2];
  v[0] = turn (v[0], 32) + v[3];
  v[2] += v[1];
  v[3] = turn (v[3], 21) ^ v[0];
  v[1] = turn (v[1], 17) ^ v[2];
  v[2] = turn (v[2], 32);
}

static inline void
sip_word (guint64 v[4], guint64 word)
{
  v[3] ^= word;
  sip_round (v);
  v[0] ^= word;
}

/**
 * rw_id_hash:
 * @key: whoever does not know it cannot tell which ids have one hash
 *
 * SipHash-1-3: J.-P. Aumasson and D. J. Bernstein, "SipHash: a fast short-input PRF", INDOCRYPT 2012.
 */
guint64
rw_id_hash (const guint64 key[2], const char *id)
{
  gsize n = strlen (id), left = n;
  guint64 v[4] = { key[0] ^ G_GUINT64_CONSTANT (0x736f6d6570736575), key[1] ^ G_GUINT64_CONSTANT (0x646f72616e646f6d),
                   key[0] ^ G_GUINT64_CONSTANT (0x6c7967656e657261), key[1] ^ G_GUINT64_CONSTANT (0x7465646279746573) };
  guint64 word;

  for (; left >= sizeof word; left -= sizeof word, id += sizeof word)
    {
      memcpy (&word, id, sizeof word);
      sip_word (v, GUINT64_FROM_LE (word));
    }
  word = (guint64) n << 56;
  for (gsize i = 0; i < left; i++)
    word |= (guint64) (guchar) id[i] << (8 * i);
  sip_word (v, word);
  v[2] ^= 0xff;
  for (guint i = 0; i < 3; i++)
    sip_round (v);
  return v[0] ^ v[1] ^ v[2] ^ v[3];
}

static guint32
hash_in (const RwIdMap *map, const char *id)
{
  guint32 hash = (guint32) rw_id_hash (map->key, id);

  return hash != 0 ? hash : 1;
}

static void
allocate (RwIdMap *map, guint places)
{
  map->hashes = g_new0 (guint32, places);
  map->entries = g_malloc_n (places, sizeof *map->entries);
  map->mask = places - 1;
}

/**
 * rw_id_map_init:
 * @map: (out caller-allocates): end it with rw_id_map_clear()
 * @n: how many ids are to be expected
 */
void
rw_id_map_init (RwIdMap *map, guint n)
{
  map->n = 0;
  for (guint i = 0; i < 2; i++)
    map->key[i] = (guint64) g_random_int () << 32 | g_random_int ();
  allocate (map, MAX (FEWEST_PLACES, 2u << g_bit_storage (n)));
}

void
rw_id_map_clear (RwIdMap *map)
{
  g_clear_pointer (&map->hashes, g_free);
  g_free (map->entries);
  map->entries = NULL;
}

/* The place of @id, or the free one where it would stand. */
static guint
place_of (const RwIdMap *map, const char *id, guint32 hash)
{
  guint place = hash & map->mask;

  while (map->hashes[place] != 0 && (map->hashes[place] != hash || strcmp (map->entries[place].id, id) != 0))
    place = (place + 1) & map->mask;
  return place;
}

/**
 * rw_id_map_find:
 *
 * Returns: (nullable): what belongs to @id
 */
gpointer
rw_id_map_find (const RwIdMap *map, const char *id)
{
  guint place = place_of (map, id, hash_in (map, id));

  return map->hashes[place] != 0 ? map->entries[place].value : NULL;
}

static void
grow (RwIdMap *map)
{
  RwIdMap old = *map;

  allocate (map, 2 * (old.mask + 1));
  for (guint i = 0; i <= old.mask; i++)
    {
      guint place = old.hashes[i] & map->mask;

      if (old.hashes[i] == 0)
        continue;
      while (map->hashes[place] != 0)
        place = (place + 1) & map->mask;
      map->hashes[place] = old.hashes[i];
      map->entries[place] = old.entries[i];
    }
  rw_id_map_clear (&old);
}

/**
 * rw_id_map_put:
 * @id: is borrowed, for as long as it is in @map
 * @value: takes the place of what belonged to that id before
 */
void
rw_id_map_put (RwIdMap *map, const char *id, gpointer value)
{
  guint32 hash = hash_in (map, id);
  guint place = place_of (map, id, hash);

  if (map->hashes[place] == 0)
    map->n++;
  map->hashes[place] = hash;
  map->entries[place].id = id;
  map->entries[place].value = value;
  if (2 * map->n > map->mask)
    grow (map);
}

/**
 * rw_id_map_remove:
 *
 * Returns: (nullable): what belonged to @id
 */
gpointer
rw_id_map_remove (RwIdMap *map, const char *id)
{
  guint gap = place_of (map, id, hash_in (map, id));
  gpointer value;

  if (map->hashes[gap] == 0)
    return NULL;
  value = map->entries[gap].value;
  map->n--;
  /* Those behind the gap that would stand at it or before it move up, so that no search ends too soon. */
  for (guint i = (gap + 1) & map->mask; map->hashes[i] != 0; i = (i + 1) & map->mask)
    if (((i - (map->hashes[i] & map->mask)) & map->mask) >= ((i - gap) & map->mask))
      {
        map->hashes[gap] = map->hashes[i];
        map->entries[gap] = map->entries[i];
        gap = i;
      }
  map->hashes[gap] = 0;
  return value;
}
