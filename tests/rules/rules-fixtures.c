/* SPDX-License-Identifier: MIT */
#include "rules-fixtures.h"

#include <file/rw-file.h>

static int
compare_texts (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *) a, *(char *const *) b);
}

/* The paths of the rule's rigs, by name; empty if there is no folder. */
GPtrArray *
fixtures_of (const RwRule *rule)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "rules", rule->code, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".rig"))
      g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (paths, compare_texts);
  return paths;
}

gboolean
fixture_is_bad (const char *path)
{
  g_autofree char *name = g_path_get_basename (path);
  gboolean bad = g_str_has_prefix (name, "bad-");

  if (!bad && !g_str_has_prefix (name, "good-"))
    g_error ("%s: a fixture's name begins with “bad-” or “good-”", path);
  return bad;
}

/* "/rules/GROUP/CODE/bad-SCENARIO" */
char *
fixture_test_path (const char *path, const char *group)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *code = g_path_get_basename (folder);
  g_autofree char *name = g_path_get_basename (path);

  name[strlen (name) - strlen (".rig")] = '\0';
  return g_strdup_printf ("/rules/%s/%s/%s", group, code, name);
}

RwRig *
fixture_read (const char *path)
{
  g_autoptr (GError) error = NULL;
  RwRig *rig = rw_file_read (path, &error);

  g_assert_no_error (error);
  return rig;
}

RwFindings *
analyse (const RwRig *rig)
{
  g_autoptr (RwNet) net = rw_net_new (rig);

  return rw_findings_new (rig, net);
}
