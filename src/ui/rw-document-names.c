/* SPDX-License-Identifier: MIT */
#include "rw-document-names.h"

#include <string.h>

GHashTable *
rw_document_names (const RwRig *rig)
{
  GHashTable *taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    g_hash_table_add (taken, g_strdup (rw_device_title ((const RwDevice *) rw_rig_items (rig, RW_ITEM_DEVICE)[i])));
  return taken;
}

/* “Stage rack 2” → “Stage rack”; a name that is all number stays. */
static char *
without_number (const char *name)
{
  gsize length = strlen (name), end = length;

  while (end > 0 && g_ascii_isdigit (name[end - 1]))
    end--;
  if (end > 1 && end < length && name[end - 1] == ' ')
    return g_strndup (name, end - 1);
  return g_strdup (name);
}

char *
rw_document_fresh_name (GHashTable *taken, const char *name)
{
  g_autofree char *stem = without_number (name);
  char *fresh = g_strdup (name);

  for (guint i = 2; g_hash_table_contains (taken, fresh); i++)
    {
      g_free (fresh);
      fresh = g_strdup_printf ("%s %u", stem, i);
    }
  g_hash_table_add (taken, g_strdup (fresh));
  return fresh;
}
