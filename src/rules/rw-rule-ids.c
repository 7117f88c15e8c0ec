/* SPDX-License-Identifier: MIT */
#include "rw-rule-ids.h"

#include "rw-rule-words.h"

typedef struct
{
  int id;
  guint device;
} RwIdUse;

int
rw_ids_of (const RwDevice *device, guint field)
{
  g_assert (field == RW_DEVICE_UNIT_ID || field == RW_DEVICE_CONTROLLER_ID);

  return field == RW_DEVICE_UNIT_ID ? device->unit_id : device->controller_id;
}

/* The highest ID that the system allows. */
int
rw_ids_max (const RwRig *rig, guint field)
{
  const RwSystem *system = rw_rig_system (rig);

  return field == RW_DEVICE_UNIT_ID ? system->unit_id_max : system->controller_id_max;
}

static int
compare_uses (gconstpointer a, gconstpointer b)
{
  const RwIdUse *x = a, *y = b;

  if (x->id != y->id)
    return x->id < y->id ? -1 : 1;
  return x->device < y->device ? -1 : x->device > y->device;
}

/* Every ID that is set, with its device, sorted by ID, then file order. */
static GArray *
collect_uses (const RwNet *net, guint field)
{
  GArray *uses = g_array_new (FALSE, FALSE, sizeof (RwIdUse));

  for (guint i = 0; i < net->n_devices; i++)
    {
      rw_net_fetch_ahead (net, i, 0);
      if (rw_item_has (net->devices[i].device, field))
        {
          RwIdUse use = { rw_ids_of (net->devices[i].device, field), i };

          g_array_append_val (uses, use);
        }
    }
  g_array_sort (uses, compare_uses);
  return uses;
}

const char *
rw_ids_two_or_more (guint n, const char *two, const char *more)
{
  return n == 2 ? two : more;
}

/**
 * rw_ids_check_clashes: one finding for each ID that several devices use, by ID; devices in file order.
 */
void
rw_ids_check_clashes (const RwRule *rule, const RwNet *net, RwFindings *findings, guint field,
                      RwIdsClashFunc message)
{
  g_autoptr (GArray) uses = collect_uses (net, field);
  g_autofree guint *devices = g_new (guint, uses->len);
  const RwIdUse *use = (const RwIdUse *) (gpointer) uses->data;

  for (guint from = 0, to; from < uses->len; from = to)
    {
      g_autofree char *names = NULL;
      RwFinding *finding;

      for (to = from; to < uses->len && use[to].id == use[from].id; to++)
        devices[to - from] = use[to].device;
      if (to - from < 2)
        continue;
      names = rw_words_devices (net, devices, to - from);
      finding = rw_findings_begin (findings, rule, rule->severity);
      rw_finding_add_devices (finding, net, devices, to - from);
      rw_finding_take_message (finding, message (names, to - from, use[from].id));
    }
}

/* Notes which IDs of @field are free in @rig. */
void
rw_ids_free_init (RwIdsFree *ids, const RwRig *rig, guint field)
{
  RwItem *const *devices = rw_rig_items (rig, RW_ITEM_DEVICE);

  ids->max = rw_ids_max (rig, field);
  ids->next = 1;
  ids->taken = g_new0 (gboolean, ids->max + 1);
  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_DEVICE); i++)
    if (rw_item_has (devices[i], field))
      {
        int id = rw_ids_of ((const RwDevice *) devices[i], field);

        if (id >= 1 && id <= ids->max)
          ids->taken[id] = TRUE;
      }
}

/* Takes the lowest ID that is free; 0 when none is left. */
int
rw_ids_free_take (RwIdsFree *ids)
{
  while (ids->next <= ids->max && ids->taken[ids->next])
    ids->next++;
  return ids->next <= ids->max ? ids->next++ : 0;
}

void
rw_ids_free_clear (RwIdsFree *ids)
{
  g_clear_pointer (&ids->taken, g_free);
}
