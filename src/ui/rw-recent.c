/* SPDX-License-Identifier: MIT */
#include "rw-recent.h"

#include <glib/gi18n-lib.h>

static char *
display_name (const char *path)
{
  return g_filename_display_basename (path);
}

static char *
path_of (const char *uri)
{
  g_autoptr (GFile) file = g_file_new_for_uri (uri);

  return g_file_get_parse_name (file);
}

/* Adds what @folder_of says of each path to the names that more than one of them has. */
static void
tell_apart (char **names, char *const *paths, char *(*folder_of) (const char *path))
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  guint n = g_strv_length (names);
  g_autofree gboolean *clash = g_new0 (gboolean, n);

  for (guint i = 0; i < n; i++)
    {
      gpointer first;

      if (!g_hash_table_lookup_extended (seen, names[i], NULL, &first))
        {
          g_hash_table_insert (seen, names[i], GUINT_TO_POINTER (i));
          continue;
        }
      clash[i] = clash[GPOINTER_TO_UINT (first)] = TRUE;
    }
  for (guint i = 0; i < n; i++)
    if (clash[i])
      {
        g_autofree char *name = display_name (paths[i]), *folder = folder_of (paths[i]);

        g_free (names[i]);
        /* Translators: a file's name, and the folder that it lies in, where another file has the same name. */
        names[i] = g_strdup_printf (_("%s (in %s)"), name, folder);
      }
}

static char *
last_folder (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  return display_name (folder);
}

/**
 * rw_recent_names: a name that two files share is followed by the last of its folders, and by all of them where even
 * that is the same. Free with g_strfreev().
 */
char **
rw_recent_names (const char *const *uris)
{
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);
  GPtrArray *names = g_ptr_array_new ();
  char **result;

  g_return_val_if_fail (uris != NULL, NULL);

  for (guint i = 0; uris[i] != NULL; i++)
    {
      g_ptr_array_add (paths, path_of (uris[i]));
      g_ptr_array_add (names, display_name (paths->pdata[i]));
    }
  g_ptr_array_add (names, NULL);
  result = (char **) g_ptr_array_free (names, FALSE);
  tell_apart (result, (char *const *) paths->pdata, last_folder);
  tell_apart (result, (char *const *) paths->pdata, g_path_get_dirname);
  return result;
}
