/* SPDX-License-Identifier: MIT */
#include <rig/rw-id-map.h>

/* What hash() of Python 3.11 gives for these bytes with PYTHONHASHSEED=0: it is SipHash-1-3 under a key of noughts. */
static void
test_hash_is_siphash (void)
{
  static const guint64 key[2] = { 0, 0 };

  g_assert_cmphex (rw_id_hash (key, "D1"), ==, G_GUINT64_CONSTANT (0xd387491f1584a08f));
  g_assert_cmphex (rw_id_hash (key, "12345678"), ==, G_GUINT64_CONSTANT (0x3489982430560a87));
  g_assert_cmphex (rw_id_hash (key, "rack120-1"), ==, G_GUINT64_CONSTANT (0x168bdd978ffa0be4));
  g_assert_cmphex (rw_id_hash (key, "a much longer id than any"), ==, G_GUINT64_CONSTANT (0x77ef0fff58355b67));
}

static void
assert_same (const RwIdMap *map, GHashTable *reference, char *const *ids, guint n)
{
  g_assert_cmpuint (map->n, ==, g_hash_table_size (reference));
  for (guint i = 0; i < n; i++)
    g_assert_true (rw_id_map_find (map, ids[i]) == g_hash_table_lookup (reference, ids[i]));
}

/* Against GLib's table, through thousands of additions and removals in a small space of ids. */
static void
test_holds_what_glib_holds (void)
{
  enum { N = 300 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autoptr (GHashTable) reference = g_hash_table_new (g_str_hash, g_str_equal);
  g_auto (GStrv) ids = g_new0 (char *, N + 1);
  g_auto (RwIdMap) map;

  rw_id_map_init (&map, 0);
  for (guint i = 0; i < N; i++)
    ids[i] = g_strdup_printf ("%s%u", i % 2 ? "device with a long id " : "c", i);
  for (guint round = 0; round < 20000; round++)
    {
      char *id = ids[g_rand_int_range (rand, 0, N)];

      /* by turns mostly growing and mostly shrinking */
      if (g_rand_int_range (rand, 0, 10) < (round / 1000 % 2 ? 3 : 7))
        {
          rw_id_map_put (&map, id, GUINT_TO_POINTER (round + 1));
          g_hash_table_insert (reference, id, GUINT_TO_POINTER (round + 1));
        }
      else
        {
          gpointer value = g_hash_table_lookup (reference, id);

          g_assert_true (rw_id_map_remove (&map, id) == value);
          g_hash_table_remove (reference, id);
        }
      if (round % 100 == 0)
        assert_same (&map, reference, ids, N);
    }
}

/* The key of an item that was put in another's place is the one that lives on. */
static void
test_borrows_the_newest_key (void)
{
  g_autofree char *first = g_strdup ("D1"), *second = g_strdup ("D1");
  g_auto (RwIdMap) map;

  rw_id_map_init (&map, 1);
  rw_id_map_put (&map, first, GUINT_TO_POINTER (1));
  rw_id_map_put (&map, second, GUINT_TO_POINTER (2));
  first[0] = 'X';
  g_assert_cmpuint (GPOINTER_TO_UINT (rw_id_map_find (&map, "D1")), ==, 2);
  g_assert_cmpuint (map.n, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/id-map/hash-is-siphash", test_hash_is_siphash);
  g_test_add_func ("/id-map/holds-what-glib-holds", test_holds_what_glib_holds);
  g_test_add_func ("/id-map/borrows-the-newest-key", test_borrows_the_newest_key);
  return g_test_run ();
}
