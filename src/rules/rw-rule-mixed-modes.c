/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

#define AT(array, i) g_array_index (array, guint, i)
#define WORDS_OF(net, array) rw_words_devices (net, (const guint *) (gpointer) (array)->data, (array)->len)

/* The devices of a system that play or listen, hold an audio cable and have this mode, in file order. */
static GArray *
devices_in_mode (const RwNet *net, const RwNetSystem *system, RwMode mode)
{
  GArray *devices = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < system->devices.n; i++)
    {
      const RwNetDevice *device = &net->devices[system->devices.v[i]];

      if (!device->forwards && device->mode == mode && device->n_audio_cables > 0)
        g_array_append_val (devices, system->devices.v[i]);
    }
  return devices;
}

static gboolean
is_host_in (const RwNet *net, guint device, guint network)
{
  const RwNetDevice *d = &net->devices[device];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if (net->nodes[i].host && net->nodes[i].network == network)
      return TRUE;
  return FALSE;
}

static guint
count_hosts (const RwNet *net, const RwNetwork *network)
{
  guint n = 0;

  for (guint i = 0; i < network->nodes.n; i++)
    n += net->nodes[network->nodes.v[i]].host;
  return n;
}

/* The network of the system with the most hosts; of equal ones the first. */
static guint
main_network (const RwNet *net, const RwNetSystem *system)
{
  guint best = system->networks.v[0], most = 0;

  for (guint i = 0; i < system->networks.n; i++)
    {
      guint n = count_hosts (net, &net->networks[system->networks.v[i]]);

      if (n > most)
        {
          most = n;
          best = system->networks.v[i];
        }
    }
  return best;
}

/* Cabled devices of the system that are no host in its main network. */
static GArray *
cut_off_devices (const RwNet *net, const RwNetSystem *system)
{
  GArray *cut = g_array_new (FALSE, FALSE, sizeof (guint));
  guint network = main_network (net, system);

  for (guint i = 0; i < system->devices.n; i++)
    {
      guint device = system->devices.v[i];

      if (!net->devices[device].forwards && net->devices[device].n_audio_cables > 0
          && !is_host_in (net, device, network))
        g_array_append_val (cut, device);
    }
  return cut;
}

static gboolean
joins_planes (const RwNet *net, guint device)
{
  const RwPlanes both = RW_PLANE_PRIMARY | RW_PLANE_SECONDARY;
  const RwNetDevice *d = &net->devices[device];

  for (guint i = d->first_node; i < d->first_node + d->n_nodes; i++)
    if ((net->networks[net->nodes[i].network].planes & both) == both)
      return TRUE;
  return FALSE;
}

static GArray *
joining_devices (const RwNet *net, const GArray *chained)
{
  GArray *joining = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < chained->len; i++)
    if (joins_planes (net, AT (chained, i)))
      g_array_append_val (joining, AT (chained, i));
  return joining;
}

/* What comes of it, as the second half of a sentence. */
static char *
say_consequence (const RwNet *net, const RwNetSystem *system, const GArray *chained, gboolean chain_is_few)
{
  g_autoptr (GArray) joining = joining_devices (net, chained);
  g_autoptr (GArray) cut = cut_off_devices (net, system);
  g_autofree char *names = NULL;

  if (joining->len > 0)
    {
      names = WORDS_OF (net, joining);
      /* Translators: a list of devices */
      return g_strdup_printf (_("the two planes are joined into one network through %s"), names);
    }
  if (cut->len > 0)
    {
      names = WORDS_OF (net, cut);
      /* Translators: a list of devices */
      return g_strdup_printf (_("a redundant device passes nothing on between its two ports, so the others do "
                                "not reach %s"), names);
    }
  if (chain_is_few)
    return g_strdup (_("a device in chain mode has no second path here, and joins the two planes as soon as its "
                       "other port is cabled"));
  return g_strdup (_("a redundant device passes nothing on between its two ports, so whatever is cabled behind it "
                     "is cut off"));
}

static char *
say_mixed (const RwNet *net, const GArray *few, const GArray *many, gboolean chain_is_few, const char *consequence)
{
  g_autofree char *names = WORDS_OF (net, few);
  g_autofree char *head = NULL;

  if (chain_is_few)
    /* Translators: a number of devices, their names; a second half follows: "1 device in chain mode (Stage left)" */
    head = g_strdup_printf (ngettext ("%u device in chain mode (%s)", "%u devices in chain mode (%s)", few->len),
                            few->len, names);
  else
    head = g_strdup_printf (ngettext ("%u device in redundant mode (%s)", "%u devices in redundant mode (%s)",
                                      few->len), few->len, names);
  if (chain_is_few)
    /* Translators: "1 device in chain mode (…)", a number of devices, what comes of it */
    return g_strdup_printf (ngettext ("%s and %u in redundant mode share one system: %s",
                                      "%s and %u in redundant mode share one system: %s", many->len),
                            head, many->len, consequence);
  /* Translators: "1 device in redundant mode (…)", a number of devices, what comes of it */
  return g_strdup_printf (ngettext ("%s and %u in chain mode share one system: %s",
                                    "%s and %u in chain mode share one system: %s", many->len),
                          head, many->len, consequence);
}

static void
check_system (const RwRule *rule, const RwNet *net, const RwNetSystem *system, RwFindings *findings)
{
  g_autoptr (GArray) chained = devices_in_mode (net, system, RW_MODE_CHAIN);
  g_autoptr (GArray) redundant = devices_in_mode (net, system, RW_MODE_REDUNDANT);
  gboolean chain_is_few = chained->len < redundant->len;
  const GArray *few = chain_is_few ? chained : redundant;
  g_autofree char *consequence = NULL;
  RwFinding *finding;

  if (chained->len == 0 || redundant->len == 0)
    return;
  consequence = say_consequence (net, system, chained, chain_is_few);
  finding = rw_findings_begin (findings, rule, rule->severity);
  rw_finding_add_devices (finding, net, (const guint *) (gpointer) few->data, few->len);
  rw_finding_take_message (finding, say_mixed (net, few, chain_is_few ? redundant : chained, chain_is_few,
                                               consequence));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  for (guint i = 0; i < net->n_systems; i++)
    check_system (rule, net, &net->systems[i], findings);
}

/* Either the few take the mode of the many, or all take that of the few. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  const RwDevice *first = rw_rig_device (rig, finding->devices[0]);
  g_autoptr (RwNet) net = rw_net_new (rig);
  guint index = rw_net_find_device (net, finding->devices[0]);
  RwMode few = rw_device_mode (first, rw_rig_part_of (rig, first));
  RwMode many = few == RW_MODE_CHAIN ? RW_MODE_REDUNDANT : RW_MODE_CHAIN;
  g_autoptr (GPtrArray) others = g_ptr_array_new ();

  rw_fix_set_mode (rig, (const char *const *) finding->devices, g_strv_length (finding->devices), many, fixes);
  if (net->devices[index].system == RW_NONE)
    return;
  {
    g_autoptr (GArray) rest = devices_in_mode (net, &net->systems[net->devices[index].system], many);

    for (guint i = 0; i < rest->len; i++)
      g_ptr_array_add (others, rw_item_key (net->devices[AT (rest, i)].device));
    rw_fix_set_mode (rig, (const char *const *) others->pdata, others->len, few, fixes);
  }
}

const RwRule rw_rule_mixed_modes = {
  .code = "mixed-modes",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Chain and redundant mode mixed"),
  .why = N_("In chain mode a device passes frames on between its primary and its secondary port; in redundant mode "
            "the two are separate interfaces and nothing passes. A redundant device in a chain cuts it in two, and a "
            "chain device between two planes makes one network of them, so that one fault takes both."),
  .remedy = N_("Set all devices of the system to the same mode: chain if they are cabled one after the other, "
               "redundant if each has a cable to either plane."),
  .check = check,
  .fix = fix,
};
