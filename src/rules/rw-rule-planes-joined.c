/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

/* Breadth-first search from all primary interfaces of a network at once; the arrays serve all networks in turn. */
typedef struct
{
  const RwNet *net;
  guint *queue;
  guint *through; /* by node: the link by which it was reached, START_HERE, or NOT_REACHED */
} RwSearch;

#define NOT_REACHED RW_NONE
#define START_HERE (RW_NONE - 1)

static void
search_clear (RwSearch *search)
{
  g_free (search->queue);
  g_free (search->through);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (RwSearch, search_clear)

static gboolean
is_interface (const RwNet *net, guint node, RwSide side)
{
  const RwNetNode *n = &net->nodes[node];

  return n->kind == RW_NODE_INTERFACE && n->side == side && net->devices[n->device].mode == RW_MODE_REDUNDANT;
}

static guint
start_search (RwSearch *search, const RwNetwork *network)
{
  guint n = 0;

  for (guint i = 0; i < network->nodes.n; i++)
    {
      guint node = network->nodes.v[i];
      gboolean start = is_interface (search->net, node, RW_SIDE_PRIMARY);

      search->through[node] = start ? START_HERE : NOT_REACHED;
      if (start)
        search->queue[n++] = node;
    }
  return n;
}

/* The nearest secondary interface; of equally near ones the first that is met. */
static guint
find_secondary (RwSearch *search, const RwNetwork *network)
{
  const RwNet *net = search->net;
  guint n_queued = start_search (search, network);

  for (guint i = 0; i < n_queued; i++)
    {
      guint node = search->queue[i];

      if (is_interface (net, node, RW_SIDE_SECONDARY))
        return node;
      for (guint j = net->adjacency_start[node]; j < net->adjacency_start[node + 1]; j++)
        {
          guint other = rw_net_other_node (net, net->adjacency[j], node);

          if (search->through[other] != NOT_REACHED)
            continue;
          search->through[other] = net->adjacency[j];
          search->queue[n_queued++] = other;
        }
    }
  return RW_NONE;
}

static void
add_once (GArray *indices, guint index)
{
  if (indices->len == 0 || g_array_index (indices, guint, indices->len - 1) != index)
    g_array_append_val (indices, index);
}

/* Walks back from @node to the primary where the search began, and turns the lists round. */
static void
trace_way (const RwSearch *search, guint node, GArray *devices, GArray *cables)
{
  const RwNet *net = search->net;

  add_once (devices, net->nodes[node].device);
  while (search->through[node] != START_HERE)
    {
      guint link = search->through[node];

      g_array_append_val (cables, net->links[link].cable);
      node = rw_net_other_node (net, link, node);
      add_once (devices, net->nodes[node].device);
    }
  for (guint pass = 0; pass < 2; pass++)
    {
      GArray *list = pass == 0 ? devices : cables;
      guint *v = (guint *) (gpointer) list->data;

      for (guint i = 0; i < list->len / 2; i++)
        {
          guint swap = v[i];

          v[i] = v[list->len - 1 - i];
          v[list->len - 1 - i] = swap;
        }
    }
}

static char *
say_joined (const RwNet *net, const GArray *devices, const GArray *cables)
{
  const guint *device = (const guint *) (gpointer) devices->data;
  const char *first = rw_net_device_title (net, device[0]);
  const char *last = rw_net_device_title (net, device[devices->len - 1]);
  g_autofree char *names = rw_words_cables (net, (const guint *) (gpointer) cables->data, cables->len);

  if (device[0] == device[devices->len - 1])
    /* Translators: a device, a list of cables */
    return g_strdup_printf (ngettext ("Primary and secondary of %s meet through cable %s: both planes are one network, "
                                      "and one fault takes both",
                                      "Primary and secondary of %s meet through cables %s: both planes are one "
                                      "network, and one fault takes both", cables->len), first, names);
  /* Translators: a device, another device, a list of cables */
  return g_strdup_printf (ngettext ("The primary of %s meets the secondary of %s through cable %s: both planes are one "
                                    "network, and one fault takes both",
                                    "The primary of %s meets the secondary of %s through cables %s: both planes are "
                                    "one network, and one fault takes both", cables->len), first, last, names);
}

/* The first and the last device may be one: it is named once. */
static void
report (const RwRule *rule, const RwSearch *search, guint secondary, RwFindings *findings)
{
  const RwNet *net = search->net;
  g_autoptr (GArray) devices = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) cables = g_array_new (FALSE, FALSE, sizeof (guint));
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  const guint *device;
  guint n;

  trace_way (search, secondary, devices, cables);
  device = (const guint *) (gpointer) devices->data;
  n = devices->len > 1 && device[0] == device[devices->len - 1] ? devices->len - 1 : devices->len;
  rw_finding_add_devices (finding, net, device, n);
  rw_finding_add_cables (finding, net, (const guint *) (gpointer) cables->data, cables->len);
  rw_finding_take_message (finding, say_joined (net, devices, cables));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  const RwPlanes both = RW_PLANE_PRIMARY | RW_PLANE_SECONDARY;
  g_auto (RwSearch) search = { net, g_new (guint, net->n_nodes + 1), g_new (guint, net->n_nodes + 1) };

  for (guint i = 0; i < net->n_networks; i++)
    {
      guint secondary;

      if ((net->networks[i].planes & both) != both)
        continue;
      secondary = find_secondary (&search, &net->networks[i]);
      if (secondary != RW_NONE)
        report (rule, &search, secondary, findings);
    }
}

/* If @cable ends in the @side port of a redundant device, it may belong in the other one. */
static void
fix_end (const RwRig *rig, const RwCable *cable, RwSide side, GPtrArray *fixes)
{
  const RwEnd *ends[] = { &cable->from, &cable->to };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      const RwDevice *device = rw_rig_device (rig, ends[i]->device);
      const RwPart *part = rw_rig_part_of (rig, device);
      const RwPort *port = rw_part_port (part, rw_part_find_port (part, ends[i]->port));

      if (!rw_part_forwards (part) && rw_device_mode (device, part) == RW_MODE_REDUNDANT && port->side == (int) side)
        {
          rw_fix_move_to_side (rig, rw_item_key (cable), ends[i]->device, ends[i]->port,
                               side == RW_SIDE_PRIMARY ? RW_SIDE_SECONDARY : RW_SIDE_PRIMARY, fixes);
          return;
        }
    }
}

static void
fix_chained (const RwRig *rig, const RwFinding *finding, GPtrArray *fixes)
{
  const char *chained[1];
  guint n = 0;

  for (char **id = finding->devices; *id != NULL; id++)
    {
      const RwDevice *device = rw_rig_device (rig, *id);
      const RwPart *part = rw_rig_part_of (rig, device);

      if (rw_part_forwards (part) || rw_device_mode (device, part) != RW_MODE_CHAIN)
        continue;
      if (n++ == 0)
        chained[0] = *id;
    }
  if (n == 1)
    rw_fix_set_mode (rig, chained, 1, RW_MODE_REDUNDANT, fixes);
}

/* A crossed cable is mended at either of its ends; a chain device across both planes by its mode. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  guint n = g_strv_length (finding->cables);

  fix_chained (rig, finding, fixes);
  fix_end (rig, rw_rig_cable (rig, finding->cables[n - 1]), RW_SIDE_SECONDARY, fixes);
  fix_end (rig, rw_rig_cable (rig, finding->cables[0]), RW_SIDE_PRIMARY, fixes);
}

const RwRule rw_rule_planes_joined = {
  .code = "planes-joined",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Primary and secondary plane joined"),
  .why = N_("Redundant devices send everything twice, over two networks that must not meet: then a fault in one leaves "
            "the other playing. A crossed cable, a switch or a chain device that touches both makes one network of "
            "them, in which every stream runs twice and one fault takes all."),
  .remedy = N_("Follow the cables named here and plug primary only to primary and secondary only to secondary, with "
               "switches, or VLANs, of their own for each."),
  .check = check,
  .fix = fix,
};
