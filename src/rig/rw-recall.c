/* SPDX-License-Identifier: MIT */
#include "rw-recall.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "rw-error.h"
#include "rw-line.h"

static int
part_count (const RwPart *part, RwNeed need)
{
  switch (need)
    {
    case RW_NEED_SENDS:
      return part->sends;
    case RW_NEED_RECEIVES:
      return part->receives;
    case RW_NEED_STRIPS:
      return part->strips;
    case RW_NEED_BUSES:
      return part->buses;
    case RW_NEED_LOCAL_INPUTS:
      return part->local_inputs;
    case RW_NEED_LOCAL_OUTPUTS:
      return part->local_outputs;
    }
  g_return_val_if_reached (0);
}

static RwRecallDevice *
find_device (RwRecall *recall, const char *id)
{
  return rw_recall_get (recall, (guint) rw_rig_index (recall->set->state, id));
}

/* A number that the stored device has not got itself was impossible then as now: it asks for nothing. */
static void
need (RwRecall *recall, const char *id, RwNeed what, int number)
{
  RwRecallDevice *device = find_device (recall, id);
  const RwPart *part = rw_rig_part_of (recall->set->state, device->stored);

  if (number <= part_count (part, what))
    device->needs[what] = MAX (device->needs[what], number);
}

static void
need_for_inside (RwRecall *recall, const RwInsideRow *row)
{
  static const RwNeed from[] = { RW_NEED_RECEIVES, RW_NEED_LOCAL_INPUTS, RW_NEED_BUSES };
  static const RwNeed to[] = { RW_NEED_STRIPS, RW_NEED_SENDS, RW_NEED_LOCAL_OUTPUTS };

  need (recall, row->device, from[row->from.kind], row->from.number);
  need (recall, row->device, to[row->to.kind], row->to.number);
}

static void
find_needs (RwRecall *recall)
{
  static const RwNeed sides[] = { RW_NEED_SENDS, RW_NEED_RECEIVES, RW_NEED_STRIPS, RW_NEED_BUSES };
  const RwRig *state = recall->set->state;

  for (guint i = 0; i < rw_rig_n (state, RW_ITEM_PATCH); i++)
    {
      const RwPatchRow *row = (const RwPatchRow *) rw_rig_items (state, RW_ITEM_PATCH)[i];
      need (recall, row->from.device, RW_NEED_SENDS, row->from.number);
      need (recall, row->to.device, RW_NEED_RECEIVES, row->to.number);
    }
  for (guint i = 0; i < rw_rig_n (state, RW_ITEM_INSIDE); i++)
    need_for_inside (recall, (const RwInsideRow *) rw_rig_items (state, RW_ITEM_INSIDE)[i]);
  for (guint i = 0; i < rw_rig_n (state, RW_ITEM_CHANNEL); i++)
    {
      const RwChannel *channel = (const RwChannel *) rw_rig_items (state, RW_ITEM_CHANNEL)[i];
      need (recall, channel->device, sides[channel->side], channel->number);
    }
}

static char *
too_few (const RwDevice *target, RwNeed what, int has, int needed)
{
  const char *title = rw_device_title (target);

  switch (what)
    {
    case RW_NEED_SENDS:
      /* Translators: a device, how many it has, the highest number in use. The same for the next five. */
      return g_strdup_printf (_("%s has too few sends: %d, and the set uses them up to %d"), title, has, needed);
    case RW_NEED_RECEIVES:
      return g_strdup_printf (_("%s has too few receives: %d, and the set uses them up to %d"), title, has, needed);
    case RW_NEED_STRIPS:
      return g_strdup_printf (_("%s has too few strips: %d, and the set uses them up to %d"), title, has, needed);
    case RW_NEED_BUSES:
      return g_strdup_printf (_("%s has too few buses: %d, and the set uses them up to %d"), title, has, needed);
    case RW_NEED_LOCAL_INPUTS:
      return g_strdup_printf (_("%s has too few inputs of its own: %d, and the set uses them up to %d"), title, has, needed);
    case RW_NEED_LOCAL_OUTPUTS:
      return g_strdup_printf (_("%s has too few outputs of its own: %d, and the set uses them up to %d"), title, has, needed);
    }
  g_return_val_if_reached (NULL);
}

/**
 * rw_recall_fits:
 * @recall: a recall
 * @index: which of its devices
 * @target: a device of the rig
 * @why: (out) (optional) (transfer full): one line, where it does not
 *
 * Returns: whether @target can stand in for the stored device: it has all that the set uses of that one
 */
gboolean
rw_recall_fits (const RwRecall *recall, guint index, const RwDevice *target, char **why)
{
  const RwRecallDevice *device = rw_recall_get (recall, index);
  const RwPart *part = rw_rig_part_of (recall->rig, target);
  gboolean console = rw_device_is_console (recall->set->state, device->stored);

  if (console != rw_device_is_console (recall->rig, target))
    {
      /* Translators: a device. */
      if (why != NULL)
        *why = g_strdup_printf (console ? _("%s is no console") : _("%s is a console"), rw_device_title (target));
      return FALSE;
    }
  for (RwNeed what = 0; what < RW_N_NEEDS; what++)
    if (device->needs[what] > part_count (part, what))
      {
        if (why != NULL)
          *why = too_few (target, what, part_count (part, what), device->needs[what]);
        return FALSE;
      }
  return TRUE;
}

static gboolean
same_part (const RwPart *a, const RwPart *b)
{
  if (strcmp (rw_item_key (a), rw_item_key (b)) == 0)
    return TRUE;
  return a->kind == b->kind && a->name != NULL && g_strcmp0 (a->name, b->name) == 0;
}

/* The first device of the rig of the same part that nothing is chosen for yet. */
static const RwDevice *
next_of_part (const RwRecall *recall, guint index, GHashTable *taken)
{
  const RwPart *part = rw_rig_part_of (recall->set->state, rw_recall_get (recall, index)->stored);

  for (guint i = 0; i < rw_rig_n (recall->rig, RW_ITEM_DEVICE); i++)
    {
      const RwDevice *device = (const RwDevice *) rw_rig_items (recall->rig, RW_ITEM_DEVICE)[i];

      if (!g_hash_table_contains (taken, device) && same_part (part, rw_rig_part_of (recall->rig, device))
          && rw_recall_fits (recall, index, device, NULL))
        return device;
    }
  return NULL;
}

/* Each device to itself where it is still there, then to others of its part, in order. */
static void
choose_targets (RwRecall *recall)
{
  g_autoptr (GHashTable) taken = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < rw_recall_n (recall); i++)
    {
      const RwDevice *same = rw_rig_device (recall->rig, rw_item_key (rw_recall_get (recall, i)->stored));

      if (same == NULL || !rw_recall_fits (recall, i, same, NULL))
        continue;
      rw_recall_get (recall, i)->target = same;
      g_hash_table_add (taken, (gpointer) same);
    }
  for (guint i = 0; i < rw_recall_n (recall); i++)
    {
      RwRecallDevice *device = rw_recall_get (recall, i);

      if (device->target != NULL)
        continue;
      device->target = next_of_part (recall, i, taken);
      g_hash_table_add (taken, (gpointer) device->target);
    }
}

/**
 * rw_recall_new:
 * @rig: a rig, which must not change while the recall is there
 * @set: a patch set, of this rig or any other
 *
 * Each device of the set is given to the device of the rig with its id, else to one of the same part, in the order of
 * both lists; what finds none is left out until rw_recall_set_target() says otherwise.
 *
 * Returns: (transfer full): the recall
 */
RwRecall *
rw_recall_new (const RwRig *rig, const RwPatchSet *set)
{
  RwRecall *recall = g_new0 (RwRecall, 1);
  guint n = rw_rig_n (set->state, RW_ITEM_DEVICE);

  recall->rig = rig;
  recall->set = rw_item_ref ((gpointer) set);
  recall->devices = g_array_new (FALSE, TRUE, sizeof (RwRecallDevice));
  g_array_set_size (recall->devices, n);
  for (guint i = 0; i < n; i++)
    rw_recall_get (recall, i)->stored = (const RwDevice *) rw_rig_items (set->state, RW_ITEM_DEVICE)[i];
  find_needs (recall);
  choose_targets (recall);
  return recall;
}

void
rw_recall_free (RwRecall *recall)
{
  rw_item_unref (recall->set);
  g_array_unref (recall->devices);
  g_free (recall);
}

/**
 * rw_recall_set_target:
 * @target: (nullable): a device of the rig; %NULL = leave the stored one out
 */
void
rw_recall_set_target (RwRecall *recall, guint index, const RwDevice *target)
{
  rw_recall_get (recall, index)->target = target;
}

static gboolean
refuse (GError **error, char *message)
{
  g_set_error_literal (error, RW_RIG_ERROR, RW_RIG_ERROR_REFERENCE, message);
  g_free (message);
  return FALSE;
}

static gboolean
check_device (const RwRecall *recall, guint index, GHashTable *taken, GError **error)
{
  const RwRecallDevice *device = rw_recall_get (recall, index);
  const RwRecallDevice *other = device->target != NULL ? g_hash_table_lookup (taken, device->target) : NULL;
  char *why = NULL;

  if (device->target == NULL && g_strcmp0 (recall->set->device, rw_item_key (device->stored)) == 0)
    /* Translators: a console. */
    return refuse (error, g_strdup_printf (_("the set is of %s: choose a console that takes its place"), rw_device_title (device->stored)));
  if (other != NULL)
    /* Translators: a device of the rig, then two of the stored patch. */
    return refuse (error, g_strdup_printf (_("%s cannot take the place of both %s and %s"), rw_device_title (device->target),
                                           rw_device_title (other->stored), rw_device_title (device->stored)));
  if (device->target != NULL && !rw_recall_fits (recall, index, device->target, &why))
    return refuse (error, why);
  if (device->target != NULL)
    g_hash_table_insert (taken, (gpointer) device->target, (gpointer) device);
  return TRUE;
}

/**
 * rw_recall_check:
 * @error: RW_RIG_ERROR_REFERENCE: which choice cannot be, and why
 *
 * Returns: whether the set can be recalled as it was chosen
 */
gboolean
rw_recall_check (const RwRecall *recall, GError **error)
{
  g_autoptr (GHashTable) taken = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < rw_recall_n (recall); i++)
    if (!check_device (recall, i, taken, error))
      return FALSE;
  return TRUE;
}
