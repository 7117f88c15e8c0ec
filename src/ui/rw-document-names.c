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

/* “Console 32” → “Console 32 #”: its number says what it is, not which. */
static char *
with_sign (const char *name)
{
  return name[0] != '\0' && g_ascii_isdigit (name[strlen (name) - 1]) ? g_strconcat (name, " #", NULL)
                                                                     : g_strconcat (name, " ", NULL);
}

/* What stands before the number that counts. */
static char *
counted_stem (const char *name, const char *model)
{
  g_autofree char *plain = NULL;
  gsize length = model != NULL ? strlen (model) : 0;

  if (length > 0 && g_str_has_prefix (name, model) && (name[length] == '\0' || g_str_has_prefix (name + length, " #")))
    return with_sign (model);
  plain = without_number (name);
  return g_strconcat (plain, " ", NULL);
}

char *
rw_document_fresh_name (GHashTable *taken, const char *name, const char *model)
{
  g_autofree char *stem = counted_stem (name, model);
  char *fresh = g_strdup (name);

  for (guint i = 2; g_hash_table_contains (taken, fresh); i++)
    {
      g_free (fresh);
      fresh = g_strdup_printf ("%s%u", stem, i);
    }
  g_hash_table_add (taken, g_strdup (fresh));
  return fresh;
}
