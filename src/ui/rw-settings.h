/* SPDX-License-Identifier: MIT */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * What the program remembers between two runs: a key file in the person's config folder, so that it
 * works uninstalled and without a settings daemon. Plain data; one for the whole program, owned by
 * the application.
 */
typedef struct _RwSettings RwSettings;

typedef enum
{
  RW_SCHEME_DESKTOP, /* follow what the desktop says */
  RW_SCHEME_LIGHT,
  RW_SCHEME_DARK,
} RwSchemeChoice;

RwSettings *rw_settings_load (const char *path);
void rw_settings_free (RwSettings *settings);
gboolean rw_settings_save (RwSettings *settings, GError **error);

RwSchemeChoice rw_settings_get_scheme (RwSettings *settings);
void rw_settings_set_scheme (RwSettings *settings, RwSchemeChoice scheme);
gboolean rw_settings_get_boolean (RwSettings *settings, const char *key, gboolean fallback);
void rw_settings_set_boolean (RwSettings *settings, const char *key, gboolean value);
int rw_settings_get_integer (RwSettings *settings, const char *key, int fallback, int min, int max);
void rw_settings_set_integer (RwSettings *settings, const char *key, int value);
char *rw_settings_dup_string (RwSettings *settings, const char *key, const char *fallback);
void rw_settings_set_string (RwSettings *settings, const char *key, const char *value);

/* (transfer none): for groups of their own that others read and write, as the toolkit its printers. */
GKeyFile *rw_settings_key_file (RwSettings *settings);

const char *rw_scheme_word (RwSchemeChoice scheme);
RwSchemeChoice rw_scheme_find_word (const char *word);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RwSettings, rw_settings_free)

G_END_DECLS
