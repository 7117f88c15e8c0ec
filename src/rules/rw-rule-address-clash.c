/* SPDX-License-Identifier: MIT */
#include "rw-rule-addresses.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

static int
compare_addresses (gconstpointer a, gconstpointer b)
{
  const RwAddressUse *x = *(RwAddressUse *const *) a, *y = *(RwAddressUse *const *) b;

  if (x->network != y->network)
    return x->network < y->network ? -1 : 1;
  if (x->address.host != y->address.host)
    return x->address.host < y->address.host ? -1 : 1;
  return x < y ? -1 : x > y; /* they lie in one array, in order */
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, RwAddressUse *const *uses, guint n)
{
  g_autofree guint *devices = g_new (guint, n);
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  g_autofree char *address = rw_address_format ((RwAddress){ uses[0]->address.host, 0 });
  g_autofree char *names = NULL;

  for (guint i = 0; i < n; i++)
    {
      devices[i] = uses[i]->device;
      rw_finding_add_address (finding, net, uses[i]);
    }
  names = rw_words_devices (net, devices, n);
  /* Translators: a list of two devices or more, an address */
  rw_finding_set_message (finding, _("%s use the same address %s: now the one answers, now the other"), names, address);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GArray) uses = rw_address_uses (net);
  g_autoptr (GPtrArray) sorted = g_ptr_array_new ();

  for (guint i = 0; i < uses->len; i++)
    if (rw_address_use (uses, i)->good)
      g_ptr_array_add (sorted, rw_address_use (uses, i));
  g_ptr_array_sort (sorted, compare_addresses);
  for (guint from = 0, to; from < sorted->len; from = to)
    {
      RwAddressUse **use = (RwAddressUse **) sorted->pdata;

      for (to = from + 1; to < sorted->len && use[to]->network == use[from]->network
                          && use[to]->address.host == use[from]->address.host; to++)
        ;
      if (to - from > 1)
        report (rule, net, findings, use + from, to - from);
    }
}

/* The next address above @use's in its subnet that nobody in the rig has; 0 = none, or the subnet is not known. */
static guint32
next_free (const GArray *uses, const RwAddressUse *use)
{
  guint32 mask = rw_address_mask (use->address.prefix), size = use->address.prefix == 0 ? 0 : ~mask, start = use->address.host & mask;
  g_autoptr (GHashTable) taken = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < uses->len; i++)
    g_hash_table_add (taken, GUINT_TO_POINTER (rw_address_use (uses, i)->address.host));
  for (guint32 step = 1; size > 2 && step < size && step <= uses->len + 2; step++)
    {
      guint32 host = ((use->address.host & size) + step) % size;

      /* neither the subnet's own address nor, as it is never the remainder, its broadcast */
      if (host != 0 && !g_hash_table_contains (taken, GUINT_TO_POINTER (start | host)))
        return start | host;
    }
  return 0;
}

/* The first keeps its address, and the second gets another. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autoptr (GArray) uses = rw_address_uses (net);
  guint device;

  if (g_strv_length (finding->devices) != 2)
    return;
  device = rw_net_find_device (net, finding->devices[1]);
  for (guint i = 0; i < uses->len; i++)
    {
      const RwAddressUse *use = rw_address_use (uses, i);
      guint32 address = use->device == device && use->good ? next_free (uses, use) : 0;

      if (address != 0)
        rw_fix_set_address (rig, net->devices[device].device, use->side, (RwAddress){ address, use->address.prefix }, fixes);
    }
}

const RwRule rw_rule_address_clash = {
  .code = "address-clash",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Address used twice"),
  .why = N_("Frames find a device by its address. Where two have the same one, what is meant for the first reaches the "
            "second as often as not, and both drop in and out."),
  .remedy = N_("Give each device of a network an address of its own."),
  .check = check,
  .fix = fix,
};
