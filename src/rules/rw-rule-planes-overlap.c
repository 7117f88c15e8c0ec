/* SPDX-License-Identifier: MIT */
#include "rw-rule-addresses.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* The addresses of a subnet, first and last. */
typedef struct
{
  guint32 first, last;
} Range;

static Range
range_of (const RwAddressUse *use)
{
  guint32 mask = rw_address_mask (use->address.prefix > 0 ? use->address.prefix : 32);

  return (Range){ use->address.host & mask, use->address.host | ~mask };
}

static int
compare_ranges (gconstpointer a, gconstpointer b)
{
  const Range *x = a, *y = b;

  return x->first != y->first ? (x->first < y->first ? -1 : 1) : (x->last > y->last) - (x->last < y->last);
}

/* Subnets lie one inside the other or apart, so a range that begins within the last one lies within it. */
static GArray *
ranges_of (RwAddressUse *const *uses, guint n, RwSide side)
{
  GArray *ranges = g_array_new (FALSE, FALSE, sizeof (Range));
  guint n_apart = 0;

  for (guint i = 0; i < n; i++)
    if (uses[i]->side == side)
      {
        Range range = range_of (uses[i]);

        g_array_append_val (ranges, range);
      }
  g_array_sort (ranges, compare_ranges);
  for (guint i = 0; i < ranges->len; i++)
    {
      Range range = g_array_index (ranges, Range, i);
      Range *last = n_apart > 0 ? &g_array_index (ranges, Range, n_apart - 1) : NULL;

      if (last == NULL || range.first > last->last)
        g_array_index (ranges, Range, n_apart++) = range;
      else
        last->last = MAX (last->last, range.last);
    }
  g_array_set_size (ranges, n_apart);
  return ranges;
}

static gboolean
meets (const GArray *ranges, Range range)
{
  guint low = 0, high = ranges->len;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (g_array_index (ranges, Range, middle).last < range.first)
        low = middle + 1;
      else
        high = middle;
    }
  return low < ranges->len && g_array_index (ranges, Range, low).first <= range.last;
}

static void
check_system (const RwRule *rule, const RwNet *net, RwFindings *findings, RwAddressUse *const *uses, guint n)
{
  g_autoptr (GArray) primary = ranges_of (uses, n, RW_SIDE_PRIMARY), secondary = ranges_of (uses, n, RW_SIDE_SECONDARY);
  RwFinding *finding = NULL;
  g_autofree char *subnet = NULL;

  for (guint i = 0; i < n; i++)
    {
      if (!meets (uses[i]->side == RW_SIDE_PRIMARY ? secondary : primary, range_of (uses[i])))
        continue;
      if (finding == NULL)
        {
          finding = rw_findings_begin (findings, rule, rule->severity);
          subnet = rw_address_format ((RwAddress){ range_of (uses[i]).first, uses[i]->address.prefix });
        }
      rw_finding_add_address (finding, net, uses[i]);
    }
  if (finding != NULL)
    /* Translators: a subnet ("10.0.0.0/24") */
    rw_finding_set_message (finding, _("Primary and secondary plane both use subnet %s: a device cannot tell by which port to "
                                       "answer"), subnet);
}

static int
compare_uses (gconstpointer a, gconstpointer b, gpointer data)
{
  const RwNet *net = data;
  const RwAddressUse *x = *(RwAddressUse *const *) a, *y = *(RwAddressUse *const *) b;
  guint i = net->devices[x->device].system, j = net->devices[y->device].system;

  if (i != j)
    return i < j ? -1 : 1;
  if (x->device != y->device)
    return x->device < y->device ? -1 : 1;
  return (x->side > y->side) - (x->side < y->side);
}

/* Only redundant devices stand in both planes. */
static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GArray) uses = rw_address_uses (net);
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();

  for (guint i = 0; i < uses->len; i++)
    if (rw_address_use (uses, i)->good && net->devices[rw_address_use (uses, i)->device].mode == RW_MODE_REDUNDANT)
      g_ptr_array_add (sorted, rw_address_use (uses, i));
  g_ptr_array_sort_with_data (sorted, compare_uses, (gpointer) net);
  for (guint from = 0, to; from < sorted->len; from = to)
    {
      RwAddressUse **use = (RwAddressUse **) sorted->pdata;

      for (to = from + 1; to < sorted->len && net->devices[use[to]->device].system == net->devices[use[from]->device].system; to++)
        ;
      check_system (rule, net, findings, use + from, to - from);
    }
}

const RwRule rw_rule_planes_overlap = {
  .code = "planes-overlap",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Both planes in one subnet"),
  .why = N_("A device with two ports chooses the port by the subnet. If both planes use the same one, it sends everything "
            "through one port, and the second plane carries nothing when the first fails."),
  .remedy = N_("Give the two planes subnets that have no address in common."),
  .check = check,
};
