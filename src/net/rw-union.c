/* SPDX-License-Identifier: MIT */
#include "rw-union.h"

/**
 * rw_union_new: each number in a set of its own. Free with g_free().
 */
guint *
rw_union_new (guint n)
{
  guint *parents = g_new (guint, n);

  for (guint i = 0; i < n; i++)
    parents[i] = i;
  return parents;
}

/**
 * rw_union_find: the head of @i's set: its smallest member. Halves the path that it walks
 * (Tarjan and van Leeuwen 1984, "Worst-case analysis of set union algorithms").
 */
guint
rw_union_find (guint *parents, guint i)
{
  while (parents[i] != i)
    {
      parents[i] = parents[parents[i]];
      i = parents[i];
    }
  return i;
}

/**
 * rw_union_join: makes one set of those of @a and @b.
 * Returns: %FALSE if they were one already
 */
gboolean
rw_union_join (guint *parents, guint a, guint b)
{
  a = rw_union_find (parents, a);
  b = rw_union_find (parents, b);
  if (a == b)
    return FALSE;
  /* The smaller number leads, so that heads come in the order of their first members. */
  parents[MAX (a, b)] = MIN (a, b);
  return TRUE;
}
