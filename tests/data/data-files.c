/* SPDX-License-Identifier: MIT */
#include "data-files.h"

#include <string.h>

static int
compare (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *) a, *(char *const *) b);
}

GPtrArray *
data_examples (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "..", "data", "examples", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".rig"))
      g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (paths, compare);
  g_assert_cmpuint (paths->len, >, 0);
  return paths;
}

char *
data_name (const char *path)
{
  char *name = g_path_get_basename (path);

  g_assert_true (g_str_has_suffix (name, ".rig"));
  name[strlen (name) - strlen (".rig")] = '\0';
  return name;
}

void
data_add_tests (const char *prefix, GPtrArray *paths, GTestDataFunc test)
{
  for (guint i = 0; i < paths->len; i++)
    {
      g_autofree char *name = data_name (paths->pdata[i]);
      g_autofree char *test_name = g_strdup_printf ("%s/%s", prefix, name);

      g_test_add_data_func (test_name, paths->pdata[i], test);
    }
}
