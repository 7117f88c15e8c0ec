/* SPDX-License-Identifier: MIT */
#include "rw-rule-plugs.h"

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

/* What is plugged into the wanted ports, by port, then file order; a cable with both ends in one port once. */
static GArray *
collect_plugs (const RwNet *net, RwPortFunc wanted)
{
  GArray *plugs = g_array_new (FALSE, FALSE, sizeof (RwPlug));

  for (guint cable = 0; cable < net->n_cables; cable++)
    {
      const guint *port = net->cables[cable].port;

      for (guint end = 0; end < (port[0] == port[1] ? 1 : 2); end++)
        if (wanted (net, port[end]))
          {
            RwPlug plug = { port[end], cable };

            g_array_append_val (plugs, plug);
          }
    }
  g_array_sort (plugs, compare_plugs);
  return plugs;
}

/**
 * rw_plugs_check: tells @report of each wanted port into which something is plugged, by device, then port.
 */
void
rw_plugs_check (const RwRule *rule, const RwNet *net, RwFindings *findings, RwPortFunc wanted, RwPlugsFunc report)
{
  g_autoptr (GArray) plugs = collect_plugs (net, wanted);
  const RwPlug *plug = (const RwPlug *) (gpointer) plugs->data;
  g_autofree guint *cables = g_new (guint, plugs->len);

  for (guint from = 0, to; from < plugs->len; from = to)
    {
      for (to = from; to < plugs->len && plug[to].port == plug[from].port; to++)
        cables[to - from] = plug[to].cable;
      report (rule, net, findings, plug[from].port, cables, to - from);
    }
}
