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
allocate_places (RwIdMap *map, guint n)
{
  map->places = g_malloc0_n (n, sizeof *map->places);
  map->mask = n - 1;
}

static void
allocate_entries (RwIdMap *map, guint n)
{
  map->entries = g_realloc_n (map->entries, n, sizeof *map->entries);
  map->room = n;
}

/**
 * rw_id_map_init:
 * @map: (out caller-allocates): end it with rw_id_map_clear()
 * @n: how many ids are to be expected
 */
void
rw_id_map_init (RwIdMap *map, guint n)
{
  *map = (RwIdMap){ .n = 0 };
  for (guint i = 0; i < 2; i++)
    map->key[i] = (guint64) g_random_int () << 32 | g_random_int ();
  allocate_places (map, MAX (FEWEST_PLACES, 2u << g_bit_storage (n)));
  allocate_entries (map, MAX (FEWEST_PLACES / 2, n));
}

void
rw_id_map_clear (RwIdMap *map)
{
  g_free (map->places);
  g_free (map->entries);
  map->places = NULL;
  map->entries = NULL;
}

/* The place of @id, or the free one where it would stand. */
static guint
place_of (const RwIdMap *map, const char *id, guint32 hash)
{
  guint place = hash & map->mask;

  while (map->places[place].hash != 0
         && (map->places[place].hash != hash || strcmp (map->entries[map->places[place].entry].id, id) != 0))
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

  return map->places[place].hash != 0 ? map->entries[map->places[place].entry].value : NULL;
}

static void
widen (RwIdMap *map)
{
  RwIdMap old = *map;

  allocate_places (map, 2 * (old.mask + 1));
  for (guint i = 0; i <= old.mask; i++)
    {
      guint place = old.places[i].hash & map->mask;

      if (old.places[i].hash == 0)
        continue;
      while (map->places[place].hash != 0)
        place = (place + 1) & map->mask;
      map->places[place].hash = old.places[i].hash;
      map->places[place].entry = old.places[i].entry;
    }
  g_free (old.places);
}

static void
add (RwIdMap *map, guint place, guint32 hash)
{
  if (map->n == map->room)
    allocate_entries (map, 2 * map->room);
  map->places[place].hash = hash;
  map->places[place].entry = map->n++;
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
  guint place = place_of (map, id, hash), entry;

  if (map->places[place].hash == 0)
    add (map, place, hash);
  entry = map->places[place].entry;
  map->entries[entry].id = id;
  map->entries[entry].value = value;
  if (2 * map->n > map->mask)
    widen (map);
}

/* Those behind the gap that would stand at it or before it move up, so that no search ends too soon. */
static void
close_gap (RwIdMap *map, guint gap)
{
  for (guint i = (gap + 1) & map->mask; map->places[i].hash != 0; i = (i + 1) & map->mask)
    if (((i - (map->places[i].hash & map->mask)) & map->mask) >= ((i - gap) & map->mask))
      {
        map->places[gap] = map->places[i];
        gap = i;
      }
  map->places[gap].hash = 0;
}

/**
 * rw_id_map_remove:
 *
 * Returns: (nullable): what belonged to @id
 */
gpointer
rw_id_map_remove (RwIdMap *map, const char *id)
{
  guint place = place_of (map, id, hash_in (map, id)), entry = map->places[place].entry, last = map->n - 1;
  gpointer value;

  if (map->places[place].hash == 0)
    return NULL;
  value = map->entries[entry].value;
  if (entry != last)
    {
      const char *moved = map->entries[last].id;

      map->places[place_of (map, moved, hash_in (map, moved))].entry = entry;
      map->entries[entry] = map->entries[last];
    }
  close_gap (map, place);
  map->n--;
  return value;
}
