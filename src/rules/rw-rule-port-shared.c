/* SPDX-License-Identifier: MIT */
#include "rw-rule.h"

#include <glib/gi18n-lib.h>

#include "rw-fix.h"
#include "rw-rule-words.h"

typedef struct
{
  guint port;
  guint cable;
} RwPlug;

static int
compare_plugs (gconstpointer a, gconstpointer b)
{
  const RwPlug *x = a, *y = b;

  if (x->port != y->port)
    return x->port < y->port ? -1 : 1;
  return x->cable < y->cable ? -1 : x->cable > y->cable;
}

/* The plugs in ports that hold more than one, by port, then file order; a cable with both ends in one port once. */
static GArray *
crowded_plugs (const RwNet *net)
{
  GArray *plugs = g_array_new (FALSE, FALSE, sizeof (RwPlug));

  for (guint cable = 0; cable < net->n_cables; cable++)
    {
      const guint *port = net->cables[cable].port;

      for (guint end = 0; end < (port[0] == port[1] ? 1 : 2); end++)
        if (net->ports[port[end]].n_cables > 1)
          {
            RwPlug plug = { port[end], cable };

            g_array_append_val (plugs, plug);
          }
    }
  g_array_sort (plugs, compare_plugs);
  return plugs;
}

static void
report (const RwRule *rule, const RwNet *net, RwFindings *findings, guint port, const guint *cables, guint n)
{
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);
  const RwNetDevice *device = &net->devices[net->ports[port].device];
  g_autofree char *names = rw_words_cables (net, cables, n);

  rw_finding_add_device (finding, rw_item_key (device->device));
  rw_finding_add_port (finding, rw_item_key (device->device), rw_net_port_name (net, port));
  rw_finding_add_cables (finding, net, cables, n);
  /* Translators: a list of cables, a port, a device, the first of those cables */
  rw_finding_set_message (finding, _("Cables %s are in one port, %s of %s: only one plug fits, so only %s is "
                                     "reckoned with"),
                          names, rw_net_port_name (net, port), rw_device_title (device->device),
                          rw_net_cable_title (net, cables[0]));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autoptr (GArray) plugs = crowded_plugs (net);
  const RwPlug *plug = (const RwPlug *) (gpointer) plugs->data;
  g_autofree guint *cables = g_new (guint, plugs->len);

  for (guint from = 0, to; from < plugs->len; from = to)
    {
      for (to = from; to < plugs->len && plug[to].port == plug[from].port; to++)
        cables[to - from] = plug[to].cable;
      if (to - from > 1)
        report (rule, net, findings, plug[from].port, cables, to - from);
    }
}

/* A free port of the same switch that is like this one takes the second cable; or it goes. */
static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  if (finding->cables[2] != NULL)
    return;
  rw_fix_move_to_like_port (rig, finding->cables[1], finding->ports[0], finding->ports[1], fixes);
  rw_fix_remove_cable (rig, finding->cables[1], fixes);
}

const RwRule rw_rule_port_shared = {
  .code = "port-shared",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Two cables in one port"),
  .why = N_("A socket takes one plug. Two cables drawn into one port cannot both be built, so whatever the second "
            "was meant to reach will not be reached."),
  .remedy = N_("Move one of the cables to a free port, or take it out."),
  .check = check,
  .fix = fix,
};
