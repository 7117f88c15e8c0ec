/* SPDX-License-Identifier: MIT */
#include "rw-rule-words.h"

#include <glib/gi18n-lib.h>
#include <rig/rw-length.h>

/* A message names all things of a short list, and of a longer one the first few. */
#define LONGEST_WHOLE_LIST 6
#define N_NAMED_OF_MORE 4

/**
 * rw_words_join: "A", "A and B", "A, B and C", and from seven names on "A, B, C, D and 3 more".
 * (transfer full).
 */
char *
rw_words_join (const char *const *names, guint n)
{
  g_autoptr (GString) text = NULL;
  guint n_named = n > LONGEST_WHOLE_LIST ? N_NAMED_OF_MORE : n;
  guint n_listed = n_named < n ? n_named : n_named - 1; /* before the "and" */

  g_return_val_if_fail (n > 0, g_strdup (""));

  if (n == 1)
    return g_strdup (names[0]);
  text = g_string_new (names[0]);
  for (guint i = 1; i < n_listed; i++)
    {
      /* Translators: stands between the names of a list, before the last but one */
      g_string_append (text, _(", "));
      g_string_append (text, names[i]);
    }
  if (n_named < n)
    /* Translators: the end of a long list: the first names, then how many are not named (at least 3) */
    return g_strdup_printf (ngettext ("%s and %u more", "%s and %u more", n - n_named), text->str,
                            n - n_named);
  /* Translators: the end of a list: all names but the last, then the last */
  return g_strdup_printf (_("%s and %s"), text->str, names[n - 1]);
}

/* Of a longer list the names beyond the first few are counted, not read. (transfer full). */
char *
rw_words_devices (const RwNet *net, const guint *devices, guint n)
{
  const char *names[LONGEST_WHOLE_LIST];

  for (guint i = 0; i < MIN (n, LONGEST_WHOLE_LIST); i++)
    names[i] = rw_net_device_title (net, devices[i]);
  return rw_words_join (names, n);
}

static gboolean
joins_same (const RwCable *a, const RwCable *b)
{
  return (g_str_equal (a->from.device, b->from.device) && g_str_equal (a->to.device, b->to.device))
         || (g_str_equal (a->from.device, b->to.device) && g_str_equal (a->to.device, b->from.device));
}

/* @alone: no other cable without a label joins the same two devices. */
static char *
name_cable (const RwCable *cable, const RwDevice *from, const RwDevice *to, gboolean alone)
{
  if (rw_cable_has_label (cable))
    return g_strdup (cable->label);
  if (alone)
    /* Translators: a cable without a label, by the devices at its two ends */
    return g_strdup_printf (_("%s – %s"), rw_device_title (from), rw_device_title (to));
  /* Translators: device and port at one end of a cable, device and port at the other */
  return g_strdup_printf (_("%s, %s – %s, %s"), rw_device_title (from), cable->from.port, rw_device_title (to),
                          cable->to.port);
}

/**
 * rw_words_rig_cable: what a message calls a cable of @rig: its label, and where it has none the devices at its
 * ends, for its id stands nowhere on the drawing; with the ports where others join the same two. (transfer full).
 */
char *
rw_words_rig_cable (const RwRig *rig, const RwCable *cable)
{
  RwItem *const *cables = rw_rig_items (rig, RW_ITEM_CABLE);
  guint n = 0;

  for (guint i = 0; i < rw_rig_n (rig, RW_ITEM_CABLE); i++)
    n += !rw_cable_has_label ((const RwCable *) cables[i]) && joins_same ((const RwCable *) cables[i], cable);
  return name_cable (cable, rw_rig_device (rig, cable->from.device), rw_rig_device (rig, cable->to.device), n <= 1);
}

/* As rw_words_rig_cable(), by the index of the cable. (transfer full). */
char *
rw_words_net_cable (const RwNet *net, guint cable)
{
  guint from = rw_net_cable_device (net, cable, 0), to = rw_net_cable_device (net, cable, 1);

  return name_cable (net->cables[cable].cable, net->devices[from].device, net->devices[to].device,
                     !net->cables[cable].twin);
}

/* (transfer full). */
char *
rw_words_cables (const RwNet *net, const guint *cables, guint n)
{
  char *names[LONGEST_WHOLE_LIST + 1] = { NULL };
  char *list;

  for (guint i = 0; i < MIN (n, LONGEST_WHOLE_LIST); i++)
    names[i] = rw_words_net_cable (net, cables[i]);
  list = rw_words_join ((const char *const *) names, n);
  for (guint i = 0; i < LONGEST_WHOLE_LIST; i++)
    g_free (names[i]);
  return list;
}

/**
 * rw_words_vlans: "VLAN 10" or "VLANs 10, 20 and 30" of a network whose switches tell VLANs apart; NULL
 * for one that has none or only VLAN 1, which every port has that nobody set. (transfer full).
 */
char *
rw_words_vlans (const RwNet *net, guint network)
{
  RwSlice vlans = net->networks[network].vlans;
  char numbers[LONGEST_WHOLE_LIST][12];
  const char *names[LONGEST_WHOLE_LIST];
  g_autofree char *list = NULL;

  if (vlans.n == 0 || (vlans.n == 1 && vlans.v[0] == 1))
    return NULL;
  for (guint i = 0; i < MIN (vlans.n, LONGEST_WHOLE_LIST); i++)
    {
      g_snprintf (numbers[i], sizeof numbers[i], "%u", vlans.v[i]);
      names[i] = numbers[i];
    }
  list = rw_words_join (names, vlans.n);
  /* Translators: a list of VLAN numbers */
  return g_strdup_printf (ngettext ("VLAN %s", "VLANs %s", vlans.n), list);
}

/* "100 Mb/s", "2.5 Gb/s". (transfer full). */
char *
rw_words_speed (int mbps)
{
  return mbps < 1000 ? g_strdup_printf ("%d Mb/s", mbps) : g_strdup_printf ("%g Gb/s", mbps / 1000.0);
}

/* "12.5 m". (transfer full). */
char *
rw_words_length (double length_m)
{
  return rw_length_text (length_m);
}

/* What a person calls the value @word of a field that holds words. */
const char *
rw_words_of_field (const RwTable *table, guint field, int word)
{
  return _(table->fields[field].word_labels[word]);
}

void
rw_finding_add_devices (RwFinding *finding, const RwNet *net, const guint *devices, guint n)
{
  for (guint i = 0; i < n; i++)
    rw_finding_add_device (finding, rw_item_key (net->devices[devices[i]].device));
}

void
rw_finding_add_cables (RwFinding *finding, const RwNet *net, const guint *cables, guint n)
{
  for (guint i = 0; i < n; i++)
    rw_finding_add_cable (finding, rw_item_key (net->cables[cables[i]].cable));
}

void
rw_finding_add_net_port (RwFinding *finding, const RwNet *net, guint port)
{
  rw_finding_add_port (finding, rw_item_key (net->devices[net->ports[port].device].device),
                       rw_net_port_name (net, port));
}

/* The cable, the ports at its two ends, and their devices, each once. */
void
rw_finding_add_ends (RwFinding *finding, const RwNet *net, guint cable)
{
  guint devices[] = { rw_net_cable_device (net, cable, 0), rw_net_cable_device (net, cable, 1) };

  rw_finding_add_devices (finding, net, devices, devices[0] == devices[1] ? 1 : 2);
  for (guint end = 0; end < 2; end++)
    rw_finding_add_net_port (finding, net, net->cables[cable].port[end]);
  rw_finding_add_cables (finding, net, &cable, 1);
}

/* The device at an end of @cable: 0 = from, 1 = to. */
guint
rw_net_cable_device (const RwNet *net, guint cable, guint end)
{
  return net->ports[net->cables[cable].port[end]].device;
}

const char *
rw_net_device_title (const RwNet *net, guint device)
{
  return rw_device_title (net->devices[device].device);
}

const char *
rw_net_port_name (const RwNet *net, guint port)
{
  return net->ports[port].port->name;
}

/* How many cable ends are in the device's ports, aux ones too. */
guint
rw_net_device_cable_ends (const RwNet *net, guint device)
{
  const RwNetDevice *d = &net->devices[device];
  guint n = 0;

  for (guint i = d->first_port; i < d->first_port + d->n_ports; i++)
    n += net->ports[i].n_cables;
  return n;
}

/* The device's first port of @side, or RW_NONE. */
guint
rw_net_device_side (const RwNet *net, guint device, RwSide side)
{
  const RwNetDevice *d = &net->devices[device];

  for (guint i = d->first_port; i < d->first_port + d->n_ports; i++)
    if (net->ports[i].port->side == (int) side)
      return i;
  return RW_NONE;
}
