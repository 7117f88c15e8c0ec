/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <math.h>
#include <rig/rw-length.h>

#include "rw-facts.h"

static const char *
title (const RwFacts *facts, guint device)
{
  return device != RW_NONE ? rw_device_title (facts->net->devices[device].device) : _("nobody");
}

static void
append_tree (const RwFacts *facts, GString *text, guint network)
{
  g_autoptr (GArray) blocked = g_array_new (FALSE, FALSE, sizeof (guint));
  guint root, depth;

  if (!rw_facts_tree (facts, network, &root, &depth, blocked))
    return;
  /* Translators: %s is a device, %u how many bridges deep the spanning tree is below it */
  g_string_append_printf (text, _("  spanning tree: root %s, depth %u\n"), title (facts, root), depth);
  for (guint i = 0; i < blocked->len; i++)
    {
      const RwNetPort *port = &facts->net->ports[g_array_index (blocked, guint, i)];
      /* Translators: a device and one of its ports */
      g_string_append_printf (text, _("  held open: %s, port %s\n"), title (facts, port->device), port->port->name);
    }
}

static void
append_network (const RwFacts *facts, GString *text, guint index)
{
  const RwNetwork *network = &facts->net->networks[index];
  g_autofree char *id = rw_facts_network_id (facts, index);
  guint leader = rw_clocks_network_leader (rw_net_forecast (facts->net)->clocks, index, rw_rig_system (facts->rig)->clock_domain);

  g_string_append_printf (text, "%s: ", id);
  g_string_append_printf (text, ngettext ("%u device", "%u devices", network->devices.n), network->devices.n);
  g_string_append (text, ", ");
  g_string_append_printf (text, ngettext ("%u cable", "%u cables", network->cables.n), network->cables.n);
  g_string_append (text, ", ");
  g_string_append_printf (text, ngettext ("%u loop", "%u loops", network->n_loops), network->n_loops);
  g_string_append (text, network->storm ? _(" – nothing holds it open, and frames circulate without end\n") : "\n");
  append_tree (facts, text, index);
  /* Translators: %s is a device */
  g_string_append_printf (text, _("  clock leader: %s\n"), title (facts, leader));
}

static void
append_titles (const RwFacts *facts, GString *text, RwSlice indices, gboolean cables, const char *between)
{
  for (guint i = 0; i < indices.n; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? between : "",
                            cables ? rw_cable_title (facts->net->cables[indices.v[i]].cable) : title (facts, indices.v[i]));
}

/* Of all the cables on a way; 0 = one of them has none yet. */
static double
length_of (const RwFacts *facts, RwSlice cables)
{
  double metres = 0;

  for (guint i = 0; i < cables.n; i++)
    {
      double length = facts->net->cables[cables.v[i]].cable->length_m;
      if (!(length > 0))
        return 0;
      metres += length;
    }
  return metres;
}

static void
append_path (const RwFacts *facts, GString *text, const RwFactsPath *path)
{
  g_autofree char *network = rw_facts_network_id (facts, path->network);
  g_autoptr (GArray) way = rw_facts_way (facts, path);
  guint hops = rw_facts_hops (facts, path), *cables = (guint *) (gpointer) way->data;
  double metres;

  for (guint i = 0; i < way->len; i++)
    cables[i] = facts->net->links[cables[i]].cable;
  metres = length_of (facts, (RwSlice){ cables, way->len });
  g_string_append_printf (text, "%s → %s (%s): ", title (facts, path->from), title (facts, path->to), network != NULL ? network : "–");
  g_string_append_printf (text, ngettext ("%u hop", "%u hops", hops), hops);
  g_string_append_printf (text, ", %.1f µs", path->delay_ns / 1e3);
  if (metres > 0)
    {
      g_autofree char *length = rw_length_text (round (metres * 100) / 100);
      g_string_append_printf (text, ", %s", length);
    }
  g_string_append (text, way->len > 0 ? ", " : "");
  append_titles (facts, text, (RwSlice){ cables, way->len }, TRUE, " → ");
  g_string_append_c (text, '\n');
}

static void
append_links (const RwFacts *facts, GString *text)
{
  const RwNet *net = facts->net;
  const RwLoads *loads = rw_net_forecast (net)->loads;

  for (guint i = 0; i < 2 * net->n_cables; i++)
    {
      const RwNetCable *cable = &net->cables[i / 2];
      if (loads->loads[i].n_streams > 0)
        g_string_append_printf (text, "%s, %s → %s: %.1f Mb/s, %.1f %%\n", rw_cable_title (cable->cable),
                                title (facts, net->ports[cable->port[i % 2]].device),
                                title (facts, net->ports[cable->port[1 - i % 2]].device), loads->loads[i].mbps,
                                rw_load_percent (net, loads, i / 2, i % 2));
    }
}

/* What is named of a failure: its rows by their ids, as they have no names, and its devices. */
static void
append_lost (const RwFacts *facts, GString *text, guint device, guint cable)
{
  g_auto (GStrv) rows = NULL, devices = NULL;
  g_autofree char *joined_rows = NULL;

  rw_facts_lost (facts, device, cable, &rows, &devices);
  joined_rows = g_strjoinv (", ", rows);
  if (*joined_rows != '\0')
    /* Translators: %s is a list of ids of patch rows */
    g_string_append_printf (text, _("\n  rows: %s"), joined_rows);
  if (devices[0] != NULL)
    g_string_append (text, _("\n  devices: "));
  for (guint i = 0; devices[i] != NULL; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", title (facts, rw_net_find_device (facts->net, devices[i])));
}

static void
append_failure (const RwFacts *facts, GString *text, const char *name, RwLoss loss, guint device, guint cable)
{
  if (loss.rows + loss.devices == 0)
    return;
  g_string_append_printf (text, "%s: ", name);
  g_string_append_printf (text, ngettext ("%u line lost", "%u lines lost", loss.rows), loss.rows);
  g_string_append (text, ", ");
  g_string_append_printf (text, ngettext ("%u device without a controller", "%u devices without a controller", loss.devices),
                          loss.devices);
  if (facts->list)
    append_lost (facts, text, device, cable);
  g_string_append_c (text, '\n');
}

static void
append_failures (const RwFacts *facts, GString *text)
{
  for (guint i = 0; i < facts->net->n_devices; i++)
    append_failure (facts, text, title (facts, i), facts->survival->devices[i], i, RW_NONE);
  for (guint i = 0; i < facts->net->n_cables; i++)
    append_failure (facts, text, rw_cable_title (facts->net->cables[i].cable), facts->survival->cables[i], RW_NONE, i);
}

static void
append_networks (const RwFacts *facts, GString *text)
{
  for (guint i = 0; i < facts->networks->len; i++)
    append_network (facts, text, g_array_index (facts->networks, guint, i));
}

static void
append_paths (const RwFacts *facts, GString *text)
{
  for (guint i = 0; i < facts->paths->len; i++)
    append_path (facts, text, &g_array_index (facts->paths, RwFactsPath, i));
}

/* What each receiver is set to wait, and how far that could go down. */
static void
append_receivers (const RwFacts *facts, GString *text)
{
  const RwArrival *arrivals = rw_net_forecast (facts->net)->arrivals;

  for (guint i = 0; i < facts->net->n_devices; i++)
    if (arrivals[i].talker != RW_NONE)
      {
        /* Translators: a device, a time in µs that is set, the smallest safe one, a device, a time in µs. */
        g_string_append_printf (text, _("%s: set %d µs, smallest safe %d µs (%s: up to %.1f µs)"), title (facts, i),
                                facts->net->devices[i].receive_latency_us, rw_arrival_safe_us (&arrivals[i]),
                                title (facts, arrivals[i].talker), arrivals[i].delay_ns / 1e3);
        g_string_append_c (text, '\n');
      }
}

/* A heading and what stands under it, said to be nothing where it is. */
static void
append_section (const RwFacts *facts, GString *text, const char *heading, void (*append) (const RwFacts *, GString *))
{
  gsize length;

  g_string_append_printf (text, "%s%s\n", text->len > 0 ? "\n" : "", heading);
  length = text->len;
  append (facts, text);
  if (text->len == length)
    /* Translators: what stands under a heading that has nothing to tell */
    g_string_append_printf (text, "%s\n", _("none"));
}

static void
append_no_way (const RwFacts *facts, GString *text)
{
  const char *from = title (facts, facts->from), *to = title (facts, facts->to);
  gboolean from_plays = rw_net_has_host (facts->net, facts->from);

  if (from_plays && rw_net_has_host (facts->net, facts->to))
    /* Translators: two devices */
    g_string_append_printf (text, _("There is no way from %s to %s: no network joins them."), from, to);
  else
    /* Translators: two devices, and the one of them that neither plays nor listens, such as a switch */
    g_string_append_printf (text, _("There is no way from %s to %s: no network audio begins or ends at %s."), from, to,
                            from_plays ? to : from);
  g_string_append_c (text, '\n');
}

/**
 * rw_facts_to_text:
 *
 * Appends the facts as a person reads them. Who asks for one path gets that alone, and with it what failures cost if
 * that was asked for as well.
 */
void
rw_facts_to_text (const RwFacts *facts, GString *text)
{
  gboolean all = facts->from == RW_NONE;

  if (all)
    append_section (facts, text, _("Networks"), append_networks);
  if (all || facts->paths->len > 0)
    append_section (facts, text, _("Paths (planning delay, not a proven bound: bunched packets can take longer)"), append_paths);
  else
    append_no_way (facts, text);
  if (all)
    append_section (facts, text, _("Receive latency"), append_receivers);
  if (all)
    append_section (facts, text, _("Load"), append_links);
  if (all || facts->list)
    append_section (facts, text, _("Single failures that cost something (after the spanning tree has formed anew: "
                                   "up to 30–50 s with classic timers; only two planes play on without a gap)"), append_failures);
}
