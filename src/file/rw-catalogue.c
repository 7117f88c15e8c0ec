/* SPDX-License-Identifier: MIT */
#include "rw-file.h"

#include <glib/gi18n-lib.h>

#include "rw-data-dir.h"

#define CATALOGUE "catalogue/parts.rig"

static gboolean
check_parts_only (RwRig *rig, const char *path, GError **error)
{
  for (RwItemType type = RW_ITEM_DEVICE; type < RW_N_ITEM_TYPES; type++)
    if (rw_rig_n (rig, type) > 0)
      {
        g_set_error (error, RW_FILE_ERROR, RW_FILE_ERROR_STRUCTURE,
                     _("%s: %s: must be absent; a catalogue holds only parts"), path, rw_item_type_member (type));
        return FALSE;
      }
  return TRUE;
}

/**
 * rw_catalogue_load:
 * @error: as rw_file_read(), or RW_FILE_ERROR_STRUCTURE where the file holds more than parts
 *
 * Reads the parts that the program brings, in the order in which the shelf shows them.
 *
 * Returns: (transfer full): a rig of only parts
 */
RwRig *
rw_catalogue_load (GError **error)
{
  g_autofree char *path = rw_data_path (CATALOGUE);
  g_autoptr (RwRig) rig = rw_file_read (path, error);

  if (rig == NULL || !check_parts_only (rig, path, error))
    return NULL;
  return g_steal_pointer (&rig);
}
