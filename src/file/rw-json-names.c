/* SPDX-License-Identifier: MIT */
#include "rw-json.h"

#include <stdlib.h>
#include <string.h>

/* Up to here comparing each with each costs less than sorting. */
#define FEW_NAMES 16

typedef struct
{
  const char *bytes;
  gsize length;
  guint32 offset;
} Name;

static int
compare_bytes (const Name *a, const Name *b)
{
  int order = memcmp (a->bytes, b->bytes, MIN (a->length, b->length));

  return order != 0 ? order : (a->length > b->length) - (a->length < b->length);
}

static int
compare_names (const void *a, const void *b)
{
  const Name *p = a, *q = b;
  int order = compare_bytes (p, q);

  return order != 0 ? order : (p->offset > q->offset) - (p->offset < q->offset);
}

/* Sorting bounds the time whatever the names are; a hash table could be fed colliding ones. */
static gsize
repeated_of_many (Name *names, guint n)
{
  gsize first = 0;

  qsort (names, n, sizeof (Name), compare_names);
  for (guint i = 1; i < n; i++)
    if (compare_bytes (&names[i - 1], &names[i]) == 0 && (first == 0 || names[i].offset < first))
      first = names[i].offset;
  return first;
}

static gsize
repeated_of_few (const Name *names, guint n)
{
  for (guint i = 1; i < n; i++)
    for (guint j = 0; j < i; j++)
      if (names[i].length == names[j].length && memcmp (names[i].bytes, names[j].bytes, names[i].length) == 0)
        return names[i].offset;
  return 0;
}

/* Lists the names of an object; @decoded gets those that had to be rewritten and owns them. */
static guint
list_names (const RwJson *json, guint object, Name *names, GPtrArray **decoded)
{
  guint n = 0;

  for (guint at = object + 1; at < json->tokens[object].extent; at = rw_json_next (json, at + 1))
    {
      const RwJsonToken *t = &json->tokens[at];
      names[n] = (Name){ json->data + t->offset, t->extent, t->offset };
      if (t->escaped)
        {
          char *copy = g_malloc (t->extent);
          if (*decoded == NULL)
            *decoded = g_ptr_array_new_with_free_func (g_free);
          g_ptr_array_add (*decoded, copy);
          names[n].length = rw_json_decode (json, at, copy);
          names[n].bytes = copy;
        }
      n++;
    }
  return n;
}

/**
 * rw_json_repeated_name:
 * @json: tokens, those of @object complete
 * @object: index of an object
 *
 * Looks for a name that stands twice, however it is escaped.
 *
 * Returns: offset of the first byte of the first such name at its second place, 0 = there is none (no
 * name can begin at the first byte of a file)
 */
gsize
rw_json_repeated_name (const RwJson *json, guint object)
{
  Name few[FEW_NAMES];
  g_autofree Name *many = NULL;
  GPtrArray *decoded = NULL;
  guint n = rw_json_count (json, object) / 2;
  gsize repeated;

  if (n > FEW_NAMES)
    many = g_new (Name, n);
  list_names (json, object, many != NULL ? many : few, &decoded);
  repeated = many != NULL ? repeated_of_many (many, n) : repeated_of_few (few, n);
  g_clear_pointer (&decoded, g_ptr_array_unref);
  return repeated;
}
