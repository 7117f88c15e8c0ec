/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <math.h>
#include <net/rw-forecast.h>

#include "rw-fix.h"
#include "rw-rule.h"
#include "rw-rule-words.h"

/* By listener: the talker that takes longest to reach it, and how long. */
typedef struct
{
  guint talker;
  double delay_ns;
  double packet_time_ns;
} Worst;

/* The longest of the ways between the two, over whichever plane; 0 where there is none. */
static double
longest_way (const RwNet *net, guint from, guint to, double packet_time_ns)
{
  const RwForecast *f = rw_net_forecast (net);
  const RwNetDevice *talker = &net->devices[from];
  double longest = 0;

  for (guint i = talker->first_node; i < talker->first_node + talker->n_nodes && net->nodes[i].host; i++)
    {
      guint node = rw_net_host_node (net, to, net->nodes[i].network);

      if (node != RW_NONE && f->paths->part[node] == f->paths->part[i])
        longest = MAX (longest, rw_delay_loaded_ns (f->paths, f->lca, f->delays, i, node, packet_time_ns));
    }
  return longest;
}

static Worst *
find_worst (const RwNet *net)
{
  const RwStreams *streams = rw_net_forecast (net)->streams;
  Worst *worst = g_new0 (Worst, net->n_devices + 1);

  for (guint i = 0; i < streams->n_streams; i++)
    {
      const RwStream *stream = &streams->streams[i];

      for (guint k = 0; k < stream->listeners.n; k++)
        {
          guint listener = stream->listeners.v[k];
          double delay_ns = longest_way (net, stream->talker, listener, stream->frame.packet_time_ns);

          if (delay_ns > worst[listener].delay_ns)
            worst[listener] = (Worst){ stream->talker, delay_ns, stream->frame.packet_time_ns };
        }
    }
  return worst;
}

/* The smallest whole multiple of the packet time that is enough, in whole microseconds. */
static int
safe_latency_us (const Worst *worst)
{
  double packets = ceil (worst->delay_ns / worst->packet_time_ns);
  int us = (int) ceil (packets * worst->packet_time_ns / 1e3 - 1e-6);

  /* within a tenth of the limit is too near */
  return us * 900.0 < worst->delay_ns ? (int) ceil ((packets + 1) * worst->packet_time_ns / 1e3 - 1e-6) : us;
}

static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint listener, const Worst *worst)
{
  int latency_us = net->devices[listener].receive_latency_us;
  gboolean late = worst->delay_ns > latency_us * 1e3;
  RwFinding *finding = rw_findings_begin (findings, rule, late ? RW_SEVERITY_ERROR : RW_SEVERITY_WARNING);
  guint devices[] = { listener, worst->talker };

  rw_finding_add_devices (finding, net, devices, 2);
  if (late)
    /* Translators: a device, a time in µs, a device, a time in µs, a time in µs */
    rw_finding_set_message (finding, _("What %s sends takes up to %.0f µs to %s, which waits %d µs: it comes too late and drops "
                                       "out; %d µs would do"),
                            rw_net_device_title (net, worst->talker), worst->delay_ns / 1e3,
                            rw_net_device_title (net, listener), latency_us, safe_latency_us (worst));
  else
    /* Translators: a device, a time in µs, a device, a time in µs, a time in µs */
    rw_finding_set_message (finding, _("What %s sends takes up to %.0f µs to %s, which waits %d µs: that is near; %d µs would be "
                                       "safer"),
                            rw_net_device_title (net, worst->talker), worst->delay_ns / 1e3,
                            rw_net_device_title (net, listener), latency_us, safe_latency_us (worst));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  g_autofree Worst *worst = find_worst (net);

  for (guint i = 0; i < net->n_devices; i++)
    if (worst[i].delay_ns > 0.9 * 1e3 * net->devices[i].receive_latency_us)
      report (rule, rig, net, findings, i, &worst[i]);
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  g_autofree Worst *worst = find_worst (net);
  guint listener = rw_net_find_device (net, finding->devices[0]);
  int latency_us = worst[listener].delay_ns > 0 ? safe_latency_us (&worst[listener]) : 0;

  if (latency_us > 0 && latency_us <= (int) rw_device_table.fields[RW_DEVICE_RECEIVE_LATENCY_US].max)
    rw_fix_set_latency (rig, net->devices[listener].device, latency_us, fixes);
}

const RwRule rw_rule_late = {
  .code = "late",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Sound that comes too late"),
  .why = N_("A receiver plays each sample a fixed time after it was taken. What has not arrived by then is lost, and it clicks. "
            "The delay is a planning figure, not a proven bound: packets that bunch can take longer."),
  .remedy = N_("Set a longer receive latency, or shorten the way: fewer devices in a chain, faster links."),
  .check = check,
  .fix = fix,
};
