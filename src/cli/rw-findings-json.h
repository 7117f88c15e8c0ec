/* SPDX-License-Identifier: MIT */
#pragma once

#include <json-glib/json-glib.h>
#include <rules/rw-rule.h>

G_BEGIN_DECLS

/* The JSON form of findings, of which other programs may rely on the names and the order of the members. */
void rw_findings_to_json (const RwFindings *findings, const char *rig, JsonBuilder *builder);

G_END_DECLS
