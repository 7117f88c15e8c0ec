/* SPDX-License-Identifier: MIT */
#include "rw-settings.h"

#define GROUP "window"

struct _RwSettings
{
  char *path;
  GKeyFile *keys;
};

static const char *const scheme_words[] = { "desktop", "light", "dark", NULL };

/* The word by which files and actions call @scheme. */
const char *
rw_scheme_word (RwSchemeChoice scheme)
{
  g_return_val_if_fail (scheme <= RW_SCHEME_DARK, scheme_words[0]);
  return scheme_words[scheme];
}

/* Unknown words, as a hand-edited file may hold them, follow the desktop. */
RwSchemeChoice
rw_scheme_find_word (const char *word)
{
  for (guint i = 0; scheme_words[i] != NULL; i++)
    if (g_strcmp0 (word, scheme_words[i]) == 0)
      return i;
  return RW_SCHEME_DESKTOP;
}

/**
 * rw_settings_load:
 * @path: (nullable): a key file, NULL = the person's own
 *
 * A file that is missing or broken gives the defaults: settings never stand in the way of the work.
 */
RwSettings *
rw_settings_load (const char *path)
{
  RwSettings *settings = g_new0 (RwSettings, 1);

  settings->path = path != NULL
    ? g_strdup (path)
    : g_build_filename (g_get_user_config_dir (), "rigwright", "settings.ini", NULL);
  settings->keys = g_key_file_new ();
  g_key_file_load_from_file (settings->keys, settings->path, G_KEY_FILE_KEEP_COMMENTS, NULL);
  return settings;
}

void
rw_settings_free (RwSettings *settings)
{
  g_free (settings->path);
  g_key_file_unref (settings->keys);
  g_free (settings);
}

gboolean
rw_settings_save (RwSettings *settings, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (settings->path);

  g_mkdir_with_parents (folder, 0700);
  return g_key_file_save_to_file (settings->keys, settings->path, error);
}

RwSchemeChoice
rw_settings_get_scheme (RwSettings *settings)
{
  g_autofree char *word = rw_settings_dup_string (settings, "scheme", NULL);

  return rw_scheme_find_word (word);
}

void
rw_settings_set_scheme (RwSettings *settings, RwSchemeChoice scheme)
{
  rw_settings_set_string (settings, "scheme", rw_scheme_word (scheme));
}

gboolean
rw_settings_get_boolean (RwSettings *settings, const char *key, gboolean fallback)
{
  g_autoptr (GError) error = NULL;
  gboolean value = g_key_file_get_boolean (settings->keys, GROUP, key, &error);

  return error == NULL ? value : fallback;
}

void
rw_settings_set_boolean (RwSettings *settings, const char *key, gboolean value)
{
  g_key_file_set_boolean (settings->keys, GROUP, key, value);
}

/* Values outside @min … @max, as from a screen that is gone, give @fallback. */
int
rw_settings_get_integer (RwSettings *settings, const char *key, int fallback, int min, int max)
{
  g_autoptr (GError) error = NULL;
  int value = g_key_file_get_integer (settings->keys, GROUP, key, &error);

  return error == NULL && value >= min && value <= max ? value : fallback;
}

void
rw_settings_set_integer (RwSettings *settings, const char *key, int value)
{
  g_key_file_set_integer (settings->keys, GROUP, key, value);
}

char *
rw_settings_dup_string (RwSettings *settings, const char *key, const char *fallback)
{
  char *value = g_key_file_get_string (settings->keys, GROUP, key, NULL);

  return value != NULL ? value : g_strdup (fallback);
}

void
rw_settings_set_string (RwSettings *settings, const char *key, const char *value)
{
  g_key_file_set_string (settings->keys, GROUP, key, value);
}

GKeyFile *
rw_settings_key_file (RwSettings *settings)
{
  return settings->keys;
}
