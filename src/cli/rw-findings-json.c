/* SPDX-License-Identifier: MIT */
#include "rw-findings-json.h"

#include <glib/gi18n-lib.h>

#include "rw-out-json.h"

static void
add_count (JsonBuilder *builder, const char *name, const RwFindings *findings, RwSeverity severity)
{
  rw_out_integer (builder, name, rw_findings_count (findings, severity));
}

static void
add_ports (JsonBuilder *builder, char **ports)
{
  json_builder_set_member_name (builder, "ports");
  json_builder_begin_array (builder);
  for (; *ports != NULL; ports += 2)
    {
      json_builder_begin_array (builder);
      json_builder_add_string_value (builder, ports[0]);
      json_builder_add_string_value (builder, ports[1]);
      json_builder_end_array (builder);
    }
  json_builder_end_array (builder);
}

/* "/channel/DEVICE/SIDE/NUMBER" becomes [DEVICE, SIDE, NUMBER]. */
static void
add_channels (JsonBuilder *builder, char **keys)
{
  json_builder_set_member_name (builder, "channels");
  json_builder_begin_array (builder);
  for (; *keys != NULL; keys++)
    {
      g_auto (GStrv) parts = g_strsplit (*keys, "/", 5);

      json_builder_begin_array (builder);
      json_builder_add_string_value (builder, parts[2]);
      json_builder_add_string_value (builder, parts[3]);
      json_builder_add_int_value (builder, g_ascii_strtoll (parts[4], NULL, 10));
      json_builder_end_array (builder);
    }
  json_builder_end_array (builder);
}

static void
add_finding (JsonBuilder *builder, const RwFinding *finding)
{
  json_builder_begin_object (builder);
  rw_out_text (builder, "code", finding->rule->code);
  rw_out_text (builder, "severity", rw_severity_word (finding->severity));
  rw_out_text (builder, "message", finding->message);
  rw_out_text (builder, "why", _(finding->rule->why));
  rw_out_text (builder, "remedy", _(finding->rule->remedy));
  rw_out_ids (builder, "devices", finding->devices);
  add_ports (builder, finding->ports);
  rw_out_ids (builder, "cables", finding->cables);
  rw_out_ids (builder, "rows", finding->rows);
  add_channels (builder, finding->channels);
  json_builder_end_object (builder);
}

/**
 * rw_findings_to_json: adds one object to @builder: the rig's name, the counts, the findings.
 * @rig: the name of the rig, UTF-8
 */
void
rw_findings_to_json (const RwFindings *findings, const char *rig, JsonBuilder *builder)
{
  g_return_if_fail (findings != NULL && rig != NULL && builder != NULL);

  json_builder_begin_object (builder);
  rw_out_text (builder, "rig", rig);
  add_count (builder, "errors", findings, RW_SEVERITY_ERROR);
  add_count (builder, "warnings", findings, RW_SEVERITY_WARNING);
  add_count (builder, "notes", findings, RW_SEVERITY_NOTE);
  json_builder_set_member_name (builder, "findings");
  json_builder_begin_array (builder);
  for (guint i = 0; i < rw_findings_n (findings); i++)
    add_finding (builder, rw_findings_get (findings, i));
  json_builder_end_array (builder);
  json_builder_end_object (builder);
}
