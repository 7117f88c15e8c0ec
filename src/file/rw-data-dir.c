/* SPDX-License-Identifier: MIT */
#include "rw-data-dir.h"

#include "rw-config.h"

static const char *
folder_or (const char *variable, const char *installed)
{
  const char *folder = g_getenv (variable);

  return folder != NULL && *folder != '\0' ? folder : installed;
}

/**
 * rw_data_path:
 * @name: path of a file or folder below the program's data folder, as "catalogue/parts.rig"
 *
 * Returns: (transfer full): where it should be: in the folder that RIGWRIGHT_DATADIR names, else in the one
 * that the program was installed with
 */
char *
rw_data_path (const char *name)
{
  return g_build_filename (folder_or ("RIGWRIGHT_DATADIR", RW_DATADIR), name, NULL);
}

/**
 * rw_locale_dir:
 *
 * Returns: (transfer none): where the translations are: the folder that RIGWRIGHT_LOCALEDIR names, else the one that
 * the program was installed with
 */
const char *
rw_locale_dir (void)
{
  return folder_or ("RIGWRIGHT_LOCALEDIR", RW_LOCALEDIR);
}
