/* SPDX-License-Identifier: MIT */
#include "rw-rule-addresses.h"

#include <glib/gi18n-lib.h>

#include "rw-rule-words.h"

/* Devices of one network in one subnet. */
typedef struct
{
  guint32 subnet;
  guint prefix;
  guint n;
} Subnet;

static gboolean
is_in (const RwAddressUse *use, const Subnet *subnet)
{
  return use->address.prefix == subnet->prefix
         && (use->address.host & rw_address_mask (subnet->prefix)) == subnet->subnet;
}

static gboolean
counts (const RwAddressUse *use)
{
  return use->good && use->address.prefix > 0;
}

/* The subnet that most are in; of equal ones the first. There are seldom more than one or two. */
static gboolean
find_main (const RwAddressUse *uses, guint n, Subnet *best)
{
  g_autoptr (GHashTable) subnets = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (Subnet));

  for (guint i = 0; i < n; i++)
    {
      Subnet subnet = { uses[i].address.host & rw_address_mask (uses[i].address.prefix), uses[i].address.prefix, 0 };
      gint64 key = (gint64) subnet.subnet << 8 | subnet.prefix;
      guint place;

      if (!counts (&uses[i]))
        continue;
      place = GPOINTER_TO_UINT (g_hash_table_lookup (subnets, &key));
      if (place == 0)
        {
          g_array_append_val (list, subnet);
          place = list->len;
          g_hash_table_insert (subnets, g_memdup2 (&key, sizeof key), GUINT_TO_POINTER (place));
        }
      g_array_index (list, Subnet, place - 1).n++;
    }
  *best = (Subnet){ 0 };
  for (guint i = 0; i < list->len; i++)
    if (g_array_index (list, Subnet, i).n > best->n)
      *best = g_array_index (list, Subnet, i);
  return list->len > 1;
}

static void
report_subnet (const RwRule *rule, const RwNet *net, RwFindings *findings, const RwAddressUse *uses, guint n,
               const Subnet *best)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  g_autoptr (GArray) devices = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree char *subnet = rw_address_format ((RwAddress){ best->subnet, best->prefix });
  g_autofree char *names = NULL;

  for (guint i = 0; i < n; i++)
    if (counts (&uses[i]) && !is_in (&uses[i], best))
      {
        g_array_append_val (devices, uses[i].device);
        rw_finding_add_address (finding, net, &uses[i]);
      }
  names = rw_words_devices (net, (const guint *) (gpointer) devices->data, devices->len);
  /* Translators: a list of devices, a subnet ("10.0.0.0/24") */
  rw_finding_take_message (finding, g_strdup_printf (ngettext ("%s is not in subnet %s like the others of its network: they "
                                                               "do not reach each other",
                                                               "%s are not in subnet %s like the others of their network: "
                                                               "they do not reach each other", devices->len),
                                                     names, subnet));
}

static void
report_unreadable (const RwRule *rule, const RwNet *net, RwFindings *findings, const RwAddressUse *use)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_address (finding, net, use);
  /* Translators: a device, what stands where its address should be */
  rw_finding_set_message (finding, _("%s has “%s” for an address: four numbers up to 255 and a prefix are meant, as in "
                                     "10.0.0.5/24"), rw_net_device_title (net, use->device), use->text);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GArray) uses = rw_address_uses (net);

  for (guint from = 0, to; from < uses->len; from = to)
    {
      const RwAddressUse *use = rw_address_use (uses, from);
      Subnet best;

      for (to = from; to < uses->len && rw_address_use (uses, to)->network == use->network; to++)
        if (!rw_address_use (uses, to)->good)
          report_unreadable (rule, net, findings, rw_address_use (uses, to));
      if (find_main (use, to - from, &best))
        report_subnet (rule, net, findings, use, to - from, &best);
    }
}

const RwRule rw_rule_address_subnet = {
  .code = "address-subnet",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Address of another subnet"),
  .why = N_("Two devices talk to each other directly only if their addresses belong to one subnet. Otherwise they look for "
            "a router, and there is none: the cable is right, and yet they do not see each other."),
  .remedy = N_("Give all devices of a network addresses of one subnet, with the same prefix."),
  .check = check,
};
