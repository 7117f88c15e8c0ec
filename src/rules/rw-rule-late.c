/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>
#include <net/rw-forecast.h>

#include "rw-fix.h"
#include "rw-rule.h"
#include "rw-rule-words.h"

static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint listener, const RwArrival *worst)
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
                            rw_net_device_title (net, listener), latency_us, rw_arrival_safe_us (worst));
  else
    /* Translators: a device, a time in µs, a device, a time in µs, a time in µs */
    rw_finding_set_message (finding, _("What %s sends takes up to %.0f µs to %s, which waits %d µs: that is near; %d µs would be "
                                       "safer"),
                            rw_net_device_title (net, worst->talker), worst->delay_ns / 1e3,
                            rw_net_device_title (net, listener), latency_us, rw_arrival_safe_us (worst));
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  const RwArrival *worst = rw_net_forecast (net)->arrivals;

  for (guint i = 0; i < net->n_devices; i++)
    if (worst[i].delay_ns > 0.9 * 1e3 * net->devices[i].receive_latency_us)
      report (rule, rig, net, findings, i, &worst[i]);
}

static void
fix (const RwFinding *finding, const RwRig *rig, GPtrArray *fixes)
{
  g_autoptr (RwNet) net = rw_net_new (rig);
  guint listener = rw_net_find_device (net, finding->devices[0]);
  int latency_us = rw_arrival_safe_us (&rw_net_forecast (net)->arrivals[listener]);

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
