/* SPDX-License-Identifier: MIT */
#include <glib/gi18n-lib.h>

#include "rw-rule-rows.h"
#include "rw-rule-words.h"

static void
report (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings, guint64 key, const guint *rows, guint n)
{
  guint talker = (guint) key;
  const RwNetDevice *device = &net->devices[talker];
  RwFinding *finding = rw_findings_begin (findings, rule, rule->severity);

  rw_finding_add_devices (finding, net, &talker, 1);
  rw_finding_add_rows (finding, rig, RW_ITEM_PATCH, rows, n);
  /* Translators: a device, a number of bytes, the most that is allowed */
  rw_finding_set_message (finding, _("%s would send %u bytes for one channel in one packet: more than %u do not fit, so nothing "
                                     "is sent"), rw_net_device_title (net, talker),
                          rw_payload_bytes (device->sample_rate_hz, device->word_bits, rw_rig_system (rig)->packet_time_us, 1),
                          (guint) RW_STREAM_PAYLOAD_BYTES);
}

static void
check (const RwRule *rule, const RwRig *rig, const RwNet *net, RwFindings *findings)
{
  const RwStreams *streams = rw_net_forecast (net)->streams;
  const RwRows *rows = rw_net_rows (net);
  g_autoptr (GArray) keyed = rw_keyed_rows_new ();

  for (guint i = 0; i < rows->n; i++)
    {
      const RwNetDevice *talker = &net->devices[rows->from[i]];

      if (streams->row_stream[i] == RW_NONE
          && rw_stream_max_channels (talker->sample_rate_hz, talker->word_bits, rw_rig_system (rig)->packet_time_us) == 0)
        rw_keyed_rows_add (keyed, rows->from[i], i);
    }
  rw_keyed_rows_report (keyed, rule, rig, net, findings, report);
}

const RwRule rw_rule_stream_too_big = {
  .code = "stream-too-big",
  .severity = RW_SEVERITY_ERROR,
  .title = N_("Packet too big for one channel"),
  .why = N_("A packet holds the samples of one packet time, and must fit into one frame. At a high sample rate and a long packet "
            "time not even one channel fits."),
  .remedy = N_("Choose a shorter packet time, a lower sample rate or a shorter word."),
  .check = check,
};
