/* SPDX-License-Identifier: MIT */
#pragma once

#include <rules/rw-rule.h>

#include "rw-out-json.h"

G_BEGIN_DECLS

/* The JSON form of findings, of which other programs may rely on the names and the order of the members. */
void rw_findings_to_json (const RwFindings *findings, const char *rig, RwOut *out);

G_END_DECLS
