/* SPDX-License-Identifier: MIT */
#include "rw-rig-named.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-error.h"
#include "rw-line-target.h"

static const char *
name_of (const RwItem *item)
{
  return item->type == RW_ITEM_DEVICE ? ((const RwDevice *) item)->name : ((const RwCable *) item)->label;
}

static void
add_named (const RwRig *rig, RwItemType type, const char *folded, GPtrArray *found)
{
  for (guint i = 0; i < rw_rig_n (rig, type); i++)
    {
      RwItem *item = rw_rig_items (rig, type)[i];
      g_autofree char *name = name_of (item) != NULL ? rw_line_fold (name_of (item)) : NULL;

      if (name != NULL && *name != '\0' && strcmp (name, folded) == 0)
        g_ptr_array_add (found, item);
    }
}

static void
set_error (const char *text, gboolean cables, const GPtrArray *found, GError **error)
{
  g_autoptr (GString) ids = g_string_new (NULL);

  for (guint i = 0; i < found->len; i++)
    g_string_append_printf (ids, "%s%s", i > 0 ? ", " : "", rw_item_key (g_ptr_array_index (found, i)));
  if (found->len > 0)
    /* Translators: what was typed; a list of ids */
    g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE, _("several are called “%s”: take one of the IDs %s"), text, ids->str);
  else if (cables)
    /* Translators: what was typed */
    g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE, _("there is no device or cable with the ID, name or label “%s”"), text);
  else
    /* Translators: what was typed */
    g_set_error (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE, _("there is no device with the ID or name “%s”"), text);
}

/**
 * rw_rig_find_named: finds a device by what a person calls it.
 * @rig: a rig
 * @text: an id as it is written; else a device's name, without regard to capitals and outer blanks
 * @cables: cables are meant too, by id or label
 * @error: RW_RIG_ERROR_REFERENCE: nothing is called that, or several are: the message then lists their ids
 *
 * An id comes before a name, so that what is unique stays so whatever things are named.
 *
 * Returns: (transfer none) (nullable): the device or cable
 */
RwItem *
rw_rig_find_named (const RwRig *rig, const char *text, gboolean cables, GError **error)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new ();
  g_autofree char *folded = NULL;
  RwItem *item;

  g_return_val_if_fail (rig != NULL && text != NULL, NULL);
  item = rw_rig_find (rig, text);
  if (item != NULL && (item->type == RW_ITEM_DEVICE || (cables && item->type == RW_ITEM_CABLE)))
    return item;
  folded = rw_line_fold (text);
  add_named (rig, RW_ITEM_DEVICE, folded, found);
  if (cables)
    add_named (rig, RW_ITEM_CABLE, folded, found);
  if (found->len == 1)
    return g_ptr_array_index (found, 0);
  set_error (text, cables, found, error);
  return NULL;
}
