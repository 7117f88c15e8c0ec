/* SPDX-License-Identifier: MIT */
#include "rw-scene-index.h"

#include <math.h>
#include <string.h>

#define NONE G_MAXUINT
/* Something that would lie in more cells than this is kept in a list that every query looks through. */
#define MAX_CELLS 4096

typedef struct { guint next, id; int x, y; } Entry;
typedef struct { RwRect rect; guint stamp; gboolean present, wide; } Thing;

struct _RwSceneIndex
{
  RwLooks *looks, own_looks;
  double per_mm;    /* cells */
  guint *heads;     /* first entry of each bucket */
  guint mask;
  GArray *entries;  /* of Entry */
  guint free_entry;
  GArray *things;   /* of Thing, by id */
  GArray *wide;     /* of guint */
  guint *found;     /* room for all things */
  guint n_found, n_room, stamp, n_used;
};

typedef struct { int x0, y0, x1, y1; gboolean wide; } Cells;

/* @cell_mm: side of a cell; about the size of the things that are looked for works best. @looks: (nullable): counts, and outlives the index. */
RwSceneIndex *
rw_scene_index_new (double cell_mm, RwLooks *looks)
{
  RwSceneIndex *index;

  g_return_val_if_fail (cell_mm > 0.0, NULL);

  index = g_new0 (RwSceneIndex, 1);
  index->looks = looks != NULL ? looks : &index->own_looks;
  index->per_mm = 1.0 / cell_mm;
  index->mask = 1023;
  index->heads = g_new (guint, index->mask + 1);
  memset (index->heads, 0xff, sizeof *index->heads * (index->mask + 1));
  index->entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  index->free_entry = NONE;
  index->things = g_array_new (FALSE, TRUE, sizeof (Thing));
  index->wide = g_array_new (FALSE, FALSE, sizeof (guint));
  return index;
}

void
rw_scene_index_free (RwSceneIndex *index)
{
  if (index == NULL)
    return;
  g_free (index->heads);
  g_array_unref (index->entries);
  g_array_unref (index->things);
  g_array_unref (index->wide);
  g_free (index->found);
  g_free (index);
}

/* As floor(), which without the newest instructions is a call. */
static inline int
down (double x)
{
  int i = (int) x;

  return i - (x < i);
}

static inline Cells
cells_of (const RwSceneIndex *index, RwRect r)
{
  double x0 = r.x * index->per_mm, x1 = (r.x + r.w) * index->per_mm;
  double y0 = r.y * index->per_mm, y1 = (r.y + r.h) * index->per_mm;
  Cells cells = { .wide = TRUE };

  if (!(fabs (x0) < 1e8 && fabs (y0) < 1e8 && x1 - x0 < MAX_CELLS && y1 - y0 < MAX_CELLS))
    return cells;
  cells = (Cells) { down (x0), down (y0), down (x1), down (y1), FALSE };
  cells.wide = (cells.x1 - cells.x0 + 1) * (cells.y1 - cells.y0 + 1) > MAX_CELLS;
  return cells;
}

static guint
bucket_of (const RwSceneIndex *index, int x, int y)
{
  guint32 h = (guint32) x * 0x9e3779b1u ^ (guint32) y * 0x85ebca77u;

  return (h ^ h >> 15) & index->mask;
}

static void
link_entry (RwSceneIndex *index, guint number)
{
  Entry *entry = &g_array_index (index->entries, Entry, number);
  guint bucket = bucket_of (index, entry->x, entry->y);

  entry->next = index->heads[bucket];
  index->heads[bucket] = number;
}

/* Keeps the buckets short. Entries on the free list must not be linked, so it is walked over by its mark. */
static void
grow (RwSceneIndex *index)
{
  index->mask = index->mask * 4 + 3;
  index->heads = g_renew (guint, index->heads, index->mask + 1);
  memset (index->heads, 0xff, sizeof *index->heads * (index->mask + 1));
  for (guint i = 0; i < index->entries->len; i++)
    if (g_array_index (index->entries, Entry, i).id != NONE)
      link_entry (index, i);
}

static void
add_entry (RwSceneIndex *index, guint id, int x, int y)
{
  guint number = index->free_entry;
  Entry entry = { NONE, id, x, y };

  if (number != NONE)
    {
      index->free_entry = g_array_index (index->entries, Entry, number).next;
      g_array_index (index->entries, Entry, number) = entry;
    }
  else
    {
      number = index->entries->len;
      g_array_append_val (index->entries, entry);
    }
  link_entry (index, number);
  index->n_used++;
}

static void
drop_entry (RwSceneIndex *index, guint id, int x, int y)
{
  guint *link = &index->heads[bucket_of (index, x, y)];

  while (*link != NONE)
    {
      guint number = *link;
      Entry *entry = &g_array_index (index->entries, Entry, number);

      if (entry->id == id && entry->x == x && entry->y == y)
        {
          *link = entry->next;
          entry->id = NONE;
          entry->next = index->free_entry;
          index->free_entry = number;
          index->n_used--;
          return;
        }
      link = &entry->next;
    }
}

/* Takes @id in at @rect; it must not be in already. */
void
rw_scene_index_insert (RwSceneIndex *index, guint id, RwRect rect)
{
  Cells cells = cells_of (index, rect);
  Thing *thing;

  if (id >= index->things->len)
    {
      g_array_set_size (index->things, id + 1);
      if (index->things->len > index->n_room)
        {
          index->n_room = MAX (2 * index->n_room, index->things->len);
          index->found = g_renew (guint, index->found, index->n_room);
        }
    }
  thing = &g_array_index (index->things, Thing, id);
  g_return_if_fail (!thing->present);
  thing->rect = rect;
  thing->present = TRUE;
  thing->wide = cells.wide;
  if (cells.wide)
    {
      g_array_append_val (index->wide, id);
      return;
    }
  for (int y = cells.y0; y <= cells.y1; y++)
    for (int x = cells.x0; x <= cells.x1; x++)
      add_entry (index, id, x, y);
  if (index->n_used > index->mask / 2)
    grow (index);
}

/* Takes @id out, if it is in. */
void
rw_scene_index_remove (RwSceneIndex *index, guint id)
{
  Thing *thing;
  Cells cells;

  if (id >= index->things->len || !g_array_index (index->things, Thing, id).present)
    return;
  thing = &g_array_index (index->things, Thing, id);
  thing->present = FALSE;
  for (guint i = 0; thing->wide && i < index->wide->len; i++)
    if (g_array_index (index->wide, guint, i) == id)
      {
        g_array_remove_index (index->wide, i);
        return;
      }
  cells = cells_of (index, thing->rect);
  for (int y = cells.y0; y <= cells.y1; y++)
    for (int x = cells.x0; x <= cells.x1; x++)
      drop_entry (index, id, x, y);
}

RwRect
rw_scene_index_rect (const RwSceneIndex *index, guint id)
{
  g_return_val_if_fail (id < index->things->len, (RwRect) { 0 });

  return g_array_index (index->things, Thing, id).rect;
}

static inline void
take (RwSceneIndex *index, guint id, RwRect area)
{
  Thing *thing = &g_array_index (index->things, Thing, id);

  if (thing->stamp == index->stamp)
    return;
  thing->stamp = index->stamp;
  if (thing->present && rw_rects_touch (thing->rect, area))
    index->found[index->n_found++] = id;
}

static void
look_in_cells (RwSceneIndex *index, Cells cells, RwRect area)
{
  const Entry *entries = (const Entry *) (const void *) index->entries->data;
  guint64 n = 0;

  for (int y = cells.y0; y <= cells.y1; y++)
    for (int x = cells.x0; x <= cells.x1; x++, n++)
      for (guint e = index->heads[bucket_of (index, x, y)]; e != NONE; e = entries[e].next, n++)
        if (entries[e].x == x && entries[e].y == y)
          take (index, entries[e].id, area);
  index->looks->n += n;
}

const guint *
rw_scene_index_query (RwSceneIndex *index, RwRect area, guint *n)
{
  Cells cells = cells_of (index, area);

  index->n_found = 0;
  index->stamp++;
  if (cells.wide)
    {
      for (guint id = 0; id < index->things->len; id++)
        take (index, id, area);
      index->looks->n += index->things->len;
    }
  else
    {
      look_in_cells (index, cells, area);
      for (guint i = 0; i < index->wide->len; i++)
        take (index, g_array_index (index->wide, guint, i), area);
      index->looks->n += index->wide->len;
    }
  *n = index->n_found;
  return index->found;
}
