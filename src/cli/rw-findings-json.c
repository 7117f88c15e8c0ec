/* SPDX-License-Identifier: MIT */
#include "rw-findings-json.h"

#include <glib/gi18n-lib.h>

#include "rw-out-json.h"

static void
add_count (RwOut *out, const char *name, const RwFindings *findings, RwSeverity severity)
{
  rw_out_integer (out, name, rw_findings_count (findings, severity));
}

static void
add_ports (RwOut *out, char **ports)
{
  rw_out_begin_array (out, "ports");
  for (; *ports != NULL; ports += 2)
    {
      rw_out_begin_array (out, NULL);
      rw_out_text (out, NULL, ports[0]);
      rw_out_text (out, NULL, ports[1]);
      rw_out_end_array (out);
    }
  rw_out_end_array (out);
}

/* "/channel/DEVICE/SIDE/NUMBER" becomes [DEVICE, SIDE, NUMBER]. */
static void
add_channels (RwOut *out, char **keys)
{
  rw_out_begin_array (out, "channels");
  for (; *keys != NULL; keys++)
    {
      g_auto (GStrv) parts = g_strsplit (*keys, "/", 5);

      rw_out_begin_array (out, NULL);
      rw_out_text (out, NULL, parts[2]);
      rw_out_text (out, NULL, parts[3]);
      rw_out_integer (out, NULL, g_ascii_strtoll (parts[4], NULL, 10));
      rw_out_end_array (out);
    }
  rw_out_end_array (out);
}

static void
add_finding (RwOut *out, const RwFinding *finding)
{
  rw_out_begin_object (out, NULL);
  rw_out_text (out, "code", finding->rule->code);
  rw_out_text (out, "severity", rw_severity_word (finding->severity));
  rw_out_text (out, "message", finding->message);
  rw_out_text (out, "why", _(finding->rule->why));
  rw_out_text (out, "remedy", _(finding->rule->remedy));
  rw_out_ids (out, "devices", finding->devices);
  add_ports (out, finding->ports);
  rw_out_ids (out, "cables", finding->cables);
  rw_out_ids (out, "rows", finding->rows);
  add_channels (out, finding->channels);
  rw_out_end_object (out);
}

/**
 * rw_findings_to_json: writes one object: the rig's name, the counts, the findings.
 * @rig: the name of the rig, UTF-8
 */
void
rw_findings_to_json (const RwFindings *findings, const char *rig, RwOut *out)
{
  g_return_if_fail (findings != NULL && rig != NULL && out != NULL);

  rw_out_begin_object (out, NULL);
  rw_out_text (out, "rig", rig);
  add_count (out, "errors", findings, RW_SEVERITY_ERROR);
  add_count (out, "warnings", findings, RW_SEVERITY_WARNING);
  add_count (out, "notes", findings, RW_SEVERITY_NOTE);
  rw_out_begin_array (out, "findings");
  for (guint i = 0; i < rw_findings_n (findings); i++)
    add_finding (out, rw_findings_get (findings, i));
  rw_out_end_array (out);
  rw_out_end_object (out);
}
