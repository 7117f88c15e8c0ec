/* SPDX-License-Identifier: MIT */
#include "rw-rule-rows.h"

#include "rw-rule-words.h"

GArray *
rw_keyed_rows_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (RwKeyedRow));
}

void
rw_keyed_rows_add (GArray *keyed, guint64 key, guint row)
{
  RwKeyedRow one = { key, row };

  g_array_append_val (keyed, one);
}

static int
compare_rows (gconstpointer a, gconstpointer b)
{
  const RwKeyedRow *x = a, *y = b;

  if (x->key != y->key)
    return x->key < y->key ? -1 : 1;
  return (x->row > y->row) - (x->row < y->row);
}

/**
 * rw_keyed_rows_report: by key; each key's rows in file order.
 */
void
rw_keyed_rows_report (GArray *keyed, const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings,
                      RwRowsFunc report)
{
  const RwKeyedRow *k = (const RwKeyedRow *) (gpointer) keyed->data;
  g_autofree guint *rows = g_new (guint, keyed->len);

  g_array_sort (keyed, compare_rows);
  for (guint from = 0, to; from < keyed->len; from = to)
    {
      for (to = from; to < keyed->len && k[to].key == k[from].key; to++)
        rows[to - from] = k[to].row;
      report (rule, rig, net, findings, k[from].key, rows, to - from);
    }
}

/* Rows whose two devices differ, gathered under the pair. */
void
rw_pairs_check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, RwPairFunc differ,
                RwRowsFunc report)
{
  const RwRows *patch = rw_net_rows (net);
  g_autoptr (GArray) keyed = rw_keyed_rows_new ();

  for (guint i = 0; i < patch->n; i++)
    {
      guint from = patch->from[i], to = patch->to[i];

      if (from != to && differ (net, from, to))
        rw_keyed_rows_add (keyed, RW_PAIR_KEY (MIN (from, to), MAX (from, to)), i);
    }
  rw_keyed_rows_report (keyed, rule, rig, net, findings, report);
}

/* How many channels of the sort that @field counts a part has. */
int
rw_part_count (const RwPart *part, guint field)
{
  return *(const int *) RW_FIELD_PTR (part, &rw_part_table.fields[field]);
}

void
rw_slots_init (RwSlots *slots, const RwNet *net, guint field)
{
  slots->start = g_new (guint, net->n_devices + 1);
  slots->n = 0;
  for (guint i = 0; i < net->n_devices; i++)
    {
      slots->start[i] = slots->n;
      slots->n += (guint) rw_part_count (net->devices[i].part, field);
    }
  slots->start[net->n_devices] = slots->n;
}

void
rw_slots_clear (RwSlots *slots)
{
  g_clear_pointer (&slots->start, g_free);
}

/* @type: RW_ITEM_PATCH or RW_ITEM_INSIDE. */
void
rw_finding_add_rows (RwFinding *finding, const RwRig *rig, RwItemType type, const guint *rows, guint n)
{
  for (guint i = 0; i < n; i++)
    rw_finding_add_row (finding, rw_item_key (rw_rig_items (rig, type)[rows[i]]));
}

/**
 * rw_findings_begin_pair: a finding about the two devices of the pair @key and the rows of the patch between them.
 * Returns: (transfer none): its message is to be set
 */
RwFinding *
rw_findings_begin_pair (RwFindings *findings, const RwRule *rule, const RwRig *rig, const RwNet *net, guint64 key,
                        const guint *rows, guint n)
{
  const guint devices[] = { RW_KEY_FIRST (key), RW_KEY_SECOND (key) };
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_devices (finding, net, devices, G_N_ELEMENTS (devices));
  rw_finding_add_rows (finding, rig, RW_ITEM_PATCH, rows, n);
  return finding;
}

void
rw_finding_add_slot (RwFinding *finding, const RwNet *net, guint device, RwChannelSide side, int number)
{
  g_autofree char *key = rw_channel_key (rw_item_key (net->devices[device].device), side, number);

  rw_finding_add_channel (finding, key);
}
