/* SPDX-License-Identifier: MIT */
#include "rw-data-dir.h"

#include "rw-config.h"

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
  const char *folder = g_getenv ("RIGWRIGHT_DATADIR");

  return g_build_filename (folder != NULL && *folder != '\0' ? folder : RW_DATADIR, name, NULL);
}
